// Layer: path.

package solve

import (
	"math"

	"fullfree/linkage"
)

// metal is a feature as bars: round-nosed stretches between points of bodies.
// A round is one bar of no length.
type metal struct {
	points []end // a rod's two lie on different bodies
	radius float64
	z      *[2]float64
	bar    bool         // as thick square to the drawing as in it
	rod    *linkage.Rod // that it is; nil of a feature
}

// follow puts a rod's ends where they are in a build: its probes are kept from one to the
// next while its numbers change.
func (k *metal) follow(m *Mechanism) {
	if k.rod != nil {
		l := &m.constraints[k.rod.Index]
		k.points[0], k.points[1] = l.from, l.to
	}
}

// contact is two features that may touch.
type contact struct {
	a, b metal
	// flat says that both move in planes square to normal, as seen from body
	// within, and are judged in that plane; else they are bars in space.
	flat   bool
	within int
	normal vec  // as drawn
	apart  bool // they share no height and never meet
	// inDrawing says that the plane is the drawing itself, seen from the airframe.
	inDrawing bool
}

func (m *Mechanism) newMetal(r linkage.FeatureRef) metal {
	if r.Rod != nil {
		l := &m.constraints[r.Rod.Index]
		return metal{points: []end{l.from, l.to}, radius: *r.Rod.Diameter / 2, bar: true, rod: r.Rod}
	}
	f := &r.Part.Features[r.Feature]
	k := metal{radius: f.Radius, z: f.Z, bar: f.Bar}
	for _, p := range f.Through {
		k.points = append(k.points, end{m.partBody[r.Part.Index], p.Sub(m.center)})
	}
	return k
}

// newContact says how two features meet. Where they can't be judged it returns
// why not.
func (m *Mechanism) newContact(refs [2]linkage.FeatureRef) (c contact, trouble string) {
	c = contact{a: m.newMetal(refs[0]), b: m.newMetal(refs[1])}
	var bodies []int
	for _, p := range append(append([]end(nil), c.a.points...), c.b.points...) {
		bodies = append(bodies, p.body)
	}
	within, chain := m.meeting(bodies)
	if len(chain) == 0 {
		return c, "both are on the same piece and never move apart"
	}
	switch normal, flat := m.commonNormal(chain); {
	case m.run.Plane:
		c.flat, c.within, c.normal = true, airframe, zAxis
	case c.a.bar && c.b.bar:
	case flat:
		c.flat, c.within, c.normal = true, within, normal
	default:
		return c, "their parts don't move in parallel planes; in space only rods and edges with a diameter can meet"
	}
	c.inDrawing = c.isInDrawing()
	c.apart = c.flat && c.a.z != nil && c.b.z != nil && (c.a.z[1] < c.b.z[0] || c.b.z[1] < c.a.z[0])
	return c, ""
}

// meeting returns the nearest body that carries all the given ones, and the
// bodies between, themselves included and it not.
func (m *Mechanism) meeting(bodies []int) (within int, chain []int) {
	count := make(map[int]int)
	for _, b := range bodies {
		for {
			count[b]++
			if b == airframe {
				break
			}
			b = m.bodies[b].carrier
		}
	}
	for b := bodies[0]; ; b = m.bodies[b].carrier {
		if count[b] == len(bodies) {
			within = b
			break
		}
	}
	for b := range m.bodies {
		if n := count[b]; n > 0 && n < len(bodies) {
			chain = append(chain, b)
		}
	}
	return within, chain
}

// commonNormal returns the direction, as drawn, square to which all the bodies
// move, seen from what carries them all.
func (m *Mechanism) commonNormal(chain []int) (normal vec, ok bool) {
	normal = zAxis
	for _, b := range chain {
		if k := m.bodies[b].kind; k == turning || k == floating {
			normal = m.bodies[b].axis
			break
		}
	}
	for _, i := range chain {
		b := &m.bodies[i]
		if b.kind == tilting || b.kind == shifting {
			return normal, false
		}
		if b.kind == sliding {
			if math.Abs(b.slide.Dot(normal)) > parallelSine {
				return normal, false
			}
		} else if !inLine(b.axis, normal) {
			return normal, false
		}
	}
	// Heights count the same way whichever way an axis was written.
	if normal.Z < 0 || normal.Z == 0 && (normal.Y < 0 || normal.Y == 0 && normal.X < 0) {
		normal = normal.Scale(-1)
	}
	return normal, true
}

