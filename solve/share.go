// Layer: events.

package solve

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// shareOf returns the part and the constraint that have the largest share in a
// singular place: the part whose points move fastest in the null motion, the
// constraint with the largest component of the left null vector.
func (m *Mechanism) shareOf(c *critical) (*linkage.Part, *constraint) {
	s := &m.steps[c.step]
	if len(s.unknowns) == 1 {
		return m.bodies[m.freedoms[s.unknowns[0]].body].part, &m.constraints[s.constraints[0]]
	}
	st := m.newState()
	for f, q := range c.at.q {
		m.setFreedom(&st, f, q)
	}
	m.placeAll(&st, m.placing)
	var svd mat.SVD
	var u, v mat.Dense
	svd.Factorize(m.matrixOf(&st, s.constraints, s.unknowns), mat.SVDFull)
	svd.UTo(&u)
	svd.VTo(&v)
	last := len(s.unknowns) - 1
	var rod *constraint
	most := -1.0
	for i, l := range s.constraints {
		if share := math.Abs(u.At(i, last)); m.constraints[l].keep == nil && share > most*(1+num.Tie) {
			most, rod = share, &m.constraints[l]
		}
	}
	var part *linkage.Part
	fastest := -1.0
	for _, b := range s.within {
		p := m.bodies[b].part
		if p == nil {
			continue
		}
		for _, point := range p.Points {
			var rate vec
			for j, f := range s.unknowns {
				per := v.At(j, last) / m.inLengths(f)
				rate = rate.Add(m.partial(&st, end{b, point.At.Sub(m.center)}, f).Scale(per))
			}
			if speed := rate.Norm(); speed > fastest*(1+num.Tie) {
				fastest, part = speed, p
			}
		}
	}
	if part == nil { // it has no points
		part = m.bodies[m.freedoms[s.unknowns[0]].body].part
	}
	return part, rod
}

// driverOf returns the constraint with the largest share in how the freedom f starts
// to move at a dead center: of those that join its step to a part that moves,
// the one whose drive, through the step, adds most to f's second rate.
func (p *path) driverOf(s *step, f int) *constraint {
	m := p.m
	if len(s.constraints) == 1 {
		return &m.constraints[s.constraints[0]]
	}
	n := len(s.unknowns)
	var a num.LU
	m.jacobian(&p.st, s, &a)
	if !a.Factor() {
		return m.firstOf(s)
	}
	// Row of the inverse that gives f.
	pick, row := make([]float64, n), make([]float64, n)
	for j, u := range s.unknowns {
		if u == f {
			pick[j] = 1
		}
	}
	a.SolveTransposed(row, pick)
	var best *constraint
	most := -1.0
	for i, l := range s.constraints {
		driven := false
		for _, g := range m.depends(&m.constraints[l]) {
			driven = driven || !slices.Contains(s.unknowns, g) && p.rates.d[g] != 0
		}
		share := math.Abs(row[i] * p.driveRate(s, l))
		if driven && m.constraints[l].keep == nil && share > most*(1+num.Tie) {
			most, best = share, &m.constraints[l]
		}
	}
	if best == nil {
		return m.firstOf(s)
	}
	return best
}

// firstOf is the first constraint of a step that is something on the bench, not what a part
// keeps by itself.
func (m *Mechanism) firstOf(s *step) *constraint {
	for _, l := range s.constraints {
		if m.constraints[l].keep == nil {
			return &m.constraints[l]
		}
	}
	return &m.constraints[s.constraints[0]]
}

// driveRate is the second rate of a constraint's length with the step's own second
// rates taken away.
func (p *path) driveRate(s *step, l int) float64 {
	m, r := p.m, p.rates
	keep := make([]float64, len(s.unknowns))
	for j, f := range s.unknowns {
		keep[j], r.dd[f] = r.dd[f], 0
	}
	m.moveAll(&p.st, r, s.within)
	v := m.lengthRate2(&p.st, r, l)
	for j, f := range s.unknowns {
		r.dd[f] = keep[j]
	}
	m.moveAll(&p.st, r, s.within)
	return v
}
