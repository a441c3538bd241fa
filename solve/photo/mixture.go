package photo

import (
	"math"

	"fullfree/solve/internal/num"
)

// moments are the sums from which means, variances and a covariance are told, of two
// figures that are each spread by themselves.
type moments struct {
	share   float64
	mean    [2]float64
	square  [2]float64
	product float64
}

// add adds two figures with their variances and their covariance. The means and the squares
// about them are carried along, so that nothing is lost where figures are near one another.
func (m *moments) add(share float64, is, variance [2]float64, covariance float64) {
	m.share += share
	var from [2]float64
	for k := range is {
		from[k] = is[k] - m.mean[k]
		m.mean[k] += float64(from[k]*share) / m.share
		m.square[k] += float64(share * (variance[k] + float64(from[k]*(is[k]-m.mean[k]))))
	}
	m.product += float64(share * (covariance + float64(from[0]*(is[1]-m.mean[1]))))
}

// sigma is the standard deviation of one of the figures.
func (m *moments) sigma(of int) float64 { return root(m.square[of] / m.share) }

// sigmaWithout is the standard deviation of the first figure were the second known.
func (m *moments) sigmaWithout() float64 {
	if !(m.square[1] > 0) {
		return m.sigma(0)
	}
	return root((m.square[0] - float64(m.product*m.product)/m.square[1]) / m.share)
}

// mixture puts parts of the prior together, after their adjustment.
type mixture struct {
	net    *network
	picks  [][2]moments // of each pick's x and y, beside the roll
	roll   moments      // beside the camera's distance
	tilt   moments      // the square of tiltX, tiltY
	checks []Check      // of the sightings, times their shares
}

func newMixture(n *network) *mixture {
	picks := len(n.photo.Picks)
	return &mixture{net: n, picks: make([][2]moments, picks), checks: make([]Check, len(n.sightings))}
}

// toward is a vector over the unknowns of the camera and two picks: how a figure goes
// with them, in their standard deviations.
type toward struct {
	camera    [cameraSize]float64
	picks     [2]int
	pickParts [2][pickSize]float64
}

// known is a vector whose square is what the measurements take of a figure's variance, and
// whose product with another figure's what they take of their covariance.
func (s *settled) known(t *toward) []float64 {
	list := make([]float64, len(s.rows))
	for i := range s.rows {
		r := &s.rows[i]
		for k, v := range t.camera {
			list[i] += float64(v * r.camera[k])
		}
		for end, pick := range t.picks {
			list[i] += r.dotPick(pick, &t.pickParts[end])
		}
	}
	forward(s.lower, list)
	return list
}

// covariance is that of two figures, given what known returns of each.
func covariance(a, b *toward, knownA, knownB []float64) float64 {
	sum := num.Dot(a.camera[:], b.camera[:])
	for end := range a.pickParts {
		sum += num.Dot(a.pickParts[end][:], b.pickParts[end][:])
	}
	return sum - num.Dot(knownA, knownB)
}

// variance is that of a figure.
func variance(t *toward, known []float64) float64 { return max(0, covariance(t, t, known, known)) }

// add adds a part.
func (m *mixture) add(s *settled, share float64) {
	photo := m.net.photo
	datum := &s.seen[photo.Datum]
	unknown := func(k int) (toward, []float64) {
		var t toward
		t.camera[k] = s.part.sigma[k]
		return t, s.known(&t)
	}
	turn, knownTurn := unknown(roll)
	far, knownFar := unknown(lnAway)
	away := s.camera.away
	turnVariance, farVariance := variance(&turn, knownTurn), variance(&far, knownFar)
	m.roll.add(share, [2]float64{s.u[roll], away}, [2]float64{turnVariance, float64(away * away * farVariance)}, 0)
	for i := range photo.Picks {
		if i == photo.Datum {
			continue
		}
		at := &s.seen[i]
		is := [2]float64{at.x - datum.x, at.y - datum.y}
		for axis := range is {
			t := m.place(s, i, axis, datum, at)
			known := s.known(&t)
			m.picks[i][axis].add(share, [2]float64{is[axis], s.u[roll]}, [2]float64{variance(&t, known), turnVariance},
				covariance(&t, &turn, known, knownTurn))
		}
	}
	m.addTilt(s, share, unknown)
	m.addChecks(s, share)
}

