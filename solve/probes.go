// Layer: path.

package solve

import (
	"math"

	"fullfree/linkage"
)

const (
	// slopeNoise is the same for a rate, radian for radian.
	slopeNoise = 1e-11
)

// noiseOf turns a noise in radians or shares of the size into a unit's.
func (m *Mechanism) noiseOf(unit linkage.Unit, noise float64) float64 {
	switch unit {
	case degrees:
		return noise / degree
	case linkage.NoUnit: // of a quaternion
		return noise
	}
	return m.lengthNoise(noise)
}

// lengthNoise is that of a length.
func (m *Mechanism) lengthNoise(noise float64) float64 { return float64(noise * m.size) }

// perControl turns a noise of a rate into one by the control's unit.
func (p *path) perControl(noise float64) float64 {
	if p.m.freedoms[p.input].kind == turn {
		return float64(noise * degree)
	}
	return noise / p.m.sizeIn(p.control.In)
}

// add adds a probe and returns its place.
func (p *path) add(q probe) int {
	p.probes = append(p.probes, q)
	p.reading += workOfProbe
	return len(p.probes) - 1
}

// addValue adds the probe of a quantity told in the given unit.
func (p *path) addValue(unit linkage.Unit, of func(p *path) (v, dv float64)) int {
	return p.add(probe{poseOnly: true, noise: p.m.noiseOf(unit, valueNoise), value: of})
}

// addSlope adds the probe of the rate of a measure.
func (p *path) addSlope(k measure) int {
	return p.add(probe{slope: true, noise: p.slopeNoiseOf(k), value: k.rates})
}

func (p *path) slopeNoiseOf(k measure) float64 {
	return p.perControl(p.m.noiseOf(k.unit, slopeNoise))
}

// addSines adds, for every constraint, the probe of the sine of its rod's angle, and
// behind them what says where pairs are slack. They come first: singular.go and
// border.go count on that.
func (p *path) addSines() {
	for l := range p.m.constraints {
		p.add(probe{noise: valueNoise, value: func(p *path) (float64, float64) {
			return p.rates.sine[l], float64(p.rates.dsine[l] * p.unit)
		}})
	}
	p.addSums()
}

// addTilt adds the probe of the sine by which a rod stands out of square to the
// bolt at one of its ends, signed.
func (p *path) addTilt(l int, e end, bolt vec) int {
	return p.add(probe{noise: valueNoise, value: func(p *path) (float64, float64) {
		w, rate := p.m.ends(&p.st, p.rates, l) // of the end itself only the body counts
		n := w.Norm()
		b := p.st.frames[e.body].turn.apply(bolt)
		db := p.rates.moving[e.body].spin.Cross(b)
		u := w.Scale(1 / n)
		return u.Dot(b), float64((perpendicular(rate, u).Dot(b)/n + u.Dot(db)) * p.unit)
	}})
}

// addGap adds the probe of a contact's gap.
func (p *path) addGap(c contact) int {
	p.reading += c.work()
	at := len(p.probes)
	near := func(p *path) nearest {
		if p.m.room != nil {
			c.a.follow(p.m)
			c.b.follow(p.m)
		}
		n := p.m.near(&p.st, &c)
		p.tried += n.tried
		return n
	}
	k := probe{poseOnly: true, noise: p.m.lengthNoise(valueNoise), alone: func(p *path) float64 { return near(p).gap }, value: func(p *path) (float64, float64) {
		n := near(p)
		if at < len(p.nearest) {
			p.nearest[at] = n.which()
		}
		return n.gap, float64(p.m.gapRate(&p.st, p.rates, &c, n) * p.unit)
	}}
	if c.apart {
		k.alone, k.value = nil, func(*path) (float64, float64) { return math.MaxFloat64, 0 }
	}
	return p.add(k)
}

// addLimit adds the probe of how far a measure is from a stop that limits it above (side
// +1) or below (side -1).
func (p *path) addLimit(k measure, stop *linkage.Stop, side float64) int {
	return p.addValue(k.unit, func(p *path) (float64, float64) {
		v, dv := k.withRate(p)
		return float64(side * (p.m.off.stop(stop) - v)), float64(-side * dv)
	})
}

// addSums adds those probes.
func (p *path) addSums() {
	for i := range p.m.pulls {
		l := &p.m.constraints[p.m.pulls[i].constraint]
		both := l.cablePaths[0].stiffness + l.cablePaths[1].stiffness
		p.add(probe{noise: float64(both * tautNoise * p.m.size), value: func(p *path) (float64, float64) {
			t, dt := &p.st.hung[i].tension, &p.rates.pulls[i].tension
			return t[0] + t[1], float64((dt[0] + dt[1]) * p.unit)
		}})
	}
}
