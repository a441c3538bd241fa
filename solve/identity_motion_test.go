package solve_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ofEverything is a plane run with something of everything that a plane run moved as a
// whole may have: rods between heights, a bellcrank, a guide, a carried arm,
// metal that meets, every kind of requirement. Turns are multiplied by sense,
// lengths by k, directions turned by way.
func ofEverything(sense, k float64, way func(vec) vec) drawing {
	along := func(x, y float64) string {
		if way == nil {
			return write(at(x, y))
		}
		return write(way(at(x, y)))
	}
	from, to := -30*sense, 35*sense
	if sense < 0 {
		from, to = to, from
	}
	d := drawing{
		bodies: []body{
			{name: "lever", pivot: ref(at(0, 0)), points: []spot{{"pin", at(10, 80)}, {"low", at3(-5, -40, 6)}},
				metal: []metal{{"boss", []vec{at(-20, 30)}, 4}}},
			{name: "bell", pivot: ref(at(150, 20)), points: []spot{{"in", at(140, 95)}, {"out", at3(205, 40, 8)}, {"ear", at(170, -40)}},
				metal: []metal{{"heel", []vec{at(150, 20), at(130, -10), at(120, -30)}, 6}}},
			{name: "plunger", slide: ref(at(1, 0.1)), points: []spot{{"eye", at3(300, 60, 3)}}},
			{name: "arm", on: "bell.ear", points: []spot{{"tip", at(235, -60)}}},
			{name: "aft", pivot: ref(at3(-150, -20, 6)), points: []spot{{"pin", at3(-145, -70, 12)}}},
			{name: "airframe", fixed: true, points: []spot{{"lug", at3(240, 20, 2)}},
				metal: []metal{{"tube", []vec{at(98, -17)}, 9}, {"post", []vec{at(-60, 30), at(-60, 60)}, 8}}},
		},
		bars: []bar{
			{name: "link", from: "lever.pin", to: "bell.in"},
			{name: "push", from: "bell.out", to: "plunger.eye"},
			{name: "tie", from: "airframe.lug", to: "arm.tip"},
			{name: "low-link", from: "lever.low", to: "aft.pin"},
		},
		rest: []string{
			control("lever", from, to),
			"output \"bell-turn\" {\n  of = bell\n}\n",
			"output \"push-out\" {\n  of = plunger\n}\n",
			fmt.Sprintf("output \"tip\" {\n  of = arm.tip\n  along = %s\n}\n", along(0.8, 0.6)),
			fmt.Sprintf("stop \"back\" {\n  of = lever\n  at = %s\n}\n", num(-22*sense)),
			fmt.Sprintf("stop \"aft-stop\" {\n  of = aft\n  at = %s\n}\n", num(24*sense)),
			fmt.Sprintf("stop \"plunger-stop\" {\n  of = plunger\n  at = %s\n}\n", num(-9*k)),
			"stop \"heel-stop\" {\n  touch = [bell.heel, airframe.tube]\n}\n",
			demand("opposite", "of = [lever, aft]\n  within = 30"),
			demand("together", "of = [lever, bell]\n  within = 3"),
			demand("steady", "of = arm\n  within = 12"),
			demand("sense", "of = [hand, bell]\n  turns = \"same\""),
			demand("travel", fmt.Sprintf("of = push-out\n  low = %s\n  high = %s\n  within = %s", num(-8*k), num(8*k), num(k))),
			demand("over-center", "least = 30"),
			demand("rod-angle", "least = 40"),
			demand("clearance", fmt.Sprintf("between = [lever.boss, airframe.post]\n  least = %s", num(5*k))),
			demand("misalignment", "most = 6"),
			demand("stops", ""),
			demand("order", "first = heel-stop\n  then = back\n  least = 1"),
		},
	}
	if k != 1 {
		d = scaled(d, k)
	}
	return d
}

