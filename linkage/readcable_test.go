package linkage

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cabled is a run with cables of every kind: a pair in conduits, a pair on
// quadrants, a push-pull core and one with a spring.
const cabled = `run "Cabled" {
  units     = "mm"
  rigged-at = 15
  airframe  = "6061-T6"
}

fixed "frame" {
  points = { up = [100, 130], down = [100, -130], aft = [900, 130], low = [900, -130], grip = [-200, 40], tube = [-500, 44] }
}

part "lever" {
  pivot  = [0, 0]
  points = { up = [0, 60], down = [0, -60], eye = [20, 0], pull = [-30, 40] }
}

part "crosshead" {
  pivot = [1000, 0]
  arms  = { up = [0, 50], down = [0, -55], clevis = [-20, 0] }
}

part "throttle" {
  slide  = [1, 0]
  points = { eye = [-560, 44] }
}

part "fore" {
  pivot = [0, -300]
}

part "tail" {
  pivot = [3000, -300]
}

cable "lift-up" {
  from      = crosshead.up
  to        = lever.up
  conduit   = [frame.aft, frame.up]
  stiffness = 38
  end "conduit-from" {
    thread  = "M6x1"
    engaged = 14
  }
  end "conduit-to" {
    thread  = "M8x1.25"
    hand    = "left"
    engaged = 20
    least   = 10
    most    = 22
    step    = 1/6
  }
}

cable "lift-down" {
  from      = lever.down
  to        = crosshead.down
  conduit   = [frame.down, frame.low]
  stiffness = 40
}

pair "lift" {
  cables     = [lift-up, lift-down]
  pretension = 120
}

cable "tail-left" {
  from   = fore
  to     = tail
  radius = [60, 55]
  winds  = ["up", "up"]
  run    = 3150
  wire   = "7x19 1/8 galvanized"
}

cable "tail-right" {
  from      = tail
  to        = fore
  radius    = [50, 60]
  winds     = ["down", "down"]
  run       = 3150
  stiffness = 150
}

pair "rudder" {
  cables     = [tail-left, tail-right]
  pretension = 200
}

cable "gas" {
  from    = lever.pull
  to      = throttle.eye
  conduit = [frame.grip, frame.tube]
  core    = 230.5
  pushes  = true
}

cable "choke" {
  from      = lever.pull
  to        = throttle.eye
  conduit   = [frame.grip, frame.tube]
  stiffness = 25
  spring    = "minus"
}

control "stick" {
  of = lever
}

output "wheel" {
  of = crosshead
}

require "taut" {
  of    = lift
  least = 40
}

require "taut" "the tail's" {
  of      = rudder
  least   = 0
  control = stick
}

require "meets" {
  of     = [lever.eye, crosshead.clevis]
  within = 0.5
}
`

func TestReadConduitCables(t *testing.T) {
	run := read(t, cabled)
	require.Len(t, run.Cables, 6)
	for i, c := range run.Cables {
		assert.Equal(t, i, c.Index)
		assert.Equal(t, `cable "`+c.Name+`"`, cabled[c.Span.Start:c.Span.End])
	}
	up, gas, choke := run.Cables[0], run.Cables[4], run.Cables[5]
	assert.False(t, up.Open())
	assert.Nil(t, up.Quadrants)
	assert.Equal(t, []string{"crosshead.up", "lever.up", "frame.aft", "frame.up"}, []string{up.From.String(), up.To.String(), up.Conduit[0].String(), up.Conduit[1].String()})
	assert.Equal(t, "lever.up", cabled[up.To.Span.Start:up.To.Span.End])
	assert.Equal(t, "frame.aft", cabled[up.Conduit[0].Span.Start:up.Conduit[0].Span.End])
	drawn := math.Hypot(100, 80) + math.Hypot(100, 70)
	assert.InDelta(t, drawn, up.Drawn, 1e-12)
	assert.Equal(t, up.Drawn, up.Core)
	assert.False(t, up.CoreGiven)
	assert.Equal(t, up.Span, up.CoreSpan)
	assert.Equal(t, 38.0, up.Stiffness)
	assert.Zero(t, up.Taken)
	assert.Equal(t, [2]*Part{find(t, run, "crosshead"), find(t, run, "lever")}, up.Joins())

	assert.True(t, gas.Pushes)
	assert.True(t, gas.CoreGiven)
	assert.Equal(t, 230.5, gas.Core)
	assert.Equal(t, "230.5", cabled[gas.CoreSpan.Start:gas.CoreSpan.End])
	assert.InDelta(t, 170+60, gas.Drawn, 1e-12)
	assert.Zero(t, gas.Stiffness)
	assert.Nil(t, gas.Pair)
	assert.False(t, choke.Pushes)
	assert.Equal(t, "minus", choke.Spring)
	assert.Equal(t, choke.Drawn, choke.Core)
}

