package linkage

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// head is a rotor head in which everything that moves in space can be read.
func head(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("../testdata/space/head.hcl")
	require.NoError(t, err)
	return string(text)
}

// part, output and joint find them by their names.
func partCalled(t testing.TB, run *Run, name string) *Part {
	t.Helper()
	for _, p := range run.Parts {
		if p.Name == name {
			return p
		}
	}
	require.Fail(t, "no part "+name)
	return nil
}

func TestReadsWhatMovesInSpace(t *testing.T) {
	run := readText(t, head(t))
	assert.False(t, run.Plane)
	plate := partCalled(t, run, "swashplate")
	assert.Equal(t, Tilts, plate.Motion)
	assert.Equal(t, Vec{}, plate.Pivot)
	assert.Equal(t, "sleeve.center", plate.Carrier.String())
	assert.Equal(t, Vec{0, 1, 0}, plate.SquareTo, "left out")
	assert.Equal(t, plate.SquareTo, plate.Axis, "its bolts lie along it")
	assert.Equal(t, "swashplate.middle", partCalled(t, run, "rotating-plate").Carrier.String())

	joint := run.Joints[0]
	assert.Equal(t, [2]string{"upper-link.tip", "lower-link.tip"}, [2]string{joint.Of[0].String(), joint.Of[1].String()})
	assert.Zero(t, joint.Gap, "drawn from both sides at [0, 85, 140]")
	_, hinge := joint.Hinge()
	assert.False(t, hinge, "the plate that carries the lower link tilts")

	assert.Equal(t, &Rotor{Span: run.Rotor.Span, Hub: partCalled(t, run, "hub")}, run.Rotor)
	assert.Equal(t, Vec{-1, 0, 0}, *run.Outputs[0].Tilts, "forward is where the nose is")
	assert.Equal(t, Vec{0, 0, -1}, *run.Outputs[1].Tilts)
	assert.Nil(t, run.Outputs[2].Tilts)
	assert.Equal(t, "blade-a.le", run.Outputs[2].LeadingEdge.String())
	pitch := run.Requirements[:2]
	assert.Equal(t, []float64{0, 10, 1}, []float64{pitch[0].Low, pitch[0].High, pitch[0].Within})
	assert.Equal(t, 12.0, *pitch[1].Most)
	assert.NoError(t, run.Validate())
}

func TestReadsASleeveAndWhatRoams(t *testing.T) {
	run := readText(t, strings.NewReplacer(
		`  slide  = [0, 1]
`, `  pivot  = [0, -50]
  axis   = [0, 2, 0]
  slides = true
`,
		"  ball = sleeve.center\n  arms =", "  floats    = \"space\"\n  square-to = [0, 3, 4]\n  points =",
	).Replace(head(t)))
	sleeve := partCalled(t, run, "sleeve")
	assert.Equal(t, TurnsAndSlides, sleeve.Motion)
	assert.Equal(t, []Vec{{0, -50, 0}, {0, 1, 0}}, []Vec{sleeve.Pivot, sleeve.Axis})
	plate := partCalled(t, run, "swashplate")
	assert.Equal(t, Roams, plate.Motion)
	assert.Nil(t, plate.Carrier)
	assert.Equal(t, Vec{0, 0.6, 0.8}, plate.SquareTo, "at length 1")
	assert.NoError(t, run.Validate())
	assert.Equal(t, Turns, partCalled(t, readText(t, strings.Replace(head(t), "  pivot = [110, -220]\n", "  pivot = [110, -220]\n  slides = false\n", 1)), "lever").Motion)
}

