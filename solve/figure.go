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
	sweeps []*sweeper // by Sweep.Index: set up, not explored
}

// changed rebuilds the mechanism with a dimension larger by a little, and sets
// up the sweeps of the result in it; nil where it doesn't close then.
func (m *Mechanism) changed(d linkage.Dimension, by float64, result *Result) *change {
	return m.changedWhile(m.run.Set(d, d.Value()+by), result)
}

// changedWhile is that with the run as it is until undo is called, which it is.
func (m *Mechanism) changedWhile(undo func(), result *Result) *change {
	defer undo()
	n, ok := m.rebuilt()
	if !ok {
		return nil
	}
	c := &change{m: n}
	for _, s := range result.Sweeps {
		c.sweeps = append(c.sweeps, n.newSweeper(s.Control, s.Held))
	}
	return c
}

func (c *change) sweep(s *sweeper) *sweeper { return c.sweeps[s.sweep.Index] }

// value is a probe of a sweep at x in the changed run, solved from the pose
// that the unchanged one has there.
func (c *change) value(s *sweeper, probe int, x float64) (v, dv float64, ok bool) {
	if !s.standAt(x) {
		return 0, 0, false
	}
	p := c.sweep(s).p
	if p.solve(x, s.p.st.q) != allClosed {
		return 0, 0, false
	}
	c.m.differentiate(&p.st, p.rates, p.input)
	v, dv = p.probes[probe].value(p)
	return v, dv, !math.IsNaN(v)
}

// valueBeside is value at a place beside x, to which an end at x has moved.
func (c *change) valueBeside(s *sweeper, probe int, x, moved float64) (float64, bool) {
	if !s.standAt(x) {
		return 0, false
	}
	p := c.sweep(s).p
	if p.solve(moved, s.p.st.q) != allClosed {
		return 0, false
	}
	c.m.differentiate(&p.st, p.rates, p.input)
	v, _ := p.probes[probe].value(p)
	return v, !math.IsNaN(v)
}

// end is where a side of the travel ends in the changed run.
func (c *change) end(s *sweeper, sd *side) (x float64, ok bool) {
	switch {
	case sd.stop != nil:
		return c.bite(s, sd, sd.stop)
	case sd.w.stuck != nil && sd.end == sd.w.stuck.at:
		return c.critical(s, sd.w.stuck.x, -1)
	}
	return sd.end.x, true
}

// bite is where a stop bites in the changed run.
func (c *change) bite(s *sweeper, sd *side, stop *linkage.Stop) (x float64, ok bool) {
	x = *sd.bites[stop.Index]
	if stop.Of == s.sweep.Control.Of {
		return x, true // the control's own position
	}
	probe := s.stops + stop.Index
	for range 2 { // Newton's method: the change is small
		v, dv, ok := c.value(s, probe, *sd.bites[stop.Index])
		if x != *sd.bites[stop.Index] {
			p := c.sweep(s).p
			if ok = p.solve(x, p.st.q) == allClosed; ok {
				c.m.differentiate(&p.st, p.rates, p.input)
				v, dv = p.probes[probe].value(p)
			}
		}
		if !ok || dv == 0 || math.IsNaN(v/dv) {
			return 0, false
		}
		x -= v / dv
	}
	return x, true
}

// localSteps is how many steps to either side of a critical point are walked
// to find it again in a changed run.
const localSteps = 4

// critical finds a critical point near x again in the changed run: where the
// walk ends, or, where halts isn't -1, where that probe changes its sign.
func (c *change) critical(s *sweeper, x float64, halts int) (at float64, ok bool) {
	dir := 1.0
	if x < 0 {
		dir = -1
	}
	t := c.sweep(s)
	away := localSteps * s.p.longest
	from := x - dir*away
	if !s.standAt(from) || t.p.solve(from, s.p.st.q) != allClosed {
		return 0, false
	}
	var zeros []float64
	w := newWalk(t.p, dir, t.p.take(from), func(w *walk, a, b *sample) {
		if halts >= 0 {
			zeros = append(zeros, w.zeros(a, b, halts)...)
		}
	})
	w.to(x + dir*away)
	if halts < 0 {
		if w.stuck == nil {
			return 0, false
		}
		return w.stuck.x, true
	}
	for _, z := range zeros {
		if !ok || math.Abs(z-x) < math.Abs(at-x) {
			at, ok = z, true
		}
	}
	return at, ok
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

// at is a probe where it was found at x: at an end of the travel it goes with
// that end.
func (c *change) at(s *sweeper, probe int, x float64) (v float64, ok bool) {
	sd := s.sideAt(x)
	if sd == nil {
		v, _, ok = c.value(s, probe, x)
		return v, ok
	}
	moved, ok := c.end(s, sd)
	if !ok {
		return 0, false
	}
	return c.valueBeside(s, probe, x, moved)
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
		sign := math.Copysign(1, s.p.st.lengthOf(&m.links[l])-m.links[l].length)
		f.of = func(c *change) (float64, bool) {
			v, ok := c.at(s, s.needed[l], x)
			return sign*(v-c.m.links[l].length) - j.Rod.Play, ok
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
			v, _, ok := c.value(s, probe, 0)
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
				from, _, ok = c.value(s, probe, 0)
			}
			return sign * (v - from), ok
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
	halts := -1
	for _, h := range s.dead {
		if h.x == x {
			halts = h.probe
		}
	}
	return func(c *change) (float64, bool) {
		if w := sd.w.stuck; w != nil && w.x == x && sd.end == w.at {
			return 0, true // the critical point is the end
		}
		at, found := c.critical(s, x, halts)
		end, ends := c.end(s, sd)
		return math.Abs(at) - math.Abs(end), found && ends
	}
}
