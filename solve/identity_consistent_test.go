package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// specimens are runs of every sort, each with outputs on all its parts.
func specimens() map[string]drawing {
	out := map[string]drawing{
		"rig":     ofEverything(1, 1, nil),
		"ladder":  ladder(-4, 4).with(footStops),
		"slider":  sliderCrank(50, 150, 60).with(control("crank", -170, 170)),
		"whole":   crankRocker.draw(40, 1).with(control("crank", -180, 180)),
		"toggles": fourBar{ground: 100, crank: 80, coupler: 60, rocker: 70}.draw(50, 0.4).with(control("crank", -180, 180)),
		"cell":    straightLineCell(60).with(control("crank", -45, 50)),
	}
	for kind, c := range manyLoops {
		rng := rand.New(rand.NewPCG(11, uint64(kind)))
		d := c.draw(rng)
		for m := newModel(d, "lever"); m.stiffness(0, make([]float64, m.n)) < 3*stiffEnough; m = newModel(d, "lever") {
			d = c.draw(rng)
		}
		d.bars[0].length = newModel(d, "lever").length(d.bars[0]) + 0.25
		out[c.name] = d.with(control("lever", -60, 60))
	}
	for name, d := range out {
		for _, b := range d.bodies {
			if b.fixed || b.pivot == nil && b.on == "" && b.slide == nil {
				continue
			}
			tilts := ""
			if b.ball {
				tilts = "  tilts = [0.4, 1, -0.5]\n"
			}
			d = d.with(fmt.Sprintf("output \"the-%s\" {\n  of = %s\n%s}\n", b.name, b.name, tilts))
		}
		out[name] = d
	}
	return out
}

// extentOf returns the size of a drawing: the diagonal of its box.
func extentOf(d drawing) float64 {
	low, high := at3(math.Inf(1), math.Inf(1), math.Inf(1)), at3(math.Inf(-1), math.Inf(-1), math.Inf(-1))
	grow := func(p vec) {
		low = vec{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y), Z: math.Min(low.Z, p.Z)}
		high = vec{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y), Z: math.Max(high.Z, p.Z)}
	}
	for _, b := range d.bodies {
		for _, p := range b.points {
			grow(p.at)
		}
		if b.pivot != nil {
			grow(*b.pivot)
		}
	}
	return distance(low, high)
}

// TestRodsKeepTheirLength: to 1e-12 of the run's size at every position, the
// ends of the travel, toggles among them, too.
func TestRodsKeepTheirLength(t *testing.T) {
	for name, d := range specimens() {
		_, s := sweepOf(t, d.text())
		const steps = 96
		_, rows := tableOf(t, s, steps)
		require.Len(t, rows, steps+1)
		for i := range rows {
			x := s.Low + (s.High-s.Low)*float64(i)/steps
			if i == steps {
				x = s.High
			}
			st := solveAt(t, s, x)
			for _, rod := range s.Rods {
				got := distance(st.Point(rod.Rod.From), st.Point(rod.Rod.To))
				nearf(t, rod.Rod.Length, got, 1e-12*extentOf(d), "%s: %s at %v", name, rod.Rod.Name, x)
			}
			require.Equal(t, x, rows[i][0], "%s: evenly spaced", name)
		}
	}
}

// TestPartsStayRigid: the distances of a part's points don't change.
func TestPartsStayRigid(t *testing.T) {
	for name, d := range specimens() {
		run, s := sweepOf(t, d.text())
		for _, x := range []float64{s.Low, 0.7 * s.Low, 0.3 * s.High, s.High} {
			st := solveAt(t, s, x)
			for _, part := range run.Parts {
				for i := range part.Points {
					for j := range i {
						a, b := linkage.PointRef{Part: part, Point: i}, linkage.PointRef{Part: part, Point: j}
						drawn := part.Points[i].At.Sub(part.Points[j].At).Norm()
						nearf(t, drawn, distance(st.Point(a), st.Point(b)), 1e-12*extentOf(d), "%s: %s at %v", name, part.Name, x)
					}
					require.Equal(t, st.Point(linkage.PointRef{Part: part, Point: i}), st.Place(part, part.Points[i].At), "a point is a place of its part")
				}
				if part.Motion == linkage.Fixed {
					assert.Equal(t, vec{X: 3, Y: 4}, st.Place(part, vec{X: 3, Y: 4}))
				}
			}
		}
	}
}

// travelAt returns the reading of an output of a part, less what it reads as drawn.
func travelAt(t *testing.T, s *solve.Sweep, o *linkage.Output, x float64) float64 {
	t.Helper()
	st := solveAt(t, s, x)
	switch {
	case o.Tilts != nil:
		return st.Reading(o)
	case o.Part != nil:
		return st.Travel(o.Part)
	}
	return st.Point(*o.Point).Dot(o.Along)
}

// TestRatioIsTheDerivative: against difference quotients, extrapolated.
func TestRatioIsTheDerivative(t *testing.T) {
	for name, d := range specimens() {
		_, s := sweepOf(t, d.text())
		for _, o := range s.Outputs {
			quotient := func(h float64) float64 {
				return (travelAt(t, s, o.Output, h) - travelAt(t, s, o.Output, -h)) / (2 * h)
			}
			h := 1e-3 * (s.Explored[1] - s.Explored[0])
			want := (4*quotient(h/2) - quotient(h)) / 3
			nearAtf(t, want, o.Ratio.Neutral, 1e-6*math.Max(1, math.Abs(want)), "%s: %s", name, o.Output.Name)
		}
	}
}