// scaled returns the drawing with all lengths multiplied.
func scaled(d drawing, k float64) drawing {
	d = d.moved(motion{place: func(v vec) vec { return v.Scale(k) }})
	for i := range d.bodies {
		for j := range d.bodies[i].metal {
			d.bodies[i].metal[j].width *= k
		}
	}
	return d
}

// flipTolerance is what another place, another direction or another unit may
// change in figures of up to some hundreds, relative: the drawing's rounding,
// 1e-16 of some thousands (it lies off the origin), times ratios of up to ten.
const flipTolerance = 1e-10

// TestRigIsWorthIt: metal meets on one side, a number limits on the other.
func TestRigIsWorthIt(t *testing.T) {
	s := check(t, ofEverything(1, 1, nil).text()).Sweeps[0]
	for i, by := range []string{"heel-stop", "plunger-stop"} {
		require.NotNil(t, s.Ends[i].Stop)
		assert.Equal(t, by, s.Ends[i].Stop.Name)
		assert.NotNil(t, s.Ends[i].Wear)
	}
	require.Len(t, s.Stops, 4)
	for _, b := range s.Stops {
		assert.NotNil(t, b.At, b.Stop.Name)
	}
}

func TestMovedInThePlane(t *testing.T) {
	want := check(t, ofEverything(1, 1, nil).text())
	z := at3(0, 0, 1)
	for _, degrees := range []float64{0, 90, 37, -151.3} {
		turn := func(v vec) vec { return rotate(v, z, degrees) }
		d := ofEverything(1, 1, turn).moved(motion{
			place: func(v vec) vec { return turn(v).Add(at3(-410, 935, 0)) },
			slide: turn,
		})
		requireSame(t, want, check(t, d.text()), asItIs, flipTolerance, fmt.Sprintf("turned by %v and moved", degrees))
	}
}

// TestMirrored mirrors the drawing left to right. With the axes left as they
// are all turns change sign; with the axes turned over nothing changes.
func TestMirrored(t *testing.T) {
	want := check(t, ofEverything(1, 1, nil).text())
	mirror := func(v vec) vec { return vec{X: -v.X, Y: v.Y, Z: v.Z} }
	d := ofEverything(-1, 1, mirror).moved(motion{place: mirror, slide: mirror})
	requireSame(t, want, check(t, d.text()), seen{mirrored: true, length: 1}, flipTolerance, "mirrored")

	over := func(v vec) vec { return mirror(v).Scale(-1) }
	d = ofEverything(1, 1, mirror).moved(motion{place: mirror, slide: mirror, axis: over})
	requireSame(t, want, check(t, d.text()), asItIs, flipTolerance, "mirrored, axes too")
}

// tip returns a turn about a skew axis through nowhere in particular.
func tip(rng *rand.Rand) motion {
	axis, degrees, by := anyway(rng), 360*rng.Float64(), anyway(rng).Scale(500)
	turn := func(v vec) vec { return rotate(v, axis, degrees) }
	return motion{place: func(v vec) vec { return turn(v).Add(by) }, slide: turn, axis: turn}
}

// TestTipped tips the plane run into other planes, where it is a run in space.
func TestTipped(t *testing.T) {
	want := check(t, ofEverything(1, 1, nil).text())
	require.True(t, want.Run.Plane)
	upright := func(v vec) vec { return vec{X: v.X, Y: -v.Z, Z: v.Y} }
	motions := []motion{{place: upright, slide: upright, axis: upright}}
	for seed := range uint64(3) {
		motions = append(motions, tip(rand.New(rand.NewPCG(seed, 5))))
	}
	for i, m := range motions {
		got := check(t, ofEverything(1, 1, m.slide).moved(m).text())
		require.False(t, got.Run.Plane)
		requireSame(t, want, got, asItIs, flipTolerance, fmt.Sprintf("tipped, %d", i))
	}
}