// A joint is the hinge that it looks like where both parts keep an axis parallel, and a
// ball in space elsewhere.
func TestHinge(t *testing.T) {
	const plane = `run "Hinge" {
  units = "mm"
}
part "lever" {
  pivot = [0, 0]
  axis  = [0, 0, 1]
  arms  = { tip = [0, 50] }
}
part "crank" {
  pivot = [100, 0]
  axis  = [0, 0, 1]
  arms  = { tip = [-100, 50, 7] }
}
part "slider" {
  slide  = [1, 0]
  points = { tip = [-100, 0] }
}
part "other" {
  slide  = [0, 1]
  points = { tip = [-100, 0] }
}
part "beam" {
  points = { tip = [-50, 0], tail = [-80, 0] }
}
joint "apex" {
  of = [lever.tip, crank.tip]
}
control "hand" {
  of = lever
}
`
	z := Vec{0, 0, 1}
	for name, c := range map[string]struct {
		swap  []string
		axis  Vec
		hinge bool
		gap   float64
	}{
		"both about z":            {nil, z, true, 0},
		"both about another axis": {[]string{"[0, 0, 1]", "[1, 0, 0]"}, Vec{1, 0, 0}, true, 7},
		"about opposite axes":     {[]string{"axis  = [0, 0, 1]\n  arms  = { tip = [-100", "axis  = [0, 0, -1]\n  arms  = { tip = [-100"}, z, true, 0},
		"about different axes":    {[]string{"axis  = [0, 0, 1]\n  arms  = { tip = [-100", "axis  = [0, 1, 0]\n  arms  = { tip = [-100"}, Vec{}, false, 7},
		"with a slide":            {[]string{"crank.tip]", "slider.tip]"}, z, true, 111.803398874989},
		"with a slide out of it":  {[]string{"crank.tip]", "slider.tip]", "slide  = [1, 0]", "slide  = [1, 0, 1]"}, Vec{}, false, 111.803398874989},
		"of two slides":           {[]string{"lever.tip, crank.tip]", "slider.tip, other.tip]"}, z, true, 0},
		"of two slides in space":  {[]string{"lever.tip, crank.tip]", "slider.tip, other.tip]", "slide  = [1, 0]", "slide  = [0, 0, 1]"}, Vec{-1, 0, 0}, true, 0},
		"with what floats":        {[]string{"crank.tip]", "beam.tip]"}, z, true, 70.7106781186548},
		"with a sleeve":           {[]string{"axis  = [0, 0, 1]\n  arms  = { tip = [-100", "axis  = [0, 0, 1]\n  slides = true\n  arms  = { tip = [-100"}, Vec{}, false, 7},
		"with what roams":         {[]string{"crank.tip]", "beam.tip]", "points = { tip = [-50", "floats = \"space\"\n  points = { tip = [-50"}, Vec{}, false, 70.7106781186548},
		"carried alike":           {[]string{"pivot = [100, 0]", "pivot = lever.tip", "tip = [-100, 50, 7]", "tip = [0, 3, 7]"}, z, true, 3},
		"carried by what tilts":   {[]string{"pivot = [100, 0]", "pivot = beam.tip", "points = { tip = [-50, 0]", "floats = \"space\"\n  points = { tip = [0, 50]", "tip = [-100, 50, 7]", "tip = [0, 3, 7]"}, Vec{}, false, 7.61577310586391},
	} {
		t.Run(name, func(t *testing.T) {
			run := readText(t, strings.NewReplacer(c.swap...).Replace(plane))
			axis, ok := run.Joints[0].Hinge()
			assert.Equal(t, c.hinge, ok)
			if ok {
				assert.Equal(t, c.axis, axis)
			}
			assert.InDelta(t, c.gap, run.Joints[0].Gap, 1e-12, "of the places as drawn, by hand")
			assert.Equal(t, c.gap == 0, run.Meets(run.Joints[0]))
			assert.Equal(t, c.gap != 0, len(run.OpenJoints()) == 1)
		})
	}
}

