package picture

import (
	"bytes"
	"io"
	"slices"
	"strings"
	"testing"

	"fullfree/render"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const wholeAircraft = "../../demo/aircraft/aircraft.hcl"

// ink is the lines of the run itself on a sheet, without what names and numbers it, from
// the first of them on: how far down they lie hangs on how many lines the heading takes.
func ink(d *diagram) (list []paper.Shape) {
	for _, l := range []paper.Layer{paper.LayerFixed, paper.LayerEnds, paper.LayerCenters, paper.LayerNeutral, paper.LayerHoles} {
		list = append(list, slices.Clone(d.scene.Shapes[l])...)
	}
	zero := list[0].Through[0]
	for i := range list {
		list[i].Through = slices.Clone(list[i].Through)
		for k := range list[i].Through {
			list[i].Through[k] = list[i].Through[k].Sub(zero)
		}
	}
	return list
}

// A run of an aircraft whose own hand moves it, from one stop of its own to the other, is
// drawn as by itself, but for names. (The collective isn't: its lever moves the rotor's head as
// well, and where that goes on center is told of it.)
func TestRunOfAnAircraftIsDrawnAsAlone(t *testing.T) {
	whole := aircraftOnce(t, wholeAircraft)
	for i, file := range map[int]string{0: "pedals"} {
		alone := sample.CheckedFile(t, "../../demo/aircraft/"+file+".hcl")
		only := whole.Runs()[i]
		a, err := newDiagram(alone, alone.Sweeps[0], DiagramOptions{})
		require.NoError(t, err)
		b, err := newDiagram(only, only.Sweeps[0], DiagramOptions{})
		require.NoError(t, err)
		want, got := ink(a), ink(b)
		require.Len(t, got, len(want), file)
		for k := range want {
			assert.Equal(t, want[k].Pen, got[k].Pen)
			require.Len(t, got[k].Through, len(want[k].Through))
			for n, p := range want[k].Through {
				assert.InDelta(t, 0, p.Distance(got[k].Through[n]), 1e-6, "%s, shape %d", file, k)
			}
		}
		live := func(r *solve.Result) []string {
			svg, err := Live(r, r.Sweeps[0], LiveOptions{ID: "x"})
			require.NoError(t, err)
			_, drawn, _ := strings.Cut(string(svg), "</desc>")
			return strings.Split(strings.ReplaceAll(drawn, file+".", ""), "\n")
		}
		assert.Equal(t, live(alone), live(only), file)
		var said, bare bytes.Buffer
		require.NoError(t, Diagram(&said, alone, alone.Sweeps[0], DiagramOptions{}))
		require.NoError(t, Diagram(&bare, only, only.Sweeps[0], DiagramOptions{}))
		names := func(svg string) []string {
			return strings.Fields(strings.ReplaceAll(strings.Join(seenTexts(svg), " "), file+".", ""))
		}
		assert.ElementsMatch(t, names(said.String()), names(bare.String()), file)
	}
}

// seenTexts are the texts of a picture that are seen.
func seenTexts(svg string) (list []string) {
	_, rest, _ := strings.Cut(svg, "</desc>")
	for _, line := range strings.Split(rest, "\n") {
		if _, said, ok := strings.Cut(line, " >"); ok && strings.HasPrefix(line, "<text") {
			list = append(list, strings.TrimSuffix(said, "</text>"))
		}
	}
	return list
}

// Every run of an aircraft is drawn, in every picture, whatever hand moves it.
func TestEveryRunOfAnAircraftIsDrawn(t *testing.T) {
	for _, file := range []string{wholeAircraft, "../../testdata/aircraft/split3/aircraft.hcl", "../../testdata/aircraft/eight/aircraft.hcl"} {
		whole := aircraftOnce(t, file)
		var sheets []Sheet
		for _, only := range whole.Runs() {
			for _, c := range only.Run.Controls {
				sweep := render.SweepsOf(only, c)[0]
				sheets = append(sheets, Sheet{only, sweep, DiagramOptions{Paper: PaperA3, Aircraft: "Of an aircraft."}})
				_, err := Live(only, sweep, LiveOptions{})
				require.NoError(t, err)
				_, err = FullSize(only, sweep, FullSizeOptions{Paper: PaperNone})
				require.NoError(t, err)
				var svg bytes.Buffer
				require.NoError(t, Charts(&svg, only, sweep, DiagramOptions{Aircraft: "Of an aircraft."}))
				assert.Contains(t, svg.String(), "Of an aircraft.")
				assert.NotContains(t, svg.String(), "%!")
			}
		}
		for _, charts := range []bool{false, true} {
			require.NoError(t, SheetsPDF(io.Discard, "Sheets", sheets, charts))
		}
	}
}

// A sheet of a run whose hand is another run's tells where that stands, and draws nothing
// of what the other run ends it by.
func TestSheetOfARunUnderAnotherRunsHand(t *testing.T) {
	whole := aircraftOnce(t, wholeAircraft)
	tail := whole.Runs()[1]
	sweep := tail.Sweeps[0]
	require.Nil(t, tail.Run.Part(sweep.Control.Of))
	d, err := newDiagram(tail, sweep, DiagramOptions{})
	require.NoError(t, err)
	said := strings.Join(seenTexts(picture(t, tail, sweep, DiagramOptions{})), " ")
	assert.Contains(t, said, "at 26.0° of pedals.pedals, left pedal forward: pedals.left-stop")
	assert.Nil(t, d.viewFor(sweep.Control.Of))
	dr := d.newDrawing(d.views[0])
	for _, end := range sweep.Ends {
		require.Equal(t, solve.ByStop, end.Cause)
		_, drawn := dr.contact(d.shownPoses[0], end.Stop)
		assert.False(t, drawn)
	}
}

// A requirement that holds under one control alone, of another run, is charted in that
// one's sweeps and in no other.
func TestChartsKeepToTheControlOfARequirement(t *testing.T) {
	whole := aircraftOnce(t, wholeAircraft)
	mixing := whole.Runs()[4]
	for _, c := range mixing.Run.Controls {
		sweep := render.SweepsOf(mixing, c)[0]
		for _, chart := range chartsOf(mixing, sweep, sweep.Course(coursePlaces(mixing, sweep)...)) {
			if chart.title == "Output mixing.height" {
				assert.Equal(t, c.Name == "collective.collective", len(chart.limits) > 0, c.Name)
			}
		}
	}
}
