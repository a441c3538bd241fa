package page

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"html"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/sample"
	"fullfree/render/picture"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bookAfresh reads and judges a text as a run of a book.
func bookAfresh(t testing.TB, name, text string) BookRun {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: name, Text: []byte(text)})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(result, nil))
	return BookRun{File: name, Text: []byte(text), Result: result, Pinned: m.Pinned(),
		ReportOptions: render.ReportOptions{Hash: strings.Repeat("0a1b", 16), Version: "1.2.3"}}
}

// bookPage writes a book.
func bookPage(t testing.TB, runs ...BookRun) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Book(&out, runs, nil))
	return out.String()
}

// allDemos are the demos that need no survey.
func allDemos() []string {
	return append(demo.Kinds(), demo.WrongHole, demo.Unequal, demo.Dual)
}

// inlineParts are the style and the scripts of a page.
var inlineParts = regexp.MustCompile(`(?s)<(style|script)( [^>]*)?>(.*?)</(?:style|script)>`)

// element is an element of a page, with its attributes.
type element struct {
	name  string
	attrs map[string]string
}

// elements reads a page and returns its elements. What stands in scripts and
// styles is left out: it is no sample.Markup.
func elements(t *testing.T, page string) []element {
	t.Helper()
	page = inlineParts.ReplaceAllString(strings.TrimPrefix(page, "<!DOCTYPE html>"), "<$1$2></$1>")
	decoder := xml.NewDecoder(strings.NewReader(page))
	decoder.Strict, decoder.AutoClose, decoder.Entity = false, []string{"meta", "input"}, xml.HTMLEntity
	var all []element
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return all
		}
		require.NoError(t, err)
		if start, ok := token.(xml.StartElement); ok {
			e := element{start.Name.Local, map[string]string{}}
			for _, a := range start.Attr {
				name := a.Name.Local
				if a.Name.Space != "" {
					name = a.Name.Space + ":" + name
				}
				e.attrs[name] = a.Value
			}
			all = append(all, e)
		}
	}
}

// inert asserts what holds of every page: nothing in it runs, comes from
// elsewhere or leads there, but its one script; its ids are its own.
func inert(t *testing.T, page string) []element {
	t.Helper()
	all := elements(t, page)
	ids := map[string]bool{}
	for _, e := range all {
		for name, value := range e.attrs {
			assert.NotEqual(t, "style", name, "%v", e)
			assert.False(t, strings.HasPrefix(name, "on"), "%v", e)
			assert.NotContains(t, []string{"src", "srcset", "action", "formaction", "ping", "background"}, name, "%v", e)
			if name == "href" || name == "xlink:href" {
				assert.True(t, strings.HasPrefix(value, "#"), "%v", e)
			}
			if name == "id" {
				assert.Regexp(t, `^[A-Za-z][A-Za-z0-9-]*$`, value)
				assert.False(t, ids[value], "two of id %s", value)
				ids[value] = true
			}
		}
	}
	for _, e := range all {
		for _, name := range []string{"for", "aria-labelledby", "aria-describedby"} {
			for _, id := range strings.Fields(e.attrs[name]) {
				assert.True(t, ids[id], "%s of %v", name, e)
			}
		}
		if target, ok := strings.CutPrefix(e.attrs["href"], "#"); ok {
			assert.True(t, ids[target], "%v", e)
		}
	}
	assert.Empty(t, foreign(page))
	return all
}

// foreign are the addresses in a page but those that name what kind of markup it is: each
// is the letters before a "://" and what follows up to the next quote, bracket or space.
func foreign(page string) (list []string) {
	for at := 0; ; {
		k := strings.Index(page[at:], "://")
		if k < 0 {
			return list
		}
		from := at + k
		for from > 0 && page[from-1] >= 'a' && page[from-1] <= 'z' {
			from--
		}
		at += k + len("://")
		if from == at-len("://") {
			continue // no letter
		}
		to := at
		for to < len(page) && !strings.ContainsRune(`"<> `, rune(page[to])) {
			to++
		}
		if address := page[from:to]; address != "http://www.w3.org/2000/svg" && address != "http://www.w3.org/1999/xlink" {
			list = append(list, address)
		}
	}
}

