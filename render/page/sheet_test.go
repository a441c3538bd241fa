package page

import (
	"bytes"
	"fmt"
	"html"
	"regexp"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sheetFor makes the rigging sheet of a run, with its pins.
func sheetFor(t testing.TB, name, text string) sheet {
	t.Helper()
	m, result := judgedOnce(t, name, text)
	return sheetOf(result, sheetOptions{File: name, Hash: strings.Repeat("0a1b", 16), Version: "test", Pinned: m.Pinned()})
}

// written is the sheet as the page holds it.
func (s sheet) written(t testing.TB) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, webTemplate("sheet.html").fill(&out, "sheet", s))
	return out.String()
}

// step returns the step whose title begins so.
func (s sheet) step(t testing.TB, title string) sheetStep {
	t.Helper()
	for _, step := range s.Steps {
		if strings.HasPrefix(step.Title, title) {
			return step
		}
	}
	require.Fail(t, "no step "+title)
	return sheetStep{}
}

// row returns a row as words: "___" for a blank, "[ ]" for a box.
func row(cells []sheetCell) string {
	var words []string
	for _, c := range cells {
		switch {
		case c.Blank:
			words = append(words, "___")
		case len(c.Boxes) > 0:
			words = append(words, strings.TrimSpace("[ ] "+strings.Join(c.Boxes, " [ ] ")))
		default:
			words = append(words, c.Says)
		}
	}
	return strings.Join(words, " | ")
}

// rows returns the rows of a step's table.
func (step sheetStep) rows() []string {
	var list []string
	for _, cells := range step.Table.Rows {
		list = append(list, row(cells))
	}
	return list
}

// The steps stand in the order in which the work is done.
func TestSheetOrder(t *testing.T) {
	s := sheetFor(t, "pedals-unequal.hcl", sample.DemoText(t, "pedals-unequal"))
	var titles []string
	for i, step := range s.Steps {
		assert.Equal(t, i+1, step.Number)
		titles = append(titles, step.Title)
	}
	assert.Equal(t, []string{
		"The maker's procedure at hand", "Control locks found, and taken off", "Level the aircraft", "Back off the stops", "Rig pins in", "Fit the rods", "ALL PINS OUT",
		"Set the stops: primary, then secondary", "Travels, stop to stop", "Room between metal", "Every joint", "Friction locks and trim off",
		"Breakout and friction, on a spring scale at the grip", "Free play", "Full and free, from both seats", "Sense, last: confirmed at the blade or surface",
		"Close up", "Full, free and the right sense, once more", "Independent inspection",
	}, titles)
}

// Figures are those of the file and the result; pins and rods of the file.
func TestSheetFigures(t *testing.T) {
	s := sheetFor(t, "pedals-unequal.hcl", sample.DemoText(t, "pedals-unequal"))
	assert.Equal(t, []string{
		"left-rig | left-pedal | 0° | [ ]", "right-rig | right-pedal | 0° | [ ]", "rocker-rig | rocker | 0° | [ ]",
	}, s.step(t, "Rig pins in").rows())
	assert.Equal(t, []string{
		"left-rig | left-pedal | [ ]", "right-rig | right-pedal | [ ]", "rocker-rig | rocker | [ ]",
	}, s.step(t, "ALL PINS OUT").rows())
	assert.True(t, s.step(t, "ALL PINS OUT").Apart)
	// With the pins in, the drawing's own holes are 296.69 mm apart:
	// sqrt(290^2 + 60^2 + 18^2).
	assert.Equal(t, []string{
		"left-link | 296.70 mm; pins in 296.69 mm, to within 0.1 mm | from, M6x1: 12.50 mm, 12.5 turns; least 9.00 mm; to, M6x1 left: 12.50 mm, 12.5 turns; least 9.00 mm | ___ | [ ] | [ ]",
		"right-link | 298.15 mm; pins in 296.69 mm, to within 0.1 mm | from, M6x1: 11.00 mm, 11 turns; least 9.00 mm; to, M6x1 left: 12.50 mm, 12.5 turns; least 9.00 mm | ___ | [ ] | [ ]",
	}, s.step(t, "Fit the rods").rows())
	travels := s.step(t, "Travels").rows()
	assert.Contains(t, travels, "tail-run (plus is nose left) | right pedal forward | -39.7 mm | -39 to -37 mm | ___")
	assert.Contains(t, travels, "tail-run (plus is nose left) | left pedal forward | 38.2 mm | 37 to 39 mm | ___")
	assert.Contains(t, travels, "right-pedal | neutral | -1.4° | opposite to left-pedal, within 0.5° | ___")
	assert.Contains(t, travels, "pedals (left-pedal) | left pedal forward | 29.8° | ___ | ___", "nothing is required of the control itself")
	assert.Equal(t, []string{
		"left-link at left-pedal.horn | ___ | [ ] turns [ ] doesn't turn | ___ | [ ] new cotter pin [ ] safety wire | [ ] | [ ] wire [ ] shows | [ ]",
	}, s.step(t, "Every joint").rows()[3:4])
	assert.Len(t, s.step(t, "Every joint").Table.Rows, 3+2*2, "every pivot, and both ends of every rod")
	assert.Contains(t, s.step(t, "Sense").rows(), "pedals: left pedal forward; left-pedal.foot goes forward | tail-run: nose left (gauge up, to 38.2 mm); rocker.tail goes aft | [ ]")
	assert.Contains(t, s.step(t, "Sense").rows(), "pedals: right pedal forward; left-pedal.foot goes aft | tail-run: gauge down, to -39.7 mm; rocker.tail goes forward | [ ]", "both ways")
}

