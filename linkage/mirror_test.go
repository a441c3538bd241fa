package linkage

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
)

// twoSided is a run whose left side is the mirror image of its right one in x.
const twoSided = `run "Two sides" {
  units    = "mm"
  forward  = [0, 0, -1]
  up       = [0, 1, 0]
  symmetry = "x"
}
dims "crank" {
  out = 40
}
part "stick" {                    # stands on the plane
  pivot  = [0, 0, 0]
  points = { right-horn = [30, -80, 300], left-horn = [-30, -80, 300], horn = [0, -90, 300] }
  round "right-lug" {
    at     = [25, -60]
    radius = 4
  }
  round "left-lug" {
    at     = [-25, -60]
    radius = 4
  }
}
part "right-crank" {
  pivot = [1000, -80, 400]
  axis  = [0, 1, 0]
  arms  = {
    in   = [-5, 0, -(50 + 1/2)]
    out  = polar(crank.out, -138, "xz")  # to the aileron
    idle = polar(20, crank.out / 2)
  }
  edge "horn" {
    through = [[990, -80, 400], [990, -120, 400]]
    thick   = 6
    z       = [350, 450]
  }
}
part "left-crank" { mirror = right-crank }
part "right-slide" {
  slide  = [1, 0, 2]
  points = { eye = [900, 0, 600] }
}
part "left-slide" {
  # made from the same bar
  mirror = right-slide            # but see the eye
  points = { eye = [-901, 0, 600] }
}
part "right-tab" {
  pivot = right-crank.idle
  arms  = { te = [0, -30, 10] }
  bolts = { te = [1, 2, 3] }
}
part "left-tab" {
  mirror = right-tab
}
rod "right-rod" {
  from   = stick.right-horn
  to     = right-crank.in
  length = 972
  end "to" {
    thread  = "M6x1"
    engaged = 12
  }
  end "from" {
    thread = "M6x1"
    home   = 3
    most   = 15
  }
}
rod "left-rod" { mirror = right-rod }
rod "right-aft" {
  from     = right-crank.out
  to       = right-slide.eye
  diameter = 8
}
rod "left-aft" {
  mirror       = right-aft
  misalignment = 9
}
control "side" {
  of    = stick
  from  = -40
  to    = 30
  plus  = "stick left"
  minus = "Right, and up"
}
output "right-eye" {
  of    = right-slide.eye
  along = [1, 0, 2]
  plus  = "right"
  minus = "left of the LEFT aft \"hole\""
  reads = 3
}
output "left-eye" { mirror = right-eye }
stop "leftward" {
  of     = stick
  at     = 20
  side   = "high"
  adjust = [18, 26]
}
stop "rightward" { mirror = leftward }
stop "right-touch" {
  touch = [stick.right-lug, right-crank.horn]
}
stop "left-touch" { mirror = right-touch }
stop "right-crank-stop" {
  of = right-crank
  at = crank.out - 10
}
stop "left-crank-stop" { mirror = right-crank-stop }
`

