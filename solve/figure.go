package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// figure is the worst value of a requirement as a function of the drawing, near
// where it was found.
type figure struct {
	value float64
	of    func(c *change) (v float64, ok bool)
}

// change is the mechanism with one dimension changed.
type change struct {
	m      *Mechanism
	sweeps []*sweeper // by Sweep.Index: set up, not explored; nil where not asked for
}

// changed rebuilds the mechanism with some numbers changed by a little, and sets up
// those sweeps of the result in it that it is about, nil for all; nil where it doesn't
// close then.
func (m *Mechanism) changed(result *Result, about map[int]bool, edits ...linkage.Edit) *change {
	n, ok := m.with(edits...)
	if !ok {
		return nil
	}
	c := &change{m: n}
	c.sweeps = make([]*sweeper, len(result.Sweeps))
	for _, w := range result.Sweeps {
		if about == nil || about[w.Index] {
			c.sweeps[w.Index] = n.newSweeper(w.Control, w.Held)
		}
	}
	return c
}

func (c *change) sweep(s *sweeper) *sweeper { return c.sweeps[s.sweep.Index] }

// value is a probe of a sweep in the changed run at moved, which is x or beside
// it, solved from the pose that the unchanged one has at x.
func (c *change) value(s *sweeper, probe int, x, moved float64) (v, dv float64, ok bool) {
	if !s.standAt(x) {
		return 0, 0, false
	}
	return c.solved(s, probe, moved, s.p.st.q)
}

// solved is value at x solved from a guess.
func (c *change) solved(s *sweeper, probe int, x float64, guess []float64) (v, dv float64, ok bool) {
	p := c.sweep(s).p
	if p.solve(x, guess) != allClosed {
		return 0, 0, false
	}
	c.m.differentiate(&p.st, p.rates, p.input)
	v, dv = p.probes[probe].value(p)
	return v, dv, !math.IsNaN(v)
}

// end is where a side of the travel ends in the changed run.
func (c *change) end(s *sweeper, sd *side) (x float64, ok bool) {
	switch {
	case sd.stop != nil:
		return c.bite(s, sd, sd.stop)
	case sd.w.stuck != nil && sd.end == sd.w.stuck.at:
		if now := c.singular(s, sd.w.stuck.x); now != nil {
			return now.x, true
		}
		return 0, false
	}
	return sd.end.x, true
}

// bite is where a stop bites in the changed run.
func (c *change) bite(s *sweeper, sd *side, stop *linkage.Stop) (x float64, ok bool) {
	x = *sd.bites[stop.Index]
	if stop.Of == s.sweep.Control.Of {
		return x, true // the control's own position
	}
	if !s.standAt(x) {
		return 0, false
	}
	s.m.differentiate(&s.p.st, s.p.rates, s.p.input)
	if gap, _ := s.p.probes[s.stops+stop.Index].value(s.p); math.Abs(gap) > foundAgain*s.m.stopNoise(stop) {
		return 0, false // it bites with a cable slack: the pose there is another
	}
	guess := s.p.st.q
	for range 2 { // Newton's method: the change is small
		v, dv, ok := c.solved(s, s.stops+stop.Index, x, guess)
		if !ok || dv == 0 || math.IsNaN(v/dv) {
			return 0, false
		}
		x -= v / dv
		guess = c.sweep(s).p.st.q
	}
	return x, true
}

// foundAgain is how many times the overlap of a stop that just touches it may be off
// where it was found to bite.
const foundAgain = 10

// holds is where the control itself is held on a side, or where none holds it the
// travel ends, in the changed run.
func (c *change) holds(s *sweeper, sd *side) (x float64, ok bool) {
	if sd.past != nil && sd.past.HoldsControl() {
		return c.bite(s, sd, sd.past.innermost().Stop)
	}
	return c.end(s, sd)
}

// localSteps is how many steps to either side of a critical point are walked
// to find it again in a changed run.
const localSteps = 4

// singular finds the singular place near x at which the walk ends again in a
// changed run; nil where it ends no more.
func (c *change) singular(s *sweeper, x float64) *critical {
	w := c.walkPast(s, x, func(*walk, *sample, *sample) {})
	if w == nil {
		return nil
	}
	return w.stuck
}

// critical finds a dead center near x again in a changed run: where the probe
// halts changes its sign.
func (c *change) critical(s *sweeper, x float64, halts int) (at float64, ok bool) {
	if s.atBorder(x) {
		return 0, false
	}
	c.walkPast(s, x, func(w *walk, a, b *sample) {
		for _, z := range w.zeros(a, b, halts) {
			if !ok || math.Abs(z-x) < math.Abs(at-x) {
				at, ok = z, true
			}
		}
	})
	return at, ok
}

