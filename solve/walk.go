// Layer: events.

package solve

import "math"

const (
	// finest is the shortest step, as a share of the longest, to which a step is
	// halved where the run moves fast or doesn't close, before it is looked why.
	finest = 1.0 / 64
	// finestBranch is how often a step is halved where the curve itself could not
	// be followed either. A quarter degree is down to 1e-8 of a degree then.
	finestBranch = 24
	// mostShorter bounds how many samples a walk to one side may put between those
	// asked for: a run that needs more is told as one that could not be followed.
	mostShorter = 1 << 14
)

// walk follows a path from neutral to one side, and tells what lies between
// each pair of samples to whoever listens.
type walk struct {
	p           *path
	dir         float64 // +1 or -1
	last        *sample // where it stands
	singularity *critical
	// between is told every pair of neighboring samples, in order outward.
	between func(w *walk, a, b *sample)
	guess   []float64
	step    float64   // the last step that could be gone, if it was a part of the one asked for
	trail   []*sample // the last samples accepted on this branch, the latest last
	shorter int       // how many samples stand between those asked for
	// lost says that the run couldn't be followed to the limit, though nothing
	// says that it ends where it was lost.
	lost bool
}

// critical is a place where a step is singular.
type critical struct {
	kind CriticalKind
	x    float64
	step int
	own  []float64 // the step's unknowns there, where its own curve was followed to it
	at   *sample   // set once the walk has ended there
}

func newWalk(p *path, dir float64, origin *sample, between func(*walk, *sample, *sample)) *walk {
	return &walk{p: p, dir: dir, last: origin, between: between, guess: make([]float64, len(origin.q))}
}

// to walks on to the limit, or to the toggle or change point before it.
func (w *walk) to(limit float64) {
	side := 0
	if w.dir > 0 {
		side = 1
	}
	for _, x := range w.p.places[side] {
		if (x-w.last.x)*w.dir > 0 && (limit-x)*w.dir > 0 && !w.ended() {
			w.straightTo(x)
		}
	}
	w.straightTo(limit)
}

// straightTo is that without the path's own places.
func (w *walk) straightTo(limit float64) {
	start := w.last.x
	n := math.Ceil(math.Abs(limit-start) / w.p.stride)
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

func (w *walk) ended() bool { return w.singularity != nil || w.lost }

// advance goes one step towards the target, as far as the run can be followed.
func (w *walk) advance(target float64) {
	a := w.last
	x := target
	if w.step > 0 {
		w.shorter++
	}
	if w.shorter > mostShorter {
		w.lost = true
		return
	}
	if w.step > 0 && 2*w.step < math.Abs(target-a.x) {
		x = a.x + float64(2*w.step*w.dir)
	}
	for try := 0; ; try++ {
		fine := math.Abs(x-a.x) <= w.p.longest*finest
		trouble, move := w.p.follow(a, x, w.guess)
		if trouble == noStep && (move <= w.p.mostMove || fine) {
			if trouble = w.reach(a, w.p.take(x), target, noStep); trouble == noStep {
				return
			}
		}
		if trouble != noStep && fine {
			// Newton's method may fail for want of a good start alone.
			if w.lookCloser(a, x, trouble) {
				return
			}
			if try >= finestBranch {
				w.finish(a, w.endHere(a, trouble))
				return
			}
		}
		x = a.x + 0.5*(x-a.x)
	}
}

// reach goes on from a to b, or to where a pair of cables goes slack or comes
// taut between them. It returns the step whose unknowns don't surely lie on
// a's branch at b, the given one left aside; then nothing is changed.
func (w *walk) reach(a, b *sample, target float64, sure int) (trouble int) {
	edge, beyond := w.border(a, b)
	if beyond != nil && edge == nil {
		w.last = beyond // the same place, as it is from here on
		w.shorter++
		w.trail = w.trail[:0]
		return noStep
	}
	if edge != nil {
		b = edge
	}
	if trouble = w.p.leaves(a, b, sure); trouble != noStep {
		return trouble
	}
	if w.accept(a, b, target); edge != nil && !w.ended() {
		w.last, w.step = beyond, 0
		w.trail = w.trail[:0]
	}
	return noStep
}

// lookCloser tells what happens between a and x, where a step isn't surely
// closed on the same branch: the walk ends there, or goes on by the step's own
// curve. It reports whether it got any further.
func (w *walk) lookCloser(a *sample, x float64, step int) bool {
	if w.p.m.steps[step].kind >= closePull {
		return w.along(a, x, step)
	}
	c := w.locate(a, x, step)
	if c != nil {
		w.finish(a, c)
	}
	return c != nil
}

// accept goes on to b, unless a change point lies before it.
func (w *walk) accept(a, b *sample, target float64) {
	if c := w.meeting(a, b); c != nil {
		w.finish(a, c)
		return
	}
	w.between(w, a, b)
	if len(w.trail) == trailLength {
		w.trail = append(w.trail[:0], w.trail[1:]...)
	}
	w.trail = append(w.trail, a)
	w.last, w.step = b, 0
	if b.x != target {
		w.step = math.Abs(b.x - a.x)
	}
}

// trailLength is how many samples before the last one are remembered, to take
// limits from.
const trailLength = 3

// along follows a step's own curve from the last sample on, past x or to the
// singular place at which the walk ends. It reports whether it got any further.
func (w *walk) along(a *sample, x float64, step int) bool {
	c := w.newArc(a, step)
	if c == nil {
		return false
	}
	for range arcSteps {
		met := c.advance()
		past := (c.x()-x)*w.dir >= 0
		switch {
		case met == arcGivenUp:
			return w.last != a
		case met != arcGoesOn && !past:
			w.finish(w.last, c.critical(met))
			return true
		}
		b, failed := c.sampleUpTo(x)
		trouble := int(failed)
		if failed == allClosed {
			trouble = w.reach(w.last, b, x, step)
		}
		if trouble != noStep { // something else is in the way, at or before this place
			return w.last != a || trouble != step && w.p.m.steps[trouble].kind < closePull && w.lookCloser(a, c.x(), trouble)
		}
		if past || w.ended() || w.last != b || !b.valid {
			return true
		}
		c.from = b
	}
	return w.last != a
}

// endHere takes the last sample for the place where the run ends, if a rod of
// the step in trouble stands nearly on center there; nil: that isn't why.
func (w *walk) endHere(a *sample, step int) *critical {
	for _, l := range w.p.m.steps[step].constraints {
		if a.v[l] < lostSine {
			return &critical{kind: Toggle, x: a.x, step: step}
		}
	}
	return nil
}
