// Layer: questions.

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
	Name                   string
	Unit                   linkage.Unit // of a floating part "beam.x", "beam.y", "beam.turn"
	Neutral, AtLow, AtHigh *float64
	// Around is the mean of that over a full turn of the control, of an output that has a
	// cycle; else nil.
	Around *float64
}

// mostEffects is how many figures the effects of an answer may have, parts and outputs
// by ends by sweeps: some 50 MB.
const mostEffects = 200_000

// LimitEffects leaves out of a result the sweeps for whose effects there is no room; the
// first one stays.
func (m *Mechanism) LimitEffects(result *Result) {
	if m.made(result) != nil {
		return // another mechanism's: there is nothing of this one's to limit
	}
	ends := 0
	for _, rod := range m.run.Rods {
		ends += len(rod.Ends)
	}
	for _, c := range m.run.Cables {
		ends += len(c.Ends)
	}
	each := ends * (len(m.run.Parts) + len(m.run.Outputs))
	if room := max(1, mostEffects/max(1, each)); len(result.Sweeps) > room {
		result.SweepsLeftOut += len(result.Sweeps) - room
		result.Sweeps = result.Sweeps[:room]
	}
}

// Effects returns what a turn of every rod end does in every sweep: rods and
// their ends in the file's order, then sweeps. A turn of a barrel is one of both
// its ends. The error is of a result that isn't this mechanism's.
func (m *Mechanism) Effects(result *Result) (list []Effect, err error) {
	if err := m.made(result); err != nil {
		return nil, err
	}
	result = result.reading()
	for _, rod := range m.run.Rods {
		for _, e := range rod.Ends {
			for _, w := range result.Sweeps {
				list = append(list, w.of.effect(e))
			}
		}
	}
	return list, nil
}

func (s *sweeper) effect(e *linkage.RodEnd) Effect {
	probes := slices.Concat(s.parts, s.outputs)
	return Effect{End: e, Sweep: s.sweep.Index, PerTurn: s.perTurns(s.effectNames(), probes, grown{rod: e.Rod}, e.PerTurn())}
}

// effectNames are what every effect tells: parts, then outputs.
func (s *sweeper) effectNames() (list []PerTurn) {
	for _, p := range s.sweep.Parts {
		list = append(list, PerTurn{Name: p.Name, Unit: p.Unit})
	}
	for _, o := range s.sweep.Outputs {
		list = append(list, PerTurn{Name: o.Output.Name, Unit: o.Unit})
	}
	return list
}

// perTurns fills in how far each of the probes goes for one turn, which makes
// what grows longer, or takes it up, by per.
func (s *sweeper) perTurns(list []PerTurn, probes []int, g grown, per float64) []PerTurn {
	low, high := s.sides[0], s.sides[1]
	neutral := s.perTurn(probes, g, per, 0, -1)
	atLow, atHigh := s.perTurn(probes, g, per, low.end.x, low.onCenter()), s.perTurn(probes, g, per, high.end.x, high.onCenter())
	for i := range list {
		list[i].Neutral, list[i].AtLow, list[i].AtHigh = neutral[i], atLow[i], atHigh[i]
	}
	s.aroundTurns(list, len(s.sweep.Parts), g, per)
	return list
}

// grown is what an end makes longer, or an adjuster takes up: one of the two.
type grown struct {
	rod   *linkage.Rod
	cable *linkage.Cable
}

// of is the rate at which a constraint's length is to grow as it does.
func (g grown) of(l *constraint) float64 {
	switch {
	case l.rod != nil && l.rod == g.rod:
		return 1
	case l.cablePaths != nil && l.pair == nil && g.cable != nil && l.cablePaths[0].cable == g.cable:
		return -1
	}
	return 0
}

// perTurn is how far each of the probes goes at x for one turn. singular is the
// step that stands on center there, or -1.
func (s *sweeper) perTurn(probes []int, g grown, per, x float64, singular int) []*float64 {
	list := make([]*float64, len(probes))
	if !s.solveAt(x) {
		return list
	}
	p := *s.p
	p.passing, p.staying = samples{}, samples{}
	p.rates = s.m.newRates()
	p.unit = 1 // the rates are by the length of what grows
	s.m.grow(&p.st, p.rates, g, singular)
	for i, probe := range probes {
		_, rate := p.probes[probe].value(&p)
		list[i] = finite(float64(rate * per))
	}
	return list
}

// grow finds the rates of a closed pose as something grows, every control left
// where it stands: by the implicit function theorem, each step by itself as in
// differentiate. singular is a step that is known to stand on center, or -1;
// what such a step would have to move has no rate: NaN, which goes on to
// whatever hangs on it.
func (m *Mechanism) grow(st *state, r *rates, g grown, singular int) {
	clear(r.d)
	clear(r.dd)
	clear(r.moving)
	r.made++
	for i := range m.steps {
		s := &m.steps[i]
		if s.kind == closePull {
			m.pullAlong(st, r, i, g, singular)
			continue
		}
		n := len(s.unknowns)
		b, x := r.work[0][:n], r.work[1][:n]
		m.moveAll(st, r, s.before)
		m.moveAll(st, r, s.within)
		still := true
		for k, l := range s.constraints {
			b[k] = -m.lengthRate(st, r, l) + g.of(&m.constraints[l])
			still = still && b[k] == 0
		}
		if still {
			continue // nothing here goes with it
		}
		if i == singular || !m.factor(st, s, &r.lu) {
			for j := range x {
				x[j] = math.NaN()
			}
		} else {
			r.lu.Solve(x, b)
		}
		for j, f := range s.unknowns {
			r.d[f] = x[j]
		}
		m.moveAll(st, r, s.within)
	}
	m.moveAll(st, r, m.remains)
}

// pullAlong is what a pair has of that.
func (m *Mechanism) pullAlong(st *state, r *rates, i int, g grown, singular int) {
	r.valid = true
	m.differentiatePull(st, r, i, g.cable)
	if i == singular || !r.valid {
		s := &m.steps[i]
		r.d[s.unknowns[0]] = math.NaN()
		r.pulls[m.constraints[s.constraints[0]].pull].tension = [2]float64{math.NaN(), math.NaN()}
		m.moveAll(st, r, s.within)
	}
}
