// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
)

// judgeFreePlay finds the most that a control or an output can be rocked, all joints lying
// off against each other.
func judgeFreePlay(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	untold := false
	surely := 0.0 // how far it rocks at the least
	for _, s := range about {
		for i := range s.sweep.FreePlay {
			f := &s.sweep.FreePlay[i]
			if f.Of != r.Of[0] {
				continue
			}
			j.Unit = f.Unit
			if f.Most == nil {
				untold = true
				continue
			}
			j.worse(*f.Most, f.At, s.sweep.Index, 1)
			if f.Least != nil {
				surely = math.Max(surely, *f.Least)
			} else {
				surely = math.Max(surely, *f.Most)
			}
		}
	}
	limit := 0.0
	if r.Most != nil {
		limit = *r.Most
	}
	j.decide(limit, 1)
	if j.Verdict == FallsShort && surely <= limit {
		j.Verdict, j.Why = CannotTell, PlayOfTwoDrawings
	}
	if untold && j.Verdict != FallsShort || j.Worst == nil {
		j.Verdict, j.Why = CannotTell, PlayUntold
	}
	return j
}