// leftSide is the left side of it as it is to be written out: x with the other sign; an
// axis turned about, so that plus on the right is the mirror image of plus on the left.
var leftSide = strings.NewReplacer(
	`part "left-crank" { mirror = right-crank }`, `part "left-crank" {
  pivot = [-1000, -80, 400]
  axis  = [0, -1, 0]
  arms  = {
    in   = [5, 0, -(50 + 1/2)]
    out  = polar(crank.out, 318, "xz")
    idle = polar(20, 180 - (crank.out / 2))
  }
  edge "horn" {
    through = [[-990, -80, 400], [-990, -120, 400]]
    thick   = 6
    z       = [350, 450]
  }
}`, `  mirror = right-slide            # but`, `  slide = [-1, 0, 2]            # but`,
	`  mirror = right-tab`, `  pivot = left-crank.idle
  arms  = { te = [0, -30, 10] }
  bolts = { te = [-1, 2, 3] }
  axis  = [0, 0, -1]`,
	`rod "left-rod" { mirror = right-rod }`, `rod "left-rod" {
  from   = stick.left-horn
  to     = left-crank.in
  length = 972
  end "to" {
    thread  = "M6x1"
    engaged = 12
  }
  end "from" {
    thread = "M6x1"
    home   = 3
    most   = 15
  }
}`, `  mirror       = right-aft`, `  from     = left-crank.out
  to       = left-slide.eye
  diameter = 8`,
	`output "left-eye" { mirror = right-eye }`, `output "left-eye" {
  of    = left-slide.eye
  along = [-1, 0, 2]
  plus  = "left"
  minus = "right of the RIGHT aft \"hole\""
  reads = 3
}`, `stop "rightward" { mirror = leftward }`, `stop "rightward" {
  of     = stick
  at     = -20
  side   = "low"
  adjust = [-26, -18]
}`, `stop "left-touch" { mirror = right-touch }`, `stop "left-touch" {
  touch = [stick.left-lug, left-crank.horn]
}`, `stop "left-crank-stop" { mirror = right-crank-stop }`, `stop "left-crank-stop" {
  of = left-crank
  at = crank.out - 10
}`)

// writtenOut writes a file out that must be sound.
func writtenOut(t testing.TB, text string) string {
	t.Helper()
	out, err := WrittenOut(&Source{Name: "test.hcl", Text: []byte(text)})
	require.NoError(t, err)
	return string(out)
}

// A mirror image is written out as it would be by hand, with what stands beside mirror,
// comments and named dimensions kept; what has none stays as it is.
func TestMirrorsAreWrittenOut(t *testing.T) {
	want := leftSide.Replace(twoSided)
	assert.Equal(t, want, writtenOut(t, twoSided))
	assert.Equal(t, want, writtenOut(t, want))
	assert.Equal(t, bench, writtenOut(t, bench))
	crlf := func(text string) string { return strings.ReplaceAll(text, "\n", "\r\n") }
	assert.Equal(t, crlf(want), writtenOut(t, crlf(twoSided)))
	cr := func(text string) string { return strings.ReplaceAll(text, "\n", "\r") }
	assert.Equal(t, cr(want), writtenOut(t, cr(twoSided)))
	oneLine := strings.Replace(twoSided, "{ mirror = right-rod }", "{ /* a */ mirror = right-rod /* b */ } # c", 1)
	shown := writtenOut(t, oneLine)
	for _, comment := range []string{"/* a */", "/* b */", "# c"} {
		assert.Contains(t, shown, comment)
	}
}

// Every place of the one side is the mirror image of the other's.
func TestMirrorImages(t *testing.T) {
	run := read(t, twoSided)
	left, right := find(t, run, "left-crank"), find(t, run, "right-crank")
	assert.Equal(t, Vec{0, -1, 0}, left.Axis)
	for _, point := range right.Points {
		p := at(t, right, point.Name)
		assert.Equal(t, Vec{-p.X, p.Y, p.Z}, at(t, left, point.Name), point.Name)
	}
	assert.Equal(t, "stick.left-horn", run.Rods[1].From.String())
	assert.Equal(t, run.Rods[0].Drawn, run.Rods[1].Drawn)
}

