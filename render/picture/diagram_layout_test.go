package picture

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// longRun is a stick, a small idler and an elevator at the far end of a long
// rod.
const longRun = `
run "Elevator" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
part "stick" {
  pivot = [0, 0]
  arms  = { grip = [-20, 460], horn = [0, -80] }
}
part "idler" {
  pivot = [560, -130]
  arms  = { in = [0, 76], out = [-8, 88] }
}
part "elevator" {
  pivot = [2050, 300]
  arms  = { horn = [6, -100], tip = [250, 25] }
}
rod "front" {
  from = stick.horn
  to   = idler.in
}
rod "aft" {
  from = idler.out
  to   = elevator.horn
}
control "pitch" {
  of   = stick
  from = -18
  to   = 20
}
require "rod-angle" { least = 45 }
`

// What is too small to be lettered in a long run is drawn again, larger.
func TestDiagramDetails(t *testing.T) {
	result := checkedOnce(t, "long.hcl", longRun)
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	assertClear(t, &d.scene)
	require.Len(t, d.views[0].details, 1)
	detail := d.views[0].details[0]
	assert.Equal(t, "P", detail.letter)
	assert.Equal(t, []string{"idler"}, d.lettersOf(detail))
	idler := result.Run.Parts[1]
	assert.Less(t, d.sizeOf(d.views[0], idler)*d.views[0].scale, detailSmall)
	assert.GreaterOrEqual(t, d.sizeOf(detail, idler)*detail.scale, 2*detailSmall)
	said := texts(&d.scene)
	assert.Equal(t, 1, said["Detail P"], "the frame in the view")
	assert.Equal(t, 1, said["Detail P, 6 times as large"])
	assert.InDelta(t, 6, detail.scale/d.views[0].scale, 1e-9)
	assert.Contains(t, d.story(), "Detail P, 6 times as large: idler.")
	assert.Equal(t, 1, said["Scale, first view"])
	// Stick, idler and elevator are lettered once each, and the letters stand
	// once more each in the list of positions and at the head of the table.
	for _, letter := range []string{"A", "B", "C"} {
		assert.Equal(t, 5, said[letter], letter)
	}
	for _, rod := range result.Run.Rods {
		assert.Equal(t, 1, said[figure.Length(rod.Length, linkage.Millimeters)], "length of %s, once", rod.Name)
		assert.Equal(t, 2, said[fmt.Sprint(d.rodNumber(rod))], "balloon and list of %s", rod.Name)
	}
	// Nothing of the run is drawn beyond what the detail shows, but for the
	// marks that go with it.
	s := d.drawView(detail)
	const marks = 40.0
	low, high := detail.frame(detail).Low, detail.frame(detail).High
	for _, sh := range s.Shapes[paper.LayerNeutral] {
		for _, p := range sh.Through {
			assert.True(t, p.X > low.X-marks && p.X < high.X+marks && p.Y > low.Y-marks && p.Y < high.Y+marks, "%v leaves the detail", p)
		}
	}
}

// A run whose parts are all large has no details.
func TestDiagramWithoutDetails(t *testing.T) {
	for _, kind := range []string{"pedals", "throttle", "mixer"} {
		result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
		d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
		require.NoError(t, err)
		assert.Empty(t, d.views[0].details, kind)
		assert.Equal(t, 1, texts(&d.scene)["Scale"], kind)
	}
}

// The arrows lie on nothing that is drawn, and no other text on them.
func TestDiagramArrowsApart(t *testing.T) {
	seen := 0
	eachSweep(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) {
		d, err := newDiagram(result, sweep, opts)
		require.NoError(t, err)
		for _, tx := range d.scene.Texts {
			if tx.Says != "FWD" && tx.Says != "UP" {
				continue
			}
			seen++
			b := paper.TextBox(tx)
			for l, shapes := range d.scene.Shapes {
				for _, sh := range shapes {
					for i := 1; i < len(sh.Through); i++ {
						assert.Zero(t, b.Crossing(sh.Through[i-1], sh.Through[i]), "%s on a line of layer %d", tx.Says, l)
					}
					if sh.Radius > 0 {
						assert.False(t, b.Overlaps(paper.SquareBox(sh.Through[0], sh.Radius)), "%s on a circle", tx.Says)
					}
				}
			}
		}
	})
	assert.Greater(t, seen, 20)
}

