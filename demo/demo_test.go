package demo_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"
)

// tight is how near figures that come by two ways must lie, in degrees and
// units of length: both ways lose a few of the last of their 16 digits.
const tight = 1e-9

func TestEveryFileIsGivenAndEachKindHolds(t *testing.T) {
	on, err := os.ReadDir(".")
	require.NoError(t, err)
	var files int
	for _, f := range on {
		if kind, ok := strings.CutSuffix(f.Name(), ".hcl"); ok {
			files++
			_, ok := demo.File(kind)
			assert.True(t, ok, f.Name())
		}
	}
	assert.Len(t, demo.Kinds(), files-len(demo.More()), "every file but %v is a kind", demo.More())
	for _, kind := range demo.Kinds() {
		t.Run(kind, func(t *testing.T) {
			assert.NotEmpty(t, demo.About(kind))
			first, _, _ := strings.Cut(text(t, kind), "\n")
			assert.Contains(t, first, "aircraft and figures are invented")
			assert.Contains(t, text(t, kind), "\n  craft ")
			r := check(t, text(t, kind))
			for _, j := range r.Requirements {
				assert.Equal(t, solve.Holds, j.Verdict, "%s %q: worst %v", j.Requirement.Kind, j.Requirement.Name, deref(j.Worst))
			}
			assert.Equal(t, solve.Holds, r.Verdict)
		})
	}
}

func deref(f *float64) any {
	if f == nil {
		return nil
	}
	return *f
}

func TestNoOtherNameGivesAFile(t *testing.T) {
	for _, name := range []string{"", "pedal", "pedals.hcl", "../demo/pedals", "PEDALS"} {
		_, ok := demo.File(name)
		assert.False(t, ok, name)
	}
	kinds := demo.Kinds()
	kinds[0] = "changed"
	assert.Equal(t, "pedals", demo.Kinds()[0], "the list is the caller's own")
}

// Between them the demos are to show everything a file can hold.
func TestTheDemosShowEveryRequirement(t *testing.T) {
	shown := map[linkage.Kind]bool{}
	var inches, plane, space, floating, sliding, carried bool
	var all strings.Builder
	for _, kind := range append(demo.Kinds(), demo.Unequal, demo.Dual) {
		all.WriteString(text(t, kind))
		run := check(t, text(t, kind)).Run
		for _, q := range run.Requirements {
			shown[q.Kind] = true
		}
		inches = inches || run.Units == linkage.Inches
		plane, space = plane || run.Plane, space || !run.Plane
		for _, p := range run.Parts {
			floating = floating || p.Motion == linkage.Floats
			sliding = sliding || p.Motion == linkage.Slides
			carried = carried || p.Carrier != nil
		}
	}
	assert.Len(t, shown, 21)
	for _, attribute := range []string{
		"units", "craft", "view", "forward", "up", "pivot", "axis", "slide", "points", "arms", "bolts",
		"at", "radius", "through", "thick", "diameter", "z", "from", "to", "length", "misalignment",
		"of", "held", "plus", "minus", "along", "reads", "against", "detents", "side", "touch",
		"within", "turns", "low", "high", "least", "most", "between", "first", "then", "control",
		"thread", "hand", "engaged", "shank", "second-path", "play",
		"conduit", "stiffness", "spring", "cables", "pretension", "radius", "winds", "ball", "tilts", "leading-edge", "hub", "run", "wire", "rigged-at", "airframe", "arm", "symmetry", "mirror",
	} {
		assert.Regexp(t, `[ {]`+attribute+` += `, all.String(), "shown nowhere")
	}
	assert.True(t, inches && plane && space && floating && sliding && carried)
}

