// Layer: pose.

package solve

import "math"

// flat is what the rates of a fourbar hang on whose two hinges stand square to the
// drawing, as most do: everything of it that moves goes by plane geometry, which takes a
// tenth of what vectors in space take.
type flat struct {
	is          bool
	own, driver int     // the freedoms by which the own body and its driver turn; -1 of the airframe
	ax, ay      float64 // from the own pivot to the rod's end there, as drawn
	bx, by      float64 // from the driver's pivot to the rod's other end, as drawn
	ox, oy      float64 // from the driver's pivot to the own one
	up          float64 // how far the rod's own end lies above the other
	arm         float64 // from the own pivot to the rod's end
}

// newFlat is that of a crank whose other end is on another body.
func (m *Mechanism) newFlat(c *crank, far end) flat {
	b, d := &m.bodies[c.own], &m.bodies[far.body]
	if !b.inPlane || far.body != airframe && !d.inPlane {
		return flat{}
	}
	f := flat{is: true, own: b.first, driver: d.first, ax: c.arm.X, ay: c.arm.Y, up: c.near.at.Z - far.at.Z}
	f.bx, f.by = far.at.X-d.pivot.X, far.at.Y-d.pivot.Y
	f.ox, f.oy = b.pivot.X-d.pivot.X, b.pivot.Y-d.pivot.Y
	f.arm = math.Sqrt(float64(f.ax*f.ax) + float64(f.ay*f.ay))
	return f
}

// differentiateFlat is differentiateStep of such a fourbar. It moves no bodies: what
// comes after it moves those that it needs.
func (m *Mechanism) differentiateFlat(st *state, r *rates, i int) {
	s := &m.steps[i]
	f, bar := &m.flats[s.fourbar], &m.fourbars[s.fourbar]
	l := s.constraints[0]
	c, sn := st.cos[bar.own], st.sin[bar.own]
	ax, ay := float64(c*f.ax)-float64(sn*f.ay), float64(sn*f.ax)+float64(c*f.ay)
	c, sn = st.cos[bar.driver], st.sin[bar.driver]
	bx, by := float64(c*f.bx)-float64(sn*f.by), float64(sn*f.bx)+float64(c*f.by)
	// w is from the rod's other end to the own one, u its direction.
	wx, wy := f.ox+ax-bx, f.oy+ay-by
	inv := 1 / math.Sqrt(float64(wx*wx)+float64(wy*wy)+float64(f.up*f.up))
	ux, uy := float64(wx*inv), float64(wy*inv)
	turn := float64(uy*ax) - float64(ux*ay) // by which the rod's length goes with the own turn
	if !(math.Abs(turn) > criticalSine*f.arm) {
		r.valid = false
		r.sine[l], r.dsine[l] = 0, 0
		return
	}
	r.sign[i] = math.Copysign(1, turn)
	var dv, ddv float64
	if f.driver >= 0 {
		dv, ddv = r.d[f.driver], r.dd[f.driver]
	}
	per := 1 / turn
	d := float64(dv * (float64(uy*bx) - float64(ux*by)) * per)
	// The rate of w, and the rate of that but for the own body's second rate.
	rx, ry := float64(dv*by)-float64(d*ay), float64(d*ax)-float64(dv*bx)
	d2, dv2 := float64(d*d), float64(dv*dv)
	tx := float64(dv2*bx) - float64(d2*ax) + float64(ddv*by)
	ty := float64(dv2*by) - float64(d2*ay) - float64(ddv*bx)
	r.d[f.own] = d
	r.dd[f.own] = -float64((float64(rx*rx) + float64(ry*ry) + float64(wx*tx) + float64(wy*ty)) * inv * per)
	// How fast the direction turns, and by that turn's own rate.
	along := float64(ux*rx) + float64(uy*ry)
	dux, duy := float64((rx-float64(ux*along))*inv), float64((ry-float64(uy*along))*inv)
	dturn := float64(duy*ax) - float64(dux*ay) - float64(d*(float64(ux*ax)+float64(uy*ay)))
	perArm := 1 / f.arm
	r.sine[l] = min(1, float64(math.Abs(turn)*perArm))
	r.dsine[l] = float64(dturn * r.sign[i] * perArm)
}
