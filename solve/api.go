package solve

import "fullfree/linkage"

// Placeholder while the mathematics is being written: the signatures stand.

// Mechanism is a run compiled.
type Mechanism struct{ run *linkage.Run }

// Compile finds how a run closes. The error is *linkage.Faults.
func Compile(run *linkage.Run) (*Mechanism, error) { return &Mechanism{run}, nil }

// Check sweeps every control at every combination of the others' held
// settings and judges the requirements. The error is *linkage.Faults.
func (m *Mechanism) Check() (*Result, error) { return &Result{Run: m.run}, nil }

// Sweep moves one control through all that is explored with the others held;
// controls that held leaves out stand at the first of their held settings.
func (m *Mechanism) Sweep(control *linkage.Control, held []Held) (*Sweep, error) { return nil, nil }

// Stand is a solved position: where everything is.
type Stand struct{}

// At returns the position at x of the control, anywhere explored; false
// outside.
func (s *Sweep) At(x float64) (*Stand, bool) { return nil, false }

// Place returns where a place of the part, given as drawn, now is.
func (st *Stand) Place(part *linkage.Part, drawn linkage.Vec) linkage.Vec { return drawn }

// Point returns where a point of a part or rod now is.
func (st *Stand) Point(ref linkage.PointRef) linkage.Vec { return linkage.Vec{} }

// Travel returns how far a part has turned or slid from its drawn position:
// degrees or units. A floating part's turn.
func (st *Stand) Travel(part *linkage.Part) float64 { return 0 }

// Gap returns the clearance between two features, negative where they
// overlap, and the places on each nearest to the other.
func (st *Stand) Gap(a, b linkage.FeatureRef) (gap float64, onA, onB linkage.Vec) { return }

// Column is a column of a Table.
type Column struct{ Name, Unit string }

// Table returns steps+1 positions evenly spaced over the travel: the swept
// control's part first, then every other moving part, then the outputs.
func (s *Sweep) Table(steps int) ([]Column, [][]float64) { return nil, nil }