func TestPedalsCloseAsTheFormulaSays(t *testing.T) {
	for _, kind := range []string{"pedals", "pedals-swivel"} {
		r := check(t, text(t, kind))
		d := drawing{t, r.Run}
		upper, lower := d.rod("left-link").To, d.rod("right-link").To
		// far is what the right pedal does when the left one stands at x.
		far := func(x float64) (rocker, right float64) {
			horn := d.turned("left-pedal", d.point("left-pedal.horn"), x)
			rocker = d.closes(upper.String(), horn, d.rod("left-link").Length, 0)
			arm := d.turned("rocker", d.point(lower.String()), rocker)
			return rocker, d.closes("right-pedal.horn", arm, d.rod("right-link").Length, -x)
		}
		s := r.Sweeps[0]
		rocker, right := travel(t, s, "rocker"), travel(t, s, "right-pedal")
		worst := 0.0
		for _, at := range []struct{ x, rocker, right float64 }{
			{0, rocker.Neutral, right.Neutral}, {s.Low, rocker.AtLow, right.AtLow}, {s.High, rocker.AtHigh, right.AtHigh},
		} {
			mid, end := far(at.x)
			assert.InDelta(t, mid, at.rocker, tight, "%s: rocker at %g", kind, at.x)
			assert.InDelta(t, end, at.right, tight, "%s: right pedal at %g", kind, at.x)
		}
		const steps = 500
		for i := range steps + 1 {
			x := s.Low + (s.High-s.Low)*float64(i)/steps
			_, end := far(x)
			worst = math.Max(worst, math.Abs(x+end))
		}
		j := judged(t, r, linkage.Opposite)
		assert.InDelta(t, worst, *j.Worst, 1e-4, "%s: 500 steps see the worst to that", kind)
		_, end := far(*j.At)
		assert.InDelta(t, *j.Worst, math.Abs(*j.At+end), tight, "%s: the worst, where it is told to be", kind)
		assert.Greater(t, *j.Worst, 0.1, "%s: it is worth telling", kind)
	}
}

// The figure that the notes of the rocker give, with rods as drawn.
func TestPedalsNotes(t *testing.T) {
	straight := check(t, strings.ReplaceAll(text(t, "pedals",
		"upper = [-10, 60, 12]", "upper = [0, 60, 12]", "lower = [-10, -60, -12]", "lower = [0, -60, -12]"),
		"length       = 296.7 ", "# "))
	assert.InDelta(t, 3.4, *judged(t, straight, linkage.Opposite).Worst, 0.05)
}

// The left pedal's lug is on its bolt at one end, the right pedal's at the other.
func TestPedalLugsTouchAtTheEnds(t *testing.T) {
	r := check(t, text(t, "pedals"))
	d := drawing{t, r.Run}
	s := r.Sweeps[0]
	// gap is from the lug's straight outer part to the bolt: the two half widths
	// off the distance of the bolt's center from the lug's center line.
	gap := func(pedal string, turn float64) float64 {
		var lug, bolt linkage.Feature
		for _, f := range d.part(pedal).Features {
			lug = f
		}
		for _, f := range d.part("airframe").Features {
			if f.Name == strings.TrimSuffix(pedal, "pedal")+"stop-bolt" {
				bolt = f
			}
		}
		a, b := d.turned(pedal, lug.Through[1], turn), d.turned(pedal, lug.Through[2], turn)
		line, to := b.Sub(a), bolt.Through[0].Sub(a)
		along := line.Dot(to) / line.Dot(line)
		require.True(t, along > 0 && along < 1, "it meets the flat, not a corner")
		return to.Sub(line.Scale(along)).Norm() - lug.Radius - bolt.Radius
	}
	assert.Equal(t, "left-stop", s.Ends[1].Stop.Name)
	assert.InDelta(t, 0, gap("left-pedal", s.High), tight)
	assert.Equal(t, "right-stop", s.Ends[0].Stop.Name)
	assert.InDelta(t, 0, gap("right-pedal", travel(t, s, "right-pedal").AtLow), tight)
	// What a millimeter of wear costs, by differences of that same gap.
	const h = 1e-4 // degrees: the gap's curvature adds less than 1e-6 of its slope
	slope := (gap("left-pedal", s.High-h) - gap("left-pedal", s.High+h)) / (2 * h)
	assert.InDelta(t, 1/slope, *s.Ends[1].Wear, 1e-6)
}

