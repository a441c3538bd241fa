package solve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// Runs whose blocks fold close to where they are drawn, so that another
// assembly lies near all the time: what is followed must stay on its own.

// line is a straight line through two places.
type line struct{ a, b vec }

// offCenter returns how far the place where two lines meet lies from a third.
// A part on three rods locks where the rods' lines meet in one place; a coupler
// of a four-bar held by one more rod, where that rod's line goes through the
// meeting of its arms': the part turns about that place for a moment, and a rod in
// line with it can't hold it from that (elementary).
func offCenter(l1, l2, l3 line) float64 {
	u, v := l1.b.Sub(l1.a), l2.b.Sub(l2.a)
	k := l2.a.Sub(l1.a).Cross(v).Z / u.Cross(v).Z
	w := l3.b.Sub(l3.a).Unit()
	return math.Abs(l1.a.Add(u.Scale(k)).Sub(l3.a).Cross(w).Z)
}

// assertContinuous says that no part or output jumps anywhere in the travel:
// in steps of a quarter, the longest move is a quarter, and half just short of
// a toggle, where all goes as the root of what is left. A jump stays what it is.
func assertContinuous(t *testing.T, s *solve.Sweep, steps int, about string) {
	t.Helper()
	const falls = 0.75 // well between a half and one
	columns, rows := tableOf(t, s, steps)
	_, finer := tableOf(t, s, 4*steps)
	require.Len(t, rows, steps+1, about)
	require.Len(t, finer, 4*steps+1, about)
	for j, c := range columns {
		coarse, fine := longestMove(rows, j), longestMove(finer, j)
		assert.LessOrEqual(t, fine, falls*coarse+1e-9, "%s: %s jumps", about, c.Name)
	}
}

func longestMove(rows [][]float64, column int) (longest float64) {
	for i := range len(rows) - 1 {
		longest = math.Max(longest, math.Abs(rows[i+1][column]-rows[i][column]))
	}
	return longest
}

// greatest follows a function of a turn from 0 on, to either side, to its first
// maximum and returns its value there, by the parabola through the three places
// about it. The function is told the turns one after another, as it follows where
// things stand.
func greatest(t *testing.T, of func(turns []float64) []float64) float64 {
	t.Helper()
	const step, steps = 0.005, 2000 // degrees; 10 of them
	for _, step := range []float64{step, -step} {
		turns := make([]float64, steps)
		for i := range turns {
			turns[i] = float64(i) * step
		}
		v := of(turns)
		for i := 1; i+1 < len(v); i++ {
			before, after := v[i]-v[i-1], v[i]-v[i+1]
			if before >= 0 && after > 0 {
				return v[i] + (before-after)*(before-after)/(8*(before+after))
			}
		}
	}
	t.Fatal("it turns back nowhere")
	return 0
}

// closeToggle is a beam on three rods, drawn a sixtieth of a degree short of
// where it locks.
var closeToggle = drawing{
	bodies: []body{
		hinge("crank", at(0, 0), spot{"p", at(11.386899, 34.210211)}),
		{name: "beam", points: []spot{{"a", at(48.312018, 50.382273)}, {"b", at(86.432317, 37.27339)}, {"c", at(77.27157, 64.033074)}}},
		{name: "air", fixed: true, points: []spot{{"g", at(105, -20)}, {"h", at(120, 90)}}},
	},
	bars: []bar{{name: "l1", from: "crank.p", to: "beam.a"}, {name: "l2", from: "air.g", to: "beam.b"}, {name: "l3", from: "air.h", to: "beam.c"}},
}

// crankOfCloseToggle returns the crank's turns for turns of the rod l2 about its end
// on the airframe: from there on the beam and the crank are crossings of circles.
func crankOfCloseToggle(turns []float64) (cranks []float64) {
	crank, beam, air := closeToggle.bodies[0], closeToggle.bodies[1], closeToggle.bodies[2]
	a, b, c := beam.points[0].at, beam.points[1].at, beam.points[2].at
	g, h := air.points[0].at, air.points[1].at
	pin, pivot, z := crank.points[0].at, *crank.pivot, at3(0, 0, 1)
	lastC, lastPin := c, pin
	for _, turn := range turns {
		nowB := g.Add(rotate(b.Sub(g), z, turn))
		lastC = meet(nowB, distance(b, c), h, distance(h, c), lastC)
		nowA := nowB.Add(rotate(a.Sub(b), z, heading(nowB, lastC)-heading(b, c)))
		lastPin = meet(pivot, distance(pivot, pin), nowA, distance(pin, a), lastPin)
		cranks = append(cranks, turnTo(heading(pivot, lastPin)-heading(pivot, pin), 0))
	}
	return cranks
}

