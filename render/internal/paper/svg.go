package paper

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"

	svg "github.com/ajstarks/svgo/float"

	"fullfree/render/figure"
)

// Decimals is how finely coordinates are written, in sheet units (a
// hundredth is far below a printed hairline).
const Decimals = 2

// SVG is the one way to SVG. It writes numbers with fixed decimals and
// no negative zero, escapes every text and attribute, and hands the picture
// on in a single write, or not at all.
type SVG struct {
	buf      bytes.Buffer
	svg      *svg.SVG
	err      error // the first number that wasn't one
	Decimals int   // of a coordinate
}

// NewSVG starts a picture of the given size with the words that screen
// readers speak. The id, of letters and digits, keeps the ids of several
// pictures on one page apart. The root carries attrs besides its own.
func NewSVG(width, height float64, id, title, desc string, attrs ...string) *SVG {
	return BeginSVG(Decimals, Place{}, Place{width, height}, id, title, desc, attrs...)
}

// BeginSVG is NewSVG for a picture whose corner isn't at zero, or that is
// written more finely.
func BeginSVG(decimals int, low, size Place, id, title, desc string, attrs ...string) *SVG {
	w := &SVG{Decimals: decimals}
	w.svg = svg.New(&w.buf)
	w.svg.Decimals = decimals
	w.svg.Startraw(append([]string{
		Attr("viewBox", strings.Join([]string{w.Digits(low.X), w.Digits(low.Y), w.Digits(size.X), w.Digits(size.Y)}, " ")),
		Attr("role", "img"),
		Attr("aria-labelledby", id+"-title "+id+"-desc"),
		Attr("font-family", fontFamily),
	}, attrs...)...)
	w.element("title", title, Attr("id", id+"-title"))
	w.element("desc", desc, Attr("id", id+"-desc"))
	return w
}

// Finish writes the whole picture to out.
func (w *SVG) Finish(out io.Writer) error {
	w.svg.End()
	if w.err != nil {
		return w.err
	}
	_, err := out.Write(w.buf.Bytes())
	return err
}

// Hatching defines the pattern that fills cut or fixed metal.
func (w *SVG) Hatching(id string) {
	const pitch = 4.5
	w.svg.Def()
	w.svg.Pattern(id, 0, 0, pitch, pitch, "user", Attr("patternTransform", "rotate(45)"))
	w.svg.Rect(0, 0, pitch, pitch, Attr("fill", "#fff"))
	w.svg.Line(0, 0, 0, pitch, Attr("stroke", "#000"), Attr("stroke-width", "1.4"))
	w.svg.PatternEnd()
	w.svg.DefEnd()
}

// Group begins a group with attributes, which End ends.
func (w *SVG) Group(attrs ...string) { w.svg.Group(attrs...) }

// End ends a group.
func (w *SVG) End() { w.svg.Gend() }

// Rect draws an upright rectangle.
func (w *SVG) Rect(x, y, width, height float64, attrs ...string) {
	w.svg.Rect(w.num(x), w.num(y), w.num(width), w.num(height), attrs...)
}

// circle draws a circle.
func (w *SVG) circle(at Place, r float64, attrs ...string) {
	w.svg.Circle(w.num(at.X), w.num(at.Y), w.num(r), attrs...)
}

// Line draws a line.
func (w *SVG) Line(from, to Place, attrs ...string) {
	w.svg.Line(w.num(from.X), w.num(from.Y), w.num(to.X), w.num(to.Y), attrs...)
}

// Path draws lines through places, back to the first where closed.
func (w *SVG) Path(through []Place, closed bool, attrs ...string) {
	var d strings.Builder
	for i, p := range through {
		if i == 0 {
			d.WriteString("M")
		} else {
			d.WriteString("L")
		}
		d.WriteString(w.Digits(p.X) + " " + w.Digits(p.Y))
	}
	if closed {
		d.WriteString("Z")
	}
	w.svg.Path(d.String(), attrs...)
}

// text writes one line of text.
func (w *SVG) text(t Text) {
	attrs := []string{Attr("font-size", w.Digits(t.Size))}
	if t.Bold {
		attrs = append(attrs, Attr("font-weight", "bold"))
	}
	if t.Anchor != "" && t.Anchor != anchorStart {
		attrs = append(attrs, Attr("text-anchor", t.Anchor))
	}
	if w.num(t.Angle) != 0 {
		attrs = append(attrs, Attr("transform", fmt.Sprintf("rotate(%s %s %s)", w.Digits(t.Angle), w.Digits(t.At.X), w.Digits(t.At.Y))))
	}
	if t.Halo {
		// A white rim keeps text readable where it has to cross a thin line;
		// a narrow one, lest it wipe out what is drawn beside it.
		attrs = append(attrs, Attr("stroke", "#fff"), Attr("stroke-width", "2"), Attr("stroke-linejoin", "round"), Attr("paint-order", "stroke"))
	}
	// svgo escapes the text, not the attributes.
	w.svg.Text(w.num(t.At.X), w.num(t.At.Y), figure.Clean(t.Says), attrs...)
}

// element writes an element that holds only text; svgo's own title and desc
// can carry no id.
func (w *SVG) element(name, says string, attrs ...string) {
	fmt.Fprintf(&w.buf, "<%s %s>%s</%s>\n", name, strings.Join(attrs, " "), escape(figure.Clean(says)), name)
}

// num rounds a coordinate to what is written, without negative zeros, and
// remembers the first one that is no number.
func (w *SVG) num(v float64) float64 {
	unit := math.Pow10(w.Decimals)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		if w.err == nil {
			w.err = fmt.Errorf("the picture has a coordinate that is no number (%v)", v)
		}
		return 0
	}
	if r := math.Round(v*unit) / unit; r != 0 {
		return r
	}
	return 0
}

// Digits is num as text, without trailing zeros.
func (w *SVG) Digits(v float64) string {
	s := fmt.Sprintf("%.*f", w.Decimals, w.num(v))
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// Attr returns an attribute with its value escaped.
func Attr(name, value string) string { return name + `="` + escape(value) + `"` }

// escape makes any text inert in XML.
func escape(s string) string {
	var b strings.Builder
	// A strings.Builder never fails to be written to.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}

// Clip defines a frame beyond which a group that names it isn't drawn.
func (w *SVG) Clip(id string, low, high Place) {
	w.svg.Def()
	w.svg.ClipPath(Attr("id", id))
	w.Rect(low.X, low.Y, high.X-low.X, high.Y-low.Y)
	w.svg.ClipEnd()
	w.svg.DefEnd()
}
