package solve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// Verdicts that need more than a worst value, by hand on the ladder (x^2 + y^2
// = 25, drawn at 3, 4) and on parallelograms, which lie flat, at a change
// point, where the crank is at 0 and 180.

func parallelogram(crank float64) drawing {
	d := fourBar{ground: 2, crank: 1, coupler: 2, rocker: 1}.draw(crank, 1)
	d.rest = d.rest[:1] // the traced point turns back by itself at the top of its arc
	return d
}

const (
	low10  = "stop \"aft\" {\n  of = crank\n  at = -10\n}\n"
	high10 = "stop \"forward\" {\n  of = crank\n  at = 10\n}\n"
)

func TestOverCenterExploring(t *testing.T) {
	for _, c := range []struct {
		name      string
		d         drawing
		least     float64
		want      solve.Verdict
		worst     float64
		noneFound bool
		explored  [2]float64
	}{
		{"nothing as far as least", parallelogram(90).with(control("crank", -10, 10)),
			30, solve.Holds, 30, true, [2]float64{-40, 40}},
		{"nothing as far as least, from stops", parallelogram(90).with(control("crank", -25, 15), low10, high10),
			30, solve.Holds, 30, true, [2]float64{-40, 40}},
		{"more was asked for than least", parallelogram(90).with(control("crank", -75, 70), low10, high10),
			30, solve.Holds, 60, true, [2]float64{-75, 70}},
		{"both found", parallelogram(90).with(control("crank", -10, 10)),
			100, solve.FallsShort, 80, false, [2]float64{-90, 90}},
		{"one found beyond the file's limit", parallelogram(60).with(control("crank", -10, 10)),
			55, solve.FallsShort, 50, false, [2]float64{-60, 65}},
		{"one found, the other explored as far beyond its end", parallelogram(60).with(control("crank", -70, 10), low10),
			20, solve.Holds, 50, false, [2]float64{-60, 60}},
		{"a slide is explored only as given, and that is enough", ladder(-1.5, 1.6).with(footStops),
			0.4, solve.Holds, 0.5, true, [2]float64{-1.5, 1.6}},
	} {
		result := check(t, c.d.with(demand("over-center", "least = "+num(c.least))).text())
		j := result.Requirements[0]
		assert.Equal(t, c.want, j.Verdict, c.name)
		nearAt(t, c.worst, j.Worst, 1e-5, c.name) // see the accuracy of a change point below
		assert.Equal(t, c.noneFound, j.NoneFound, c.name)
		// A change point is found where the two assemblies meet to 1e-6.
		nearf(t, c.explored[0], result.Sweeps[0].Explored[0], 1e-4, "%s: explored low", c.name)
		nearf(t, c.explored[1], result.Sweeps[0].Explored[1], 1e-4, "%s: explored high", c.name)
	}
}

func TestOverCenterNotExplored(t *testing.T) {
	j := judge(t, ladder(-1.5, 1.6).with(footStops), "over-center", "least = 0.55")
	assert.Equal(t, solve.CannotTell, j.Verdict, "0.5 beyond the low end was explored, 0.6 beyond the high")
	assert.Equal(t, solve.NotExplored, j.Why)

	// A lever with nothing on it is never on center; a turn from neutral is as
	// far as it is explored.
	lever := drawing{bodies: []body{hinge("lever", at(0, 0), spot{"grip", at(0, 5)})}}.with(control("lever", -10, 10))
	j = judge(t, lever, "over-center", "least = 350")
	assert.Equal(t, solve.Holds, j.Verdict)
	nearAt(t, 350, j.Worst, exact, "to a whole turn")
	assert.True(t, j.NoneFound)
	j = judge(t, lever, "over-center", "least = 351")
	assert.Equal(t, solve.CannotTell, j.Verdict, "more than a turn")
}

func TestOrderNotMet(t *testing.T) {
	// The foot's stop at 1, the top's at sqrt(25 - 1.5^2) - 3 = 1.7697, looked at up to 1.2.
	late := "stop \"top-down\" {\n  of = top\n  at = -2.5\n}\n"
	d := ladder(-4, 1.2).with(footStops, late)
	j := judge(t, d, "order", "first = out\n  then = top-down\n  least = 0.5")
	assert.Equal(t, solve.CannotTell, j.Verdict, "it could be anywhere beyond 1.2")
	assert.Equal(t, solve.NotExplored, j.Why)
	j = judge(t, d, "order", "first = out\n  then = top-down\n  least = 0.1")
	assert.NotEqual(t, solve.FallsShort, j.Verdict, "it is beyond 1.2")
	require.NotNil(t, j.Worst)
	assert.InDelta(t, 1.2-1, *j.Worst, 1e-9, "the lead is what was looked at past the first, at least")
	assert.True(t, j.NotMet)

	never := "stop \"top-up\" {\n  of = top\n  at = 1.5\n}\n" // the top reaches 1
	j = judge(t, ladder(-4, 0.5).with(stopOut, never), "order", "first = out\n  then = top-up\n  least = 0")
	assert.Equal(t, solve.CannotTell, j.Verdict, "neither is met")
	assert.Nil(t, j.Worst)
}

