//go:build browser

package main

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// closePlace is how near the picture must have a place to where sweep has it,
// in the run's unit.
const closePlace = 0.1

// travelTable is what sweep says of one travel.
type travelTable struct {
	columns []string
	rows    [][]float64
}

// sweepOf asks sweep, in steps so fine that between them it may go straight.
func sweepOf(t *testing.T, file string, args ...string) travelTable {
	t.Helper()
	got := fullfree("", append([]string{"sweep", file, "--steps", "400", "--json"}, args...)...)
	require.Equal(t, exitOK, got.status, got.err)
	var answer struct {
		Columns []struct{ Name string }
		Rows    [][]float64
	}
	require.NoError(t, json.Unmarshal([]byte(got.out), &answer))
	s := travelTable{rows: answer.Rows}
	for _, c := range answer.Columns {
		s.columns = append(s.columns, c.Name)
	}
	return s
}

func (s travelTable) low() float64  { return s.rows[0][0] }
func (s travelTable) high() float64 { return s.rows[len(s.rows)-1][0] }

// at returns every column where the control, which is the first, stands at x.
func (s travelTable) at(x float64) map[string]float64 {
	i := 1
	for i < len(s.rows)-1 && s.rows[i][0] < x {
		i++
	}
	a, b := s.rows[i-1], s.rows[i]
	t := (x - a[0]) / (b[0] - a[0])
	values := map[string]float64{}
	for k, name := range s.columns {
		values[name] = a[k] + t*(b[k]-a[k])
	}
	return values
}

type vec [3]float64

func (v vec) add(u vec) vec       { return vec{v[0] + u[0], v[1] + u[1], v[2] + u[2]} }
func (v vec) times(k float64) vec { return vec{k * v[0], k * v[1], k * v[2]} }
func (v vec) dot(u vec) float64   { return v[0]*u[0] + v[1]*u[1] + v[2]*u[2] }
func (v vec) cross(u vec) vec {
	return vec{v[1]*u[2] - v[2]*u[1], v[2]*u[0] - v[0]*u[2], v[0]*u[1] - v[1]*u[0]}
}
func (v vec) String() string { return fmt.Sprint(v[0], " ", v[1], " ", v[2]) }
func (v vec) turned(axis vec, degrees float64) vec { // Rodrigues' formula
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return v.times(cos).add(axis.cross(v).times(sin)).add(axis.times(axis.dot(v) * (1 - cos)))
}

// turning is a part of a demo, as its file has it: what it takes to reckon
// where its points are from the turns that sweep tells, without any of the
// program's frames.
type turning struct {
	name   string
	pivot  vec
	axis   vec    // unit length; zero: z, square to the drawing
	on     string // the part that carries it
	free   bool   // it has no pivot: sweep tells how far its middle (here pivot) goes, and its turn
	points []vec
}

// place returns where a point of a part is.
func place(parts []turning, name string, p vec, at map[string]float64) vec {
	i := slices.IndexFunc(parts, func(part turning) bool { return part.name == name })
	part := parts[i]
	axis := part.axis
	if axis == (vec{}) {
		axis = vec{0, 0, 1}
	}
	from := p.add(part.pivot.times(-1))
	switch {
	case part.free:
		return part.pivot.add(vec{at[name+".x"], at[name+".y"], 0}).add(from.turned(axis, at[name+".turn"]))
	case part.on == "":
		return part.pivot.add(from.turned(axis, at[name]))
	case part.axis == (vec{}): // in the plane a turn is told against the drawing
		return place(parts, part.on, part.pivot, at).add(from.turned(axis, at[name]))
	}
	return place(parts, part.on, part.pivot.add(from.turned(axis, at[name])), at)
}

var pedalsParts = []turning{
	{name: "left-pedal", points: []vec{{-15, 205, 80}, {0, -60, 30}}},
	{name: "right-pedal", points: []vec{{-15, 205, -80}, {0, -60, -30}}},
	{name: "rocker", pivot: vec{300, -60, 0}, points: []vec{{290, 0, 12}, {290, -120, -12}}},
}

var swivelParts = []turning{
	{name: "left-pedal", points: []vec{{-15, 205, 90}, {0, -60, 90}}},
	{name: "right-pedal", points: []vec{{-15, 205, -90}, {0, -60, -90}}},
	{name: "rocker", pivot: vec{250, -30, 0}, axis: vec{0, 1, 0}, points: []vec{{250, -30, 60}, {250, -30, -60}, {330, -30, 0}}},
}

