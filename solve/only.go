// Layer: verdict.

package solve

import (
	"slices"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

// What an aircraft's result tells of one of its runs is itself a result: of that run's
// elements, over the sweeps that move any of them. Whoever tells or draws a run by itself
// does the same for one in an aircraft.

// Only returns what the result tells of a member of an aircraft. Its run is that of
// linkage.Run.Only, with every control that moves something of the member, the aircraft's
// other runs' too. A position that is asked of its sweeps is that of the whole aircraft.
func (r *Result) Only(member *linkage.Member) *Result {
	if r == nil || r.Run == nil || r.Run.Aircraft == nil || member == nil {
		return r
	}
	o := &onlyOne{run: r.Run.Only(member), member: member}
	only := &Result{Run: o.run, Survey: r.surveyOf(member), Verdict: Holds, SweepsLeftOut: r.SweepsLeftOut, SweepsSkipped: r.SweepsSkipped, BandsLeftOut: r.BandsLeftOut}
	o.addControls(r)
	places := make([]int, len(r.Sweeps))
	for i, w := range r.Sweeps {
		places[i] = max(0, len(only.Sweeps)-1)
		if c := o.controlOf(w.Control); c != nil {
			if places[i] = o.shownBy(w); places[i] == len(only.Sweeps) {
				o.shown = append(o.shown, w)
				only.Sweeps = append(only.Sweeps, o.sweep(w, len(only.Sweeps)))
			}
		}
	}
	o.tellApart(only.Sweeps)
	take := func(list []Judgement) (own []Judgement) {
		for _, j := range list {
			if j.Member() != member {
				continue
			}
			if q := o.run.Requirement(j.Requirement); q != nil {
				j.Requirement = q
			}
			j.Sweep = places[j.Sweep]
			j.Aside = slices.Clone(j.Aside)
			for k := range j.Aside {
				j.Aside[k].Sweep = places[j.Aside[k].Sweep]
			}
			own = append(own, j)
		}
		return own
	}
	if r.Rotor != nil && r.Rotor.Azimuth.In == member {
		only.Rotor = r.Rotor
	}
	only.Requirements, only.Labels, only.Unfit = take(r.Requirements), take(r.Labels), take(r.Unfit)
	for _, s := range r.NotJudged {
		if s.In() == member {
			only.NotJudged = append(only.NotJudged, s)
		}
	}
	for _, k := range r.CyclicNotJudged {
		if k.Output.In == member {
			only.CyclicNotJudged = append(only.CyclicNotJudged, k)
		}
	}
	for _, s := range r.SecondPaths {
		if s.Rod.In == member {
			if s.Sweep != nil {
				s.Sweep = only.Sweeps[places[s.Sweep.Index]]
			}
			only.SecondPaths = append(only.SecondPaths, s)
		}
	}
	only.Verdict = verdictOf(only)
	for _, k := range slices.Concat(checkable, checkableIn(o.run)) {
		across := slices.ContainsFunc(r.Requirements, func(j Judgement) bool {
			q := j.Requirement
			return q.Kind == k && q.In == nil && (len(q.Of) == 0 && q.Places == nil || j.names(member))
		})
		if !across && !o.run.Requires(k) {
			only.NotChecked = append(only.NotChecked, k)
		}
	}
	return only
}

// surveyOf is the survey of a member; nil where it has none.
func (r *Result) surveyOf(member *linkage.Member) *survey.Survey {
	if member.Index < len(r.Surveys) {
		return r.Surveys[member.Index]
	}
	return nil
}

// Runs lists what the result tells of each run of an aircraft, in the file's order; of a
// run by itself the result alone.
func (r *Result) Runs() []*Result {
	if r == nil || r.Run == nil || r.Run.Aircraft == nil {
		return []*Result{r}
	}
	list := make([]*Result, len(r.Run.Aircraft.Members))
	for i, m := range r.Run.Aircraft.Members {
		list[i] = r.Only(m)
	}
	return list
}

// Across lists what is required over several runs of an aircraft, as it came out; nothing
// of a run by itself.
func (r *Result) Across() (list []*Judgement) {
	if r == nil || r.Run == nil || r.Run.Aircraft == nil {
		return nil
	}
	for i := range r.Requirements {
		if j := &r.Requirements[i]; j.Requirement.In == nil {
			list = append(list, j)
		}
	}
	return list
}

// verdictOf is the verdict of all that a result judges.
func verdictOf(r *Result) Verdict {
	verdict := Holds
	for i := range r.Requirements {
		if v := r.Requirements[i].Verdict; v == FallsShort || v == CannotTell && verdict == Holds {
			verdict = v
		}
	}
	if len(r.Requirements) == 0 {
		verdict = CannotTell
	}
	if len(r.Contradicted()) > 0 || len(r.Unfit) > 0 {
		verdict = FallsShort
	}
	return verdict
}

// names reports whether a requirement names something of a member.
func (j *Judgement) names(member *linkage.Member) bool {
	q := j.Requirement
	if slices.ContainsFunc(q.Of, func(s linkage.Subject) bool { return s.In() == member }) {
		return true
	}
	return slices.ContainsFunc(q.Places, func(p linkage.PlaceMotion) bool { return p.Place.In() == member })
}

// addControls gives the member's run the controls of other runs that move something of it.
func (o *onlyOne) addControls(r *Result) {
	o.controls = map[*linkage.Control]*linkage.Control{}
	var list []*linkage.Control
	for _, c := range r.Run.Controls {
		i := slices.IndexFunc(r.Sweeps, func(w *Sweep) bool { return w.Control == c })
		if i < 0 || !r.Sweeps[i].of.m.movesIn(c, o.member) {
			continue
		}
		own := *c
		if there := o.run.Control(c); there != nil {
			own = *there
		}
		own.Index = len(list)
		o.controls[c] = &own
		list = append(list, &own)
	}
	o.run.Controls = list
	for _, q := range o.run.Requirements {
		if own := o.run.Control(q.Control); own != nil {
			q.Control = own
		}
	}
}
