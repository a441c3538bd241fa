package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/solve"
)

// TestOutsideCrossedEqualBars: tan(out/2) = -(d + a)/(d - a) tan(in/2). So it stands
// in a public encyclopaedia's article on the antiparallelogram (read; which edition
// was not noted), and it follows by hand: the rod d joins a (cos in, sin in) with
// (d, 0) + a (cos out, sin out), which leaves a (1 - cos(out - in)) = d (cos in - cos
// out), that is out = in or a sin((out - in)/2) = d sin((out + in)/2). The figures
// are recomputed as the crossing of two circles.
func TestOutsideCrossedEqualBars(t *testing.T) {
	for _, c := range []struct {
		ground, crank float64
		in, out       []float64
	}{
		{2, 1, []float64{20, 60, 100}, []float64{-55.755974288666, -120, -148.74740084948}},
		{3, 1, []float64{60}, []float64{-98.213210701738}},
	} {
		f := fourBar{ground: c.ground, crank: c.crank, coupler: c.ground, rocker: c.crank, crossed: true}
		const drawn = 70.0
		run, s := sweepOf(t, f.draw(drawn, 1).with(control("crank", -60, 100)).text())
		_, from := f.angles(drawn)
		for i, in := range c.in {
			st := solveAt(t, s, in-drawn)
			nearf(t, c.out[i], from+st.Travel(partNamed(t, run, "rocker")), 1e-9, "d %v, in %v", c.ground, in)
		}
		// The shafts turn oppositely all through.
		ratio := outputOf(t, s, "rocker-turn").Ratio
		assert.Negative(t, *ratio.Least)
		assert.Negative(t, *ratio.Most)
		assert.Empty(t, ofParts(s.Critical))
	}
}

// TestOutsideParallelogram: out = in exactly in the uncrossed assembly.
func TestOutsideParallelogram(t *testing.T) {
	f := fourBar{ground: 2, crank: 1, coupler: 2, rocker: 1}
	_, s := sweepOf(t, f.draw(70, 1).with(control("crank", -60, 100)).text())
	ratio := outputOf(t, s, "rocker-turn").Ratio
	near(t, 1, *ratio.Least, 1e-12, "least")
	near(t, 1, *ratio.Most, 1e-12, "most")
	near(t, 10, rodOf(t, s, "coupler").Angle.Least, 1e-9, "mu is the crank's angle to the ground")
}

// TestOutsideLambda: Chebyshev's lambda, crank 1, ground 2, coupler, rocker
// 2.5, tracing point 5 from the crank's pin (proportions: a public
// encyclopaedia's article on that linkage; read, which edition was not noted). At
// crank 90, 180, 270 it is at (4, 4), (2, 4), (0, 4), at 0 at (2, sqrt 24), exactly:
// the rod's pin is 2.5 from crank pin, tracing point and rocker pivot alike, so
// these see each other at a right angle (elementary), and the tracing point is
// sqrt(25 - c^2) from the pivot, square to the line from there to the crank's pin,
// which is c long. Greatest height above 4 between: recomputed.
func TestOutsideLambda(t *testing.T) {
	f := fourBar{ground: 2, crank: 1, coupler: 2.5, rocker: 2.5}
	run, s := sweepOf(t, f.draw(180, 2).with(control("crank", -90, 90)).text())
	trace := pointNamed(t, run, "coupler.trace")
	for x, want := range map[float64]vec{-90: at(4, 4), 0: at(2, 4), 90: at(0, 4)} {
		got := solveAt(t, s, x).Point(trace)
		nearf(t, want.X, got.X, 1e-12, "x at %v", x)
		nearf(t, want.Y, got.Y, 1e-12, "y at %v", x)
	}
	height := outputOf(t, s, "trace-y")
	near(t, 0.009753733086, height.Most-4, 1e-11, "greatest height")
	near(t, 0.00975373308636, height.Most-4, 1e-12, "greatest height, more digits")
	near(t, 4, height.Least, 1e-12, "least height")
	near(t, 4, height.Neutral, 1e-12, "a gauge reads what it is set to in the drawing")
	near(t, 4, outputOf(t, s, "trace-x").AtLow, 1e-12, "x at the low end")

	run, s = sweepOf(t, f.draw(180, 2).with(control("crank", -180, 180)).text())
	for _, x := range []float64{-180, 180} {
		got := solveAt(t, s, x).Point(pointNamed(t, run, "coupler.trace"))
		near(t, 2, got.X, 1e-12, "x at crank 0")
		near(t, math.Sqrt(24), got.Y, 1e-12, "y at crank 0")
	}
}

