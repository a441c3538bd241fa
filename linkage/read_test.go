package linkage

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bench is a small run in which everything can be read: a lever, a rod, a
// crank that carries a grip, a plunger, metal, and cables.
const bench = `run "Bench" {
  units   = "in"
  view    = "from the left"
  forward = [-2, 0]
  up      = [0, 3]
  sketch  = 1 + 1/4
}

fixed "frame" {
  points = { datum = [0, 0], hook = [20, 12] }
  exact  = true
  round "post" {
    at     = [-1 + 11/16, 2]
    radius = 3/8
    z      = [-2, 2]
  }
}

part "lever" {
  pivot  = [0, 0]
  points = { foot = [1/2, 8], horn = [0, -(2 + 5/16), 1] }
  arms   = { tab = polar(2, -90) }
  bolts  = { horn = [0, 0.5, 0] }
  edge "heel" {
    through = [[0, 0], [-1, 1], [-1, 2]]
    thick   = 1/8
  }
  edge "bar" {
    through  = [[0, 0], [3, 4, 5]]
    diameter = 1/2
  }
}

part "crank" {
  pivot = [7, -1]
  axis  = [0, 0, -4]
  arms  = { upper = [-0.5, 0.25], tip = [1, 0] }
}

part "grip" {
  pivot = crank.tip
  arms  = { end = [0, 1] }
}

part "plunger" {
  slide  = [3, 4]
  points = { eye = [10, 5] }
}

part "guide" {
  pivot = lever.foot
  slide = [1, 0]
}

part "beam" {
  points = { left = [12, 6], right = [16, 6] }
}

rod "link" {
  from         = lever.horn
  to           = crank.upper
  length       = 7 + 1/4
  diameter     = 3/8
  misalignment = 12
  points       = { bracket = [3, -2] }
}

rod "push" {
  from = link.bracket
  to   = plunger.eye
}

control "hand" {
  of    = lever
  from  = -35
  to    = 35
  plus  = "forward"
  minus = "back"
  detents = [0, 12, -12]
}

control "slide" {
  of   = guide
  from = -1
  to   = 2
  held = [0, -1, 1/2]
}

output "valve" {
  of    = crank
  plus  = "open"
  reads = 4.5
}

output "eye" {
  of    = plunger.eye
  along = [0, -7]
}

stop "forward" {
  of = lever
  at = 24
}

stop "neutral" {
  of   = lever
  at   = 0
  side = "low"
}

stop "heel-stop" {
  touch = [lever.heel, link]
}

require "sense" "right way round" {
  of    = [hand, valve]
  turns = "opposite"
}

require "together" {
  of     = [lever, grip]
  within = 1/2
}

require "opposite" {
  of     = [lever, grip]
  within = 1
}

require "steady" {
  of      = valve
  within  = 0.1
  control = slide
}

require "travel" {
  of     = eye
  low    = -1
  high   = 2
  within = 1/64
}

require "over-center" {
  least = 10
}

require "rod-angle" {
  least = 40
}

require "clearance" {
  between = [link, frame.post]
  least   = 1/16
}

require "misalignment" {
}

require "misalignment" {
  most = 9
}

require "stops" {
  control = hand
}

require "order" {
  first = forward
  then  = heel-stop
  least = 1.5
}

taped "foot to crank" {
  from   = lever.foot
  to     = crank.pivot
  is     = 11 + 1/8
  within = 1/16
}

gauged "lever leans" {
  from   = lever.pivot
  to     = lever.foot
  is     = 86.5
  within = 0.5
}

taped "grip" {
  from   = grip.pivot
  to     = frame.datum
  is     = blank
  within = 1/32
}

measured "first rigging" {
  of       = valve
  control  = hand
  readings = [[-20, 19.1], [0, 5 - 0.4], [20, -18.4]]
  within   = 0.4
  date     = "2026-05-01"
}

measured "again" {
  of       = grip
  control  = slide
  readings = [[1/2, 3]]
  within   = 1
}

rod "spare" {
  from        = lever.foot
  to          = crank.tip
  length      = 11 + 3/4
  second-path = true
  play        = 1/64
  end "from" {
    thread  = "1/4-28"
    hand    = "right"
    engaged = 7/16
    least   = 3/8
    most    = 3/4
    step    = 0
  }
  end "to" {
    thread = "M6x1"
    hand   = "left"
    home   = 0.5
    most   = 0.75
    shank  = 1
  }
}

rod "third" {
  from = lever.foot
  to   = crank.tip
  end "to" {
    thread  = "10-32"
    exposed = 5/8
    shank   = 1 + 1/8
    step    = 1
  }
}

stop "back" {
  of     = lever
  at     = -(20 + 1/2)
  adjust = [-25, -15]
  step   = 1/4
}

stop "crank-stop" {
  of     = crank
  at     = 0
  side   = "low"
  adjust = [-1, 1]
}

pin "rig" {
  of = lever
}

pin "rig-slide" {
  of     = guide
  at     = 1/2
  within = 1/64
}

require "engagement" {
}

require "second-path" {
  most = 1/32
}

cable "draw" {
  from      = lever.foot
  to        = crank.upper
  conduit   = [frame.hook, frame.datum]
  stiffness = 220 + 1/2
  end "conduit-to" {
    thread  = "10-32"
    engaged = 5/8
    step    = 1/6
  }
}

cable "return" {
  from      = crank.tip
  to        = lever.horn
  conduit   = [frame.datum, frame.hook]
  stiffness = 200
}

pair "both" {
  cables     = [draw, return]
  pretension = 25 + 1/2
}

cable "idle" {
  from    = lever.foot
  to      = plunger.eye
  conduit = [frame.hook, frame.datum]
  core    = 30 + 1/8
  spring  = "minus"
}

cable "wound" {
  from   = lever
  to     = crank
  radius = [2 + 1/2, 2]
  winds  = ["up", "down"]
  run    = 40
  wire   = "7x7 3/32 stainless"
  spring = "plus"
}

require "taut" {
  of    = both
  least = 5
}

require "meets" {
  of     = [lever.tab, crank.tip]
  within = 1/16
}
require "neutral" {
  of     = valve
  within = 1/4
}
require "symmetrical" {
  of      = [lever, crank]
  opposed = true
  within  = 3
}
require "reading" {
  of      = valve
  control = hand
  at      = -12
  wants   = 6.5
  within  = 2
}
require "free-play" {
  of   = valve
  most = 3/4
}
tolerance {
  points     = 1/64
  pivots     = 1/32
  rods       = 1/100
  stops      = 1/2
  joint-play = 1/250
}
`

