// Layer: path.

package solve

import "math"

const (
	// fewStretches is how many pairs of stretches are held against each other one by
	// one: of fewer, boxes cost more than they save.
	fewStretches = 16
	// grouped is how many stretches in a row have one box around them.
	grouped = 16
	// boxSlack is the share by which rounding may make the distance of two boxes
	// larger than that of what is in them.
	boxSlack = 1e-12
)

// laid is the points of a feature where they are now: in space, or laid into the plane
// in which a contact is judged.
type laid []vec

func (m *Mechanism) laid(st *state, c *contact, k *metal, which int) laid {
	if cap(st.laid[which]) < len(k.points) {
		st.laid[which] = make(laid, len(k.points))
	}
	l := st.laid[which][:len(k.points)]
	if c.inDrawing {
		for i := range k.points {
			p := &k.points[i]
			f := &st.frames[p.body]
			r0, r1 := &f.turn[0], &f.turn[1]
			x := float64(r0.X*p.at.X) + float64(r0.Y*p.at.Y)
			y := float64(r1.X*p.at.X) + float64(r1.Y*p.at.Y)
			if !f.flat {
				x, y = x+float64(r0.Z*p.at.Z), y+float64(r1.Z*p.at.Z)
			}
			l[i] = vec{X: x + f.shift.X, Y: y + f.shift.Y}
		}
		return l
	}
	for i, p := range k.points {
		l[i] = m.lay(st, c, st.place(p))
	}
	return l
}

// count is how many stretches there are; a round is one of no length.
func (l laid) count() int { return max(1, len(l)-1) }

func (l laid) stretch(i int) (from, to vec) {
	return l[i], l[min(i+1, len(l)-1)]
}

// box is the space between two corners.
type box struct{ low, high vec }

// around is the box around the stretches from i up to k.
func (l laid) around(i, k int) box {
	b := box{l[i], l[i]}
	for _, p := range l[i+1 : min(k+1, len(l))] {
		b.low = vec{X: min(b.low.X, p.X), Y: min(b.low.Y, p.Y), Z: min(b.low.Z, p.Z)}
		b.high = vec{X: max(b.high.X, p.X), Y: max(b.high.Y, p.Y), Z: max(b.high.Z, p.Z)}
	}
	return b
}

// boxes are those around each group of stretches.
func (l laid) boxes() (list []box) {
	for i := 0; i < l.count(); i += grouped {
		list = append(list, l.around(i, min(i+grouped, l.count())))
	}
	return list
}

// apart is the distance between two boxes, 0 where they overlap: nothing in one is
// nearer to anything in the other.
func (b box) apart(o box) float64 {
	gap := func(low, high, from, to float64) float64 { return max(0, from-high, low-to) }
	d := vec{
		X: gap(b.low.X, b.high.X, o.low.X, o.high.X),
		Y: gap(b.low.Y, b.high.Y, o.low.Y, o.high.Y),
		Z: gap(b.low.Z, b.high.Z, o.low.Z, o.high.Z),
	}
	return float64(d.Norm() * (1 - boxSlack))
}

// nearByBoxes tries, in their order, the pairs of stretches that may be the nearest.
func nearByBoxes(a, b laid, best *nearest, try func(i, j int)) {
	boxesA, boxesB := a.boxes(), b.boxes()
	within := math.Inf(1) // the nearest are no farther apart than any two of their points
	for i := 0; i < len(a); i += grouped {
		for j := 0; j < len(b); j += grouped {
			within = min(within, a[i].Sub(b[j]).Norm()*(1+boxSlack))
		}
	}
	far := func() float64 { return max(0, min(within, best.dist)) } // all that cross are tried
	for g, p := range boxesA {
		for h, q := range boxesB {
			if p.apart(q) > far() {
				continue
			}
			for i := g * grouped; i < min((g+1)*grouped, a.count()); i++ {
				own := a.around(i, i+1)
				if own.apart(q) > far() {
					continue
				}
				for j := h * grouped; j < min((h+1)*grouped, b.count()); j++ {
					if own.apart(b.around(j, j+1)) <= far() {
						try(i, j)
					}
				}
			}
		}
	}
}