// checkFeatures adds a fault for every pair of features that can't be judged,
// and finds the smallest piece of metal among them.
func (m *Mechanism) checkFeatures(faults *linkage.Faults) {
	m.detail = m.size
	check := func(refs [2]linkage.FeatureRef, at linkage.Span, what string) {
		c, trouble := m.newContact(refs)
		if trouble != "" {
			faults.Add(at, "%s and %s can't be %s: %s", refs[0], refs[1], what, trouble)
			return
		}
		m.detail = min(m.detail, c.a.detail(), c.b.detail())
	}
	for _, s := range m.run.Stops {
		if s.Of == nil {
			check(s.Touch, s.Span, "a stop")
		}
	}
	for _, r := range m.run.Requirements {
		if r.Kind == linkage.Clearance {
			check(r.Between, r.Span, "told how far they keep apart")
		}
	}
}

// detail is the smallest measure of a feature.
func (k *metal) detail() float64 {
	least := math.Inf(1)
	if k.radius > 0 {
		least = 2 * k.radius
	}
	for i := range len(k.points) - 1 {
		if d := k.points[i+1].at.Sub(k.points[i].at).Norm(); d > 0 {
			least = min(least, d)
		}
	}
	return least
}

// nearest is where two features come nearest to each other.
type nearest struct {
	gap      float64 // negative: they overlap
	onA, onB vec     // on the middle lines
	iA, iB   int     // the stretches
	tA, tB   float64 // the shares along them
	dist     float64 // between the middle lines; negative where they cross
	tried    int     // how many pairs of stretches were held against each other
}

// which tells apart where on two features they come nearest: on which stretches, and
// whether between the ends of these or at one. While it stays the same the gap goes
// smoothly. It is never 0.
func (n *nearest) which() int {
	const most = 1 << 20 // stretches
	part := func(t float64) int {
		switch {
		case t <= 0:
			return 0
		case t >= 1:
			return 2
		}
		return 1
	}
	return 1 + part(n.tA) + 3*(part(n.tB)+3*(n.iA+most*n.iB))
}

// near finds how far two features are apart. Stretches that are surely no nearer than
// the best yet are passed over: by the boxes around them, in groups.
func (m *Mechanism) near(st *state, c *contact) nearest {
	best := nearest{dist: math.Inf(1)}
	a, b := m.laid(st, c, &c.a, 0), m.laid(st, c, &c.b, 1)
	tried := 0
	try := func(i, j int) {
		tried++
		p0, p1 := a.stretch(i)
		q0, q1 := b.stretch(j)
		if c.inDrawing {
			best.takeInDrawing(p0, p1, q0, q1, i, j)
			return
		}
		best.take(p0, p1, q0, q1, i, j, c.normal, c.flat)
	}
	switch n := a.count() * b.count(); {
	case n <= fewStretches && c.inDrawing:
		tried = n
		best.takeAllInDrawing(a, b)
	case n <= fewStretches:
		for i := range a.count() {
			for j := range b.count() {
				try(i, j)
			}
		}
	default:
		nearByBoxes(a, b, &best, try)
	}
	best.tried = tried
	best.gap = best.dist - c.a.radius - c.b.radius
	return best
}

// take takes stretch i of one feature and stretch j of another into account.
func (best *nearest) take(p0, p1, q0, q1 vec, i, j int, normal vec, flat bool) {
	s, t := closest(p0, p1, q0, q1)
	sign := 1.0
	if flat && cross(p0, p1, q0, q1, normal) {
		s, t = shallowest(p0, p1, q0, q1)
		sign = -1
	}
	onA, onB := between(p0, p1, s), between(q0, q1, t)
	if d := float64(sign * onA.Sub(onB).Norm()); d < best.dist {
		*best = nearest{onA: onA, onB: onB, iA: i, iB: j, tA: s, tB: t, dist: d}
	}
}

// cross reports whether two stretches in a plane cross.
func cross(p0, p1, q0, q1, normal vec) bool {
	side := func(a, b, p vec) float64 { return b.Sub(a).Cross(p.Sub(a)).Dot(normal) }
	return side(p0, p1, q0)*side(p0, p1, q1) < 0 && side(q0, q1, p0)*side(q0, q1, p1) < 0
}

// shallowest returns the shares along two stretches that cross between which
// the least way leads out: from an end of one to the nearest place of the
// other.
func shallowest(p0, p1, q0, q1 vec) (s, t float64) {
	least := math.Inf(1)
	try := func(u, v float64) {
		if d := between(p0, p1, u).Sub(between(q0, q1, v)).Norm(); d < least {
			least, s, t = d, u, v
		}
	}
	for _, end := range []float64{0, 1} {
		p, q := between(p0, p1, end), between(q0, q1, end)
		_, v := closest(p, p, q0, q1)
		try(end, v)
		u, _ := closest(p0, p1, q, q)
		try(u, end)
	}
	return s, t
}