// The figures that the swivel's notes give.
func TestSwivelNotes(t *testing.T) {
	flat := check(t, text(t, "pedals-swivel",
		"axis  = [0, 1, 0] ", "", "left  = [0, 0, 60]", "left  = [0, 60, 60]", "right = [0, 0, -60]", "right = [0, -60, -60]",
		`  edge "sump" {                 # its lower corner, a tube right across the floor
    through  = [[140, -82, 120], [140, -82, -120]]
    diameter = 20
  }
`, "", `require "clearance" "rod to sump" {
  between = [left-link, airframe.sump]
  least   = 8
}
`, ""))
	require.True(t, flat.Run.Plane)
	assert.InDelta(t, 6.3, *judged(t, flat, linkage.Opposite).Worst, 0.05, "flattened it seems far out")

	level := check(t, text(t, "pedals-swivel", "pivot = [250, -30, 0]", "pivot = [250, -60, 0]"))
	assert.InDelta(t, 2, *judged(t, level, linkage.Opposite).Worst, 0.1)

	straight := check(t, text(t, "pedals-swivel", "  bolts = { horn = [3, 0, 25] }\n", "", "  bolts = { horn = [-3, 0, 25] }\n", ""))
	j := judged(t, straight, linkage.Misalignment)
	assert.InDelta(t, 8.4, *j.Worst, 0.05)
	assert.Equal(t, solve.FallsShort, j.Verdict)
}

// The engine lever is on center where the lever's hole is as far from the
// engine lever's pivot as link and arm together reach.
func TestThrottleOnCenter(t *testing.T) {
	r := check(t, text(t, "throttle"))
	d := drawing{t, r.Run}
	grip, engine := d.part("grip-lever").Pivot, d.part("engine-lever").Pivot
	hole := d.point("grip-lever.hole-1").Sub(grip)
	between := engine.Sub(grip)
	reach := d.rod("link").Length + d.point("engine-lever.hole").Sub(engine).Norm()
	a, b := hole.Norm(), between.Norm()
	apart := math.Acos((a*a + b*b - reach*reach) / (2 * a * b)) // of hole and engine, seen from the grip
	drawn := math.Atan2(hole.Y, hole.X) - math.Atan2(between.Y, between.X)
	on := (apart - drawn) * 180 / math.Pi

	s := r.Sweeps[0]
	require.NotEmpty(t, s.Critical)
	c := s.Critical[len(s.Critical)-1]
	assert.Equal(t, solve.Toggle, c.Kind)
	assert.InDelta(t, on, c.At, tight)
	assert.InDelta(t, on-s.High, c.Margin, tight)
	assert.Equal(t, "tail-stop", s.Ends[1].Stop.Name)
	assert.Equal(t, "idle-stop", s.Ends[0].Stop.Name)

	// Idle: the grip's turn that leaves the engine lever 36 degrees back.
	back := d.turned("engine-lever", d.point("engine-lever.hole"), -36)
	assert.InDelta(t, d.closes("grip-lever.hole-1", back, d.rod("link").Length, -35), s.Low, tight)
	assert.InDelta(t, s.Low+38, *judged(t, r, linkage.Order).Worst, tight)

	// The tail taken off: it runs on to there and locks.
	r = check(t, without(t, "throttle", `stop "tail-stop"`))
	s = r.Sweeps[0]
	assert.Equal(t, solve.ByToggle, s.Ends[1].Cause)
	assert.InDelta(t, on, s.High, tight)
	assert.Equal(t, solve.FallsShort, r.Verdict)
	for _, kind := range []linkage.Kind{linkage.OverCenter, linkage.Stops, linkage.RodAngle} {
		assert.Equal(t, solve.FallsShort, judged(t, r, kind).Verdict, "%s", kind)
	}
	assert.InDelta(t, 0, *judged(t, r, linkage.OverCenter).Worst, tight)
}

