package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func livelyAt(t testing.TB, result *solve.Result, sweep *solve.Sweep, opts LiveOptions) string {
	t.Helper()
	svg, err := Live(result, sweep, opts)
	require.NoError(t, err)
	return string(svg)
}

// follower is an element of a picture that moves.
type follower struct {
	name   string
	attrs  map[string]string
	view   []float64
	mounts []paper.Mount
}

func numbersIn(t testing.TB, words string) (list []float64) {
	t.Helper()
	for _, word := range strings.Fields(words) {
		v, err := strconv.ParseFloat(word, 64)
		require.NoError(t, err)
		list = append(list, v)
	}
	return list
}

// followersOf reads what moves from a picture.
func followersOf(t testing.TB, svg string) (list []follower) {
	t.Helper()
	var view []float64
	decoder := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return list
		}
		require.NoError(t, err)
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		m := follower{name: start.Name.Local, attrs: map[string]string{}}
		for _, a := range start.Attr {
			m.attrs[a.Name.Local] = a.Value
		}
		if words, ok := m.attrs["data-view"]; ok {
			view = numbersIn(t, words)
			require.Len(t, view, 9)
			assert.Equal(t, "view", m.attrs["class"])
		}
		words, ok := m.attrs["data-at"]
		if !ok {
			continue
		}
		m.view = view
		at := numbersIn(t, words)
		require.Zero(t, len(at)%4)
		for ; len(at) > 0; at = at[4:] {
			m.mounts = append(m.mounts, paper.Mount{Body: int(at[0]), At: linkage.Vec{X: at[1], Y: at[2], Z: at[3]}})
		}
		list = append(list, m)
	}
}

// on returns where the follower's view shows a place.
func (m follower) on(p linkage.Vec) paper.Place {
	k := m.view
	return paper.At(k[6]+k[8]*p.Dot(linkage.Vec{X: k[0], Y: k[1], Z: k[2]}), k[7]-k[8]*p.Dot(linkage.Vec{X: k[3], Y: k[4], Z: k[5]}))
}

// shown returns the places that are written for a follower.
func (m follower) shown(t testing.TB) []paper.Place {
	t.Helper()
	words := ""
	switch m.name {
	case "circle":
		words = m.attrs["cx"] + " " + m.attrs["cy"]
	case "text":
		words = m.attrs["x"] + " " + m.attrs["y"]
	case "g":
		words = strings.TrimSuffix(strings.TrimPrefix(m.attrs["transform"], "translate("), ")")
	case "path":
		words = strings.NewReplacer("M", " ", "L", " ", "Z", "").Replace(m.attrs["d"])
		_, closed := m.attrs["data-closed"]
		assert.Equal(t, closed, strings.HasSuffix(m.attrs["d"], "Z"))
	default:
		assert.Fail(t, "nothing else moves", m.name)
	}
	numbers := numbersIn(t, words)
	var list []paper.Place
	for ; len(numbers) > 1; numbers = numbers[2:] {
		list = append(list, paper.At(numbers[0], numbers[1]))
	}
	return list
}

// somewhere returns places of the control all through its travel.
func somewhere(sweep *solve.Sweep) []float64 {
	list := []float64{0, sweep.Low, sweep.High, 0.37 * sweep.Low, 0.61 * sweep.High}
	slices.Sort(list)
	return slices.Compact(list)
}

// What a page would make of data-at and data-view is what is written, wherever
// the control stands; and parts are where they are solved to be.
func TestLivePicturePlaces(t *testing.T) {
	const within = 0.01 // sheet units: what is written
	eachRun(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		for _, x := range somewhere(sweep) {
			pose, ok := sweep.At(x)
			require.True(t, ok)
			p, ok := sweep.Sample(x)
			require.True(t, ok)
			bodies := sweep.Bodies()
			followers := followersOf(t, livelyOnce(t, result, sweep, LiveOptions{At: x}))
			require.NotEmpty(t, followers)
			for _, m := range followers {
				var want []paper.Place
				for _, at := range m.mounts {
					now := placeOf(at, p.Frames)
					if at.Body != fixedBody && bodies[at.Body].Part != nil {
						now = pose.Place(bodies[at.Body].Part, at.At)
					}
					want = append(want, m.on(now))
				}
				if m.name == "g" {
					want = []paper.Place{middle(want)}
				}
				got := m.shown(t)
				require.Len(t, got, len(want))
				for i := range want {
					assert.InDelta(t, want[i].X, got[i].X, within)
					assert.InDelta(t, want[i].Y, got[i].Y, within)
				}
			}
		}
	})
}

