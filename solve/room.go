// Layer: path.

package solve

import "fullfree/linkage"

// roomOfBuild is what the sweeps of one build after another are made in: making it takes
// longer than solving a build. All of a build is gone when the next one begins.
type roomOfBuild struct {
	paths   []*path // one a sweep
	used    int
	numbers []float64 // of samples
	samples []sample
	taken   int
}

const (
	// roomNumbers and roomSamples are how many numbers and samples there is room for at
	// once; where a build takes more, more is made.
	roomNumbers = 1 << 14
	roomSamples = 1 << 8
)

// begin gives all room back.
func (r *roomOfBuild) begin() { r.used, r.taken, r.numbers = 0, 0, r.numbers[:0] }

// pathFor is a path for a control: one of an earlier build where there is one.
func (m *Mechanism) pathFor(c *linkage.Control) *path {
	r := m.room
	if r == nil {
		return m.newPath(c)
	}
	if r.used == len(r.paths) {
		r.paths = append(r.paths, m.newPath(c))
	}
	p := r.paths[r.used]
	r.used++
	fresh := path{m: m, control: c, input: p.input, unit: p.unit, longest: p.longest, st: p.st, rates: p.rates, held: p.held, probes: p.probes[:0]}
	clear(fresh.held)
	*p = fresh
	p.stride, p.mostMove = p.longest, longestMove
	if m.coarse {
		p.stride, p.mostMove = float64(coarseStride*p.longest), coarseMove
	}
	return p
}

// newSample is a sample with so many numbers to it.
func (m *Mechanism) newSample(numbers int) (*sample, []float64) {
	r := m.room
	if r == nil {
		return &sample{}, make([]float64, numbers)
	}
	if r.samples == nil {
		r.samples = make([]sample, roomSamples)
	}
	s := &sample{}
	if r.taken < len(r.samples) {
		s = &r.samples[r.taken]
		r.taken++
	}
	if len(r.numbers)+numbers > cap(r.numbers) {
		r.numbers = make([]float64, 0, max(roomNumbers, 2*cap(r.numbers), numbers))
	}
	at := len(r.numbers)
	r.numbers = r.numbers[:at+numbers]
	room := r.numbers[at : at+numbers : at+numbers]
	clear(room)
	return s, room
}
