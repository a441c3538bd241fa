package render

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

// svgDecimals is how finely coordinates are written, in sheet units (a
// hundredth is far below a printed hairline).
const svgDecimals = 2

// svgWriter is the one way to SVG. It writes numbers with fixed decimals and
// no negative zero, escapes every text and attribute, and hands the picture
// on in a single write, or not at all.
type svgWriter struct {
	buf      bytes.Buffer
	svg      *svg.SVG
	err      error // the first number that wasn't one
	decimals int   // of a coordinate
}

// newSVG starts a picture of the given size with the words that screen
// readers speak. The id, of letters and digits, keeps the ids of several
// pictures on one page apart. The root carries attrs besides its own.
func newSVG(width, height float64, id, title, desc string, attrs ...string) *svgWriter {
	return beginSVG(svgDecimals, place{}, place{width, height}, id, title, desc, attrs...)
}

// beginSVG is newSVG for a picture whose corner isn't at zero, or that is
// written more finely.
func beginSVG(decimals int, low, size place, id, title, desc string, attrs ...string) *svgWriter {
	w := &svgWriter{decimals: decimals}
	w.svg = svg.New(&w.buf)
	w.svg.Decimals = decimals
	w.svg.Startraw(append([]string{
		attr("viewBox", strings.Join([]string{w.digits(low.x), w.digits(low.y), w.digits(size.x), w.digits(size.y)}, " ")),
		attr("role", "img"),
		attr("aria-labelledby", id+"-title "+id+"-desc"),
		attr("font-family", fontFamily),
	}, attrs...)...)
	w.element("title", title, attr("id", id+"-title"))
	w.element("desc", desc, attr("id", id+"-desc"))
	return w
}

// finish writes the whole picture to out.
func (w *svgWriter) finish(out io.Writer) error {
	w.svg.End()
	if w.err != nil {
		return w.err
	}
	_, err := out.Write(w.buf.Bytes())
	return err
}

// hatching defines the pattern that fills cut or fixed metal.
func (w *svgWriter) hatching(id string) {
	const pitch = 4.5
	w.svg.Def()
	w.svg.Pattern(id, 0, 0, pitch, pitch, "user", attr("patternTransform", "rotate(45)"))
	w.svg.Rect(0, 0, pitch, pitch, attr("fill", "#fff"))
	w.svg.Line(0, 0, 0, pitch, attr("stroke", "#000"), attr("stroke-width", "1.4"))
	w.svg.PatternEnd()
	w.svg.DefEnd()
}

func (w *svgWriter) group(attrs ...string) { w.svg.Group(attrs...) }
func (w *svgWriter) end()                  { w.svg.Gend() }

func (w *svgWriter) rect(x, y, width, height float64, attrs ...string) {
	w.svg.Rect(w.num(x), w.num(y), w.num(width), w.num(height), attrs...)
}

func (w *svgWriter) circle(at place, r float64, attrs ...string) {
	w.svg.Circle(w.num(at.x), w.num(at.y), w.num(r), attrs...)
}

// line draws a line.
func (w *svgWriter) line(from, to place, attrs ...string) {
	w.svg.Line(w.num(from.x), w.num(from.y), w.num(to.x), w.num(to.y), attrs...)
}

// path draws lines through places, back to the first where closed.
func (w *svgWriter) path(through []place, closed bool, attrs ...string) {
	var d strings.Builder
	for i, p := range through {
		if i == 0 {
			d.WriteString("M")
		} else {
			d.WriteString("L")
		}
		d.WriteString(w.digits(p.x) + " " + w.digits(p.y))
	}
	if closed {
		d.WriteString("Z")
	}
	w.svg.Path(d.String(), attrs...)
}

// text writes one line of text.
func (w *svgWriter) text(t text) {
	attrs := []string{attr("font-size", w.digits(t.size))}
	if t.bold {
		attrs = append(attrs, attr("font-weight", "bold"))
	}
	if t.anchor != "" && t.anchor != anchorStart {
		attrs = append(attrs, attr("text-anchor", t.anchor))
	}
	if w.num(t.angle) != 0 {
		attrs = append(attrs, attr("transform", fmt.Sprintf("rotate(%s %s %s)", w.digits(t.angle), w.digits(t.at.x), w.digits(t.at.y))))
	}
	if t.halo {
		// A white rim keeps text readable where it has to cross a thin line;
		// a narrow one, lest it wipe out what is drawn beside it.
		attrs = append(attrs, attr("stroke", "#fff"), attr("stroke-width", "2"), attr("stroke-linejoin", "round"), attr("paint-order", "stroke"))
	}
	// svgo escapes the text, not the attributes.
	w.svg.Text(w.num(t.at.x), w.num(t.at.y), figure.Clean(t.says), attrs...)
}

// element writes an element that holds only text; svgo's own title and desc
// can carry no id.
func (w *svgWriter) element(name, says string, attrs ...string) {
	fmt.Fprintf(&w.buf, "<%s %s>%s</%s>\n", name, strings.Join(attrs, " "), escape(figure.Clean(says)), name)
}

// num rounds a coordinate to what is written, without negative zeros, and
// remembers the first one that is no number.
func (w *svgWriter) num(v float64) float64 {
	unit := math.Pow10(w.decimals)
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

// digits is num as text, without trailing zeros.
func (w *svgWriter) digits(v float64) string {
	s := fmt.Sprintf("%.*f", w.decimals, w.num(v))
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// attr returns an attribute with its value escaped.
func attr(name, value string) string { return name + `="` + escape(value) + `"` }

// escape makes any text inert in XML.
func escape(s string) string {
	var b strings.Builder
	// A strings.Builder never fails to be written to.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}
