package survey

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// Survey is a sketched drawing adjusted to what was measured: the coordinates
// that fit best, how sure each is, and what every measurement has to say about
// the others.
//
// The adjustment is the surveyors' (observations by least squares). Unknown are
// the coordinates of every named point and of every pivot given by numbers, of
// parts that are not exact; z only in a run that isn't plane. Each is known
// beforehand to within Run.Sketch, each measurement to within half its Within
// (one standard deviation). With the measurements' derivatives in the rows of A,
// their weights P = 1/sigma^2 and the sketch's standard deviation s,
//
//	C = inverse of (A' P A + I / s^2)
//
// is the covariance of the coordinates at the solution. It is never rescaled by
// how well the measurements agree.
//
// Lengths are the run's unit, directions degrees.
type Survey struct {
	Run *linkage.Run // as sketched
	// Points are every named point and every pivot given by numbers, exact ones
	// too, in the file's order, each part's pivot before its points.
	Points       []Point
	Measurements []Measurement // in the file's order
	// Undetermined names the coordinates that the measurements leave open
	// whatever the sketch says, as "part.point.x".
	Undetermined []string
	// NeedsDirection says that all of it can turn about its exact places: tapes
	// never tell that, it takes a gauged line or a further exact place, once. Where
	// no place is exact the direction is given (see the datum), and this is false.
	NeedsDirection bool
	// Next is the further measurement that would help most: a direction where
	// NeedsDirection, else a distance.
	Next Suggestion
	// FarGauges and FarPlaces are what lies far from where it is drawn, in the
	// file's order: a slip of the kind that measurements needn't disagree about.
	FarGauges []FarGauge
	FarPlaces []FarPlace
	// Mirror says that some places lie aside of a line, and that the sketch, in
	// line or nearly so, doesn't tell on which side; Mirrored are the places that
	// would lie elsewhere then.
	Mirror   bool
	Mirrored []MirroredPlace
	// DegreesOfFreedom is the number of measurements less the rank of A: how
	// many of them check the others.
	DegreesOfFreedom int
	// StillDisagree is how many measurements disagree still without the one that is
	// Doubtful: 0 where it was the only slip, or nothing tells.
	StillDisagree int

	net   *surveyNet
	cov   *mat.SymDense
	loose looseSpace
	// untied is loose without the turns that NeedsDirection tells of.
	untied looseSpace
}

// Point is one place after the adjustment.
type Point struct {
	Place     linkage.PlaceRef
	Name      string // "part.point" or "part.pivot"
	Drawn, At linkage.Vec
	// Sigma is the standard deviation of each coordinate; 0 where it is exact.
	Sigma linkage.Vec
	// PlaneOnly says that z is as written, exactly, as everywhere in a plane run.
	PlaneOnly bool
	Exact     bool // the file says that it is where it is drawn
	// Undetermined says which of x, y, z no measurement ties.
	Undetermined [3]bool
	// Untied is the same were all of it kept from turning: without
	// NeedsDirection it is Undetermined. A tape can mend this.
	Untied [3]bool
	// Idle says that nothing hangs on it: no rod, cable, pivot, output or requirement.
	Idle bool
}

// Measurement is one measurement after the adjustment, in the run's
// unit or degrees.
type Measurement struct {
	Measurement *linkage.Measurement
	// Adjusted is what the adjusted drawing has; of a direction the turn nearest
	// to what was read. Residual is what was read less Adjusted.
	Adjusted, Residual float64
	// Redundancy is the share of an error of this measurement that shows in its
	// residual: 0 (nothing checks it) to 1 (the rest tell it exactly).
	Redundancy float64
	// Misclosure is the residual over the redundancy: how far the measurement
	// disagrees with all the others. Standardized is the residual over its
	// standard deviation. Both are nil where nothing checks the measurement.
	Misclosure, Standardized *float64
	// Doubtful is the one that disagrees most, where that is more than chance.
	Doubtful bool
	// AsDoubtful says that this could as well be the one that slipped, as nearly as can
	// be told: it disagrees about as much as the one that is Doubtful.
	AsDoubtful bool
}

const (
	// checkedFrom is the redundancy below which nothing checks a measurement: an
	// error would have to be a hundred times what it shows.
	checkedFrom = 0.01
	// doubtfulFrom is the standardized residual above which a measurement is
	// doubtful: chance alone goes so far once in 370.
	doubtfulFrom = 3
)

// New adjusts a run to its measurements; none of them may be blank. A run
// without a sketch is exact: then only the residuals say anything. The error is
// *linkage.Faults.
//
// The search begins at the sketch and goes downhill from there. Where a place is
// sketched on the wrong side of a line, its distances can often be met on that
// side as well, in a mirror image; nothing here can know. A measurement across
// the line brings it over or, where it doesn't, stands out by its standardized
// residual. Places sketched exactly in line that lie aside of it come to lie on
// the better side, and Mirror tells where the other is as good. A line gauged the
// other way round than it is sketched may turn all of it over and disagree with
// nothing: FarGauges and FarPlaces tell. Where the search finds no rest, that is
// an error which names the measurement farthest off.
func New(run *linkage.Run) (*Survey, error) {
	if err := run.Validate(); err != nil {
		return nil, err
	}
	s, err := adjusted(run)
	if err != nil {
		return nil, err
	}
	s.tellDoubt()
	return s, nil
}

