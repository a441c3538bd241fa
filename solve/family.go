// Layer: values.

package solve

import "fullfree/linkage"

// endIn is the end of a travel of a run made from another as that one names it.
func endIn(run *linkage.Run, e End) End {
	e.Stop, e.Part, e.Slack = run.Stop(e.Stop), run.Part(e.Part), run.Cable(e.Slack)
	if e.Past != nil {
		past := endIn(run, *e.Past)
		e.Past = &past
	}
	return e
}

// criticalIn is an on-center point of a run made from another as that one names it.
func criticalIn(run *linkage.Run, c Critical) Critical {
	c.Part, c.Output, c.Rod, c.Cable = run.Part(c.Part), run.Output(c.Output), run.Rod(c.Rod), run.Cable(c.Cable)
	c.Joint = run.Joint(c.Joint)
	return c
}

// heldIn are the settings of other controls that are off neutral, as the run that
// theirs is made from names them.
func heldIn(run *linkage.Run, list []Held) (off []Held) {
	for _, h := range list {
		if h.At != 0 {
			off = append(off, Held{run.Control(h.Control), h.At})
		}
	}
	return off
}
