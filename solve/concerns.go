// Layer: path.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// Which controls a requirement is about. In a run by itself it is about all, or the one
// that it names. In an aircraft one of a member is about the controls that move something
// of that member, and one across runs about those that move what it names: elsewhere there
// is nothing that it could judge.

// reaches is what each control of an aircraft moves.
type reaches struct {
	freedoms [][]bool // by control and freedom
	members  [][]bool // by control and member
	of       []int    // by joint: the control that moves it most at neutral
}

// newReaches finds it for a mechanism that stands at neutral.
func (m *Mechanism) newReaches() *reaches {
	r := &reaches{of: make([]int, len(m.run.SameParts))}
	most := make([]float64, len(m.run.SameParts))
	for i, c := range m.run.Controls {
		p := m.newPath(c)
		p.st.take(&m.neutral)
		if m.differentiate(&p.st, p.rates, p.input); !p.rates.valid {
			continue
		}
		for j, s := range m.run.SameParts {
			// By how it goes for what the control goes, both as shares of a turn or the size.
			f := m.freedomOf(s.Follows)
			if share := float64(math.Abs(p.rates.d[f]) / m.sizeOf(f) * m.sizeOf(p.input)); share > most[j]*(1+num.Tie) {
				most[j], r.of[j] = share, i
			}
		}
	}
	for _, input := range m.inputs {
		moved := make([]bool, len(m.freedoms))
		moved[input] = true
		for j := range m.steps {
			s := &m.steps[j]
			if slices.ContainsFunc(s.given, func(f int) bool { return moved[f] }) {
				for _, f := range s.unknowns {
					moved[f] = true
				}
			}
		}
		members := make([]bool, len(m.run.Aircraft.Members))
		for f, yes := range moved {
			if part := m.bodies[m.freedoms[f].body].part; yes && part.In != nil {
				members[part.In.Index] = true
			}
		}
		r.freedoms, r.members = append(r.freedoms, moved), append(r.members, members)
	}
	return r
}

// movesBody reports whether a control moves a body, or what carries it.
func (m *Mechanism) movesBody(c *linkage.Control, b int) bool {
	moved := m.drives.freedoms[c.Index]
	return slices.ContainsFunc(m.under(b), func(u int) bool {
		first, count := m.freedomsOf(u)
		return slices.Contains(moved[first:first+count], true)
	})
}

// movesIn reports whether a control moves something of a member.
func (m *Mechanism) movesIn(c *linkage.Control, in *linkage.Member) bool {
	return m.drives.members[c.Index][in.Index]
}

// related reports whether two controls move something of one run, so that how the one
// stands may matter to what the other does. In a run by itself all do.
func (m *Mechanism) related(a, b *linkage.Control) bool {
	if m.run.Aircraft == nil {
		return true
	}
	for i, moves := range m.drives.members[a.Index] {
		if moves && m.drives.members[b.Index][i] {
			return true
		}
	}
	return false
}

// concerns reports whether a requirement is judged as a control is swept.
func (m *Mechanism) concerns(c *linkage.Control, r *linkage.Requirement) bool {
	switch {
	case isPitch(r.Kind) && !mayGoRound(c):
		return false
	case r.Control != nil && !(isPitch(r.Kind) && !mayGoRound(r.Control)):
		return r.Control == c
	case m.run.Aircraft == nil:
		return true
	case r.In != nil:
		return m.movesIn(c, r.In)
	}
	about := m.bodiesOf(r)
	return len(about) == 0 || slices.ContainsFunc(about, func(b int) bool { return m.movesBody(c, b) })
}

// isPitch reports whether a requirement is about a full turn of a control. The control that
// it names, if any, may be another than that.
func isPitch(k linkage.Kind) bool {
	return k == linkage.CollectivePitch || k == linkage.CyclicPitch || k == linkage.CyclicSense
}

// mayGoRound reports whether a control is explored for a full turn.
func mayGoRound(c *linkage.Control) bool {
	return c.Of.Angular() && c.To-c.From >= wholeTurn*(1-tieOfStops)
}

// rotorOf is the rotor of the run that a control is of; nil where it has none.
func (m *Mechanism) rotorOf(c *linkage.Control) *linkage.Rotor {
	if rotor := m.run.Home(c.In).Rotor; rotor != nil {
		return rotor
	}
	return m.run.Rotor
}

// turnsHub reports whether a control turns the hub of a rotor.
func (m *Mechanism) turnsHub(c *linkage.Control) bool { return IsHub(c.Of, m.rotorOf(c)) }

// TurnsRotor reports whether the control turns the hub of a rotor all the way round in the
// sweep: then nothing is to stop it, and what comes round again reverses on the way.
func (w *Sweep) TurnsRotor() bool {
	return w.GoesRound() && w.of != nil && w.of.m.turnsHub(w.of.sweep.Control)
}

// bodiesOf lists the bodies that a requirement names; none of one that is about all.
func (m *Mechanism) bodiesOf(r *linkage.Requirement) (bodies []int) {
	for _, s := range r.Of {
		switch {
		case s.Part != nil:
			bodies = append(bodies, m.partBody[s.Part.Index])
		case s.Control != nil:
			bodies = append(bodies, m.partBody[s.Control.Of.Index])
		case s.Output.Part != nil:
			bodies = append(bodies, m.partBody[s.Output.Part.Index])
		default:
			bodies = append(bodies, m.endAt(*s.Output.Point).body)
		}
	}
	for _, place := range r.Places {
		bodies = append(bodies, m.endAt(place.Place).body)
	}
	for _, s := range []*linkage.Stop{r.First, r.Then} {
		switch {
		case s == nil:
		case s.Of != nil:
			bodies = append(bodies, m.partBody[s.Of.Index])
		default:
			for _, metal := range s.Touch {
				bodies = append(bodies, m.metalBody(metal)...)
			}
		}
	}
	if r.Pair != nil {
		bodies = append(bodies, m.endsOf(&m.constraints[m.pulls[r.Pair.Index].constraint])...)
	}
	return bodies
}

// metalBody lists the bodies that put metal where it is.
func (m *Mechanism) metalBody(metal linkage.FeatureRef) []int {
	if metal.Rod != nil {
		return m.endsOf(&m.constraints[metal.Rod.Index])
	}
	return []int{m.partBody[metal.Part.Index]}
}

// isAbout reports whether a requirement without a subject takes in something of a member.
func isAbout(r *linkage.Requirement, in *linkage.Member) bool { return r.In == nil || r.In == in }
