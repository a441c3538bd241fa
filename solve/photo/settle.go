package photo

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage/elementary"
	"fullfree/solve/internal/num"
)

const (
	// settledFrom is the change of every unknown, in its standard deviation beforehand,
	// from which on it has settled.
	settledFrom = 1e-9
	// stalledFrom is the same where the sum of squares doesn't fall any more: its rounding
	// hides smaller changes.
	stalledFrom = 1e-4
	// mostSteps is how often the unknowns may be improved: five do but where measurements
	// fight one another.
	mostSteps = 80
	// fallRoundings is how much the sum of squares may seem to rise, as a share of it,
	// by rounding alone.
	fallRoundings = 1e-11
	// firstDamping is how heavily a step is held back that didn't lower the sum, at
	// first; dampingGrows is by how much from one to the next, and mostDamping when no
	// step is of any use.
	firstDamping, dampingGrows, mostDamping = 1e-3, 8, 1e12
)

// part is a part of the prior: a narrower one, and the natural logarithm of its share.
type part struct {
	mean, sigma [cameraSize]float64
	lnShare     float64
}

// state is the unknowns, each as its distance from its mean in standard deviations.
type state struct {
	camera [cameraSize]float64
	picks  [][pickSize]float64
}

// network is a photo with its prior, as the adjustment takes it.
type network struct {
	photo     *Photo
	prior     *prior
	sightings []sighting
	pickSigma [][pickSize]float64 // of each pick
	depths    []float64           // as told or guessed
	first     [cameraSize]float64 // where the search begins, but for the tilt
}

func newNetwork(p *Photo, of *prior) *network {
	n := &network{photo: p, prior: of, sightings: p.sightings(of)}
	for i, pick := range p.Picks {
		n.pickSigma = append(n.pickSigma, [pickSize]float64{of.pick, of.pick, p.depthSigma(of, i)})
		n.depths = append(n.depths, pick.Depth)
	}
	n.first = n.start()
	return n
}

// settled is a part of the prior after the adjustment.
type settled struct {
	part   *part
	camera camera
	u      [cameraSize]float64 // the camera's unknowns
	picks  [][pickSize]float64 // the picks' unknowns
	seen   []seen              // where the picks are
	rows   []row
	// lower is the lower factor of I + H H', with the rows in H: the covariance of what
	// was measured less what is expected beforehand, in the rows' own standard deviations.
	lower [][]float64
	cost  float64 // the sum of all squares
	// lnLikely is the natural logarithm of how likely it makes what was measured, with its
	// share, but for a constant.
	lnLikely float64
}

// settle adjusts a part of the prior: it looks for the unknowns at which the sum of the
// squares of all unknowns and all rows' misfits is least, by Gauss and Newton's steps that
// are held back where they don't lower it (Levenberg). It returns nil where it finds no
// rest.
//
// There are many more unknowns than measurements, and every unknown is known beforehand.
// So a step solves for the measurements rather than for the unknowns: with the misfits r
// and their rows H where the unknowns are at s, the next are at
//
//	s' = H' inverse(I + H H') (r + H s)
//
// which is the same as the normal equations' (the matrix inversion lemma).
func (n *network) settle(of *part) *settled {
	at, here, next := n.begin(of), n.unsettled(of), n.unsettled(of)
	if !n.measure(here, at) {
		return nil
	}
	damping := 0.0
	for range mostSteps {
		to, ok := here.step(at, damping)
		if !ok {
			return nil
		}
		change := at.farthest(to)
		if change <= settledFrom {
			return here.weigh()
		}
		possible := n.measure(next, to)
		least := float64(fallRoundings * (1 + here.cost))
		if possible && change <= stalledFrom && math.Abs(next.cost-here.cost) <= least {
			return here.weigh()
		}
		if !possible || !(next.cost <= here.cost+least) {
			if damping > mostDamping {
				return nil
			}
			damping = max(firstDamping, dampingGrows*damping)
			continue
		}
		if damping /= dampingGrows; damping < firstDamping {
			damping = 0
		}
		here, next, at = next, here, to
	}
	return nil
}

// begin is where the search begins in a part: at its tilt, else where the network does.
func (n *network) begin(of *part) *state {
	at := &state{picks: make([][pickSize]float64, len(n.photo.Picks))}
	for k := range at.camera {
		if k != tiltX && k != tiltY {
			at.camera[k] = (n.first[k] - of.mean[k]) / of.sigma[k]
		}
	}
	return at
}

// unsettled has room for a part of the prior.
func (n *network) unsettled(of *part) *settled {
	picks := len(n.photo.Picks)
	return &settled{part: of, picks: make([][pickSize]float64, picks), seen: make([]seen, picks), rows: make([]row, len(n.sightings))}
}

