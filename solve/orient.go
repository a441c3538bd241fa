// Layer: values.

package solve

// A part on a ball, or loose in space, may stand any way. How it stands is kept as a
// quaternion, four numbers that are free as others are, and an equation keeps their
// length 1 (see keep). So nothing is singular anywhere, a full turn and more included, and
// what holds of other freedoms (rates, derivatives, arcs, what lies between two samples)
// holds of these. A pose hangs on its numbers alone: none remembers the one before.

// quaternion is w + v: of a turn by the angle a about the unit axis k, w = cos a/2 and
// v = k sin a/2.
type quaternion struct {
	w float64
	v vec
}

// orientParts are the four numbers of a quaternion, each by itself.
var orientParts = [4]quaternion{{w: 1}, {v: vec{X: 1}}, {v: vec{Y: 1}}, {v: vec{Z: 1}}}

// orientation reads a quaternion off four freedoms, which are 0 as drawn.
func orientation(q []float64) quaternion {
	return quaternion{1 + q[0], vec{X: q[1], Y: q[2], Z: q[3]}}
}

// quaternionRate reads its rate off the rates of those.
func quaternionRate(d []float64) quaternion {
	return quaternion{d[0], vec{X: d[1], Y: d[2], Z: d[3]}}
}

func (a quaternion) dot(b quaternion) float64 { return float64(a.w*b.w) + a.v.Dot(b.v) }

// part is the number at i.
func (a quaternion) part(i int) float64 {
	return [4]float64{a.w, a.v.X, a.v.Y, a.v.Z}[i]
}

// spin is the turning rate of what stands at q and whose quaternion has the rate d; as
// linear in d, it is what turns it for each unit of one number. Its own rate, the length
// being kept, is that of the rate of d.
func (q quaternion) spin(d quaternion) vec {
	w := q.v.Cross(d.v).Add(d.v.Scale(q.w)).Sub(q.v.Scale(d.w))
	return w.Scale(2 / q.dot(q))
}

// spinRate is the rate of spin(d) as q changes at the rate dq, which keeps its length.
func (q quaternion) spinRate(d, dq quaternion) vec {
	w := dq.v.Cross(d.v).Add(d.v.Scale(dq.w)).Sub(dq.v.Scale(d.w))
	return w.Scale(2 / q.dot(q))
}

// apply turns a vector.
func (q quaternion) apply(p vec) vec {
	r := q.matrix()
	return r.apply(p)
}

// matrix is the rotation; of a quaternion of any length but 0 that of its direction.
func (q quaternion) matrix() matrix {
	s := 2 / q.dot(q)
	x, y, z := float64(s*q.v.X), float64(s*q.v.Y), float64(s*q.v.Z)
	wx, wy, wz := float64(q.w*x), float64(q.w*y), float64(q.w*z)
	xx, xy, xz := float64(q.v.X*x), float64(q.v.X*y), float64(q.v.X*z)
	yy, yz, zz := float64(q.v.Y*y), float64(q.v.Y*z), float64(q.v.Z*z)
	return matrix{
		{X: 1 - (yy + zz), Y: xy - wz, Z: xz + wy},
		{X: xy + wz, Y: 1 - (xx + zz), Z: yz - wx},
		{X: xz - wy, Y: yz + wx, Z: 1 - (xx + yy)},
	}
}
