package page

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/internal/sample"
	"fullfree/render/pdfscan"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden sheet anew")

const wholeAircraft = "../../demo/aircraft/aircraft.hcl"

// aircraftBookAfresh is an aircraft of which a book is made.
func aircraftBookAfresh(t *testing.T, path string) BookAircraft {
	t.Helper()
	m, result := sample.Aircraft(t, path)
	require.NoError(t, m.AddBands(result, nil))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	a := BookAircraft{
		BookRun: BookRun{File: "aircraft.hcl", Text: text, Result: result, Pinned: m.Pinned(),
			ReportOptions: render.ReportOptions{Hash: strings.Repeat("0a1b", 16), Version: "1.2.3"}},
		Together: strings.Repeat("beef", 16),
	}
	for i := range result.Run.Aircraft.Members {
		a.Runs = append(a.Runs, render.ReportOptions{Hash: strings.Repeat(fmt.Sprintf("%04x", i+1), 16), Version: "1.2.3"})
	}
	return a
}

// The book of an aircraft tells first the whole, then its runs from the hand to the blade,
// what is required across them, and one sheet.
func TestAircraftBook(t *testing.T) {
	a := aircraftBook(t, wholeAircraft)
	var out bytes.Buffer
	require.NoError(t, AircraftBook(&out, a, nil))
	page := out.String()
	inert(t, page)
	said := strings.Join(strings.Fields(sample.Markup.ReplaceAllString(inlineParts.ReplaceAllString(page, " "), " ")), " ")
	at := 0
	for _, words := range []string{
		"Rigging book: Brackwren, kit 2", "HOLDS: all 100 requirements, stop to stop.", "Not surely in 25 of them",
		"Not checked, because no file requires it: the room between metal (clearance).",
		"From the hand to the blade", "pedals: Pedals, both seats holds By hand: pedals.pedals.",
		"tail: Tail run holds By the run pedals: pedals.rocker is tail.crank, which goes the opposite way on its drawing.",
		"mixing: Mixing holds By the run cyclic: cyclic.pitch-crank is mixing.pitch-arm",
		"HAND PEDALS.PEDALS: -25.7° to 26.0°, stop to stop", "next stop tail.full-left, 1.6° later", "tail.pitch -19.8° 31.8° 0.998 degrees a degree",
		"the aircraft aircraft.hcl 0a1b0a1b0a1b", "pedals pedals.hcl 000100010001", "mixing mixing.hcl 000500050005",
		"pedals: Pedals, both seats HOLDS: all 10", "tail: Tail run HOLDS: all 7", "cyclic: Cyclic HOLDS", "mixing: Mixing HOLDS",
		"Brackwren, kit 2: across the runs", "left seat, left pedal: horn of the tail blade left",
		"every coordinate and set length out on its own by 1 mm or 0.04 in", "Rigging sheet: Brackwren, kit 2",
	} {
		k := strings.Index(said[at:], words)
		require.GreaterOrEqual(t, k, 0, "%q is missing, or stands before what it follows", words)
		at += k
	}
	assert.Equal(t, 1, strings.Count(said, "Rigging sheet:"), "one sheet for the whole")
	ids := map[string]bool{}
	for _, e := range elements(t, page) {
		if id := e.attrs["id"]; id != "" {
			assert.False(t, ids[id], "%s is twice there", id)
			ids[id] = true
		}
	}
	for _, e := range elements(t, page) {
		if to := e.attrs["href"]; strings.HasPrefix(to, "#") {
			assert.True(t, ids[to[1:]], "%s leads nowhere", to)
		}
	}
	shown := 0
	for _, only := range a.Result.Runs() {
		shown += len(shownSweeps(only, max(len(only.Run.Controls), aircraftTravels/5)))
	}
	assert.Equal(t, shown, strings.Count(page, `<section class="travel`))
	assert.LessOrEqual(t, shown, aircraftTravels)

	one := a
	one.Result = a.Result.Runs()[0]
	assert.Error(t, AircraftBook(io.Discard, one, nil), "a run is no aircraft")
}

