package picture

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// surveyedRun reads a demo with its datum.
func surveyedRun(t testing.TB, kind string) *linkage.Run {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: kind, Text: []byte(sample.DemoText(t, kind))})
	require.NoError(t, err)
	text, err := WithDatum(run)
	require.NoError(t, err)
	run, err = linkage.Read(&linkage.Source{Name: kind, Text: text})
	require.NoError(t, err)
	return run
}

func TestBlankPageIsReadableAndStable(t *testing.T) {
	for _, kind := range demo.Kinds() {
		t.Run(kind, func(t *testing.T) {
			run, plan := tapingOnce(t, kind)
			opts := BlankOptions{File: "mine.hcl", Version: "test"}
			p, err := newBlankPage(run, plan, opts)
			require.NoError(t, err)
			assertClear(t, &p.scene)
			assert.Greater(t, p.scene.Height, p.scene.Width, "portrait")

			var out, again bytes.Buffer
			require.NoError(t, BlankPage(&out, run, plan, opts))
			require.NoError(t, BlankPage(&again, surveyedRun(t, kind), plan, opts))
			svg := out.String()
			assert.Equal(t, svg, again.String())
			sample.WellFormed(t, svg)
			sample.AssertFigures(t, svg)
			for _, paint := range regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
				if !strings.HasPrefix(paint[1], "url(#blank-") {
					assert.Contains(t, []string{"none", "#000", "#fff"}, paint[1], "black and white")
				}
			}

			// Every hole is lettered in the sketch and told in the list, and every
			// measurement has its line.
			said := texts(&p.scene)
			letters := Letters(run)
			for _, place := range survey.Places(run) {
				letter := letters[place.String()]
				assert.Equal(t, 1+inSketch(p, letter), said[letter], "%s in the list", letter)
			}
			lines := map[string]int{}
			for _, m := range plan {
				lines[letters[m.From.String()]+" to "+letters[m.To.String()]]++
			}
			for pair, n := range lines {
				assert.Equal(t, n, said[pair], pair)
			}
			for _, words := range []string{"Aircraft", "Taped by", "Date"} {
				assert.Equal(t, 1, said[words])
			}
			assert.Contains(t, svg, "approves nothing")
		})
	}
}

// inSketch counts how often a letter stands by itself beside a hole.
func inSketch(p *blankPage, letter string) int {
	n := 0
	for _, text := range p.scene.Texts {
		if text.Size == letterSize && text.Says == letter {
			n++
		}
	}
	return n
}

func TestGoldenBlankPages(t *testing.T) {
	for _, kind := range []string{"pedals", "sticks"} {
		run, plan := tapingOnce(t, kind)
		var page bytes.Buffer
		require.NoError(t, BlankPage(&page, run, plan, BlankOptions{File: kind + ".hcl", Version: "test"}))
		file, err := BlankFile(run, plan)
		require.NoError(t, err)
		for name, got := range map[string]string{kind + "-blank.svg": page.String(), kind + "-blank.hcl": string(file)} {
			path := filepath.Join(sample.Testdata(t), "golden", name)
			if *update {
				require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err, "go test ./render/picture -update writes it")
			assert.Equal(t, string(want), got, name)
		}
	}
}

// A blank file passes for a sketch: no coordinate of the demo that has figures
// to hide is left in it, and what it holds is as rough as it says.
func TestBlankFileIsRough(t *testing.T) {
	for _, kind := range demo.Kinds() {
		truth, plan := tapingOnce(t, kind)
		text, err := BlankFile(truth, plan)
		require.NoError(t, err)
		run, err := linkage.Read(&linkage.Source{Name: kind, Text: text})
		require.NoError(t, err, kind)
		step := roughStep(run.Units)
		assert.Greater(t, run.Sketch, 2*step)
		off := 0
		for i, place := range survey.Places(run) {
			was := survey.Places(truth)[i]
			if place.Part.Exact {
				assert.Equal(t, was.At(), place.At(), "%s", place)
				continue
			}
			moved := place.At().Sub(was.At()).Norm()
			assert.Less(t, moved, 2*run.Sketch, "%s %s", kind, place)
			if moved > 0 {
				off++
			}
			if run.Plane {
				assert.Equal(t, was.At().Z, place.At().Z, "heights aren't surveyed in a plane run")
			}
		}
		assert.Positive(t, off, kind)
		_, err = solve.Compile(run)
		assert.NoError(t, err, "%s: even the sketch closes", kind)
		comments := func(s string) int { return strings.Count(s, "#") }
		assert.GreaterOrEqual(t, comments(string(text)), comments(sample.DemoText(t, kind)), "the comments are kept")
	}
}

