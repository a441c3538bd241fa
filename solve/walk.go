package solve

import "math"

const (
	// sampleStep is the longest step of a turning control between two samples,
	// degrees. Events closer together than this are still found if they show
	// in the rates at both ends.
	sampleStep = 0.25
	// slideStep is the same for a sliding control, as a share of the run's size:
	// what a quarter degree moves the end of an arm as long as the run.
	slideStep = sampleStep * degree
	// finest is how often a step is halved where the run moves fast or doesn't
	// close, before the place where it stops closing is solved for.
	finest = 6
	// finestFold is the same where two neighboring samples don't agree on the
	// way between them, which they do unless the run turns back there and
	// another branch begins close by.
	finestFold = 14
	// mostSteps bounds the steps on one side, where a slide is to be explored
	// over many times the size of its run.
	mostSteps = 20000
)

// walk follows a path from neutral to one side, and tells what lies between
// each pair of samples to whoever listens.
type walk struct {
	p     *path
	dir   float64 // +1 or -1
	last  *sample // where it stands
	stuck *critical
	// between is told every pair of neighboring samples, in order outward.
	between func(w *walk, a, b *sample)
	guess   []float64
}

// critical is a place where a step is singular.
type critical struct {
	kind CriticalKind
	x    float64
	step int
	at   *sample
}

func newWalk(p *path, dir float64, origin *sample, between func(*walk, *sample, *sample)) *walk {
	return &walk{p: p, dir: dir, last: origin, between: between, guess: make([]float64, len(origin.q))}
}

// stepLength is the longest step between samples, in the control's unit.
func (p *path) stepLength() float64 {
	if p.m.freedoms[p.input].kind == turn {
		return sampleStep
	}
	return slideStep * p.m.size
}

// to walks on to the limit, or to the toggle or change point before it.
func (w *walk) to(limit float64) {
	start := w.last.x
	n := min(mostSteps, math.Ceil(math.Abs(limit-start)/w.p.stepLength()))
	for i := 1.0; i <= n && w.stuck == nil; i++ {
		target := start + (limit-start)*i/n
		if i == n {
			target = limit
		}
		for w.last.x != target && w.stuck == nil {
			w.advance(target)
		}
	}
}

// advance goes one step towards the target, as far as the run can be followed.
func (w *walk) advance(target float64) {
	a := w.last
	x := target
	for try := 0; ; try++ {
		failed, move := w.p.follow(a, x, w.guess)
		if failed != allClosed && try >= finest {
			w.finish(a, w.locate(a, x, int(failed)))
			return
		}
		if failed == allClosed && (move <= longestMove || try >= finest) {
			b := w.p.take(x)
			same := w.p.continues(a, b)
			if !same && try >= finest {
				if c := w.passed(a, x); c != nil {
					w.finish(a, c)
					return
				}
				same = try >= finestFold
			}
			if same {
				w.accept(a, b)
				return
			}
		}
		x = a.x + 0.5*(x-a.x)
	}
}

// accept goes on to b, unless a change point lies before it.
func (w *walk) accept(a, b *sample) {
	if c := w.meeting(a, b); c != nil {
		w.finish(a, c)
		return
	}
	w.between(w, a, b)
	w.last = b
}

const (
	// toToggle is how often the stretch before a toggle is quartered, so that
	// what happens just short of it is seen.
	toToggle = 12
	// toChangePoint is the same before a change point. There a pose is known to
	// the root of rounding only, and rates sooner lose their digits.
	toChangePoint = 4
)

// finish tells the stretch from a to the singular place at which the walk
// ends.
func (w *walk) finish(a *sample, c *critical) {
	w.stuck = c
	end, quarterings := c.at, toToggle
	if c.kind == ChangePoint {
		quarterings = toChangePoint
	}
	for k := range quarterings {
		b := w.p.sampleAt(a, end, c.x-(c.x-w.last.x)*math.Pow(0.25, float64(k+1)))
		if b == nil || b == a || b == end || !b.valid {
			break
		}
		w.between(w, a, b)
		a = b
	}
	w.between(w, a, end)
	w.last = end
}
