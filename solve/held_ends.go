// Layer: verdict.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// A control of an aircraft whose file doesn't say where it is held, while another moves, is
// held at neutral and at each end of its travel.

// shortOfCenter is how far before a toggle or change point that ends a travel, as a share
// of it, a control is held: on center itself nothing is told of what others do.
const shortOfCenter = 1e-3

// Joined returns the run of an aircraft with what shows only once it is compiled: those
// settings, and under which control a requirement is judged whose own is none any more.
// Any other run is returned as it is, and so is one that has nothing of this. The error is that of a
// sweep.
func (m *Mechanism) Joined() (*linkage.Run, error) {
	if !m.compiled() {
		return nil, errNoMechanism
	}
	var edits []linkage.Edit
	for _, q := range m.run.Requirements {
		if q.Through != nil && q.Control == nil {
			edits = append(edits, linkage.Under(q, m.run.Controls[m.drives.of[q.Through.Index]]))
		}
	}
	for _, c := range m.run.Controls {
		if !m.atEnds(c) {
			continue
		}
		w, err := m.Sweep(c, m.othersAtNeutral(c))
		if err != nil {
			return nil, err
		}
		settings := []float64{0}
		for i, at := range []float64{w.Low, w.High} {
			if w.Ends[i].Cause == ByToggle || w.Ends[i].Cause == ByChangePoint {
				at = float64(at * (1 - shortOfCenter))
			}
			if at != 0 {
				settings = append(settings, at)
			}
		}
		edits = append(edits, linkage.Hold(c, settings...))
	}
	if len(edits) == 0 {
		return m.run, nil
	}
	return m.run.With(edits...)
}

// atEnds reports whether a control is held at the ends of its travel, since its file doesn't
// say where, and another control is related to it.
func (m *Mechanism) atEnds(c *linkage.Control) bool {
	return m.run.Aircraft != nil && c.HeldSpan == c.Span && slices.ContainsFunc(m.run.Controls, func(o *linkage.Control) bool {
		return o != c && m.related(c, o)
	})
}

// heldAtEnds reports whether a sweep has others held at an end of their travel: such ends
// are those with all else at neutral, and can't all be reached together.
func (m *Mechanism) heldAtEnds(t *turnOf) bool {
	return slices.ContainsFunc(m.combination(t.control, t.combination), func(h Held) bool { return h.At != 0 && m.atEnds(h.Control) })
}
