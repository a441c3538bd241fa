// Layer: values.

package solve

import (
	"errors"
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

// What a program hands over may be nil, made up, or of another run. Here is what tells:
// exported functions ask it first, and nothing below them does.

// errNoMechanism, errNoSweep and errNoResult are what is told of a value that this
// package didn't make.
var (
	errNoMechanism = errors.New("there is no mechanism here: Compile makes one of a run")
	errNoSweep     = errors.New("there is no sweep here: Check and Sweep of a Mechanism make one")
	errNoResult    = errors.New("there is no result of this mechanism here: its Check makes one")
	errNothing     = errors.New("there is no result here: Check of a Mechanism makes one")
	errNoSurvey    = errors.New("there is no survey of this run here: survey.New makes one")
)

// compiled reports whether Compile made the mechanism.
func (m *Mechanism) compiled() bool { return m != nil && m.run != nil }

// solved reports whether a Mechanism made the sweep.
func (w *Sweep) solved() bool { return w != nil && w.of != nil }

// solved reports whether a Sweep made the stand.
func (st *Pose) solved() bool { return st != nil && st.p != nil }

// Whole says that there is nothing to tell of a result: it is nil, or was never filled
// in.
func (r *Result) Whole() error {
	if r == nil || r.Run == nil {
		return errNothing
	}
	return nil
}

// Whole says that there is nothing to tell of a sweep: it is nil, or was never filled
// in.
func (w *Sweep) Whole() error {
	if w == nil || w.Control == nil || w.Control.Of == nil {
		return errNoSweep
	}
	return nil
}

// made says what is wrong with a result that isn't of the mechanism, or has been
// taken apart since.
func (m *Mechanism) made(result *Result) error {
	switch {
	case !m.compiled():
		return errNoMechanism
	case result == nil:
		return errNoResult
	}
	for _, w := range result.Sweeps {
		if !w.solved() || w.of.m != m {
			return errNoResult
		}
	}
	for i := range result.Requirements {
		j := &result.Requirements[i]
		if j.Requirement == nil || j.Sweep < 0 || j.Sweep >= len(result.Sweeps) {
			return errNoResult
		}
	}
	return nil
}

// moves, shows and has tell whether something is of the mechanism's run, or of one that
// was made from or into it by linkage.Run.With.
func (m *Mechanism) moves(c *linkage.Control) bool {
	return m.run.Control(c) != nil
}

func (m *Mechanism) shows(o *linkage.Output) bool {
	return m.run.Output(o) != nil
}

func (m *Mechanism) has(p *linkage.Part) bool {
	return m.run.Part(p) != nil
}

// hasPoint and hasMetal are the same of points and metal.
func (m *Mechanism) hasPoint(ref linkage.PointRef) bool {
	_, ok := m.run.Point(ref)
	return ok
}

func (m *Mechanism) hasMetal(ref linkage.FeatureRef) bool {
	ref, ok := m.run.Metal(ref)
	return ok && (ref.Rod == nil || ref.Rod.Diameter != nil)
}

// drawnBy reports whether a survey is of the mechanism's run.
func (m *Mechanism) drawnBy(survey *survey.Survey) bool {
	for i := range survey.Points {
		if !m.has(survey.Points[i].Place.Part) {
			return false
		}
	}
	return true
}

// tellForeign tells of controls that are not of this run, and of settings that are no
// numbers. It is a fault of the caller's, so it has no place in a file.
func (m *Mechanism) tellForeign(control *linkage.Control, held []Held) error {
	faults := &linkage.Faults{Source: m.run.Source}
	tell := func(c *linkage.Control, what string) {
		if c == nil {
			faults.Add(linkage.Span{}, "there is no control %s", what)
		} else if !m.moves(c) {
			faults.Add(linkage.Span{}, "the control %q %s is none of this run", c.Name, what)
		}
	}
	tell(control, "to sweep")
	for _, h := range held {
		tell(h.Control, fmt.Sprintf("to hold at %g", h.At))
		if math.IsNaN(h.At) || math.IsInf(h.At, 0) {
			faults.Add(linkage.Span{}, "no control can be held at %g", h.At)
		}
	}
	return faults.Err()
}
