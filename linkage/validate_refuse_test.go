package linkage

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// everything has one of every kind of thing that a run may hold.
const everything = `
run "Everything" {
  units     = "mm"
  forward   = [1, 0]
  up        = [0, 1]
  sketch    = 2
  rigged-at = 15
  airframe  = "steel"
}
fixed "frame" {
  points = { pin = [0, 0], near = [-40, 40], far = [240, 40], hole = [100, -30] }
  round "tube" {
    at     = [0, -60]
    radius = 10
  }
}
part "lever" {
  pivot  = frame.pin
  points = { eye = [0, 50], low = [0, -20] }
  bolts  = { eye = [0, 0, 1] }
  edge "heel" {
    through = [[0, 0], [20, -20]]
    thick   = 4
    z       = [-3, 3]
  }
}
part "grip" {
  pivot  = lever.eye
  points = { end = [30, 60] }
}
part "arm" {
  pivot  = [200, 0]
  points = { eye = [200, 50], top = [200, 70] }
}
part "slider" {
  slide  = [1, 0]
  points = { eye = [330, 50] }
}
part "drum" {
  pivot  = [0, 300]
}
part "wheel" {
  pivot  = [200, 300]
}
rod "link" {
  from         = lever.eye
  to           = arm.eye
  diameter     = 8
  misalignment = 12
  points       = { bracket = [100, 60] }
  end "from" {
    thread  = "M6x1"
    engaged = 14
  }
}
rod "push" {
  from = arm.eye
  to   = slider.eye
}
rod "second" {
  from        = lever.low
  to          = arm.top
  second-path = true
  play        = 1
}
cable "up" {
  from      = drum
  to        = wheel
  radius    = [50, 50]
  winds     = ["up", "down"]
  stiffness = 100
}
cable "down" {
  from      = drum
  to        = wheel
  radius    = [50, 50]
  winds     = ["down", "up"]
  stiffness = 100
}
cable "bowden" {
  from    = grip.end
  to      = arm.top
  conduit = [frame.near, frame.far]
  spring  = "plus"
  end "conduit-from" {
    thread  = "M6x1"
    engaged = 14
  }
}
pair "both" {
  cables     = [up, down]
  pretension = 100
}
control "hand" {
  of   = lever
  from = -30
  to   = 30
}
control "crank" {
  of   = drum
  held = [0, 5]
}
output "reads" { of = arm }
output "goes" {
  of    = arm.top
  along = [1, 0]
}
stop "aft" {
  of     = lever
  at     = -20
  adjust = [-25, -15]
}
stop "metal" { touch = [lever.heel, frame.tube] }
pin "rig" {
  of = arm
  at = 0
}
vary "heel" {
  of   = lever.heel.1.x
  low  = -500
  high = 500
  step = 1
}
vary "place" {
  of    = lever.eye
  among = [[1, 50], [2, 50]]
}
vary "stop" {
  of    = aft.at
  among = [-22, -21]
}
require "opposite" {
  of     = [lever, arm]
  within = 90
}
require "steady" {
  of      = arm
  control = crank
  within  = 1
}
require "clearance" {
  between = [lever.heel, frame.tube]
  least   = 1
}
require "order" {
  first = aft
  then  = metal
  least = 0
}
require "taut" {
  of    = both
  least = 10
}
require "meets" {
  of     = [lever.low, frame.hole]
  within = 500
}
require "second-path" { most = 5 }
taped "t" {
  from   = lever.eye
  to     = arm.pivot
  is     = 206
  within = 1
}
measured "m" {
  of       = reads
  control  = hand
  readings = [[0, 0]]
  within   = 1
}
`