// read reads a file that must be sound.
func read(t testing.TB, text string, set ...Setting) *Run {
	t.Helper()
	run, err := Read(&Source{Name: "test.hcl", Text: []byte(text)}, set...)
	require.NoError(t, err)
	return run
}

// faults reads a file that must be faulty, and returns what is told.
func faults(t testing.TB, text string, set ...Setting) []Fault {
	t.Helper()
	run, err := Read(&Source{Name: "test.hcl", Text: []byte(text)}, set...)
	require.Error(t, err)
	assert.Nil(t, run)
	var all *Faults
	require.ErrorAs(t, err, &all)
	require.NotEmpty(t, all.List)
	return all.List
}

// find returns the part of a name.
func find(t testing.TB, run *Run, name string) *Part {
	t.Helper()
	for _, p := range run.Parts {
		if p.Name == name {
			return p
		}
	}
	require.Fail(t, "no such part", name)
	return nil
}

// at returns the place of a part's point.
func at(t testing.TB, p *Part, name string) Vec {
	t.Helper()
	for _, point := range p.Points {
		if point.Name == name {
			return point.At
		}
	}
	require.Fail(t, "no such point", name)
	return Vec{}
}

func TestReadRun(t *testing.T) {
	run := read(t, bench)
	assert.Equal(t, "Bench", run.Name)
	assert.Equal(t, Inches, run.Units)
	assert.Equal(t, "from the left", run.View)
	assert.Equal(t, &Vec{-1, 0, 0}, run.Forward)
	assert.Equal(t, &Vec{0, 1, 0}, run.Up)
	assert.True(t, run.Plane)
	assert.Equal(t, Span{1, 1, 0, 11, ""}, run.Span)
	for i, p := range run.Parts {
		assert.Equal(t, i, p.Index)
	}
}

