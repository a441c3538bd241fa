// Layer: verdict.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// judgeNeutral judges where a part or an output stands at neutral against the drawing.
func (m *Mechanism) judgeNeutral(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	k := m.subjectMeasure(r.Of[0])
	k.reads = 0
	j.Unit = k.unit
	j.Reaches = m.neutralValue(&k)
	if len(about) > 0 {
		at := 0.0
		j.worse(math.Abs(j.Reaches), &at, about[0].sweep.Index, 1)
	}
	j.decide(r.Within, 1)
	return j
}

// neutralValue is a measure with every control at neutral.
func (m *Mechanism) neutralValue(k *measure) float64 {
	p := m.newPath(m.run.Controls[0])
	p.st.take(&m.neutral)
	return k.value(p)
}

// judgeReading judges what is read with the control at one place. A travel that ends
// before it falls short: the control can't be set there.
func (m *Mechanism) judgeReading(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	for _, s := range about {
		k := s.probeOf(i)
		j.Unit = k.unit
		if j.Why == NotReached {
			continue
		}
		x, end := s.placeOfReading(r)
		switch {
		case end >= 0 && s.sweep.Ends[end].Cause == ByLimit:
			continue // it couldn't be followed so far, and that is told
		case end >= 0:
			at := s.sweep.Ends[end].At
			j = Judgement{Verdict: FallsShort, Why: NotReached, At: &at, Sweep: s.sweep.Index, Unit: k.unit, Limit: r.Within}
			continue
		case !s.solveAt(x):
			continue
		}
		v, _ := s.p.probes[k.probe].value(s.p)
		if j.worse(math.Abs(v-r.Wants), &x, s.sweep.Index, 1) {
			j.Reaches = v
		}
	}
	if j.Why != NotReached {
		j.decide(r.Within, 1)
	}
	return j
}

// reaches takes a place that is outside of the travel by rounding alone to its end. end is
// the side on which the travel ends before it, -1 where it is reached.
func (w *Sweep) reaches(x float64) (inside float64, end int) {
	slack := float64(tieOfStops * (w.High - w.Low))
	switch {
	case x < w.Low-slack:
		return x, 0
	case x > w.High+slack:
		return x, 1
	}
	return math.Min(w.High, math.Max(w.Low, x)), -1
}

// placeOfReading is where the control stands for a reading, as reaches tells it: at the place that
// is written, or in an aircraft where the part of what was the run's own control comes to
// it, nearest to neutral.
func (s *sweeper) placeOfReading(r *linkage.Requirement) (x float64, end int) {
	if r.Through == nil {
		return s.sweep.reaches(r.At)
	}
	k := s.m.freedomMeasure(s.m.freedomOf(r.Through.Follows))
	off := func(x float64) float64 {
		if !s.solveAt(x) {
			return math.NaN()
		}
		return k.value(s.p) - r.At
	}
	first := off(0)
	if first == 0 {
		return 0, -1
	}
	var found *float64
	ends := [2]float64{}
	for i, sd := range s.sides {
		last, at := first, 0.0
		for _, knot := range s.knotsTo(sd.end.x) {
			v := off(knot)
			if v*last <= 0 && (found == nil || math.Abs(knot) < math.Abs(*found)) {
				zero := num.Root(off, at, last, knot, v)
				found = &zero
				break
			}
			last, at = v, knot
		}
		ends[i] = math.Abs(last)
	}
	switch {
	case found != nil:
		return *found, -1
	case ends[0] < ends[1]:
		return s.sweep.Low, 0
	}
	return s.sweep.High, 1
}

// knotsTo lists where samples were kept from neutral to x, x last.
func (s *sweeper) knotsTo(x float64) (list []float64) {
	for _, k := range s.knots {
		if k.x*x > 0 && math.Abs(k.x) < math.Abs(x) {
			list = append(list, k.x)
		}
	}
	if x < 0 {
		slices.Reverse(list)
	}
	return append(list, x)
}
