package solve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// Events exactly at neutral, at a limit or at each other: intervals are closed.

// TestDeadCenterAtNeutral: a ladder drawn upright, and a crank drawn in line.
func TestDeadCenterAtNeutral(t *testing.T) {
	upright := ladder(-2, 3)
	upright.bodies[0].points[0].at, upright.bodies[1].points[0].at = at(0, 0), at(0, 5)
	for name, d := range map[string]drawing{
		"top":   upright,
		"block": sliderCrank(50, 150, 0).with(control("crank", -30, 40)),
	} {
		_, s := sweepOf(t, d.text())
		require.Len(t, s.Critical, 1, name)
		c := s.Critical[0]
		assert.Equal(t, solve.DeadCenter, c.Kind, name)
		assert.Equal(t, name, c.Part.Name)
		near(t, 0, c.At, 1e-7, name)
		near(t, 0-s.High, c.Margin, 1e-7, name+": 0 is on the high side")
		near(t, 0, *outputOf(t, s, s.Outputs[0].Output.Name).Ratio.Neutral, 1e-12, name)
		near(t, 0, partOf(t, s, name).Most, 1e-12, name+": it is farthest out")
	}
	j := judge(t, upright, "sense", "of = [hand, top]\n  turns = \"opposite\"")
	assert.Equal(t, solve.FallsShort, j.Verdict, "it goes down on both sides")
}

// TestDeadCenterAtALimit counts, with no margin.
func TestDeadCenterAtALimit(t *testing.T) {
	_, s := sweepOf(t, ladder(-3, 1).text())
	require.Len(t, s.Critical, 1)
	assert.Equal(t, solve.DeadCenter, s.Critical[0].Kind)
	near(t, -3, s.Critical[0].At, 4e-9, "upright")
	near(t, 0, s.Critical[0].Margin, 4e-9, "upright")
	assert.Equal(t, -3.0, s.Low)
	assert.Equal(t, solve.ByLimit, s.Ends[0].Cause)
	j := judge(t, ladder(-3, 1), "over-center", "least = 0.1")
	assert.Equal(t, solve.FallsShort, j.Verdict)

	_, s = sweepOf(t, ladder(-2.999, 1).text())
	assert.Empty(t, s.Critical, "a thousandth short of it")
}

// TestToggleAtALimit counts, too.
func TestToggleAtALimit(t *testing.T) {
	_, s := sweepOf(t, ladder(-1, 2).text())
	require.Len(t, s.Critical, 1)
	assert.Equal(t, solve.Toggle, s.Critical[0].Kind)
	near(t, 2, s.Critical[0].At, 3e-9, "flat")
	near(t, 2, s.High, 3e-9, "flat")
	near(t, 0, s.Critical[0].Margin, 3e-9, "flat")
	near(t, -4, partOf(t, s, "top").AtHigh, 1e-6, "flat")
	_, s = sweepOf(t, ladder(-1, 1.999).text())
	assert.Empty(t, s.Critical, "a thousandth short of it")
	assert.Equal(t, solve.ByLimit, s.Ends[1].Cause)
}

// TestStopAtALimit bites.
func TestStopAtALimit(t *testing.T) {
	_, s := sweepOf(t, ladder(-1, 1).with(footStops).text())
	for i, end := range s.Ends {
		assert.Equal(t, solve.ByStop, end.Cause, "end %d", i)
		assert.True(t, s.Stops[i].Bites)
	}
	assert.Equal(t, [2]float64{-1, 1}, [2]float64{s.Low, s.High})
}

// TestStopAtTheToggle leaves nothing in hand whichever is told.
func TestStopAtTheToggle(t *testing.T) {
	_, s := sweepOf(t, ladder(-1, 4).with("stop \"late\" {\n  of = foot\n  at = 2\n}\n").text())
	near(t, 2, s.High, 1e-8, "both there")
	require.NotEmpty(t, s.Critical)
	near(t, 0, s.Critical[len(s.Critical)-1].Margin, 1e-8, "nothing in hand")
	j := judge(t, ladder(-1, 4).with("stop \"late\" {\n  of = foot\n  at = 2\n}\n"), "over-center", "least = 0.01")
	assert.Equal(t, solve.FallsShort, j.Verdict)
}

// TestStopWhereItStands: touching at neutral is no overlap, and the control
// can't go that way.
func TestStopWhereItStands(t *testing.T) {
	d := ladder(-1, 1)
	d.bodies[0].metal = []metal{{"boss", []vec{at(3, 0)}, 0.5}}
	d.bodies = append(d.bodies, body{name: "airframe", fixed: true, metal: []metal{{"tube", []vec{at(4.5, 0)}, 1}}})
	_, s := sweepOf(t, d.with("stop \"resting\" {\n  touch = [foot.boss, airframe.tube]\n}\n").text())
	assert.Equal(t, solve.ByStop, s.Ends[1].Cause)
	near(t, 0, s.High, 1e-9, "in touch")
	assert.Equal(t, -1.0, s.Low)
	nearAt(t, 1, s.Ends[1].Wear, 1e-9, "head on")
}

