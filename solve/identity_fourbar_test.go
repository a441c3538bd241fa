package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// equalBars is a four-bar with equal arms a and rod and ground d.
func equalBars(a, d float64, crossed bool) fourBar {
	return fourBar{ground: d, crank: a, coupler: d, rocker: a, crossed: crossed}
}

// TestParallelogramIsExact: output = input at every position.
func TestParallelogramIsExact(t *testing.T) {
	for _, f := range []fourBar{equalBars(1, 2, false), equalBars(37.5, 212.3, false), equalBars(90, 20, false)} {
		for _, drawn := range []float64{90, 31, -120} {
			f.crossed = drawn < 0 // to which side the joint lies
			d := f.draw(drawn, 1)
			low, high := 1-math.Abs(drawn), 179-math.Abs(drawn) // a degree short of flat on both sides
			if drawn < 0 {
				low, high = -high, -low
			}
			_, s := sweepOf(t, d.with(control("crank", low, high)).text())
			_, rows := tableOf(t, s, 50)
			for _, row := range rows {
				// mu is the crank's angle to the ground: rounding grows with 1/sin 1 degree.
				sin := math.Abs(math.Sin(rad(drawn + row[0])))
				nearf(t, row[0], row[1], 1e-12/sin, "%+v drawn at %v, at %v", f, drawn, row[0])
			}
			ratio := outputOf(t, s, "rocker-turn").Ratio
			near(t, 1, *ratio.Neutral, 1e-13, "ratio")
		}
	}
}

// TestCrossedBarsFollowTheirLaw: tan(out/2) = -(d + a)/(d - a) tan(in/2).
func TestCrossedBarsFollowTheirLaw(t *testing.T) {
	for _, f := range []fourBar{equalBars(1, 2, true), equalBars(70, 190, true), equalBars(40, 44, true)} {
		const drawn = 75.0
		law := func(in float64) float64 {
			return 2 * deg(math.Atan(-(f.ground+f.crank)/(f.ground-f.crank)*math.Tan(rad(in/2))))
		}
		_, s := sweepOf(t, f.draw(drawn, 1).with(control("crank", -70, 100)).text())
		_, rows := tableOf(t, s, 34)
		for _, row := range rows {
			nearf(t, law(drawn+row[0])-law(drawn), row[1], 1e-9, "%+v at %v", f, drawn+row[0])
		}
	}
}

// flatAt is how near to 0 or 180 degrees a change point of equal bars must be
// found: the assemblies' distance goes to 0 there, rounding to its root.
const flatAt = 1e-4

// TestChangePointsAreTold: equal bars, crossed or not, lie flat with the crank
// at 0 and at 180, and the looking ends there.
func TestChangePointsAreTold(t *testing.T) {
	for _, crossed := range []bool{false, true} {
		for _, drawn := range []float64{60, -100} {
			about := fmt.Sprintf("crossed %v, drawn at %v", crossed, drawn)
			_, s := sweepOf(t, equalBars(1, 2, crossed).draw(drawn, 1).with(control("crank", -180, 180)).text())
			low, high := 0-drawn, 180-drawn
			if drawn < 0 {
				low, high = -180-drawn, 0-drawn
			}
			for i, want := range []float64{low, high} {
				end := s.Ends[i]
				assert.Equal(t, solve.ChangePoint, solve.CriticalKind(end.Cause), about)
				near(t, want, end.At, flatAt, about)
				near(t, want, s.Explored[i], flatAt, about+", explored")
				require.NotNil(t, end.Part, about)
				assert.Equal(t, "rocker", end.Part.Name, about)
			}
			require.Len(t, ofParts(s.Critical), 2, about)
			for i, c := range ofParts(s.Critical) {
				assert.Equal(t, solve.ChangePoint, c.Kind, about)
				assert.Equal(t, s.Ends[i].At, c.At, about)
				near(t, 0, c.Margin, exact, about)
				assert.Equal(t, "coupler", c.Rod.Name, about)
			}
		}
	}
}

