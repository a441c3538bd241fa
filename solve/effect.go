package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// Effect is what turning one rod end does in one sweep: "which end do I turn,
// and which way".
type Effect struct {
	End   *linkage.RodEnd
	Sweep int // index into Result.Sweeps
	// PerTurn has an entry for every one of Sweep.Parts, then of Sweep.Outputs.
	PerTurn []PerTurn
}

// PerTurn is how far a part or output goes for one turn out, every control left
// where it stands: at neutral, and at the ends of the travel as filed. It is a
// derivative: what a small part of a turn does, told for a whole one. nil where
// it would have to go through a part that stands on center.
type PerTurn struct {
	Name, Unit             string // of a floating part "beam.x", "beam.y", "beam.turn"
	Neutral, AtLow, AtHigh *float64
}

// Effects returns what a turn of every rod end does in every sweep: rods and
// their ends in the file's order, then sweeps. A turn of a barrel is one of both
// its ends. result must be this mechanism's.
func (m *Mechanism) Effects(result *Result) (list []Effect) {
	for _, rod := range m.run.Rods {
		for _, e := range rod.Ends {
			for _, w := range result.Sweeps {
				list = append(list, w.of.effect(e))
			}
		}
	}
	return list
}

func (s *sweeper) effect(e *linkage.RodEnd) Effect {
	low, high := s.sides[0], s.sides[1]
	neutral := s.perTurn(e, 0, -1)
	atLow, atHigh := s.perTurn(e, low.end.x, low.onCenter()), s.perTurn(e, high.end.x, high.onCenter())
	effect := Effect{End: e, Sweep: s.sweep.Index}
	add := func(name, unit string) {
		i := len(effect.PerTurn)
		effect.PerTurn = append(effect.PerTurn, PerTurn{name, unit, neutral[i], atLow[i], atHigh[i]})
	}
	for _, p := range s.sweep.Parts {
		add(p.Name, p.Unit)
	}
	for _, o := range s.sweep.Outputs {
		add(o.Output.Name, o.Unit)
	}
	return effect
}

// onCenter returns the step that is singular where the travel ends; -1: none.
func (sd *side) onCenter() int {
	if w := sd.w.stuck; w != nil && sd.end == w.at {
		return w.step
	}
	return -1
}

// perTurn is how far each part and output goes at x for one turn out of an end.
// singular is the step that stands on center there, or -1.
func (s *sweeper) perTurn(e *linkage.RodEnd, x float64, singular int) []*float64 {
	probes := slices.Concat(s.parts, s.outputs)
	list := make([]*float64, len(probes))
	if !s.standAt(x) {
		return list
	}
	p := *s.p
	p.rates = s.m.newRates()
	p.unit = 1 // the rates are by the rod's length
	s.m.lengthen(&p.st, p.rates, e.Rod, singular)
	for i, probe := range probes {
		_, rate := p.probes[probe].value(&p)
		v := float64(rate*e.PerTurn()) + 0 // no negative zero
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			list[i] = &v
		}
	}
	return list
}

// lengthen finds the rates of a closed pose as one rod grows, every control left
// where it stands: by the implicit function theorem, each step by itself as in
// differentiate. singular is a step that is known to stand on center, or -1;
// what such a step would have to move has no rate: NaN, which goes on to
// whatever hangs on it.
func (m *Mechanism) lengthen(st *state, r *rates, rod *linkage.Rod, singular int) {
	clear(r.d)
	clear(r.dd)
	clear(r.moving)
	for i := range m.steps {
		s := &m.steps[i]
		n := len(s.unknowns)
		b, x := r.work[0][:n], r.work[1][:n]
		m.moveAll(st, r, s.before)
		m.moveAll(st, r, s.within)
		still := true
		for k, l := range s.links {
			b[k] = -m.lengthRate(st, r, l)
			if m.links[l].rod == rod {
				b[k]++
			}
			still = still && b[k] == 0
		}
		if still {
			continue // nothing here goes with the rod
		}
		if i == singular || !m.factor(st, s, &r.lu) {
			for j := range x {
				x[j] = math.NaN()
			}
		} else {
			r.lu.solve(x, b)
		}
		for j, f := range s.unknowns {
			r.d[f] = x[j]
		}
		m.moveAll(st, r, s.within)
	}
	m.moveAll(st, r, m.remains)
}