// TestMovedInSpace moves and mirrors runs in space.
func TestMovedInSpace(t *testing.T) {
	for kind, c := range manyLoops {
		if !strings.HasPrefix(c.name, "in space") {
			continue
		}
		for seed := range uint64(3) {
			about := fmt.Sprintf("%s, seed %d", c.name, seed)
			rng := rand.New(rand.NewPCG(seed, uint64(200+kind)))
			d := c.draw(rng)
			for m := newModel(d, "lever"); m.stiffness(0, make([]float64, m.n)) < 3*stiffEnough; m = newModel(d, "lever") {
				d = c.draw(rng)
			}
			d = d.with(control("lever", -40, 40), demand("over-center", "least = 20"), demand("rod-angle", "least = 20"), demand("misalignment", "most = 50"))
			want := check(t, d.text())
			requireSame(t, want, check(t, d.moved(tip(rng)).text()), asItIs, spaceTolerance, about+", moved")

			mirror := func(v vec) vec { return vec{X: v.X, Y: v.Y, Z: 70 - v.Z} }
			direction := func(v vec) vec { return vec{X: v.X, Y: v.Y, Z: -v.Z} }
			over := func(v vec) vec { return direction(v).Scale(-1) }
			d = d.moved(motion{place: mirror, slide: direction, axis: over})
			requireSame(t, want, check(t, d.text()), asItIs, spaceTolerance, about+", mirrored")
		}
	}
}

// spaceTolerance is flipTolerance for runs that may end on a toggle, where a
// figure moves with the root of the drawing's rounding.
const spaceTolerance = 1e-6

// TestOtherUnit: millimeters and inches agree.
func TestOtherUnit(t *testing.T) {
	want := check(t, ofEverything(1, 1, nil).text())
	inches := ofEverything(1, 1/25.4, nil)
	inches.units = "in"
	requireSame(t, want, check(t, inches.text()), seen{length: 25.4}, flipTolerance, "inches")
}

// TestOrderOfBlocks: the order of the file's blocks changes no figure.
func TestOrderOfBlocks(t *testing.T) {
	const header = "run \"test\" {\n  units = \"mm\"\n}\n"
	drawings := []drawing{ofEverything(1, 1, nil)}
	for kind, c := range manyLoops {
		rng := rand.New(rand.NewPCG(3, uint64(300+kind)))
		d := c.draw(rng)
		for m := newModel(d, "lever"); m.stiffness(0, make([]float64, m.n)) < 3*stiffEnough; m = newModel(d, "lever") {
			d = c.draw(rng)
		}
		drawings = append(drawings, d.with(control("lever", -10, 10), demand("rod-angle", "least = 20")))
	}
	for i, d := range drawings {
		want := check(t, d.text())
		for seed := range uint64(4) {
			blocks := d.blocks()
			rand.New(rand.NewPCG(seed, 6)).Shuffle(len(blocks), func(i, j int) { blocks[i], blocks[j] = blocks[j], blocks[i] })
			got := check(t, header+strings.Join(blocks, ""))
			requireSame(t, want, got, asItIs, 1e-12, fmt.Sprintf("drawing %d, shuffle %d", i, seed))
		}
	}
}

// TestSizeAndPlace: a run a thousand times as large or as small, and one far
// from the origin, moves alike.
func TestSizeAndPlace(t *testing.T) {
	want := check(t, ofEverything(1, 1, nil).text())
	for _, k := range []float64{1e-3, 1000} {
		requireSame(t, want, check(t, ofEverything(1, k, nil).text()), seen{length: 1 / k}, flipTolerance, fmt.Sprintf("%v times as large", k))
	}
	far := ofEverything(1, 1, nil).moved(motion{place: func(v vec) vec { return v.Add(at(-3e5, 4e5)) }})
	// The drawing's coordinates are rounded to 5e-11 there.
	requireSame(t, want, check(t, far.text()), asItIs, 1e-8, "far away")
}