// What changes a place changes the gap of a joint there, and what is taken away takes the
// joint and the rotor with it.
func TestJointsFollowEdits(t *testing.T) {
	run := readText(t, head(t))
	tip := slices.IndexFunc(run.Dimensions(), func(d Dimension) bool { return d.String() == "upper-link.tip.x" })
	moved, err := run.With(Set(run.Dimensions()[tip], 3))
	require.NoError(t, err)
	assert.Equal(t, 3.0, moved.Joints[0].Gap, "drawn at x = 0")
	assert.Zero(t, run.Joints[0].Gap)
	assert.Same(t, partCalled(t, moved, "hub"), moved.Rotor.Hub)
	assert.Same(t, moved.Joints[0], moved.Joint(run.Joints[0]))

	for name, gone := range map[string]Element{"joint": run.Joints[0], "link": partCalled(t, run, "upper-link")} {
		less, err := run.With(Remove(gone))
		require.NoError(t, err)
		assert.Empty(t, less.Joints, name)
		assert.NotNil(t, less.Rotor, name)
	}
	less, err := run.With(Remove(partCalled(t, run, "hub")))
	require.NoError(t, err)
	assert.Nil(t, less.Rotor)
	assert.Empty(t, less.Joints, "the hub carries the upper link")
	_, err = run.With(Grip(partCalled(t, run, "swashplate"), -8, 8))
	assert.ErrorContains(t, err, "hasn't got a part that is to be gripped")
}

// A ball given by numbers is set, listed and written back as a pivot is.
func TestABallIsSet(t *testing.T) {
	text := strings.Replace(head(t), "ball = sleeve.center", "ball = [0, 1/2, 0]", 1)
	set, err := Read(&Source{Name: "head.hcl", Text: []byte(text)}, Setting{"swashplate.pivot.y", "2"})
	require.NoError(t, err)
	plate := partCalled(t, set, "swashplate")
	assert.Equal(t, Vec{0, 2, 0}, plate.Pivot)
	assert.Equal(t, Vec{-90, 2, 0}, plate.Points[0].At, "arms go with the ball")
	n, ok := set.Number("swashplate.pivot.y")
	assert.True(t, ok)
	assert.Equal(t, 2.0, n.Value())
	assert.Contains(t, rewrite(t, text, Change{"swashplate.pivot.y", 2}), "ball = [0, 2, 0]")
	_, err = Read(&Source{Name: "head.hcl", Text: []byte(head(t))}, Setting{"swashplate.pivot.y", "2"})
	assert.ErrorContains(t, err, `the pivot of "swashplate" is carried by sleeve.center: set sleeve.center.y`)
}

// The other side of a ball, a joint and a tilt is written out, and what stands on the
// plane is its own image.
func TestMirrorsWhatTilts(t *testing.T) {
	const sides = `run "Sides" {
  units    = "mm"
  forward  = [0, 0, -1]
  up       = [0, 1, 0]
  symmetry = "x"
}
fixed "frame" {
  points = { right-low = [300, -100, 50], left-low = [-300, -100, 50] }
}
part "ring" {
  ball = [0, 0, 0]
  arms = { right = [60, 0, 0], left = [-60, 0, 0], fore = [0, 0, -60] }
}
part "right-cup" {
  ball      = [300, 0, 0]
  square-to = [1, 2, 0]
  arms      = { in = [-50, 0, 0], out = [40, 0, 30] }
}
part "left-cup" { mirror = right-cup }
part "right-tie" {
  floats = "space"
  points = { a = [60, 0, 0], b = [250, 0, 0] }
}
part "left-tie" { mirror = right-tie }
part "stick" {
  pivot  = [0, -100, 0]
  axis   = [1, 0, 0]
  points = { horn = [0, -100, -60] }
}
joint "right-inner" {
  of = [ring.right, right-tie.a]
}
joint "left-inner" { mirror = right-inner }
joint "right-outer" {
  of         = [right-tie.b, right-cup.in]
  joint-play = 0.1
}
joint "left-outer" { mirror = right-outer }
rod "right-hold" {
  from = frame.right-low
  to   = right-cup.out
}
rod "left-hold" { mirror = right-hold }
rod "lift" {
  from = stick.horn
  to   = ring.fore
}
control "hand" {
  of = stick
}
output "right-lean" {
  of    = right-cup
  tilts = "right"
}
output "left-lean" { mirror = right-lean }
output "ring-right" {
  of    = ring
  tilts = [1, 0, 0]
}
output "ring-left" { mirror = ring-right }
`
	run := readText(t, sides)
	cup := partCalled(t, run, "left-cup")
	right := partCalled(t, run, "right-cup").SquareTo
	assert.Equal(t, Tilts, cup.Motion)
	assert.Equal(t, Vec{-300, 0, 0}, cup.Pivot)
	assert.Equal(t, Vec{-right.X, right.Y, 0}, cup.SquareTo)
	assert.Equal(t, Roams, partCalled(t, run, "left-tie").Motion)
	names := func(j *Joint) []string { return []string{j.Of[0].String(), j.Of[1].String()} }
	assert.Equal(t, []string{"ring.left", "left-tie.a"}, names(run.Joints[1]))
	assert.Equal(t, []string{"left-tie.b", "left-cup.in"}, names(run.Joints[3]))
	assert.Equal(t, 0.1, *run.Joints[3].JointPlay)
	assert.Equal(t, Vec{-1, 0, 0}, *run.Outputs[1].Tilts, "to the left")
	assert.Same(t, partCalled(t, run, "ring"), run.Outputs[3].Part)
	assert.Equal(t, Vec{-1, 0, 0}, *run.Outputs[3].Tilts)

	out, err := WrittenOut(&Source{Name: "sides.hcl", Text: []byte(sides)})
	require.NoError(t, err)
	assert.Contains(t, string(out), "ball      = [-300, 0, 0]\n  square-to = [-1, 2, 0]")
	assert.NotContains(t, string(out), "mirror")

	over, err := Read(&Source{Text: []byte(strings.Replace(sides, `symmetry = "x"`, `symmetry = "y"`, 1))})
	assert.Nil(t, over)
	assert.ErrorContains(t, err, "square to no direction of the plane: mirror it too")
	_, err = Read(&Source{Text: []byte(strings.Replace(sides, "ball = [0, 0, 0]", "ball = [10, 0, 0]", 1))})
	assert.ErrorContains(t, err, "its ball isn't on the plane either: it lies at x = 10")
}

