package survey_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve/survey"
)

// bell is a bellcrank on an exact pin, sketched straight, with its low hole so
// far aside; its arms and how far their ends are apart are taped.
func bell(aside, apart float64, more string) string {
	return bench(sketched, fmt.Sprintf(`
		fixed "airframe" {
		  exact  = true
		  points = { datum = [0, 0], mark = [300, 20] }
		}
		part "lever" {
		  pivot  = [0, 100]
		  points = { up = [0, 160], low = [%v, 40] }
		}`, aside)+
		tape("airframe.datum", "lever.pivot", 100)+gauge("airframe.datum", "lever.pivot", 90)+gauge("lever.pivot", "lever.up", 90)+
		tape("lever.pivot", "lever.up", 60)+tape("lever.pivot", "lever.low", 60)+tape("lever.up", "lever.low", apart)+more)
}

// TestSurveyLeavesASaddle: a bellcrank that is bent in truth is found bent though
// it is sketched straight. Its low hole is where two circles meet, by triangle:
// on either side, which is told, unless something tells the side.
func TestSurveyLeavesASaddle(t *testing.T) {
	angle := 2 * math.Asin(104./2/60) // between the arms
	x, y := 60*math.Sin(angle), 100+60*math.Cos(angle)
	for _, c := range []struct {
		aside float64
		mark  float64 // sign of the side told by a further distance; 0: none
		side  float64
	}{{0, 0, 0}, {0.01, 0, 1}, {-0.01, 0, -1}, {0, 1, 1}, {0, -1, -1}, {0.01, -1, -1}} {
		more := ""
		if c.mark != 0 {
			more = tape("airframe.mark", "lever.low", math.Hypot(300-c.mark*x, 20-y))
		}
		s := surveyOf(t, read(t, bell(c.aside, 104, more)))
		about := fmt.Sprintf("%+v", c)
		low := surveyedPoint(t, s, "lever.low")
		assert.InDelta(t, x, math.Abs(low.At.X), 0.2, about)
		assert.InDelta(t, y, low.At.Y, 0.2, about)
		if c.side != 0 {
			assert.Equal(t, c.side, math.Copysign(1, low.At.X), about)
		}
		for _, m := range s.Measurements {
			assert.InDelta(t, 0, m.Residual, 0.2, about)
			assert.False(t, m.Doubtful, about)
		}
		assert.Equal(t, c.mark == 0, s.Mirror, about)
		if s.Mirror {
			require.Len(t, s.Mirrored, 1, about)
			assert.Equal(t, "lever.low", s.Mirrored[0].Name)
			assert.InDelta(t, -low.At.X, s.Mirrored[0].At.X, 0.1, about)
			assert.InDelta(t, low.At.Y, s.Mirrored[0].At.Y, 0.1, about)
		} else {
			assert.Empty(t, s.Mirrored, about)
		}
	}

	// What is as long as its parts, or longer, stays straight; so does what is
	// shorter by chance: by 1, of three that read to within 1, 1.2 standard
	// deviations.
	for _, apart := range []float64{120, 121, 119} {
		s := surveyOf(t, read(t, bell(0, apart, "")))
		assert.InDelta(t, 0, surveyedPoint(t, s, "lever.low").At.X, 1e-9)
		assert.False(t, s.Mirror)
	}
}

// TestSurveyLeavesTwoSaddles: two bellcranks sketched straight in one run.
func TestSurveyLeavesTwoSaddles(t *testing.T) {
	text := bell(0, 104, `
		part "rocker" {
		  pivot  = [300, 100]
		  points = { up = [300, 160], low = [300, 40] }
		}`+tape("airframe.datum", "rocker.pivot", math.Hypot(300, 100))+gauge("lever.pivot", "rocker.pivot", 0)+gauge("rocker.pivot", "rocker.up", 90)+
		tape("rocker.pivot", "rocker.up", 60)+tape("rocker.pivot", "rocker.low", 60)+tape("rocker.up", "rocker.low", 110))
	s := surveyOf(t, read(t, text))
	for name, apart := range map[string]float64{"lever.low": 104, "rocker.low": 110} {
		pivot := surveyedPoint(t, s, strings.TrimSuffix(name, "low")+"pivot").At
		assert.InDelta(t, 60*math.Sin(2*math.Asin(apart/120)), math.Abs(surveyedPoint(t, s, name).At.X-pivot.X), 0.2, name)
	}
	require.Len(t, s.Mirrored, 2)
	assert.Equal(t, "lever.low", s.Mirrored[0].Name)
	assert.Equal(t, "rocker.low", s.Mirrored[1].Name)
}

// TestSurveyOfWhatIsDrawnBehind: two holes drawn one behind the other, 60 apart
// in height, that other distances carry apart: by Pythagoras 62 lets them lie
// 15.6 apart as drawn.
func TestSurveyOfWhatIsDrawnBehind(t *testing.T) {
	aside := math.Sqrt(62*62 - 60*60)
	text := func(is float64, more string) string {
		return bench(sketched, `
		fixed "airframe" {
		  exact  = true
		  points = { datum = [0, 0], mark = [200, -10] }
		}
		part "lever" {
		  pivot  = [0, 100]
		  points = { left = [90, 90, 30], right = [90, 90, -30] }
		}`+tape("airframe.datum", "lever.pivot", 100)+gauge("airframe.datum", "lever.pivot", 90)+
			tape("airframe.datum", "lever.left", math.Sqrt(90*90+90*90+30*30))+tape("airframe.mark", "lever.left", math.Sqrt(110*110+100*100+30*30))+
			tape("lever.left", "lever.right", is)+more)
	}
	right := vec{X: 90 + aside*0.6, Y: 90 + aside*0.8, Z: -30}
	for _, sign := range []float64{1, -1} {
		at := vec{X: 90 + sign*(right.X-90), Y: 90 + sign*(right.Y-90), Z: -30}
		s := surveyOf(t, read(t, text(62, tape("airframe.datum", "lever.right", at.Norm())+tape("airframe.mark", "lever.right", at.Sub(vec{X: 200, Y: -10}).Norm()))))
		assert.InDelta(t, 0, at.Sub(surveyedPoint(t, s, "lever.right").At).Norm(), 0.2)
		assert.Empty(t, s.Undetermined)
	}
	// With one distance more the two circles meet twice, and the sketch tells
	// nothing; without any it is anybody's guess.
	s := surveyOf(t, read(t, text(62, tape("airframe.mark", "lever.right", right.Sub(vec{X: 200, Y: -10}).Norm()))))
	for _, m := range s.Measurements {
		assert.InDelta(t, 0, m.Residual, 0.2)
	}
	assert.Empty(t, s.Undetermined)
	require.True(t, s.Mirror)
	assert.Equal(t, "lever.right", s.Mirrored[len(s.Mirrored)-1].Name)
	_, err := survey.New(read(t, text(62, "")))
	require.ErrorContains(t, err, "lever.left and lever.right are drawn one behind the other, 60 mm apart, and 62 was measured: sketch them on the sides where they lie")
	_, err = survey.New(read(t, text(50, "")))
	require.ErrorContains(t, err, "lever.left and lever.right were taped 50 mm apart, and their heights out of the drawing alone are 60 apart")
}
