package linkage

import (
	"fmt"
	"math"
	"slices"
)

// Validate tells of a run that was put together or changed by hand what nothing
// could work with: entries that are nil or stand where their Index doesn't say,
// references to what is not of this run, numbers that are none or too large,
// directions that have not length 1, fields that contradict each other. A run from
// Read, a Builder or another run's With has none of it.
//
// It asks less than Read and Builder, whose rules are about what can be built: a
// run that is only valid may have no control, or a rod that moves nothing. The
// error is *Faults; of a run without a Source each says what it is about.
func (run *Run) Validate() error {
	v := &validator{run: run, faults: &Faults{}}
	if run == nil {
		v.tell(Span{}, "there is no run")
		return v.faults.Err()
	}
	v.faults.Source = run.Source
	v.tellEntries()
	if len(v.faults.List) > 0 {
		return v.faults.Err() // what follows goes by them
	}
	v.tellRun()
	for _, p := range run.Parts {
		v.tellPart(p)
	}
	for _, rod := range run.Rods {
		v.tellRod(rod)
	}
	for _, j := range run.Joints {
		v.tellJoint(j)
	}
	for _, c := range run.Cables {
		v.tellCable(c)
	}
	for _, p := range run.Pairs {
		v.tellPair(p)
	}
	v.tellCircles()
	v.tellUses()
	v.tellRotor(run.Rotor)
	v.tellTolerance()
	for _, q := range run.Requirements {
		v.tellRequirement(q)
	}
	v.tellMeasured()
	return v.faults.Err()
}

// validator tells what is wrong with a run.
type validator struct {
	run    *Run
	faults *Faults
}

// tell tells a fault; what it is about stands before it, since a run put together
// by hand has no line to point at.
func (v *validator) tell(at Span, format string, args ...any) { v.faults.Add(at, format, args...) }

// unitSlack is by how much the length of a direction may miss 1: far more than
// rounding, far less than would be seen.
const unitSlack = 1e-6

// isUnit reports whether a direction has length 1.
func isUnit(d Vec) bool { return math.Abs(d.Norm()-1) <= unitSlack }

// sizes reports whether numbers are numbers of a size that a run can have.
func sizes(values ...float64) bool {
	return !slices.ContainsFunc(values, func(x float64) bool { return !(math.Abs(x) <= MaxSize) })
}

// places reports whether vectors are places that a run can have.
func places(list ...Vec) bool {
	return !slices.ContainsFunc(list, func(p Vec) bool { return !sizes(p.X, p.Y, p.Z) })
}

// maybe returns those of the numbers that are not left out.
func maybe(values ...*float64) (list []float64) {
	for _, x := range values {
		if x != nil {
			list = append(list, *x)
		}
	}
	return list
}

// tellEntries tells of lists that nothing can go by: nil in them, or not in the
// order of Index.
func (v *validator) tellEntries() {
	run := v.run
	tellEach(v, "Parts", run.Parts, func(p *Part) int { return p.Index })
	tellEach(v, "Rods", run.Rods, func(r *Rod) int { return r.Index })
	tellEach(v, "Joints", run.Joints, func(j *Joint) int { return j.Index })
	tellEach(v, "Cables", run.Cables, func(c *Cable) int { return c.Index })
	tellEach(v, "Pairs", run.Pairs, func(p *Pair) int { return p.Index })
	tellEach(v, "Controls", run.Controls, func(c *Control) int { return c.Index })
	tellEach(v, "Outputs", run.Outputs, func(o *Output) int { return o.Index })
	tellEach(v, "Stops", run.Stops, func(s *Stop) int { return s.Index })
	tellEach(v, "Pins", run.Pins, func(p *Pin) int { return p.Index })
	tellEach(v, "Requirements", run.Requirements, nil)
	tellEach(v, "Measurements", run.Measurements, nil)
	tellEach(v, "Riggings", run.Riggings, nil)
	if len(v.faults.List) > 0 {
		return
	}
	for _, r := range run.Rods {
		if slices.Contains(r.Ends, nil) {
			v.tell(r.Span, "rod %s: an entry of its Ends is nil", shortName(r.Name))
		}
	}
	for _, c := range run.Cables {
		if slices.Contains(c.Ends, nil) {
			v.tell(c.Span, "cable %s: an entry of its Ends is nil", shortName(c.Name))
		}
	}
}