// TestOneSidedTravel: from or to may be 0.
func TestOneSidedTravel(t *testing.T) {
	_, s := sweepOf(t, ladder(0, 1).text())
	assert.Equal(t, [2]float64{0, 1}, [2]float64{s.Low, s.High})
	top := partOf(t, s, "top")
	near(t, 0, top.AtLow, exact, "neutral is the low end")
	near(t, -1, top.AtHigh, 1e-12, "3, 4, 5")
	_, rows := tableOf(t, s, 1)
	require.Len(t, rows, 2)
	assert.Equal(t, 1.0, rows[1][0])
}

// TestReadings: a gauge reads what it is set to in the drawn position, and a
// run set off its drawing reads otherwise at neutral; opposite, together and
// steady compare travel all the same.
func TestReadings(t *testing.T) {
	d := ladder(-0.5, 0.5)
	d.bars[0].length = math.Hypot(3, 4.25)
	text := replaceOnce(t, d.text(), "output \"top-out\" {\n  of = top\n", "output \"top-out\" {\n  of = top\n  reads = 7\n")
	_, s := sweepOf(t, text)
	near(t, 0.25, partOf(t, s, "top").Neutral, 1e-12, "travel from the drawn position")
	near(t, 7.25, outputOf(t, s, "top-out").Neutral, 1e-12, "reading")
	near(t, math.Hypot(3, 4), s.Rods[0].Rod.Drawn, 1e-12, "drawn")
	result := check(t, text+demand("steady", "of = top-out\n  within = 1")+demand("together", "of = [top, top-out]\n  within = 0"))
	// From where it stood at neutral: down to foot 3.5.
	want := 4.25 - math.Sqrt(9+4.25*4.25-3.5*3.5)
	nearAt(t, want, result.Requirements[0].Worst, 1e-9, "steady")
	nearAt(t, 0, result.Requirements[1].Worst, 1e-12, "the gauge's setting doesn't come into it")
}

// TestTwoRunsInOneFile: what one control moves is nothing to the other.
func TestTwoRunsInOneFile(t *testing.T) {
	d := ladder(-1, 1)
	other := crankRocker.draw(40, 1)
	d.bodies, d.bars = append(d.bodies, other.bodies...), append(d.bars, other.bars...)
	d = d.with("control \"swing\" {\n  of = crank\n  from = -10\n  to = 10\n  held = [-5, 5]\n}\n",
		demand("steady", "of = rocker\n  within = 0\n  control = hand"), demand("steady", "of = top\n  within = 0\n  control = swing"))
	result := check(t, d.text())
	require.Len(t, result.Sweeps, 3)
	for _, j := range result.Requirements {
		assert.Equal(t, solve.Holds, j.Verdict)
		nearAt(t, 0, j.Worst, 0, "exactly")
	}
	_, five := crankRocker.angles(45)
	_, drawn := crankRocker.angles(40)
	near(t, five-drawn, partOf(t, result.Sweeps[1], "rocker").Neutral, exact, "held at 5")
	assert.Nil(t, result.Sweeps[1].Rods[1].Angle.At, "nothing moves there")
	near(t, crankRocker.mu(45), result.Sweeps[1].Rods[1].Angle.Least, 1e-9, "and it stands at its angle")
}

// TestStopsOfCarriedParts: an at on a carried part that is no control is
// against the drawing; metal on it and on its carrier rides along.
func TestStopsOfCarriedParts(t *testing.T) {
	// An arm on the lever's tip kept upright by a parallelogram: against the
	// drawing it never turns, against the lever by as much as that.
	d := drawing{
		bodies: []body{
			{name: "lever", pivot: ref(at(0, 0)), points: []spot{{"tip", at(0, 100)}}, metal: []metal{{"peg", []vec{at(0, 100).Add(polar(20, -45))}, 2}}},
			{name: "arm", on: "lever.tip", points: []spot{{"ear", at(30, 100)}}, metal: []metal{{"spur", []vec{at(0, 80)}, 2}}},
			{name: "airframe", fixed: true, points: []spot{{"eye", at(30, 0)}}},
		},
		bars: []bar{{name: "stay", from: "airframe.eye", to: "arm.ear"}},
	}.with(control("lever", -80, 80))
	_, s := sweepOf(t, d.with("stop \"still\" {\n  of = arm\n  at = 1\n}\n").text())
	assert.Equal(t, solve.ByLimit, s.Ends[0].Cause)
	assert.Equal(t, solve.ByLimit, s.Ends[1].Cause)
	near(t, 0, partOf(t, s, "arm").Most, 1e-11, "upright all the way")

	// Seen from the lever the spur swings about the tip, 20 from it, the other
	// way; the peg stands 45 degrees off where it hung. They touch 4 apart.
	_, s = sweepOf(t, d.with("stop \"ride\" {\n  touch = [lever.peg, arm.spur]\n}\n").text())
	assert.Equal(t, solve.ByStop, s.Ends[0].Cause)
	near(t, -45+deg(2*math.Asin(0.1)), s.Low, 1e-9, "the lever leans until they touch")
	assert.Equal(t, solve.ByLimit, s.Ends[1].Cause)
	nearAt(t, 1/(rad(20)*math.Cos(math.Asin(0.1))), s.Ends[0].Wear, 1e-7, "degrees per mm")
}
