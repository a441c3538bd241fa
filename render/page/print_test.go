package page

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/render/internal/sample"
	"fullfree/render/pdfscan"
)

func bookPDF(t testing.TB, paper string, runs ...BookRun) *pdfscan.File {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, BookPDF(&out, runs, paper, nil))
	f, err := pdfscan.Read(out.Bytes())
	require.NoError(t, err)
	return f
}

// pageWith is the first page on which a line of text begins with words; -1: none.
func pageWith(f *pdfscan.File, words string) int {
	for i, page := range f.Pages {
		for _, line := range page.Texts() {
			if strings.HasPrefix(line, words) {
				return i
			}
		}
	}
	return -1
}

// pagesOfARotor is how many pages a rotor head takes: four controls, two blades and twenty
// pieces, with a row of the sheet for each joint.
const pagesOfARotor = 20

// Every run but a rotor takes eight pages at most, of either paper (A4 and Letter in points: 210 by 297
// mm, and 8 1/2 by 11 inches at 72 points); what is required comes before the charts, and
// the rigging sheet begins a page.
func TestBookPDFOfEveryDemo(t *testing.T) {
	for _, kind := range append(demo.Kinds(), demo.WrongHole) {
		run := bookOf(t, kind+".hcl", sample.DemoText(t, kind))
		told := toldOnce(t, run)
		for paper, size := range map[string][2]float64{"a4": {595.276, 841.89}, "letter": {612, 792}} {
			var out bytes.Buffer
			require.NoError(t, told.pdf(&out, paper))
			f, err := pdfscan.Read(out.Bytes())
			require.NoError(t, err)
			most := pagesMost
			if run.Result.Run.Rotor != nil {
				most = pagesOfARotor
			}
			assert.LessOrEqual(t, len(f.Pages), most, "%s on %s", kind, paper)
			text := ""
			for _, page := range f.Pages {
				assert.InDelta(t, size[0], page.Wide, 0.01)
				assert.InDelta(t, size[1], page.High, 0.01)
				text += page.Text() + "\n"
			}
			required, sheet := pageWith(f, "Required"), pageWith(f, "Rigging sheet: ")
			assert.Zero(t, required, kind)
			if charts := pageWith(f, "Charts: "); charts >= 0 {
				assert.Less(t, required, charts, kind)
				assert.Less(t, charts, sheet, kind)
			}
			require.Positive(t, sheet, kind)
			assert.True(t, strings.HasPrefix(f.Pages[sheet].Texts()[0], "Rigging sheet: "), "%s: on a page of its own", kind)
			flat := sample.Flat(text)
			for _, words := range []string{run.Result.Run.Name, "The file that this was made from", `run "`, "approves nothing"} {
				assert.Contains(t, flat, words, kind)
			}
			for _, j := range run.Result.Judged() {
				assert.Contains(t, flat, sample.Flat(string(j.Requirement.Kind)), kind)
			}
		}
	}
}

// A page for the whole, and then each run on pages of its own; the same bytes each time.
func TestBookPDFOfSeveralRuns(t *testing.T) {
	var runs []BookRun
	single := 0
	for _, kind := range []string{"pedals", "sticks", "throttle"} {
		run := bookOf(t, kind+".hcl", sample.DemoText(t, kind))
		single += len(bookPDF(t, "", run).Pages)
		runs = append(runs, run)
	}
	var one, two bytes.Buffer
	require.NoError(t, BookPDF(&one, runs, "", nil))
	f, err := pdfscan.Read(one.Bytes())
	require.NoError(t, err)
	assert.Equal(t, single+1, len(f.Pages))
	for _, run := range runs {
		assert.Contains(t, f.Pages[0].Text(), run.Result.Run.Name)
	}
	require.NoError(t, BookPDF(&two, runs, "", nil))
	assert.True(t, bytes.Equal(one.Bytes(), two.Bytes()), "the same bytes")
}

// What a builder may write is text in the file and nothing else.
func TestBookPDFIsInertWhateverIsInTheFile(t *testing.T) {
	const hostile = `Höhe 12.5° ± – ) Tj ET Q (\\) endstream endobj << /OpenAction >> 漢`
	text := strings.Replace(sample.DemoText(t, "pedals"), `"Pedals, left seat"`, `"`+hostile+`"`, 1)
	run := bookOf(t, "pedals.hcl", text)
	f := bookPDF(t, "", run)
	name := strings.ReplaceAll(run.Result.Run.Name, "漢", "?")
	assert.Contains(t, sample.Flat(f.Pages[0].Text()), name)
	assert.Contains(t, name, "Höhe 12.5° ± –")
}