// Across the drawing's height, and its plane: what turns about z keeps its axis in z.
func TestMirrorInOtherPlanes(t *testing.T) {
	text := func(symmetry, forward string) string {
		return strings.NewReplacer(`units = "mm"`, "units = \"mm\"\n  symmetry = \""+symmetry+"\"\n"+forward).Replace(strings.Replace(flat, "MIRROR", `part "other" { mirror = lever }
output "words" {
  of    = lever.horn
  along = polar(1, 20)
  plus  = "forward and up"
  minus = "aft of the left"
}
output "other-words" { mirror = words }
`, 1))
	}
	other := func(text string) (*Part, *Output) {
		run := read(t, text)
		return find(t, run, "other"), run.Outputs[len(run.Outputs)-1]
	}
	p, o := other(text("y", "forward = [1, 0]"))
	assert.Equal(t, Vec{10, -20, 0}, p.Pivot)
	assert.Equal(t, Vec{10, -20 - 60, 5}, at(t, p, "horn"))
	assert.Equal(t, Vec{0, 0, -1}, p.Axis)
	assert.Equal(t, polar(1, -20), o.Along)
	assert.Equal(t, "forward and up", o.Plus, "which way up is isn't told, so that is taken for the side")
	assert.Equal(t, "aft of the right", o.Minus)

	_, o = other(text("y", "up = [0, 1]"))
	assert.Equal(t, "forward and down", o.Plus)
	_, o = other(text("x", "forward = [1, 0]"))
	assert.Equal(t, "aft and up", o.Plus)
	assert.Equal(t, "forward of the left", o.Minus)
	assert.Equal(t, polar(1, 160), o.Along)

	p, o = other(text("z", "forward = [1, 0]"))
	assert.Equal(t, Vec{10, 20, 0}, p.Pivot)
	assert.Equal(t, Vec{10, 80, -5}, at(t, p, "horn"))
	assert.Equal(t, Vec{0, 0, 1}, p.Axis)
	assert.Equal(t, [2]float64{-9, -4}, *p.Features[0].Z)
	assert.Equal(t, polar(1, 20), o.Along)
}

// flat is a run in the drawing's plane, which stands on both sides of it.
const flat = `run "Flat" {
  units = "mm"
}
part "lever" {
  pivot = [10, 20]
  arms  = { horn = [0, 60, 5], other = [0, 60, -5] }
  round "boss" {
    at     = [10, 20]
    radius = 3
    z      = [4, 9]
  }
}
part "crank" {
  pivot = [200, 20]
  arms  = { horn = [0, 60, 5] }
}
rod "link" {
  from = lever.horn
  to   = crank.horn
}
control "hand" {
  of = lever
}
MIRROR
`

// What is set on the original is set on its mirror image; what is set on the image is
// refused, and the original's named.
func TestSetMirrored(t *testing.T) {
	set := func(text string, settings ...Setting) (*Run, error) {
		return Read(&Source{Name: "test.hcl", Text: []byte(text)}, settings...)
	}
	run, err := set(twoSided, Setting{"right-crank.pivot.x", "1010"}, Setting{"right-crank.out.z", "350"}, Setting{"right-rod.length", "970"}, Setting{"leftward.at", "22"}, Setting{"crank.out", "44"}, Setting{"right-crank-stop.at", "33"})
	require.NoError(t, err)
	left, right := find(t, run, "left-crank"), find(t, run, "right-crank")
	assert.Equal(t, -1010.0, left.Pivot.X)
	for _, point := range right.Points {
		p := at(t, right, point.Name)
		assert.Equal(t, Vec{-p.X, p.Y, p.Z}, at(t, left, point.Name), point.Name)
	}
	assert.Equal(t, 350.0, at(t, left, "out").Z)
	assert.Equal(t, 970.0, run.Rods[1].Length)
	assert.Equal(t, -22.0, run.Stops[1].At)
	assert.Equal(t, 33.0, run.Stops[5].At)
	// Of its own: a pivot beside mirror, from which the arms are the original's mirrored.
	own := strings.Replace(twoSided, `part "left-crank" { mirror = right-crank }`, "part \"left-crank\" {\n  mirror = right-crank\n  pivot  = [-900, -80, 400]\n}", 1)
	run, err = set(own, Setting{"right-crank.out.x", "960"}, Setting{"left-crank.pivot.y", "-81"})
	require.NoError(t, err)
	assert.Equal(t, Vec{-900, -81, 400}, find(t, run, "left-crank").Pivot)
	assert.Equal(t, -900.0+40, at(t, find(t, run, "left-crank"), "out").X)

	for dimension, original := range map[string]string{
		"left-crank.pivot.x": "right-crank.pivot.x", "left-crank.out.z": "right-crank.out.z", "left-rod.length": "right-rod.length", "rightward.at": "leftward.at",
	} {
		_, err := set(twoSided, Setting{dimension, "1"})
		assert.ErrorContains(t, err, dimension+" is mirrored from "+original+": set that")
	}
}