// Mirrored across the level, what is square to the drawn default points the other way.
func TestMirrorsTheDefaultOfSquareTo(t *testing.T) {
	run := readText(t, `run "Levels" {
  units    = "mm"
  symmetry = "y"
}
part "upper" {
  ball = [0, 100]
  arms = { out = [50, 0] }
}
part "lower" { mirror = upper }
part "lever" {
  pivot = [100, 0]
  arms  = { eye = [0, 90] }
}
rod "link" {
  from = lever.eye
  to   = upper.out
}
control "hand" {
  of = lever
}
`)
	assert.Equal(t, Vec{0, -1, 0}, partCalled(t, run, "lower").SquareTo)
}

// In an aircraft the joints and the rotor of a run are the aircraft's, by the names that
// they have there; a second rotor is refused.
func TestAircraftHasTheRotorOfARun(t *testing.T) {
	const aircraft = `aircraft "Whole" {
  craft = "rotorcraft"
}
run "head" {
  file = "head.hcl"
}
run "chain" {
  file = "chain.hcl"
}
require "cyclic-pitch" {
  of   = head.pitch-a
  most = 12
}
`
	files := map[string]string{"head.hcl": "../testdata/space/head.hcl", "chain.hcl": "../demo/chain.hcl"}
	open := func(name string) (*Source, error) {
		text, err := os.ReadFile(filepath.FromSlash(files[name]))
		return &Source{Name: name, Text: text}, err
	}
	run, err := ReadWith(&Source{Name: "whole.hcl", Text: []byte(aircraft)}, open)
	require.NoError(t, err)
	require.NoError(t, run.Validate())
	member := run.Aircraft.Members[0]
	assert.Equal(t, []any{"head.scissors", member}, []any{run.Joints[0].Name, run.Joints[0].In})
	assert.Same(t, partCalled(t, run, "head.hub"), run.Rotor.Hub)
	assert.False(t, run.Plane)
	only := run.Only(member)
	assert.Same(t, partCalled(t, only, "head.hub"), only.Rotor.Hub)
	assert.Len(t, only.Joints, 1)
	assert.Empty(t, run.Only(run.Aircraft.Members[1]).Joints)
	assert.Nil(t, run.Only(run.Aircraft.Members[1]).Rotor)

	files["chain.hcl"] = files["head.hcl"]
	_, err = ReadWith(&Source{Name: "whole.hcl", Text: []byte(aircraft)}, open)
	assert.ErrorContains(t, err, `"chain" has a rotor, and "head" has one already`)
}