func TestReadParts(t *testing.T) {
	run := read(t, bench)
	frame, lever, crank := find(t, run, "frame"), find(t, run, "lever"), find(t, run, "crank")
	grip, plunger, guide, beam := find(t, run, "grip"), find(t, run, "plunger"), find(t, run, "guide"), find(t, run, "beam")

	assert.Equal(t, Fixed, frame.Motion)
	assert.Equal(t, Vec{20, 12, 0}, at(t, frame, "hook"))
	post := frame.Features[0]
	assert.Equal(t, Round, post.Shape)
	assert.Equal(t, []Vec{{-0.3125, 2, 0}}, post.Through)
	assert.Equal(t, 0.375, post.Radius)
	assert.Equal(t, &[2]float64{-2, 2}, post.Z)

	assert.Equal(t, Turns, lever.Motion)
	assert.Equal(t, Vec{0, 0, 1}, lever.Axis)
	assert.Equal(t, []string{"foot", "horn", "tab"}, []string{lever.Points[0].Name, lever.Points[1].Name, lever.Points[2].Name})
	assert.Equal(t, Vec{0.5, 8, 0}, at(t, lever, "foot"))
	assert.Equal(t, Vec{0, -2.3125, 1}, at(t, lever, "horn"))
	assert.Equal(t, Vec{0, -2, 0}, at(t, lever, "tab"))
	assert.Nil(t, lever.Points[0].Bolt)
	assert.Equal(t, &Vec{0, 1, 0}, lever.Points[1].Bolt)
	heel, bar := lever.Features[0], lever.Features[1]
	assert.Equal(t, Edge, heel.Shape)
	assert.Equal(t, []Vec{{0, 0, 0}, {-1, 1, 0}, {-1, 2, 0}}, heel.Through)
	assert.Equal(t, 0.0625, heel.Radius)
	assert.False(t, heel.Bar)
	assert.Nil(t, heel.Z)
	assert.Equal(t, 0.25, bar.Radius)
	assert.True(t, bar.Bar)

	assert.Equal(t, Vec{0, 0, -1}, crank.Axis)
	assert.Equal(t, Vec{6.5, -0.75, 0}, at(t, crank, "upper"))

	assert.Equal(t, Turns, grip.Motion)
	assert.Equal(t, "crank.tip", grip.Carrier.String())
	assert.Equal(t, Vec{8, -1, 0}, grip.Pivot)
	assert.Equal(t, Vec{8, 0, 0}, at(t, grip, "end"))

	assert.Equal(t, Slides, plunger.Motion)
	assert.InDelta(t, 0.6, plunger.Slide.X, 1e-15)
	assert.InDelta(t, 0.8, plunger.Slide.Y, 1e-15)
	assert.Nil(t, plunger.Carrier)

	assert.Equal(t, Slides, guide.Motion)
	assert.Equal(t, "lever.foot", guide.Carrier.String())
	assert.Equal(t, Vec{0.5, 8, 0}, guide.Pivot)

	assert.Equal(t, Floats, beam.Motion)
}

