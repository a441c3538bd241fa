// Package hunt repeats a random test: a few times in every run of the tests,
// and for as long or as often as asked when somebody goes looking for false answers.
// Only tests import it.
//
// It also has their heap swept as seldom as that of the program: tests make much garbage
// and keep little of it, and to sweep it as often as is usual takes a quarter of their time.
package hunt

import (
	"flag"
	"math/rand/v2"
	"runtime/debug"
	"testing"
	"time"
)

// gcPercent is by how much, in per cent, the heap may grow before it is swept: as in
// cmd/fullfree.
const gcPercent = 400

func init() { debug.SetGCPercent(gcPercent) }

var (
	span   = flag.Duration("hunt", 0, "how long each random test goes on at the least; 0: the few runs that it always makes")
	rounds = flag.Int("rounds", 1, "how many times the few runs of each random test to make")
	seed   = flag.Uint64("seed", 1, "the seed that random tests start from")
	alone  = flag.Int("only", -1, "the one run of each random test to make, as a failure told it; -1: all")
)

// Rounds is how many times as much a random test that draws its runs itself makes as it
// does in every run of the tests: as -rounds says.
func Rounds() int { return *rounds }

// Each calls one for run 0, 1, 2 and so on, with randomness that depends on the
// seed and the run's number alone, so that a failure, which tells both, can be
// made again by -seed and -only. It makes few runs, -rounds times as many, or goes on
// for as long as -hunt says, and logs how many were made. Which runs -rounds makes is
// the same on every machine; -hunt makes more on a faster one. It stops at the first
// run that fails.
func Each(t *testing.T, few int, one func(t *testing.T, random *rand.Rand)) {
	t.Helper()
	made := 0
	try := func(run int) bool {
		defer func() {
			if t.Failed() {
				t.Logf("seed %d, run %d: repeat with -seed %d -only %d", *seed, run, *seed, run)
			}
		}()
		one(t, rand.New(rand.NewPCG(*seed, uint64(run))))
		made++
		return !t.Failed()
	}
	if *alone >= 0 {
		try(*alone)
		return
	}
	until := time.Now().Add(*span)
	for run := 0; run < few**rounds || *span > 0 && time.Now().Before(until); run++ {
		if !try(run) {
			return
		}
	}
	t.Logf("seed %d: %d runs", *seed, made)
}
