// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
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
		x, end := s.sweep.reaches(r.At)
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