// TestOutsideStraightPart: see the file for the source.
func TestOutsideStraightPart(t *testing.T) {
	for _, row := range table(t, "straight.csv") {
		f := fourBar{ground: number(t, row["ground"]), crank: 1, coupler: number(t, row["coupler"]), rocker: number(t, row["coupler"])}
		half := number(t, row["range"]) / 2
		_, s := sweepOf(t, f.draw(180, 2).with(control("crank", -half, half)).text())
		x, y := outputOf(t, s, "trace-x"), outputOf(t, s, "trace-y")
		length := x.Most - x.Least
		nearf(t, number(t, row["length"]), length, 0.5001e-4, "length, range %v", row["range"])
		nearf(t, number(t, row["error-percent"]), (y.Most-y.Least)/length*100, 0.5001e-6, "error, range %v", row["range"])
	}
}

// straightLineCell is the eight-bar cell, long bars 5, short ones 3, its driver
// crank 2 about (2, 0) on a circle through the fixed center (0, 0), drawn with
// that crank at an angle above 0.
func straightLineCell(crank float64) drawing {
	p := at(2, 0).Add(polar(2, crank))
	r := p.Norm()
	u := p.Scale(1 / r)
	along := (r + 16/r) / 2
	off := square(u).Scale(math.Sqrt(25 - along*along))
	q := u.Scale(16 / r)
	return drawing{
		bodies: []body{
			hinge("crank", at(2, 0), spot{"p", p}),
			hinge("upper", at(0, 0), spot{"b", u.Scale(along).Add(off)}),
			hinge("lower", at(0, 0), spot{"d", u.Scale(along).Sub(off)}),
			{name: "short", on: "upper.b", points: []spot{{"q", q}}},
		},
		bars: []bar{
			{name: "upper-link", from: "upper.b", to: "crank.p"},
			{name: "lower-link", from: "lower.d", to: "crank.p"},
			{name: "last-link", from: "lower.d", to: "short.q"},
		},
		rest: []string{
			fmt.Sprintf("output \"line\" {\n  of = short.q\n  along = [1, 0]\n  reads = %s\n}\n", num(q.X)),
		},
	}
}

// TestOutsideStraightLineCell: the tracing point runs on the line x = 16/4
// (elementary: its distance from the center and the driver's multiply to
// 25 - 9, and the driver's circle is 4 across).
func TestOutsideStraightLineCell(t *testing.T) {
	const drawn = 60.0
	run, s := sweepOf(t, straightLineCell(drawn).with(control("crank", -45, 50)).text())
	line := outputOf(t, s, "line")
	near(t, 4, line.Neutral, 1e-12, "drawn")
	near(t, 4, line.Least, 1e-12, "least")
	near(t, 4, line.Most, 1e-12, "most")
	near(t, 0, *line.Ratio.Most, 1e-12, "it never leaves the line")
	for _, crank := range []float64{15, 30, 60, 90, 110} {
		got := solveAt(t, s, crank-drawn).Point(pointNamed(t, run, "short.q"))
		nearf(t, 4*math.Tan(rad(crank/2)), got.Y, 1e-11, "driver at %v", crank)
	}
}

