// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// CableEffect is what turning one adjuster of a cable does in one sweep.
type CableEffect struct {
	End   *linkage.CableEnd
	Sweep int // index into Result.Sweeps
	// PerTurn has an entry for every one of Sweep.Parts, then of Sweep.Outputs,
	// then the tension of every cable of a pair, by its name, in the file's order.
	PerTurn []PerTurn
	// Low and High are how far the ends of the travel go for a turn out, in the
	// control's unit; nil where there is no telling.
	Low, High *float64
	// Worst is how much the worst value of each requirement of the run goes for a
	// turn out, wherever it lies; nil where there is no telling.
	Worst []*float64
}

// Centering is how the cables of a pair are to be set so that what they hold
// stands exactly as drawn, the controls at neutral and the rest as it closes
// there, at the tension wanted. That is taken so that the mean of both tensions is
// the pretension: arms of different lengths are not balanced by equal ones.
type Centering struct {
	Pair    *linkage.Pair
	Part    *linkage.Part
	Tension [2]float64           // of each cable then
	Ends    [2]*linkage.CableEnd // the adjusters to be turned: the first of each cable
	Turns   [2]float64           // turns out from as filed; in where negative
}

// CableEffects returns what a turn out of every adjuster of a cable does in every
// sweep: cables and their adjusters in the file's order, then sweeps. The error is of
// a result that isn't this mechanism's.
func (m *Mechanism) CableEffects(result *Result) (list []CableEffect, err error) {
	if err := m.made(result); err != nil {
		return nil, err
	}
	if len(m.run.Cables) == 0 {
		return nil, nil
	}
	result = result.reading()
	b := m.newBands(result, nil)
	worst := make([]*told, len(result.Requirements))
	for i := range worst {
		worst[i] = b.of(&result.Requirements[i])
	}
	for _, c := range m.run.Cables {
		taken := b.slots.taken + c.Index
		for _, e := range c.Ends {
			pitch := e.Thread.Pitch
			each := make([]*float64, len(worst))
			for i, t := range worst {
				if t != nil && t.ok {
					each[i] = t.perTurn(result.Requirements[i].Requirement.Kind, taken, pitch)
				}
			}
			for _, w := range result.Sweeps {
				effect := w.of.cableEffect(e)
				effect.Worst = each
				effect.Low, effect.High = b.endPerTurn(w, 0, taken, pitch), b.endPerTurn(w, 1, taken, pitch)
				list = append(list, effect)
			}
		}
	}
	return list, nil
}

// perTurn is how much the worst of a requirement goes for a turn that takes a cable
// up by the pitch. Two points that meet part by all that it moves them.
func (t *told) perTurn(kind linkage.Kind, taken int, pitch float64) *float64 {
	if t.slope != nil {
		return finite(float64(t.slope.drawn[taken] * t.per * pitch))
	}
	if kind != linkage.Meets {
		return nil
	}
	apart := vec{}
	for i, axis := range []vec{{X: 1}, {Y: 1}, {Z: 1}} {
		apart = apart.Add(axis.Scale(float64(t.rests[i].drawn[taken] * pitch)))
	}
	return finite(apart.Norm())
}

// endPerTurn is how much an end of the travel goes for a turn that takes a cable up
// by the pitch.
func (b *bands) endPerTurn(w *Sweep, side, taken int, pitch float64) *float64 {
	g := b.in(w)
	if by, ok := g.end(g.s.sides[side]); ok {
		return finite(float64(by.drawn[taken] * pitch))
	}
	return nil
}

// finite returns a figure, or nil where there is none.
func finite(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v += 0 // no negative zero
	return &v
}

func (s *sweeper) cableEffect(e *linkage.CableEnd) CableEffect {
	probes := slices.Concat(s.parts, s.outputs)
	names := s.effectNames()
	for i, probe := range s.tensions {
		if probe >= 0 {
			probes = append(probes, probe)
			names = append(names, PerTurn{Name: s.m.run.Cables[i].Name, Unit: s.m.lengthUnit(s.m.run.Cables[i].In).ForceUnit()})
		}
	}
	return CableEffect{End: e, Sweep: s.sweep.Index, PerTurn: s.perTurns(names, probes, grown{cable: e.Cable}, e.Thread.Pitch)}
}

// Centerings returns how the cables of every pair are to be set so that what they
// hold stands as drawn, in the file's order; nil for a pair of which a cable has
// no adjuster.
func (m *Mechanism) Centerings() []*Centering {
	if !m.compiled() {
		return nil
	}
	list := make([]*Centering, len(m.pulls))
	for i := range m.pulls {
		p := &m.pulls[i]
		l := &m.constraints[p.constraint]
		if len(l.cablePaths[0].cable.Ends) == 0 || len(l.cablePaths[1].cable.Ends) == 0 {
			continue
		}
		// The part as drawn, the rest as it stands at neutral.
		st := m.newState()
		st.take(&m.neutral)
		s := &m.steps[p.step]
		m.balanceRates(&st, s, 0)
		now := m.swings(&st, l)
		c := &Centering{Pair: p.pair, Part: m.bodies[m.freedoms[p.freedom].body].part}
		for j := range c.Turns {
			k := &l.cablePaths[j]
			other := now[1-j].p1
			// T1 p1' + T2 p2' = 0 and T1 + T2 = twice the pretension.
			c.Tension[j] = 2 * p.pair.Pretension * other / (other - now[j].p1)
			c.Ends[j] = k.cable.Ends[0]
			c.Turns[j] = (c.Tension[j]-now[j].tension)/k.stiffness/c.Ends[j].Thread.Pitch + 0
		}
		list[i] = c
	}
	return list
}
