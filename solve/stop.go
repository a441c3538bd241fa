// Layer: values.

package solve

import (
	"errors"
	"sync"
)

// ErrStopped is the error of what was stopped before it was done (StopWhen).
var ErrStopped = errors.New("stopped before it was done")

// StopWhen lets Check, Sweep and AddBands be stopped: stop is asked at every step of
// a walk and for every dimension of a band, so it must cost next to nothing. Once it
// says yes, Check and Sweep return ErrStopped and AddBands adds none. nil: they are
// never stopped, as without it. It is asked by one goroutine at a time. It is not to be
// set while the mechanism is being solved, by any.
func (m *Mechanism) StopWhen(stop func() bool) {
	if m == nil {
		return
	}
	if m.stop = nil; stop == nil {
		return
	}
	var one sync.Mutex
	m.stop = func() bool {
		one.Lock()
		defer one.Unlock()
		return stop()
	}
}

// Stopped reports whether what is being solved is to be stopped.
func (m *Mechanism) Stopped() bool { return m != nil && m.stop != nil && m.stop() }
