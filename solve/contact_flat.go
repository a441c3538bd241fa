// Layer: path.

package solve

import "math"

// Most contacts are judged in the drawing itself, seen from the airframe: there all goes by
// two coordinates, with the same numbers.

// isInDrawing reports whether a contact is judged in the drawing as it lies.
func (c *contact) isInDrawing() bool {
	return c.flat && c.within == airframe && c.normal == zAxis
}

// takeAllInDrawing takes every two stretches of two features in the drawing.
func (best *nearest) takeAllInDrawing(a, b laid) {
	switch {
	case len(b) == 1:
		for i := range a.count() {
			p0, p1 := &a[i], &a[min(i+1, len(a)-1)]
			s := shareNearest(p0, p1, &b[0])
			best.takePlaces(p0.X+float64((p1.X-p0.X)*s), p0.Y+float64((p1.Y-p0.Y)*s), b[0].X, b[0].Y, i, 0, s, 0)
		}
		return
	case len(a) == 1:
		for j := range b.count() {
			q0, q1 := &b[j], &b[j+1]
			t := shareNearest(q0, q1, &a[0])
			best.takePlaces(a[0].X, a[0].Y, q0.X+float64((q1.X-q0.X)*t), q0.Y+float64((q1.Y-q0.Y)*t), 0, j, 0, t)
		}
		return
	}
	for i := range a.count() {
		p0, p1 := a.stretch(i)
		for j := range b.count() {
			q0, q1 := b.stretch(j)
			best.takeInDrawing(p0, p1, q0, q1, i, j)
		}
	}
}

// shareNearest is the share along a stretch at which it comes nearest to a place.
func shareNearest(p0, p1, to *vec) float64 {
	ux, uy := p1.X-p0.X, p1.Y-p0.Y
	square := float64(ux*ux) + float64(uy*uy)
	if square == 0 {
		return 0
	}
	return min(1, max(0, (float64(ux*(to.X-p0.X))+float64(uy*(to.Y-p0.Y)))/square))
}

// takePlaces takes two places on two stretches into account that don't cross.
func (best *nearest) takePlaces(ax, ay, bx, by float64, i, j int, s, t float64) {
	x, y := ax-bx, ay-by
	if d := math.Sqrt(float64(x*x) + float64(y*y)); d < best.dist {
		best.onA, best.onB = vec{X: ax, Y: ay}, vec{X: bx, Y: by}
		best.iA, best.iB, best.tA, best.tB, best.dist = i, j, s, t, d
	}
}

// takeInDrawing is take of two stretches in the drawing.
func (best *nearest) takeInDrawing(p0, p1, q0, q1 vec, i, j int) {
	s, t := closestInDrawing(p0, p1, q0, q1)
	sign := 1.0
	if crossInDrawing(p0, p1, q0, q1) {
		s, t = shallowest(p0, p1, q0, q1)
		sign = -1
	}
	ax, ay := p0.X+float64((p1.X-p0.X)*s), p0.Y+float64((p1.Y-p0.Y)*s)
	bx, by := q0.X+float64((q1.X-q0.X)*t), q0.Y+float64((q1.Y-q0.Y)*t)
	x, y := ax-bx, ay-by
	if d := float64(sign * math.Sqrt(float64(x*x)+float64(y*y))); d < best.dist {
		best.onA, best.onB = vec{X: ax, Y: ay}, vec{X: bx, Y: by}
		best.iA, best.iB, best.tA, best.tB, best.dist = i, j, s, t, d
	}
}

// crossInDrawing is cross of two stretches in the drawing.
func crossInDrawing(p0, p1, q0, q1 vec) bool {
	px, py, qx, qy := p1.X-p0.X, p1.Y-p0.Y, q1.X-q0.X, q1.Y-q0.Y
	if px == 0 && py == 0 || qx == 0 && qy == 0 {
		return false
	}
	side := func(x, y float64, a, p vec) float64 { return float64(x*(p.Y-a.Y)) - float64(y*(p.X-a.X)) }
	return side(px, py, p0, q0)*side(px, py, p0, q1) < 0 && side(qx, qy, q0, p0)*side(qx, qy, q0, p1) < 0
}

// closestInDrawing is closest of two stretches in the drawing.
func closestInDrawing(p0, p1, q0, q1 vec) (s, t float64) {
	ux, uy, vx, vy, wx, wy := p1.X-p0.X, p1.Y-p0.Y, q1.X-q0.X, q1.Y-q0.Y, p0.X-q0.X, p0.Y-q0.Y
	across := float64(ux*vy) - float64(uy*vx)
	return sharesNearest(float64(ux*ux)+float64(uy*uy), float64(vx*vx)+float64(vy*vy), float64(ux*vx)+float64(uy*vy),
		float64(ux*wx)+float64(uy*wy), float64(vx*wx)+float64(vy*wy), float64(across*across))
}

// rateInDrawing is the rate of the place at share t of a stretch in the drawing.
func (m *Mechanism) rateInDrawing(st *state, r *rates, k *metal, i int, t float64) (x, y float64) {
	x, y = r.ofInDrawing(st, k.points[i])
	if i+1 < len(k.points) && t != 0 {
		toX, toY := r.ofInDrawing(st, k.points[i+1])
		x, y = x+float64((toX-x)*t), y+float64((toY-y)*t)
	}
	return x, y
}

// ofInDrawing is what of the rate of an end lies in the drawing.
func (r *rates) ofInDrawing(st *state, e end) (x, y float64) {
	if e.body == airframe {
		return 0, 0
	}
	k, f := &r.moving[e.body], &st.frames[e.body]
	if !f.flat || k.spin.X != 0 || k.spin.Y != 0 {
		v := r.of(st, e.body, f.apply(e.at))
		return v.X, v.Y
	}
	ax := float64(f.turn[0].X*e.at.X) + float64(f.turn[0].Y*e.at.Y)
	ay := float64(f.turn[1].X*e.at.X) + float64(f.turn[1].Y*e.at.Y)
	return k.rate.X - float64(k.spin.Z*ay), k.rate.Y + float64(k.spin.Z*ax)
}