func TestBookOfEveryDemo(t *testing.T) {
	for _, kind := range allDemos() {
		t.Run(kind, func(t *testing.T) {
			text := sample.DemoText(t, kind)
			run := bookOf(t, kind+".hcl", text)
			page := pageOnce(t, run)
			all := inert(t, page)
			count := func(name, class string) (n int) {
				for _, e := range all {
					if e.name == name && slices.Contains(strings.Fields(e.attrs["class"]), class) {
						n++
					}
				}
				return n
			}
			sweeps := min(len(run.Result.Sweeps), travelsShown(run.Result)) // the book tells how many more are judged alike
			assert.Equal(t, sweeps, count("section", "travel"))
			assert.Equal(t, sweeps, count("input", "slider"))
			assert.Equal(t, sweeps > 1, count("select", "choose") == 1)
			assert.Equal(t, len(run.Result.Requirements), count("div", "requirement"))
			assert.Equal(t, 1, count("section", "sheet"))
			assert.GreaterOrEqual(t, count("figure", "still"), 2*sweeps)
			assert.LessOrEqual(t, count("figure", "still"), mostStills*sweeps)
			plain := html.UnescapeString(page)
			assert.Contains(t, plain, render.Headline(run.Result))
			for i := range run.Result.Requirements {
				assert.Contains(t, plain, render.Says(run.Result, &run.Result.Requirements[i]))
			}
			assert.Contains(t, plain, render.Caution)
			assert.Contains(t, plain, strings.Repeat("0a1b", 16), "the whole hash")
			assert.Contains(t, plain, "fullfree 1.2.3")
			if sweeps == 1 {
				assert.Equal(t, page, bookPage(t, bookAfresh(t, kind+".hcl", text)), "the same bytes")
			}
			assert.NotContains(t, page, "ZgotmplZ")
			assert.NotContains(t, page, "NaN")
		})
	}
	page := pageOnce(t, bookOf(t, "pedals.hcl", sample.DemoText(t, "pedals")))
	assert.Less(t, len(page), 400_000, "small enough for any phone")
}

// The policy names the hash of the page's one style and of its one script that
// runs, and nothing else may run.
func TestBookAllowsItsOwnPartsAlone(t *testing.T) {
	page := pageOnce(t, bookOf(t, "pedals.hcl", sample.DemoText(t, "pedals")))
	policy := ""
	for _, e := range elements(t, page) {
		if e.attrs["http-equiv"] == "Content-Security-Policy" {
			policy = e.attrs["content"]
		}
	}
	assert.Regexp(t, `^default-src 'none'; style-src 'sha256-[A-Za-z0-9+/=]{44}'; script-src 'sha256-[A-Za-z0-9+/=]{44}'; base-uri 'none'; form-action 'none'$`, policy)
	ran := 0
	for _, part := range inlineParts.FindAllStringSubmatch(page, -1) {
		if strings.Contains(part[2], "application/json") {
			continue
		}
		ran++
		assert.Contains(t, policy, part[1]+"-src '"+sourceHash(part[3])+"'")
	}
	assert.Equal(t, 2, ran)
	// RFC 6234, 8.5, test 1: the SHA-256 of "abc", here in base 64.
	assert.Equal(t, "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=", sourceHash("abc"))
}

// What stands in a page between its own tags holds none that ends it.
func TestWebFilesEndNothing(t *testing.T) {
	entries, err := webFiles.ReadDir(".")
	require.NoError(t, err)
	require.NotEmpty(t, entries)
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".html") {
			text := strings.ToLower(webText([]string{e.Name()}))
			assert.NotContains(t, text, "</", e.Name())
			assert.NotContains(t, text, "<!--", e.Name())
		}
	}
}

// A run whose every text is an attack.
func TestBookIsInertWhateverIsInTheFile(t *testing.T) {
	const attack = `</pre></script></style></svg></title>--><script>alert(1)</script><img src=x onerror=alert(1)>`
	text := sample.DemoText(t, "pedals")
	for _, old := range []string{"Pedals, left seat", "from the left side, nose to the left", "left pedal forward", "right pedal forward", "what the tail run needs", "nose left"} {
		require.Contains(t, text, `"`+old+`"`)
		text = strings.ReplaceAll(text, `"`+old+`"`, `"`+attack+`'{{.}}`+old+`"`)
	}
	text = "# " + attack + "\r\n" + text
	run := bookOf(t, attack+".hcl", text)
	run.Set, run.Version = []string{attack}, attack
	page := bookPage(t, run)
	for _, e := range inert(t, page) {
		assert.NotContains(t, []string{"img", "iframe", "object", "a"}, e.name)
	}
	assert.Equal(t, 2, strings.Count(strings.ToLower(page), "<script"), "the course and the script")
	assert.NotContains(t, page, "alert(1)</script>")
	assert.Equal(t, text, listed(t, page))
	assert.Contains(t, courses(t, page)["r1s1"].Plus, attack, "in the page's data it is text")
}

