// Layer: compile.

package solve

import (
	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// Compile finds how a run closes: which rod places which part, in which order,
// and the neutral pose. The error is *linkage.Faults; of a run put together by hand
// too, which may hold anything (linkage.Run.Validate).
func Compile(run *linkage.Run) (*Mechanism, error) {
	if err := run.Validate(); err != nil {
		return nil, err
	}
	m := &Mechanism{run: run, size: run.Size(), center: centerOf(run), stride: 1}
	m.addSizes()
	m.addBodies()
	m.addConstraints()
	m.addJoints()
	m.addPins()
	m.addKeeps()
	faults := &linkage.Faults{Source: run.Source}
	if m.refuseDeep(faults); len(faults.List) > 0 { // first: what follows doubles with each rod in a row
		return nil, faults.Err()
	}
	in := m.incidence(-1)
	pairs := num.Match(in.of, len(in.unknowns))
	if m.tellMobility(in, pairs, faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	if m.addSteps(in, pairs, faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	m.checkCables(faults)
	m.checkFeatures(faults)
	m.refuseFar(faults)
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	if m.findNeutral(faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	if run.Aircraft != nil {
		m.drives = m.newReaches()
	}
	return m, nil
}
