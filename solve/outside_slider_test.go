package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// sliderCrank is an in-line slider-crank drawn with its crank at an angle. The
// output "block" reads the distance of the slide from the crank's center.
func sliderCrank(r, l, crank float64) drawing {
	pin := polar(r, crank)
	eye := at(pin.X+math.Sqrt(l*l-pin.Y*pin.Y), 0)
	return drawing{
		bodies: []body{
			hinge("crank", at(0, 0), spot{"pin", pin}),
			{name: "block", slide: ref(at(1, 0)), points: []spot{{"eye", eye}}},
		},
		bars: []bar{{name: "rod", from: "crank.pin", to: "block.eye"}},
		rest: []string{fmt.Sprintf("output \"place\" {\n  of = block\n  reads = %s\n}\n", num(eye.X))},
	}
}

// TestOutsideSliderCrank: r 50, l 150, crank 60: 168.6, rod angle 16.8, slide
// rate -50.8 at rate 1, stroke 100 from 200 to 100, and a greatest slide rate
// of 1.05 r at 73 are printed (S. Macharia and others, Planar Mechanics; read).
// The further digits are recomputed in 40-digit arithmetic.
func TestOutsideSliderCrank(t *testing.T) {
	run, s := sweepOf(t, sliderCrank(50, 150, 60).with(control("crank", -180, 180)).text())
	place := outputOf(t, s, "place")
	near(t, 168.6, place.Neutral, 0.05, "printed place")
	near(t, 168.61406616345, place.Neutral, 1e-9, "place")
	near(t, 0, partOf(t, s, "block").Neutral, exact, "travel is from the drawn position")

	assert.EqualValues(t, "mm/deg", place.Ratio.Unit)
	require.NotNil(t, place.Ratio.Neutral)
	near(t, -50.8, deg(*place.Ratio.Neutral), 0.05, "printed rate")
	near(t, -50.839053803666, deg(*place.Ratio.Neutral), 1e-9, "rate")

	near(t, 200, place.Most, 1e-9, "outer end")
	near(t, 100, place.Least, 1e-9, "inner end")
	require.NotNil(t, place.Ratio.Most)
	near(t, 1.05, math.Abs(deg(*place.Ratio.Most))/50, 0.005, "printed greatest rate")
	near(t, 1.0546395465397, math.Abs(deg(*place.Ratio.Most))/50, 1e-9, "greatest rate")
	near(t, 0, *place.Ratio.Least, 1e-9, "it halts at both ends")

	st := solveAt(t, s, 0)
	slope := -heading(st.Point(pointNamed(t, run, "crank.pin")), st.Point(pointNamed(t, run, "block.eye")))
	near(t, 16.8, slope, 0.05, "printed rod angle")
	near(t, 16.77865488096, slope, 1e-9, "rod angle")
	// Flattest to the guide's normal where the crank stands square: cos = sqrt(1 - 1/9).
	near(t, deg(math.Acos(1.0/3)), rodOf(t, s, "rod").Angle.Least, 1e-9, "rod angle at the guide")

	require.Len(t, s.Critical, 2)
	for i, want := range []float64{-60, 120} { // crank at 0 and at 180
		assert.Equal(t, solve.DeadCenter, s.Critical[i].Kind)
		assert.Equal(t, "block", s.Critical[i].Part.Name)
		assert.Equal(t, "rod", s.Critical[i].Rod.Name)
		near(t, want, s.Critical[i].At, 360e-9, "dead center")
	}
}

// TestOutsideSliderCrankFastest finds the greatest slide rate where the source
// above says, at 73: recomputed 73.1753.
func TestOutsideSliderCrankFastest(t *testing.T) {
	_, s := sweepOf(t, sliderCrank(50, 150, 73.175296636241).with(control("crank", -1, 1)).text())
	ratio := outputOf(t, s, "place").Ratio
	near(t, *ratio.Most, *ratio.Neutral, 1e-12, "greatest here")
	assert.Greater(t, math.Abs(*ratio.Neutral), math.Abs(*ratio.Least)*(1+1e-5))
}

