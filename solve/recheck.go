// Layer: verdict.

package solve

import (
	"errors"
	"slices"

	"fullfree/linkage"
)

// MostWork is how much work one answer may take, in the units that Checked counts in:
// about ten nanoseconds of one processor each.
func MostWork() float64 { return mostWork }

// Checked is a changed run, compiled and checked.
type Checked struct {
	Mechanism *Mechanism
	Result    *Result
	// Compiling and Checking are the work that took, as far as it came; see MostWork.
	Compiling, Checking float64
}

// errOtherSide is told of a setting that another one than the one asked about has.
var errOtherSide = errors.New("a stop comes to the other side of neutral")

// CheckWith compiles and checks the run with edits made, and counts the work, which is
// told beside an error too. The error is that of Run.With, Compile or Check, or of a stop
// that comes to the other side of neutral: what it stopped is then another thing.
func (m *Mechanism) CheckWith(edits ...linkage.Edit) (c Checked, err error) {
	if !m.compiled() {
		return c, errNoMechanism
	}
	run, err := m.run.With(edits...)
	if err != nil {
		return c, err
	}
	return m.checkRun(run, 1)
}

// CheckRun is CheckWith of a run that was read from the same file with other numbers.
func (m *Mechanism) CheckRun(run *linkage.Run) (c Checked, err error) {
	if !m.compiled() {
		return c, errNoMechanism
	}
	return m.checkRun(run, 1)
}

// glanceStride is how many times longer the steps of a glance are than those of a
// check: three degrees of a control that turns.
const glanceStride = 12

// GlanceShare is how many times less work a glance takes than a check, about.
const GlanceShare = 4

// GlanceRun is CheckRun by longer steps, in which events closer together than three degrees
// may be missed (sampleStep): a quarter of the work, for a search that checks what it
// tells.
func (m *Mechanism) GlanceRun(run *linkage.Run) (c Checked, err error) {
	if !m.compiled() {
		return c, errNoMechanism
	}
	return m.checkRun(run, glanceStride)
}

// checkRun compiles and checks a run, by steps so many times longer.
func (m *Mechanism) checkRun(run *linkage.Run, stride float64) (c Checked, err error) {
	n, err := Compile(run)
	if err != nil {
		return c, err
	}
	if !slices.Equal(n.stopSide, m.stopSide) {
		return c, errOtherSide
	}
	c.Compiling = float64(compilePoses * n.workOfPose())
	n.stride = stride
	n.tally = &c.Checking
	c.Result, err = n.Check()
	n.tally = nil
	if err != nil {
		return c, err
	}
	c.Mechanism = n
	return c, nil
}