func TestReadRods(t *testing.T) {
	run := read(t, bench)
	link, push := run.Rods[0], run.Rods[1]
	assert.Equal(t, "lever.horn", link.From.String())
	assert.Equal(t, "crank.upper", link.To.String())
	assert.Equal(t, 7.25, link.Length)
	assert.True(t, link.LengthGiven)
	// The ends differ by (6.5, 1.5625, -1).
	assert.InDelta(t, math.Sqrt(6.5*6.5+1.5625*1.5625+1), link.Drawn, 1e-14)
	assert.Equal(t, 0.375, *link.Diameter)
	assert.Equal(t, 12.0, *link.Misalignment)
	assert.Equal(t, Vec{3, -2, 0}, link.Points[0].At)

	assert.Same(t, link, push.From.Rod)
	assert.Equal(t, "link.bracket", push.From.String())
	assert.False(t, push.LengthGiven)
	assert.Equal(t, push.Drawn, push.Length)
	assert.InDelta(t, math.Hypot(7, 7), push.Drawn, 1e-14)
	assert.Nil(t, push.Diameter)
	assert.Nil(t, push.Misalignment)
}

func TestReadControlsOutputsAndStops(t *testing.T) {
	run := read(t, bench)
	hand, slide := run.Controls[0], run.Controls[1]
	assert.Same(t, find(t, run, "lever"), hand.Of)
	assert.Equal(t, []float64{-35, 35}, []float64{hand.From, hand.To})
	assert.Equal(t, []float64{0}, hand.Held)
	assert.Equal(t, []string{"forward", "back"}, []string{hand.Plus, hand.Minus})
	assert.Equal(t, []float64{0, -1, 0.5}, slide.Held)
	assert.Equal(t, "[0, -1, 1/2]", bench[slide.HeldSpan.Start:slide.HeldSpan.End])

	valve, eye := run.Outputs[0], run.Outputs[1]
	assert.Same(t, find(t, run, "crank"), valve.Part)
	assert.Nil(t, valve.Point)
	assert.Equal(t, 4.5, valve.Reads)
	assert.True(t, valve.Angular())
	assert.Nil(t, eye.Part)
	assert.Equal(t, "plunger.eye", eye.Point.String())
	assert.Equal(t, Vec{0, -1, 0}, eye.Along)
	assert.False(t, eye.Angular())

	forward, neutral, heel := run.Stops[0], run.Stops[1], run.Stops[2]
	assert.Same(t, find(t, run, "lever"), forward.Of)
	assert.Equal(t, 24.0, forward.At)
	assert.Empty(t, forward.Side)
	assert.Equal(t, "24", bench[forward.AtSpan.Start:forward.AtSpan.End])
	assert.Equal(t, "low", neutral.Side)
	assert.Nil(t, heel.Of)
	assert.Equal(t, "lever.heel", heel.Touch[0].String())
	assert.Equal(t, "link", heel.Touch[1].String())
}