func TestReadAdjusters(t *testing.T) {
	run := read(t, cabled)
	up := run.Cables[0]
	from, to := up.End("conduit-from"), up.End("conduit-to")
	require.Len(t, up.Ends, 2)
	assert.Same(t, up, from.Cable)
	assert.Equal(t, "lift-up.conduit-from", from.String())
	assert.Equal(t, `end "conduit-from"`, cabled[from.Span.Start:from.Span.End])
	assert.Equal(t, Thread{"M6x1", 1, 6}, from.Thread)
	assert.Equal(t, []float64{14, 9, 0}, []float64{from.Engaged, from.Least, from.Step})
	assert.False(t, from.Left)
	assert.False(t, from.LeastGiven)
	assert.Nil(t, from.Most)
	assert.True(t, to.Left)
	assert.True(t, to.LeastGiven)
	assert.Equal(t, []float64{20, 10, 22, 1.0 / 6}, []float64{to.Engaged, to.Least, *to.Most, to.Step})
	assert.Nil(t, run.Cables[1].End("conduit-to"))

	// A turn out takes slack up.
	turned := edited(t, run, TurnCable(to, 2))
	own := turned.CableEnd(to)
	assert.Equal(t, []float64{2.5, 17.5, 2}, []float64{turned.Cable(up).Taken, own.Engaged, own.Turned})
	assert.Equal(t, []float64{0, 20, 0}, []float64{up.Taken, to.Engaged, to.Turned})
}

func TestReadOpenCables(t *testing.T) {
	run := read(t, cabled)
	left, right := run.Cables[2], run.Cables[3]
	assert.True(t, left.Open())
	assert.Nil(t, left.From)
	assert.Nil(t, left.To)
	assert.Nil(t, left.Conduit)
	assert.Equal(t, [2]*Part{find(t, run, "fore"), find(t, run, "tail")}, *left.Quadrants)
	assert.Equal(t, *left.Quadrants, left.Joins())
	assert.Equal(t, [2]float64{60, 55}, left.Radius)
	assert.Equal(t, [2]float64{1, 1}, left.Winds)
	assert.Equal(t, 3150.0, left.Length)
	assert.Equal(t, Wire{"7x19", 0.125, false}, *left.Wire)
	// 100 (1/8)^2 / 1.40e-5 lbf over 3150 mm, worked out by hand.
	assert.InDelta(t, 157.6042, left.Stiffness, 0.0001)
	assert.Zero(t, left.Core)
	assert.Equal(t, [2]float64{-1, -1}, right.Winds)
	assert.Equal(t, 150.0, right.Stiffness)
	assert.Nil(t, right.Wire)
}

func TestReadPairs(t *testing.T) {
	run := read(t, cabled)
	require.Len(t, run.Pairs, 2)
	lift, rudder := run.Pairs[0], run.Pairs[1]
	assert.Equal(t, []int{0, 1}, []int{lift.Index, rudder.Index})
	assert.Equal(t, `pair "lift"`, cabled[lift.Span.Start:lift.Span.End])
	assert.Equal(t, [2]*Cable{run.Cables[0], run.Cables[1]}, lift.Cables)
	assert.Equal(t, []float64{120, 200}, []float64{lift.Pretension, rudder.Pretension})
	for _, p := range run.Pairs {
		for _, c := range p.Cables {
			assert.Same(t, p, c.Pair)
		}
	}
	require.NotNil(t, run.RiggedAt)
	assert.Equal(t, 15.0, *run.RiggedAt)
	assert.Equal(t, "6061-T6", run.Airframe)
	taut, tail, meets := run.Requirements[0], run.Requirements[1], run.Requirements[2]
	assert.Equal(t, Taut, taut.Kind)
	assert.Same(t, lift, taut.Pair)
	assert.Equal(t, 40.0, taut.Least)
	assert.Same(t, rudder, tail.Pair)
	assert.Same(t, run.Controls[0], tail.Control)
	assert.Equal(t, Meets, meets.Kind)
	assert.Equal(t, []string{"lever.eye", "crosshead.clevis"}, []string{meets.Points[0].String(), meets.Points[1].String()})
	assert.Equal(t, 0.5, meets.Within)
}

// Blocks may stand in any order.
func TestPairsBeforeTheirCables(t *testing.T) {
	pair := cabled[strings.Index(cabled, `pair "lift"`):strings.Index(cabled, `cable "tail-left"`)]
	text := strings.Replace(strings.Replace(cabled, pair, "", 1), `fixed "frame"`, pair+`fixed "frame"`, 1)
	run := read(t, text)
	assert.Same(t, run.Pairs[0], run.Cables[0].Pair)
	assert.Equal(t, "lift", run.Pairs[0].Name)
}

