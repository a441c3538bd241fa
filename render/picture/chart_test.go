package picture

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// chartsIn returns the charts of a run's sweep.
func chartsIn(result *solve.Result, sweep *solve.Sweep) []chart {
	return chartsOf(result, sweep, sweep.Course(coursePlaces(result, sweep)...))
}

// eachCharted calls do for every sweep of every demo.
func eachCharted(t *testing.T, do func(t *testing.T, result *solve.Result, sweep *solve.Sweep)) {
	for _, kind := range append(demo.Kinds(), demo.WrongHole, demo.Unequal, demo.Dual, demo.Taped) {
		result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
		for i, sweep := range telling(result) {
			t.Run(fmt.Sprintf("%s/%d", kind, i), func(t *testing.T) { do(t, result, sweep) })
		}
	}
}

func chartSVG(t testing.TB, c *chart) string {
	t.Helper()
	svg, err := c.svg()
	require.NoError(t, err)
	return string(svg)
}

func chartsSVG(t testing.TB, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Charts(&out, result, sweep, opts))
	return out.String()
}

// assertSelfContained asserts what every picture is: inert, its ids its own.
func assertSelfContained(t testing.TB, svg string) {
	t.Helper()
	for name := range sample.WellFormed(t, svg) {
		assert.Contains(t, []string{"svg", "title", "desc", "defs", "pattern", "g", "path", "circle", "rect", "line", "text"}, name)
	}
	sample.AssertFigures(t, svg)
	assert.NotContains(t, svg, "href=")
	assert.NotContains(t, svg, "style=")
	for _, paint := range regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
		if !strings.HasPrefix(paint[1], "url(#chart") {
			assert.Contains(t, []string{"none", "#000", "#fff"}, paint[1], "color must carry no meaning")
		}
	}
}

func idsIn(svg string) map[string]int {
	ids := map[string]int{}
	for _, id := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
		ids[id[1]]++
	}
	return ids
}

func TestChartsAreSelfContained(t *testing.T) {
	eachCharted(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		charts := chartsIn(result, sweep)
		all := ""
		for i := range charts {
			c := &charts[i]
			svg := chartSVG(t, c)
			assertSelfContained(t, svg)
			elements := sample.WellFormed(t, svg)
			assert.Equal(t, 1, elements["title"])
			assert.Equal(t, 1, elements["desc"])
			assert.Contains(t, svg, `role="img"`)
			assert.Contains(t, svg, `class="cursor"`)
			assert.Contains(t, svg, `visibility="hidden"`)
			for n := range c.lines {
				assert.Contains(t, svg, fmt.Sprintf(`id="%s-line-%d"`, c.id, n+1))
			}
			all += svg
		}
		sheet := chartsOnce(t, result, sweep, DiagramOptions{Hash: strings.Repeat("0a1b", 16)})
		assertSelfContained(t, sheet)
		for _, svg := range []string{all, sheet} {
			for id, n := range idsIn(svg) {
				assert.Equal(t, 1, n, "id %s", id)
				assert.Regexp(t, `^[a-z0-9-]+$`, id)
			}
		}
	})
}

// No text lies on another, and none leaves the sheet: alone and all on one.
func TestChartTextIsClear(t *testing.T) {
	eachCharted(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		s, err := newChartSheet(result, sweep, DiagramOptions{Hash: "0123456789abcdef", Version: "test"})
		require.NoError(t, err)
		assertClear(t, &s.scene)
		for i := range s.charts {
			assertClear(t, &s.charts[i].plot(true).scene)
		}
		said := texts(&s.scene)
		assert.Equal(t, 1, said["0123456789ab"], "the hash, shortened")
		assert.Equal(t, 1, said["File, SHA-256 begins (fullfree test)"])
		assert.Equal(t, 1, said[fmt.Sprintf("%d positions solved", len(s.course.Samples))])
	})
}

func TestChartBytesAreStable(t *testing.T) {
	eachCharted(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		opts := DiagramOptions{Hash: strings.Repeat("0a1b", 16)}
		assert.Equal(t, chartsOnce(t, result, sweep, opts), chartsSVG(t, result, sweep, opts))
		charts := chartsIn(result, sweep)
		assert.Equal(t, chartSVG(t, &charts[0]), chartSVG(t, &charts[0]))
	})
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	again := sample.Checked(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	assert.Equal(t, chartsSVG(t, result, result.Sweeps[0], DiagramOptions{}), chartsSVG(t, again, again.Sweeps[0], DiagramOptions{}), "solved anew")
}

func TestChartsAreThoseAskedFor(t *testing.T) {
	titles := func(kind string) (list []string) {
		result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
		for _, c := range chartsIn(result, result.Sweeps[0]) {
			list = append(list, c.title)
		}
		return list
	}
	assert.Equal(t, []string{
		"Output tail-run", "Equal and opposite: left-tube + right-tube", "Rod angles",
		"Gap to each stop, as an angle", "Ratio of tail-run to pedals", "Second path far-right-link",
	}, titles(demo.Dual))
	assert.Equal(t, []string{
		"Output butterfly", "Rod angle of link", "Gap to each stop, as an angle", "Gap to the stop tail-stop", "Ratio of butterfly to throttle",
	}, titles("throttle"))
	assert.Equal(t, []string{
		"Output plunger-rule", "Output rod-in-hole", "To be left alone: rod-in-hole", "Rod angles", "Gap to each stop, as an angle",
		"Gap to the stop guide-top", "Clearance: mast-rod to airframe.firewall", "Ratio to collective",
	}, titles("chain"))
}