// TestOutsideExactSliderCrank: r 200, l 700, crank 30 from the line (the data
// of Khurmi & Gupta, Theory of Machines, example 15.1; companion): the sine of
// the rod's angle is 1/7; at 120 rad/s the slide runs 15 m/s and the rod turns
// 30 rad/s, all exactly.
func TestOutsideExactSliderCrank(t *testing.T) {
	d := sliderCrank(200, 700, 30)
	pin := polar(200, 30)
	// The bracket stands 100 straight above the pin and belongs to the rod: it
	// loses the pin's 200 sin 30 a radian and gains 100 times the rod's turn.
	d.bars[0].points = []spot{{"bracket", pin.Add(at(0, 100))}}
	d = d.with("output \"bracket\" {\n  of = rod.bracket\n  along = [1, 0]\n}\n", control("crank", -5, 5))
	run, s := sweepOf(t, d.text())

	near(t, -15000.0/120, deg(*outputOf(t, s, "place").Ratio.Neutral), 1e-10, "slide rate")
	near(t, -100+100*30.0/120, deg(*outputOf(t, s, "bracket").Ratio.Neutral), 1e-10, "the bracket's rate")
	st := solveAt(t, s, 0)
	a, b := st.Point(pointNamed(t, run, "crank.pin")), st.Point(pointNamed(t, run, "block.eye"))
	near(t, 1.0/7, (a.Y-b.Y)/distance(a, b), 1e-14, "sine of the rod's angle")
}

// TestOutsideLadder is a rod of 5 between two guides at right angles, the foot
// at 3, the top at 4: x^2 + y^2 = 25 (elementary).
func TestOutsideLadder(t *testing.T) {
	run, s := sweepOf(t, ladder(-4, 4).text())
	near(t, 2, s.High, 1e-8, "the rod lies along the foot's guide: the top halts there")
	assert.Equal(t, solve.ByToggle, s.Ends[1].Cause)
	assert.Equal(t, "top", s.Ends[1].Part.Name)
	assert.Equal(t, -4.0, s.Low)
	for _, foot := range []float64{-1, 0, 1, 2.5, 3, 4, 4.9} {
		st := solveAt(t, s, foot-3)
		nearf(t, math.Sqrt(25-foot*foot)-4, st.Travel(partNamed(t, run, "top")), 1e-12, "foot at %v", foot)
	}
	top := outputOf(t, s, "top-out")
	assert.EqualValues(t, "mm/mm", top.Ratio.Unit)
	near(t, -0.75, *top.Ratio.Neutral, 1e-14, "-x/y")
	assert.Nil(t, top.Ratio.Most, "without bound at the toggle")
	near(t, 1, top.Most, 1e-12, "upright")

	require.Len(t, s.Critical, 2)
	assert.Equal(t, solve.DeadCenter, s.Critical[0].Kind)
	near(t, -3, s.Critical[0].At, 8e-9, "upright")
	near(t, -1, s.Critical[0].Margin, 8e-9, "inside")
	assert.Equal(t, solve.Toggle, s.Critical[1].Kind)
	near(t, 2, s.Critical[1].At, 8e-9, "flat")
	near(t, 0, s.Critical[1].Margin, exact, "the toggle that ends the travel")
}

// ladder is a rod of 5 from the slide "foot" on the line y = 0, drawn at 3 and
// controlled, to the slide "top" on the line x = 0, drawn at 4.
func ladder(from, to float64) drawing {
	return drawing{
		bodies: []body{
			{name: "foot", slide: ref(at(1, 0)), points: []spot{{"eye", at(3, 0)}}},
			{name: "top", slide: ref(at(0, 1)), points: []spot{{"eye", at(0, 4)}}},
		},
		bars: []bar{{name: "stay", from: "foot.eye", to: "top.eye"}},
		rest: []string{
			"output \"top-out\" {\n  of = top\n}\n",
			control("foot", from, to),
		},
	}
}