func TestReadRequirements(t *testing.T) {
	run := read(t, bench)
	q := map[Kind]*Requirement{}
	for _, r := range slices.Concat(run.Requirements, readText(t, head(t)).Requirements) {
		if q[r.Kind] == nil {
			q[r.Kind] = r
		}
	}
	require.Len(t, q, len(requireKinds), "every kind is read")
	assert.Same(t, run.Outputs[0], q[Neutral].Of[0].Output)
	assert.Equal(t, 0.25, q[Neutral].Within)
	assert.Equal(t, []string{"lever", "crank"}, []string{q[Symmetrical].Of[0].Name(), q[Symmetrical].Of[1].Name()})
	assert.True(t, q[Symmetrical].Opposed)
	assert.Equal(t, 3.0, q[Symmetrical].Within)
	assert.Equal(t, []float64{-12, 6.5, 2}, []float64{q[Reading].At, q[Reading].Wants, q[Reading].Within})
	assert.Equal(t, "right way round", q[Sense].Name)
	assert.Same(t, run.Controls[0], q[Sense].Of[0].Control)
	assert.Same(t, run.Outputs[0], q[Sense].Of[1].Output)
	assert.False(t, q[Sense].Same)
	assert.Equal(t, "lever", q[Together].Of[0].Name())
	assert.Equal(t, 0.5, q[Together].Within)
	assert.Same(t, run.Controls[1], q[Steady].Control)
	assert.Nil(t, q[Travel].Control)
	assert.Equal(t, []float64{-1, 2, 1.0 / 64}, []float64{q[Travel].Low, q[Travel].High, q[Travel].Within})
	assert.Equal(t, 10.0, q[OverCenter].Least)
	assert.Equal(t, 40.0, q[RodAngle].Least)
	assert.Equal(t, "link", q[Clearance].Between[0].String())
	assert.Equal(t, "frame.post", q[Clearance].Between[1].String())
	assert.Nil(t, q[Misalignment].Most)
	assert.Same(t, run.Controls[0], q[Stops].Control)
	assert.Same(t, run.Stops[0], q[Order].First)
	assert.Same(t, run.Stops[2], q[Order].Then)
	assert.Same(t, run.Pairs[0], q[Taut].Pair)
	assert.Equal(t, 5.0, q[Taut].Least)
	assert.Equal(t, "crank.tip", q[Meets].Points[1].String())
	assert.Equal(t, 1.0/16, q[Meets].Within)
	assert.Equal(t, 1.5, q[Order].Least)
	assert.Equal(t, 9.0, *run.Requirements[9].Most)
	assert.Nil(t, q[Engagement].Most)
	assert.Equal(t, 1.0/32, *q[SecondPath].Most)
	assert.Same(t, run.Outputs[0], q[FreePlay].Of[0].Output)
	assert.Equal(t, 0.75, *q[FreePlay].Most)
}

// Blocks may stand in any order: what is read is the same, but for the order
// of lists and places in the file.
func TestOrderOfBlocksChangesNothing(t *testing.T) {
	places := func(run *Run) map[string]Vec {
		all := map[string]Vec{}
		for _, p := range run.Parts {
			all[p.Name+" pivot"] = p.Pivot
			for _, point := range p.Points {
				all[p.Name+"."+point.Name] = point.At
			}
		}
		for _, rod := range run.Rods {
			all[rod.Name] = Vec{rod.Length, rod.Drawn, 0}
		}
		for _, m := range run.Measurements {
			all[m.Name] = m.To.At().Sub(m.From.At())
		}
		return all
	}
	want := places(read(t, bench))
	blocks := strings.SplitAfter(bench, "\n}\n")
	random := rand.New(rand.NewPCG(1, 1))
	for range 20 {
		random.Shuffle(len(blocks), func(i, j int) { blocks[i], blocks[j] = blocks[j], blocks[i] })
		shuffled := strings.Join(blocks, "")
		assert.Equal(t, want, places(read(t, shuffled)), shuffled)
	}
}

// A carried part follows through a chain of carriers, wherever they stand in
// the file; a point of what is fixed carries nothing, it is the airframe.
func TestCarriedParts(t *testing.T) {
	run := read(t, `run "Carried" {
  units = "mm"
}
part "third" {
  pivot = second.tip
  arms  = { tip = [0, 5] }
}
part "second" {
  pivot = first.tip
  arms  = { tip = [0, 10] }
}
part "first" {
  pivot = wall.lug
  arms  = { tip = [100, 0] }
}
fixed "wall" {
  points = { lug = [7, 9, 3] }
}
control "hand" {
  of = first
}
`)
	assert.Nil(t, find(t, run, "first").Carrier)
	assert.Equal(t, Vec{7, 9, 3}, find(t, run, "first").Pivot)
	assert.Equal(t, "second.tip", find(t, run, "third").Carrier.String())
	assert.Equal(t, Vec{107, 24, 3}, at(t, find(t, run, "third"), "tip"))
	assert.Equal(t, []float64{-180, 180}, []float64{run.Controls[0].From, run.Controls[0].To})
}