// A stop that bites first is primary, the next beyond it secondary, each where
// the result has it.
func TestSheetStops(t *testing.T) {
	text := sample.DemoText(t, "throttle") + `
stop "beyond" {
  of = grip-lever
  at = 31
}
`
	s := sheetFor(t, "throttle.hcl", text)
	rows := s.step(t, "Set the stops").rows()
	assert.Contains(t, rows, "throttle, open | primary: tail-stop | 29.5° | ___ | [ ]")
	assert.Contains(t, rows, "throttle, open | secondary: beyond | 31.0° | ___ | [ ]")

	// A stop past an on-center point comes too late, and no stop there is told
	// as what it leaves: a control that goes on center.
	for _, text := range []string{sample.DemoText(t, "throttle"), strings.ReplaceAll(text, "at = 31\n", "at = 45\n")} {
		assert.Contains(t, sheetFor(t, "throttle.hcl", text).step(t, "Set the stops").rows(),
			"throttle, open | secondary: none before it goes on center at 40.8° (toggle) | - | ___ | [ ]")
	}

	// Of two controls each is told, with how it differs as the other stands.
	s = sheetFor(t, "sticks.hcl", sample.DemoText(t, "sticks"))
	rows = s.step(t, "Set the stops").rows()
	assert.Contains(t, rows, "pitch, sticks forward | primary: forward | 12.0° | ___ | [ ]")
	assert.Contains(t, rows, "pitch, sticks forward | secondary: none met, looking to 30.0° | - | ___ | [ ]")
	assert.Contains(t, s.step(t, "Travels").rows(), "side-to-side (plus is right, minus is left) | sticks aft, with roll at neutral | -0.5° | within 0.3° of neutral | ___")
	assert.Contains(t, s.step(t, "Travels").rows(), "right-stick | sticks right, with pitch at neutral | -11.7° | as left-stick, within 0.5° | ___")
	for _, row := range s.step(t, "Sense").rows() {
		assert.False(t, strings.HasPrefix(row, "pitch") && strings.Contains(row, "side-to-side"), "what is to stay steady has no sense: "+row)
	}
	assert.Equal(t, []string{
		"pitch | sticks aft | ___ | ___", "pitch | sticks forward | ___ | ___", "roll | sticks right | ___ | ___", "roll | sticks left | ___ | ___",
	}, s.step(t, "Breakout").rows())
}

// A second path is fitted last, whatever its place in the file, and its play
// is told.
func TestSheetSecondPathComesLast(t *testing.T) {
	text := sample.DemoText(t, "pedals-dual")
	at := strings.Index(text, `rod "far-right-link"`)
	end := strings.Index(text, `control "pedals"`)
	require.Positive(t, at)
	first := strings.Index(text, `rod "left-link"`)
	text = text[:first] + text[at:end] + text[first:at] + text[end:]
	rows := sheetFor(t, "dual.hcl", text).step(t, "Fit the rods").rows()
	require.Len(t, rows, 4)
	assert.True(t, strings.HasPrefix(rows[0], "left-link | "))
	assert.True(t, strings.HasPrefix(rows[3], "far-right-link: second path, fitted last; play each way 0.30 mm, needs 307.51 to 307.78 mm as the run moves | 307.70 mm; "))
}

// What the file doesn't say is a blank, never a figure.
func TestSheetLeavesBlanks(t *testing.T) {
	s := sheetFor(t, "bare.hcl", fmt.Sprintf(sample.InchRun, "Bare"))
	assert.Empty(t, s.step(t, "Rig pins in").Table.Rows)
	assert.NotEmpty(t, s.step(t, "Rig pins in").Blanks)
	assert.NotEmpty(t, s.step(t, "Back off").Blanks)
	assert.Equal(t, []string{"link | 10.500 in (10 1/2) |  | ___ | [ ] | [ ]"}, s.step(t, "Fit the rods").rows())
	assert.Contains(t, s.step(t, "Set the stops").rows(), "lever, plus | primary: none met, looking no further than this | 20.0° | ___ | [ ]")
	assert.Contains(t, s.step(t, "Travels").rows(), "lever (crank) | plus | 20.0° | ___ | ___")
	assert.Contains(t, s.step(t, "Sense").Says[1], "no output")
	for _, name := range []string{"Drawing, issue", "Rigged by", "Date"} {
		assert.Contains(t, s.Head, sheetField{Name: name})
	}
}

