package solve

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// each does n things by their numbers, as many at once as there are processors for Go
// (runtime.GOMAXPROCS). None may count on another, nor on their order, so that what
// comes out doesn't: results go into a place of their own by number. What panics is
// done by the caller's goroutine in the end.
func each(n int, do func(i int)) {
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

// eachInOrder does n things as each does, and takes what came of them by their numbers,
// one at a time, until take wants no more; then no further one is begun. What was done
// ahead and isn't taken is to be thrown away. It returns how many were taken.
func eachInOrder(n int, do func(i int), take func(i int) (more bool)) (taken int) {
	var one sync.Mutex
	done, over := make([]bool, n), false
	each(n, func(i int) {
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