// walkPast walks a changed run past x, outward, from and to localSteps beside it;
// nil where it doesn't close.
func (c *change) walkPast(s *sweeper, x float64, between func(w *walk, a, b *sample)) *walk {
	dir := 1.0
	if x < 0 {
		dir = -1
	}
	t := c.sweep(s)
	away := localSteps * s.p.longest
	from := x - float64(dir*away)
	if !s.standAt(from) || t.p.solve(from, s.p.st.q) != allClosed {
		return nil
	}
	samples := 0
	w := newWalk(t.p, dir, t.p.take(from), func(w *walk, a, b *sample) {
		between(w, a, b)
		if samples++; samples == mostLocal && !w.ended() {
			w.lost = true
		}
	})
	w.to(x + float64(dir*away))
	return w
}

// sideAt returns the side of the travel that ends at x; nil where x is inside.
func (s *sweeper) sideAt(x float64) *side {
	for _, sd := range s.sides {
		if sd.end.x == x {
			return sd
		}
	}
	return nil
}

// stuckAt returns the singular place that ends the travel at x, or just past it:
// from the last sample but one before it on, and of a change point from where poses
// lose their digits; nil where none does.
func (s *sweeper) stuckAt(x float64) *critical {
	for _, sd := range s.sides {
		w, near := sd.w, sd.before
		if w.stuck == nil || sd.end != w.stuck.at {
			continue
		}
		away, within := math.Abs(x-sd.end.x), 0.0
		if near != nil {
			within = math.Abs(*near - sd.end.x)
		}
		if w.stuck.kind == ChangePoint {
			within = max(within, besideCenter*s.p.sizeOf(s.p.input)/s.p.unit)
		}
		if away == 0 || away < within {
			return w.stuck
		}
	}
	return nil
}

// at is a probe where it was found at x: at an end of the travel it goes with
// that end. There is no telling at the border of a stretch in which a pair is
// slack, which goes elsewhere, with the kink that is there; nor of a rate just
// short of a singular place, where it hangs on how near that was looked.
func (c *change) at(s *sweeper, probe int, x float64) (v float64, ok bool) {
	sd := s.sideAt(x)
	switch stuck := s.stuckAt(x); {
	case stuck != nil && s.p.probes[probe].slope:
		return 0, false
	case stuck != nil:
		return c.atSingular(s, probe, stuck)
	case sd == nil && s.atBorder(x):
		return 0, false
	case sd == nil:
		v, _, ok = c.value(s, probe, x, x)
		return v, ok
	}
	moved, ok := c.end(s, sd)
	if !ok {
		return 0, false
	}
	v, _, ok = c.value(s, probe, x, moved)
	return v, ok
}

// atSingular is a probe at the singular place that ends the travel, as it is where
// that is found again: solved for on its own, from the control alone, a pose is
// known there to the root of rounding only. There is no telling at a change point,
// which a change does away with, nor where what floats between slack cables ends,
// which is found no better.
func (c *change) atSingular(s *sweeper, probe int, was *critical) (v float64, ok bool) {
	now := c.singular(s, was.x)
	if now == nil || now.kind != Toggle || was.kind != Toggle || c.m.floatsAt(now) {
		return 0, false
	}
	v = now.at.v[probe]
	return v, !math.IsNaN(v)
}

// floatsAt reports whether a singular place is one of a pair that is slack.
func (m *Mechanism) floatsAt(c *critical) bool {
	s := &m.steps[c.step]
	return s.kind == closePull && c.at.slack[m.links[s.links[0]].pull]
}

// atBorder reports whether a pair goes slack or comes taut at x.
func (s *sweeper) atBorder(x float64) bool {
	for _, stretches := range s.slack {
		for _, b := range stretches {
			if x == b[0] || x == b[1] {
				return true
			}
		}
	}
	return false
}

