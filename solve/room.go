// Layer: path.

package solve

// roomOfBuild is what the sweeps of one build after another are made in: making it takes
// longer than solving a build. All of a build is gone when the next one begins. Sweeps come
// in the same order in each build, and what they follow is the same, with other numbers.
type roomOfBuild struct {
	sweepers []*sweeper
	used     int
	builds   int       // how many were begun
	numbers  []float64 // of samples
	samples  []sample
	taken    int
}

const (
	// roomNumbers and roomSamples are how many numbers and samples there is room for at
	// once; where a build takes more, more is made.
	roomNumbers = 1 << 14
	roomSamples = 1 << 8
)

// begin gives all room back.
func (r *roomOfBuild) begin() {
	r.builds++
	r.used, r.taken, r.numbers = 0, 0, r.numbers[:0]
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
