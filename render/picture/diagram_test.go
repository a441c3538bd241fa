package picture

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden pictures anew; look at them before keeping them")

// eachSweep calls do for the first sweep of every control of every demo, in the views that
// are drawn unasked, and for the first control of each in every choice of views.
func eachSweep(t *testing.T, do func(t *testing.T, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions)) {
	for _, kind := range append(demo.Kinds(), demo.WrongHole) {
		result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
		for i, control := range result.Run.Controls {
			views := []string{"", "xy", "xz", "yz"}
			if i > 0 {
				views = views[:1]
			}
			for _, view := range views {
				t.Run(fmt.Sprintf("%s/%s/%s", kind, control.Name, view), func(t *testing.T) {
					do(t, result, render.SweepsOf(result, control)[0], DiagramOptions{View: view, Hash: strings.Repeat("0a1b", 16), Version: "test"})
				})
			}
		}
	}
}

func picture(t testing.TB, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Diagram(&out, result, sweep, opts))
	return out.String()
}

func TestDiagramIsSelfContained(t *testing.T) {
	eachSweep(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) {
		svg := pictureOnce(t, result, sweep, opts)
		elements := sample.WellFormed(t, svg)
		assert.Equal(t, 1, elements["title"])
		assert.Equal(t, 1, elements["desc"])
		for name := range elements {
			assert.Contains(t, []string{"svg", "title", "desc", "defs", "pattern", "g", "path", "circle", "rect", "line", "text"}, name)
		}
		assert.Regexp(t, `role="img"\s+aria-labelledby="(\S+)-title (\S+)-desc"`, svg)
		sample.AssertFigures(t, svg)
		assert.NotContains(t, svg, "href=")
		for _, paint := range regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
			if !strings.HasPrefix(paint[1], "url(#sweep-") {
				assert.Contains(t, []string{"none", "#000", "#fff"}, paint[1], "color must carry no meaning")
			}
		}
	})
}

func TestDiagramBytesAreStable(t *testing.T) {
	eachSweep(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) {
		first := pictureOnce(t, result, sweep, opts)
		assert.Equal(t, first, picture(t, result, sweep, opts))
		if opts.View != "" {
			return // solved anew once for each control is enough
		}
		again := checkedAgain(t, result)
		assert.Equal(t, first, picture(t, again, render.SweepsOf(again, again.Run.Controls[sweep.Control.Index])[0], opts))
	})
}

// No text lies on another, and none leaves the sheet.
func TestDiagramTextIsClear(t *testing.T) {
	eachSweep(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) {
		d, err := newDiagram(result, sweep, opts)
		require.NoError(t, err)
		assertClear(t, &d.scene)
	})
}

func assertClear(t testing.TB, s *paper.Scene) {
	t.Helper()
	for i, a := range s.Texts {
		low, high := paper.TextBox(a).Bounds()
		assert.True(t, low.X >= 0 && low.Y >= 0 && high.X <= s.Width && high.Y <= s.Height, "%q leaves the sheet", a.Says)
		for _, b := range s.Texts[:i] {
			assert.False(t, paper.TextBox(a).Overlaps(paper.TextBox(b)), "%q lies on %q", a.Says, b.Says)
		}
	}
}

// texts returns what is written on a sheet, with how often.
func texts(s *paper.Scene) map[string]int {
	list := map[string]int{}
	for _, t := range s.Texts {
		list[t.Says]++
	}
	return list
}

func TestDiagramSaysWhatABuilderNeeds(t *testing.T) {
	for _, kind := range append(demo.Kinds(), demo.WrongHole) {
		t.Run(kind, func(t *testing.T) {
			result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
			d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{Hash: "0123456789abcdef"})
			require.NoError(t, err)
			said := texts(&d.scene)
			assert.Equal(t, 1, said["0123456789ab"], "the hash, shortened")
			assert.Equal(t, 1, said["Checked by, signature"])
			assert.Equal(t, 1, said["Date"])
			for _, rod := range result.Run.Rods {
				assert.GreaterOrEqual(t, said[figure.Exact(rod.Length, result.Run.Units)], 1, "length of %s", rod.Name)
				assert.GreaterOrEqual(t, said[fmt.Sprint(d.rodNumber(rod))], 2, "balloon and list of %s", rod.Name)
			}
			for _, part := range result.Run.Parts {
				assert.GreaterOrEqual(t, said[fmt.Sprint(d.partNumber(part))], 2, "balloon and list of %s", part.Name)
			}
			for _, s := range d.shownPoses {
				for _, part := range result.Run.Parts {
					if part == result.Sweeps[0].Control.Of && part.Carrier == nil {
						assert.Positive(t, said[s.letter]+said[s.letter+fmt.Sprint(d.partNumber(part))], "%s on %s", s.letter, part.Name)
					}
				}
			}
			for _, end := range result.Sweeps[0].Ends {
				if end.Cause == solve.ByStop {
					assert.GreaterOrEqual(t, said[render.StopWords(end.Stop)], 1)
				}
			}
			assert.Contains(t, d.story(), render.Headline(result))
		})
	}
}

