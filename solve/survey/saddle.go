package survey

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

const (
	// firstPush is how far the places are pushed off a saddle first, as a share of
	// what the sketch may be out; it is doubled while the sum falls.
	firstPush = 1e-3
	// besideSketch is how far places drawn one behind the other are set apart to
	// begin with, as a share of what the sketch may be out.
	besideSketch = 1e-2
	// mirrorMoves is how many standard deviations a place must lie from its mirror
	// image for the two to be told apart at all.
	mirrorMoves = 2
)

// MirroredPlace is a place that may as well be elsewhere.
type MirroredPlace struct {
	Place linkage.PlaceRef
	Name  string
	At    linkage.Vec // where else
}

// leaveSaddles goes on from where the unknowns rest while the sum of squares
// falls from there to both sides of a direction, as it does where places
// sketched in line lie aside of it. They stay where the sum falls by no more than
// chance makes it (num.ChiSquare): a straight bellcrank, its arms taped a hair long,
// is not a bent one. Of the two sides the
// one with the lower sum is taken, that of the sketch, if anything; the other is
// kept where the readings can't tell it apart.
func (n *surveyNet) leaveSaddles() {
	for range n.x {
		rest := append([]float64(nil), n.x...)
		left := false
		for _, along := range n.falling() {
			if left = n.leave(along); left {
				break
			}
			copy(n.x, rest)
		}
		if !left {
			return
		}
	}
}

// leave goes to where the unknowns rest on the better side of a direction, and
// reports whether that is worth it.
func (n *surveyNet) leave(along []float64) bool {
	rest := append([]float64(nil), n.x...)
	before, _ := n.squares(rest)
	var best, other []float64
	least, next := math.Inf(1), math.Inf(1)
	for _, side := range []float64{1, -1} {
		copy(n.x, rest)
		if !n.push(along, side) || !n.settle(false) {
			continue
		}
		sum, noise := n.squares(n.x)
		x := append([]float64(nil), n.x...)
		if sum < least-noise {
			best, other, least, next = x, best, sum, least
		} else {
			other, next = x, sum
		}
	}
	if best == nil || before-least <= num.ChiSquare {
		return false
	}
	copy(n.x, best)
	if next-least <= num.ChiSquare {
		n.mirrors = append(n.mirrors, other)
	}
	return true
}

// falling returns the directions of length 1 in which the sum of squares falls
// from where the unknowns rest, the steepest first.
func (n *surveyNet) falling() (list [][]float64) {
	hessian, _ := n.halfHessian(1 / (n.sketch * n.sketch))
	if num.Definite(hessian) {
		return nil
	}
	bends, vectors := num.Eigen(hessian)
	for i, bend := range bends {
		if !(bend < 0) {
			break
		}
		along := vectors[i]
		largest := 0
		for u, v := range along {
			if math.Abs(v) > math.Abs(along[largest])*(1+num.Tie) {
				largest = u
			}
		}
		if along[largest] < 0 { // either sign would do; this one is always the same
			for u := range along {
				along[u] = -along[u]
			}
		}
		list = append(list, along)
	}
	return list
}

// push moves the unknowns to one side of a direction while the sum of squares
// falls, and reports whether it does at all.
func (n *surveyNet) push(along []float64, side float64) (falls bool) {
	rest := append([]float64(nil), n.x...)
	best := append([]float64(nil), n.x...)
	least, noise := n.squares(rest)
	for length := float64(firstPush * n.sketch); length <= n.sketch; length *= 2 {
		for u, v := range along {
			n.x[u] = rest[u] + float64(side*length*v)
		}
		sum, _ := n.squares(n.x)
		if !(sum < least-noise) {
			if falls {
				break
			}
			continue
		}
		falls, least = true, sum
		copy(best, n.x)
	}
	copy(n.x, best)
	return falls
}

// aimless reports whether a distance was taped between places drawn one behind
// the other that is not their distance as drawn: they lie apart, but the drawing
// doesn't say which way.
func (n *surveyNet) aimless(g *sighting) bool {
	return g.measured.Kind == linkage.Taped && len(n.ends(g.from, g.to)) > 0 && n.drawnInOne(g) &&
		math.Abs(n.misfit(g, n.drawn)) > doubtfulFrom*g.sigma
}

// setBeside sets places drawn one behind the other a little apart where they
// were taped farther from each other than that: the measurements then carry
// them to where they are.
func (n *surveyNet) setBeside() {
	for i := range n.sightings {
		g := &n.sightings[i]
		if n.aimless(g) && n.seen(n.between(g.from, g.to, n.x)) <= drawnTogether*n.size {
			ends := n.ends(g.from, g.to)
			end := ends[len(ends)-1]
			n.x[end.first] += float64(end.sign * besideSketch * n.sketch)
		}
	}
}

