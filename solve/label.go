// Layer: verdict.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// A label is what a plus or minus says of a motion. Whether the drawing goes that way is
// decided here: it agrees or contradicts where both the velocity at neutral and the way
// from there to the end of the travel are clear; anything else is not judged.

// clearCosine is the least cosine between a motion and a direction, or its opposite, at
// which the one is said to go the way of the other: within 60 degrees of it.
const clearCosine = 0.5

// cosine is that between a vector and a direction at length 1; 0 where the vector is as
// good as none.
func cosine(v, along vec, noise float64) float64 {
	n := v.Norm()
	if n <= noise {
		return 0
	}
	return math.Max(-1, math.Min(1, v.Dot(along)/n))
}

// judgeLabel takes one label into the judgement of what it is of: side is 1 for plus and
// -1 for minus, sign how the control goes as the labeled figure rises.
func (j *Judgement) judgeLabel(s *sweeper, g way, along vec, side, sign float64, which string) {
	goes := float64(side * sign)
	end := 0
	if goes > 0 {
		end = 1
	}
	travel := math.Abs(s.sweep.Ends[end].At)
	j.takeCosine(
		cosine(g.velocity.Scale(goes), along, g.noise),
		cosine(g.toEnd[end], along, float64(g.noise*travel)),
		s.sweep.Index, which)
}

// takeCosine takes the cosines of a motion at neutral and of its way to the end into a
// judgement: the smaller counts where several are judged.
func (j *Judgement) takeCosine(atNeutral, toEnd float64, sweep int, which string) {
	switch {
	case math.Max(atNeutral, toEnd) < -clearCosine:
	case math.Min(atNeutral, toEnd) > clearCosine:
	default:
		return
	}
	if j.worse(atNeutral, nil, sweep, -1) {
		j.End = which
	}
}

// takeDirection is takeCosine of what goes in one direction all the way.
func (j *Judgement) takeDirection(goes, along vec, sweep int, which string) {
	to := cosine(goes, along, 0)
	j.takeCosine(to, to, sweep, which)
}

// judgeLabels judges the labels of every control, then of every output, in the file's
// order, and lists what came of those that can be judged.
func (m *Mechanism) judgeLabels(sweeps []*sweeper) (list []Judgement) {
	labeled := m.labeled()
	for i := range labeled {
		k := &labeled[i]
		j := Judgement{Requirement: k.requirement}
		if c := k.requirement.Of[0].Control; c != nil {
			if s := nearestNeutral(sweeps, c); s != nil {
				j.judgeWords(s, k.words, 1)
			}
			j.judgeTwist(m.run.Home(c.In), c)
		} else {
			m.judgeOutputLabels(&j, sweeps, k)
		}
		if j.Worst != nil {
			j.decide(0, -1)
			list = append(list, j)
		}
	}
	return list
}

// nearestNeutral is the sweep of a control in which the others stand nearest to neutral,
// the first of several; nil where there is none.
func nearestNeutral(sweeps []*sweeper, c *linkage.Control) (best *sweeper) {
	least := math.Inf(1)
	for _, s := range sweeps {
		if s.sweep.Control != c {
			continue
		}
		off := 0.0
		for _, h := range s.sweep.Held {
			off = math.Max(off, math.Abs(h.At))
		}
		if off < least {
			best, least = s, off
		}
	}
	return best
}

// judgeWords judges what is labeled in a sweep; sign is how the control goes as the labeled
// figure rises.
func (j *Judgement) judgeWords(s *sweeper, list []labelWords, sign float64) {
	for i := range list {
		k := &list[i]
		if k.place == nil {
			j.takeDirection(k.goes, k.along, s.sweep.Index, k.which)
		} else if g, ok := s.wayOf(*k.place); ok {
			j.judgeLabel(s, g, k.along, k.side, sign, k.which)
		}
	}
}

// judgeTwist takes in which way a control turns, as a person beside it sees it.
func (j *Judgement) judgeTwist(run *linkage.Run, c *linkage.Control) {
	if c.Twist == nil {
		return
	}
	from, ok := c.Twist.Toward(run, c.Of)
	if !ok {
		return
	}
	// A turn that is positive by the right-hand rule goes counterclockwise for whoever
	// the axis points at.
	if c.Twist.Clockwise {
		from = from.Scale(-1)
	}
	j.takeDirection(c.Of.Axis, from, j.Sweep, "turns")
}

// judgeOutputLabels judges an output's labels in the sweep that moves it most.
func (m *Mechanism) judgeOutputLabels(j *Judgement, sweeps []*sweeper, k *labeled) {
	o := k.requirement.Of[0].Output
	var s *sweeper
	most := 0.0
	for _, c := range m.run.Controls {
		at := nearestNeutral(sweeps, c)
		if at == nil || !at.origin.valid {
			continue
		}
		probe := at.outputs[o.Index]
		if math.Abs(at.origin.dv[probe]) <= at.p.perControl(float64(at.p.probes[probe].noise/valueNoise*slopeNoise)) {
			continue // its control doesn't move it
		}
		if e := at.sweep.Outputs[o.Index]; s == nil || e.Most-e.Least > most {
			s, most = at, e.Most-e.Least
		}
	}
	if s == nil {
		return
	}
	sign := math.Copysign(1, s.origin.dv[s.outputs[o.Index]])
	j.judgeWords(s, k.words, sign)
}

// notJudged lists the controls and outputs of which it was not judged which way they go:
// none of their labels was, and no sense that is told by places ties them.
func (r *Result) notJudged(sweeps []*sweeper) (list []linkage.Subject) {
	judged := func(of linkage.Subject) bool {
		for i := range r.Labels {
			if r.Labels[i].Requirement.Of[0] == of {
				return true
			}
		}
		return false
	}
	turns := func(c *linkage.Control) bool { // the file says which way a rotor turns
		return slices.ContainsFunc(sweeps, func(s *sweeper) bool { return s.sweep.Control == c && s.sweep.TurnsRotor() })
	}
	for _, c := range r.Run.Controls {
		if of := (linkage.Subject{Control: c}); !judged(of) && !turns(c) && !r.tiesControl(sweeps, c) {
			list = append(list, of)
		}
	}
	for _, o := range r.Run.Outputs {
		if of := (linkage.Subject{Output: o}); !judged(of) && PitchSign(r.Run, o) == 0 && o.Tilts == nil && !r.tiesOutput(o) {
			list = append(list, of)
		}
	}
	return list
}

// tiesControl reports whether a sense told by places was judged in a sweep of a control.
func (r *Result) tiesControl(sweeps []*sweeper, c *linkage.Control) bool {
	for i := range r.Requirements {
		j := &r.Requirements[i]
		if j.Requirement.Places == nil || j.Verdict == CannotTell {
			continue
		}
		for _, s := range sweeps {
			if s.sweep.Control == c && s.m.concerns(c, j.Requirement) && s.movesPlace(j.Requirement.Places[0].Place) {
				return true
			}
		}
	}
	return false
}

// tiesOutput reports whether a sense told by places is of a place on what an output shows.
func (r *Result) tiesOutput(o *linkage.Output) bool {
	for i := range r.Requirements {
		j := &r.Requirements[i]
		if j.Requirement.Places == nil || j.Verdict == CannotTell {
			continue
		}
		for _, k := range j.Requirement.Places {
			switch {
			case o.Part != nil && k.Place.Part == o.Part,
				o.SeenAt != nil && k.Place.Get() == o.SeenAt.Get(),
				o.Point != nil && k.Place.Part == o.Point.Part && k.Place.Rod == o.Point.Rod:
				return true
			}
		}
	}
	return false
}