// No letter of a position, length or figure lies on a thick line, where the
// sheet has room.
func TestDiagramTextKeepsOffThickLines(t *testing.T) {
	for _, text := range []string{sample.DemoText(t, "pedals"), sample.DemoText(t, "throttle"), sample.DemoText(t, "pedals-swivel"), longRun} {
		result := checkedOnce(t, "run.hcl", text)
		d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
		require.NoError(t, err)
		for _, tx := range d.scene.Texts {
			if !tx.Halo {
				continue
			}
			for _, sh := range d.scene.Shapes[paper.LayerNeutral] {
				for i := 1; i < len(sh.Through); i++ {
					assert.Zero(t, paper.TextBox(tx).Grown(sh.Pen.Width/2).Crossing(sh.Through[i-1], sh.Through[i]), "%q in %q", tx.Says, result.Run.Name)
				}
			}
		}
	}
}

// Parts seen one behind the other share their letters.
func TestDiagramSharedLetters(t *testing.T) {
	result := checkedOnce(t, "pedals-swivel.hcl", sample.DemoText(t, "pedals-swivel"))
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{View: "xy"})
	require.NoError(t, err)
	said := texts(&d.scene)
	// As one pedal goes forward the other comes back to where the first was.
	for _, says := range []string{"B2+3", "A3, C2", "A2, C3"} {
		assert.Equal(t, 1, said[says], says)
	}
}

// Views say from which side of the aircraft they are seen, where the file
// tells which way it lies in the drawing.
func TestViewStandpoints(t *testing.T) {
	x, y := linkage.Vec{X: 1}, linkage.Vec{Y: 1}
	back := x.Scale(-1)
	for _, c := range []struct {
		forward, up *linkage.Vec
		want        [3]string // xy, xz, yz
	}{
		// Nose to the left, seen from its left side; the third view looks at
		// the drawing from its left, where the nose is.
		{&back, &y, [3]string{"As drawn, from the left", "From above", "From the front"}},
		{&x, &y, [3]string{"As drawn, from the right", "From above", "From behind"}},
		// A plan with the nose up: its left side is on the left.
		{&y, &linkage.Vec{Z: 1}, [3]string{"As drawn, from above", "From the front", "From the left"}},
		{&y, &linkage.Vec{Z: -1}, [3]string{"As drawn, from below", "From the front", "From the right"}},
		{nil, &y, [3]string{"As drawn", "From above", "From the left of the drawing"}},
		{&back, nil, [3]string{"As drawn", "From above the drawing", "From the front"}},
		{nil, nil, [3]string{"As drawn", "From above the drawing", "From the left of the drawing"}},
	} {
		views, err := viewsOf(&linkage.Run{Forward: c.forward, Up: c.up}, "")
		require.NoError(t, err)
		for i, v := range views {
			assert.True(t, strings.HasPrefix(v.words, c.want[i]+": "), "%s: %q, want %q", v.name, v.words, c.want[i])
		}
	}
	views, err := viewsOf(&linkage.Run{View: "from the seat", Forward: &x, Up: &y}, "")
	require.NoError(t, err)
	assert.Equal(t, "Seen from the seat", views[0].words)
}

// A plane run seen from its edge says why nothing turns in the picture.
func TestDiagramEdgeOn(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{View: "yz"})
	require.NoError(t, err)
	assert.Contains(t, d.views[0].words, "edge-on to this view")
	assert.Contains(t, d.flagSays(d.flags[0]), "not seen in this view")
	for says := range texts(&d.scene) {
		assert.NotContains(t, says, "Detail", "what doesn't turn in the view isn't enlarged in it")
	}
	d, err = newDiagram(result, result.Sweeps[0], DiagramOptions{View: "xy"})
	require.NoError(t, err)
	assert.NotContains(t, d.views[0].words, "edge-on")
	assert.NotContains(t, d.flagSays(d.flags[0]), "not seen")
}