// TestToggleCloseToWhereItIsDrawn: the run locks at the same places whichever
// of its positions it is drawn in: the near one where the crank's turn, followed the
// other way round by crossings of circles, is greatest.
func TestToggleCloseToWhereItIsDrawn(t *testing.T) {
	// The low end is the tool's own figure, so that it stays: no outside check. That
	// it locks there is checked below, where the rods' lines meet.
	want := [2]float64{-67.98026529586, greatest(t, crankOfCloseToggle)}
	run, s := sweepOf(t, closeToggle.with(control("crank", -90, 60)).text())
	for i, end := range s.Ends {
		require.Equal(t, solve.ByToggle, end.Cause, "end %d", i)
		assert.Equal(t, "beam", end.Part.Name)
		near(t, want[i], end.At, 1e-9, "the toggle")
		st := solveAt(t, s, end.At)
		point := func(name string) vec { return st.Point(pointNamed(t, run, name)) }
		rod := func(from, to string) line { return line{point(from), point(to)} }
		near(t, 0, offCenter(rod("crank.p", "beam.a"), rod("air.g", "beam.b"), rod("air.h", "beam.c")), 1e-4, "the rods' lines meet in one place")
	}
	assertContinuous(t, s, 1000, "close to a toggle")

	for _, drawn := range []float64{-1, -5, -30} {
		st := solveAt(t, s, drawn)
		d := closeToggle.moved(motion{}) // a copy
		for i := range d.bodies {
			for j := range d.bodies[i].points {
				p := &d.bodies[i].points[j]
				p.at = st.Point(pointNamed(t, run, d.bodies[i].name+"."+p.name))
			}
		}
		_, other := sweepOf(t, d.with(control("crank", -90, 60)).text())
		for i, end := range other.Ends {
			require.Equal(t, solve.ByToggle, end.Cause, "drawn at %v", drawn)
			nearf(t, want[i], drawn+end.At, 1e-8, "drawn at %v", drawn)
		}
	}
}

// closeCoupler is a four-bar driven at a point of its coupler by a slide, drawn
// some millionths of a millimeter short of where that folds.
var closeCoupler = drawing{
	bodies: []body{
		{name: "p1", slide: ref(at(0.3, -0.737)), points: []spot{{"b", at(-141.655, 42.17)}}},
		hinge("p2", at(-114, 105.997), spot{"a", at(-78.9, 75.7)}),
		hinge("p2w", at(22.499, -135.166), spot{"a", at(23.5, -135.72)}),
	},
	bars: []bar{
		{name: "r1", from: "p2.a", to: "p2w.a", points: []spot{{"m", at(-37.1, -31.952)}}},
		{name: "r2", from: "p1.b", to: "r1.m"},
	},
}

// TestFoldsAtBothEnds: nothing but the two folds and one reversal lies between
// them, and the small crank goes round half a turn smoothly.
func TestFoldsAtBothEnds(t *testing.T) {
	run, s := sweepOf(t, closeCoupler.with(control("p1", -100, 100)).text())
	near(t, -1.39571074, s.Low, 5e-9, "the tool's own figure, so that it stays: no outside check; that it folds there is checked below")
	near(t, 0, s.High, 1e-5, "drawn almost there")
	near(t, 174.97, partOf(t, s, "p2w").AtLow, 0.01, "half a turn, almost")
	for i, end := range s.Ends {
		require.Equal(t, solve.ByToggle, end.Cause, "end %d", i)
		st := solveAt(t, s, end.At)
		point := func(name string) vec { return st.Point(pointNamed(t, run, name)) }
		arms := [2]line{{at(-114, 105.997), point("p2.a")}, {at(22.499, -135.166), point("p2w.a")}}
		near(t, 0, offCenter(arms[0], arms[1], line{point("p1.b"), point("r1.m")}), 1e-3, "the coupler's instant center is on the rod's line")
	}
	var kinds []solve.CriticalKind
	for _, c := range s.Critical {
		kinds = append(kinds, c.Kind)
	}
	require.Equal(t, []solve.CriticalKind{solve.Toggle, solve.DeadCenter, solve.Toggle}, kinds)
	dead := s.Critical[1]
	assert.Equal(t, "p2", dead.Part.Name)
	near(t, partOf(t, s, "p2").Most, solveAt(t, s, dead.At).Travel(dead.Part), 1e-9, "it reverses where it is farthest")
	assertContinuous(t, s, 1000, "half a turn")
}

// hung is a parallelogram that is out by little, driven at its coupler: just
// beside flat, its two assemblies come as close to one another as that.
func hung(out float64) drawing {
	return drawing{
		bodies: []body{
			hinge("crank", at(-60, 60), spot{"p", at(-60, 100)}),
			hinge("u", at(0, 0), spot{"a", at(0, 40)}),
			hinge("v", at(100, 0), spot{"b", at(100, 40+out)}),
		},
		bars: []bar{
			{name: "r1", from: "u.a", to: "v.b", points: []spot{{"m", at(50, 40)}}},
			{name: "r2", from: "crank.p", to: "r1.m"},
		},
	}
}