// With the link in the wrong hole the butterfly halts where the grip's pivot
// lies on the link: as far from the engine lever's hole as the link is longer
// than the grip's arm.
func TestWrongHole(t *testing.T) {
	r := check(t, text(t, demo.WrongHole))
	d := drawing{t, r.Run}
	grip := d.part("grip-lever").Pivot
	rest := d.rod("link").Length - d.point("grip-lever.hole-2").Sub(grip).Norm()
	engine := d.closes("engine-lever.hole", grip, rest, 0)
	butterfly := 36 + engine
	line := grip.Sub(d.turned("engine-lever", d.point("engine-lever.hole"), engine))
	hole := d.point("grip-lever.hole-2")
	on := nearest(math.Atan2(line.Y, line.X)-math.Atan2(hole.Y, hole.X), 30)

	assert.Equal(t, solve.FallsShort, r.Verdict)
	for _, j := range r.Requirements {
		want := solve.Holds
		if j.Requirement.Kind == linkage.Travel || j.Requirement.Kind == linkage.OverCenter {
			want = solve.FallsShort
		}
		assert.Equal(t, want, j.Verdict, "%s", j.Requirement.Kind)
	}
	s := r.Sweeps[0]
	require.Len(t, s.Critical, 1)
	c := s.Critical[0]
	assert.Equal(t, solve.DeadCenter, c.Kind)
	assert.InDelta(t, on, c.At, tight)
	assert.InDelta(t, on-s.High, *judged(t, r, linkage.OverCenter).Worst, tight)
	assert.Less(t, c.Margin, 5.0)
	assert.InDelta(t, 36, s.Outputs[0].Most, 2, "about half way of 69")

	// However much is filed off the tail, the butterfly goes no further.
	s = check(t, without(t, demo.WrongHole, `stop "tail-stop"`)).Sweeps[0]
	assert.InDelta(t, butterfly, s.Outputs[0].Most, tight)
	assert.Less(t, s.Outputs[0].Most, 36.0)
	assert.Less(t, s.Outputs[0].AtHigh, s.Outputs[0].Most, "past it, opening closes")
}

func TestChainClosesAsTheFormulaSays(t *testing.T) {
	r := check(t, text(t, "chain"))
	d := drawing{t, r.Run}
	s := r.Sweeps[0]
	guide, eye := d.part("plunger").Slide, d.point("plunger.eye")
	plunger := travel(t, s, "plunger")
	for _, at := range []struct{ x, slid float64 }{{0, plunger.Neutral}, {s.High, plunger.AtHigh}} {
		horn := d.turned("lever", d.point("lever.horn"), at.x)
		floor := d.closes("floor-crank.low", horn, d.rod("floor-rod").Length, at.x)
		aft := d.turned("floor-crank", d.point("floor-crank.aft"), floor)
		mast := d.closes("mast-crank.aft", aft, d.rod("mast-rod").Length, floor)
		fore := d.turned("mast-crank", d.point("mast-crank.fore"), mast)
		// |eye + s guide - fore| = length, the upper way.
		w := eye.Sub(fore)
		b := w.Dot(guide)
		length := d.rod("link").Length
		slid := -b + math.Sqrt(b*b-w.Dot(w)+length*length)
		assert.InDelta(t, slid, at.slid, tight, "plunger with the lever at %g", at.x)
	}
	assert.Equal(t, 0.0, s.Low)
	assert.Equal(t, "lever-down", s.Ends[0].Stop.Name)
	assert.InDelta(t, 1.5+plunger.Neutral, s.Outputs[0].Neutral, tight, "the rule reads 1.5 as drawn")
	assert.Negative(t, plunger.Neutral, "a floor rod set long leaves the plunger low")
}

