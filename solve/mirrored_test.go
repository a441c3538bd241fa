package solve

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"fullfree/linkage"
	"fullfree/linkage/hunt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// judgedKind is the first judgement of a kind.
func judgedKind(t testing.TB, r *Result, kind linkage.Kind) *Judgement {
	t.Helper()
	for i := range r.Requirements {
		if r.Requirements[i].Requirement.Kind == kind {
			return &r.Requirements[i]
		}
	}
	require.Fail(t, "nothing of that kind is required", kind)
	return nil
}

// discs is a disc of radius 100 on its pivot, with gauges on two points of it.
func discs(t testing.TB, low, high float64, require string) *Result {
	return checkedText(t, fmt.Sprintf(`
run "Disc" { units = "mm" }
part "disc" {
  pivot  = [0, 0]
  points = { a = [100, 0], b = [0, 100] }
}
control "disc-turn" {
  of   = disc
  from = %g
  to   = %g
}
output "a" {
  of    = disc.a
  along = [0, 1]
  reads = 7
}
output "b" {
  of    = disc.b
  along = [0, 1]
}
%s
`, low, high, require))
}

// Of points on a disc the heights are sines and cosines, so a(x) - b(-x) is
// 100 (sin x - cos x + 1), largest where both signs of the travel end: elementary
// trigonometry.
func TestSymmetricalOfADisc(t *testing.T) {
	for _, c := range []struct {
		low, high, common float64
		opposed           string
		of                func(x float64) float64
	}{
		{-60, 60, 60, "", func(x float64) float64 { return 100 * (math.Sin(x) - math.Cos(x) + 1) }},
		{-60, 25, 25, "", func(x float64) float64 { return 100 * (math.Sin(x) - math.Cos(x) + 1) }},
		{-37.3, 80, 37.3, "", func(x float64) float64 { return 100 * (math.Sin(x) - math.Cos(x) + 1) }},
		{-60, 60, 60, "opposed = true", func(x float64) float64 { return 100 * (math.Sin(x) + math.Cos(x) - 1) }},
	} {
		j := judgedKind(t, discs(t, c.low, c.high, "require \"symmetrical\" {\n of = [a, b]\n within = 1\n"+c.opposed+"\n}"), linkage.Symmetrical)
		want, at := 0.0, 0.0
		for _, x := range []float64{-c.common, c.common} {
			if v := math.Abs(c.of(x * math.Pi / 180)); v > want {
				want, at = v, x
			}
		}
		require.NotNil(t, j.Worst)
		assert.InDelta(t, want, *j.Worst, 1e-9)
		require.NotNil(t, j.At)
		assert.InDelta(t, at, *j.At, 1e-9)
		assert.Equal(t, FallsShort, j.Verdict)
		assert.InDelta(t, c.common, j.Reaches, 1e-12)
		assert.EqualValues(t, "mm", j.Unit)
	}
}

// A travel to one side of neutral alone has nothing to hold against each other.
func TestSymmetricalToOneSide(t *testing.T) {
	j := judgedKind(t, discs(t, 0, 60, "require \"symmetrical\" {\n of = [a, b]\n within = 1\n}"), linkage.Symmetrical)
	assert.Equal(t, CannotTell, j.Verdict)
	assert.Equal(t, OneSided, j.Why)
	assert.Nil(t, j.Worst)
}

// A differential aileron run goes further up than down, and is symmetrical all the same:
// its two sides are each other's mirror image.
func TestSymmetricalDifferential(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "testdata", "answers", "differential.hcl"))
	require.NoError(t, err)
	result := checkedText(t, string(text))
	j := judgedKind(t, result, linkage.Symmetrical)
	assert.Equal(t, Holds, j.Verdict)
	assert.InDelta(t, 0, *j.Worst, 1e-9)
	assert.Nil(t, j.At, "it is the same everywhere")
}

