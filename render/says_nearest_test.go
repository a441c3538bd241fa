package render

import (
	"slices"
	"testing"

	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

// Of what lies beyond an end the nearest is told, whichever comes first in the file, and
// of two at one place the first of the file.
func TestTheNearestBeyondAnEndIsTold(t *testing.T) {
	r := sample.Levers()
	s := r.Sweeps[0]
	near, nearer := *s.Stops[2].Stop, *s.Stops[2].Stop
	near.Name, nearer.Name = "near", "nearer"
	// The low end is at -24, the high one at 24.04.
	s.Stops = append(s.Stops, solve.StopBite{Stop: &near, At: sample.Is(25.5)}, solve.StopBite{Stop: &near, At: sample.Is(-30)}, solve.StopBite{Stop: &nearer, At: sample.Is(-25)}, solve.StopBite{Stop: &near, At: sample.Is(-25)})
	s.Critical = append(s.Critical, solve.Critical{Kind: solve.DeadCenter, At: 29}, solve.Critical{Kind: solve.DeadCenter, At: -33}, solve.Critical{Kind: solve.Toggle, At: -28}, solve.Critical{Kind: solve.Toggle, At: 3})
	for range 2 {
		assert.Equal(t, 25.5, *NextStop(s, 1).At)
		assert.Equal(t, -25.0, *NextStop(s, 0).At)
		assert.Equal(t, 29.0, NextCenter(s, 1).At)
		assert.Equal(t, -28.0, NextCenter(s, 0).At)
		slices.Reverse(s.Critical)
	}
	assert.Equal(t, "nearer", NextStop(s, 0).Stop.Name)
	slices.Reverse(s.Stops)
	assert.Equal(t, "near", NextStop(s, 0).Stop.Name)
	assert.Equal(t, 25.5, *NextStop(s, 1).At)
}

func TestCenterSpareTellsWhichSide(t *testing.T) {
	s := sample.Levers().Sweeps[0]
	assert.Equal(t, "7.2° inside the travel", CenterSpare(s, solve.Critical{Margin: -7.16}))
	assert.Equal(t, inReserve(7.16, "deg"), CenterSpare(s, solve.Critical{Margin: 7.16}))
	assert.Equal(t, "nothing in hand", CenterSpare(s, solve.Critical{}))
}

// A second path binds in stretches of the travel, here from -24 to 24.04.
func TestWhereASecondPathBinds(t *testing.T) {
	s := sample.Levers().Sweeps[0]
	for want, stretches := range map[string][][2]float64{
		"all through the travel":       {{-24, 24.04}},
		"below -20.0°":                 {{-24, -20}},
		"above 12.0°":                  {{12, 24.04}},
		"from -3.0° to 4.0°":           {{-3, 4}},
		"below -20.0° and above 12.0°": {{-24, -20}, {12, 24.04}},
	} {
		assert.Equal(t, want, boundSays(solve.BoundSweep{Sweep: s, Stretches: stretches}))
	}
}

// Metal that would be met only past on center is told, though by far: where it comes too
// late, only if it is what would be met next on its side and bites nowhere.
func TestMetalPastOnCenterIsTold(t *testing.T) {
	s := sample.Levers().Sweeps[0]
	b := &s.Stops[2] // "far", at 26.5, the next beyond the high end
	metal := *b.Stop
	metal.Of = nil
	b.Stop = &metal
	miss := solve.StopMiss{Side: "high", Gap: 40, Unit: "mm", After: sample.Is(5)}
	told := func(late, bites bool, side string) bool {
		miss.Late, miss.Side, b.Bites = late, side, bites
		b.Miss = &miss
		return missTold(s, b)
	}
	assert.True(t, told(false, false, "high"))
	assert.True(t, told(false, true, "high"))
	assert.True(t, told(true, false, "high"))
	assert.False(t, told(true, false, "low"), "on that side it isn't the next")
	assert.False(t, told(true, true, "high"))
	assert.Equal(t, 0, missSide(&solve.StopMiss{Side: "low"}))
	assert.Equal(t, 1, missSide(&solve.StopMiss{Side: "high"}))
}
