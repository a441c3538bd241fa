// Layer: questions.

package solve

import (
	"fmt"
	"math"

	"fullfree/linkage"
)

const (
	// mostReadings bounds the readings of one file. Nobody takes so many by
	// hand; the joint estimate takes their cube.
	mostReadings = 1000
	// mostTrials bounds dimensions times parts times readings, which the time of
	// trying each dimension on the whole run goes with: some eight seconds.
	mostTrials = 3_000_000
	// trialReadings is how many readings take as long as changing the run does,
	// which is done for the diagnosis, for each date, and to look for an extra
	// reading with each control.
	trialReadings = 10
)

// checkReadings adds a fault for whatever can't be diagnosed: no readings, too
// many, or readings at positions that the run as drawn can't reach.
func (g *diagnoser) checkReadings(dates int, faults *linkage.Faults) {
	m := g.m
	readings := 0
	for _, r := range m.run.Riggings {
		readings += len(r.Readings)
	}
	work := readings + trialReadings*(1+dates+len(m.run.Controls))
	switch trials := len(m.run.Dimensions()) * len(m.bodies) * work; {
	case readings == 0:
		faults.Add(m.run.Span, `there is nothing to diagnose: write what was read after rigging in a measured "first rigging" { ... }`)
		return
	case readings > mostReadings:
		faults.Add(m.run.Span, "%d readings are too many: at most %d are diagnosed together", readings, mostReadings)
		return
	case trials > mostTrials:
		faults.Add(m.run.Span, "the run is too large to try each of its dimensions: part it into smaller ones, between what is read")
		return
	}
	for _, r := range m.run.Riggings {
		s, fault := g.sweep(r.Control)
		if fault != nil {
			faults.List = append(faults.List, *fault)
			continue
		}
		for _, reading := range r.Readings {
			if says := s.beyond(reading[0]); says != "" {
				faults.Add(r.Span, "%q has a reading with %q at %s, %s", r.Name, r.Control.Name, m.position(r.Control, reading[0]), says)
			}
		}
	}
}

// sweep is the sweep of a control of the run as drawn, the others at neutral.
func (g *diagnoser) sweep(c *linkage.Control) (*sweeper, *linkage.Fault) {
	if s, fault := g.sweeps[c.Index], g.faults[c.Index]; s != nil || fault != nil {
		return s, fault
	}
	g.sweeps[c.Index], g.faults[c.Index] = g.m.sweepOne(c, g.m.othersAtNeutral(c), g.m.newWork(g.m.stepsOf(c)))
	return g.sweeps[c.Index], g.faults[c.Index]
}

const (
	// atStopShare is how far beyond a stop, as a share of the travel, a reading
	// is taken as one at the stop: a run that is off meets it elsewhere than
	// drawn, and that is what is sought.
	atStopShare = 0.01
	// atStopDegrees, atStopMillimeters and atStopInches are the least of that:
	// what a protractor and a rule are read to. Common practice, no source.
	atStopDegrees     = 0.1
	atStopMillimeters = 0.1
	atStopInches      = 1.0 / 128
)

// atStop is how far beyond a stop a reading is taken as one at the stop.
func (s *sweeper) atStop() float64 {
	w := s.sweep
	least := map[linkage.Unit]float64{degrees: atStopDegrees, linkage.Millimeters: atStopMillimeters, linkage.Inches: atStopInches}[w.Unit]
	return math.Max(least, atStopShare*(w.High-w.Low))
}

// readAt is where a reading at x is reckoned: there, where the run as drawn goes
// so far beyond its stops, else at the end of its travel.
func (s *sweeper) readAt(x float64) float64 {
	w := s.sweep
	if x < w.Explored[0] || x > w.Explored[1] {
		return math.Max(w.Low, math.Min(w.High, x))
	}
	return x
}

// beyond says why the travel, stop to stop, doesn't go to x; "" where it does.
func (s *sweeper) beyond(x float64) string {
	w := s.sweep
	side, outside := 0, w.Low-x
	if x > w.High {
		side, outside = 1, x-w.High
	}
	end := w.Ends[side]
	if outside <= tieOfStops*(w.Explored[1]-w.Explored[0]) || end.Cause == ByStop && outside <= s.atStop()*(1+tieOfStops) {
		return ""
	}
	at := s.m.position(w.Control, end.At)
	switch end.Cause {
	case ByStop:
		return fmt.Sprintf("beyond the stop %q, which as drawn is met at %s: read inside the travel, or correct the stop", end.Stop.Name, at)
	case ByLimit:
		return fmt.Sprintf("and it is explored to %s only", at)
	}
	return fmt.Sprintf("where the run as drawn can't go: at %s %q is on center", at, end.Part.Name)
}