// Every rod is drawn from hole to hole, with its own points, in every view.
func TestLivePictureRods(t *testing.T) {
	const within = 0.011
	eachRun(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		for _, x := range somewhere(sweep) {
			pose, ok := sweep.At(x)
			require.True(t, ok)
			followers := followersOf(t, livelyOnce(t, result, sweep, LiveOptions{At: x}))
			views := map[string]follower{}
			for _, m := range followers {
				views[fmt.Sprint(m.view)] = m
			}
			for _, v := range views {
				for _, rod := range result.Run.Rods {
					from, to := v.on(pose.Point(rod.From)), v.on(pose.Point(rod.To))
					found := false
					for _, m := range followers {
						if got := m.shown(t); m.name == "path" && fmt.Sprint(m.view) == fmt.Sprint(v.view) && len(got) == 2 {
							found = found || got[0].Distance(from) < within && got[1].Distance(to) < within
						}
					}
					assert.True(t, found, "%s at %v", rod.Name, x)
					for i := range rod.Points {
						at := v.on(pose.Point(linkage.PointRef{Rod: rod, Point: i}))
						held := false
						for _, m := range followers {
							held = held || m.name == "circle" && m.shown(t)[0].Distance(at) < within
						}
						assert.True(t, held, "%s of %s at %v", rod.Points[i].Name, rod.Name, x)
					}
				}
			}
		}
	})
}

func TestLivePictureIsSelfContained(t *testing.T) {
	eachRun(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		all := livelyOnce(t, result, sweep, LiveOptions{})
		places := somewhere(sweep)
		for _, x := range places {
			p, ok := sweep.Sample(x)
			require.True(t, ok)
			still, err := Live(result, sweep, LiveOptions{At: p.At, Still: true})
			require.NoError(t, err)
			assert.NotContains(t, string(still), "data-")
			all += string(still)
		}
		elements := sample.WellFormed(t, "<all>"+strings.ReplaceAll(all, `<?xml version="1.0"?>`, "")+"</all>")
		assert.Equal(t, 1+len(places), elements["svg"])
		delete(elements, "all")
		for name := range elements {
			assert.Contains(t, []string{"svg", "title", "desc", "defs", "pattern", "g", "path", "circle", "rect", "line", "text"}, name)
		}
		assertUniqueIDs(t, all)
		sample.AssertFigures(t, all)
		assert.NotRegexp(t, ` on[a-z]+=`, all)
		assert.NotContains(t, all, "href=")
		assert.NotContains(t, all, " style=")
		for _, paint := range regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`).FindAllStringSubmatch(all, -1) {
			if !strings.HasPrefix(paint[1], "url(#live-") {
				assert.Contains(t, []string{"none", "#000", "#fff"}, paint[1], "color must carry no meaning")
			}
		}
	})
}

func assertUniqueIDs(t testing.TB, svg string) {
	t.Helper()
	ids := map[string]bool{}
	for _, id := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
		assert.False(t, ids[id[1]], "id %s twice", id[1])
		ids[id[1]] = true
	}
	for _, used := range regexp.MustCompile(`url\(#([^)]*)\)`).FindAllStringSubmatch(svg, -1) {
		assert.True(t, ids[used[1]], "no %s", used[1])
	}
}

func TestLivePictureBytesAreStable(t *testing.T) {
	eachRun(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		first := livelyOnce(t, result, sweep, LiveOptions{})
		assert.Equal(t, first, livelyAt(t, result, sweep, LiveOptions{}))
		again := checkedAgain(t, result)
		for _, other := range again.Sweeps {
			if other.Control.Index == sweep.Control.Index && other.Index == sweep.Index {
				assert.Equal(t, first, livelyAt(t, again, other, LiveOptions{}))
			}
		}
	})
}

// Names and numbers that move lie on no other and stay on the sheet, at neutral
// and at both ends; every piece that moves has one.
func TestLivePictureNamesAreClear(t *testing.T) {
	eachRun(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		l, err := newLive(result, sweep, LiveOptions{})
		require.NoError(t, err)
		said := texts(&l.scene)
		for _, lv := range l.drawn {
			for _, frames := range l.all {
				var boxes []paper.Box
				for _, text := range lv.scene.Texts {
					boxes = append(boxes, paper.TextBox(text))
				}
				for _, tag := range lv.tags {
					b := outlineAt(tag.label, middle(seen(lv.v, frames, tag.mounts...))).Box
					for _, other := range boxes {
						assert.False(t, b.Overlaps(other), tag.label.Texts[0].Says)
					}
					boxes = append(boxes, b)
					low, high := b.Bounds()
					assert.True(t, low.X >= 0 && low.Y >= 0 && high.X <= l.scene.Width && high.Y <= l.scene.Height, tag.label.Texts[0].Says)
				}
			}
			for _, tag := range lv.tags {
				said[tag.label.Texts[0].Says]++
			}
		}
		for _, part := range result.Run.Parts {
			if part.Motion != linkage.Fixed {
				number := strconv.Itoa(l.partNumber(part))
				assert.True(t, said[part.Name] > 0 || said[number] > 1, part.Name)
			}
		}
		for _, rod := range result.Run.Rods {
			number := strconv.Itoa(l.rodNumber(rod))
			assert.True(t, said[rod.Name] > 0 || said[number] > 1, rod.Name)
		}
		for i := range l.scene.Texts {
			for k := range i {
				assert.False(t, paper.TextBox(l.scene.Texts[i]).Overlaps(paper.TextBox(l.scene.Texts[k])))
			}
		}
	})
}

