// Layer: compile.

package solve

import (
	"fmt"

	"fullfree/linkage"
)

const (
	// deepestCarried is how many parts may carry one another, and deepestHung how
	// many rods hang on one another, in a row. No control run has more than a few; the work grows
	// with it, for rods doubling at each.
	deepestCarried = 64
	deepestHung    = 8
	// mostSteps is the most steps in which a control is explored.
	mostSteps = 500_000
)

// refuseDeep adds a fault for a part that too many others carry in a row, and
// for a rod that hangs on too many others.
func (m *Mechanism) refuseDeep(faults *linkage.Faults) {
	carried := make([]int, len(m.bodies))
	hung := make([]int, len(m.bodies))
	for _, b := range m.placing { // what it rests on comes first
		for _, d := range m.rests(b) {
			if m.bodies[b].kind == followsRod {
				hung[b] = max(hung[b], hung[d]+1)
				carried[b] = max(carried[b], carried[d])
			} else {
				carried[b] = carried[d] + 1
			}
		}
		if carried[b] == deepestCarried+1 && m.bodies[b].part != nil {
			faults.Add(m.bodies[b].part.Span, "%q is carried by a part that is carried in turn, more than %d times over", m.bodies[b].part.Name, deepestCarried)
			return
		}
		if hung[b] == deepestHung+1 {
			rod := m.constraints[m.bodies[b].constraint].rod
			faults.Add(rod.Span, "the rod %q hangs on a rod that hangs in turn, more than %d times over", rod.Name, deepestHung)
			return
		}
	}
}

// refuseFar adds a fault for a control that would be explored in too many
// steps.
func (m *Mechanism) refuseFar(faults *linkage.Faults) {
	for _, c := range m.run.Controls {
		if p := m.newPath(c); (c.To-c.From)/p.longest > mostSteps {
			faults.Add(c.ToSpan, "the control %q is to be explored over %s, too far for metal as small as %s: give from and to nearer to its travel",
				c.Name, m.position(c, c.To-c.From), m.length(m.detail, c.In))
		}
	}
}

// position writes a control's position for a message.
func (m *Mechanism) position(c *linkage.Control, x float64) string {
	if c.Of.Motion == linkage.Slides {
		return m.length(x, c.In)
	}
	return fmt.Sprintf("%.4g degrees", x)
}
