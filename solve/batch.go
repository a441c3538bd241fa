// Layer: verdict.

package solve

import "math"

// batchWidth is how many poses are closed side by side: enough that divisions
// and square roots of different poses overlap, few enough that one stage's
// numbers stay in the nearest cache.
const batchWidth = 128

// batch closes many poses of a run that plane hinges close alone, stage by
// stage: each stage for all poses before the next.
type batch struct {
	m        *Mechanism
	cos, sin [][]float64 // by body and pose
}

// onlyFourbars reports whether a batch can close the run.
func (m *Mechanism) onlyFourbars() bool { return len(m.fourbars) == len(m.steps) }

func (m *Mechanism) newBatch() *batch {
	b := &batch{m, make([][]float64, len(m.bodies)), make([][]float64, len(m.bodies))}
	room := make([]float64, 2*batchWidth*len(m.bodies))
	for i := range m.bodies {
		b.cos[i], room = room[:batchWidth:batchWidth], room[batchWidth:]
		b.sin[i], room = room[:batchWidth:batchWidth], room[batchWidth:]
		for k := range b.cos[i] {
			b.cos[i][k] = 1
		}
	}
	return b
}

// hold sets the turn of a body to the same in every pose.
func (b *batch) hold(body int, cos, sin float64) {
	for k := range batchWidth {
		b.cos[body][k], b.sin[body][k] = cos, sin
	}
}

// put copies the turns of one pose into a state.
func (b *batch) put(st *state, pose int) {
	for i := range b.cos {
		st.cos[i], st.sin[i] = b.cos[i][pose], b.sin[i][pose]
	}
}

// close closes the first n poses, whose controls are set, and reports whether
// all of them close.
func (b *batch) close(n int) bool {
	for i := range b.m.fourbars {
		f := &b.m.fourbars[i]
		if f.closeMany(b.cos[f.driver][:n], b.sin[f.driver][:n], b.cos[f.own][:n], b.sin[f.own][:n]) < f.least {
			return false
		}
	}
	return true
}

// closeMany is close for many poses. It returns the least D, or 0 where none is
// below.
func (f *fourbar) closeMany(c, s, cos, sin []float64) (least float64) {
	s, cos, sin = s[:len(c)], cos[:len(c)], sin[:len(c)]
	g := *f // a copy, as the slices could overlap it for all the compiler knows
	for i := range c {
		x := g.dx + float64(c[i]*g.rx) + float64(s[i]*g.kx)
		y := g.dy + float64(c[i]*g.ry) + float64(s[i]*g.ky)
		h := float64(x*x) + float64(y*y)
		e := 0.5 * (h + g.c2)
		d := h - float64(e*e)
		if d < 0 {
			least = min(least, d)
			d = 0
		}
		q := float64(g.sign * math.Sqrt(d))
		inv := 1 / h
		cos[i] = float64((float64(x*e) + float64(y*q)) * inv)
		sin[i] = float64((float64(y*e) - float64(x*q)) * inv)
	}
	return least
}
