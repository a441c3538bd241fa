package picture

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fullSizeOf draws the first sweep of a run in full size.
func fullSizeOf(t testing.TB, result *solve.Result, view, sheet string) (*fullSize, []string) {
	t.Helper()
	opts := FullSizeOptions{View: view, Paper: sheet, Hash: strings.Repeat("0a1b", 16), Version: "test"}
	f, err := newFullSize(result, result.Sweeps[0], opts)
	require.NoError(t, err)
	pages, err := FullSize(result, result.Sweeps[0], opts)
	require.NoError(t, err)
	require.Len(t, pages, len(f.tiles))
	var texts []string
	for _, page := range pages {
		texts = append(texts, string(page))
	}
	return f, texts
}

// eachFullSize calls do for the first sweep of every demo on every paper.
func eachFullSize(t *testing.T, do func(t *testing.T, f *fullSize, pages []string)) {
	for _, kind := range demo.Kinds() {
		result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
		for _, sheet := range Papers() {
			view := ""
			if kind == "sticks" {
				view = "yz"
			}
			t.Run(kind+"/"+sheet, func(t *testing.T) {
				f, pages := fullSizeOnce(t, result, view, sheet)
				do(t, f, pages)
			})
		}
	}
}

var circlesWritten = regexp.MustCompile(`<circle cx="([-.\d]+)" cy="([-.\d]+)" r="([-.\d]+)"`)

// centers returns the centers of the circles of a radius on a page, mm.
func centers(t testing.TB, page string, radius float64) map[paper.Place]bool {
	t.Helper()
	found := map[paper.Place]bool{}
	for _, m := range circlesWritten.FindAllStringSubmatch(page, -1) {
		var v [3]float64
		for i := range v {
			var err error
			v[i], err = strconv.ParseFloat(m[i+1], 64)
			require.NoError(t, err)
		}
		if v[2] == radius {
			found[paper.At(v[0], v[1])] = true
		}
	}
	return found
}

// standApart reports whether two of the places lie so far apart, to 0.001 mm.
func standApart(places map[paper.Place]bool, long float64) bool {
	for a := range places {
		for b := range places {
			if math.Abs(a.Distance(b)-long) <= 0.001 {
				return true
			}
		}
	}
	return false
}