// TestPassesBesideTheOtherAssembly: where the arms swing farthest the run goes
// on, smoothly, and does not lock.
func TestPassesBesideTheOtherAssembly(t *testing.T) {
	for _, out := range []float64{1e-4, 1e-6} {
		about := "out by " + num(out)
		run, s := sweepOf(t, hung(out).with(control("crank", -170, 170)).text())
		assert.Equal(t, solve.ByLimit, s.Ends[1].Cause, about)
		assert.Equal(t, 170.0, s.High, about)
		assert.Equal(t, 170.0, s.Explored[1], about)
		// Out by nothing, a parallelogram, the coupler's point goes on a circle of
		// 40 about (50, 0): a four-bar 40, 110, 40 on the ground from (-60, 60) to it.
		ground, pin, circle := at(50, 0).Sub(at(-60, 60)), at(-60, 60), at(50, 0)
		bar := fourBar{ground: ground.Norm(), crank: 40, coupler: distance(at(-60, 100), at(50, 40)), rocker: 40}
		lean := heading(pin, circle)
		_, start := bar.angles(90 - lean)
		for _, x := range []float64{-80, -30, 30, 60, 61.38, 61.4, 65, 90, 120, 169} {
			_, now := bar.angles(90 + x - lean)
			st := solveAt(t, s, x)
			for _, name := range []string{"u", "v"} {
				// About where they lie flat their two ways differ by the root of what it is out by.
				nearf(t, turnTo(now-start, 0), st.Travel(partNamed(t, run, name)), 3*deg(math.Sqrt(out/40)), "%s: %s at %v", about, name, x)
			}
		}
		assertContinuous(t, s, 1000, about)
	}
}

// manyRows are runs whose tables once left rows out or jumped between them.
var manyRows = map[string]string{
	"slides and a coupler": drawing{
		bodies: []body{
			{name: "p0", slide: ref(at(0.43, 1.57)), points: []spot{{"c", at(-10.2, 147.7)}}},
			{name: "p1", slide: ref(at(0.3, -0.737)), points: []spot{{"a", at(-157.397, 122)}, {"b", at(-141.655, 42.17)}}},
			hinge("p2", at(-114, 105.997), spot{"a", at(-78.9, 75.7)}),
			hinge("p2w", at(22.499, -135.166), spot{"a", at(23.5, -135.72)}),
		},
		bars: []bar{
			{name: "r0", from: "p0.c", to: "p1.a"},
			{name: "r1", from: "p2.a", to: "p2w.a", points: []spot{{"m", at(-37.1, -31.952)}}},
			{name: "r2", from: "p1.b", to: "r1.m"},
		},
	}.with(control("p0", -100, 10)).text(),
	"two beams": drawing{
		bodies: []body{
			{name: "air", fixed: true, points: []spot{{"f0", at(-6.7, -107.4)}, {"f1", at(69.343, 24)}}},
			hinge("p0", at(-92.167, 39.482), spot{"a", at(-44.7, 18)}),
			{name: "p1", points: []spot{{"a", at(-32.414, 132.9)}, {"b", at(-14.289, 91.608)}, {"c", at(-11.4, 131)}}},
			{name: "p2", slide: ref(at(-0.22, -0.877)), points: []spot{{"a", at(-147.002, 135.638)}, {"b", at(-150.627, 72.419)}}},
			{name: "p3", points: []spot{{"a", at(-86.8, -111)}, {"b", at(-43, -117)}, {"c", at(-104.4, -88.851)}}},
		},
		bars: []bar{
			{name: "r0", from: "p0.a", to: "p1.a"}, {name: "r1", from: "p0.a", to: "p1.b"},
			{name: "r2", from: "p1.c", to: "air.f0", length: 241.0986}, {name: "r3", from: "p1.b", to: "p2.a"},
			{name: "r4", from: "p2.a", to: "p3.a"}, {name: "r5", from: "air.f1", to: "p3.b"}, {name: "r6", from: "p3.c", to: "p2.b"},
		},
	}.with("control \"hand\" {\n  of = p0\n}\n").text(),
}

// TestTablesHaveEveryRow: as many as asked for, the same however many are
// asked for, and without a jump.
func TestTablesHaveEveryRow(t *testing.T) {
	for name, text := range manyRows {
		_, s := sweepOf(t, text)
		_, all := tableOf(t, s, 480)
		require.Len(t, all, 481, name)
		for _, steps := range []int{24, 40, 160} {
			columns, rows := tableOf(t, s, steps)
			require.Len(t, rows, steps+1, name)
			for i, row := range rows {
				for j, v := range row {
					nearf(t, all[i*480/steps][j], v, 1e-7, "%s: row %d of %d: %s", name, i, steps, columns[j].Name)
				}
			}
		}
		assertContinuous(t, s, 1000, name)
	}
}

// TestAHundredTurns: a drag link's driven crank goes round as often as the driver,
// to the last digits after a hundred turns.
func TestAHundredTurns(t *testing.T) {
	_, s := sweepOf(t, drawing{
		bodies: []body{hinge("crank", at(0, 0), spot{"p", at(0, 100)}), hinge("driven", at(10, 0), spot{"q", at(100, 20)})},
		bars:   []bar{{name: "link", from: "crank.p", to: "driven.q"}},
	}.with(control("crank", -36000, 36000)).text())
	_, rows := tableOf(t, s, 200)
	require.Len(t, rows, 201)
	for _, row := range rows {
		require.Zero(t, math.Mod(row[0], 360), "whole turns")
		nearf(t, row[0], row[1], 1e-5, "at %v", row[0])
	}
}