// The same letter stands on every part that is seen to move, in every
// position.
func TestDiagramLettersEveryPart(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	said := texts(&d.scene)
	// Two parts move; the letters stand once more each in the list of
	// positions and at the head of the table.
	for _, letter := range []string{"A", "B", "C"} {
		assert.Equal(t, 4, said[letter], letter)
	}
}

func TestDiagramFlagsOnCenter(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	sweep := result.Sweeps[0]
	require.Len(t, sweep.Critical, 1)
	d, err := newDiagram(result, sweep, DiagramOptions{})
	require.NoError(t, err)
	said := texts(&d.scene)
	assert.Equal(t, 1, said["X1 "+render.CenterSpare(sweep, sweep.Critical[0])], "on the arc of the part that locks up")
	assert.Equal(t, 2, said["X1"], "on the arc of the control, and in the list")

	// Without the tail's stop nothing comes before on center: the picture must
	// say so where the stop was.
	result = checkedOnce(t, "throttle.hcl", without(sample.DemoText(t, "throttle"), "tail-stop"))
	d, err = newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	assert.Equal(t, 1, texts(&d.scene)["X1 nothing in hand"])
	assert.Contains(t, d.story(), "engine-lever on center, no stop before it")
}

// without returns the text of a run without one of its stops.
func without(text, stop string) string {
	from := strings.Index(text, `stop "`+stop+`"`)
	to := from + strings.Index(text[from:], "\n}") + 2
	return text[:from] + text[to:]
}

// What happens inside the travel is drawn in a position of its own.
func TestDiagramPositionsBetween(t *testing.T) {
	result := checkedOnce(t, "run.hcl", without(sample.DemoText(t, demo.WrongHole), "tail-stop"))
	sweep := result.Sweeps[0]
	d, err := newDiagram(result, sweep, DiagramOptions{})
	require.NoError(t, err)
	var letters, says []string
	for i, s := range d.shownPoses {
		letters = append(letters, s.letter)
		says = append(says, s.says)
		if i > 0 {
			assert.Greater(t, s.at, d.shownPoses[i-1].at, "letters follow the travel")
		}
	}
	assert.Equal(t, []string{"A", "B", "C", "D"}, letters)
	assert.Contains(t, says[2], "engine-lever reverses here")
	assert.InDelta(t, sweep.Critical[0].At, d.shownPoses[2].at, 0)
	assertClear(t, &d.scene)
	// Halted at its dead center the lever is at its most: the arc ends there.
	for _, part := range sweep.Parts {
		if part.Name == "engine-lever" {
			assert.InDelta(t, part.Most, partReading(nil, d.shownPoses[2], part), 1e-9)
			assert.Less(t, part.AtHigh, part.Most)
		}
	}
}

// A run in space shows three views, one on request; a plane run one.
func TestDiagramViews(t *testing.T) {
	for kind, want := range map[string]int{"sticks": 3, "pedals-swivel": 3, "pedals": 1} {
		result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
		d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
		require.NoError(t, err)
		assert.Len(t, d.views, want, kind)
		d, err = newDiagram(result, result.Sweeps[0], DiagramOptions{View: "yz"})
		require.NoError(t, err)
		assert.Len(t, d.views, 1, kind)
	}
	result := checkedOnce(t, "pedals.hcl", sample.DemoText(t, "pedals"))
	assert.ErrorContains(t, Diagram(io.Discard, result, result.Sweeps[0], DiagramOptions{View: "top"}), "xy, xz or yz")
	assert.Error(t, Diagram(io.Discard, result, nil, DiagramOptions{}))
}