// A part that is meant to stand still, and wavers, is told as wavering.
func TestDiagramWavering(t *testing.T) {
	result := checkedOnce(t, "sticks.hcl", sample.DemoText(t, "sticks"))
	sweep := result.Sweeps[0]
	require.Len(t, sweep.Critical, 1)
	moves, ok := render.Wavers(sweep, sweep.Critical[0])
	assert.True(t, ok)
	assert.InDelta(t, 0.2, moves, 0.05)
	d, err := newDiagram(result, sweep, DiagramOptions{})
	require.NoError(t, err)
	said := texts(&d.scene)
	assert.Equal(t, 1, said["X1 wavers only 0.2°"])
	assert.Contains(t, d.flagSays(d.flags[0]), "roll-crank wavers only 0.2° in all")
	for says := range said {
		assert.NotContains(t, says, "inside the travel")
	}
	for _, s := range d.shownPoses {
		assert.NotContains(t, s.says, "reverses", "wavering is no position of its own")
	}

	// One that really moves and reverses keeps its warning.
	result = checkedOnce(t, "run.hcl", without(sample.DemoText(t, "throttle-wrong-hole"), "tail-stop"))
	_, ok = render.Wavers(result.Sweeps[0], result.Sweeps[0].Critical[0])
	assert.False(t, ok)
}

// What was changed by hand stands under the title and in the title block.
func TestDiagramSet(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	plain, err := newDiagram(result, result.Sweeps[0], DiagramOptions{Hash: "0123456789abcdef"})
	require.NoError(t, err)
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{Hash: "0123456789abcdef", Set: []string{"link.length = 243", "tail-stop.at = 30"}})
	require.NoError(t, err)
	const says = "As filed, but with link.length = 243 and tail-stop.at = 30."
	assert.Equal(t, 2, texts(&d.scene)[says])
	assert.Contains(t, d.story(), says)
	assert.Equal(t, 1, texts(&d.scene)["0123456789ab"], "the hash is the file's own")
	assert.NotEqual(t, plain.id(), d.id(), "both pictures may stand on one page")
	assert.NotContains(t, plain.story(), "As filed")
	assertClear(t, &d.scene)
}

// Every requirement stands on the sheet with its worst figure, what was asked
// for and how it came out.
func TestDiagramRequired(t *testing.T) {
	result := sample.Checked(t, "pedals.hcl", sample.DemoText(t, "pedals"))
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	rows := map[float64][]string{}
	for _, tx := range d.scene.Texts {
		rows[tx.At.Y] = append(rows[tx.At.Y], tx.Says)
	}
	var all [][]string
	for _, row := range rows {
		all = append(all, row)
	}
	for _, want := range [][]string{
		{"opposite", "0.4°", "within 0.5°", "holds"},
		{"misalignment", "3.5°", "at most 10°", "holds"},
		{"stops", "0 missing", "none missing", "holds"},
		{`clearance "rod to seat tube"`, "6.7 mm", "at least 5 mm", "holds"},
	} {
		assert.Contains(t, all, want)
	}

	for i := range result.Requirements {
		result.Requirements[i].Verdict = solve.FallsShort
	}
	result.Requirements[0].Worst, result.Requirements[0].Verdict = nil, solve.CannotTell
	d, err = newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	said := texts(&d.scene)
	assert.Equal(t, len(result.Requirements)-1, said["SHORT"])
	assert.Equal(t, 1, said["?"])
	assert.Equal(t, 1, said["none"])

	sure := false
	result.Requirements[1].Verdict, result.Requirements[1].Sure = solve.Holds, &sure
	d, err = newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	assert.Equal(t, 2, texts(&d.scene)[render.Unsure(result)], "what holds only as drawn, above and where it is signed")

	result.Requirements = nil
	d, err = newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	assert.Equal(t, 1, texts(&d.scene)["Nothing."])
}

// Report and sheet end on the same words.
func TestCautionIsOne(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	var report bytes.Buffer
	require.NoError(t, render.Report(&report, "throttle.hcl", result, render.ReportOptions{}))
	words := strings.Join(strings.Fields(report.String()), " ")
	assert.Contains(t, words, render.Caution)
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	assert.Contains(t, d.story(), render.Caution)
	var sheet []string
	for _, tx := range d.scene.Texts {
		sheet = append(sheet, tx.Says)
	}
	assert.Contains(t, strings.Join(sheet, " "), render.Caution)
}