// The page is well-formed, tells its sources and until when it holds, never
// claims what it can't know, and runs nothing of a name.
func TestSheetPage(t *testing.T) {
	for _, kind := range append(demo.Kinds(), "pedals-dual", "pedals-unequal") {
		text, ok := demo.File(kind)
		require.True(t, ok)
		s := sheetFor(t, kind+".hcl", string(text))
		page := s.written(t)
		elements := sample.WellFormed(t, page)
		assert.Equal(t, len(s.Steps), elements["h4"], kind)
		delete(kept.judged, [2]string{kind + ".hcl", string(text)}) // judged afresh
		assert.Equal(t, page, sheetFor(t, kind+".hcl", string(text)).written(t), "the same bytes")
		for _, words := range []string{"0a1b0a1b0a1b", "fullfree test", "Void once the file", "approves nothing", "7-70", "1-1500-204-23-1", "0.020 in", "None may fly", "new cotter pin", "none of the work"} {
			assert.Contains(t, html.UnescapeString(page), words, kind)
		}
		assert.NotRegexp(t, `style=|\son[a-z]+=|NaN|Inf|ZgotmplZ|(?i)\bsafe\b`, page)
		for _, cell := range regexp.MustCompile(`<td[^>]*>`).FindAllString(page, -1) {
			assert.Contains(t, cell, "data-under=", "a phone shows the column's head from it")
		}
	}
	hostile := `</section><script>alert(1)</script>\" onload=x`
	page := sheetFor(t, "hostile.hcl", fmt.Sprintf(sample.InchRun, hostile)).written(t)
	assert.NotContains(t, page, "<script")
	assert.Zero(t, sample.WellFormed(t, page)["script"])
}

// A sheet cites the rules of the craft that the file names, and no rule where it names
// none; a handbook's way of working goes for any.
func TestSheetCitesTheRulesOfItsCraft(t *testing.T) {
	rules := regexp.MustCompile(`14 CFR \d+|MIL-[A-Z]-\d+`)
	cited := func(name, text string) []string { return rules.FindAllString(sheetFor(t, name, text).written(t), -1) }
	text := sample.DemoText(t, "pedals")
	assert.Equal(t, []string{"14 CFR 27", "14 CFR 27", "14 CFR 27", "14 CFR 27", "MIL-F-18372", "14 CFR 27"}, cited("pedals.hcl", text))
	assert.Equal(t, []string{"14 CFR 25", "14 CFR 23"}, cited("ailerons.hcl", sample.DemoText(t, "ailerons")))
	named := regexp.MustCompile(`(?m)^  craft .*\n`)
	require.Regexp(t, named, text)
	assert.Empty(t, cited("pedals.hcl", named.ReplaceAllString(text, "")))
	assert.Contains(t, sheetFor(t, "pedals.hcl", text).step(t, "Independent").Sources[0], "CAR Standard 571")
}

// A run whose words the drawing contradicts gets no sheet that could be signed: only
// why.
func TestSheetRefusesWhatALabelContradicts(t *testing.T) {
	text := sample.DemoText(t, "pedals")
	wrong := strings.Replace(text, `"left pedal forward"`, `"left pedal aft"`, 1)
	require.NotEqual(t, text, wrong)
	s := sheetFor(t, "pedals.hcl", wrong)
	assert.Empty(t, s.Steps)
	assert.Empty(t, append(s.Head, s.Foot...))
	require.Len(t, s.Refused, 2)
	assert.Contains(t, s.Refused[1], "left pedal aft")
	page := s.written(t)
	sample.WellFormed(t, page)
	assert.NotContains(t, page, "sheet-blank")
	assert.NotContains(t, page, "ignature")
	assert.Contains(t, page, "approves nothing")
	assert.Empty(t, sheetFor(t, "pedals.hcl", text).Refused)
}

// A stick with two freedoms goes round its whole edge; a twist grip on a lever doesn't.
func TestSheetRoundTheWholeEdge(t *testing.T) {
	rows := sheetFor(t, "sticks.hcl", sample.DemoText(t, "sticks")).step(t, "Full and free").rows()
	assert.Contains(t, rows, "pitch with roll, round the whole edge, both ways round | [ ] left seat [ ] right seat")
	assert.Len(t, sheetFor(t, "throttle.hcl", sample.DemoText(t, "throttle")).step(t, "Full and free").rows(), 1)
}