// What is required stands in the picture, the worst with its value, the ends with
// what makes them, and on-center points with their flags.
func TestChartsSayWhatABuilderNeeds(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	charts := chartsIn(result, result.Sweeps[0])
	said := texts(&charts[0].plot(true).scene)
	for _, words := range []string{"to reach 0° ± 1.5°", "to reach 69° ± 1.5°", "0.0°", "69.0°", "closed", "open", "X1",
		"throttle (grip-lever), degrees from neutral", "-34.0° idle-stop", "29.5° tail-stop", "reads, degrees; more is open"} {
		assert.Equal(t, 1, said[words], words)
	}
	said = texts(&charts[1].plot(true).scene)
	assert.Equal(t, 1, said["at least 20°"])
	assert.Equal(t, 1, said["23.0°"], "the least of the rod angles")
	assert.Contains(t, charts[1].says, "23.0° at 29.5°")
	assert.Contains(t, charts[1].says, "The high end: 29.5°, tail-stop.")
	assert.Contains(t, charts[1].says, "On center, flag X1: throttle at 40.8°")

	result = checkedOnce(t, "pedals.hcl", sample.DemoText(t, "pedals"))
	charts = chartsIn(result, result.Sweeps[0])
	said = texts(&charts[1].plot(true).scene)
	assert.Equal(t, 1, said["within ± 0.5°"])
	opposite := result.Requirements[0]
	require.Equal(t, linkage.Opposite, opposite.Requirement.Kind)
	require.NotNil(t, opposite.At)
	mark := charts[1].lines[0].marks[0]
	assert.InDelta(t, *opposite.At, charts[1].course.Samples[mark.position].At, 0, "its worst place is that of the verdict")
	assert.InDelta(t, *opposite.Worst, math.Abs(*charts[1].value(&charts[1].lines[0], mark.position)), 1e-9)
}

func TestChartHostileNames(t *testing.T) {
	hostile := []string{
		`<script>alert(1)</script>`,
		`" onload="alert(1)`,
		`&lt;b&gt; & ]]> <!-- --`,
		"control\u0007 and \u202eturned\u202c",
		strings.Repeat("long ", 100),
		strings.Repeat("long", 100),
		"漢字 عربى ñ é̂ 🛩",
	}
	for _, name := range hostile {
		result := sample.Checked(t, demo.Dual+".hcl", sample.DemoText(t, demo.Dual))
		run := result.Run
		run.Name = name
		run.Controls[0].Name, run.Controls[0].Plus, run.Controls[0].Minus = name, name, name
		for _, part := range run.Parts {
			part.Name = name
		}
		for _, rod := range run.Rods {
			rod.Name = name
		}
		for _, stop := range run.Stops {
			stop.Name = name
		}
		run.Outputs[0].Name, run.Outputs[0].Plus = name, name
		sheet, err := newChartSheet(result, result.Sweeps[0], DiagramOptions{Hash: name, Version: name})
		require.NoError(t, err)
		assertClear(t, &sheet.scene)
		svgs := []string{chartsSVG(t, result, result.Sweeps[0], DiagramOptions{Hash: name, Version: name})}
		for i := range sheet.charts {
			assertClear(t, &sheet.charts[i].plot(true).scene)
			svgs = append(svgs, chartSVG(t, &sheet.charts[i]))
		}
		for _, svg := range svgs {
			assertSelfContained(t, svg)
			assert.Zero(t, sample.WellFormed(t, svg)["script"])
			assert.NotContains(t, svg, `onload="`)
			assert.NotContains(t, svg, "\u202e")
			assert.NotContains(t, svg, "\u0007")
		}
	}
}

// Of more rods than can be read the worst are charted, and it is said.
func TestChartsOfACrowd(t *testing.T) {
	result := checkedOnce(t, "crowd.hcl", crowd(60))
	charts := chartsIn(result, result.Sweeps[0])
	require.Len(t, charts, chartsMost)
	least := math.Inf(1)
	for _, r := range result.Sweeps[0].Rods {
		least = math.Min(least, r.Angle.Least)
	}
	found := math.Inf(1)
	for i := range charts {
		c := &charts[i]
		assert.Equal(t, fmt.Sprintf("Rod angles (%d of %d)", i+1, chartsMost), c.title)
		assert.Len(t, c.lines, chartLinesMost)
		for n := range c.lines {
			found = math.Min(found, *c.value(&c.lines[n], c.lines[n].marks[0].position))
		}
		assertClear(t, &c.plot(true).scene)
	}
	assert.InDelta(t, least, found, 1e-9, "the worst is among them")
	assert.Equal(t, "And 35 more, none of them worse.", charts[chartsMost-1].note)
}

func TestChartsAreOneWrite(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	w := &refusing{}
	assert.ErrorContains(t, Charts(w, result, result.Sweeps[0], DiagramOptions{}), "disk full")
	assert.Equal(t, 1, w.writes)
	assert.ErrorContains(t, Charts(io.Discard, result, nil, DiagramOptions{}), "no sweep")
}

func TestGoldenCharts(t *testing.T) {
	result := checkedOnce(t, demo.Dual+".hcl", sample.DemoText(t, demo.Dual))
	got := chartsSVG(t, result, result.Sweeps[0], DiagramOptions{Hash: strings.Repeat("0a1b", 16)})
	path := filepath.Join(sample.Testdata(t), "golden", demo.Dual+"-charts.svg")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "go test ./render/picture -update writes it")
	if string(want) != got {
		assert.Fail(t, "the picture changed", "first difference: %s", firstDifference(string(want), got))
	}
}
