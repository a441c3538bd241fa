package linkage

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// eachRun is how many numbers of a run are changed, about.
const eachRun = 3

// TestNumbersAreSettings changes numbers of every run that there is by themselves, once
// as a setting while the file is read and once in the run that was read: both must come
// to the same run.
func TestNumbersAreSettings(t *testing.T) {
	changed := 0
	for path, run := range runFiles(t) {
		numbers := run.Numbers()
		every := max(1, len(numbers)/eachRun)
		for i, n := range numbers {
			if i%every != len(path)%every {
				continue
			}
			value := n.Value() + 0.001953125 // exact in binary, so that nothing is rounded twice
			text := strconv.FormatFloat(value, 'f', -1, 64)
			read, errRead := Read(run.Source, Setting{n.String(), text})
			var with *Run
			var errWith error
			if n.Rereads() {
				with, errWith = run.Reread(Setting{n.String(), text})
			} else {
				with, errWith = run.With(SetNumber(n, value))
			}
			if errRead != nil {
				continue // a rule of reading that a changed run has not: what is adjusted, and so on
			}
			require.NoError(t, errWith, "%s %s", path, n)
			own, ok := with.Number(n.String())
			require.True(t, ok)
			assert.InDelta(t, value, own.Value(), 1e-9, "%s %s", path, n)
			requireAlike(t, read, with, path+" "+n.String())
			changed++
		}
	}
	require.Greater(t, changed, 100)
}

// requireAlike compares all numbers of two runs, to what rounding leaves.
func requireAlike(t *testing.T, want, got *Run, what string) {
	t.Helper()
	for _, n := range want.Numbers() {
		other, ok := got.Number(n.String())
		require.True(t, ok, "%s: %s", what, n)
		require.InDelta(t, n.Value(), other.Value(), 1e-12*math.Max(1, math.Abs(n.Value())), "%s: %s", what, n)
	}
	for i, p := range want.Parts {
		for j, f := range p.Features {
			require.Equal(t, f.Through, got.Parts[i].Features[j].Through, what)
			require.InDelta(t, f.Radius, got.Parts[i].Features[j].Radius, 1e-12, what)
		}
		for j, q := range p.Points {
			require.InDelta(t, 0, q.At.Sub(got.Parts[i].Points[j].At).Norm(), 1e-9, what)
		}
	}
}