// In space, with the cross shaft turned: the right stick by the tie tube, the
// roll crank by the roll rod.
func TestSticksCloseAsTheFormulaSays(t *testing.T) {
	r := check(t, text(t, "sticks"))
	d := drawing{t, r.Run}
	require.Len(t, r.Sweeps, 6, "each control with the other at its three settings")
	for _, s := range r.Sweeps {
		for _, x := range []float64{s.Low, s.High} {
			shaft, left := x, s.Held[0].At
			if s.Control.Name == "roll" {
				shaft, left = s.Held[0].At, x
			}
			// The tie closes on the shaft, however the shaft has turned.
			tie := d.turned("left-stick", d.point("left-stick.tie"), left)
			right := d.closes("right-stick.tie", tie, d.rod("tie-tube").Length, left)
			roll := d.turned("cross-shaft", d.turned("right-stick", d.point("right-stick.roll"), right), shaft)
			crank := d.closes("roll-crank.in", roll, d.rod("roll-rod").Length, -right)
			got, told := travel(t, s, "right-stick"), travel(t, s, "roll-crank")
			if x == s.Low {
				assert.InDelta(t, right, got.AtLow, tight, "%s at %g", s.Control.Name, x)
				assert.InDelta(t, crank, told.AtLow, tight, "%s at %g", s.Control.Name, x)
			} else {
				assert.InDelta(t, right, got.AtHigh, tight, "%s at %g", s.Control.Name, x)
				assert.InDelta(t, crank, told.AtHigh, tight, "%s at %g", s.Control.Name, x)
			}
		}
	}
	j := judged(t, r, linkage.Steady, "side to side, while the sticks go fore and aft")
	assert.Greater(t, *j.Worst, 0.1, "pushing the sticks moves the roll crank, and it is told")
	assert.InDelta(t, 0, *judged(t, r, linkage.Steady, "fore and aft, while the sticks go sideways").Worst, tight)
}

// The ring floats: what is told of it must put its three holes where the rods
// reach, with the mixing lever where its own link puts it.
func TestMixerRingHangsOnItsRods(t *testing.T) {
	r := check(t, text(t, "mixer"))
	d := drawing{t, r.Run}
	require.Len(t, r.Sweeps, 6)
	fore, aft, hub := d.point("ring.fore"), d.point("ring.aft"), d.point("ring.hub")
	middle := fore.Add(aft).Add(hub).Scale(1.0 / 3)
	for _, s := range r.Sweeps {
		collective, cyclic := s.High, s.Held[0].At
		if s.Control.Name == "cyclic" {
			collective, cyclic = s.Held[0].At, s.High
		}
		// The mixing lever rides on the arm's pin and keeps its own turn.
		lever := travel(t, s, "mixing-lever").AtHigh
		pin := d.turned("collective-arm", d.point("collective-arm.pin"), collective)
		rides := func(hole string) linkage.Vec {
			return d.turned("mixing-lever", d.point(hole), lever).Sub(d.part("mixing-lever").Pivot).Add(pin)
		}
		sin, cos := math.Sincos(travel(t, s, "ring.turn").AtHigh * math.Pi / 180)
		moved := linkage.Vec{X: travel(t, s, "ring.x").AtHigh, Y: travel(t, s, "ring.y").AtHigh}
		hangs := func(p linkage.Vec) linkage.Vec {
			q := p.Sub(middle)
			return linkage.Vec{X: q.X*cos - q.Y*sin, Y: q.X*sin + q.Y*cos, Z: q.Z}.Add(middle).Add(moved)
		}
		low := d.turned("cyclic-lever", d.point("cyclic-lever.low"), cyclic)
		assert.InDelta(t, d.rod("cyclic-link").Length, rides("mixing-lever.horn").Sub(low).Norm(), tight)
		assert.InDelta(t, d.rod("fore-rod").Length, rides("mixing-lever.fore").Sub(hangs(fore)).Norm(), tight)
		assert.InDelta(t, d.rod("aft-rod").Length, rides("mixing-lever.aft").Sub(hangs(aft)).Norm(), tight)
		assert.InDelta(t, d.rod("drag-link").Length, d.point("airframe.mast-bracket").Sub(hangs(hub)).Norm(), tight)
	}
	// The notes: hardly anything with the stick central, half a degree with it over.
	for _, s := range r.Sweeps[:3] {
		tilt := s.Outputs[1]
		change := math.Max(tilt.Most-tilt.Neutral, tilt.Neutral-tilt.Least)
		if s.Held[0].At == 0 {
			assert.Less(t, change, 0.1)
		} else {
			assert.InDelta(t, 0.6, change, 0.05)
		}
	}
}