// adjusted is New without what it takes another survey to tell.
func adjusted(run *linkage.Run) (*Survey, error) {
	faults := &linkage.Faults{Source: run.Source}
	n := newSurveyNet(run)
	if n.tellUnfit(faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	if !n.adjust() {
		n.tellRestless(faults)
		return nil, faults.Err()
	}
	s := &Survey{Run: run, net: n}
	leverage := s.spread()
	s.tellMeasurements(leverage)
	rank := n.rank()
	s.DegreesOfFreedom = len(n.sightings) - rank
	s.loose = n.looseSpace()
	turns := n.wholeTurns()
	s.NeedsDirection = len(turns) > 0
	s.untied = n.keptFromTurning(s.loose, turns)
	if s.tellAimless(faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	s.tellPoints()
	s.tellFar()
	s.tellMirror()
	if s.NeedsDirection {
		s.Next = s.suggestGauge()
	} else {
		s.Next = s.suggest(func(int, int) bool { return true })
	}
	return s, nil
}

// spread works out the covariance, and the leverage of each measurement: the
// share of its own error that goes into what it is adjusted to. With the rows
// over their standard deviations, the sketch's too, factored into Q R, C is the
// inverse of R'R and the leverage of a row a is the square of the inverse of R'
// times a.
func (s *Survey) spread() (leverage []float64) {
	n, size := s.net, len(s.net.x)
	leverage = make([]float64, len(n.sightings))
	s.cov = &mat.SymDense{}
	if size == 0 {
		return leverage
	}
	rows, off := n.system(1 / n.sketch)
	// The sketch's rows keep R from being singular, and tellUnfit it from being
	// nearly so.
	r, _ := num.Reduce(rows, off)
	s.cov = r.InverseOfSquare()
	for i := range leverage {
		part := num.Norm(r.SolveTransposed(rows.RawRowView(i)))
		leverage[i] = min(1, float64(part*part))
	}
	return leverage
}

// tellMeasurements fills in the measurements.
func (s *Survey) tellMeasurements(leverage []float64) {
	doubtful, most := -1, float64(doubtfulFrom)
	for i := range s.net.sightings {
		g := &s.net.sightings[i]
		residual, sigma := s.net.misfit(g, s.net.x), g.sigma
		if g.measured.Kind == linkage.Gauged {
			residual, sigma = residual/degree, sigma/degree
		}
		m := Measurement{
			Measurement: g.measured, Residual: residual, Adjusted: g.measured.Is - residual,
			Redundancy: 1 - leverage[i],
		}
		if m.Redundancy >= checkedFrom {
			misclosure, standardized := residual/m.Redundancy, residual/(sigma*math.Sqrt(m.Redundancy))
			m.Misclosure, m.Standardized = &misclosure, &standardized
			if a := math.Abs(standardized); a > most {
				doubtful, most = i, a
			}
		}
		s.Measurements = append(s.Measurements, m)
	}
	if doubtful >= 0 {
		s.Measurements[doubtful].Doubtful = true
	}
}

// tellPoints fills in the points and what is undetermined.
func (s *Survey) tellPoints() {
	n, used := s.net, usedPoints(s.Run)
	for i, p := range n.places {
		point := Point{
			Place: p.ref, Name: p.ref.String(), Drawn: p.drawn, At: n.at(i, n.x),
			PlaneOnly: s.Run.Plane, Exact: p.first < 0,
			Idle: p.ref.Point >= 0 && !used[&p.ref.Part.Points[p.ref.Point]],
		}
		if !point.Exact {
			for axis := range n.axes {
				u := p.first + axis
				sigma := math.Sqrt(s.cov.At(u, u))
				*component(&point.Sigma, axis) = sigma
				if s.loose.has(u) {
					point.Undetermined[axis] = true
					s.Undetermined = append(s.Undetermined, n.dimension(u).String())
				}
				point.Untied[axis] = s.untied.has(u)
			}
		}
		s.Points = append(s.Points, point)
	}
}

// Adjusted reports whether New made the survey.
func (s *Survey) Adjusted() bool { return s != nil && s.net != nil }

// Apply returns the run with the adjusted coordinates; run is Survey.Run, or made from
// it. What is drawn from them follows; every place is where the survey found it, a
// pivot's arms too. The error is *linkage.Faults.
func (s *Survey) Apply(run *linkage.Run) (*linkage.Run, error) {
	places := make([]linkage.PlaceRef, 0, len(s.Points))
	to := make([]linkage.Vec, 0, len(s.Points))
	for _, p := range s.Points {
		if !p.Exact {
			places, to = append(places, p.Place), append(to, p.At)
		}
	}
	return run.With(linkage.Move(places, to))
}

// Of reports whether a dimension is of the run that was surveyed.
func (s *Survey) Of(d linkage.Dimension) bool {
	if !s.Adjusted() {
		return false
	}
	_, ok := s.Run.Dimension(d)
	return ok
}

// Dimensions lists what was adjusted, in the order of Cov: each the absolute
// coordinate of its place, moved on its own. The arms of a pivot stay where
// they are when it moves, other than with linkage.Set; linkage.Move moves so.
func (s *Survey) Dimensions() []linkage.Dimension {
	if !s.Adjusted() {
		return nil
	}
	list := make([]linkage.Dimension, len(s.net.x))
	for u := range list {
		list[u] = s.net.dimension(u)
	}
	return list
}

// Cov returns the covariance of the adjusted coordinates, in the run's unit
// squared; an empty matrix where all are exact. It is not to be changed.
func (s *Survey) Cov() mat.Symmetric {
	if !s.Adjusted() {
		return &mat.SymDense{}
	}
	return s.cov
}