// measure sets what the unknowns make of the camera, the picks and the rows; false where
// they are none that a photo can be taken with.
func (n *network) measure(s *settled, at *state) bool {
	s.cost = 0
	for k, v := range at.camera {
		s.u[k] = s.part.mean[k] + float64(s.part.sigma[k]*v)
		s.cost += float64(v * v)
	}
	s.camera.set(n.photo, &s.u)
	for i := range n.photo.Picks {
		for k, v := range at.picks[i] {
			s.picks[i][k] = float64(n.pickSigma[i][k] * v)
			s.cost += float64(v * v)
		}
		s.picks[i][depth] += n.depths[i]
		if !s.camera.see(&n.photo.Picks[i], &s.picks[i], &s.seen[i]) {
			return false
		}
	}
	for i := range n.sightings {
		g, r := &n.sightings[i], &s.rows[i]
		if g.kind == told {
			*r = row{off: (g.is - s.u[lnAway]) / g.sigma}
			r.camera[lnAway] = 1 / g.sigma
		} else {
			g.tell(&s.seen[g.from], &s.seen[g.to], r)
		}
		r.scale(&s.part.sigma, &n.pickSigma[g.from], &n.pickSigma[g.to])
		s.cost += float64(r.off * r.off)
	}
	return finite(s.cost)
}

// step is where the unknowns go next.
func (s *settled) step(at *state, damping float64) (*state, bool) {
	held := 1 / (1 + damping)
	if s.lower = factor(s.rows, held); s.lower == nil {
		return nil, false
	}
	right := s.expected(at, held)
	forward(s.lower, right)
	backward(s.lower, right)
	to := &state{camera: at.camera, picks: make([][pickSize]float64, len(at.picks))}
	stay := 1 - held
	for k, v := range at.camera {
		to.camera[k] = float64(stay * v)
	}
	for i := range at.picks {
		for k, v := range at.picks[i] {
			to.picks[i][k] = float64(stay * v)
		}
	}
	for i := range s.rows {
		r, by := &s.rows[i], float64(held*right[i])
		for k := range to.camera {
			to.camera[k] += float64(by * r.camera[k])
		}
		for k := range pickSize {
			to.picks[r.from][k] += float64(by * r.ends[0][k])
			to.picks[r.to][k] += float64(by * r.ends[1][k])
		}
	}
	return to, true
}

// expected is how far what was measured is from what is expected where the unknowns are
// held, so much of the way from their means to where they are now.
func (s *settled) expected(at *state, held float64) []float64 {
	right := make([]float64, len(s.rows))
	for i := range s.rows {
		r := &s.rows[i]
		along := r.dotPick(r.from, &at.picks[r.from])
		if r.to != r.from {
			along += r.dotPick(r.to, &at.picks[r.to])
		}
		for k, v := range at.camera {
			along += float64(r.camera[k] * v)
		}
		right[i] = r.off + float64(held*along)
	}
	return right
}

// farthest is the largest difference of any unknown.
func (at *state) farthest(to *state) float64 {
	most := 0.0
	for k, v := range at.camera {
		most = max(most, math.Abs(to.camera[k]-v))
	}
	for i := range at.picks {
		for k, v := range at.picks[i] {
			most = max(most, math.Abs(to.picks[i][k]-v))
		}
	}
	return most
}

// weigh fills in how likely it all is. Laplace's approximation of what all unknowns make
// likely together: by the sum of squares where they have settled, and by how wide it is
// there.
func (s *settled) weigh() *settled {
	if s.lower = factor(s.rows, 1); s.lower == nil {
		return nil
	}
	s.lnLikely = s.part.lnShare - s.cost/2
	for i := range s.lower {
		s.lnLikely -= elementary.Log(s.lower[i][i])
	}
	return s
}

// factor returns the lower factor of I + held H H'; nil where rounding has made nonsense
// of it.
func factor(rows []row, held float64) [][]float64 {
	square := mat.NewSymDense(len(rows), nil)
	for i := range rows {
		for j := range i + 1 {
			square.SetSym(i, j, float64(held*rows[i].dot(&rows[j])))
		}
		square.SetSym(i, i, 1+square.At(i, i))
	}
	return num.Cholesky(square)
}

// redundancies are the diagonal of the inverse of I + H H': the variances of the misfits
// where all have settled, in their own standard deviations. column has room for one.
func (s *settled) redundancies(column []float64) []float64 {
	list := make([]float64, len(s.rows))
	for i := range s.rows {
		clear(column)
		column[i] = 1
		forward(s.lower, column)
		list[i] = min(1, num.Dot(column, column))
	}
	return list
}

// forward puts the solution of lower x = right into right.
func forward(lower [][]float64, right []float64) {
	for i, l := range lower {
		right[i] = (right[i] - num.Dot(l[:i], right)) / l[i]
	}
}

// backward puts the solution of lower' x = right into right.
func backward(lower [][]float64, right []float64) {
	for i := len(lower) - 1; i >= 0; i-- {
		right[i] /= lower[i][i]
		num.AddScaled(right, lower[i][:i], -right[i])
	}
}
