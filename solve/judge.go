// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
)

// judgeOne judges a requirement over the sweeps that it is about.
func (m *Mechanism) judgeOne(i int, r *linkage.Requirement, about []*sweeper) Judgement {
	switch r.Kind {
	case linkage.Opposite, linkage.Together, linkage.Steady:
		return m.judgeLargest(i, r, about)
	case linkage.Travel:
		return m.judgeTravel(i, r, about)
	case linkage.Sense:
		return m.judgeSense(i, r, about)
	case linkage.Clearance:
		return m.judgeClearance(i, r, about)
	case linkage.RodAngle:
		return m.judgeRodAngle(r, about)
	case linkage.Misalignment:
		return m.judgeMisalignment(r, about)
	case linkage.OverCenter:
		return m.judgeOverCenter(r, about)
	case linkage.Stops:
		return judgeStops(about)
	case linkage.Order:
		return judgeOrder(r, about)
	case linkage.Engagement:
		return m.judgeEngagement(r)
	case linkage.SecondPath:
		return m.judgeSecondPath(r, about)
	case linkage.Taut:
		return m.judgeTaut(r, about)
	case linkage.Meets:
		return m.judgeMeets(i, r, about)
	case linkage.Neutral:
		return m.judgeNeutral(r, about)
	case linkage.Symmetrical:
		return m.judgeSymmetrical(i, r, about)
	case linkage.Reading:
		return m.judgeReading(i, r, about)
	case linkage.FreePlay:
		return judgeFreePlay(r, about)
	case linkage.CollectivePitch, linkage.CyclicPitch:
		return m.judgePitch(i, r, about)
	case linkage.CyclicSense:
		return m.judgeCyclicSense(i, r, about)
	}
	panic("solve: a requirement of no known kind: " + string(r.Kind))
}

// worse takes a figure into the judgement if it is worse than what is there:
// larger where sign is +1, smaller where it is -1.
func (j *Judgement) worse(v float64, at *float64, sweep int, sign float64) bool {
	if j.Worst != nil && sign*v <= sign**j.Worst {
		return false
	}
	worst := v // on its own, so that what isn't worse takes no room
	j.Worst, j.At, j.Sweep = &worst, at, sweep
	return true
}

// decide sets the verdict: the worst figure must not be more than the limit
// (sign +1), or not less (sign -1).
func (j *Judgement) decide(limit, sign float64) {
	j.Limit = limit
	if j.Worst == nil {
		return
	}
	j.Verdict = FallsShort
	if sign*(*j.Worst-limit) <= judgeNoise {
		j.Verdict = Holds
	}
}

func (m *Mechanism) judgeLargest(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	for _, s := range about {
		k := s.probeOf(i)
		t := s.trackers[k.probe]
		from := 0.0
		if r.Kind == linkage.Steady {
			from = s.origin.v[k.probe]
		}
		j.Unit = k.unit
		v, at := math.Abs(t.most-from), t.mostAt
		if low := math.Abs(t.least - from); low > v+s.p.probes[k.probe].noise {
			v, at = low, t.leastAt
		}
		j.worse(v, s.where(k.probe, at), s.sweep.Index, 1)
	}
	j.decide(r.Within, 1)
	return j
}

func (m *Mechanism) judgeTravel(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	for _, s := range about {
		k := s.probeOf(i)
		t := s.trackers[k.probe]
		j.Unit = k.unit
		if j.worse(math.Abs(t.least-r.Low), s.where(k.probe, t.leastAt), s.sweep.Index, 1) {
			j.End, j.Reaches = "low", t.least
		}
		if j.worse(math.Abs(t.most-r.High), s.where(k.probe, t.mostAt), s.sweep.Index, 1) {
			j.End, j.Reaches = "high", t.most
		}
	}
	j.decide(r.Within, 1)
	return j
}

func (m *Mechanism) judgeSense(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	moves := false
	var asides []Aside
	for _, s := range about {
		k := s.probeOf(i)
		j.Unit = k.unit
		first := s.trackers[k.first]
		noise := s.p.probes[k.first].noise
		if math.Max(math.Abs(first.least), math.Abs(first.most)) <= noise {
			continue // this control doesn't move it
		}
		if r.Places != nil && !s.movesPlace(r.Places[0].Place) {
			continue // it does so only away from neutral
		}
		moves = true
		if !m.lean { // of a build nobody asks for them
			asides = append(asides, s.asides(k)...)
		}
		for _, v := range s.reversals {
			if v.requirement == i && j.Why != DrivesReversed {
				j = Judgement{Verdict: FallsShort, Why: DrivesReversed, At: &v.x, Sweep: s.sweep.Index, Unit: k.unit}
			}
		}
		if t := s.trackers[k.probe]; j.Why != DrivesReversed && t.seen {
			j.worse(t.least, s.where(k.probe, t.leastAt), s.sweep.Index, -1)
		}
	}
	j.Aside = asides
	switch {
	case j.Why == DrivesReversed:
	case r.Places != nil && (!moves || j.Worst == nil):
		j.Why = NeverAlong
	case !moves:
		j.Why = NeverMoves
	case j.Worst != nil && math.Abs(*j.Worst) <= judgeNoise:
		j.Why = HaltsOrNoise
	default:
		j.decide(0, -1)
	}
	return j
}

