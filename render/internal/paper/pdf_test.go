package paper

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/render/pdfscan"
)

func pdfOf(t *testing.T, scenes ...*Scene) ([]byte, *pdfscan.File) {
	t.Helper()
	p := NewPDF("Test (of) \\ é")
	for _, s := range scenes {
		p.Page(Place{s.Width, s.Height})
		p.Draw(s, Place{}, 1)
	}
	var out bytes.Buffer
	require.NoError(t, p.Finish(&out))
	f, err := pdfscan.Read(out.Bytes())
	require.NoError(t, err)
	return out.Bytes(), f
}

// A page is as large as it was told, a line lies where the scene has it with y up
// (ISO 32000-1, 8.3.2.3), and the fonts lie in the file.
func TestPDFPage(t *testing.T) {
	s := &Scene{Width: 595, Height: 842}
	s.Line(LayerMarks, PenThin, Place{10, 20}, Place{110.25, 20})
	s.Circle(LayerMarks, PenHole, Place{50, 60}, 5)
	s.Polygon(LayerFixed, Pen{Width: 1, Fill: HatchFill}, Place{10, 10}, Place{60, 10}, Place{60, 60})
	s.Text(Text{Says: "hello", At: Place{50, 100}, Size: 10, Bold: true, Halo: true, Anchor: AnchorMiddle})
	data, f := pdfOf(t, s, &Scene{Width: 100, Height: 50})
	require.Len(t, f.Pages, 2)
	assert.Equal(t, []float64{595, 842, 100, 50}, []float64{f.Pages[0].Wide, f.Pages[0].High, f.Pages[1].Wide, f.Pages[1].High})
	assert.Contains(t, f.Pages[0].Lines(), [4]float64{10, 822, 110.25, 822})
	assert.Equal(t, []string{"hello"}, f.Pages[0].Texts())
	assert.NotEmpty(t, f.Fonts)
	again, _ := pdfOf(t, s, &Scene{Width: 100, Height: 50})
	assert.Equal(t, data, again, "the same bytes")
	assert.NotContains(t, f.Info, "2026")
}

// What a builder may write stays text, and can be copied; what the font lacks is
// shown as such.
func TestPDFText(t *testing.T) {
	for says, shown := range map[string]string{
		"12.5° ± 0.3 – 4 — Höhenruder é ß ñ":    "12.5° ± 0.3 – 4 — Höhenruder é ß ñ",
		`) Tj ET Q (\) \( \\ << /JS >> % end`:   `) Tj ET Q (\) \( \\ << /JS >> % end`,
		"endstream endobj":                      "endstream endobj",
		"漢字 😀":                                  "?? ?",
		"Ὠ Щ ∙":                                 "Ὠ Щ ∙",
		"čň ļķ":                                 "čň ļķ",
		"\u0c29\u295c\u0d0d \u280a\u2928\u5c5c": "??? ???", // bytes that are ( ) \ and line ends
	} {
		s := &Scene{Width: 300, Height: 50}
		s.Text(Text{Says: says, At: Place{5, 20}, Size: 10})
		_, f := pdfOf(t, s)
		assert.Equal(t, []string{shown}, f.Pages[0].Texts())
	}
}

// A coordinate that is no number is an error, as in SVG.
func TestPDFRefusesNoNumber(t *testing.T) {
	p := NewPDF("")
	p.Page(Place{10, 10})
	s := &Scene{}
	s.Line(LayerMarks, PenThin, Place{}, Place{math.NaN(), 1})
	p.Draw(s, Place{}, 1)
	var out bytes.Buffer
	assert.Error(t, p.Finish(&out))
	assert.Empty(t, out.Bytes())
}

// Text comes out no wider than its box was guessed, so that nothing that found room
// in a picture lies on anything else on paper.
func TestTextIsNoWiderThanGuessed(t *testing.T) {
	for r := ' '; r <= '~'; r++ {
		assert.LessOrEqual(t, WidthIn(Sans, string(r), 1), TextWidth(string(r), 1, false)+1e-3, string(r))
	}
	for _, word := range []string{"Sweep diagram", "HOLDS", "right pedal", "12.5°", "Rigging sheet: Flap", "millimeters"} {
		assert.LessOrEqual(t, WidthIn(SansBold, word, 1), TextWidth(word, 1, true), word)
	}
}
