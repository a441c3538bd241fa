// Layer: values.

package solve

import (
	"slices"

	"fullfree/solve/survey"
)

// Doubt is why nothing that is told of a run on its survey is sure; nil where that
// isn't so: also where nothing hangs on the places that the survey leaves open, or
// some of the requirements don't, and each tells its own (Judgement.Untied).
func (r *Result) Doubt() *survey.Doubt {
	if r.Survey == nil {
		return nil
	}
	if slices.ContainsFunc(r.Requirements, func(j Judgement) bool { return j.Untied != nil && !*j.Untied }) {
		return r.Survey.DoubtWith(nil, false)
	}
	open := slices.DeleteFunc(r.Survey.Open(), func(p *survey.Point) bool { return p.Idle })
	return r.Survey.DoubtWith(open, r.Survey.NeedsDirection)
}