// On a phone held upright names read at 10 pixels at least, and all else at 9.
func TestLivePictureReadsOnAPhone(t *testing.T) {
	const screen, margins = 360.0, 2 * 12.0 // pixels: page.css
	eachRun(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		l, err := newLive(result, sweep, LiveOptions{})
		require.NoError(t, err)
		pixels := (screen - margins) / l.scene.Width
		for _, lv := range l.drawn {
			for _, text := range append(lv.scene.Texts, l.scene.Texts...) {
				assert.GreaterOrEqual(t, text.Size*pixels, 9.0, text.Says)
				low, high := paper.TextBox(text).Bounds()
				assert.True(t, low.X >= 0 && low.Y >= 0 && high.X <= l.scene.Width && high.Y <= l.scene.Height, text.Says)
			}
			for _, tag := range lv.tags {
				assert.GreaterOrEqual(t, tag.label.Texts[0].Size*pixels, 10.0)
			}
		}
	})
}

// What ends the travel and where it is on center stand in the picture.
func TestLivePictureMarks(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	l, err := newLive(result, result.Sweeps[0], LiveOptions{})
	require.NoError(t, err)
	said := texts(l.drawn[0].scene)
	assert.Equal(t, 1, said["tail-stop"])
	assert.Equal(t, 1, said["idle-stop"])
	assert.Equal(t, 1, said["29.5°"], "the travel of the control's part alone is measured")
	assert.Positive(t, said["X1"])
	assert.Equal(t, 1, texts(&l.scene)["X1"], "told below")
	assert.Contains(t, l.liveStory(), "engine-lever locks up")
}

// All of a run in space is drawn in three views; what its carriers move, moves.
func TestLivePictureInSpace(t *testing.T) {
	result := checkedOnce(t, "sticks.hcl", sample.DemoText(t, "sticks"))
	svg := livelyAt(t, result, result.Sweeps[0], LiveOptions{})
	assert.Equal(t, 3, strings.Count(svg, "data-view="))
	rims := 0
	for _, m := range followersOf(t, svg) {
		if _, closed := m.attrs["data-closed"]; closed {
			rims++
			assert.Greater(t, len(m.mounts), 3)
		}
	}
	assert.Positive(t, rims)
}

func TestLivePictureHostileNames(t *testing.T) {
	for _, name := range []string{
		`<script>alert(1)</script>`, `" onload="alert(1)`, `&lt;b&gt; & ]]> <!-- --`,
		"control\u0007 and \u202eturned\u202c", strings.Repeat("long ", 400), "漢字 عربى ñ é̂ 🛩",
	} {
		result := sample.Checked(t, "throttle.hcl", sample.DemoText(t, "throttle"))
		run := result.Run
		run.Name, run.View = name, name
		run.Controls[0].Name, run.Controls[0].Plus, run.Controls[0].Minus = name, name, name
		for _, part := range run.Parts {
			part.Name = name
		}
		for _, stop := range run.Stops {
			stop.Name = name
		}
		run.Outputs[0].Name, run.Rods[0].Name = name, name
		svg := livelyAt(t, result, result.Sweeps[0], LiveOptions{})
		elements := sample.WellFormed(t, svg)
		assert.Zero(t, elements["script"])
		assert.NotContains(t, svg, `onload="`)
		assert.NotContains(t, svg, "\u202e")
		assert.NotContains(t, svg, "\u0007")
		for _, s := range SeriesOf(result, result.Sweeps[0]) {
			assert.NotContains(t, s.Label, "\u202e")
		}
	}
}

// A run with more in it than a picture can name is still drawn.
func TestLivePictureCrowded(t *testing.T) {
	result := checkedOnce(t, "crowd.hcl", crowd(300))
	svg := livelyAt(t, result, result.Sweeps[0], LiveOptions{})
	sample.WellFormed(t, svg)
	assert.GreaterOrEqual(t, len(followersOf(t, svg)), 299)
}

// How long the picture of a run with 300 parts takes: soon enough to be waited for.
func BenchmarkLivePictureCrowded(b *testing.B) {
	result := sample.Checked(b, "crowd.hcl", crowd(300))
	for b.Loop() {
		_, err := Live(result, result.Sweeps[0], LiveOptions{})
		require.NoError(b, err)
	}
}

func TestLivePictureFaults(t *testing.T) {
	result := checkedOnce(t, "pedals.hcl", sample.DemoText(t, "pedals"))
	_, err := Live(result, nil, LiveOptions{})
	assert.Error(t, err)
	_, err = Live(result, result.Sweeps[0], LiveOptions{At: 1000})
	assert.ErrorContains(t, err, "doesn't get to 1000")
	_, err = Live(result, result.Sweeps[0], LiveOptions{At: math.NaN()})
	assert.Error(t, err)
	svg := []byte(livelyAt(t, result, result.Sweeps[0], LiveOptions{ID: "r2-p1"}))
	assert.True(t, bytes.Contains(svg, []byte(`id="r2-p1-title"`)))
}