// TestNeutralOnCenterIsRefused: no drawing there says which way it goes.
func TestNeutralOnCenterIsRefused(t *testing.T) {
	for name, d := range map[string]drawing{
		"a flat parallelogram": {
			bodies: []body{hinge("crank", at(0, 0), spot{"pin", at(1, 0)}), hinge("rocker", at(2, 0), spot{"pin", at(3, 0)})},
			bars:   []bar{{name: "link", from: "crank.pin", to: "rocker.pin"}},
		},
		"a flat one folded": {
			bodies: []body{hinge("crank", at(0, 0), spot{"pin", at(-1, 0)}), hinge("rocker", at(2, 0), spot{"pin", at(1, 0)})},
			bars:   []bar{{name: "link", from: "crank.pin", to: "rocker.pin"}},
		},
		"a toggle": { // rod and driven arm in line, the crank square to them
			bodies: []body{hinge("crank", at(0, 0), spot{"pin", at(0, 30)}), hinge("rocker", at(100, 30), spot{"pin", at(60, 30)})},
			bars:   []bar{{name: "link", from: "crank.pin", to: "rocker.pin"}},
		},
		"a guide square to its rod": {
			bodies: []body{hinge("crank", at(0, 0), spot{"pin", at(0, 30)}), {name: "rocker", slide: ref(at(0, 1)), points: []spot{{"pin", at(60, 30)}}}},
			bars:   []bar{{name: "link", from: "crank.pin", to: "rocker.pin"}},
		},
		// The rod lies in the plane of the axis, along y at x = 100, z = 0, and the
		// arm to (150, 20, -45): its other end is -2/5 of the arm from the axis.
		"a toggle about a skew axis": {
			bodies: []body{
				{name: "crank", pivot: ref(at(80, 0)), axis: ref(at(1, 0)), points: []spot{{"pin", at3(80, 5, 18)}}},
				{name: "rocker", pivot: ref(at(100, 0)), axis: ref(at(0, 1)), points: []spot{{"pin", at3(150, 20, -45)}}},
			},
			bars: []bar{{name: "link", from: "crank.pin", to: "rocker.pin"}},
		},
	} {
		told := refusal(t, d.with(control("crank", -20, 20)).text())
		assert.Contains(t, told, "rocker", name)
		assert.Contains(t, told, "test.hcl:", name)
	}
}

// TestNearlyOnCenterIsDrawn: a hundredth of a degree from it is a drawing like
// any other.
func TestNearlyOnCenterIsDrawn(t *testing.T) {
	_, s := sweepOf(t, equalBars(1, 2, false).draw(0.01, 1).with(control("crank", -20, 20)).text())
	near(t, -0.01, s.Low, flatAt, "flat")
	near(t, 20, s.High, 0, "explored")
	near(t, 20, partOf(t, s, "rocker").AtHigh, 1e-8, "still a parallelogram")
}

// TestSetOffByNothing: a rod's length given as it is drawn is the rod left out.
func TestSetOffByNothing(t *testing.T) {
	for seed := range uint64(20) {
		rng := rand.New(rand.NewPCG(seed, 8))
		f, crank := randomFourBar(rng, 10)
		d := f.draw(crank, 1).with(control("crank", -5, 5))
		want := check(t, d.text())
		joint, _ := f.joint(crank)
		d.bars[0].length = distance(polar(f.crank, crank), joint)
		requireSame(t, want, check(t, d.text()), asItIs, 1e-10, fmt.Sprintf("seed %d", seed))
	}
}

// TestSetOffDrawnLength: with its rod set off, a linkage is the one with that
// rod, in the assembly as drawn.
func TestSetOffDrawnLength(t *testing.T) {
	for seed := uint64(1); seed <= 60; seed++ {
		rng := rand.New(rand.NewPCG(seed, 9))
		f, crank := randomFourBar(rng, 10)
		d := f.draw(crank, 1).with(control("crank", -0.1, 0.1))
		set := f
		set.coupler *= 0.6 + 0.8*rng.Float64()
		d.bars[0].length = set.coupler
		about := fmt.Sprintf("seed %d: %+v at %v, rod %v", seed, f, crank, set.coupler)
		// With the crank standing, the rocker locks where rod and rocker lie in line.
		reach := distance(polar(f.crank, crank), at(f.ground, 0))
		if reach > set.coupler+f.rocker || reach < math.Abs(set.coupler-f.rocker) {
			told := refusal(t, d.text())
			assert.Contains(t, told, "coupler", about)
			continue
		}
		if set.mu(crank) < 1 { // on the very edge of what it can reach
			continue
		}
		_, s := sweepOf(t, d.text())
		_, drawn := f.angles(crank)
		_, now := set.angles(crank)
		// Going gradually from one length to the other it never jumps, so the turn
		// is the one on the way: less than half a turn, and on the same side.
		turn := turnTo(now-drawn, 0)
		near(t, turn, partOf(t, s, "rocker").Neutral, 1e-9, about)
		near(t, 0, partOf(t, s, "crank").Neutral, 0, about)
	}
}