// listed is the file that stands in a page, as a browser reads it.
func listed(t *testing.T, page string) string {
	t.Helper()
	_, rest, ok := strings.Cut(page, `<pre class="listing"`)
	require.True(t, ok)
	_, rest, _ = strings.Cut(rest, ">")
	text, _, ok := strings.Cut(rest, "</pre>")
	require.True(t, ok)
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n") // HTML, 13.2.3.5
	text = regexp.MustCompile(`<bdi>|</bdi>|<br>|<span class="code">|</span>`).ReplaceAllString(text, "")
	return html.UnescapeString(strings.TrimPrefix(text, "\n")) // HTML, 13.2.6.4.7, pre
}

// courses are the courses that a page carries, by travel.
func courses(t *testing.T, page string) map[string]picture.Course {
	t.Helper()
	found := map[string]picture.Course{}
	for _, part := range inlineParts.FindAllStringSubmatch(page, -1) {
		if id := regexp.MustCompile(`id="(.*)-course"`).FindStringSubmatch(part[2]); id != nil {
			var c picture.Course
			require.NoError(t, json.Unmarshal([]byte(part[3]), &c))
			found[id[1]] = c
		}
	}
	return found
}

// The button of a requirement goes to a position that was solved, where what it
// is about is as bad as the report says.
func TestBookGoesToTheWorst(t *testing.T) {
	went, compared := 0, 0
	for _, kind := range allDemos() {
		run := bookOf(t, kind+".hcl", sample.DemoText(t, kind))
		page := pageOnce(t, run)
		all := courses(t, page)
		var buttons []element
		for _, e := range elements(t, page) {
			if e.name == "button" && strings.Contains(e.attrs["class"], "go") {
				buttons = append(buttons, e)
			}
		}
		var judged []*solve.Judgement
		for i := range run.Result.Requirements {
			if j := &run.Result.Requirements[i]; j.At != nil {
				judged = append(judged, j)
			}
		}
		require.Len(t, buttons, len(judged), kind)
		for i, j := range judged {
			at, err := strconv.ParseFloat(buttons[i].attrs["data-at"], 64)
			require.NoError(t, err)
			s := run.Result.Sweeps[j.Sweep]
			assert.Equal(t, math.Min(s.High, math.Max(s.Low, *j.At)), at)
			travel := buttons[i].attrs["data-travel"]
			assert.Equal(t, fmt.Sprintf("r1s%d", j.Sweep+1), travel)
			course := all[travel]
			k := slices.IndexFunc(course.Samples, func(p picture.MotionSample) bool { return p.At == at })
			require.GreaterOrEqual(t, k, 0, "%s: %s at %v", kind, j.Requirement.Kind, at)
			went++
			if !slices.Contains([]linkage.Kind{linkage.Opposite, linkage.Together, linkage.Steady, linkage.Clearance}, j.Requirement.Kind) {
				continue
			}
			for s, one := range course.Series {
				if one.Kind == "requirement" && one.Label == render.RequirementTitle(run.Result, j.Requirement) {
					compared++
					worst := *course.Samples[k].Values[s]
					if j.Requirement.Kind != linkage.Clearance {
						worst = math.Abs(worst)
					}
					assert.InDelta(t, *j.Worst, worst, 1e-3, "%s: %s", kind, one.Label)
				}
			}
		}
	}
	assert.Greater(t, went, 20)
	assert.Greater(t, compared, 8)
}