// place is how a coordinate of a pick from the datum goes with the unknowns.
func (m *mixture) place(s *settled, pick, axis int, datum, at *seen) toward {
	t := toward{picks: [2]int{m.net.photo.Datum, pick}}
	for k := range t.camera {
		t.camera[k] = float64(s.part.sigma[k] * (at.camera[k][axis] - datum.camera[k][axis]))
	}
	for k := range pickSize {
		t.pickParts[0][k] = -float64(m.net.pickSigma[m.net.photo.Datum][k] * datum.pick[k][axis])
		t.pickParts[1][k] = float64(m.net.pickSigma[pick][k] * at.pick[k][axis])
	}
	return t
}

// addTilt adds the square of the tilt: of a bell with the mean u and the covariance C its
// mean is u'u + trace C, and its variance 4 u'C u + 2 trace C C.
func (m *mixture) addTilt(s *settled, share float64, unknown func(int) (toward, []float64)) {
	x, knownX := unknown(tiltX)
	y, knownY := unknown(tiltY)
	a, b := variance(&x, knownX), variance(&y, knownY)
	c := covariance(&x, &y, knownX, knownY)
	p, q := s.u[tiltX], s.u[tiltY]
	mean := float64(p*p) + float64(q*q) + a + b
	spread := 4*(float64(p*p*a)+float64(q*q*b)+2*float64(p*q*c)) + 2*(float64(a*a)+float64(b*b)+2*float64(c*c))
	m.tilt.add(share, [2]float64{mean}, [2]float64{spread}, 0)
}

const (
	// tiltToldFrom is the share of what is likely beforehand to which measurements must
	// bring the standard deviation of the tilt for them to have told it.
	tiltToldFrom = 0.5
	// widening is by how much the places' standard deviations are larger than what comes
	// out: within a part all is taken to be straight and to be spread like a bell. Without
	// it 92 to 95 percent of places lie within two standard deviations, of cameras drawn
	// from the prior; with it 95 to 97 (TestHuntCoverage).
	widening = 1.1
)

// places tells what was found; nil where no part settled, or a figure isn't finite.
func (m *mixture) places() *Places {
	if !(m.roll.share > 0) {
		return nil
	}
	found := &Places{
		Roll: m.roll.mean[0] / degree, RollSigma: m.roll.sigma(0) / degree,
		Away: m.roll.mean[1], AwaySigma: m.roll.sigma(1),
		OneDirection: m.net.photo.oneDirection(),
	}
	m.tellTilt(found)
	together := 0.0
	all := []float64{found.Roll, found.RollSigma, found.Away, found.AwaySigma, found.Tilt, found.TiltSigma}
	for i := range m.net.photo.Picks {
		var place Place
		if i != m.net.photo.Datum {
			x, y := &m.picks[i][0], &m.picks[i][1]
			place = Place{
				X: x.mean[0], SigmaX: float64(widening * x.sigma(0)),
				Y: y.mean[0], SigmaY: float64(widening * y.sigma(0)),
				Shape: float64(widening * max(x.sigmaWithout(), y.sigmaWithout())),
			}
		}
		found.Places = append(found.Places, place)
		found.Largest = max(found.Largest, place.SigmaX, place.SigmaY)
		found.LargestShape = max(found.LargestShape, place.Shape)
		together += float64(place.SigmaX*place.SigmaX) + float64(place.SigmaY*place.SigmaY)
		all = append(all, place.X, place.Y, place.SigmaX, place.SigmaY, place.Shape)
	}
	found.Together = math.Sqrt(together)
	all = append(all, found.Together)
	m.tellChecks(found)
	for _, c := range append(append([]Check{found.AwayTold}, found.Tapes...), found.Levels...) {
		all = append(all, c.Residual, c.Redundancy, c.Misclosure, c.Standardized)
	}
	if !finite(all...) {
		return nil
	}
	return found
}

// tellTilt fills in the tilt: the root of the mean of its square, and how far that is
// known, which is half of what its square is over the tilt.
func (m *mixture) tellTilt(found *Places) {
	length := root(m.tilt.mean[0])
	found.Tilt = tiltOf(length) / degree
	if length > 0 {
		found.TiltSigma = m.tilt.sigma(0) / (2 * length) / degree
	}
	// Beforehand its square has a mean of 2 s^2 and a standard deviation of as much.
	found.TiltTold = found.TiltSigma < tiltToldFrom*m.net.prior.sigma[tiltX]/math.Sqrt2/degree
}
