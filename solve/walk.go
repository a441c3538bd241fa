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
	// slideDetail is the same as a share of the smallest piece of metal that may
	// touch something, so that none is stepped over.
	slideDetail = 0.25
	// finest is how often a step is halved where the run moves fast or doesn't
	// close, before the place where it stops closing is solved for.
	finest = 6
	// finestBranch is the same where two neighboring samples don't agree on the
	// way between them: they do on one branch, so one of them is on another.
	// A quarter degree is down to 1e-8 of a degree then.
	finestBranch = 24
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
	step    float64 // the last step that could be gone, if it was a part of the one asked for
	// lost says that the run couldn't be followed to the limit, though nothing
	// says that it ends where it was lost.
	lost bool
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

// to walks on to the limit, or to the toggle or change point before it.
func (w *walk) to(limit float64) {
	start := w.last.x
	n := math.Ceil(math.Abs(limit-start) / w.p.longest)
	for i := 1.0; i <= n && !w.ended(); i++ {
		target := start + (limit-start)*i/n
		if i == n {
			target = limit
		}
		for w.last.x != target && !w.ended() {
			if w.p.m.Stopped() {
				w.lost = true // whoever asked for it throws it away
				return
			}
			w.advance(target)
		}
	}
}

func (w *walk) ended() bool { return w.stuck != nil || w.lost }

// advance goes one step towards the target, as far as the run can be followed.
func (w *walk) advance(target float64) {
	a := w.last
	x := target
	if w.step > 0 && 2*w.step < math.Abs(target-a.x) {
		x = a.x + 2*w.step*w.dir
	}
	for try := 0; ; try++ {
		failed, move := w.p.follow(a, x, w.guess)
		if failed != allClosed && try >= finest {
			// Newton's method may fail for want of a good start alone.
			c := w.locate(a, x, int(failed))
			if c == nil && try >= finestBranch {
				c = w.farthest(a, x, int(failed))
			}
			if c != nil || try >= finestBranch {
				w.finish(a, c)
				return
			}
		}
		if failed == allClosed && (move <= longestMove || try >= finest) {
			b := w.p.take(x)
			edge, beyond := w.border(a, b)
			if beyond != nil && edge == nil {
				w.last = beyond // the same place, as it is from here on
				return
			}
			if edge != nil {
				b = edge
			}
			if w.p.continues(a, b) {
				if w.accept(a, b, target); edge != nil && !w.ended() {
					w.last, w.step = beyond, 0
				}
				return
			}
			if try >= finestBranch {
				w.finish(a, w.part(a, b))
				return
			}
		}
		x = a.x + 0.5*(x-a.x)
	}
}

// accept goes on to b, unless a change point lies before it.
func (w *walk) accept(a, b *sample, target float64) {
	if c := w.meeting(a, b); c != nil {
		w.finish(a, c)
		return
	}
	w.between(w, a, b)
	w.last, w.step = b, 0
	if b.x != target {
		w.step = math.Abs(b.x - a.x)
	}
}

const (
	// toToggle is how often the stretch before a toggle is quartered, so that
	// what happens just short of it is seen.
	toToggle = 12
	// toChangePoint is the same before a change point. There a pose is known to
	// the root of rounding only, and rates sooner lose their digits.
	toChangePoint = 2
)

// finish tells the stretch from a to the singular place at which the walk
// ends; nil: it isn't known what is there, and the run is lost.
func (w *walk) finish(a *sample, c *critical) {
	if c == nil {
		w.lost = true
		return
	}
	w.stuck = c
	end, quarterings := c.at, toToggle
	if c.kind == ChangePoint {
		quarterings = toChangePoint
	}
	if (c.x-a.x)*w.dir <= 0 {
		quarterings = 0 // Newton's method closed it a rounding past the place
	}
	for k := range quarterings {
		b := w.p.sampleAt(a, end, c.x-(c.x-w.last.x)*math.Pow(0.25, float64(k+1)))
		if b == nil || b == a || b == end || !b.valid || b.sign[c.step] != a.sign[c.step] {
			break // or it has fallen to the other assembly, which meets this one at a toggle
		}
		w.between(w, a, b)
		a = b
	}
	w.between(w, a, end)
	w.last = end
}
