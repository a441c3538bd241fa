package photo

import (
	"math"

	"fullfree/linkage/elementary"
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

// sum puts parts of the prior together, after their adjustment.
type sum struct {
	net    *network
	picks  [][2]moments // of each pick's x and y, beside the roll
	roll   moments      // beside the camera's distance
	tilt   moments      // the square of tiltX, tiltY
	checks []Check      // of the sightings, times their shares
}

func newSum(n *network) *sum {
	picks := len(n.photo.Picks)
	return &sum{net: n, picks: make([][2]moments, picks), checks: make([]Check, len(n.sightings))}
}

// toward is a vector over the unknowns of the camera and two picks: how a figure goes
// with them, in their standard deviations.
type toward struct {
	camera    [cameraSize]float64
	picks     [2]int
	pickParts [2][pickSize]float64
}

// known returns what the measurements take of a figure's variance, as a vector whose
// products do.
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

// add adds a part; false where it sees a pick nowhere.
func (m *sum) add(s *settled, share float64) bool {
	photo := m.net.photo
	var datum seen
	if !s.camera.see(&photo.Picks[photo.Datum], &s.picks[photo.Datum], &datum) {
		return false
	}
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
		var at seen
		if !s.camera.see(&photo.Picks[i], &s.picks[i], &at) {
			return false
		}
		is := [2]float64{at.x - datum.x, at.y - datum.y}
		for axis := range is {
			t := m.place(s, i, axis, &datum, &at)
			known := s.known(&t)
			m.picks[i][axis].add(share, [2]float64{is[axis], s.u[roll]}, [2]float64{variance(&t, known), turnVariance},
				covariance(&t, &turn, known, knownTurn))
		}
	}
	m.addTilt(s, share, unknown)
	m.addChecks(s, share)
	return true
}