// Each thing that is spoiled in a run that is otherwise whole is refused by itself, in
// words that say what it is about.
func TestValidateRefuses(t *testing.T) {
	whole := func() *Run { return readText(t, everything) }
	require.NoError(t, whole().Validate())
	stranger := whole()
	nan := math.NaN()
	part := func(run *Run, name string) *Part {
		for _, p := range run.Parts {
			if p.Name == name {
				return p
			}
		}
		return nil
	}
	for what, c := range map[string]struct {
		spoil func(run *Run)
		want  string
	}{
		"an index":               {func(r *Run) { r.Rods[1].Index = 0 }, "Rods[1] of the run has the Index 0"},
		"a nil end":              {func(r *Run) { r.Rods[0].Ends[0] = nil }, `rod "link": an entry of its Ends is nil`},
		"a nil adjuster":         {func(r *Run) { r.Cables[2].Ends[0] = nil }, `cable "bowden": an entry of its Ends is nil`},
		"a nil rigging":          {func(r *Run) { r.Riggings[0] = nil }, "Riggings[0] of the run is nil"},
		"a unit":                 {func(r *Run) { r.Units = "ft" }, `the run's unit is "ft"`},
		"forward":                {func(r *Run) { r.Forward = &Vec{X: 2} }, "forward, up and right of the run are directions at length 1"},
		"up":                     {func(r *Run) { r.Up = &Vec{} }, "forward, up and right of the run are directions at length 1"},
		"a sketch":               {func(r *Run) { r.Sketch = -1 }, "a number of the run itself is none"},
		"uncertain":              {func(r *Run) { r.Uncertain = -1 }, "a number of the run itself is none"},
		"rigged at":              {func(r *Run) { r.RiggedAt = &nan }, "a number of the run itself is none"},
		"a motion":               {func(r *Run) { part(r, "lever").Motion = 9 }, `part "lever": its motion is none that there is`},
		"an axis":                {func(r *Run) { part(r, "lever").Axis = Vec{} }, `part "lever": its axis is no direction at length 1`},
		"an axis of what slides": {func(r *Run) { part(r, "slider").Axis = Vec{X: 2} }, `part "slider": its axis is no direction at length 1`},
		"a slide":                {func(r *Run) { part(r, "slider").Slide = Vec{X: nan} }, `part "slider": its slide is no direction at length 1`},
		"a floating part":        {func(r *Run) { part(r, "arm").Motion, part(r, "arm").Points = Floats, nil }, `part "arm": it is held by rods alone, and has no points`},
		"what is fixed, carried": {func(r *Run) { part(r, "grip").Motion = Fixed }, `part "grip": it has no pivot to be carried by`},
		"a carrier of another":   {func(r *Run) { part(r, "grip").Carrier.Part = part(stranger, "lever") }, `part "grip": what its pivot is on is no point of another part of the run`},
		"a carrier beyond":       {func(r *Run) { part(r, "grip").Carrier.Point = 9 }, `part "grip": what its pivot is on is no point of another part of the run`},
		"its own carrier":        {func(r *Run) { g := part(r, "grip"); g.NamedPivot = &PointRef{Part: g}; g.Carrier = g.NamedPivot }, `part "grip": what its pivot is on is no point`},
		"a carrier unnamed":      {func(r *Run) { part(r, "grip").NamedPivot = nil }, `part "grip": its Carrier is not its NamedPivot`},
		"no carrier":             {func(r *Run) { part(r, "grip").Carrier = nil }, `part "grip": it has a Carrier where its pivot is on a part that moves, and only there`},
		"a fixed carrier":        {func(r *Run) { l := part(r, "lever"); l.Carrier = l.NamedPivot }, `part "lever": it has a Carrier where its pivot is on a part that moves, and only there`},
		"a circle": {func(r *Run) {
			l := part(r, "lever")
			l.Carrier = &PointRef{Part: part(r, "grip")}
			l.NamedPivot = l.Carrier
		}, `it is carried by itself in a circle`},
		"a pivot":                 {func(r *Run) { part(r, "arm").Pivot.X = 1e300 }, `part "arm": its pivot is no place`},
		"a point":                 {func(r *Run) { part(r, "arm").Points[0].At.Y = nan }, `part "arm": its point "eye" is no place`},
		"a bolt":                  {func(r *Run) { part(r, "lever").Points[0].Bolt = &Vec{} }, `part "lever": the bolt at "eye" is no direction`},
		"a round":                 {func(r *Run) { part(r, "frame").Features[0].Radius = 0 }, `part "frame", "tube": a round has one center and a radius more than 0`},
		"a round of two":          {func(r *Run) { f := &part(r, "frame").Features[0]; f.Through = append(f.Through, Vec{}) }, `part "frame", "tube": a round has one center`},
		"an edge of one":          {func(r *Run) { f := &part(r, "lever").Features[0]; f.Through = f.Through[:1] }, `part "lever", "heel": an edge goes through two points at least`},
		"a shape":                 {func(r *Run) { part(r, "lever").Features[0].Shape = 7 }, `part "lever", "heel": its shape is none`},
		"an edge":                 {func(r *Run) { part(r, "lever").Features[0].Through[1].X = nan }, `part "lever", "heel": a number of it is none`},
		"a thickness":             {func(r *Run) { part(r, "lever").Features[0].Radius = -1 }, `part "lever", "heel": a number of it is none`},
		"heights":                 {func(r *Run) { part(r, "lever").Features[0].Z = &[2]float64{3, -3} }, `part "lever", "heel": a number of it is none`},
		"a rod's end":             {func(r *Run) { r.Rods[0].To = PointRef{} }, `rod "link": its ends are not on points of the run`},
		"a rod's end elsewhere":   {func(r *Run) { r.Rods[0].From.Part = part(stranger, "lever") }, `rod "link": its ends are not on points of the run`},
		"a rod's end on both":     {func(r *Run) { r.Rods[1].From.Rod = r.Rods[0] }, `rod "push": its ends are not on points of the run`},
		"a length":                {func(r *Run) { r.Rods[0].Length = 0 }, `rod "link": a length of it is none, too large, or not more than 0`},
		"a drawn length":          {func(r *Run) { r.Rods[0].Drawn = nan }, `rod "link": a length of it is none`},
		"play":                    {func(r *Run) { r.Rods[2].Play = -1 }, `rod "second": a length of it is none`},
		"a diameter":              {func(r *Run) { d := -8.0; r.Rods[0].Diameter = &d }, `rod "link": neither its diameter nor its misalignment is below 0`},
		"a misalignment":          {func(r *Run) { d := -8.0; r.Rods[0].Misalignment = &d }, `rod "link": neither its diameter nor its misalignment is below 0`},
		"points of a second path": {func(r *Run) { r.Rods[2].Points = r.Rods[0].Points }, `rod "second": a second path has no points of its own`},
		"points in space":         {func(r *Run) { r.Plane = false }, `rod "link": a rod has points of its own in a plane run alone`},
		"a rod's point":           {func(r *Run) { r.Rods[0].Points[0].At.X = nan }, `rod "link": its point "bracket" is no place`},
		"a rod on itself":         {func(r *Run) { r.Rods[0].To = PointRef{Rod: r.Rods[0]} }, `rod "link": it hangs on itself in a circle`},
		"another's end":           {func(r *Run) { r.Rods[0].Ends[0].Rod = r.Rods[1] }, `rod "link": its ends are its own`},
		"a side":                  {func(r *Run) { r.Rods[0].Ends[0].Side = "up" }, `rod "link": its ends are its own`},
		"a side twice":            {func(r *Run) { r.Rods[0].Ends = append(r.Rods[0].Ends, r.Rods[0].Ends[0]) }, `rod "link": its ends are its own`},
		"a pitch":                 {func(r *Run) { r.Rods[0].Ends[0].Thread.Pitch = 0 }, `rod "link": a number of a threaded end is none`},
		"a step":                  {func(r *Run) { r.Rods[0].Ends[0].Step = -1 }, `rod "link": a number of a threaded end is none`},
		"thread":                  {func(r *Run) { r.Rods[0].Ends[0].Most = &nan }, `rod "link": a number of a threaded end is none`},
		"both kinds of cable":     {func(r *Run) { r.Cables[2].Quadrants = r.Cables[0].Quadrants }, `cable "bowden": it has either From, To and Conduit, or Quadrants`},
		"neither kind":            {func(r *Run) { r.Cables[0].Quadrants = nil }, `cable "up": it has either From, To and Conduit, or Quadrants`},
		"a cable without from":    {func(r *Run) { r.Cables[2].From = nil }, `cable "bowden": it needs all of From, To and Conduit`},
		"a cable of a conduit":    {func(r *Run) { r.Cables[2].From, r.Cables[2].To = nil, nil }, `cable "bowden": it needs all of From, To and Conduit`},
		"a cable without conduit": {func(r *Run) { r.Cables[2].Conduit = nil }, `cable "bowden": it needs all of From, To and Conduit`},
		"a cable on a rod":        {func(r *Run) { r.Cables[2].To = &PointRef{Rod: r.Rods[0]} }, `cable "bowden": it is held on points of the run's parts alone`},
		"a conduit elsewhere":     {func(r *Run) { r.Cables[2].Conduit[1].Part = part(stranger, "frame") }, `cable "bowden": it is held on points of the run's parts alone`},
		"a core":                  {func(r *Run) { r.Cables[2].Core = 0 }, `cable "bowden": its core is no length`},
		"a quadrant":              {func(r *Run) { r.Cables[0].Quadrants[1] = part(stranger, "wheel") }, `cable "up": its quadrants are two parts that turn on the airframe`},
		"one quadrant":            {func(r *Run) { r.Cables[0].Quadrants[1] = r.Cables[0].Quadrants[0] }, `cable "up": its quadrants are two parts that turn on the airframe`},
		"a sliding quadrant":      {func(r *Run) { r.Cables[0].Quadrants[1] = part(r, "slider") }, `cable "up": its quadrants are two parts that turn on the airframe`},
		"a radius":                {func(r *Run) { r.Cables[0].Radius[1] = 0 }, `cable "up": a quadrant has a radius more than 0 and winds +1 or -1`},
		"a way to wind":           {func(r *Run) { r.Cables[0].Winds[0] = 0.5 }, `cable "up": a quadrant has a radius more than 0 and winds +1 or -1`},
		"stiffness":               {func(r *Run) { r.Cables[2].Stiffness = -1 }, `cable "bowden": a number of it is none`},
		"what grew":               {func(r *Run) { r.Cables[0].Grown = nan }, `cable "up": a number of it is none`},
		"a pair that it isn't in": {func(r *Run) { r.Cables[2].Pair = r.Pairs[0] }, `cable "bowden": it isn't in the pair that it names`},
		"another's adjuster":      {func(r *Run) { r.Cables[2].Ends[0].Cable = r.Cables[0] }, `cable "bowden": its adjusters are its own`},
		"a pair of one":           {func(r *Run) { r.Pairs[0].Cables[1] = r.Pairs[0].Cables[0] }, `pair "both": its cables are two of the run's`},
		"a pair that isn't named": {func(r *Run) { r.Cables[0].Pair = nil }, `pair "both": its cables are two of the run's, which name it`},
		"a pair elsewhere":        {func(r *Run) { r.Pairs[0].Cables[0] = stranger.Cables[0] }, `pair "both": its cables are two of the run's`},
		"pretension":              {func(r *Run) { r.Pairs[0].Pretension = 0 }, `pair "both": it has a pretension`},
		"a pair that can't give":  {func(r *Run) { r.Cables[1].Stiffness = 0 }, `pair "both": it has a pretension, and its cables are of one kind and have a stiffness`},
		"a control of nothing":    {func(r *Run) { r.Controls[0].Of = nil }, `control "hand": it moves a part of the run that turns or slides`},
		"a control twice":         {func(r *Run) { r.Controls[1].Of = r.Controls[0].Of }, `control "crank": it moves a part of the run that turns or slides, and no other control's`},
		"explored from above":     {func(r *Run) { r.Controls[0].From = 1 }, `control "hand": it is explored from 0 or less`},
		"explored to below":       {func(r *Run) { r.Controls[0].To = -1 }, `control "hand": it is explored from 0 or less`},
		"nothing explored":        {func(r *Run) { r.Controls[0].From, r.Controls[0].To = 0, 0 }, `control "hand": it is explored from 0 or less`},
		"explored too far":        {func(r *Run) { r.Controls[0].To = 1e5 }, `control "hand": it is explored from 0 or less`},
		"held nowhere":            {func(r *Run) { r.Controls[1].Held = nil }, `control "crank": Held has one setting at least`},
		"an output of both":       {func(r *Run) { r.Outputs[1].Part = part(r, "arm") }, `output "goes": it is of a part of the run that moves, or of a point`},
		"an output of nothing":    {func(r *Run) { r.Outputs[0].Part = nil }, `output "reads": it is of a part of the run that moves, or of a point`},
		"an output of the frame":  {func(r *Run) { r.Outputs[0].Part = part(r, "frame") }, `output "reads": it is of a part of the run that moves`},
		"along":                   {func(r *Run) { r.Outputs[1].Along = Vec{} }, `output "goes": along is no direction at length 1`},
		"reads":                   {func(r *Run) { r.Outputs[0].Reads = nan }, `output "reads": what it reads is no number`},
		"a stop of the frame":     {func(r *Run) { r.Stops[0].Of = part(r, "frame") }, `stop "aft": it is of a part of the run that moves`},
		"metal of one":            {func(r *Run) { r.Stops[1].Touch[1] = r.Stops[1].Touch[0] }, `stop "metal": it is of a part of the run that moves, or where two pieces`},
		"metal beyond":            {func(r *Run) { r.Stops[1].Touch[1].Feature = 4 }, `stop "metal": it is of a part of the run that moves, or where two pieces`},
		"a thin rod as metal":     {func(r *Run) { r.Stops[1].Touch[1] = FeatureRef{Rod: r.Rods[1]} }, `stop "metal": it is of a part of the run that moves, or where two pieces`},
		"where a stop is":         {func(r *Run) { r.Stops[0].At = nan }, `stop "aft": a number of it is none`},
		"how it is adjusted":      {func(r *Run) { r.Stops[0].Adjust = &[2]float64{5, 5} }, `stop "aft": a number of it is none`},
		"by no step":              {func(r *Run) { r.Stops[0].Step = 0 }, `stop "aft": a stop that can be set has a step`},
		"a stop's side":           {func(r *Run) { r.Stops[0].Side = "left" }, `stop "aft": its side is "low", "high" or empty`},
		"a pin":                   {func(r *Run) { r.Pins[0].Of = part(r, "frame") }, `pin "rig": it holds a part of the run that moves`},
		"a pin's hole":            {func(r *Run) { r.Pins[0].Within = -1 }, `pin "rig": it holds a part of the run that moves, at a number`},
		"a kind":                  {func(r *Run) { r.Requirements[0].Kind = "nice" }, `require "nice": there is no such kind`},
		"one of two":              {func(r *Run) { r.Requirements[0].Of = r.Requirements[0].Of[:1] }, `require "opposite": what it is about is not of the run`},
		"degrees and a length":    {func(r *Run) { r.Requirements[0].Of[1] = Subject{Part: part(r, "slider")} }, `require "opposite": what it is about is not of the run`},
		"two things in one":       {func(r *Run) { r.Requirements[0].Of[1].Output = r.Outputs[0] }, `require "opposite": what it is about is not of the run`},
		"a foreign control":       {func(r *Run) { r.Requirements[1].Control = stranger.Controls[1] }, `require "steady": what it is about is not of the run`},
		"no two features":         {func(r *Run) { r.Requirements[2].Between[0] = FeatureRef{} }, `require "clearance": what it is about is not of the run`},
		"one stop":                {func(r *Run) { r.Requirements[3].Then = r.Requirements[3].First }, `require "order": what it is about is not of the run`},
		"no pair":                 {func(r *Run) { r.Requirements[4].Pair = nil }, `require "taut": what it is about is not of the run`},
		"no two points":           {func(r *Run) { r.Requirements[5].Points[1] = PointRef{} }, `require "meets": what it is about is not of the run`},
		"no most":                 {func(r *Run) { r.Requirements[6].Most = nil }, `require "second-path": what it is about is not of the run`},
		"a limit":                 {func(r *Run) { r.Requirements[0].Within = nan }, `require "opposite": a number of it is none`},
		"a way to measure":        {func(r *Run) { r.Measurements[0].Kind = "paced" }, `paced "t": nothing is measured so`},
		"a place":                 {func(r *Run) { r.Measurements[0].To = PlaceRef{Part: part(r, "slider"), Point: -1} }, `taped "t": it goes from and to points and pivots of the run's parts`},
		"a place beyond":          {func(r *Run) { r.Measurements[0].From.Point = 5 }, `taped "t": it goes from and to points and pivots of the run's parts`},
		"within":                  {func(r *Run) { r.Measurements[0].Within = 0 }, `taped "t": a number of it is none`},
		"what was read of":        {func(r *Run) { r.Riggings[0].Of = Subject{Control: r.Controls[0]} }, `measured "m": it is of an output or part of the run, against a control of it`},
		"against what":            {func(r *Run) { r.Riggings[0].Control = nil }, `measured "m": it is of an output or part of the run, against a control of it`},
		"no readings":             {func(r *Run) { r.Riggings[0].Readings = nil }, `measured "m": it has one reading at least`},
		"a reading":               {func(r *Run) { r.Riggings[0].Readings[0][1] = nan }, `measured "m": it has one reading at least`},
	} {
		run := whole()
		c.spoil(run)
		err := run.Validate()
		if assert.Error(t, err, what) {
			assert.Contains(t, err.Error(), c.want, what)
		}
	}
}