var sticksParts = []turning{
	{name: "cross-shaft", points: []vec{{0, 15, 240}, {0, 15, -240}, {0, -70, 0}}},
	{name: "left-stick", pivot: vec{0, 15, 240}, axis: vec{1, 0, 0}, on: "cross-shaft", points: []vec{{-40, 420, 240}, {-32, -45, 240}}},
	{name: "right-stick", pivot: vec{0, 15, -240}, axis: vec{1, 0, 0}, on: "cross-shaft", points: []vec{{-40, 420, -240}, {-32, -45, -240}, {0, -33, -240}}},
	{name: "roll-crank", pivot: vec{0, -81, -30}, axis: vec{1, 0, 0}, points: []vec{{0, -33, -30}, {0, -81, 30}}},
	{name: "pitch-crank", pivot: vec{310, -130, 0}, points: []vec{{310, -70, 0}, {370, -130, 0}}},
}

var mixerParts = []turning{
	{name: "collective-arm", points: []vec{{110, 0, 0}}},
	{name: "cyclic-lever", pivot: vec{0, 140, 0}, points: []vec{{0, 220, 0}, {0, 60, 20}}},
	{name: "mixing-lever", pivot: vec{110, 0, 0}, on: "collective-arm", points: []vec{{110, 60, 20}, {170, 0, 0}, {50, 0, 0}}},
	{name: "ring", pivot: vec{110, 420, 0}, free: true, points: []vec{{180, 420, 0}, {40, 420, 0}, {110, 420, 0}}},
}

// drawnPlace is a place that the page's own picture has on its sheet, with the
// place as drawn that it belongs to and how its view lies on the sheet.
type drawnPlace struct {
	View, Drawn string
	X, Y        float64
}

// drawnPlaces reads the centers of circles and the corners of paths that move
// out of the pictures under what a selector finds.
const drawnPlaces = `[...document.querySelectorAll(ROOT + " [data-view]")].flatMap((view) =>
	[...view.querySelectorAll("circle[data-at], path[data-at]")].flatMap((e) => {
		const at = e.dataset.at.trim().split(/\s+/);
		const on = e.localName === "circle" ? [e.getAttribute("cx"), e.getAttribute("cy")] : e.getAttribute("d").match(/-?[\d.]+/g);
		return on.length * 2 !== at.length ? [{ Drawn: "lost " + e.outerHTML }] : Array.from({ length: at.length / 4 }, (_, i) => ({
			View: view.dataset.view,
			Drawn: at.slice(4 * i + 1, 4 * i + 4).join(" "),
			X: Number(on[2 * i]),
			Y: Number(on[2 * i + 1]),
		}));
	}))`

// shows asserts that the pictures under what a selector finds have the parts
// where sweep's turns have them.
func (b *tab) shows(root string, parts []turning, at map[string]float64) {
	b.t.Helper()
	owner := map[string]turning{}
	points := map[string]vec{}
	for _, part := range parts {
		for _, p := range part.points {
			owner[p.String()], points[p.String()] = part, p
		}
	}
	seen := map[string]bool{}
	for _, d := range found[[]drawnPlace](b, strings.Replace(drawnPlaces, "ROOT", strconv.Quote(root), 1)) {
		assert.False(b.t, strings.HasPrefix(d.Drawn, "lost"), d.Drawn)
		part, ok := owner[d.Drawn]
		if !ok {
			continue
		}
		seen[d.Drawn] = true
		var v []float64
		for _, word := range strings.Fields(d.View) {
			k, err := strconv.ParseFloat(word, 64)
			require.NoError(b.t, err)
			v = append(v, k)
		}
		want := place(parts, part.name, points[d.Drawn], at)
		right, up := vec(v[0:3]), vec(v[3:6])
		off := math.Hypot((d.X-v[6])/v[8]-right.dot(want), (v[7]-d.Y)/v[8]-up.dot(want))
		assert.Less(b.t, off, closePlace, "%s: its point drawn at %s", part.name, d.Drawn)
	}
	for drawn, part := range owner {
		assert.True(b.t, seen[drawn], "%s: its point drawn at %s isn't in the picture", part.name, drawn)
	}
}

// shownNumber reads the number that a text begins with, and how many decimals
// it has.
func shownNumber(t *testing.T, text string) (v float64, decimals int) {
	t.Helper()
	number := text[:len(text)-len(strings.TrimLeft(text, "-0123456789."))]
	v, err := strconv.ParseFloat(number, 64)
	require.NoError(t, err, text)
	if _, after, ok := strings.Cut(number, "."); ok {
		decimals = len(after)
	}
	return v, decimals
}
