package paper

import (
	"bytes"
	"encoding/xml"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/render/internal/sample"
)

func drawn(t *testing.T, s *Scene) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, s.WriteSVG(&out, "id", "title", "desc"))
	return out.String()
}

func TestSVGWritesNumbersOneWay(t *testing.T) {
	w := &SVG{Decimals: Decimals}
	for v, want := range map[float64]string{
		0: "0", -0.001: "0", math.Copysign(0, -1): "0", 1.005: "1", 2.5: "2.5", -3.14159: "-3.14", 1e6: "1000000", 120: "120", 0.1 + 0.2: "0.3",
	} {
		assert.Equal(t, want, w.Digits(v))
	}
	assert.NoError(t, w.err)
}

func TestSVGRefusesWhatIsNoNumber(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		s := &Scene{Width: 10, Height: 10}
		s.Line(LayerEnds, PenThin, Place{0, 0}, Place{v, 1})
		var out bytes.Buffer
		assert.ErrorContains(t, s.WriteSVG(&out, "id", "t", "d"), "no number")
		assert.Empty(t, out.String(), "nothing is left of a picture that failed")
	}
}

func TestSVGEscapesEverything(t *testing.T) {
	hostile := "<a href='x'>&amp;\"]]>\x00\xff"
	s := &Scene{Width: 10, Height: 10}
	s.Text(Text{Says: hostile, Size: 10})
	var out bytes.Buffer
	require.NoError(t, s.WriteSVG(&out, "id", hostile, hostile))
	assert.Zero(t, sample.WellFormed(t, out.String())["a"])

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
	s := &Scene{Width: 10, Height: 10}
	s.Circle(LayerHoles, PenHole, Place{1, 1}, 1)
	s.Line(LayerEnds, PenEnd, Place{0, 0}, Place{2, 2})
	s.Polygon(LayerNeutral, PenThick, Place{0, 0}, Place{1, 0}, Place{0, 1})
	got := drawn(t, s)
	ends, neutral, holes := strings.Index(got, `stroke-dasharray="`+EndDash), strings.Index(got, "Z\""), strings.Index(got, "<circle")
	assert.Positive(t, ends)
	assert.Less(t, ends, neutral)
	assert.Less(t, neutral, holes)
}

func TestSceneTakeMoves(t *testing.T) {
	one, two := &Scene{}, &Scene{}
	one.Line(LayerEnds, PenThin, Place{0, 0}, Place{1, 1})
	one.Text(Text{Says: "x", Size: 10, At: Place{3, 3}})
	two.Take(one, Place{10, 20})
	assert.Equal(t, []Place{{10, 20}, {11, 21}}, two.Shapes[LayerEnds][0].Through)
	assert.Equal(t, Place{13, 23}, two.Texts[0].At)
	assert.Equal(t, []Place{{0, 0}, {1, 1}}, one.Shapes[LayerEnds][0].Through, "the other scene stays as it was")
	wasLow, wasHigh := one.Extent()
	low, high := two.Extent()
	assert.InDelta(t, 20, low.Y-wasLow.Y, 1e-12)
	assert.InDelta(t, 20, high.Y-wasHigh.Y, 1e-12)
}
