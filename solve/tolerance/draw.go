package tolerance

import (
	"math"
	"math/rand/v2"

	"fullfree/linkage"
	"fullfree/solve"
)

// variable is one number that is drawn for each build.
type variable struct {
	Dimension
	dimension int // in Run.Dimensions(); -1 of a stop
	stop      int // in Run.Stops; -1 of a dimension
	// rod is the rod of which it is the length, where that is rigged; -1: it isn't. What is
	// drawn then is by how much it is made off, which rigging takes out in whole steps.
	rod int
	// low and high are between which it is kept: the stop of a control's own part doesn't
	// come to the other side of neutral, where neutral itself would be elsewhere.
	low, high float64
	madeBy    float64 // the half-width by which it is made off
}

// room is what builds are put together in. One goroutine uses it.
type room struct {
	shop   shop
	build  solve.Build
	drawn  []float64 // by variable: what is out
	left   []float64 // by variable: what is out in the end, of what is rigged what the steps leave
	turns  []turned  // by rod: what its ends are turned by
	pinned []float64
	judged solve.Judged
}

// turned is how a rod is set in a build, against the run.
type turned struct {
	end   *linkage.RodEnd
	turns float64
}

func (s *search) newRoom() *room {
	r := &room{
		build: solve.Build{Dimensions: make([]float64, len(s.dimensions)), Stops: make([]float64, len(s.run.Stops))},
		drawn: make([]float64, len(s.variables)), left: make([]float64, len(s.variables)), turns: make([]turned, len(s.run.Rods)),
	}
	r.shop = s.shops()
	return r
}

// draw draws a build: its random numbers depend on the seed and its number alone.
func (s *search) draw(number int, r *room) {
	random := rand.New(rand.NewPCG(s.options.Seed, uint64(number)))
	for i := range s.variables {
		v := &s.variables[i]
		share := 2*random.Float64() - 1
		if s.options.Bell {
			share = 0.5 * random.NormFloat64()
		}
		r.drawn[i] = math.Max(v.low, math.Min(v.high, float64(share*v.madeBy)))
	}
}
