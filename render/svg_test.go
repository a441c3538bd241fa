package render

import (
	"bytes"
	"encoding/xml"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func drawn(t *testing.T, s *scene) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, s.svg(&out, "id", "title", "desc"))
	return out.String()
}

func TestSVGWritesNumbersOneWay(t *testing.T) {
	w := &svgWriter{decimals: svgDecimals}
	for v, want := range map[float64]string{
		0: "0", -0.001: "0", math.Copysign(0, -1): "0", 1.005: "1", 2.5: "2.5", -3.14159: "-3.14", 1e6: "1000000", 120: "120", 0.1 + 0.2: "0.3",
	} {
		assert.Equal(t, want, w.digits(v))
	}
	assert.NoError(t, w.err)
}

func TestSVGRefusesWhatIsNoNumber(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		s := &scene{width: 10, height: 10}
		s.line(layerEnds, penThin, place{0, 0}, place{v, 1})
		var out bytes.Buffer
		assert.ErrorContains(t, s.svg(&out, "id", "t", "d"), "no number")
		assert.Empty(t, out.String(), "nothing is left of a picture that failed")
	}
}

func TestSVGEscapesEverything(t *testing.T) {
	hostile := "<a href='x'>&amp;\"]]>\x00\xff"
	s := &scene{width: 10, height: 10}
	s.write(text{says: hostile, size: 10})
	var out bytes.Buffer
	require.NoError(t, s.svg(&out, "id", hostile, hostile))
	assert.Zero(t, wellFormed(t, out.String())["a"])

	// The text comes back as it was, but for what can't be printed.
	decoder := xml.NewDecoder(strings.NewReader(out.String()))
	read := 0
	for {
		token, err := decoder.Token()
		if err != nil {
			break
		}
		if chars, ok := token.(xml.CharData); ok && strings.Contains(string(chars), "href") {
			assert.Equal(t, "<a href='x'>&amp;\"]]>??", string(chars))
			read++
		}
	}
	assert.Equal(t, 3, read, "title, description and text")
}

// Shapes come in the order of their layers, whatever order they were drawn in.
func TestSceneLayers(t *testing.T) {
	s := &scene{width: 10, height: 10}
	s.circle(layerHoles, penHole, place{1, 1}, 1)
	s.line(layerEnds, penEnd, place{0, 0}, place{2, 2})
	s.polygon(layerNeutral, penThick, place{0, 0}, place{1, 0}, place{0, 1})
	got := drawn(t, s)
	ends, neutral, holes := strings.Index(got, `stroke-dasharray="`+endDash), strings.Index(got, "Z\""), strings.Index(got, "<circle")
	assert.Positive(t, ends)
	assert.Less(t, ends, neutral)
	assert.Less(t, neutral, holes)
}

func TestSceneTakeMoves(t *testing.T) {
	one, two := &scene{}, &scene{}
	one.line(layerEnds, penThin, place{0, 0}, place{1, 1})
	one.write(text{says: "x", size: 10, at: place{3, 3}})
	two.take(one, place{10, 20})
	assert.Equal(t, []place{{10, 20}, {11, 21}}, two.shapes[layerEnds][0].through)
	assert.Equal(t, place{13, 23}, two.texts[0].at)
	assert.Equal(t, []place{{0, 0}, {1, 1}}, one.shapes[layerEnds][0].through, "the other scene stays as it was")
	wasLow, wasHigh := one.extent()
	low, high := two.extent()
	assert.InDelta(t, 20, low.y-wasLow.y, 1e-12)
	assert.InDelta(t, 20, high.y-wasHigh.y, 1e-12)
}