func tellEach[T any](v *validator, list string, entries []*T, index func(*T) int) {
	for i, entry := range entries {
		switch {
		case entry == nil:
			v.tell(Span{}, "%s[%d] of the run is nil", list, i)
		case index != nil && index(entry) != i:
			v.tell(Span{}, "%s[%d] of the run has the Index %d", list, i, index(entry))
		}
	}
}

// tellRun tells what is wrong with the run as a whole.
func (v *validator) tellRun() {
	run := v.run
	if run.Aircraft == nil && run.Units != Millimeters && run.Units != Inches {
		v.tell(run.Span, "the run's unit is %q, and it can be %q or %q", string(run.Units), string(Millimeters), string(Inches))
	}
	for _, arrow := range []*Vec{run.Forward, run.Up, run.Right} {
		if arrow != nil && !isUnit(*arrow) {
			v.tell(run.Span, "forward, up and right of the run are directions at length 1")
		}
	}
	if !sizes(append(maybe(run.RiggedAt, run.Temperature), run.Sketch, run.Uncertain)...) || run.Sketch < 0 || run.Uncertain < 0 {
		v.tell(run.Span, "a number of the run itself is none, below 0 or too large")
	}
}

// isPart reports whether a part is of the run; isRod and so on the same.
func (v *validator) isPart(p *Part) bool { return p != nil && listed(v.run.Parts, p.Index) == p }

func (v *validator) isRod(r *Rod) bool { return r != nil && listed(v.run.Rods, r.Index) == r }

func (v *validator) isCable(c *Cable) bool { return c != nil && listed(v.run.Cables, c.Index) == c }

func (v *validator) isPair(p *Pair) bool { return p != nil && listed(v.run.Pairs, p.Index) == p }

func (v *validator) isControl(c *Control) bool {
	return c != nil && (listed(v.run.Controls, c.Index) == c || v.run.FollowerOf(c) != nil)
}

func (v *validator) isOutput(o *Output) bool { return o != nil && listed(v.run.Outputs, o.Index) == o }

func (v *validator) isStop(s *Stop) bool { return s != nil && listed(v.run.Stops, s.Index) == s }

// listed returns an entry of a list, nil beyond its ends.
func listed[T any](list []*T, i int) *T {
	if i < 0 || i >= len(list) {
		return nil
	}
	return list[i]
}

// moves reports whether a part is of the run and not fixed.
func (v *validator) moves(p *Part) bool { return v.isPart(p) && p.Motion != Fixed }

// isPoint reports whether a point is one of the run's.
func (v *validator) isPoint(r PointRef) bool {
	switch {
	case r.Point < 0 || r.Part != nil && r.Rod != nil:
		return false
	case r.Rod != nil:
		return v.isRod(r.Rod) && r.Point < len(r.Rod.Points)
	}
	return v.isPart(r.Part) && r.Point < len(r.Part.Points)
}

// isMetal reports whether metal is the run's.
func (v *validator) isMetal(r FeatureRef) bool {
	if r.Rod != nil {
		return r.Part == nil && v.isRod(r.Rod) && r.Rod.Diameter != nil
	}
	return v.isPart(r.Part) && r.Feature >= 0 && r.Feature < len(r.Part.Features)
}

// isSubject reports whether a subject is one thing of the run's that moves.
func (v *validator) isSubject(s Subject) bool {
	switch {
	case s.Part != nil:
		return s.Output == nil && s.Control == nil && v.moves(s.Part) && !s.Part.Spatial()
	case s.Output != nil:
		return s.Control == nil && v.isOutput(s.Output)
	}
	return v.isControl(s.Control)
}

// what says what a fault is about.
func what(kind, name string) string { return fmt.Sprintf("%s %s", kind, shortName(name)) }