func TestBookOfSeveralRuns(t *testing.T) {
	good, short := bookOf(t, "pedals.hcl", sample.DemoText(t, "pedals")), bookOf(t, "wrong.hcl", sample.DemoText(t, demo.WrongHole))
	open := bookOf(t, "open.hcl", regexp.MustCompile(`(?s)\nrequire .*`).ReplaceAllString(sample.DemoText(t, "throttle"), "\n"))
	var told []string
	var out bytes.Buffer
	require.NoError(t, Book(&out, []BookRun{good, open, short}, func(done, all int) { told = append(told, fmt.Sprintf("%d of %d", done, all)) }))
	assert.Equal(t, []string{"0 of 3", "1 of 3", "2 of 3"}, told)
	page := out.String()
	inert(t, page)
	_, summary, _ := strings.Cut(page, `<ul class="summary">`)
	summary, _, _ = strings.Cut(summary, "</ul>")
	var order []string
	for _, found := range regexp.MustCompile(`href="#(r\d)".*<span class="mark \w+">([^<]*)<`).FindAllStringSubmatch(summary, -1) {
		order = append(order, found[1]+" "+html.UnescapeString(found[2]))
	}
	assert.Equal(t, []string{"r3 falls short", "r2 can't be judged", "r1 holds"}, order, "the worst first")
	assert.Equal(t, 1, strings.Count(page, `href="#r1"`), "listed once")
	first, second, third := strings.Index(page, `<article class="run" id="r1">`), strings.Index(page, `<article class="run" id="r2">`), strings.Index(page, `<article class="run" id="r3">`)
	assert.True(t, 0 < first && first < second && second < third, "as given")
	assert.Contains(t, page, "NOTHING WAS REQUIRED")
	assert.Contains(t, page, "<p>Nothing was required.</p>")

	// The pages of each run's sheet tell at their foot what they belong to.
	for _, id := range []string{"r1", "r2", "r3"} {
		assert.Contains(t, page, "@page "+id+`-sheet { @bottom-left { content: "Rigging sheet of the file whose SHA-256 begins 0a1b0a1b0a1b. Void once the file changes.";`)
		assert.Contains(t, page, "#"+id+" .sheet { page: "+id+"-sheet; }")
	}
	assert.NotContains(t, page, "r4-sheet")

	same := bookPage(t, good, good)
	inert(t, same) // the ids of a run twice in one book are apart too
}

// A run with many settings is shown in part, and says so; what is worst is.
func TestBookOfManySettings(t *testing.T) {
	var held []string
	for i := range 30 {
		held = append(held, fmt.Sprintf("%.2f", float64(i)/10))
	}
	text := regexp.MustCompile(`(?s)(control "collective" \{.*?held *= )\[[^\]]*\]`).ReplaceAllString(sample.DemoText(t, "mixer"), "${1}["+strings.Join(held, ", ")+"]")
	require.Contains(t, text, "2.90")
	run := bookOf(t, "mixer.hcl", text)
	require.Greater(t, len(run.Result.Sweeps), mostTravels)
	shown := shownSweeps(run.Result, 0)
	assert.Len(t, shown, mostTravels)
	assert.True(t, slices.IsSortedFunc(shown, func(a, b *solve.Sweep) int { return a.Index - b.Index }))
	for _, j := range run.Result.Requirements {
		if j.At != nil {
			assert.Contains(t, shown, run.Result.Sweeps[j.Sweep])
		}
	}
	page := bookPage(t, run)
	inert(t, page)
	assert.Contains(t, page, fmt.Sprintf("not shown here: %d more settings", len(run.Result.Sweeps)-mostTravels))
}

// The stills are the ends, neutral and worst places, by position.
func TestBookStills(t *testing.T) {
	run := bookOf(t, "pedals.hcl", sample.DemoText(t, "pedals"))
	s := run.Result.Sweeps[0]
	b, err := bookTravelOf("r1s1", run.Result, s)
	require.NoError(t, err)
	var at []float64
	var letters string
	for _, still := range b.Stills {
		at, letters = append(at, still.at), letters+still.Letter
	}
	assert.Equal(t, "ABCDE", letters)
	assert.Equal(t, s.Low, at[0])
	assert.Equal(t, s.High, at[4])
	assert.Zero(t, at[3])
	assert.Contains(t, b.Stills[1].Says, `worst here: clearance "rod to seat tube"`)
	assert.Contains(t, b.Stills[4].Says, "high end")
	require.Equal(t, []string{"at", "", "A", "B", "C", "D", "E"}, b.StillTable.Head)
	assert.Equal(t, []string{"pedals (control)", "deg", figure.Number(s.Low, "deg"), figure.Number(at[1], "deg"), figure.Number(at[2], "deg"), "0.0", figure.Number(s.High, "deg")}, b.StillTable.Rows[0])
	outputs := 0
	for _, row := range b.StillTable.Rows {
		if row[0] == "tail-run (output)" {
			o := s.Outputs[0]
			assert.Equal(t, []string{figure.Number(o.AtLow, o.Unit), figure.Number(o.Neutral, o.Unit), figure.Number(o.AtHigh, o.Unit)}, []string{row[2], row[5], row[6]})
			outputs++
		}
	}
	assert.Equal(t, 1, outputs)
}

