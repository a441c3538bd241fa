package picture

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/render/pdfscan"
	"fullfree/solve"
)

func scanned(t testing.TB, data []byte, err error) *pdfscan.File {
	t.Helper()
	require.NoError(t, err)
	f, err := pdfscan.Read(data)
	require.NoError(t, err)
	return f
}

func pdfOf(t testing.TB, write func(out *bytes.Buffer) error) *pdfscan.File {
	t.Helper()
	var out, again bytes.Buffer
	err := write(&out)
	require.NoError(t, write(&again))
	assert.Equal(t, out.Bytes(), again.Bytes(), "the same bytes")
	return scanned(t, out.Bytes(), err)
}

// Papers in points: ISO 216 (A4, A3), and Letter and tabloid of 8 1/2 by 11 and 11 by 17
// inches at 72 points.
func TestSheetsFitTheirPaper(t *testing.T) {
	eachSweep(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) {
		sizes := map[string][2]float64{PaperA4: {595.276, 841.89}, PaperLetter: {612, 792}}
		usual := PaperOf(result.Run.Units)
		for name, drawn := range map[string]func(*bytes.Buffer, DiagramOptions) error{
			"diagram": func(out *bytes.Buffer, o DiagramOptions) error { return DiagramPDF(out, result, sweep, o) },
			"charts":  func(out *bytes.Buffer, o DiagramOptions) error { return ChartsPDF(out, result, sweep, o) },
		} {
			if name == "charts" && opts.View != "" {
				continue
			}
			opts.Paper = PaperUsual
			f := pdfOf(t, func(out *bytes.Buffer) error { return drawn(out, opts) })
			assert.LessOrEqual(t, len(f.Pages), 2, name)
			text := ""
			for _, p := range f.Pages {
				assert.InDelta(t, sizes[usual][0], p.Wide, 0.01)
				assert.InDelta(t, sizes[usual][1], p.High, 0.01)
				assert.GreaterOrEqual(t, p.Smallest(), leastType-0.001)
				text += p.Text()
			}
			for _, part := range []string{result.Run.Name, "Checked by, signature", "approves nothing"} {
				assert.Contains(t, sample.Flat(text), part)
			}
		}
	})
}

// All that is on the sheet for a screen is on that for paper, and nothing of it beyond
// what a printer prints or cut in two.
func TestPaperShowsAll(t *testing.T) {
	eachSweep(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) {
		if opts.View != "" {
			return
		}
		for _, name := range []string{PaperA4, PaperLetter, PaperA3, PaperTabloid} {
			d, l, err := diagramOnPaper(result, sweep, DiagramOptions{Paper: name}, false)
			require.NoError(t, err)
			assert.NotNil(t, d)
			s, err := chartSheetOf(result, sweep, DiagramOptions{})
			require.NoError(t, err)
			charts, err := s.onLeaf(leafOf(name))
			require.NoError(t, err)
			for _, page := range append(l.pages, charts.pages...) {
				low, high := page.Extent()
				room := paper.Window{Low: paper.At(-0.01, -0.01), High: l.room.Add(paper.At(0.01, 0.01))}
				assert.True(t, room.Holds(low) && room.Holds(high), "%s: %v %v", name, low, high)
			}
			says := ""
			for _, page := range l.pages {
				for _, text := range page.Texts {
					says += text.Says + "\n"
				}
			}
			for _, j := range result.Judged() {
				assert.Contains(t, says, render.LimitWords(j))
			}
			for _, part := range result.Run.Parts {
				assert.Contains(t, says, part.Name)
			}
		}
	})
}

// A rod's holes lie as far apart on paper as hole to hole, to 0.1 mm, and only what was
// asked for is printed; points are 1/72 inch (ISO 32000-1, 8.3.2.3).
func TestFullSizePDFIsExact(t *testing.T) {
	for kind, rods := range map[string][]string{"pedals": {"left-link", "right-link"}, "chain": {"link"}, "throttle": {"link"}} {
		result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
		for _, name := range rods {
			var rod *linkage.Rod
			for _, r := range result.Run.Rods {
				if r.Name == name {
					rod = r
				}
			}
			require.NotNil(t, rod, name)
			opts := FullSizeOptions{Paper: PaperA3, Only: name}
			f := pdfOf(t, func(out *bytes.Buffer) error { return FullSizePDF(out, result, result.Sweeps[0], opts) })
			require.Len(t, f.Pages, 1, "empty sheets are left out")
			want := float64(rod.Length*millimetersOf(result.Run.Units)) * 72 / 25.4
			longest := 0.0
			for _, l := range f.Pages[0].Lines() {
				// The chain line from hole to hole is the one drawn line that is as long.
				if long := math.Hypot(l[2]-l[0], l[3]-l[1]); math.Abs(long-want) < math.Abs(longest-want) {
					longest = long
				}
			}
			assert.InDelta(t, want, longest, 0.1*72/25.4, "%s of %s", name, kind)
			text := f.Pages[0].Text()
			assert.Contains(t, text, name+" alone")
			for _, part := range result.Run.Parts {
				assert.NotContains(t, text, part.Name+" pivot")
			}
		}
	}
}

// The pages of a PDF are those of the pictures.
func TestFullSizePDFPages(t *testing.T) {
	eachFullSize(t, func(t *testing.T, f *fullSize, pages []string) {
		p := paper.NewPDF("")
		for i := range f.tiles {
			f.putOn(p, i)
		}
		var out bytes.Buffer
		require.NoError(t, p.Finish(&out))
		read := scanned(t, out.Bytes(), nil)
		require.Len(t, read.Pages, len(pages))
		for _, page := range read.Pages {
			assert.InDelta(t, f.tiling.paper.X*72/25.4, page.Wide, 0.01)
			assert.InDelta(t, f.tiling.paper.Y*72/25.4, page.High, 0.01)
			assert.Contains(t, page.Text(), "Measure this first")
			long, _ := testRule(f.run.Units)
			found := false
			for _, l := range page.Lines() {
				found = found || math.Abs(l[2]-l[0]-long*72/25.4) < 0.01 && l[1] == l[3]
			}
			assert.True(t, found, "the rule across")
		}
	})
	result := checkedOnce(t, "pedals.hcl", sample.DemoText(t, "pedals"))
	_, err := FullSize(result, result.Sweeps[0], FullSizeOptions{Paper: PaperA4, Only: "nonsense"})
	assert.ErrorContains(t, err, `there is no part or rod "nonsense"`)
}
