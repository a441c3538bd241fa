package survey

import (
	"slices"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// Helps is what a measurement that isn't taken yet would tell, once those before it in its
// order are taken.
type Helps struct {
	Measurement *linkage.Measurement
	// Settles is how many coordinates fewer would be undetermined; Removes is the share of
	// the sum of all variances, as it is by then, that would go, 0 to 1.
	Settles int
	Removes float64
}

// sameOrder is by how much, as a share, one measurement must help more than another that
// stands before it in the file: by less nobody would notice, and what stands first is the
// easier to tape.
const sameOrder = 0.05

// Order puts measurements between places of the run into the order in which they help most:
// first each time the one that leaves the fewest coordinates undetermined, of several that
// which removes most of the sum of all variances, of several the first. Those that are
// between places of another run, or between what is drawn in one place, are left out.
func (s *Survey) Order(list []*linkage.Measurement) []Helps {
	if !s.Adjusted() || len(s.net.x) == 0 {
		return nil
	}
	o := &ordering{cov: mat.NewSymDense(s.cov.SymmetricDim(), nil), loose: looseSpace{mat.NewSymDense(s.cov.SymmetricDim(), nil)}}
	o.cov.CopySym(s.cov)
	o.loose.CopySym(s.loose)
	for _, m := range list {
		if l, sigma, ok := s.net.sighted(m); ok {
			o.open = append(o.open, candidateLine{m, l, sigma})
		}
	}
	var out []Helps
	for len(o.open) > 0 {
		out = append(out, o.take())
	}
	return out
}

// ordering is what is left to choose from, and what is known by then.
type ordering struct {
	cov   *mat.SymDense
	loose looseSpace
	open  []candidateLine
}

// candidateLine is a measurement as a row of lengths.
type candidateLine struct {
	measured *linkage.Measurement
	line     line
	sigma    float64 // run units
}

// take takes the one that helps most.
func (o *ordering) take() Helps {
	best, settles, removes := 0, -1, 0.0
	for i := range o.open {
		c := &o.open[i]
		n, share := o.loose.settles(&c.line), removesOf(o.cov, &c.line, c.sigma)
		if n > settles || n == settles && share > removes+float64(sameOrder*removes) {
			best, settles, removes = i, n, share
		}
	}
	c := o.open[best]
	h := Helps{c.measured, settles, removes / mat.Trace(o.cov)}
	o.known(&c)
	o.open = append(o.open[:best], o.open[best+1:]...)
	return h
}

// known takes up what a measurement tells.
func (o *ordering) known(c *candidateLine) {
	column, twice := c.line.through(o.cov)
	o.cov.SymRankOne(o.cov, -1/(float64(c.sigma*c.sigma)+twice), mat.NewVecDense(len(column), column))
	if column, twice, ok := o.loose.part(&c.line); ok {
		o.loose.SymRankOne(o.loose.SymDense, -1/twice, mat.NewVecDense(len(column), column))
	}
}

// sighted returns a measurement as a row of lengths, a direction as that square to its line;
// false where it isn't one between two places of the run that lie apart and aren't exact.
func (n *surveyNet) sighted(m *linkage.Measurement) (l line, sigma float64, ok bool) {
	if m == nil {
		return line{}, 0, false
	}
	g := sighting{measured: m, from: n.number(m.From), to: n.number(m.To)}
	if g.from < 0 || g.to < 0 {
		return line{}, 0, false
	}
	d := n.between(g.from, g.to, n.x)
	long := n.seen(d)
	l = line{ends: n.ends(g.from, g.to), axes: n.axes, slope: n.slope(&g, n.x)}
	if long <= drawnTogether*n.size || len(l.ends) == 0 || l.slope.Norm() == 0 {
		return line{}, 0, false
	}
	sigma = m.Within / 2
	if m.Kind == linkage.Gauged {
		across := elementary.Hypot(d.X, d.Y)
		sigma = float64(sigma * degree * across)
		l.slope = l.slope.Unit()
	}
	return l, sigma, sigma > 0
}

// number is the place that a reference names; -1 where it is none of the run.
func (n *surveyNet) number(ref linkage.PlaceRef) int {
	return slices.IndexFunc(n.places, func(p surveyPlace) bool { return p.ref.Same(ref) })
}