// TestExtremesAreExtreme: no sampled position is beyond the least or most, and
// some come near them; so for travel, readings, ratios and rod angles.
func TestExtremesAreExtreme(t *testing.T) {
	const steps = 1000
	for name, d := range specimens() {
		_, s := sweepOf(t, d.text())
		columns, rows := tableOf(t, s, steps)
		check := func(about string, column int, e solve.Extent, shift float64) {
			least, most := math.Inf(1), math.Inf(-1)
			for _, row := range rows {
				least, most = math.Min(least, row[column]+shift), math.Max(most, row[column]+shift)
			}
			span := e.Most - e.Least
			nearf(t, e.AtLow, rows[0][column]+shift, 1e-9*math.Max(1, span), "%s: %s at the low end", name, about)
			nearf(t, e.AtHigh, rows[steps][column]+shift, 1e-9*math.Max(1, span), "%s: %s at the high end", name, about)
			// An extreme between two samples is above them by a curvature's worth; a
			// toggle is an end, and is sampled.
			nearf(t, e.Least, least, 1e-4*span+1e-12, "%s: least of %s", name, about)
			nearf(t, e.Most, most, 1e-4*span+1e-12, "%s: most of %s", name, about)
			assert.LessOrEqual(t, e.Least, least+1e-9*math.Max(1, span), "%s: %s", name, about)
			assert.GreaterOrEqual(t, e.Most, most-1e-9*math.Max(1, span), "%s: %s", name, about)
			assert.LessOrEqual(t, e.Least, e.Neutral+1e-12, "%s: %s", name, about)
			assert.GreaterOrEqual(t, e.Most, e.Neutral-1e-12, "%s: %s", name, about)
		}
		seen := 0
		for i, column := range columns {
			for _, p := range s.Parts {
				if p.Name == column.Name {
					require.Equal(t, p.Unit, column.Unit, name)
					check(p.Name, i, p.Extent, 0)
					seen++
				}
			}
			for _, o := range s.Outputs {
				if o.Output.Name != column.Name {
					continue
				}
				require.Equal(t, o.Unit, column.Unit, name)
				check(o.Output.Name, i, o.Extent, 0)
				seen++
				if o.Ratio.Least == nil || o.Ratio.Most == nil { // no bound at a toggle
					continue
				}
				h := rows[1][0] - rows[0][0]
				for k := 1; k < steps; k++ {
					slope := math.Abs(rows[k+1][i]-rows[k-1][i]) / (2 * h)
					// The mean of a stretch lies between the least and the most on it.
					require.LessOrEqual(t, slope, math.Abs(*o.Ratio.Most)*(1+1e-9)+1e-9, "%s: %s", name, o.Output.Name)
					if *o.Ratio.Least != 0 && slope != 0 && math.Signbit(*o.Ratio.Least) == math.Signbit(*o.Ratio.Most) && math.Abs(*o.Ratio.Least) > 1e-6 {
						require.GreaterOrEqual(t, slope, math.Abs(*o.Ratio.Least)*(1-1e-9)-1e-9, "%s: %s", name, o.Output.Name)
					}
				}
			}
		}
		assert.Equal(t, len(columns), seen, "%s: every column is a part or an output", name)
	}
}

// TestWearIsTheDerivative: 1/|d(gap)/d(control)|, by differences.
func TestWearIsTheDerivative(t *testing.T) {
	text := ofEverything(1, 1, nil).text()
	run, s := sweepOf(t, text)
	worn := 0
	for i, end := range s.Ends {
		if end.Stop == nil || end.Stop.Of != nil && end.Stop.Of.Motion != linkage.Slides {
			continue
		}
		worn++
		g := func(x float64) float64 {
			st := solveAt(t, s, x)
			if end.Stop.Of != nil {
				return st.Travel(end.Stop.Of)
			}
			v, _, _, _ := st.Gap(end.Stop.Touch[0], end.Stop.Touch[1])
			return v
		}
		const h = 1e-3
		inward := h
		if i == 1 {
			inward = -h
		}
		// One-sided, to second order: only the free side is sure to be explored.
		slope := (4*g(end.At+inward) - g(end.At+2*inward) - 3*g(end.At)) / (2 * inward)
		nearAt(t, 1/math.Abs(slope), end.Wear, 1e-4, end.Stop.Name)
	}
	assert.Positive(t, worn, "%v %v", run.Name, s.Ends)
}

// TestMarginsAreFromTheEnds: from the end of the travel on its side.
func TestMarginsAreFromTheEnds(t *testing.T) {
	count := 0
	for name, d := range specimens() {
		_, s := sweepOf(t, d.with(demand("over-center", "least = 5")).text())
		for i, c := range s.Critical {
			count++
			want := s.Low - c.At
			if c.At >= 0 {
				want = c.At - s.High
			}
			nearf(t, want, c.Margin, 1e-9, "%s: %s", name, c.Name())
			assert.True(t, c.At >= s.Explored[0] && c.At <= s.Explored[1], name)
			if i > 0 {
				assert.LessOrEqual(t, s.Critical[i-1].At, c.At, "%s: in order", name)
			}
		}
	}
	assert.Greater(t, count, 10)
}
