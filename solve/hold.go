// Layer: sweep.

package solve

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
)

// hold moves the controls of held from neutral to their settings, one after
// another, and returns the freedoms there; or the fault of the control that
// can't be brought to its setting. Where the work runs out on the way, both are nil.
func (m *Mechanism) hold(held []Held, work *work) (q []float64, fault *linkage.Fault) {
	q = append([]float64(nil), m.neutral.q...)
	alone := true // all before stand at neutral
	for i, h := range held {
		if h.At == 0 {
			continue
		}
		first := alone
		alone = false
		if brought := work.brought[h]; first && brought != nil {
			q = brought
			continue
		}
		p := m.newPath(h.Control)
		for k := range held[:i] {
			p.held[m.freedomOf(held[k].Control)] = &held[k]
		}
		if q, fault = p.bring(h.At, q, work); q == nil {
			return nil, fault
		}
	}
	return q, nil
}

// heldHere are settings of controls as this mechanism's run names them.
func (m *Mechanism) heldHere(list []Held) []Held {
	here := slices.Clone(list)
	for i := range here {
		here[i].Control = m.run.Control(here[i].Control)
	}
	return here
}

// bring moves the path's control from 0 to x and returns the freedoms there, or
// the fault of what is in the way; neither where the work runs out.
func (p *path) bring(x float64, from []float64, work *work) ([]float64, *linkage.Fault) {
	m := p.m
	p.addSines()
	first := m.addStops(p)
	fail := func(format string, args ...any) ([]float64, *linkage.Fault) {
		c := p.control
		return nil, &linkage.Fault{Span: c.HeldSpan, Says: fmt.Sprintf("the control %q can't be held at %s%s: %s",
			c.Name, m.position(c, x), p.withHeld(), fmt.Sprintf(format, args...))}
	}
	if x < p.control.From || x > p.control.To {
		return fail("it is explored from %s to %s only", m.position(p.control, p.control.From), m.position(p.control, p.control.To))
	}
	p.solve(0, from)
	var met *linkage.Stop
	metAt := x
	w := newWalk(p, math.Copysign(1, x), p.take(0), func(w *walk, a, b *sample) {
		for i, s := range m.run.Stops {
			at, ok := w.touchdown(a, b, first+i, m.stopNoise(s))
			if a.x == 0 && closing(w, a, first+i, m.stopNoise(s)) {
				at, ok = 0, true
			}
			if ok && math.Abs(at) < math.Abs(metAt) && (x-at)*w.dir > ContactNoise*math.Abs(x) {
				met, metAt = s, at
			}
		}
		if work.overBy(p) && !w.ended() {
			w.lost = true
		}
	})
	w.to(x)
	if work.over() {
		return nil, nil
	}
	if met != nil {
		return fail("the stop %q is met at %s", met.Name, m.position(p.control, metAt))
	}
	if w.singularity != nil {
		part, _ := m.shareOf(w.singularity)
		return fail("it goes no further than %s, where %q is on center", m.position(p.control, w.singularity.x), part.Name)
	}
	return w.last.q, nil
}

// closing reports whether a gap that just touches at a sample closes outward.
func closing(w *walk, a *sample, i int, noise float64) bool {
	return math.Abs(a.v[i]) <= noise && a.dv[i]*w.dir*w.p.longest < -noise
}

// withHeld writes where the path's other controls are held, for a message.
func (p *path) withHeld() string {
	text := ""
	for _, h := range p.held {
		if h != nil && h.At != 0 {
			text += fmt.Sprintf(", with %q held at %s", h.Control.Name, p.m.position(h.Control, h.At))
		}
	}
	return text
}

// othersAtNeutral holds all controls but the given one at neutral.
func (m *Mechanism) othersAtNeutral(swept *linkage.Control) (held []Held) {
	for _, c := range m.run.Controls {
		if c != swept {
			held = append(held, Held{c, 0})
		}
	}
	return held
}

// mostCombinations is in how many settings of the others each control of an aircraft is
// swept at most: three each of three others. What is skipped is told.
const mostCombinations = 27

// combinations is how many combinations there are of the held settings of the controls
// other than the given one, of an aircraft those that are related to it. swept is how many
// of them are swept.
func (m *Mechanism) combinations(of *linkage.Control) (all, swept int) {
	all = 1
	for _, c := range m.run.Controls {
		if c != of && m.related(of, c) {
			all *= len(c.Held)
		}
	}
	if m.run.Aircraft != nil {
		return all, min(all, mostCombinations)
	}
	return all, all
}

// combination returns combination k of these, the last control's settings changing from
// each to the next. What isn't related stands at neutral.
func (m *Mechanism) combination(swept *linkage.Control, k int) []Held {
	held := make([]Held, 0, len(m.run.Controls))
	for _, c := range slices.Backward(m.run.Controls) {
		switch {
		case c == swept:
		case !m.related(swept, c):
			held = append(held, Held{c, 0})
		default:
			held = append(held, Held{c, c.Held[k%len(c.Held)]})
			k /= len(c.Held)
		}
	}
	slices.Reverse(held)
	return held
}
