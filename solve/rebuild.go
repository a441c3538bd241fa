package solve

import "slices"

// rebuilt is the mechanism of the run as its numbers now are, with the
// structure that it had when it was compiled: the same steps, the same
// assembly. ok is false where it doesn't close at neutral.
func (m *Mechanism) rebuilt() (n *Mechanism, ok bool) { return m.built(nil) }

// built is rebuilt with everything drawn and set out by what off says; nil: by
// nothing. The run stays as it is.
func (m *Mechanism) built(off *offsets) (n *Mechanism, ok bool) {
	n = &Mechanism{run: m.run, off: off, size: m.size, center: m.center, detail: m.detail, remains: m.remains, hasBlocks: m.hasBlocks, stopSide: m.stopSide}
	n.addBodies()
	n.addLinks()
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
		n.pulls[i] = m.pulls[i]
	}
	n.neutral = n.newState()
	return n, n.settleNeutral() == 1
}
