// Layer: questions.

package solve

import (
	"math"

	"fullfree/linkage"
)

// readings are the readings of some riggings, one after another, with what the
// run as drawn and set says to them.
type readings struct {
	blocks []block
	at     []float64 // positions of the controls
	read   []float64
	sigma  []float64 // standard deviations
	units  []linkage.Unit
	drawn  []float64   // predicted as drawn and set
	poses  [][]float64 // the freedoms then
}

// block is one rigging among readings.
type block struct {
	rigging *linkage.Rigging
	held    []Held
	first   int // of its readings
}

// forecast is what the readings should be, and the freedoms at each.
type forecast struct {
	values []float64
	poses  [][]float64
}

// newReadings lists the readings of some riggings, which the run as drawn
// reaches.
func (g *diagnoser) newReadings(riggings []*linkage.Rigging) *readings {
	r := &readings{}
	for _, rigging := range riggings {
		s, _ := g.sweep(rigging.Control)
		k := g.m.subjectMeasure(rigging.Of)
		r.blocks = append(r.blocks, block{rigging, s.sweep.Held, len(r.read)})
		for _, reading := range rigging.Readings {
			at := s.readAt(reading[0])
			s.solveAt(at)
			r.at = append(r.at, at)
			r.read = append(r.read, reading[1])
			r.sigma = append(r.sigma, rigging.Within/2)
			r.units = append(r.units, k.unit)
			r.drawn = append(r.drawn, k.value(s.p))
			r.poses = append(r.poses, append([]float64(nil), s.p.st.q...))
		}
	}
	return r
}

func (r *readings) asDrawn() *forecast { return &forecast{r.drawn, r.poses} }

// forecast is what the readings would be of a changed run, whose freedoms are
// about as given; nil where it doesn't close at some reading.
func (r *readings) forecast(m *Mechanism, near [][]float64) *forecast {
	f := &forecast{make([]float64, 0, len(r.read)), make([][]float64, 0, len(r.read))}
	for i := range r.blocks {
		b := &r.blocks[i]
		p := m.heldPath(b.rigging.Control, b.held)
		k := m.subjectMeasure(b.rigging.Of)
		for range b.rigging.Readings {
			i := len(f.poses)
			if !p.poseNear(r.at[i], near[i]) {
				return nil
			}
			v := k.value(p)
			if math.IsNaN(v - v) {
				return nil
			}
			f.values = append(f.values, v)
			f.poses = append(f.poses, append([]float64(nil), p.st.q...))
		}
	}
	return f
}

// heldPath is a path with the other controls held.
func (m *Mechanism) heldPath(c *linkage.Control, held []Held) *path {
	p := m.newPath(c)
	for i := range held {
		p.held[m.freedomOf(held[i].Control)] = &held[i]
	}
	return p
}

// standNear closes the run at x from a guess of every freedom, and reports
// whether it closes near there. Farther than Newton's method goes in one step
// it may be another assembly.
func (p *path) poseNear(x float64, guess []float64) bool {
	if p.solve(x, guess) != allClosed {
		return false
	}
	for f, q := range p.st.q {
		if !(math.Abs(q-guess[f]) <= newtonTurn*p.sizeOf(f)) {
			return false
		}
	}
	return true
}

// sum is the sum of the squares of readings less predictions, each by its
// standard deviation.
func (r *readings) sum(predicted []float64) (sum float64) {
	for i, v := range predicted {
		off := (r.read[i] - v) / r.sigma[i]
		sum += float64(off * off)
	}
	return sum
}

// residuals are the readings less predictions, by rigging, and their root mean
// square.
func (r *readings) residuals(predicted []float64) (by [][]float64, rms float64) {
	for _, b := range r.blocks {
		list := make([]float64, len(b.rigging.Readings))
		for i := range list {
			list[i] = r.read[b.first+i] - predicted[b.first+i]
			rms += float64(list[i] * list[i])
		}
		by = append(by, list)
	}
	return by, math.Sqrt(rms / float64(len(r.read)))
}