func (m *Mechanism) judgeClearance(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	for _, s := range about {
		k := s.probeOf(i)
		j.Unit = k.unit
		if k.apart {
			j.Verdict, j.Why, j.Limit = Holds, NeverMeet, r.Least
			return j
		}
		t := s.trackers[k.probe]
		j.worse(t.least, s.where(k.probe, t.leastAt), s.sweep.Index, -1)
	}
	j.decide(r.Least, -1)
	return j
}

func (m *Mechanism) judgeRodAngle(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Unit = degrees
	for _, s := range about {
		for l, rod := range m.run.Rods {
			a := s.sweep.Rods[l].Angle
			if !rod.SecondPath && isAbout(r, rod.In) && j.worse(a.Least, a.At, s.sweep.Index, -1) {
				j.Rod = rod
			}
		}
	}
	j.decide(r.Least, -1)
	return j
}

func (m *Mechanism) judgeMisalignment(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Unit = degrees
	limit := 0.0
	if r.Most != nil {
		limit = *r.Most
	}
	for _, s := range about {
		for l, rod := range m.run.Rods {
			if !isAbout(r, rod.In) {
				continue
			}
			own := 0.0
			if r.Most == nil {
				if rod.Misalignment == nil {
					continue
				}
				own = *rod.Misalignment
			}
			for i, side := range []string{"from", "to"} {
				probe := s.tilts[l][i]
				t := s.trackers[probe]
				at := t.mostAt
				if -t.least > t.most {
					at = t.leastAt
				}
				if j.worse(asinDegrees(s.largest(probe))-own, s.where(probe, at), s.sweep.Index, 1) {
					j.Rod, j.End = rod, side
				}
			}
		}
	}
	j.decide(limit, 1)
	return j
}

func (m *Mechanism) judgeOverCenter(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	var beyond Judgement // the least explored beyond an end where nothing is found
	for _, s := range about {
		w := s.sweep
		if w.TurnsRotor() {
			beyond.worse(w.High-w.Low, nil, w.Index, -1) // that is all there is
			continue
		}
		j.Unit = w.Unit
		for i := range w.Critical {
			c := &w.Critical[i]
			if j.worse(c.Margin, &c.At, w.Index, -1) {
				j.Part, j.Rod, j.Cable, j.End = c.Part, c.Rod, c.Cable, sideOf(c.At)
			}
		}
		for i, sd := range s.sides {
			if _, found := s.margin(sd); !found {
				beyond.worse(math.Abs(w.Explored[i])-math.Abs(sd.holdsAt()), &w.Explored[i], w.Index, -1)
			}
		}
	}
	short := beyond.Worst != nil && *beyond.Worst < r.Least-judgeNoise
	if j.Worst == nil {
		j.Worst, j.At, j.Sweep, j.NoneFound = beyond.Worst, nil, beyond.Sweep, true
	}
	j.decide(r.Least, -1)
	if short && (j.NoneFound || j.Verdict == Holds) {
		j.Verdict, j.Why = CannotTell, NotExplored
	}
	return j
}

// sideOf names the side of neutral on which x lies.
func sideOf(x float64) string {
	if x >= 0 {
		return "high"
	}
	return "low"
}

// judgeStops counts the ends at which no stop holds the control: stops limit the
// pilot's control positively (14 CFR 29.675, read in part; 27.675 alike, from
// memory).
func judgeStops(about []*sweeper) (j Judgement) {
	for _, s := range about {
		if s.sweep.TurnsRotor() {
			continue
		}
		without := 0.0
		for _, e := range s.sweep.Ends {
			if !e.HoldsControl() {
				without++
			}
		}
		j.worse(without, nil, s.sweep.Index, 1)
	}
	j.decide(0, 1)
	return j
}

// judgeOrder finds by how much one stop bites before another would, on every
// side where it bites. Where it bites nowhere but the other does, it comes too
// late by what was explored beyond the other.
func judgeOrder(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Limit = r.Least
	var late Judgement
	short, open := false, false
	for _, s := range about {
		j.Unit = s.sweep.Unit
		for _, sd := range s.sides {
			first, then := sd.bites[r.First.Index], sd.bites[r.Then.Index]
			looked := math.Abs(sd.w.last.x)
			if first == nil {
				if then != nil && late.worse(math.Abs(*then)-looked, then, s.sweep.Index, -1) {
					late.End = s.sideName(sd)
				}
				continue
			}
			lead := looked - math.Abs(*first) // at least, where the other isn't met
			if then != nil {
				lead = math.Abs(*then) - math.Abs(*first)
			}
			less := lead < r.Least-judgeNoise
			short = short || less && then != nil
			open = open || less && then == nil && sd.w.singularity == nil
			if j.worse(lead, first, s.sweep.Index, -1) {
				j.End, j.NotMet = s.sideName(sd), then == nil
			}
		}
	}
	switch {
	case j.Worst == nil && late.Worst == nil:
		j.Why = NeitherBites
	case j.Worst == nil:
		j.Worst, j.At, j.Sweep, j.End, j.NotMet = late.Worst, late.At, late.Sweep, late.End, true
		j.Verdict = FallsShort
	case short:
		j.Verdict = FallsShort
	case open:
		j.Why = NotExplored
	default:
		j.Verdict = Holds
	}
	return j
}