// figureOf returns the figure behind a judgement; nil where it has none, or
// none that depends on the drawing.
func (m *Mechanism) figureOf(j *Judgement, result *Result) *figure {
	if j.Worst == nil || j.Why != Plain && j.Why != HaltsOrNoise {
		return nil
	}
	s := result.Sweeps[j.Sweep].of
	x := 0.0
	if j.At != nil {
		x = *j.At
	}
	f := &figure{value: *j.Worst}
	r := j.Requirement
	switch r.Kind {
	case linkage.Opposite, linkage.Together, linkage.Steady, linkage.Travel, linkage.Sense, linkage.Clearance:
		f.of = s.probeFigure(j, x)
	case linkage.RodAngle:
		f.of = func(c *change) (float64, bool) {
			v, ok := c.at(s, j.Rod.Index, x)
			return asinDegrees(v), ok
		}
	case linkage.Misalignment:
		end, own := 0, 0.0
		if j.End == "to" {
			end = 1
		}
		if r.Most == nil {
			own = *j.Rod.Misalignment
		}
		f.of = func(c *change) (float64, bool) {
			v, ok := c.at(s, s.tilts[j.Rod.Index][end], x)
			return math.Abs(asinDegrees(v)) - own, ok
		}
	case linkage.SecondPath:
		l := j.Rod.Index
		if *j.Worst == 0 || !s.standAt(x) {
			return nil
		}
		sign := math.Copysign(1, m.offBy(&s.p.st, &m.links[l]))
		f.of = func(c *change) (float64, bool) {
			v, ok := c.at(s, s.needed[l], x)
			return float64(sign*(v-c.m.links[l].length)) - j.Rod.Play, ok
		}
	case linkage.OverCenter:
		if j.NoneFound {
			return nil
		}
		f.of = s.marginFigure(x)
	case linkage.Order:
		if j.NotMet {
			return nil
		}
		sd := s.sides[0]
		if j.End == "high" {
			sd = s.sides[1]
		}
		f.of = func(c *change) (float64, bool) {
			first, ok := c.bite(s, sd, r.First)
			then, also := c.bite(s, sd, r.Then)
			return math.Abs(then) - math.Abs(first), ok && also
		}
	case linkage.Taut:
		if *j.Worst == 0 {
			return nil // how much looser a slack one would be is no tension
		}
		f.of = func(c *change) (float64, bool) { return c.at(s, s.tensions[j.Cable.Index], x) }
	case linkage.Meets:
		probe := s.probeOf(slices.Index(m.run.Requirements, r)).probe
		f.of = func(c *change) (float64, bool) {
			v, _, ok := c.value(s, probe, 0, 0)
			return v, ok
		}
	default:
		return nil
	}
	return f
}

// probeFigure is the figure of a requirement that is a probe's.
func (s *sweeper) probeFigure(j *Judgement, x float64) func(c *change) (float64, bool) {
	r := j.Requirement
	for i := range s.judged {
		if s.m.run.Requirements[s.judged[i].requirement] != r {
			continue
		}
		probe := s.judged[i].probe
		if !s.standAt(x) {
			break
		}
		s.p.m.differentiate(&s.p.st, s.p.rates, s.p.input)
		now, _ := s.p.probes[probe].value(s.p)
		target := 0.0
		switch {
		case r.Kind == linkage.Steady:
			target = s.origin.v[probe]
		case r.Kind == linkage.Travel && j.End == "low":
			target = r.Low
		case r.Kind == linkage.Travel:
			target = r.High
		}
		sign := 1.0
		if r.Kind != linkage.Sense && r.Kind != linkage.Clearance {
			sign = math.Copysign(1, now-target)
		}
		return func(c *change) (float64, bool) {
			v, ok := c.at(s, probe, x)
			from := target
			if ok && r.Kind == linkage.Steady {
				from, _, ok = c.value(s, probe, 0, 0)
			}
			return float64(sign * (v - from)), ok
		}
	}
	return func(*change) (float64, bool) { return 0, false }
}

// marginFigure is the margin of the critical point at x.
func (s *sweeper) marginFigure(x float64) func(c *change) (float64, bool) {
	sd := s.sides[0]
	if x >= 0 {
		sd = s.sides[1]
	}
	halts, step := -1, -1
	if sd.w.stuck != nil {
		step = sd.w.stuck.step
	}
	for _, h := range s.dead {
		if h.x == x {
			halts, step = h.probe, h.step
		}
	}
	return func(c *change) (float64, bool) {
		if w := sd.w.stuck; w != nil && w.x == x && sd.end == w.at {
			return 0, true // the critical point is the end
		}
		at, found := x, false
		if halts >= 0 {
			at, found = c.critical(s, x, halts)
		} else if now := c.singular(s, x); now != nil {
			at, found = now.x, true
		}
		end, ends := c.end(s, sd)
		if step >= 0 && !s.hangsOn(sd, step) {
			end, ends = c.holds(s, sd)
		}
		return math.Abs(at) - math.Abs(end), found && ends
	}
}