func TestLettersGoOnAfterZ(t *testing.T) {
	points := ""
	for i := range 54 {
		points += fmt.Sprintf("    n%d = [%d, 0]\n", i, i)
	}
	run, err := linkage.Read(&linkage.Source{Name: "letters.hcl", Text: []byte("run \"letters\" {\n  units = \"mm\"\n}\nfixed \"p\" {\n  points = {\n" + points +
		"  }\n}\npart \"lever\" {\n  pivot = [0, 10]\n}\ncontrol \"c\" {\n  of = lever\n}\n")})
	require.NoError(t, err)
	letters := Letters(run)
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA"} {
		assert.Equal(t, want, letters[fmt.Sprint("p.n", i)])
	}
}

func TestCoordinatesAsAFileHasThem(t *testing.T) {
	for _, c := range []struct {
		v    float64
		u    linkage.Unit
		want string
	}{
		{-20, linkage.Millimeters, "-20"}, {0, linkage.Millimeters, "0"}, {7.5, linkage.Millimeters, "7.5"},
		{2.5, linkage.Inches, "2 + 1/2"}, {-2.5, linkage.Inches, "-(2 + 1/2)"}, {-0.5, linkage.Inches, "-1/2"},
		{3, linkage.Inches, "3"}, {-3, linkage.Inches, "-3"}, {0, linkage.Inches, "0"},
	} {
		assert.Equal(t, c.want, coordinate(c.v, c.u))
	}
}

// A text that isn't laid out as the demos are is refused, not garbled.
func TestBlankFileOfAnotherLayout(t *testing.T) {
	text := strings.Replace(sample.DemoText(t, "throttle"), "pivot = [240, -30]", "\"pivot\" = [240, -30]", 1)
	run := surveyedRun(t, "throttle")
	run.Source = &linkage.Source{Name: "x", Text: []byte(text)}
	_, err := BlankFile(run, nil)
	assert.Error(t, err)
}

// No letter stands nearer to another hole than to its own without a line to
// its own, and no such line passes another hole.
func TestLettersCantBeMistaken(t *testing.T) {
	for _, kind := range demo.Kinds() {
		run, plan := tapingOnce(t, kind)
		p, err := newBlankPage(run, plan, BlankOptions{})
		require.NoError(t, err)
		for _, v := range p.views {
			s := p.drawSketch(v)
			holes := p.holesIn(v)
			written := 0
			for _, h := range holes {
				for _, text := range s.Texts {
					if text.Size != letterSize || text.Says != strings.Join(h.says, ", ") {
						continue
					}
					written++
					box := paper.TextBox(text)
					led := slices.ContainsFunc(s.Shapes[paper.LayerMarks], func(l paper.Shape) bool {
						return l.Pen == paper.PenLeader && l.Through[0].Distance(h.at) < paper.ClearlyBetter && fromBox(box, l.Through[1]) < letterFrom/2
					})
					for _, other := range holes {
						if other != h && !led {
							assert.Greater(t, fromBox(box, other.at), fromBox(box, h.at)+ownBy/2, "%s %s: %s beside %s", kind, v.name, h.says, other.says)
						}
					}
				}
			}
			assert.Equal(t, len(holes), written, "%s %s", kind, v.name)
		}
	}
}

// What the level is expected to read stands on the page and in the file, and
// heights stand there whole.
func TestBlankPageTellsWhatIsExpected(t *testing.T) {
	run, plan := tapingOnce(t, "mixer")
	p, err := newBlankPage(run, plan, BlankOptions{})
	require.NoError(t, err)
	said := texts(&p.scene)
	assert.Equal(t, 1, said["degrees from level: upright, reads about 90"])
	assert.Equal(t, 1, said["mixing-lever.horn, height 20 mm"])
	for words := range said {
		assert.NotContains(t, words, "…")
	}
	file, err := BlankFile(run, plan)
	require.NoError(t, err)
	assert.Contains(t, string(file), "is     = blank   # degrees anticlockwise from level: upright, reads about 90\n")
	assert.NotRegexp(t, `(?m)^ *length *=`, string(file), "as taped, not as the demo has them")
}
