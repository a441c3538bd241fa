// Layer: path.

package solve

import "slices"

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
	places   []int // of samples: where metal comes nearest
	labeled  []labeled
	joints   *slots // of all joints that give
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
	r.used, r.taken, r.numbers, r.places = 0, 0, r.numbers[:0], r.places[:0]
}

// forget gives up what hangs on the mechanism, for another one.
func (r *roomOfBuild) forget() { r.sweepers, r.labeled, r.joints = nil, nil, nil }

// samples are made some at once, which takes less than one after another.
type samples struct {
	list    []sample
	numbers []float64
}

const (
	// samplesAtOnce is how many are made at once, and numbersAtOnce how many numbers of
	// theirs: no more than one of a large run has by itself.
	samplesAtOnce = 16
	numbersAtOnce = 1 << 11
)

// next is a sample with so many numbers to it.
func (k *samples) next(numbers int) (*sample, []float64) {
	if len(k.list) == 0 {
		k.list = make([]sample, samplesAtOnce)
	}
	s := &k.list[0]
	k.list = k.list[1:]
	if numbers > numbersAtOnce/4 {
		return s, make([]float64, numbers)
	}
	if len(k.numbers) < numbers {
		k.numbers = make([]float64, numbersAtOnce)
	}
	room := k.numbers[:numbers:numbers]
	k.numbers = k.numbers[numbers:]
	return s, room
}

// newSample is a sample with so many numbers to it, of those given or in a build's room.
func (p *path) newSample(of *samples, numbers int) (*sample, []float64) {
	r := p.m.room
	if r == nil {
		return of.next(numbers)
	}
	if r.samples == nil {
		r.samples = make([]sample, roomSamples)
	}
	var s *sample
	if r.taken < len(r.samples) {
		s = &r.samples[r.taken]
		r.taken++
	} else {
		s = &sample{}
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

// keptPlaces is a copy of where metal comes nearest, for a sample.
func (m *Mechanism) keptPlaces(nearest []int) []int {
	r := m.room
	if r == nil {
		return slices.Clone(nearest)
	}
	n := len(nearest)
	if len(r.places)+n > cap(r.places) {
		r.places = make([]int, 0, max(roomNumbers, 2*cap(r.places), n))
	}
	at := len(r.places)
	r.places = append(r.places, nearest...)
	return r.places[at : at+n : at+n]
}
