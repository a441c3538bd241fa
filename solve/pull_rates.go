// Layer: pose.

package solve

import (
	"math"

	"fullfree/linkage"
)

// pullRates are how a pair goes by the swept control.
type pullRates struct {
	tension [2]float64 // the rates of hung.tension
	// free is how far the part can be moved by hand, and its rate; both 0 where
	// the cables are taut.
	free, dfree float64
}

// swingRates are the rates of a swing by the swept control, and of its first
// rate the rate of that too.
type swingRates struct {
	e, e2    float64
	p1, p1dd float64
	p2       float64
	speed2   float64
}

// swingRates finds them from the motion of the bodies.
func (m *Mechanism) swingRates(st *state, r *rates, k *cablePath, f int) (s swingRates) {
	s.e, s.e2 = m.pathRates(st, r, k)
	for i := range k.legs {
		g := &k.legs[i]
		w, dw, ddw := r.between(st, g.core, g.mouth)
		n := w.Norm()
		if n == 0 {
			continue
		}
		a := m.partial(st, g.core, f).Sub(m.partial(st, g.mouth, f))
		da, dda := m.partialRates(st, r, g, f)
		b, db := m.turned(f, a), m.turned(f, da)
		// With n n = w.w, n p1 = w.a and n p2 = a.a + w.b - p1 p1, differentiated.
		dn := w.Dot(dw) / n
		ddn := (dw.Dot(dw) + w.Dot(ddw) - float64(dn*dn)) / n
		p1 := w.Dot(a) / n
		dp1 := (dw.Dot(a) + w.Dot(da) - float64(dn*p1)) / n
		ddp1 := (ddw.Dot(a) + float64(2*dw.Dot(da)) + w.Dot(dda) - float64(2*dn*dp1) - float64(ddn*p1)) / n
		p2 := (a.Dot(a) + w.Dot(b) - float64(p1*p1)) / n
		s.p1 += dp1
		s.p1dd += ddp1
		s.p2 += (float64(2*a.Dot(da)) + dw.Dot(b) + w.Dot(db) - float64(2*p1*dp1) - float64(dn*p2)) / n
		s.speed2 += 2 * a.Dot(da)
	}
	return s
}

// partialRates is the rate, and its rate, of how fast the core's end parts from
// the conduit's for each unit of f, whose part is on the airframe.
func (m *Mechanism) partialRates(st *state, r *rates, g *leg, f int) (d, dd vec) {
	add := func(e end, sign float64) {
		if m.carriedBy(e.body, m.freedoms[f].body) {
			p := st.place(e)
			d = d.Add(m.turned(f, r.of(st, e.body, p)).Scale(sign))
			dd = dd.Add(m.turned(f, r.of2(st, e.body, p)).Scale(sign))
		}
	}
	add(g.core, 1)
	add(g.mouth, -1)
	return d, dd
}

// carriedBy reports whether a body is the other or is carried by it.
func (m *Mechanism) carriedBy(b, by int) bool {
	for ; b != airframe; b = m.bodies[b].carrier {
		if b == by {
			return true
		}
	}
	return false
}

// balanceRate is the rate of F with the part held where it is. grows is a cable
// whose unloaded core is taken up at rate 1; nil: none.
func (m *Mechanism) balanceRate(st *state, r *rates, l *constraint, grows *linkage.Cable) (sum float64) {
	f := m.pulls[l.pull].freedom
	keep, keep2 := r.d[f], r.dd[f]
	r.d[f], r.dd[f] = 0, 0
	s := &m.steps[m.pulls[l.pull].step]
	m.moveAll(st, r, s.within)
	for i := range l.cablePaths {
		k := &l.cablePaths[i]
		now, rate := m.swing(st, k, f), m.swingRates(st, r, k, f)
		sum += float64(k.stiffness * (float64((rate.e+taken(k, grows))*now.p1) + float64(now.e*rate.p1)))
	}
	if keep != 0 || keep2 != 0 {
		r.d[f], r.dd[f] = keep, keep2
		m.moveAll(st, r, s.within)
	}
	return sum
}

// taken is the rate at which a cable path is taken up.
func taken(k *cablePath, grows *linkage.Cable) float64 {
	if k.cable == grows {
		return 1
	}
	return 0
}