// fourBarsText is two random four-bars on one shaft, both drawn so that they move.
func fourBarsText(random *rand.Rand, opposed bool) string {
	about := func(v, by float64) float64 { return v + by*(2*random.Float64()-1) }
	return fmt.Sprintf(`
run "Two" { units = "mm" }
part "shaft" {
  pivot  = [0, 0]
  points = { p = [%g, %g], q = [%g, %g] }
}
part "one" {
  pivot  = [300, 0]
  points = { in = [%g, %g] }
}
part "other" {
  pivot  = [-300, 0]
  points = { in = [%g, %g] }
}
rod "to-one" {
  from = shaft.p
  to   = one.in
}
rod "to-other" {
  from = shaft.q
  to   = other.in
}
control "hand" {
  of   = shaft
  from = -25
  to   = 32
}
stop "one-low" {
  of = one
  at = %g
}
require "symmetrical" {
  of      = [one, other]
  opposed = %t
  within  = 1
}
`, about(0, 20), about(60, 20), about(0, 20), about(60, 20), about(300, 30), about(90, 30), about(-300, 30), about(90, 30), -about(12, 6), opposed)
}

// TestHuntSymmetrical holds the worst of random runs against brute force: no place of a
// fine grid is worse, and the worst found is one that the grid closes in on.
func TestHuntSymmetrical(t *testing.T) {
	hunt.Each(t, 12, func(t *testing.T, random *rand.Rand) {
		opposed := random.IntN(2) == 0
		result := checkedText(t, fourBarsText(random, opposed))
		j := judgedKind(t, result, linkage.Symmetrical)
		if j.Worst == nil {
			return
		}
		s := result.Sweeps[0].of.apart()
		sign := -1.0
		if opposed {
			sign = 1
		}
		k := s.probeOf(0)
		one := func(x float64) float64 {
			at := func(x float64, probe int) float64 {
				require.True(t, s.solveAt(x))
				v, _ := s.p.probes[probe].value(s.p)
				return v
			}
			return math.Abs(at(x, k.probe) + sign*at(-x, k.second))
		}
		common := math.Min(-result.Sweeps[0].Low, result.Sweeps[0].High)
		most := 0.0
		const steps = 2000
		for i := -steps; i <= steps; i++ {
			most = math.Max(most, one(common*float64(i)/steps))
		}
		assert.LessOrEqual(t, most, *j.Worst+1e-9)
		assert.InDelta(t, most, *j.Worst, 1e-4, "a grid so fine misses little")
		if j.At != nil {
			assert.InDelta(t, one(*j.At), *j.Worst, 1e-9)
		}
	})
}

// The band of a symmetry is what the slopes tell, held against runs that are built out by
// a little, one dimension at a time (central differences, from the definition).
func TestSymmetricalBand(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	for range 4 {
		text := fourBarsText(random, false)
		run, err := linkage.Read(&linkage.Source{Name: "f.hcl", Text: []byte(text)})
		require.NoError(t, err)
		m, err := Compile(run)
		require.NoError(t, err)
		result, err := m.Check()
		require.NoError(t, err)
		j := &result.Requirements[0]
		require.NoError(t, m.AddBands(result, nil))
		require.NotNil(t, j.Band, "band told")
		b := m.newBands(result.reading(), nil)
		told := b.of(j)
		require.NotNil(t, told.slope)
		by := append([]float64(nil), told.slope.drawn...)
		b.slots.alongArms(by)
		const h = 1e-3
		for i, d := range run.Dimensions() {
			at := func(by float64) float64 {
				moved, err := run.With(linkage.Shift(d, by))
				require.NoError(t, err)
				n, err := Compile(moved)
				require.NoError(t, err)
				r, err := n.Check()
				require.NoError(t, err)
				return *r.Requirements[0].Worst
			}
			if d.IsLength() {
				continue
			}
			want := (at(h) - at(-h)) / (2 * h)
			assert.InDelta(t, want, told.per*by[i], 1e-4+1e-4*math.Abs(want), d.String())
		}
	}
}