// In inches stiffness is in lbf per in, and so is what a wire gives.
func TestReadCablesInInches(t *testing.T) {
	run := read(t, strings.Replace(strings.Replace(cabled, `"mm"`, `"in"`, 1), "run    = 3150", "run    = 120", 1))
	assert.Equal(t, 38.0, run.Cables[0].Stiffness)
	assert.InDelta(t, 100*0.125*0.125/1.40e-5/120, run.Cables[2].Stiffness, 1e-9)
	assert.InDelta(t, 1/25.4, run.Cables[0].Ends[0].Thread.Pitch, 1e-15)
	assert.EqualValues(t, "lbf", run.Units.ForceUnit())
}

// What is set from outside takes the place of what the file says, or of what it
// leaves out.
func TestCableSettings(t *testing.T) {
	assert.Equal(t, 231.0, read(t, cabled, Setting{"gas.core", "231"}).Cables[4].Core)
	choke := read(t, cabled, Setting{"choke.core", "229 + 1/2"}).Cables[5]
	assert.Equal(t, 229.5, choke.Core)
	assert.True(t, choke.CoreGiven)
	assert.Equal(t, 50.0, read(t, cabled, Setting{"lift-up.stiffness", "50"}).Cables[0].Stiffness)
	assert.Equal(t, 3.0, read(t, cabled, Setting{"gas.stiffness", "3"}).Cables[4].Stiffness)
	assert.Equal(t, 100.0, read(t, cabled, Setting{"lift.pretension", "100"}).Pairs[0].Pretension)
	// A core that is left out follows its points.
	moved := read(t, cabled, Setting{"lever.pull.x", "-20"})
	assert.InDelta(t, 180+60, moved.Cables[5].Core, 1e-12)
	assert.Equal(t, 230.5, moved.Cables[4].Core)
	assert.InDelta(t, math.Hypot(90, 80)+math.Hypot(100, 70), read(t, cabled, Setting{"crosshead.up.x", "990"}).Cables[0].Core, 1e-12)

	for _, c := range []struct{ dimension, value, says string }{
		{"gas.core", "0", "--set gas.core=0: the core outside the conduit is more than 0"},
		{"lift-up.core", "214", `how much core of "lift-up" is outside follows from the pretension of the pair "lift": set lift.pretension`},
		{"tail-left.core", "214", `"tail-left" is an open cable, which has no core`},
		{"tail-left.stiffness", "38", `the stiffness of "tail-left" follows from its wire and its run`},
		{"tail-right.stiffness", "-38", "--set tail-right.stiffness=-38: stiffness is more than 0"},
		{"lift.pretension", "0", "--set lift.pretension=0: pretension is more than 0"},
		{"lift.pretention", "100", `did you mean "lift.pretension"?`},
		{"gas.cor", "100", `did you mean "gas.core"?`},
	} {
		list := faults(t, cabled, Setting{c.dimension, c.value})
		require.Len(t, list, 1, "%v: %v", c, list)
		assert.Equal(t, Span{}, list[0].Span)
		assert.Contains(t, list[0].Says, c.says)
	}
}

// Of cables only a core that is set is a length; one of a pair is none, and
// neither is what a cable gives or is drawn up to.
func TestCableDimensions(t *testing.T) {
	run := read(t, cabled)
	var lengths []Dimension
	for _, d := range run.Dimensions() {
		if d.IsLength() {
			lengths = append(lengths, d)
		}
	}
	gas, choke := run.Cables[4], run.Cables[5]
	require.Equal(t, []Dimension{{Cable: gas, Point: -1}, {Cable: choke, Point: -1}}, lengths)
	assert.Equal(t, []string{"gas.core", "choke.core"}, []string{lengths[0].String(), lengths[1].String()})
	assert.True(t, lengths[0].Given())
	assert.False(t, lengths[1].Given())
	assert.Equal(t, choke.Span, lengths[1].Block())

	before := *choke
	longer, ok := edited(t, run, Set(lengths[1], 222)).Dimension(lengths[1])
	require.True(t, ok)
	assert.Equal(t, 222.0, longer.Value())
	assert.True(t, longer.Given())
	assert.Equal(t, before, *choke)
}