// stretch returns the ends of a stretch of a feature: in space, or laid into
// the plane in which the contact is judged.
func (m *Mechanism) stretch(st *state, c *contact, k *metal, i int) (from, to vec) {
	from = m.lay(st, c, st.place(k.points[i]))
	if i+1 < len(k.points) {
		return from, m.lay(st, c, st.place(k.points[i+1]))
	}
	return from, from
}

func (m *Mechanism) lay(st *state, c *contact, p vec) vec {
	if !c.flat {
		return p
	}
	return perpendicular(st.frames[c.within].unapply(p), c.normal)
}

// gapRate returns the rate of a contact's gap.
func (m *Mechanism) gapRate(st *state, r *rates, c *contact, n nearest) float64 {
	u := m.parting(st, c, n)
	if c.inDrawing {
		ax, ay := m.rateInDrawing(st, r, &c.a, n.iA, n.tA)
		bx, by := m.rateInDrawing(st, r, &c.b, n.iB, n.tB)
		return float64(u.X*ax) + float64(u.Y*ay) - (float64(u.X*bx) + float64(u.Y*by))
	}
	return u.Dot(m.layRate(st, r, c, &c.a, n.iA, n.tA)) - u.Dot(m.layRate(st, r, c, &c.b, n.iB, n.tB))
}

// parting is the direction from b to a in which they part.
func (m *Mechanism) parting(st *state, c *contact, n nearest) vec {
	switch {
	case n.dist > crossing*m.size:
		return n.onA.Sub(n.onB).Unit()
	case n.dist < -crossing*m.size:
		return n.onB.Sub(n.onA).Unit()
	}
	return m.meetingNormal(st, c, n)
}

// meetingNormal is the direction from b to a where their middle lines just
// meet, an end of one on the other, in a plane: square to that other, to the
// side where the rest of the one lies. Where an end meets an end, or in space,
// there is none, and it is 0.
func (m *Mechanism) meetingNormal(st *state, c *contact, n nearest) vec {
	if !c.flat {
		return vec{}
	}
	p0, p1 := m.stretch(st, c, &c.a, n.iA)
	q0, q1 := m.stretch(st, c, &c.b, n.iB)
	inside := func(t float64) bool { return t > 0 && t < 1 }
	switch {
	case inside(n.tB) && p0 != p1:
		u := c.normal.Cross(q1.Sub(q0)).Unit()
		return u.Scale(math.Copysign(1, u.Dot(between(p0, p1, 1-n.tA).Sub(n.onA))))
	case inside(n.tA) && q0 != q1:
		u := c.normal.Cross(p1.Sub(p0)).Unit()
		return u.Scale(-math.Copysign(1, u.Dot(between(q0, q1, 1-n.tB).Sub(n.onB))))
	}
	return vec{}
}

// crossing is the distance between two middle lines, as a share of the run's
// size, at which they just meet: rounding.
const crossing = 1e-14

// layRate is the rate of the place at share t of a stretch, as lay places it.
func (m *Mechanism) layRate(st *state, r *rates, c *contact, k *metal, i int, t float64) vec {
	rate := func(e end) vec {
		p := st.place(e)
		v := r.of(st, e.body, p)
		if !c.flat {
			return v
		}
		return st.frames[c.within].turn.unapply(v.Sub(r.of(st, c.within, p)))
	}
	v := rate(k.points[i])
	if i+1 < len(k.points) {
		v = between(v, rate(k.points[i+1]), t)
	}
	return v
}

func between(a, b vec, t float64) vec { return a.Add(b.Sub(a).Scale(t)) }

// closest returns the shares along two stretches at which they come nearest
// (the quadratic in both shares, clamped to the square; after C. Ericson,
// Real-Time Collision Detection, 5.1.9, from memory).
func closest(p0, p1, q0, q1 vec) (s, t float64) {
	u, v, w := p1.Sub(p0), q1.Sub(q0), p0.Sub(q0)
	across := u.Cross(v)
	return sharesNearest(u.Dot(u), v.Dot(v), u.Dot(v), u.Dot(w), v.Dot(w), across.Dot(across))
}

// sharesNearest is that by the products of the two stretches u and v and of w, from where v
// begins to where u does; across is the square of u across v.
func sharesNearest(uu, vv, uv, uw, vw, across float64) (s, t float64) {
	switch {
	case uu == 0 && vv == 0:
		return 0, 0
	case uu == 0:
		return 0, clamp(vw / vv)
	case vv == 0:
		return clamp(-uw / uu), 0
	}
	// Parallel stretches have many nearest places: any will do.
	if across > 0 {
		s = clamp((float64(uv*vw) - float64(uw*vv)) / across)
	}
	t = (float64(uv*s) + vw) / vv
	if t < 0 {
		return clamp(-uw / uu), 0
	}
	if t > 1 {
		return clamp((uv - uw) / uu), 1
	}
	return s, t
}

func clamp(t float64) float64 { return min(1, max(0, t)) }