// differentiatePull finds the rates of the part that a pair holds, as what the
// pair takes as given moves, and as the cable grows, if any, is taken up. It
// leaves the pose as it was.
func (m *Mechanism) differentiatePull(st *state, r *rates, i int, grows *linkage.Cable) {
	s := &m.steps[i]
	l := &m.constraints[s.constraints[0]]
	f := s.unknowns[0]
	out := &r.pulls[l.pull]
	*out = pullRates{}
	r.d[f], r.dd[f] = 0, 0
	m.moveAll(st, r, s.before)
	if st.hung[l.pull].slack {
		m.floatRates(st, r, i, grows)
		return
	}
	now := m.swings(st, l)
	_, stiffness := balanceOf(now)
	full := fullStiffness(now)
	if !(stiffness > criticalSine*full) {
		r.valid = false
		r.sine[s.constraints[0]], r.dsine[s.constraints[0]] = 0, 0
		return
	}
	r.sign[i] = 1
	r.d[f] = -m.balanceRate(st, r, l, grows) / stiffness
	m.moveAll(st, r, s.within)
	var rate [2]swingRates
	second := 0.0
	for j := range l.cablePaths {
		k := &l.cablePaths[j]
		rate[j] = m.swingRates(st, r, k, f)
		rate[j].e += taken(k, grows)
		out.tension[j] = float64(k.stiffness * rate[j].e)
		second += float64(k.stiffness * (float64(rate[j].e2*now[j].p1) + float64(2*rate[j].e*rate[j].p1) + float64(now[j].e*rate[j].p1dd)))
	}
	m.pullSine(r, s.constraints[0], now, rate, stiffness)
	r.dd[f] = -second / stiffness
	m.moveAll(st, r, s.within)
}

// floatRates is differentiatePull for a part that floats, in the middle between
// where its cables come taut.
func (m *Mechanism) floatRates(st *state, r *rates, i int, grows *linkage.Cable) {
	s := &m.steps[i]
	n := s.constraints[0]
	l := &m.constraints[n]
	f := s.unknowns[0]
	h, out := &st.hung[l.pull], &r.pulls[l.pull]
	r.sign[i] = 1
	stands := st.q[f]
	var d, dd [2]float64
	for j := range l.cablePaths {
		k := &l.cablePaths[j]
		m.balanceRates(st, s, h.taut[j])
		d[j], dd[j] = m.tautRates(st, r, s, k, grows)
		// Where a cable comes in line just as it would come taut, it no longer stops
		// what floats.
		now, rate := m.swing(st, k, f), m.swingRates(st, r, k, f)
		speed := math.Sqrt(now.speed2)
		if sine := math.Abs(now.p1) / speed; j == 0 || sine < r.sine[n] {
			r.sine[n] = sine
			r.dsine[n] = math.Copysign(1, now.p1)*rate.p1/speed - float64(sine*rate.speed2)/(2*now.speed2)
		}
	}
	m.balanceRates(st, s, stands)
	r.d[f], r.dd[f] = d[0]+0.5*(d[1]-d[0]), dd[0]+0.5*(dd[1]-dd[0])
	m.moveAll(st, r, s.within)
	for j := range l.cablePaths {
		k := &l.cablePaths[j]
		rate, _ := m.pathRates(st, r, k)
		out.tension[j] = float64(k.stiffness * (rate + taken(k, grows)))
	}
	out.free, out.dfree = h.taut[1]-h.taut[0], d[1]-d[0]
	if out.free < 0 {
		out.free, out.dfree = -out.free, -out.dfree
	}
}

// standPull puts the part that a pair holds elsewhere.
func (m *Mechanism) balanceRates(st *state, s *step, q float64) {
	if f := s.unknowns[0]; st.q[f] != q {
		m.setFreedom(st, f, q)
		m.placeAll(st, s.within)
	}
}

// tautRates are the rates of the place where a slack cable comes taut, where
// the part now stands.
func (m *Mechanism) tautRates(st *state, r *rates, s *step, k *cablePath, grows *linkage.Cable) (d, dd float64) {
	f := s.unknowns[0]
	slope, _ := m.pathPartial(st, k, f)
	r.d[f], r.dd[f] = 0, 0
	m.moveAll(st, r, s.within)
	rate, _ := m.pathRates(st, r, k)
	r.d[f] = -(rate + taken(k, grows)) / slope
	m.moveAll(st, r, s.within)
	_, rate2 := m.pathRates(st, r, k)
	return r.d[f], -rate2 / slope
}

// pullSine fills in how far a pair is from being on center: its stiffness as a
// share of the full one, times the sines of both cables' angles to their arms,
// with a sign that is above 0 where they pull opposite ways. It goes down to 0
// where the balance ends, and where a cable comes in line with its arm: then the
// other goes slack.
func (m *Mechanism) pullSine(r *rates, l int, now [2]swing, rate [2]swingRates, stiffness float64) {
	full := fullStiffness(now)
	share := stiffness / full
	dk, dfull := 0.0, 0.0
	for j, s := range now {
		dk += float64(s.stiffness * (float64(2*s.p1*rate[j].p1) + float64(rate[j].e*s.p2) + float64(s.e*rate[j].p2)))
		dfull += float64(s.stiffness * rate[j].speed2)
	}
	dshare := (dk - float64(share*dfull)) / full
	both := math.Sqrt(now[0].speed2 * now[1].speed2)
	opposed := -now[0].p1 * now[1].p1 / both
	dboth := (float64(rate[0].speed2*now[1].speed2) + float64(now[0].speed2*rate[1].speed2)) / (2 * both)
	dopposed := (-float64(rate[0].p1*now[1].p1) - float64(now[0].p1*rate[1].p1) - float64(opposed*dboth)) / both
	r.sine[l] = float64(share * opposed)
	r.dsine[l] = float64(dshare*opposed) + float64(share*dopposed)
}