// Holes lie as far apart as the rods are long; those of the pedals stand 18 mm
// out of the drawing over their length, so that on paper they are the other
// side of a right triangle.
func TestFullSizeIsExact(t *testing.T) {
	_, pages := fullSizeOf(t, checkedOnce(t, "pedals.hcl", sample.DemoText(t, "pedals")), "", PaperNone)
	require.Len(t, pages, 1)
	holes, pivots := centers(t, pages[0], 1), centers(t, pages[0], 2)
	assert.True(t, standApart(holes, math.Sqrt(296.7*296.7-18*18)))
	assert.Contains(t, pages[0], "left-link, 296.70 mm hole to hole, 296.15 mm on paper")
	assert.Equal(t, map[paper.Place]bool{paper.At(0, 0): true, paper.At(300, 60): true}, pivots, "where the file has them, y upward")
	assert.True(t, centers(t, pages[0], 12)[paper.At(150, 2)], "the seat tube, true to size")
	assert.Contains(t, pages[0], `stroke-width="12.225"`, "a rod of 12 mm with its outline")

	_, pages = fullSizeOf(t, checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle")), "", PaperNone)
	assert.True(t, standApart(centers(t, pages[0], 1), 242.41), "a flat run: the rod's length itself")

	_, pages = fullSizeOf(t, checkedOnce(t, "inches.hcl", fmt.Sprintf(sample.InchRun, "Inches")), "", PaperNone)
	holes, pivots = centers(t, pages[0], 1), centers(t, pages[0], 2)
	assert.True(t, standApart(holes, 10.5*25.4))
	assert.True(t, holes[paper.At(0, -2.25*25.4)])
	assert.True(t, pivots[paper.At(10.5*25.4, 0)])
	assert.True(t, centers(t, pages[0], 0.375*25.4)[paper.At(5*25.4, 2*25.4)])
}

// The holes of every page are at the same coordinates, and each is in the frame
// of some page.
func TestFullSizePagesCoverTheRun(t *testing.T) {
	eachFullSize(t, func(t *testing.T, f *fullSize, pages []string) {
		shown := func(p paper.Place) {
			for _, tile := range f.tiles {
				if f.tiling.windowOf(tile).Holds(p) {
					return
				}
			}
			t.Errorf("%v is on no page", p)
		}
		for _, shapes := range f.ink.Shapes {
			for _, sh := range shapes {
				for i, p := range sh.Through {
					shown(p)
					if i > 0 { // and all along it
						for share := 0.0; share < 1; share += 1.0 / 64 {
							shown(sh.Through[i-1].Add(p.Sub(sh.Through[i-1]).Scale(share)))
						}
					}
					for turn := 0.0; sh.Radius > 0 && turn < 360; turn += 15 {
						shown(p.Along(paper.Polar(turn), sh.Radius))
					}
				}
			}
		}
		for _, text := range f.ink.Texts {
			shown(text.At)
		}
		dr := &drawing{diagram: f.diagram, v: f.v, neutral: f.pose(-1).pose}
		for _, h := range dr.holes() {
			in := 0
			at := h.at.Scale(1 / perMillimeter)
			rounded := paper.At(math.Round(at.X*1000)/1000+0, math.Round(at.Y*1000)/1000+0)
			for i, page := range pages {
				if f.tiling.windowOf(f.tiles[i]).Holds(h.at) {
					in++
					marks := centers(t, page, 1)
					if h.pivot {
						marks = centers(t, page, 2)
					}
					assert.True(t, marks[rounded], "%s at %v on page %d", h.name, rounded, i+1)
				}
			}
			assert.Positive(t, in, h.name)
		}
	})
}

// Neighbors overlap, and their crosses lie at the same places of the drawing, in
// both frames.
func TestFullSizePagesJoin(t *testing.T) {
	joined := 0
	eachFullSize(t, func(t *testing.T, f *fullSize, pages []string) {
		step, overlap := roundStep(f.run.Units)
		for i, own := range f.tiles {
			for _, side := range []paper.Place{paper.At(1, 0), paper.At(0, 1)} {
				other := tile{own.column + int(side.X), own.row + int(side.Y)}
				n := f.number(other)
				if n == 0 {
					continue
				}
				joined++
				a, b := f.tiling.windowOf(own), f.tiling.windowOf(other)
				assert.InDelta(t, overlap, a.High.Sub(b.Low).Dot(side)/perMillimeter, 1e-9)
				crosses := f.crossings(own, side)
				back := f.crossings(other, side.Scale(-1))
				require.Len(t, back, len(crosses))
				for k, at := range crosses {
					assert.InDelta(t, 0, at.Distance(back[k]), 1e-9)
					assert.True(t, a.Holds(at.Scale(perMillimeter)) && b.Holds(at.Scale(perMillimeter)))
					for _, v := range []float64{at.X, at.Y} {
						assert.InDelta(t, math.Round(v/step), v/step, 1e-9, "a round figure")
					}
					w := &paper.SVG{Decimals: fullDecimals}
					across := fmt.Sprintf(`d="M%s %sL%s %s"`, w.Digits(at.X-3), w.Digits(at.Y), w.Digits(at.X+3), w.Digits(at.Y))
					assert.Contains(t, pages[i], across)
					assert.Contains(t, pages[n-1], across)
				}
				assert.Contains(t, pages[i], fmt.Sprintf("joins page %d<", n))
				assert.Contains(t, pages[n-1], fmt.Sprintf("joins page %d<", i+1))
			}
		}
	})
	assert.Greater(t, joined, 10)
}

// Every name is whole on a page, and cut on none; what a page carries besides
// the drawing lies on the paper that a printer prints on, and nothing of it on
// anything else.
func TestFullSizeCutsNoWords(t *testing.T) {
	check := func(t *testing.T, f *fullSize, pages []string) {
		for _, text := range f.ink.Texts {
			assert.True(t, f.whole(text), text.Says)
		}
		for i, tile := range f.tiles {
			frame := f.tiling.windowOf(tile)
			for _, text := range f.ink.In(frame).Texts {
				assert.True(t, paper.TextBox(text).Inside(frame) != f.left(text, frame), text.Says)
			}
			page := &paper.Scene{}
			f.furnish(page, i, frame)
			corner := f.tiling.cornerOf(tile)
			sheet := paper.Window{Low: corner.Scale(perMillimeter), High: corner.Add(f.tiling.paper).Scale(perMillimeter)}
			for k, text := range page.Texts {
				b := paper.TextBox(text)
				assert.True(t, b.Inside(sheet.Grown(-0.5*pageMargin*perMillimeter)), text.Says)
				low, high := b.Bounds()
				if frame.Meets(paper.Window{Low: low, High: high}) {
					assert.True(t, b.Inside(frame), "over the frame: %s", text.Says)
				}
				if strings.HasPrefix(text.Says, "joins page") {
					for _, other := range page.Texts[:k] {
						assert.False(t, b.Overlaps(paper.TextBox(other)), "%s on %s", text.Says, other.Says)
					}
					for _, other := range page.Texts[k+1:] {
						assert.False(t, b.Overlaps(paper.TextBox(other)), "%s on %s", text.Says, other.Says)
					}
				}
			}
		}
	}
	eachFullSize(t, check)
	long := strings.ReplaceAll(fmt.Sprintf(sample.InchRun, "Long names"), "crank", strings.Repeat("crank-", 40)+"end")
	for _, sheet := range Papers() {
		f, pages := fullSizeOf(t, checkedOnce(t, "long.hcl", long), "", sheet)
		check(t, f, pages)
	}
}

var (
	rootWritten = regexp.MustCompile(`viewBox="([-.\d]+) ([-.\d]+) ([-.\d]+) ([-.\d]+)"\s+role="img"[^>]*width="([.\d]+)mm"\s+height="([.\d]+)mm"`)
	pathWritten = regexp.MustCompile(`<path d="M([-.\d]+) ([-.\d]+)L([-.\d]+) ([-.\d]+)"`)
)

func numbers(t testing.TB, words []string) []float64 {
	t.Helper()
	var list []float64
	for _, word := range words {
		v, err := strconv.ParseFloat(word, 64)
		require.NoError(t, err)
		list = append(list, v)
	}
	return list
}

// On every page the rules are exact from end tick to end tick, in both
// directions, and everything but what is on the drawing lies on the paper.
func TestFullSizePageIsPaper(t *testing.T) {
	check := func(t *testing.T, f *fullSize, pages []string) {
		long, says := 100.0, ">100 mm<"
		if f.run.Units == linkage.Inches {
			long, says = 101.6, ">4 in (101.6 mm)<"
		}
		for _, page := range pages {
			root := rootWritten.FindStringSubmatch(page)
			require.NotNil(t, root)
			v := numbers(t, root[1:])
			assert.Equal(t, v[2:4], v[4:6], "a unit is a millimeter")
			if f.paper != PaperNone {
				upright := paperSizes[f.paper]
				assert.Contains(t, [][]float64{{upright.X, upright.Y}, {upright.Y, upright.X}}, v[2:4])
			}
			for _, name := range []string{"rule-across", "rule-down"} {
				_, rest, found := strings.Cut(page, `class="`+name+`"`)
				require.True(t, found)
				rest, _, _ = strings.Cut(rest, "</g>")
				paths := pathWritten.FindAllStringSubmatch(rest, -1)
				require.Greater(t, len(paths), 3)
				line, first, last := numbers(t, paths[0][1:]), numbers(t, paths[1][1:]), numbers(t, paths[len(paths)-1][1:])
				along := 0
				if name == "rule-down" {
					along = 1
				}
				assert.InDelta(t, long, line[2+along]-line[along], 1e-9)
				assert.InDelta(t, long, last[along]-first[along], 1e-9)
				for _, p := range [][]float64{line[:2], line[2:], first[2:], last[2:]} {
					assert.GreaterOrEqual(t, p[0], v[0]+pageMargin)
					assert.LessOrEqual(t, p[0], v[0]+v[2]-pageMargin)
					assert.GreaterOrEqual(t, p[1], v[1]+pageMargin)
					assert.LessOrEqual(t, p[1], v[1]+v[3]-pageMargin)
				}
			}
			assert.Equal(t, 2, strings.Count(page, says))
			assert.Contains(t, page, "Measure this first")
			assert.Contains(t, page, "0a1b0a1b0a1b")
			assert.Contains(t, page, "approves nothing")
			assert.Contains(t, page, "second person.<", "the caution to its end")
			assert.Contains(t, page, "fullfree test")
		}
	}
	eachFullSize(t, check)
	result := checkedOnce(t, "inches.hcl", fmt.Sprintf(sample.InchRun, "Inches"))
	for _, sheet := range Papers() {
		f, pages := fullSizeOf(t, result, "", sheet)
		check(t, f, pages)
	}
}

// Pages are numbered over those that are printed; what is left out is struck out
// on the plan.
func TestFullSizeTellsPages(t *testing.T) {
	f, pages := fullSizeOf(t, checkedOnce(t, "pedals.hcl", sample.DemoText(t, "pedals")), "", PaperA4)
	require.Len(t, pages, 4)
	require.Less(t, len(pages), f.tiling.columns*f.tiling.rows)
	assert.Contains(t, pages[1], "Page 2 of 4, column A row 2.")
	assert.Contains(t, pages[3], "Page 4 of 4, column C row 2.")
	assert.Contains(t, pages[0], "struck out: empty, left out")
	for _, other := range []paper.Place{paperSizes[PaperA4], paper.At(297, 210)} {
		low, high := f.ink.Extent()
		g := gridOver(other, f.run.Units, low.Scale(1/perMillimeter), high.Scale(1/perMillimeter))
		assert.LessOrEqual(t, len(pages), len(f.printed(g)), "the fewest pages")
	}
	_, pages = fullSizeOf(t, f.result, "", PaperNone)
	assert.Contains(t, pages[0], "One sheet.")
	assert.NotContains(t, pages[0], "Plan of the pages")
	assert.Equal(t, []string{"A", "Z", "AA", "AB", "AZ", "BA"}, []string{figure.Letter(0), figure.Letter(25), figure.Letter(26), figure.Letter(27), figure.Letter(51), figure.Letter(52)})
}

func TestFullSizeIsSelfContained(t *testing.T) {
	ids := map[string]bool{}
	eachFullSize(t, func(t *testing.T, f *fullSize, pages []string) {
		again, err := FullSize(f.result, f.sweep, FullSizeOptions{View: f.diagram.opts.View, Paper: f.paper, Hash: f.diagram.opts.Hash, Version: f.diagram.opts.Version})
		require.NoError(t, err)
		clear(ids)
		for i, page := range pages {
			assert.Equal(t, page, string(again[i]), "the same bytes")
			for name := range sample.WellFormed(t, page) {
				assert.Contains(t, []string{"svg", "title", "desc", "defs", "clipPath", "g", "path", "circle", "rect", "line", "text"}, name)
			}
			sample.AssertFigures(t, page)
			assert.NotContains(t, page, "href=")
			assert.NotContains(t, page, "style=")
			for _, id := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(page, -1) {
				assert.False(t, ids[id[1]], "once over all pages: %s", id[1])
				ids[id[1]] = true
			}
		}
	})
}

func TestFullSizeHostileNames(t *testing.T) {
	for _, name := range []string{`</text><script>alert(1)</script>`, `]]>&amp;<![CDATA[`, strings.Repeat("long ", 100), "a\u202eb"} {
		text := fmt.Sprintf(sample.InchRun, strings.ReplaceAll(name, `"`, `\"`))
		_, pages := fullSizeOf(t, sample.Checked(t, "hostile.hcl", text), "", PaperLetter)
		for _, page := range pages {
			assert.Zero(t, sample.WellFormed(t, page)["script"])
		}
	}
}

// What no paper holds is refused with what to do instead.
func TestFullSizeRefuses(t *testing.T) {
	long := func(by string) *solve.Result {
		text := strings.ReplaceAll(fmt.Sprintf(sample.InchRun, "Long"), "10 + 1/2", by)
		return checkedOnce(t, "long.hcl", text)
	}
	for _, c := range []struct{ by, paper, says string }{
		{"10000", PaperLetter, "254.05 m by 0.12 m: more than 100 pages of letter, and 100 are the most that can be joined; draw it without --full-size"},
		{"900000", PaperNone, "a sheet may be 10 m: draw it without --full-size"},
		{"390", PaperNone, ""},
		{"390", PaperLetter, ""},
		{"10", "a5", `there is no paper "a5": a4, letter, a3, tabloid, none`},
	} {
		r := long(c.by)
		_, err := FullSize(r, r.Sweeps[0], FullSizeOptions{Paper: c.paper})
		if c.says == "" {
			assert.NoError(t, err)
		} else {
			assert.ErrorContains(t, err, c.says)
		}
	}
	_, err := FullSize(long("10"), long("10").Sweeps[0], FullSizeOptions{Paper: PaperA4, View: "yx"})
	assert.ErrorContains(t, err, "xy, xz or yz")

	wide := strings.ReplaceAll(strings.ReplaceAll(fmt.Sprintf(sample.InchRun, "Wide"), "10 + 1/2", "390"), "[5, -2]", "[195, -195]")
	wide = strings.ReplaceAll(wide, "3/8", "188")
	r := checkedOnce(t, "wide.hcl", wide)
	_, err = FullSize(r, r.Sweeps[0], FullSizeOptions{Paper: PaperA4})
	assert.ErrorContains(t, err, "take larger paper (--paper a3), or --paper none gives one sheet for a plotter")
}

// A run of thousands of parts is drawn at once, with the names that find room.
func TestFullSizeCrowded(t *testing.T) {
	const parts = 1500
	var b strings.Builder
	b.WriteString("run \"crowd\" { units = \"mm\" }\n")
	for i := range parts {
		fmt.Fprintf(&b, "part \"p%d\" {\n pivot = [%d, %d]\n arms = { a = [0, 20] }\n}\n", i, i%60*40, i/60*60)
		if i > 0 {
			fmt.Fprintf(&b, "rod \"r%d\" {\n from = p%d.a\n to = p%d.a\n}\n", i, i-1, i)
		}
	}
	b.WriteString("control \"c\" {\n of = p0\n from = -1\n to = 1\n}\n")
	result := checkedOnce(t, "crowd.hcl", b.String())
	pages, err := FullSize(result, result.Sweeps[0], FullSizeOptions{Paper: PaperNone})
	require.NoError(t, err)
	assert.Contains(t, string(pages[0]), "It is crowded")
	assert.Contains(t, string(pages[0]), ">p0 pivot<")
	assert.Len(t, centers(t, string(pages[0]), 2), parts)
}
