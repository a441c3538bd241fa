// Layer: sweep.

package solve

import "sync"

// A path solves one pose after another in the same space, so only one goroutine may use
// it. A sweep has one in which it is explored. Once it is done that is left alone, and
// whoever reads a pose off the sweep borrows space of his own for as long as he does:
// this file is all that hands it out.

// readers are spaces to read one sweep with that nobody uses at the moment.
type readers struct{ pool sync.Pool }

// borrow returns the sweep that was explored with a path of the caller's own, who gives
// it back when he is done.
func (w *Sweep) borrow() *sweeper {
	if s, ok := w.readers.pool.Get().(*sweeper); ok {
		return s
	}
	return w.of.apart()
}

// giveBack ends a borrow; nothing of s may be used afterwards.
func (w *Sweep) giveBack(s *sweeper) { w.readers.pool.Put(s) }

// apart is the sweep, explored, with a path of its own.
func (s *sweeper) apart() *sweeper {
	own := *s
	own.p = s.p.apart()
	return &own
}

// apart is a path that follows the same, in space of its own.
func (p *path) apart() *path {
	own := *p
	own.st, own.rates, own.creeping = p.m.newState(), p.m.newRates(), false
	own.solved, own.counted, own.tried = 0, 0, 0
	own.passing, own.staying = samples{}, samples{}
	return &own
}

// reading is the result with sweeps whose paths are the caller's own.
func (r *Result) reading() *Result {
	own := *r
	own.Sweeps = make([]*Sweep, len(r.Sweeps))
	for i, w := range r.Sweeps {
		sweep := *w
		sweep.of, sweep.readers = w.of.apart(), &readers{}
		own.Sweeps[i] = &sweep
	}
	return &own
}