// TestOutsideStraightLineCellEnds: it locks where the long bars fold onto the
// short, 4 cos(driver/2) = 5 - 3, and with the driver at 0 driver and tracing
// point meet: the short bars lie in line, and the tracing point could stay
// with the driver from there on.
func TestOutsideStraightLineCellEnds(t *testing.T) {
	const drawn = 60.0
	_, s := sweepOf(t, straightLineCell(drawn).with(control("crank", -180, 180)).text())
	near(t, 120-drawn, s.High, 1e-6, "it locks")
	assert.Equal(t, solve.ByToggle, s.Ends[1].Cause)
	near(t, 0-drawn, s.Low, 0.1, "the short bars in line") // the rod angle goes as the square of the turn there
	assert.Equal(t, solve.ByChangePoint, s.Ends[0].Cause)
	assert.Equal(t, "short", s.Ends[0].Part.Name)
}

// TestOutsideNearStraightLine: two equal arms 1 and a coupler 0.5 square to them; the
// middle of the coupler leaves the straight line with the fifth power of the
// turn (E. S. Ferguson, Kinematics of Mechanisms from the Time of Watt,
// Smithsonian 1962; read). The figures are recomputed.
func TestOutsideNearStraightLine(t *testing.T) {
	run, s := sweepOf(t, drawing{
		bodies: []body{
			hinge("left", at(0, 0), spot{"end", at(1, 0)}),
			hinge("right", at(2, -0.5), spot{"end", at(1, -0.5)}),
		},
		bars: []bar{{name: "coupler", from: "left.end", to: "right.end", points: []spot{{"middle", at(1, -0.25)}}}},
		rest: []string{control("left", -25, 25)},
	}.text())
	middle := pointNamed(t, run, "coupler.middle")
	for _, c := range []struct{ turn, want float64 }{
		{5, 2.5381071288244e-6}, {-5, -2.529660735774e-6},
		{10, 8.25868033557e-5}, {-10, -8.0389884052072e-5},
		{20, 3.0515011314114e-3}, {-20, -2.4177375639944e-3},
	} {
		nearf(t, c.want, solveAt(t, s, c.turn).Point(middle).X-1, 1e-14, "at %v", c.turn)
	}
	// The fifth power: twice the turn, 32 times the deviation.
	small, twice := solveAt(t, s, 2.5).Point(middle).X-1, solveAt(t, s, 5).Point(middle).X-1
	near(t, 32, twice/small, 0.2, "order of contact")
}

// TestOutsideForceShare: the sine of mu is the share of the rod's force that
// turns the arm: 30 -> 0.500, 40 -> 0.643, 45 -> 0.707 (arithmetic). By virtual
// work it is the ratio, turned over, of two equal arms of which the driving
// one stands square to the rod.
func TestOutsideForceShare(t *testing.T) {
	for mu, share := range map[float64]float64{30: 0.500, 40: 0.643, 45: 0.707, 90: 1} {
		end := at(300, 0).Add(polar(50, 180-mu)) // the arm at mu to a rod along x
		_, s := sweepOf(t, drawing{
			bodies: []body{
				hinge("lever", at(100, end.Y-50), spot{"pin", at(100, end.Y)}),
				hinge("arm", at(300, 0), spot{"pin", end}),
			},
			bars: []bar{{name: "link", from: "lever.pin", to: "arm.pin"}},
			rest: []string{"output \"arm-turn\" {\n  of = arm\n}\n", control("lever", -1e-4, 1e-4)},
		}.text())
		near(t, mu, rodOf(t, s, "link").Angle.Least, 1e-3, "mu")
		nearf(t, share, 1/math.Abs(*outputOf(t, s, "arm-turn").Ratio.Neutral), 0.0005, "printed share at %v", mu)
		nearf(t, math.Sin(rad(mu)), 1/math.Abs(*outputOf(t, s, "arm-turn").Ratio.Neutral), 1e-12, "share at %v", mu)
	}
}
