package recheck

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
)

// judgedOf lists how everything that is judged of a run came out, by a title that tells
// each from the others: what is required, what the run can't be set to, and words that
// the drawing contradicts.
func judgedOf(r *solve.Result) (titles []string, list []*solve.Judgement) {
	own := titlesOf(r.Run)
	for i := range r.Requirements {
		if i >= len(own) {
			break
		}
		title := own[i]
		if in := r.Run.Requirements[i].In; in != nil {
			title += " (" + in.Name + ")"
		}
		titles, list = append(titles, title), append(list, &r.Requirements[i])
	}
	for _, j := range slices.Concat(r.Settings(), r.Contradicted()) {
		titles, list = append(titles, string(j.Requirement.Kind)+" "+j.Requirement.Name), append(list, j)
	}
	return titles, list
}

// compareRequirements puts every requirement of either version beside what it was, those
// of the new one first.
func compareRequirements(old, now *solve.Result) []Required {
	titles, judged := judgedOf(now)
	before, was := judgedOf(old)
	then := map[string]*solve.Judgement{}
	for k, title := range before {
		then[title] = was[k]
	}
	var list []Required
	for i, title := range titles {
		list = append(list, Required{Title: title, Old: then[title], New: judged[i]})
		delete(then, title)
	}
	for k, title := range before {
		if then[title] != nil {
			list = append(list, Required{Title: title, Old: was[k]})
		}
	}
	return list
}

// Changed reports whether a requirement came, went, came out otherwise or has another
// worst value.
func (r Required) Changed() bool {
	if r.Old == nil || r.New == nil || r.Old.Verdict != r.New.Verdict || (r.Old.Worst == nil) != (r.New.Worst == nil) {
		return true
	}
	return r.New.Worst != nil && differ(*r.Old.Worst, r.Old.Unit, *r.New.Worst, r.New.Unit)
}

// differ reports whether two computed figures are two.
func differ(a float64, unit linkage.Unit, b float64, other linkage.Unit) bool {
	there, ok := convert(a, unit, other)
	return !ok || math.Abs(there-b) > figureNoise
}

// By is what makes an end: the stop, or the part that locks; empty where nothing does.
func By(e *solve.End) string {
	switch {
	case e == nil:
	case e.Stop != nil:
		return e.Stop.Name
	case e.Part != nil:
		return e.Part.Name
	}
	return ""
}

// Changed reports whether the end is elsewhere, or made by something else.
func (e Ends) Changed() bool {
	if e.Old == nil || e.New == nil || e.Old.Cause != e.New.Cause || By(e.Old) != By(e.New) {
		return true
	}
	return differ(e.Old.At, e.OldUnit, e.New.At, e.NewUnit)
}

// sweepsOf lists a control's sweeps, by its name.
func sweepsOf(r *solve.Result, control string) []*solve.Sweep {
	var list []*solve.Sweep
	for _, s := range r.Sweeps {
		if s.Control.Name == control {
			list = append(list, s)
		}
	}
	return list
}

// alike finds the sweep with the other controls held as in s; the first where none is.
func alike(list []*solve.Sweep, s *solve.Sweep) *solve.Sweep {
	for _, other := range list {
		if slices.EqualFunc(other.Held, s.Held, func(a, b solve.Held) bool { return a.Control.Name == b.Control.Name && a.At == b.At }) {
			return other
		}
	}
	if len(list) == 0 {
		return nil
	}
	return list[0]
}

// compareEnds puts both ends of every control of either version beside what they were.
func compareEnds(old, now *solve.Result) []Ends {
	var list []Ends
	for _, c := range now.Run.Controls {
		before := sweepsOf(old, c.Name)
		for side := range 2 {
			var told *Ends
			for _, s := range sweepsOf(now, c.Name) {
				e := Ends{Control: c.Name, Side: side, New: &s.Ends[side], NewUnit: s.Unit}
				if was := alike(before, s); was != nil {
					e.Old, e.OldUnit = &was.Ends[side], was.Unit
				}
				if told == nil || e.outweighs(told) {
					told = &e
				}
			}
			if told != nil {
				list = append(list, *told)
			}
		}
	}
	for _, c := range old.Run.Controls {
		if slices.ContainsFunc(now.Run.Controls, func(k *linkage.Control) bool { return k.Name == c.Name }) {
			continue
		}
		if sweeps := sweepsOf(old, c.Name); len(sweeps) > 0 {
			for side := range 2 {
				list = append(list, Ends{Control: c.Name, Side: side, Old: &sweeps[0].Ends[side], OldUnit: sweeps[0].Unit})
			}
		}
	}
	return list
}

// outweighs reports whether an end changed more than another: what makes it counts before
// where it is.
func (e *Ends) outweighs(other *Ends) bool {
	made := func(e *Ends) bool { return e.Old == nil || e.Old.Cause != e.New.Cause || By(e.Old) != By(e.New) }
	if made(e) != made(other) {
		return made(e)
	}
	moved := func(e *Ends) float64 {
		if e.Old == nil {
			return 0
		}
		was, _ := convert(e.Old.At, e.OldUnit, e.NewUnit)
		return math.Abs(e.New.At - was)
	}
	return moved(e) > moved(other)+figureNoise
}

// compareNeutral puts where every part stands at neutral beside where it stood.
func compareNeutral(old, now *solve.Result) []Stands {
	parts := func(r *solve.Result) []solve.PartTravel {
		if len(r.Sweeps) == 0 {
			return nil
		}
		return r.Sweeps[0].Parts
	}
	before, here := parts(old), parts(now)
	then := map[string]*solve.PartTravel{}
	for k := range before {
		then[before[k].Name] = &before[k]
	}
	var list []Stands
	for i := range here {
		p := &here[i]
		s := Stands{Part: p.Name, New: &p.Neutral, NewUnit: p.Unit}
		if was := then[p.Name]; was != nil {
			s.Old, s.OldUnit = &was.Neutral, was.Unit
		}
		delete(then, p.Name)
		list = append(list, s)
	}
	for k := range before {
		if p := then[before[k].Name]; p != nil {
			list = append(list, Stands{Part: p.Name, Old: &p.Neutral, OldUnit: p.Unit})
		}
	}
	return list
}

// Changed reports whether the part stands elsewhere, came or went.
func (s Stands) Changed() bool {
	return s.Old == nil || s.New == nil || differ(*s.Old, s.OldUnit, *s.New, s.NewUnit)
}
