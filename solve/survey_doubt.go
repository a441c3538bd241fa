package solve

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
	Open        []*SurveyedPoint // of LeavesOpen: the places
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
func (s *Survey) Doubt() *Doubt { return s.doubtBy(s.Open(), s.NeedsDirection) }

// Doubt is why nothing that is told of a run on its survey is sure; nil where that
// isn't so: also where nothing hangs on the places that the survey leaves open, or
// some of the requirements don't, and each tells its own (Judgement.Untied).
func (r *Result) Doubt() *Doubt {
	if r.Survey == nil {
		return nil
	}
	if slices.ContainsFunc(r.Requirements, func(j Judgement) bool { return j.Untied != nil && !*j.Untied }) {
		return r.Survey.doubtBy(nil, false)
	}
	open := slices.DeleteFunc(r.Survey.Open(), func(p *SurveyedPoint) bool { return p.Idle })
	return r.Survey.doubtBy(open, r.Survey.NeedsDirection)
}

// doubtBy is the doubt with some places that are left open, and the direction of the
// whole where that is.
func (s *Survey) doubtBy(open []*SurveyedPoint, direction bool) *Doubt {
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

// contradicts reports whether the measurements contradict each other or the sketch,
// or fit two drawings: then nothing that is told from the survey is sure.
func (s *Survey) contradicts() bool { return s.doubtBy(nil, false) != nil }

// Doubtful is the measurement that disagrees most, where that is more than chance;
// else nil.
func (s *Survey) Doubtful() *SurveyedMeasurement {
	for i := range s.Measurements {
		if s.Measurements[i].Doubtful {
			return &s.Measurements[i]
		}
	}
	return nil
}

// Open lists the places that the measurements leave open, but for the direction of
// the whole, which is told once.
func (s *Survey) Open() (open []*SurveyedPoint) {
	for i := range s.Points {
		if p := &s.Points[i]; s.OpenAxes(p) != [3]bool{} {
			open = append(open, p)
		}
	}
	return open
}

// OpenAxes tells which coordinates of a place the measurements leave open, the whole
// kept from turning.
func (s *Survey) OpenAxes(p *SurveyedPoint) [3]bool {
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
	return s.Run != nil && s.Run.Sketch > 0 && len(s.Points) > 0 && !slices.ContainsFunc(s.Points, func(p SurveyedPoint) bool { return p.Exact })
}

// Off reports whether a measurement is further off than it reads to.
func (m *SurveyedMeasurement) Off() bool { return math.Abs(m.Residual) > m.Measurement.Within }

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
	again, err := newSurvey(&run)
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
func (m *SurveyedMeasurement) disagrees() bool {
	return m.Standardized != nil && math.Abs(*m.Standardized) > doubtfulFrom
}