// Views are projections: seen along z, y and x, in first-angle arrangement.
func TestViewDirections(t *testing.T) {
	views, err := viewsOf(&linkage.Run{}, "")
	require.NoError(t, err)
	for _, v := range views {
		assert.Equal(t, v.toward, v.right.Cross(v.up), "a view must not mirror: %s", v.name)
		v.scale = 2
		v.zero = paper.At(10, 10)
		assert.Equal(t, paper.At(10, 10), v.on(v.toward.Scale(7)), "depth doesn't show: %s", v.name)
		assert.Equal(t, paper.At(12, 8), v.on(v.right.Add(v.up)))
	}
}

func TestDiagramHostileNames(t *testing.T) {
	hostile := []string{
		`<script>alert(1)</script>`,
		`" onload="alert(1)`,
		`&lt;b&gt; & ]]> <!-- --`,
		"control\u0007 and \u202eturned\u202c",
		strings.Repeat("long ", 400),
		"漢字 عربى ñ é̂ 🛩",
	}
	for _, name := range hostile {
		result := sample.Checked(t, "throttle.hcl", sample.DemoText(t, "throttle"))
		run := result.Run
		run.Name, run.View = name, name
		run.Controls[0].Plus, run.Controls[0].Minus = name, name
		for _, j := range result.Requirements {
			j.Requirement.Name = name
		}
		for _, part := range run.Parts {
			part.Name = name
		}
		run.Stops[0].Name, run.Outputs[0].Name, run.Rods[0].Name = name, name, name
		opts := DiagramOptions{Hash: name, Version: name}
		svg := picture(t, result, result.Sweeps[0], opts)
		elements := sample.WellFormed(t, svg)
		assert.Zero(t, elements["script"])
		assert.NotContains(t, svg, `onload="`)
		assert.NotContains(t, svg, "\u202e")
		assert.NotContains(t, svg, "\u0007")
		d, err := newDiagram(result, result.Sweeps[0], opts)
		require.NoError(t, err)
		assertClear(t, &d.scene)
		if strings.HasPrefix(name, "long") {
			assert.Contains(t, d.story(), strings.TrimSpace(name), "the whole name is in the description")
		}
	}
}

// crowd is a run of many levers in a row.
func crowd(levers int) string {
	var b strings.Builder
	b.WriteString("run \"crowd\" {\n  units = \"mm\"\n}\n")
	for i := range levers {
		fmt.Fprintf(&b, "part \"lever-%d\" {\n  pivot = [%d, 0]\n  arms = { top = [0, 30] }\n}\n", i, 50*i)
		if i > 0 {
			fmt.Fprintf(&b, "rod \"rod-%d\" {\n  from = lever-%d.top\n  to = lever-%d.top\n  length = 50.01\n}\n", i, i-1, i)
		}
	}
	b.WriteString("control \"first\" {\n  of = lever-0\n  from = -20\n  to = 20\n}\n")
	return b.String()
}

// A run with more in it than a sheet can show leaves labels out rather than
// printing them on each other.
func TestDiagramCrowded(t *testing.T) {
	result := checkedOnce(t, "crowd.hcl", crowd(120))
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	assertClear(t, &d.scene)
	assert.Equal(t, 1, texts(&d.scene)["lever-119, turns on the airframe"], "the list has all parts")
}

type refusing struct{ writes int }

func (r *refusing) Write([]byte) (int, error) {
	r.writes++
	return 0, errors.New("disk full")
}

func TestDiagramIsOneWrite(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	w := &refusing{}
	assert.ErrorContains(t, Diagram(w, result, result.Sweeps[0], DiagramOptions{}), "disk full")
	assert.Equal(t, 1, w.writes)
}

func TestGoldenDiagrams(t *testing.T) {
	for _, kind := range append(demo.Kinds(), demo.WrongHole) {
		t.Run(kind, func(t *testing.T) {
			result := checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
			hash := sha256.Sum256(result.Run.Source.Text)
			got := picture(t, result, result.Sweeps[0], DiagramOptions{Hash: hex.EncodeToString(hash[:])})
			path := filepath.Join(sample.Testdata(t), "golden", kind+".svg")
			if *update {
				require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err, "go test ./render/picture -update writes it")
			if string(want) != got {
				assert.Fail(t, "the picture changed", "first difference: %s", firstDifference(string(want), got))
			}
		})
	}
}

// firstDifference returns the first line that differs, of both.
func firstDifference(want, got string) string {
	a, b := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("line %d\n want %s\n got  %s", i+1, a[i], b[i])
		}
	}
	return fmt.Sprintf("%d lines wanted, %d got", len(a), len(b))
}
