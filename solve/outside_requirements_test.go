package solve_test

import (
	"fmt"
	"fullfree/linkage"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// The requirement kinds on the ladder of outside_slider_test.go: foot x from
// 3, top y from 4, x^2 + y^2 = 25, so that every figure can be done by hand.
// Between the stops of footStops x runs from 2 to 4 and y from sqrt 21 to 3.
const footStops = stopIn + stopOut

const (
	stopIn  = "stop \"in\" {\n  of = foot\n  at = -1\n}\n"
	stopOut = "stop \"out\" {\n  of = foot\n  at = 1\n}\n"
	// topStop bites where the top is at 2.5, the foot at sqrt 18.75.
	topStop = "stop \"top-down\" {\n  of = top\n  at = -1.5\n}\n"
)

// raised returns the ladder between its stops with the top's eye so much
// higher than the foot's.
func raised(dz float64) drawing {
	d := ladder(-4, 4).with(footStops)
	d.bodies[1].points = []spot{{"eye", at3(0, 4, dz)}}
	return d
}

// withTube returns the ladder between its stops with a boss of radius 1/2 on
// the foot, a stay 1/2 thick, and a tube of radius 1 on the airframe.
func withTube(center vec) drawing {
	d := ladder(-4, 4).with(footStops)
	d.bodies[0].metal = []metal{{"boss", []vec{at(3, 0)}, 0.5}}
	d.bodies = append(d.bodies, body{name: "airframe", fixed: true, metal: []metal{{"tube", []vec{center}, 1}}})
	d.bars[0].diameter = 0.5
	return d
}

// judge adds one requirement to a drawing and returns how it comes out.
func judge(t *testing.T, d drawing, kind, attributes string) solve.Judgement {
	t.Helper()
	result := check(t, d.with(demand(kind, attributes)).text())
	require.Len(t, result.Requirements, 1)
	assert.Equal(t, result.Verdict, result.Requirements[0].Verdict, "of one requirement")
	assert.NotContains(t, result.NotChecked, kind)
	return result.Requirements[0]
}

// never is a limit that no case tries; everywhere says that worst belongs to
// no place.
var (
	never      = math.NaN()
	everywhere = math.Inf(1)
)

func TestRequirementsOnTheLadder(t *testing.T) {
	root21, root2, root1875 := math.Sqrt(21), math.Sqrt2, math.Sqrt(18.75)
	stopped := ladder(-4, 4).with(footStops)
	for _, c := range []struct {
		name        string
		d           drawing
		kind        string
		attributes  string // %s is the limit
		worst, at   float64
		unit        linkage.Unit
		met, failed float64 // a limit that holds and one that doesn't
	}{
		{"at an end", stopped,
			"opposite", "of = [foot, top]\n  within = %s", 5 - root21, -1, "mm", 0.42, 0.41},
		{"between the ends, where x = y", ladder(0, 1),
			"opposite", "of = [top, foot]\n  within = %s", 5*root2 - 7, 5/root2 - 3, "mm", 0.072, 0.07},
		{"at an end", stopped,
			"together", "of = [foot, top]\n  within = %s", 2, 1, "mm", 2.001, 1.999},
		{"a part", stopped,
			"steady", "of = top\n  within = %s", 1, 1, "mm", 1.001, 0.999},
		{"a gauge", ladder(-1, 0.5).with("output \"gauge\" {\n  of = top.eye\n  along = [0, 2]\n  reads = 100\n}\n"),
			"steady", "of = gauge\n  within = %s", root21 - 4, -1, "mm", 0.583, 0.582},
		{"beyond a figure", stopped,
			"travel", "of = top\n  low = -1\n  high = 0.5\n  within = %s", root21 - 4.5, -1, "mm", 0.083, 0.082},
		{"short of a figure", stopped,
			"travel", "of = top\n  low = -1.5\n  high = 0.5\n  within = %s", 0.5, 1, "mm", 0.51, 0.49},
		{"a gauge", stopped.with("output \"gauge\" {\n  of = top\n  reads = 10\n}\n"),
			"travel", "of = gauge\n  low = 9\n  high = 10.5\n  within = %s", root21 - 4.5, -1, "mm", 0.083, 0.082},
		{"the toggle nearer", stopped,
			"over-center", "least = %s", 1, 2, "mm", 0.99, 1.01},
		{"the dead center nearer", ladder(-4, 4).with("stop \"far-in\" {\n  of = foot\n  at = -2.75\n}\n", stopOut),
			"over-center", "least = %s", 0.25, -3, "mm", 0.24, 0.26},
		{"inside the travel", ladder(-4, 4).with(stopOut),
			"over-center", "least = %s", -1, -3, "mm", never, 0.01},
		{"it is the end", ladder(-2, 4),
			"over-center", "least = %s", 0, 2, "mm", never, 0.01},
		{"at the guide", stopped,
			"rod-angle", "least = %s", deg(math.Asin(0.6)), 1, "deg", 36.8, 36.9},
		{"at an end", withTube(at(6, 0)),
			"clearance", "between = [foot.boss, airframe.tube]\n  least = %s", 0.5, 1, "mm", 0.49, 0.51},
		{"between the ends", withTube(at(3.25, 2)),
			"clearance", "between = [airframe.tube, foot.boss]\n  least = %s", 0.5, 0.25, "mm", 0.49, 0.51},
		{"the rod, x y / 5 from the corner", withTube(at(0, 0)),
			"clearance", "between = [stay, airframe.tube]\n  least = %s", 2*root21/5 - 1.25, -1, "mm", 0.58, 0.59},
		{"all one", raised(1),
			"misalignment", "most = %s", deg(math.Atan(1.0 / 5)), everywhere, "deg", 11.4, 11.3},
		{"the right way round", stopped.with(topStop),
			"order", "first = out\n  then = top-down\n  least = %s", root1875 - 4, never, "mm", 0.33, 0.34},
		{"the wrong way round", stopped.with(topStop),
			"order", "first = top-down\n  then = out\n  least = %s", 4 - root1875, never, "mm", never, 0.01},
	} {
		for _, limit := range []float64{c.met, c.failed} {
			if math.IsNaN(limit) {
				continue
			}
			about := fmt.Sprintf("%s, %s, limit %v", c.kind, c.name, limit)
			want := solve.Holds
			if limit == c.failed {
				want = solve.FallsShort
			}
			j := judge(t, c.d, c.kind, fmt.Sprintf(c.attributes, num(limit)))
			assert.Equal(t, want, j.Verdict, about)
			nearAt(t, c.worst, j.Worst, 1e-8, about)
			assert.Equal(t, limit, j.Limit, about)
			assert.EqualValues(t, c.unit, j.Unit, about)
			assert.False(t, j.NoneFound, about)
			switch {
			case math.IsInf(c.at, 1):
				assert.Nil(t, j.At, about)
			case !math.IsNaN(c.at): // of an order, two places could be meant
				nearAt(t, c.at, j.At, 1e-6, about)
			}
		}
	}
}

func TestRequirementSense(t *testing.T) {
	root21 := math.Sqrt(21)
	for _, c := range []struct {
		name      string
		d         drawing
		of, turns string
		want      solve.Verdict
		worst, at float64
	}{
		{"the ratio is -x/y", ladder(-4, 4).with(footStops), "hand, top", "opposite", solve.Holds, 2 / root21, -1},
		{"of two parts", ladder(-4, 4).with(footStops), "foot, top", "opposite", solve.Holds, 2 / root21, -1},
		{"an output", ladder(-4, 4).with(footStops), "foot, top-out", "opposite", solve.Holds, 2 / root21, -1},
		{"turned over", ladder(-4, 4).with(footStops), "top, foot", "opposite", solve.Holds, 0.75, 1},
		{"wrong", ladder(-4, 4).with(footStops), "hand, top", "same", solve.FallsShort, -4.0 / 3, 1},
		{"it reverses at -3", ladder(-3.5, 1), "hand, top", "opposite", solve.FallsShort, -0.5 / math.Sqrt(24.75), -3.5},
	} {
		j := judge(t, c.d, "sense", fmt.Sprintf("of = [%s]\n  turns = %q", c.of, c.turns))
		assert.Equal(t, c.want, j.Verdict, c.name)
		nearAt(t, c.worst, j.Worst, 1e-8, c.name)
		nearAt(t, c.at, j.At, 1e-6, c.name)
		assert.Zero(t, j.Limit, c.name)
		assert.EqualValues(t, "mm/mm", j.Unit, c.name)
	}

	// It halts at the very end: no sense there.
	j := judge(t, ladder(-3, 1), "sense", "of = [hand, top]\n  turns = \"opposite\"")
	assert.NotEqual(t, solve.Holds, j.Verdict, "it halts at -3")
	nearAt(t, 0, j.Worst, 1e-9, "it halts at -3")
}

func TestRequirementStops(t *testing.T) {
	for _, c := range []struct {
		name string
		d    drawing
		want float64
	}{
		{"both", ladder(-4, 4).with(footStops), 0},
		{"the toggle is no stop", ladder(-4, 4).with(stopIn), 1},
		{"nor is the end of looking", ladder(-2, 1.5).with(stopOut), 1},
		{"neither", ladder(-2, 4), 2},
	} {
		j := judge(t, c.d, "stops", "")
		nearAt(t, c.want, j.Worst, 0, c.name)
		assert.Zero(t, j.Limit, c.name)
		want := solve.FallsShort
		if c.want == 0 {
			want = solve.Holds
		}
		assert.Equal(t, want, j.Verdict, c.name)
	}
}

// TestRequirementMisalignment: the tilt is atan(1/5) throughout.
func TestRequirementMisalignment(t *testing.T) {
	tilt := deg(math.Atan(1.0 / 5))
	for _, c := range []struct {
		own  float64
		want solve.Verdict
	}{{12, solve.Holds}, {10, solve.FallsShort}} {
		d := raised(1)
		text := d.with("require \"misalignment\" {\n}\n").text()
		text = replaceOnce(t, text, "rod \"stay\" {\n", "rod \"stay\" {\n  misalignment = "+num(c.own)+"\n")
		result := check(t, text)
		j := result.Requirements[0]
		assert.Equal(t, c.want, j.Verdict, "own limit %v", c.own)
		nearAtf(t, tilt-c.own, j.Worst, 1e-9, "excess over %v", c.own)
		assert.Zero(t, j.Limit)
		near(t, tilt, result.Sweeps[0].Rods[0].TiltFrom, 1e-9, "from")
		near(t, tilt, result.Sweeps[0].Rods[0].TiltTo, 1e-9, "to")
	}
}

// TestMisalignmentDefinition: the angle by which the rod stands out of square
// to the bolt. With the bolt along y at the top and along x at the foot it is
// asin(y/5) and asin(x/5) (elementary), and it changes as the ladder slides.
func TestMisalignmentDefinition(t *testing.T) {
	text := ladder(-4, 4).with(footStops).text()
	text = replaceOnce(t, text, "  slide = [1, 0]\n", "  slide = [1, 0]\n  bolts = { eye = [-3, 0] }\n")
	text = replaceOnce(t, text, "  slide = [0, 1]\n", "  slide = [0, 1]\n  bolts = { eye = [0, 1, 0] }\n")
	_, s := sweepOf(t, text)
	near(t, deg(math.Asin(4.0/5)), s.Rods[0].TiltFrom, 1e-9, "foot at 4")
	near(t, deg(math.Asin(math.Sqrt(21)/5)), s.Rods[0].TiltTo, 1e-9, "foot at 2")
}
