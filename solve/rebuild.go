// Layer: compile.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// rebuilt is the mechanism of a run that differs from this one's in numbers alone, with
// the same structure: the same steps, the same assembly. ok is false where it doesn't
// close at neutral.
func (m *Mechanism) rebuilt(run *linkage.Run) (n *Mechanism, ok bool) { return m.built(run, nil) }

// built is that with everything drawn and set out by what off says; nil: by nothing.
// The run stays as it is.
func (m *Mechanism) built(run *linkage.Run, off *offsets) (n *Mechanism, ok bool) {
	n = &Mechanism{run: run, off: off, size: m.size, sizes: m.sizes, center: m.center, detail: m.detail, remains: m.remains, hasBlocks: m.hasBlocks, drives: m.drives, stopSide: m.stopSide, stride: m.stride}
	n.addBodies()
	n.addConstraints()
	n.addJoints()
	n.takePinsAndKeeps(m)
	n.steps = slices.Clone(m.steps)
	for i := range n.steps {
		s := &n.steps[i]
		n.chooseSolver(s)
		switch s.kind {
		case closeFourbar:
			n.fourbars[s.fourbar].sign = m.fourbars[s.fourbar].sign
		case closeCrank:
			s.crank.sign = m.steps[i].crank.sign
		case closeGuide:
			s.guide.sign = m.steps[i].guide.sign
		}
	}
	for i := range n.pulls {
		pair := n.pulls[i].pair
		n.pulls[i] = m.pulls[i]
		n.pulls[i].pair = pair
	}
	n.neutral = n.newState()
	return n, n.settleNeutral() == 1
}

// with is the mechanism of the run with edits that change numbers alone; ok is false
// where they can't be made, or it doesn't close at neutral then.
func (m *Mechanism) with(edits ...linkage.Edit) (n *Mechanism, ok bool) {
	run, err := m.run.With(edits...)
	if err != nil {
		return nil, false
	}
	return m.rebuilt(run)
}