// A run is plane when every axis is square to the drawing and no slide leaves
// it, whatever its bolts do.
func TestPlane(t *testing.T) {
	for name, change := range map[string]struct {
		old, new string
		plane    bool
	}{
		"axis in the drawing":         {"axis  = [0, 0, -4]", "axis  = [0, 1, 0]", false},
		"axis a little off":           {"axis  = [0, 0, -4]", "axis  = [0, 1e-9, 1]", false},
		"axis off by rounding":        {"axis  = [0, 0, -4]", "axis  = [0, 6e-17, 1]", true},
		"slide out of the drawing":    {"slide  = [3, 4]", "slide  = [3, 4, 1]", false},
		"slide off by rounding":       {"slide  = [3, 4]", "slide  = [3, 4, 1e-16]", true},
		"bolts of a part that slides": {"slide  = [3, 4]", "slide  = [3, 4]\n  axis = [0, 1, 0]", true},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.NewReplacer(change.old, change.new, "points       = { bracket = [3, -2] }", "", "from = link.bracket", "from = lever.tab",
				"least   = 1/16", "least = 1/16").Replace(bench)
			require.NotEqual(t, bench, text)
			assert.Equal(t, change.plane, read(t, text).Plane)
		})
	}
}

func TestSize(t *testing.T) {
	run := read(t, bench)
	// From the post's height and the plunger's side: the box of all that is
	// drawn goes from (-1, -2.3125, 0) to (20, 12, 5).
	assert.InDelta(t, math.Sqrt(21*21+14.3125*14.3125+25), run.Size(), 1e-12)
	assert.Equal(t, 1.0, (&Run{}).Size())
	assert.Equal(t, 1.0, (&Run{Parts: []*Part{{Points: []Point{{At: Vec{3, 3, 3}}}}}}).Size())
}

// Line ends, a byte order mark, bare and quoted labels, comments and a table
// over several lines are matters of taste.
func TestReadTolerates(t *testing.T) {
	want := read(t, bench)
	for name, text := range map[string]string{
		"carriage returns":   strings.ReplaceAll(bench, "\n", "\r\n"),
		"them alone":         strings.ReplaceAll(bench, "\n", "\r"),
		"them alone, notes":  strings.ReplaceAll(bench, "\n", " # note\r"),
		"line ends mixed":    strings.ReplaceAll(strings.ReplaceAll(bench, "\n", "\r"), "\r\r", "\r\r\n\n"),
		"byte order mark":    byteOrderMark + bench,
		"bare labels":        strings.NewReplacer(`part "lever"`, `part lever`, `rod "link"`, `rod link`).Replace(bench),
		"comments":           strings.ReplaceAll(bench, "\n", " # note\n"),
		"other comments":     "/* a\n note */ // another\n" + bench,
		"no last line end":   strings.TrimSuffix(bench, "\n"),
		"quoted table keys":  strings.Replace(bench, "{ datum =", `{ "datum" =`, 1),
		"colons in tables":   strings.Replace(bench, "{ datum =", `{ datum :`, 1),
		"a table over lines": strings.Replace(bench, "{ datum = [0, 0], hook = [20, 12] }", "{\n    datum = [0, 0]\n    hook = [20, 12],\n  }", 1),
		"trailing commas":    strings.Replace(bench, "[-1, 1], [-1, 2]]", "[-1, 1], [-1, 2,],]", 1),
		"tabs":               strings.ReplaceAll(bench, "  ", "\t"),
	} {
		t.Run(name, func(t *testing.T) {
			run := read(t, text)
			require.Len(t, run.Parts, len(want.Parts))
			for i, p := range run.Parts {
				assert.Equal(t, want.Parts[i].Name, p.Name)
				assert.Equal(t, want.Parts[i].Pivot, p.Pivot)
				for j, point := range p.Points {
					assert.Equal(t, want.Parts[i].Points[j].At, point.At)
				}
			}
			assert.Equal(t, want.Rods[0].Length, run.Rods[0].Length)
		})
	}
}

// edited is a run with edits made.
func edited(t *testing.T, run *Run, edits ...Edit) *Run {
	t.Helper()
	changed, err := run.With(edits...)
	require.NoError(t, err)
	return changed
}