// What is at a limit is no fault: a control that goes one way alone, a stop at the
// drawn position, play of nothing, a rod turned any part of a turn.
func TestValidateTakesWhatIsAtALimit(t *testing.T) {
	run := readText(t, everything)
	run.Controls[0].To = 0
	run.Stops[0].At = 0
	run.Rods[2].Play = 0
	run.Rods[0].Ends[0].Step = 0
	run.Pins[0].Within = 0
	run.Sketch, run.Uncertain = 0, 0
	assert.NoError(t, run.Validate())
	run.Controls[0].From, run.Controls[0].To = 0, 30
	assert.NoError(t, run.Validate())
}

// readText reads a run that must be sound.
func readText(t testing.TB, text string) *Run {
	t.Helper()
	run, err := Read(&Source{Name: "everything.hcl", Text: []byte(text)})
	require.NoError(t, err)
	return run
}

// Products of vectors by hand: (1, 2, 3) and (4, 5, 6) are the textbooks' pair.
func TestVec(t *testing.T) {
	a, b := Vec{X: 1, Y: 2, Z: 3}, Vec{X: 4, Y: 5, Z: 6}
	assert.Equal(t, Vec{X: -3, Y: 6, Z: -3}, a.Cross(b))
	assert.InDelta(t, 32, a.Dot(b), 0)
	assert.Equal(t, Vec{X: 5, Y: 7, Z: 9}, a.Add(b))
	assert.Equal(t, Vec{X: 3, Y: 3, Z: 3}, b.Sub(a))
	assert.Equal(t, Vec{X: 2, Y: 4, Z: 6}, a.Scale(2))
	assert.InDelta(t, 3, Vec{X: 1, Y: 2, Z: 2}.Norm(), 0)
	for _, v := range []Vec{{X: math.Inf(1)}, {Y: math.NaN()}, {Z: math.Inf(-1)}} {
		assert.False(t, v.Finite())
	}
	assert.True(t, a.Finite())
}

// What only rounding can have left of a direction is taken away, of one that is given
// at length 1 too, so that an axis square to the drawing is known as one.
func TestDirectionWithoutNoise(t *testing.T) {
	b := NewBuilder("Axis", RunSpec{Units: Millimeters})
	b.Part("lever", PartSpec{Pivot: &Vec{}, Axis: &Vec{X: 1e-13, Y: -1e-14, Z: 1}})
	b.Control("hand", ControlSpec{Of: "lever"})
	run, err := b.Run()
	require.NoError(t, err)
	assert.Equal(t, Vec{Z: 1}, run.Parts[0].Axis)
	assert.True(t, run.Plane)
}

// Nothing has no direction, and what has is brought to length 1 whatever its size.
func TestUnit(t *testing.T) {
	assert.Equal(t, Vec{}, Vec{}.Unit())
	for _, size := range []float64{1e-3, 1, 5, 1e6} {
		assert.InDelta(t, 0, Vec{X: 3 * size, Y: -4 * size}.Unit().Sub(Vec{X: 0.6, Y: -0.8}).Norm(), 1e-15)
	}
}
