package picture

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// eachRun calls do for every sweep of every demo, and of a run drawn far from
// its zero.
func eachRun(t *testing.T, do func(t *testing.T, result *solve.Result, sweep *solve.Sweep)) {
	for _, kind := range append(demo.Kinds(), demo.WrongHole, "pedals-dual", "far-out") {
		text := farOut
		if kind != "far-out" {
			text = sample.DemoText(t, kind)
		}
		result := checkedOnce(t, kind+".hcl", text)
		for _, sweep := range telling(result) {
			t.Run(kind+"/"+sweep.Control.Name, func(t *testing.T) { do(t, result, sweep) })
		}
	}
}

// telling are the sweeps of a run; of a rotor one of each control, since there are dozens that
// look alike.
func telling(result *solve.Result) (list []*solve.Sweep) {
	for i, sweep := range result.Sweeps {
		if result.Run.Rotor == nil || i == 0 || result.Sweeps[i-1].Control != sweep.Control {
			list = append(list, sweep)
		}
	}
	return list
}

// farOut is a small run with a bracket on its rod and a lever on a lever, drawn
// far from its zero.
const farOut = `
run "Far out" {
  units = "in"
}
part "crank" {
  pivot = [-400000, 300000]
  arms  = { pin = [0, 3], hand = [-1, 3] }
}
part "rocker" {
  pivot = [-399993, 300000]
  arms  = { pin = [0, 4] }
  round "boss" {
    at     = [-399993, 300000]
    radius = 1/2
  }
}
part "trigger" {
  pivot = crank.hand
  arms  = { tip = [0, 1] }
}
rod "link" {
  from   = crank.pin
  to     = rocker.pin
  length = 7.2
  points = { bracket = [-399997, 300005] }
}
control "pull" {
  of   = crank
  from = -30
  to   = 30
}
control "squeeze" {
  of   = trigger
  held = [0, 20]
  from = -30
  to   = 30
}
`

// What is rounded for a page moves nothing that could be seen.
func TestCourseJSONRoundsUnseen(t *testing.T) {
	const within = 1e-5 // of the run's size
	eachRun(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		course := sweep.Course()
		c := CourseOf(result, sweep, course)
		require.Len(t, c.Samples, len(course.Samples))
		size, worst := result.Run.Size(), 0.0
		for i, p := range course.Samples {
			at := c.Samples[i]
			assert.Equal(t, p.At, at.At, "where the control is stays exact")
			require.Len(t, at.Frames, frameNumbers*len(course.Bodies))
			for k, body := range course.Bodies {
				rounded := frameFrom(at.Frames[k*frameNumbers:])
				for _, drawn := range placesOf(body) {
					worst = math.Max(worst, rounded.Place(drawn).Sub(p.Frames[k].Place(drawn)).Norm())
				}
			}
			for k, v := range p.Values {
				if v == nil {
					assert.Nil(t, at.Values[k])
					continue
				}
				require.NotNil(t, at.Values[k])
				assert.InDelta(t, *v, *at.Values[k], math.Pow10(-c.Series[k].Decimals-spareDecimals), c.Series[k].Label)
			}
		}
		assert.LessOrEqual(t, worst, within*size)
		text, err := json.Marshal(c)
		require.NoError(t, err)
		assert.NotRegexp(t, `[\[,:]-0[,\]}]`, string(text))
	})
}

// frameFrom reads a frame as a page does.
func frameFrom(numbers []float64) solve.Frame {
	f := solve.Frame{Shift: linkage.Vec{X: numbers[9], Y: numbers[10], Z: numbers[11]}}
	copy(f.Turn[:], numbers)
	return f
}

// placesOf returns the places of a body, as drawn; of rounds the rim.
func placesOf(body solve.Body) (list []linkage.Vec) {
	if body.Rod != nil {
		for _, p := range body.Rod.Points {
			list = append(list, p.At)
		}
		return list
	}
	for _, s := range drawnPlaces(body.Part) {
		a, b := across(body.Part.Axis)
		list = append(list, s.at, s.at.Add(a.Scale(s.radius)), s.at.Add(b.Scale(s.radius)))
	}
	return list
}

// Every series has its own id, and words that tell it from all others.
func TestSeriesJSONNames(t *testing.T) {
	eachRun(t, func(t *testing.T, result *solve.Result, sweep *solve.Sweep) {
		ids, labels := map[string]bool{}, map[string]bool{}
		for _, s := range SeriesOf(result, sweep) {
			assert.Regexp(t, `^s[0-9]+$`, s.ID)
			assert.False(t, ids[s.ID], s.ID)
			assert.False(t, labels[s.Label], s.Label)
			assert.Equal(t, s.Unit == "in", s.Parts == figure.InchParts, s.Label)
			ids[s.ID], labels[s.Label] = true, true
		}
	})
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	var labels []string
	for _, s := range SeriesOf(result, result.Sweeps[0]) {
		labels = append(labels, s.Label)
	}
	for _, want := range []string{"grip-lever", "link to engine-lever (rod angle)", "gap to idle-stop"} {
		assert.Contains(t, labels, want)
	}
}

func TestPositionJSONIsWhole(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	sweep := result.Sweeps[0]
	p, ok := sweep.Sample(7.3)
	require.True(t, ok)
	at := SampleOf(p)
	assert.Equal(t, p.Values, at.Values)
	for k := range p.Frames {
		assert.Equal(t, p.Frames[k], frameFrom(at.Frames[k*frameNumbers:]))
	}
	// No figure is told as null.
	p.Values[0] = nil
	text, err := json.Marshal(SampleOf(p))
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(text), `{"at":7.3,"values":[null,`), string(text))
}

func TestRoundTo(t *testing.T) {
	assert.Equal(t, 1.235, roundTo(1.23456, 3))
	assert.Equal(t, -12.0, roundTo(-12.4, 0))
	assert.False(t, math.Signbit(roundTo(-1e-9, 3)))
	assert.Equal(t, 1e300, roundTo(1e300, 15), "too large to be rounded there")
	for step, want := range map[float64]int{1: 0, 50: 0, 0.1: 1, 0.099: 2, 1e-3: 3, 1e-40: 15} {
		assert.Equal(t, want, decimalsFor(step), "%v", step)
	}
}
