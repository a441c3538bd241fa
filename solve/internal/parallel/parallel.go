// Package parallel does several things at once on all processors that Go may use, so that
// what comes out doesn't depend on how many. It knows nothing of what is done, and never
// decides how much of it.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each does n things by their numbers, as many at once as there are processors for Go
// (runtime.GOMAXPROCS). None may count on another, nor on their order, so that what
// comes out doesn't: results go into a place of their own by number. What panics is
// done by the caller's goroutine in the end.
func Each(n int, do func(i int)) {
	workers := min(n, runtime.GOMAXPROCS(0))
	if workers < 2 {
		for i := range n {
			do(i)
		}
		return
	}
	var next atomic.Int64
	var all sync.WaitGroup
	var once sync.Once
	var panicked any
	for range workers {
		all.Go(func() {
			defer func() {
				if p := recover(); p != nil {
					once.Do(func() { panicked = p })
				}
			}()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
	if panicked != nil {
		panic(panicked)
	}
}

// EachInOrder does n things as Each does, and takes what came of them by their numbers,
// one at a time, until take wants no more; then no further one is begun. What was done
// ahead and isn't taken is to be thrown away. It returns how many were taken.
func EachInOrder(n int, do func(i int), take func(i int) (more bool)) (taken int) {
	var one sync.Mutex
	done, over := make([]bool, n), false
	Each(n, func(i int) {
		one.Lock()
		skip := over
		one.Unlock()
		if skip {
			return
		}
		do(i)
		one.Lock()
		defer one.Unlock()
		done[i] = true
		for !over && taken < n && done[taken] {
			over = !take(taken)
			taken++
		}
	})
	return taken
}