func TestBookTellsWhatIsInHand(t *testing.T) {
	for _, c := range []struct {
		kind         linkage.Kind
		worst, limit float64
		unit         linkage.Unit
		want         string
		change       func(j *solve.Judgement)
	}{
		{linkage.Opposite, 0.3, 0.5, "deg", "0.2°", nil},
		{linkage.Opposite, 0.54, 0.5, "deg", "missed by 0.04°", nil},
		{linkage.Clearance, 4, 5, "mm", "missed by 1.0 mm", nil},
		{linkage.Clearance, 0.5, 0.25, "in", "1/4 in", nil},
		{linkage.RodAngle, 45, 45, "deg", "nothing", nil},
		{linkage.RodAngle, 45 - 1e-14, 45, "deg", "nothing", func(j *solve.Judgement) { j.Verdict = solve.Holds }},
		{linkage.OverCenter, 15.2, 15, "deg", "over 0.2°", func(j *solve.Judgement) { j.NoneFound = true }},
		{linkage.Misalignment, 3, 10, "deg", "7.0°", nil},
		{linkage.Engagement, -1.25, 0, "mm", "missed by 1.25 mm", nil},
		{linkage.Engagement, 2, 0, "mm", "-", func(j *solve.Judgement) { j.Why = solve.BottomsOut }},
		{linkage.Stops, 1, 0, "", "-", nil},
		{linkage.Sense, 1.1, 0, "mm/deg", "-", nil},
		{linkage.Travel, 0, 0, "deg", "-", func(j *solve.Judgement) { j.Worst = nil }},
	} {
		j := &solve.Judgement{Requirement: &linkage.Requirement{Kind: c.kind}, Worst: sample.Is(c.worst), Limit: c.limit, Unit: c.unit}
		if c.change != nil {
			c.change(j)
		}
		assert.Equal(t, c.want, inHandWords(j), "%v", c)
	}
}

func TestBookTellsHowSure(t *testing.T) {
	r := sample.Levers()
	r.Run.Uncertain = 1
	sure, unsure := true, false
	for _, c := range []struct {
		band float64
		sure *bool
		want string
	}{{0.3, &sure, "yes, ± 0.3°"}, {3.3, &unsure, "no, ± 3.3°"}, {1e-6, &sure, "yes"}} {
		assert.Equal(t, c.want, sureWords(r, &solve.Judgement{Band: &c.band, Sure: c.sure, Unit: "deg"}))
	}
	assert.Equal(t, nothing, sureWords(r, &solve.Judgement{Unit: "deg"}))
}

// What a page shows of a value is what the report would.
func TestReadoutIsToldAsTheReportDoes(t *testing.T) {
	for _, unit := range []linkage.Unit{"deg", "mm", "in"} {
		s := picture.Series{Unit: unit, Decimals: 1}
		if unit == "in" {
			s.Parts = figure.InchParts
		}
		for _, v := range []float64{0, -0.04, 0.05, 12.34, -7.25, 3.0 / 128, -0.001} {
			assert.Equal(t, figure.Quantity(v, unit), seriesShown(s, &v), "%v %s", v, unit)
		}
		assert.Equal(t, nothing, seriesShown(s, nil))
	}
	ratio := picture.Series{Kind: string(solve.SeriesRatio), Unit: "deg/deg", Decimals: 3}
	for v, want := range map[float64]string{0: "hardly moves", -4e-4: "hardly moves", -6e-4: "-0.001 degrees a degree", 1: "1.000 degrees a degree"} {
		assert.Equal(t, want, seriesShown(ratio, &v))
	}
}

// Where no pins are, the lengths of rods stand in one table.
func TestBookTellsRodsOnce(t *testing.T) {
	for kind, tables := range map[string]int{"pedals": 1, "throttle": 1} {
		run := bookOf(t, kind+".hcl", sample.DemoText(t, kind))
		rows := 0
		for _, told := range render.RodPassages(run.Result, run.Pinned) {
			for _, row := range told.Rows {
				if row[0] == run.Result.Run.Rods[0].Name {
					rows++
				}
			}
		}
		if len(run.Result.Run.Pins) > 0 {
			tables++
		}
		assert.Equal(t, tables, rows, kind)
	}
}