// TestVariesAreRead reads what may vary, from a file and besides.
func TestVariesAreRead(t *testing.T) {
	src := &Source{Name: "v.hcl", Text: []byte(`run "V" { units = "in" }
dims "bench" { arm = 2 + 1/2 }
part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, bench.arm], hole = [1, 2] }
  edge "tail" {
    through = [[0, 0], [1, 0], [2, 0]]
    thick   = 1/8
  }
}
part "arm" {
  pivot = [10, 0]
  arms  = { eye = [0, 2] }
}
rod "link" {
  from = lever.hole
  to   = arm.eye
}
control "hand" { of = lever }
vary "the hole" {
  of    = lever.hole
  among = [[1, 2], [1, 2 + 1/4]]
}
vary "arm" {
  of   = bench.arm
  low  = 2
  high = 3
}
vary "tail" {
  of   = lever.tail.2.x
  low  = 1 + 1/2
  high = 3
  step = 1/8
}
`)}
	run, err := ReadVarying(src, nil, []string{"link.length=9..11:0.5", "arm.eye=[10, 2],[10, 2 + 1/2]", "arm.pivot.x = 9 + 1/2 .. 11"})
	require.NoError(t, err)
	require.Len(t, run.Varies, 6)
	v := run.Varies
	assert.Equal(t, "the hole", v[0].Title())
	assert.Equal(t, [][]float64{{1, 2}, {1, 2.25}}, v[0].Among)
	assert.Equal(t, []float64{1, 2}, v[0].Filed())
	assert.True(t, v[1].Numbers[0].Rereads())
	assert.Equal(t, []float64{2.5}, v[1].Filed())
	assert.Equal(t, []float64{1.5, 3, 0.125}, []float64{v[2].Low, v[2].High, v[2].Step})
	assert.Equal(t, []float64{9, 11, 0.5}, []float64{v[3].Low, v[3].High, v[3].Step})
	assert.Equal(t, "link.length", v[3].Title())
	assert.Equal(t, [][]float64{{10, 2}, {10, 2.5}}, v[4].Among)
	assert.Equal(t, []float64{9.5, 11}, []float64{v[5].Low, v[5].High})

	run, err = ReadVarying(src, nil, []string{"bench.arm=1..4", "lever.hole.y=1..3"})
	require.NoError(t, err)
	require.Len(t, run.Varies, 3, "what is asked stands in for what the file says of it")
	assert.Equal(t, []float64{1, 4}, []float64{run.Varies[1].Low, run.Varies[1].High})
	assert.Equal(t, "lever.hole.y", run.Varies[2].Of)
	_, err = ReadVarying(src, nil, []string{"bench.arm=1..4", "bench.arm=1..3"})
	assert.ErrorContains(t, err, "varies already")

	for asked, says := range map[string]string{
		"link.length":          "a dimension and its range are wanted",
		"link.length=9..x":     "a number is wanted here, not a name",
		"link.length=9..8":     "the lower figure comes first",
		"link.length=9..10:2":  "the step, 2, is larger than the range",
		"link.length=9..10:-1": "step is more than 0",
		"lever.horn.y=2..3":    `"lever.horn.y" is written with "bench.arm"`,
		"lever.hurn.y=2..3":    `did you mean "lever.horn.y"?`,
		"lever.hole=2..3":      "is a point: give among",
		"lever.pivot=[0,0]":    "has no dimension",
	} {
		_, err := ReadVarying(src, nil, []string{asked})
		assert.ErrorContains(t, err, says, asked)
		assert.ErrorContains(t, err, "--vary", asked)
	}
}

// TestNumbersAreWritten writes numbers into their files: what reads then is what a setting
// of them reads.
func TestNumbersAreWritten(t *testing.T) {
	written := 0
	for path, run := range runFiles(t) {
		numbers := run.Numbers()
		every := max(1, len(numbers)/eachRun)
		for i, n := range numbers {
			if i%every != len(path)%every {
				continue
			}
			value := n.Value() + 0.001953125
			want, err := Read(run.Source, Setting{n.String(), strconv.FormatFloat(value, 'f', -1, 64)})
			if err != nil {
				continue
			}
			text, err := RewriteNumbers(run.Source, []Change{{n.String(), value}})
			if err != nil { // it is written with a named dimension, or left out
				continue
			}
			read, err := Read(&Source{Name: path, Text: text})
			require.NoError(t, err)
			for _, k := range want.Numbers() {
				own, ok := read.Number(k.String())
				require.True(t, ok)
				require.InDelta(t, k.Value(), own.Value(), 2e-6+1e-7*want.Size(), "%s: %s, with %s written", path, k, n)
			}
			written++
		}
	}
	require.Greater(t, written, 100)
}

// What is written with a named dimension goes with it.
func TestNamedDimensionsAreWritten(t *testing.T) {
	src := &Source{Name: "n.hcl", Text: []byte(`run "N" { units = "mm" }
dims "bench" {
  arm  = 40 + 1/2 # as ordered
  half = bench.arm / 2
}
part "lever" {
  pivot  = [0, 0]
  points = { a = [0, bench.arm], b = [0, bench.half] }
}
control "hand" { of = lever }
`)}
	text, err := RewriteNumbers(src, []Change{{"bench.arm", 42.25}})
	require.NoError(t, err)
	assert.Contains(t, string(text), "arm  = 42.25 # as ordered")
	run, err := Read(&Source{Text: text})
	require.NoError(t, err)
	assert.InDelta(t, 21.125, run.Parts[0].Points[1].At.Y, 1e-12)
	_, err = RewriteNumbers(src, []Change{{"bench.half", 42.25}})
	assert.ErrorContains(t, err, "never overwritten")
	_, err = RewriteNumbers(src, []Change{{"lever.a.y", 42.25}})
	assert.ErrorContains(t, err, "never overwritten")
}