// What joints give is told of each, and of the run where a joint says nothing.
func TestPlayOfWhatMakesPointsOne(t *testing.T) {
	run := readText(t, head(t)+"tolerance {\n  joint-play = 0.2\n}\n")
	assert.Equal(t, 0.2, run.PlayOf(run.Joints[0]))
	assert.True(t, run.HasPlay())
	run = readText(t, strings.Replace(head(t), "  of = [upper-link.tip", "  joint-play = 0.1\n  of = [upper-link.tip", 1))
	assert.Equal(t, 0.1, run.PlayOf(run.Joints[0]))
	assert.True(t, run.HasPlay())
	assert.False(t, readText(t, head(t)).HasPlay())
	assert.Zero(t, run.PivotPlay(&Part{Motion: Roams}))
}

// What is spoiled in a run in space is refused by itself, as of any other run.
func TestValidateRefusesInSpace(t *testing.T) {
	long := Vec{Y: 2}
	for what, c := range map[string]struct {
		spoil func(run *Run)
		want  string
	}{
		"square-to":           {func(r *Run) { partCalled(t, r, "swashplate").SquareTo = long }, `part "swashplate": its SquareTo is a direction at length 1`},
		"an axis":             {func(r *Run) { partCalled(t, r, "swashplate").Axis = Vec{X: 1} }, `part "swashplate": its SquareTo is a direction at length 1`},
		"what roams, carried": {func(r *Run) { partCalled(t, r, "swashplate").Motion = Roams }, `part "swashplate": it has no pivot to be carried by`},
		"an index":            {func(r *Run) { r.Joints[0].Index = 1 }, "Joints[0] of the run has the Index 1"},
		"a nil joint":         {func(r *Run) { r.Joints[0] = nil }, "Joints[0] of the run is nil"},
		"no point":            {func(r *Run) { r.Joints[0].Of[1].Point = 9 }, `joint "scissors": it is between points of parts of the run`},
		"one part":            {func(r *Run) { r.Joints[0].Of[1] = r.Joints[0].Of[0] }, `joint "scissors": it is between two parts`},
		"a gap":               {func(r *Run) { r.Joints[0].Gap = -1 }, `joint "scissors": a number of it is none`},
		"no hub":              {func(r *Run) { r.Rotor.Hub = nil }, "rotor: its hub is a part of the run that turns"},
		"a hub that slides":   {func(r *Run) { r.Rotor.Hub = partCalled(t, r, "sleeve") }, "rotor: its hub is a part of the run that turns"},
		"no up":               {func(r *Run) { r.Up = nil }, "rotor: the run says neither what is up nor what is forward"},
		"no tilts":            {func(r *Run) { r.Outputs[0].Tilts = nil }, `output "fore-and-aft": a part that tilts any way is read towards a direction`},
		"tilts of a hinge":    {func(r *Run) { r.Outputs[2].Tilts = &Vec{X: 1} }, `output "pitch-a": a part that tilts any way is read towards a direction`},
		"tilts too long":      {func(r *Run) { r.Outputs[0].Tilts = &long }, `output "fore-and-aft": Tilts is no direction at length 1`},
		"a leading edge":      {func(r *Run) { r.Outputs[2].LeadingEdge.Part = partCalled(t, r, "blade-b") }, `output "pitch-a": its leading edge is a point of the part that it is of`},
		"a control":           {func(r *Run) { r.Controls[1].Of = partCalled(t, r, "swashplate") }, `control "pitch": it moves a part of the run that turns or slides`},
		"pitch of what":       {func(r *Run) { r.Requirements[1].Of = nil }, `require "cyclic-pitch": what it is about is not of the run`},
		"a part that tilts":   {func(r *Run) { r.Requirements[2].Of[0] = Subject{Part: partCalled(t, r, "swashplate")} }, `require "steady": what it is about is not of the run`},
	} {
		run := readText(t, head(t))
		c.spoil(run)
		if err := run.Validate(); assert.Error(t, err, what) {
			assert.Contains(t, err.Error(), c.want, what)
		}
	}
}
