package survey

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// What puts a survey in doubt is decided here, for all that is told from it.

// likeDoubtful is how near the largest another standardized residual must come for
// either to be the one that slipped: chance moves them by as much.
const likeDoubtful = 0.5

// Doubt is why a survey doesn't settle what is told from it: the first reason of
// those that there are, in the order of the kinds.
type Doubt struct {
	Kind DoubtKind
	// Measurement is the one that GaugedFar or Disagrees is about; nil for the others.
	Measurement *linkage.Measurement
	Open        []*Point // of LeavesOpen: the places
}

// DoubtKind is a kind of doubt.
type DoubtKind int

// The kinds of doubt.
const (
	GaugedFar   DoubtKind = iota // a direction was gauged far from the sketched one
	Disagrees                    // a measurement disagrees with the rest by more than chance
	LeavesOpen                   // nothing measured ties some places
	NoDirection                  // nothing measured tells how the whole lies
	TwoDrawings                  // the mirror image fits as well
)

// Doubt is what puts a survey in doubt; nil where it settles all that it is about.
func (s *Survey) Doubt() *Doubt { return s.DoubtWith(s.Open(), s.NeedsDirection) }

// DoubtWith is the doubt with these places left open, and the direction of the whole
// where that is said: what Doubt tells of something that hangs on no others.
func (s *Survey) DoubtWith(open []*Point, direction bool) *Doubt {
	switch m := s.Doubtful(); {
	case len(s.FarGauges) > 0:
		return &Doubt{Kind: GaugedFar, Measurement: s.FarGauges[0].Measurement}
	case m != nil:
		return &Doubt{Kind: Disagrees, Measurement: m.Measurement}
	case len(open) > 0:
		return &Doubt{Kind: LeavesOpen, Open: open}
	case direction:
		return &Doubt{Kind: NoDirection}
	case s.Mirror:
		return &Doubt{Kind: TwoDrawings}
	}
	return nil
}

// Contradicts reports whether the measurements contradict each other or the sketch,
// or fit two drawings: then nothing that is told from the survey is sure.
func (s *Survey) Contradicts() bool { return s.DoubtWith(nil, false) != nil }

// Doubtful is the measurement that disagrees most, where that is more than chance;
// else nil.
func (s *Survey) Doubtful() *Measurement {
	for i := range s.Measurements {
		if s.Measurements[i].Doubtful {
			return &s.Measurements[i]
		}
	}
	return nil
}

// Open lists the places that the measurements leave open, but for the direction of
// the whole, which is told once.
func (s *Survey) Open() (open []*Point) {
	for i := range s.Points {
		if p := &s.Points[i]; s.OpenAxes(p) != [3]bool{} {
			open = append(open, p)
		}
	}
	return open
}

// OpenAxes tells which coordinates of a place the measurements leave open, the whole
// kept from turning.
func (s *Survey) OpenAxes(p *Point) [3]bool {
	if p == nil {
		return [3]bool{}
	}
	if s.NeedsDirection {
		return p.Untied
	}
	return p.Undetermined
}

// NothingExact reports whether a sketched run has no place that all else is told
// from.
func (s *Survey) NothingExact() bool {
	return s.Run != nil && s.Run.Sketch > 0 && len(s.Points) > 0 && !slices.ContainsFunc(s.Points, func(p Point) bool { return p.Exact })
}

// Off reports whether a measurement is further off than it reads to.
func (m *Measurement) Off() bool { return math.Abs(m.Residual) > m.Measurement.Within }

// tellDoubt fills in what is to be known of the measurement that disagrees most: the
// others that could as well be the one that slipped, and how many still disagree once
// it is taken out. Where it is what holds all of them together, nothing tells that.
func (s *Survey) tellDoubt() {
	most := s.Doubtful()
	if most == nil {
		return
	}
	run := *s.Run
	run.Measurements = nil
	for i := range s.Measurements {
		m := &s.Measurements[i]
		if m == most {
			continue
		}
		run.Measurements = append(run.Measurements, m.Measurement)
		m.AsDoubtful = m.disagrees() && math.Abs(*m.Standardized) > math.Abs(*most.Standardized)-likeDoubtful
	}
	again, err := adjusted(&run)
	if err != nil {
		return
	}
	for i := range again.Measurements {
		if again.Measurements[i].disagrees() {
			s.StillDisagree++
		}
	}
}

// disagrees reports whether a measurement disagrees by more than chance.
func (m *Measurement) disagrees() bool {
	return m.Standardized != nil && math.Abs(*m.Standardized) > doubtfulFrom
}