// A rod that crosses the plane is mirrored to one that crosses the other way: the names of
// both sides change places.
func TestMirroredAcrossThePlane(t *testing.T) {
	cross := func(image string) string {
		return twoSided + `rod "right-cross" {
  from   = right-crank.in
  to     = left-crank.out
  length = 1950
}
rod "left-cross" {
` + image + `
}
`
	}
	run := read(t, cross("mirror = right-cross"))
	last := run.Rods[len(run.Rods)-1]
	assert.Equal(t, "left-crank.in", last.From.String())
	assert.Equal(t, "right-crank.out", last.To.String())
	assert.Equal(t, 1950.0, last.Length)
	// A length beside mirror is its own, and stays when the other's is set; one that is
	// mirrored goes along.
	for image, want := range map[string]float64{"mirror = right-cross\nlength = 1944": 1944, "mirror = right-cross": 1951} {
		run, err := Read(&Source{Name: "test.hcl", Text: []byte(cross(image))}, Setting{"right-cross.length", "1951"})
		require.NoError(t, err)
		assert.Equal(t, want, run.Rods[len(run.Rods)-1].Length, image)
		assert.Equal(t, 1951.0, run.Rods[len(run.Rods)-2].Length)
	}
	own := cross("mirror = right-cross\nlength = 1944")
	run, err := Read(&Source{Name: "test.hcl", Text: []byte(own)}, Setting{"left-cross.length", "1945"})
	require.NoError(t, err, "what is its own can be set")
	assert.Equal(t, 1945.0, run.Rods[len(run.Rods)-1].Length)
	assert.Equal(t, 1950.0, run.Rods[len(run.Rods)-2].Length)
}

// Rods are made up one by one: what is set on a mirrored one is written beside its
// mirror, and what is set on the original alone doesn't change its image.
func TestRewriteRodsBesideMirror(t *testing.T) {
	own := `rod "left-rod" {
  mirror = right-rod
  length = 972.5
  end "to" {
    thread  = "M6x1"
    engaged = 11.5
  }
}
`
	assert.Equal(t, strings.Replace(twoSided, "rod \"left-rod\" { mirror = right-rod }\n", own, 1),
		rewrite(t, twoSided, Change{"left-rod.length", 972.5}, Change{"left-rod.to.engaged", 11.5}, Change{"left-rod.from.engaged", 12}))
	changed := rewrite(t, twoSided, Change{"right-rod.length", 971}, Change{"right-rod.from.engaged", 13})
	before, after := read(t, twoSided), read(t, changed)
	assert.Equal(t, 971.0, after.Rods[0].Length)
	assert.Equal(t, before.Rods[1].Length, after.Rods[1].Length)
	assert.Equal(t, 12.0, after.Rods[1].End("from").Engaged)
	assert.Equal(t, 13.0, after.Rods[0].End("from").Engaged)
	assert.Equal(t, 2, strings.Count(changed, "home   = "))
	// Once they are its own, they are changed where they stand.
	again := rewrite(t, changed, Change{"left-rod.length", 980}, Change{"left-rod.from.engaged", 14})
	assert.Equal(t, len(strings.Split(changed, "\n")), len(strings.Split(again, "\n")))
	// An original that gets a length keeps it to itself.
	drawn := read(t, twoSided).Rods[3].Drawn
	long := read(t, rewrite(t, twoSided, Change{"right-aft.length", drawn + 2}))
	assert.InDelta(t, drawn, long.Rods[3].Length, 1e-6)
}

