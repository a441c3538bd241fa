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

// closeMany is close for many poses; it returns the least D.
func (f *fourbar) closeMany(c, s, cos, sin []float64) (least float64) {
	s, cos, sin = s[:len(c)], cos[:len(c)], sin[:len(c)]
	g := *f // in registers, as the slices could overlap it for all the compiler knows
	least = math.Inf(1)
	for i := range c {
		wx := g.dx + float64(c[i]*g.rx) + float64(s[i]*g.kx)
		wy := g.dy + float64(c[i]*g.ry) + float64(s[i]*g.ky)
		a := float64(g.ax*wx) + float64(g.ay*wy)
		b := float64(g.bx*wx) + float64(g.by*wy)
		w2 := float64(wx*wx) + float64(wy*wy)
		h := g.a2 * w2
		e := 0.5 * (w2 + g.c2)
		d := h - float64(e*e)
		if d < least {
			least = d
		}
		q := g.sign * math.Sqrt(max(d, 0))
		inv := 1 / h
		cos[i] = (float64(a*e) + float64(b*q)) * inv
		sin[i] = (float64(b*e) - float64(a*q)) * inv
	}
	return least
}