// tellAimless adds a fault for every distance between places drawn one behind
// the other where nothing else tells on which side of each other they lie.
func (s *Survey) tellAimless(faults *linkage.Faults) {
	n := s.net
	for i := range n.sightings {
		g := &n.sightings[i]
		if !n.aimless(g) {
			continue
		}
		along := n.between(g.from, g.to, n.x)
		across := []vec{vec{Z: 1}.Cross(along)}
		if n.axes == 3 {
			across = append(across, along.Cross(vec{X: 1}), along.Cross(vec{Y: 1}))
		}
		for _, square := range across {
			l := line{ends: n.ends(g.from, g.to), axes: n.axes, slope: square.Unit()}
			if _, twice := l.through(s.untied); twice > looseShare*looseShare {
				n.tellBehind(g, faults)
				break
			}
		}
	}
}

// tellBehind adds the fault of places drawn one behind the other that lie apart.
func (n *surveyNet) tellBehind(g *sighting, faults *linkage.Faults) {
	m, d := g.measured, n.between(g.from, g.to, n.drawn)
	faults.Add(m.Span, "%s and %s are drawn one behind the other, %.4g %s apart, and %.4g was measured: sketch them on the sides where they lie", m.From, m.To, d.Norm(), n.run.Units, m.Is)
}

// tellMirror fills in what may as well lie elsewhere: on the other side of a
// saddle, or, where the sketch hardly tells the side, in the mirror image of a
// single place in the line of two others that it is measured to.
func (s *Survey) tellMirror() {
	n := s.net
	elsewhere := make([]*vec, len(n.places))
	for _, x := range n.mirrors {
		for i, p := range n.places {
			if at := n.at(i, x); p.first >= 0 && s.distinct(i, at) {
				elsewhere[i] = &at
			}
		}
	}
	if n.axes == 2 {
		s.reflect(elsewhere)
	}
	for i, at := range elsewhere {
		if at != nil {
			ref := n.places[i].ref
			s.Mirror = true
			s.Mirrored = append(s.Mirrored, MirroredPlace{Place: ref, Name: ref.String(), At: *at})
		}
	}
}

// reflect tries the mirror image of every place by itself.
func (s *Survey) reflect(elsewhere []*vec) {
	n := s.net
	near := make([][]int, len(n.places))
	for i := range n.sightings {
		g := &n.sightings[i]
		near[g.from], near[g.to] = append(near[g.from], g.to), append(near[g.to], g.from)
	}
	least, _ := n.squares(n.x)
	x := append([]float64(nil), n.x...)
	for i, p := range n.places {
		if p.first < 0 || elsewhere[i] != nil || s.opens(i) {
			continue
		}
		// Two lines that it is mirrored in would do; more neighbors make no more.
		for a, from := range near[i] {
			for _, to := range near[i][:a] {
				line := n.between(from, to, n.x)
				line.Z = 0
				if line.Norm() <= drawnTogether*n.size {
					continue
				}
				u := line.Unit()
				d := n.between(from, i, n.x)
				flat := vec{X: d.X, Y: d.Y}
				at := n.at(i, n.x).Add(u.Scale(2 * u.Dot(flat))).Sub(flat.Scale(2))
				x[p.first], x[p.first+1] = at.X, at.Y
				sum, _ := n.squares(x)
				copy(x[p.first:p.first+2], n.x[p.first:p.first+2])
				if sum <= least+num.ChiSquare && s.distinct(i, at) && elsewhere[i] == nil {
					elsewhere[i] = &at
				}
			}
		}
	}
}

// opens reports whether a place is not tied, so that where else it may be needs
// no telling.
func (s *Survey) opens(place int) bool {
	first := s.net.places[place].first
	for axis := range s.net.axes {
		if s.untied.has(first + axis) {
			return true
		}
	}
	return false
}

// distinct reports whether another place for one is beyond what it may be out.
func (s *Survey) distinct(place int, at vec) bool {
	n := s.net
	move := at.Sub(n.at(place, n.x))
	if move.Norm() <= settled*n.size {
		return false
	}
	l := line{ends: []surveyEnd{{n.places[place].first, 1}}, axes: n.axes, slope: move.Unit()}
	_, variance := l.through(s.cov)
	return move.Norm() > mirrorMoves*math.Sqrt(variance)
}