// The image of a place that is written follows; another place for it is refused.
func TestRewriteMirrored(t *testing.T) {
	run := read(t, rewrite(t, twoSided, Change{"right-crank.pivot.x", 1004}, Change{"right-crank.in.x", 970}, Change{"right-crank.in.z", 340}))
	assert.Equal(t, -1004.0, find(t, run, "left-crank").Pivot.X)
	assert.Equal(t, -970.0, at(t, find(t, run, "left-crank"), "in").X)
	rewrite(t, twoSided, Change{"right-crank.in.x", 990}, Change{"left-crank.in.x", -990})
	for dimension, original := range map[string]string{
		"left-crank.pivot.x": "right-crank.pivot.x", "left-crank.in.z": "right-crank.in.z", "rightward.at": "leftward.at",
	} {
		_, err := Rewrite(&Source{Name: "test.hcl", Text: []byte(twoSided)}, []Change{{dimension, 21}})
		assert.ErrorContains(t, err, `it is mirrored from "`+original+`"`)
	}
	_, err := Rewrite(&Source{Name: "test.hcl", Text: []byte(twoSided)}, []Change{{"leftward.at", 21}})
	assert.ErrorContains(t, err, "write at = -20 beside mirror")
}

// Whatever a file is, writing it out gives the same run or says why not.
func TestHuntWrittenOut(t *testing.T) {
	ailerons, err := os.ReadFile("../demo/ailerons.hcl")
	require.NoError(t, err)
	sources := []string{twoSided, string(ailerons)}
	hunt.Each(t, 400, func(t *testing.T, random *rand.Rand) {
		text := []byte(sources[random.IntN(len(sources))])
		for range 1 + random.IntN(3) {
			from := random.IntN(len(text))
			to := min(len(text), from+random.IntN(12))
			other := random.IntN(len(text))
			more := text[other:min(len(text), other+random.IntN(12))]
			text = []byte(string(text[:from]) + string(more) + string(text[to:]))
		}
		src := &Source{Name: "test.hcl", Text: text}
		run, err := Read(src)
		out, errOut := WrittenOut(src)
		if err != nil {
			require.Error(t, errOut)
			return
		}
		require.NoError(t, errOut, "%s", text)
		again, err := Read(&Source{Name: "test.hcl", Text: out})
		require.NoError(t, err, "%s", text)
		require.Equal(t, run.figures(), again.figures())
	})
}

// Controls, and what slides on the plane: a stop of that changes its side, what stands
// beside mirror stays, and words keep their letters.
func TestControlsAreMirrored(t *testing.T) {
	text := strings.NewReplacer(`symmetry = "x"`, `symmetry = "y"`, "forward  = [0, 0, -1]", "forward  = [1, 0]", "up       = [0, 1, 0]", "up       = [0, 0, 1]").Replace(twoSided[:strings.Index(twoSided, "dims")]) + `part "left-stick" {
  pivot = [0, 200]
  arms  = { horn = [60, 0] }
}
part "right-stick" { mirror = left-stick }
part "sledge" {
  slide  = [0, 1]
  points = { left = [300, 100], right = [300, -100] }
}
rod "left-rod" {
  from = left-stick.horn
  to   = sledge.left
}
rod "right-rod" {
  mirror      = left-rod
  second-path = true
}
control "left-control" {
  of    = left-stick
  from  = -20
  to    = 40
  held  = [-5, 10]
  plus  = "Left stick moved LEFT"
  minus = "aft"
}
control "right-control" { mirror = left-control }
stop "one" {
  of     = sledge
  at     = 5
  adjust = [2 + 1/2, 8]
}
stop "other" { mirror = one }
`
	run := read(t, text)
	c := run.Controls[1]
	assert.Equal(t, "right-stick", c.Of.Name)
	assert.Equal(t, []float64{-20, 40, -5, 10}, append([]float64{c.From, c.To}, c.Held...))
	assert.Equal(t, []string{"Right stick moved RIGHT", "aft"}, []string{c.Plus, c.Minus})
	assert.Equal(t, Vec{0, 0, -1}, c.Of.Axis)
	assert.True(t, run.Rods[1].SecondPath && !run.Rods[0].SecondPath)
	assert.Equal(t, "sledge.right", run.Rods[1].To.String())
	assert.Equal(t, -5.0, run.Stops[1].At)
	assert.Equal(t, [2]float64{-8, -2.5}, *run.Stops[1].Adjust)
	assert.True(t, run.Plane)
}