func TestVerdictOfTheRun(t *testing.T) {
	holds, falls := demand("steady", "of = top\n  within = 2"), demand("steady", "of = top\n  within = 0.5")
	unknown := demand("over-center", "least = 0.55")
	for _, c := range []struct {
		demands []string
		want    solve.Verdict
	}{
		{nil, solve.CannotTell},
		{[]string{holds}, solve.Holds},
		{[]string{unknown, holds}, solve.CannotTell},
		{[]string{holds, unknown, falls}, solve.FallsShort},
	} {
		result := check(t, ladder(-1.5, 1.6).with(footStops).with(c.demands...).text())
		assert.Equal(t, c.want, result.Verdict, "%v", c.demands)
	}
	assert.ElementsMatch(t, []linkage.Kind{
		linkage.Sense, linkage.Travel, linkage.Stops, linkage.OverCenter, linkage.RodAngle, linkage.Misalignment, linkage.Clearance,
	}, check(t, ladder(-1, 1).text()).NotChecked)
	assert.NotContains(t, check(t, ladder(-1.5, 1.6).with(unknown).text()).NotChecked, linkage.OverCenter)
}

// TestExactLimits: a figure that restates a number of the file meets a limit
// that is the same number.
func TestExactLimits(t *testing.T) {
	d := parallelogram(90).with(control("crank", -90.5, 90.5), low10, high10, "stop \"far\" {\n  of = crank\n  at = 12\n}\n")
	_, s := sweepOf(t, d.text())
	assert.Equal(t, -10.0, s.Low)
	assert.Equal(t, 10.0, s.High)
	assert.Equal(t, -10.0, s.Ends[0].At)
	assert.Equal(t, 10.0, partOf(t, s, "crank").AtHigh)
	j := judge(t, d, "travel", "of = crank\n  low = -10\n  high = 10\n  within = 0")
	assert.Equal(t, solve.Holds, j.Verdict)
	nearAt(t, 0, j.Worst, 0, "no further, no less")
	j = judge(t, d, "order", "first = forward\n  then = far\n  least = 2")
	assert.Equal(t, solve.Holds, j.Verdict)
	nearAt(t, 2, j.Worst, 0, "order")
	assert.NotEqual(t, solve.FallsShort, judge(t, ladder(-4, 4).with(footStops), "together", "of = [foot, top]\n  within = 2").Verdict)
}

func TestStopsWhereTheyBite(t *testing.T) {
	_, s := sweepOf(t, ladder(-2.5, 4).with(footStops, topStop, "stop \"top-up\" {\n  of = top\n  at = 2\n}\n").text())
	require.Len(t, s.Stops, 4)
	for i, c := range []struct {
		name  string
		at    float64
		bites bool
	}{{"in", -1, true}, {"out", 1, true}, {"top-down", math.Sqrt(18.75) - 3, false}} {
		assert.Equal(t, c.name, s.Stops[i].Stop.Name)
		nearAt(t, c.at, s.Stops[i].At, 8e-9, c.name)
		assert.Equal(t, c.bites, s.Stops[i].Bites, c.name)
	}
	assert.Nil(t, s.Stops[3].At, "the top never gets 2 up")
	assert.False(t, s.Stops[3].Bites)
	nearAt(t, 1, s.Ends[0].Wear, 1e-12, "of a stop on the control itself, per unit of its travel")
}

// TestStopOnBothSides: drawn at (1.4, 4.8) the top sinks to 4 with the foot at
// 3 and at -3; there the control gives 4/3 of what wears off.
func TestStopOnBothSides(t *testing.T) {
	d := ladder(-6, 3)
	d.bodies[0].points[0].at, d.bodies[1].points[0].at = at(1.4, 0), at(0, 4.8)
	_, s := sweepOf(t, d.with("stop \"seat\" {\n  of = top\n  at = -0.8\n}\n").text())
	require.Len(t, s.Stops, 2)
	for i, want := range []float64{-4.4, 1.6} {
		end := s.Ends[i]
		nearf(t, want, end.At, 9e-9, "end %d", i)
		assert.Equal(t, solve.ByStop, end.Cause)
		require.NotNil(t, end.Stop)
		assert.Equal(t, "seat", end.Stop.Name)
		nearAtf(t, 4.0/3, end.Wear, 1e-8, "wear %d", i)
		nearAtf(t, want, s.Stops[i].At, 9e-9, "stop %d", i)
		assert.True(t, s.Stops[i].Bites)
	}
	top := partOf(t, s, "top")
	near(t, 0.2, top.Most, 1e-12, "upright between")
	near(t, -0.8, top.Least, 1e-9, "at the seat")
}

// TestStopsThatTie: the first in the file has it.
func TestStopsThatTie(t *testing.T) {
	again := "stop \"again\" {\n  of = foot\n  at = 1\n}\n"
	for _, c := range []struct{ first, stops string }{{"out", stopOut + again}, {"again", again + stopOut}} {
		_, s := sweepOf(t, ladder(-4, 4).with(c.stops).text())
		require.NotNil(t, s.Ends[1].Stop)
		assert.Equal(t, c.first, s.Ends[1].Stop.Name)
	}
}

// TestStopOfATurningPart has no wear: there is no length to it.
func TestStopOfATurningPart(t *testing.T) {
	_, s := sweepOf(t, parallelogram(90).with(control("crank", -40, 40), "stop \"far\" {\n  of = rocker\n  at = 20\n}\n").text())
	near(t, 20, s.High, 1e-9, "the rocker turns as the crank")
	assert.Equal(t, solve.ByStop, s.Ends[1].Cause)
	assert.Nil(t, s.Ends[1].Wear)
	assert.Equal(t, solve.ByLimit, s.Ends[0].Cause)
}

// TestStopSide: side says on which side a stop at 0 limits.
func TestStopSide(t *testing.T) {
	for side, want := range map[string][2]float64{"high": {-1, 0}, "low": {0, 1}} {
		_, s := sweepOf(t, ladder(-1, 1).with("stop \"rest\" {\n  of = foot\n  at = 0\n  side = \""+side+"\"\n}\n").text())
		assert.Equal(t, want, [2]float64{s.Low, s.High}, side)
	}
}
