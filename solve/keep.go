// Layer: pose.

package solve

import "math"

// keepKind is what an equation of a part's own keeps.
type keepKind int

const (
	// keepsLength keeps the quaternion of a part on a ball or loose in space at length 1.
	keepsLength keepKind = iota
	// keepsStill keeps a freedom as drawn, of a part that nothing holds there and whose
	// motion in it moves nothing else.
	keepsStill
	// keepsFromSpinning keeps a part that is held on one line, as a rod is by its ends, from
	// turning about it as it goes. It says how the part moves, not how it stands: no rule of
	// that kind holds for every way in which a line may point.
	keepsFromSpinning
)

// keep is an equation that no rod or joint is: it stands for nothing on the bench, and
// nothing can take it away.
type keep struct {
	kind    keepKind
	body    int // whose it is
	freedom int // of keepsStill; else the first of the four of a quaternion
	along   vec // of keepsFromSpinning: the line, as drawn
}

// keepOff is by how much it isn't met, as a length: a radian counts as the run's size.
func (m *Mechanism) keepOff(st *state, k *keep) float64 {
	switch k.kind {
	case keepsLength:
		q := orientation(st.q[k.freedom:])
		return float64(m.size * (math.Sqrt(q.dot(q)) - 1))
	case keepsStill:
		return float64(m.keepSize(k) * st.q[k.freedom])
	}
	return 0
}

// keepSize makes a length of a freedom that is kept still.
func (m *Mechanism) keepSize(k *keep) float64 {
	if m.freedoms[k.freedom].kind.isLength() {
		return 1
	}
	return m.size
}

// keepSlope is how that changes for each unit of a freedom.
func (m *Mechanism) keepSlope(st *state, k *keep, f int) float64 {
	switch k.kind {
	case keepsLength:
		q := orientation(st.q[k.freedom:])
		if i := f - k.freedom; i >= 0 && i < len(orientParts) {
			return float64(m.size * q.part(i) / math.Sqrt(q.dot(q)))
		}
		return 0
	case keepsStill:
		if f == k.freedom {
			return m.keepSize(k)
		}
		return 0
	}
	if i := f - k.freedom; i >= 0 && i < len(orientParts) {
		q := orientation(st.q[k.freedom:])
		return float64(m.size * q.spin(orientParts[i]).Dot(q.apply(k.along)))
	}
	return 0
}

// keepRates are the rate of keepOff, and the rate of that where the rate is 0.
func (m *Mechanism) keepRates(st *state, r *rates, k *keep) (d, dd float64) {
	switch k.kind {
	case keepsLength:
		q, dq, ddq := orientation(st.q[k.freedom:]), quaternionRate(r.d[k.freedom:]), quaternionRate(r.dd[k.freedom:])
		n := math.Sqrt(q.dot(q))
		return float64(m.size * q.dot(dq) / n), float64(m.size * (dq.dot(dq) + q.dot(ddq)) / n)
	case keepsStill:
		return float64(m.keepSize(k) * r.d[k.freedom]), float64(m.keepSize(k) * r.dd[k.freedom])
	}
	q := orientation(st.q[k.freedom:])
	along := q.apply(k.along)
	d = along.Dot(q.spin(quaternionRate(r.d[k.freedom:])))
	dd = along.Dot(q.spin(quaternionRate(r.dd[k.freedom:])))
	return float64(m.size * d), float64(m.size * dd)
}

// keepSlopeRate is the rate of keepSlope by the swept control.
func (m *Mechanism) keepSlopeRate(st *state, r *rates, k *keep, f int) float64 {
	switch k.kind {
	case keepsLength:
		if i := f - k.freedom; i >= 0 && i < len(orientParts) {
			return float64(m.size * r.d[f])
		}
		return 0
	case keepsStill:
		return 0
	}
	i := f - k.freedom
	if i < 0 || i >= len(orientParts) {
		return 0
	}
	q, dq := orientation(st.q[k.freedom:]), quaternionRate(r.d[k.freedom:])
	along := q.apply(k.along)
	turned := q.spin(dq).Cross(along)
	return float64(m.size * (turned.Dot(q.spin(orientParts[i])) + along.Dot(q.spinRate(orientParts[i], dq))))
}

// turned returns the rate of a direction of a body, now along u, and the rate of that.
func (r *rates) turned(b int, u vec) (d, dd vec) {
	k := &r.moving[b]
	d = k.spin.Cross(u)
	return d, k.spin2.Cross(u).Add(k.spin.Cross(d))
}

// spinPartial is how a body turns for each unit of freedom f, all others held. No rod
// carries such a body.
func (m *Mechanism) spinPartial(st *state, b, f int) vec {
	owner := m.freedoms[f].body
	for ; b != airframe; b = m.bodies[b].carrier {
		if b == owner {
			return m.spinOfOwner(st, f)
		}
	}
	return vec{}
}

// spinOfOwner is spinPartial of the freedom's own body.
func (m *Mechanism) spinOfOwner(st *state, f int) vec {
	k := &m.freedoms[f]
	body := &m.bodies[k.body]
	turned := &st.frames[body.carrier].turn
	if i, ok := k.kind.orients(); ok {
		return turned.apply(orientation(st.q[body.first:]).spin(orientParts[i]))
	}
	if k.kind == turn {
		return turned.apply(body.axis)
	}
	return vec{}
}

// spinOfOwnerRate is the rate of spinOfOwner.
func (m *Mechanism) spinOfOwnerRate(st *state, r *rates, f int) vec {
	k := &m.freedoms[f]
	body := &m.bodies[k.body]
	spin := r.moving[body.carrier].spin.Cross(m.spinOfOwner(st, f))
	if i, ok := k.kind.orients(); ok {
		own := orientation(st.q[body.first:]).spinRate(orientParts[i], quaternionRate(r.d[body.first:]))
		spin = spin.Add(st.frames[body.carrier].turn.apply(own))
	}
	return spin
}