// What is drawn of a cable follows its points, and its core with it where none is
// set.
func TestCablesFollowTheirPoints(t *testing.T) {
	run := read(t, cabled)
	up, gas, choke := run.Cables[0], run.Cables[4], run.Cables[5]
	drawn := up.Drawn
	pull := slices.IndexFunc(run.Dimensions(), func(d Dimension) bool { return d.String() == "lever.pull.x" })
	require.NotEqual(t, -1, pull)
	pulled := edited(t, run, Set(run.Dimensions()[pull], -20))
	assert.InDelta(t, 240, pulled.Cable(choke).Drawn, 1e-12)
	assert.InDelta(t, 240, pulled.Cable(choke).Core, 1e-12)
	assert.InDelta(t, 240, pulled.Cable(gas).Drawn, 1e-12)
	assert.Equal(t, 230.5, pulled.Cable(gas).Core)
	assert.InDelta(t, 230, choke.Core, 1e-12)

	// An arm that moves with its pivot takes the cable along.
	moved := edited(t, run, Move([]PlaceRef{{Part: find(t, run, "frame"), Point: 1}, {Part: find(t, run, "lever"), Point: 0}}, []Vec{{100, -140, 0}, {0, 70, 0}}))
	assert.InDelta(t, drawn-math.Hypot(100, 70)+math.Hypot(100, 60), moved.Cable(up).Core, 1e-12)
	assert.False(t, moved.Cable(up).CoreGiven)
}

// A core and the thread in an adjuster are changed where they stand, or are
// written where they were left out.
func TestRewriteCables(t *testing.T) {
	out := rewrite(t, cabled, Change{"gas.core", 231.25}, Change{"choke.core", 229}, Change{"lift-up.conduit-from.engaged", 12.5},
		Change{"lift-down.stiffness", 41.5}, Change{"rudder.pretension", 180})
	assert.Equal(t, strings.NewReplacer("230.5", "231.25", "engaged = 14", "engaged = 12.5", "= 40\n}\n\npair", "= 41.5\n}\n\npair",
		"[frame.grip, frame.tube]\n  stiffness = 25", "[frame.grip, frame.tube]\n  core      = 229\n  stiffness = 25", "= 200\n", "= 180\n").Replace(cabled), out)
	run := read(t, out)
	assert.Equal(t, []float64{231.25, 229, 12.5, 41.5, 180}, []float64{run.Cables[4].Core, run.Cables[5].Core, run.Cables[0].Ends[0].Engaged, run.Cables[1].Stiffness, run.Pairs[1].Pretension})

	// Over the lines of a list; and where nothing is to be changed.
	long := strings.Replace(cabled, "[frame.grip, frame.tube]\n  stiffness", "[ # held\n    frame.grip, frame.tube\n  ] # fast\n  stiffness", 1)
	assert.Equal(t, strings.Replace(long, "] # fast\n", "] # fast\n  core      = 229\n", 1), rewrite(t, long, Change{"choke.core", 229}))
	assert.Equal(t, cabled, rewrite(t, cabled, Change{"choke.core", 230}, Change{"gas.core", 230.5}, Change{"lift-up.stiffness", 38}))
	// Places move what is drawn from them.
	assert.Equal(t, strings.Replace(cabled, "[-30, 40]", "[-20, 40]", 1), rewrite(t, cabled, Change{"lever.pull.x", -20}))

	for dimension, says := range map[string]string{
		"lift-up.core":                 "the file has no number for",
		"tail-left.stiffness":          "the file has no number for",
		"lift-up.conduit-form.engaged": `did you mean "lift-up.conduit-from.engaged"?`,
		"lift-down.conduit-to.engaged": "the file has no number for",
	} {
		_, err := Rewrite(&Source{Name: "test.hcl", Text: []byte(cabled)}, []Change{{dimension, 3}})
		assert.ErrorContains(t, err, says, dimension)
	}
}

// A cable that a faulty pair may be of is not told to lack one.
func TestFaultyPairsAreToldOnce(t *testing.T) {
	for name, c := range map[string]struct{ old, new, says string }{
		"a name mistaken": {"[lift-up, lift-down]", "[lift-up, lift-dwn]", `there is no cable called "lift-dwn"; did you mean "lift-down"?`},
		"a kind mistaken": {`pair "lift" {`, `pare "lift" {`, `there is no kind of block "pare"`},
		"no list":         {"[lift-up, lift-down]", "lift-up", "a list is wanted here"},
		"no pretension":   {"  pretension = 120\n", "", "no pretension"},
		"a cable's fault": {"stiffness = 38", "stifness = 38", `did you mean "stiffness"?`},
		"a part's fault":  {"pivot = [1000, 0]", "pivot = [1000, 0, 0, 0]", "a point has two or three coordinates"},
		"a point's name":  {"from      = crosshead.up", "from      = crosshead.upp", `did you mean "crosshead.up"?`},
	} {
		require.Contains(t, cabled, c.old)
		list := faults(t, strings.Replace(cabled, c.old, c.new, 1))
		require.Len(t, list, 1, "%s: %v", name, list)
		assert.Contains(t, list[0].Says, c.says, name)
	}
}
