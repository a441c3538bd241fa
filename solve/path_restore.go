// Layer: path.

package solve

import "math"

// restore takes up a sample's pose again.
func (p *path) restore(s *sample) {
	for f, q := range s.q {
		p.m.setFreedom(&p.st, f, q)
	}
	p.x = s.x
	p.m.placeAll(&p.st, p.m.placing)
	p.m.rehang(&p.st)
}

// refresh is a sample with all its probes again.
func (p *path) refresh(s *sample) *sample {
	p.restore(s)
	return p.take(s.x)
}

// nearTo reports whether the pose last solved lies as near to where it was
// guessed as one between two samples does.
func (p *path) nearTo(guess []float64, a, b *sample) bool {
	if !p.m.hasBlocks {
		return true // algebra keeps to its branch
	}
	for f, q := range p.st.q {
		if math.Abs(q-guess[f]) > float64(missFloor*p.sizeOf(f))+float64(strayShare*math.Abs(b.q[f]-a.q[f])) {
			return false
		}
	}
	return true
}