// place is how a coordinate of a pick from the datum goes with the unknowns.
func (m *sum) place(s *settled, pick, axis int, datum, at *seen) toward {
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
func (m *sum) addTilt(s *settled, share float64, unknown func(int) (toward, []float64)) {
	x, knownX := unknown(tiltX)
	y, knownY := unknown(tiltY)
	a, b := variance(&x, knownX), variance(&y, knownY)
	c := covariance(&x, &y, knownX, knownY)
	p, q := s.u[tiltX], s.u[tiltY]
	mean := float64(p*p) + float64(q*q) + a + b
	spread := 4*(float64(p*p*a)+float64(q*q*b)+2*float64(p*q*c)) + 2*(float64(a*a)+float64(b*b)+2*float64(c*c))
	m.tilt.add(share, [2]float64{mean}, [2]float64{spread}, 0)
}

// addChecks adds what the rest says about each sighting. A misfit where all have settled
// has the variance, in its own standard deviation, that stands in the diagonal of the
// inverse of I + H H'.
func (m *sum) addChecks(s *settled, share float64) {
	column := make([]float64, len(s.rows))
	for i := range s.rows {
		clear(column)
		column[i] = 1
		forward(s.lower, column)
		redundancy := min(1, num.Dot(column, column))
		c := &m.checks[i]
		c.Residual += float64(share * s.rows[i].off)
		c.Redundancy += float64(share * redundancy)
		c.Misclosure += float64(share*s.rows[i].off) / redundancy
		c.Standardized += float64(share*s.rows[i].off) / math.Sqrt(redundancy)
	}
}

const (
	// checkedTape and checkedAway are the share of a distance to which the rest must tell
	// it, one standard deviation, for them to check it: else only a reading that is off by
	// half shows, and of the camera's distance one of several times.
	checkedTape, checkedAway = 0.15, 0.5
	// doubtfulFrom is the standardized residual above which a measurement is doubtful:
	// chance alone goes so far once in 370.
	doubtfulFrom = 3
	// likeDoubtful is how near the largest another standardized residual must come for
	// either to be the one that slipped: chance moves them by as much.
	likeDoubtful = 0.5
	// tiltToldFrom is the share of what is likely beforehand to which measurements must
	// bring the standard deviation of the tilt for them to have told it.
	tiltToldFrom = 0.5
	// oneDirection is the angle in degrees within which distances are in one direction:
	// across it a foreshortening shows as little as the cosine of what is left of it.
	oneDirection = 25
)

// places tells what was found; nil where no part settled, or a figure isn't finite.
func (m *sum) places() *Places {
	if !(m.roll.share > 0) {
		return nil
	}
	found := &Places{
		Roll: m.roll.mean[0] / degree, RollSigma: m.roll.sigma(0) / degree,
		Away: m.roll.mean[1], AwaySigma: m.roll.sigma(1),
		OneDirection: m.net.photo.oneDirection(),
	}
	m.tellTilt(found)
	all := []float64{found.Roll, found.RollSigma, found.Away, found.AwaySigma, found.Tilt, found.TiltSigma}
	for i := range m.net.photo.Picks {
		var place Place
		if i != m.net.photo.Datum {
			x, y := &m.picks[i][0], &m.picks[i][1]
			place = Place{X: x.mean[0], Y: y.mean[0], SigmaX: x.sigma(0), SigmaY: y.sigma(0), Shape: max(x.sigmaWithout(), y.sigmaWithout())}
		}
		found.Places = append(found.Places, place)
		found.Largest = max(found.Largest, place.SigmaX, place.SigmaY)
		found.LargestShape = max(found.LargestShape, place.Shape)
		all = append(all, place.X, place.Y, place.SigmaX, place.SigmaY, place.Shape)
	}
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
func (m *sum) tellTilt(found *Places) {
	length := root(m.tilt.mean[0])
	found.Tilt = tiltOf(length) / degree
	if length > 0 {
		found.TiltSigma = m.tilt.sigma(0) / (2 * length) / degree
	}
	// Beforehand its square has a mean of 2 s^2 and a standard deviation of as much.
	found.TiltTold = found.TiltSigma < tiltToldFrom*m.net.prior.sigma[tiltX]/math.Sqrt2/degree
}

// tellChecks fills in what the rest says about each measurement.
func (m *sum) tellChecks(found *Places) {
	checks := m.checks
	for i := range checks {
		c := &checks[i]
		c.Residual /= m.roll.share
		c.Redundancy /= m.roll.share
		c.Standardized /= m.roll.share
		c.Misclosure /= m.roll.share
		g := &m.net.sightings[i]
		// How surely the rest tells what was measured.
		rest := g.sigma / math.Sqrt(c.Redundancy)
		unit := g.sigma
		switch g.kind {
		case taped:
			c.Checked = rest < checkedTape*g.is
		case gauged:
			c.Checked = true // by how level a camera is held at least
			unit /= degree
		case told:
			c.Checked = rest < checkedAway
			unit = float64(unit * m.net.photo.Away)
		}
		c.Residual, c.Misclosure = float64(c.Residual*unit), float64(c.Misclosure*unit)
		if !c.Checked {
			c.Misclosure, c.Standardized = 0, 0
		}
	}
	worst, most := -1, float64(doubtfulFrom)
	for i := range checks {
		if off := math.Abs(checks[i].Standardized); off > most {
			worst, most = i, off
		}
	}
	if worst >= 0 {
		for i := range checks {
			checks[i].AsDoubtful = i != worst && math.Abs(checks[i].Standardized) > most-likeDoubtful
		}
		checks[worst].Doubtful = true
	}
	tapes, levels := len(m.net.photo.Tapes), len(m.net.photo.Levels)
	found.Tapes, found.Levels = checks[:tapes:tapes], checks[tapes:tapes+levels:tapes+levels]
	if len(checks) > tapes+levels {
		found.AwayTold = checks[tapes+levels]
	}
}

// oneDirection reports whether all distances lie in about one direction.
func (p *Photo) oneDirection() bool {
	for i, a := range p.Tapes {
		for _, b := range p.Tapes[:i] {
			if p.between(a, b) > oneDirection*degree {
				return false
			}
		}
	}
	return true
}

// between is the angle between two distances in the photo, at most a quarter turn.
func (p *Photo) between(a, b Distance) float64 {
	along := func(t Distance) (x, y float64) {
		return p.Picks[t.To].X - p.Picks[t.From].X, p.Picks[t.To].Y - p.Picks[t.From].Y
	}
	ax, ay := along(a)
	bx, by := along(b)
	cross, dot := float64(ax*by)-float64(ay*bx), float64(ax*bx)+float64(ay*by)
	return elementary.Atan2(math.Abs(cross), math.Abs(dot))
}
