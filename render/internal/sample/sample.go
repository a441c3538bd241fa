// Package sample holds runs and results that the tests of several of render's
// packages share. Nothing but tests imports it.
package sample

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Checked reads a run and checks it.
func Checked(t testing.TB, name, text string) *solve.Result {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: name, Text: []byte(text)})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	return result
}

// DemoText returns the text of a demo.
func DemoText(t testing.TB, kind string) string {
	t.Helper()
	text, ok := demo.File(kind)
	require.True(t, ok)
	return string(text)
}

// WellFormed decodes every token, and returns the elements by name.
func WellFormed(t testing.TB, svg string) map[string]int {
	t.Helper()
	elements := map[string]int{}
	decoder := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return elements
		}
		require.NoError(t, err)
		if start, ok := token.(xml.StartElement); ok {
			elements[start.Name.Local]++
		}
	}
}

// noFigure is what no figure of a picture may be: none, or a zero below zero.
var noFigure = regexp.MustCompile(`[" ]-0(\.0+)?[" ]|-0\.0°`)

// AssertFigures asserts that every figure in a picture is one. What isn't in there at all
// isn't looked for place by place, which takes longer than to draw it.
func AssertFigures(t testing.TB, svg string) {
	t.Helper()
	assert.NotContains(t, svg, "NaN")
	assert.NotContains(t, svg, "Inf")
	if strings.Contains(svg, "-0") {
		assert.NotRegexp(t, noFigure, svg)
	}
}

// Is returns a pointer to v.
func Is(v float64) *float64 { return &v }

// Levers is a made-up result of a plane run: a lever that drives a crank by a
// rod, with a stop on each side. Each call gives a fresh one to change.
func Levers() *solve.Result {
	square := linkage.Vec{Z: 1}
	lever := &linkage.Part{Name: "lever", Motion: linkage.Turns, Axis: square,
		Points: []linkage.Point{{Name: "horn", At: linkage.Vec{Y: -60}}}}
	crank := &linkage.Part{Name: "crank", Motion: linkage.Turns, Axis: square, Index: 1, Pivot: linkage.Vec{X: 183.7},
		Points: []linkage.Point{{Name: "horn", At: linkage.Vec{X: 183.7, Y: -60}}}}
	link := &linkage.Rod{Name: "link", Length: 184, Drawn: 183.7, LengthGiven: true, Misalignment: Is(12), From: linkage.PointRef{Part: lever}, To: linkage.PointRef{Part: crank}}
	hand := &linkage.Control{Name: "hand", Of: lever, From: -35, To: 35, Held: []float64{0}, Plus: "lever forward", Minus: "lever aft"}
	out := &linkage.Output{Name: "tail", Part: crank, Plus: "nose left"}
	aft := &linkage.Stop{Name: "aft", Of: lever, At: -24}
	bolt := &linkage.Stop{Name: "bolt", Index: 1}
	far := &linkage.Stop{Name: "far", Of: crank, At: 26, Index: 2}
	run := &linkage.Run{
		Name: "Levers", Units: linkage.Millimeters, Plane: true,
		Parts: []*linkage.Part{lever, crank}, Rods: []*linkage.Rod{link},
		Controls: []*linkage.Control{hand}, Outputs: []*linkage.Output{out}, Stops: []*linkage.Stop{aft, bolt, far},
	}
	sweep := &solve.Sweep{
		Control: hand, Unit: "deg", Low: -24, High: 24.04, Explored: [2]float64{-35, 31.2},
		Ends: [2]solve.End{
			{At: -24, Cause: solve.ByStop, Stop: aft},
			{At: 24.04, Cause: solve.ByStop, Stop: bolt, Wear: Is(0.9)},
		},
		Stops: []solve.StopBite{{Stop: aft, At: Is(-24), Bites: true}, {Stop: bolt, At: Is(24.04), Bites: true}, {Stop: far, At: Is(26.5)}},
		Parts: []solve.PartTravel{
			{Part: lever, Name: "lever", Unit: "deg", Extent: solve.Extent{AtLow: -24, AtHigh: 24.04, Least: -24, Most: 24.04}},
			{Part: crank, Name: "crank", Unit: "deg", Extent: solve.Extent{Neutral: 0.1, AtLow: -23.6, AtHigh: 24.3, Least: -23.6, Most: 24.3}},
		},
		Outputs: []solve.OutputTravel{{
			Output: out, Unit: "deg", Extent: solve.Extent{Neutral: 0.1, AtLow: -23.6, AtHigh: 24.3, Least: -23.6, Most: 24.3},
			Ratio: solve.Ratio{Unit: "deg/deg", Neutral: Is(1), Least: Is(0.9), Most: Is(1.1)},
		}},
		Rods:     []solve.RodTravel{{Rod: link, Length: link.Length, TiltFrom: 1, TiltTo: 2, Angle: solve.RodAngle{Least: 62.1, At: Is(-24), Part: "crank"}}},
		Critical: []solve.Critical{{Kind: solve.Toggle, At: 31.2, Part: crank, Rod: link, Margin: 31.2 - 24.04}},
	}
	return &solve.Result{Run: run, Verdict: solve.CannotTell, Sweeps: []*solve.Sweep{sweep},
		NotChecked: []linkage.Kind{linkage.Sense, linkage.Clearance}}
}

// WithHolding gives a result one requirement of each verdict named.
func WithHolding(r *solve.Result, verdicts ...solve.Verdict) *solve.Result {
	r.Verdict = solve.Holds
	for _, v := range verdicts {
		r.Requirements = append(r.Requirements, solve.Judgement{
			Requirement: &linkage.Requirement{Kind: linkage.RodAngle, Least: 30}, Verdict: v,
			Worst: Is(62.1), At: Is(-24), Limit: 30, Unit: "deg", Rod: r.Run.Rods[0], Part: r.Run.Parts[1],
		})
		if v != solve.Holds {
			r.Verdict = v
		}
	}
	return r
}

// InchRun is a crank, a rod and a rocker in inches, flat, with a tube beside
// them; the rod's length is its drawn one, 10 1/2 in.
const InchRun = `
run "%s" { units = "in" }
fixed "airframe" {
  round "tube" {
    at     = [5, -2]
    radius = 3/8
  }
}
part "crank" {
  pivot = [0, 0]
  arms  = { pin = [0, 2 + 1/4] }
  edge "lug" {
    through = [[0, 0], [-1, 1/2]]
    thick   = 1/4
  }
}
part "rocker" {
  pivot = [10 + 1/2, 0]
  arms  = { pin = [0, 2 + 1/4] }
}
rod "link" {
  from = crank.pin
  to   = rocker.pin
}
control "lever" {
  of   = crank
  from = -20
  to   = 20
}
`

// Replaced is the text of a demo with pairs of old and new text.
func Replaced(t testing.TB, kind string, pairs ...string) string {
	t.Helper()
	text := DemoText(t, kind)
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, text, pairs[i])
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// Flat is a text in one line, with single spaces.
func Flat(s string) string { return strings.Join(strings.Fields(s), " ") }

// AnswersText returns the text of a file of testdata/answers.
func AnswersText(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(Testdata(t), "answers", name+".hcl"))
	require.NoError(t, err)
	return string(text)
}

// Testdata returns the folder testdata of the project, which stands beside the
// go.mod above the package that is tested.
func Testdata(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, "testdata")
		}
		require.NotEqual(t, dir, filepath.Dir(dir), "no go.mod above the package")
		dir = filepath.Dir(dir)
	}
}

// Markup is what stands in angle brackets in a page.
var Markup = regexp.MustCompile(`<[^>]*>`)