// On paper no run takes more than its pages, and every page of the sheet tells what it is of.
func TestAircraftBookPDF(t *testing.T) {
	a := aircraftBook(t, "../../testdata/aircraft/split3/aircraft.hcl")
	var out bytes.Buffer
	require.NoError(t, AircraftBookPDF(&out, a, "", nil))
	f, err := pdfscan.Read(out.Bytes())
	require.NoError(t, err)
	sheets, runs := 0, 0
	for i, p := range f.Pages {
		text := p.Text()
		if strings.Contains(text, "Rigging sheet of the aircraft whose files together have the SHA-256 that begins beefbeefbeef. Void once any of them changes.") {
			sheets++
		} else if runs = i + 1; sheets > 0 {
			assert.Fail(t, "the sheet is last")
		}
	}
	assert.Contains(t, f.Pages[0].Text(), "From the hand to the blade")
	assert.LessOrEqual(t, runs, 1+3*pagesMost+2)
	assert.Greater(t, sheets, 3)
}

// ownSheet is its sheet without the book.
func (a BookAircraft) ownSheet() sheet {
	var runs []BookRun
	for _, m := range render.WorkingOrder(a.Result.Run) {
		runs = append(runs, a.runOf(m))
	}
	return a.sheet(runs)
}

// text is a sheet as lines of words.
func (s sheet) text() string {
	var b strings.Builder
	table := func(t sheetTable) {
		for _, cells := range t.Rows {
			fmt.Fprintf(&b, "      %s\n", row(cells))
		}
	}
	for _, note := range s.Notes {
		fmt.Fprintln(&b, note)
	}
	for _, step := range s.Steps {
		fmt.Fprintf(&b, "%d %s\n", step.Number, step.Title)
		table(step.Table)
		for _, g := range step.Groups {
			fmt.Fprintf(&b, "   %s\n", g.Head)
			table(g.Table)
			for _, blank := range g.Blanks {
				fmt.Fprintf(&b, "      %s ___\n", blank)
			}
		}
	}
	return b.String()
}

// One sheet for the aircraft, in the order of the work, each run under its name.
func TestAircraftSheetGolden(t *testing.T) {
	path := filepath.Join("..", "..", "testdata", "golden", "aircraft-sheet.txt")
	got := aircraftBook(t, wholeAircraft).ownSheet().text()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

// An aircraft one of whose drawings contradicts the words of its file gets no sheet to sign.
func TestAircraftSheetRefused(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.CopyFS(folder, os.DirFS("../../demo/aircraft")))
	file := filepath.Join(folder, "pedals.hcl")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	wrong := strings.Replace(string(text), `"left pedal forward"`, `"left pedal aft"`, 1)
	require.NotEqual(t, string(text), wrong)
	require.NoError(t, os.WriteFile(file, []byte(wrong), 0o644))
	s := aircraftBook(t, filepath.Join(folder, "aircraft.hcl")).ownSheet()
	assert.Empty(t, s.Steps)
	assert.Empty(t, append(s.Head, s.Foot...))
	require.NotEmpty(t, s.Refused)
	assert.Contains(t, strings.Join(s.Refused, " "), "left pedal aft")
}

// The work goes from the hand to the blade, whatever the order of the file.
func TestWorkingOrder(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.CopyFS(folder, os.DirFS("../../testdata/aircraft/split3")))
	file := filepath.Join(folder, "aircraft.hcl")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	const front = "run \"front\" {\n  file = \"front.hcl\"\n}\n"
	require.Contains(t, string(text), front)
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(text), front, "", 1)+front), 0o644))
	_, result := sample.Aircraft(t, file)
	names := func(list []*linkage.Member) (said []string) {
		for _, m := range list {
			said = append(said, m.Name)
		}
		return said
	}
	assert.Equal(t, []string{"middle", "rear", "front"}, names(result.Run.Aircraft.Members))
	assert.Equal(t, []string{"front", "middle", "rear"}, names(render.WorkingOrder(result.Run)))
}

// A page of no aircraft is an error that says so.
func TestAircraftPagesOfNothing(t *testing.T) {
	for _, r := range []*solve.Result{nil, {}, sample.Levers()} {
		var out bytes.Buffer
		assert.Error(t, PicturesJSON(&out, "", []RunPicture{{Result: r}}, nil))
		assert.Error(t, AircraftBook(&out, BookAircraft{BookRun: BookRun{File: "f", Result: r}}, nil))
		assert.Error(t, AircraftBookPDF(&out, BookAircraft{BookRun: BookRun{File: "f", Result: r}}, "", nil))
		assert.Empty(t, out.String())
	}
}
