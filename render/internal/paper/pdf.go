package paper

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"fullfree/linkage/elementary"
)

// PDF is the one way to PDF: it draws the same scenes as SVG does, on pages that
// are measured in points (1/72 inch), x to the right and y down. The fonts lie in
// the file. It writes lines itself, with fixed decimals; of the library it takes the
// frame of the file, the fonts and the text. The same scenes give the same bytes.
type PDF struct {
	doc   *fpdf.Fpdf
	fonts *typefaces
	has   map[Face]bool // the fonts that lie in the file
	size  Place         // of the page
	err   error         // the first number that wasn't one
}

// PointsPerMillimeter is how many points a millimeter is (ISO 32000-1, 8.3.2.3: a
// point is 1/72 inch).
const PointsPerMillimeter = 72 / 25.4

// pdfDecimals is how finely coordinates are written, in points: 0.0004 mm.
const pdfDecimals = 3

// NewPDF starts a file without pages.
func NewPDF(title string) *PDF {
	p := &PDF{
		doc:   fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: fpdf.SizeType{Wd: 1, Ht: 1}}),
		fonts: readTypefaces(),
		has:   map[Face]bool{},
	}
	// A file tells no time: the same run gives the same bytes.
	never := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	p.doc.SetCreationDate(never)
	p.doc.SetModificationDate(never)
	p.doc.SetCatalogSort(true)
	p.doc.SetProducer("fullfree", false)
	p.doc.SetTitle(p.fonts.shown(Sans, title), true)
	p.doc.SetMargins(0, 0, 0)
	p.doc.SetAutoPageBreak(false, 0)
	return p
}

// Page begins a page of a size in points.
func (p *PDF) Page(size Place) {
	p.size = size
	p.doc.AddPageFormat("P", fpdf.SizeType{Wd: size.X, Ht: size.Y})
}

// Pages returns how many pages there are.
func (p *PDF) Pages() int { return p.doc.PageCount() }

// Finish writes the whole file to out.
func (p *PDF) Finish(out io.Writer) error {
	var buf bytes.Buffer
	err := p.doc.Output(&buf)
	if p.err != nil {
		err = p.err
	}
	if err != nil {
		return err
	}
	_, err = out.Write(buf.Bytes())
	return err
}

// canvas is a page with a scene's own measure on it: its zero and how many points
// a sheet unit is.
type canvas struct {
	*PDF
	zero  Place
	scale float64
}

// Draw draws a scene, its zero at a place of the page and a sheet unit so many
// points.
func (p *PDF) Draw(s *Scene, zero Place, scale float64) {
	c := canvas{p, zero, scale}
	for _, shapes := range s.Shapes {
		for i := range shapes {
			c.shape(&shapes[i])
		}
	}
	for _, t := range s.Texts {
		c.text(t)
	}
}

// DrawIn is Draw with nothing beyond a window of the scene.
func (p *PDF) DrawIn(s *Scene, w Window, zero Place, scale float64) {
	c := canvas{p, zero, scale}
	p.write("q", c.path(w.Corners(), true), "W n")
	p.Draw(s, zero, scale)
	p.write("Q")
}

func (p *PDF) write(words ...string) { p.doc.RawWriteStr(strings.Join(words, " ")) }

// digits writes a number in points, without negative zero and trailing zeros.
func (p *PDF) digits(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		if p.err == nil {
			p.err = fmt.Errorf("the picture has a coordinate that is no number (%v)", v)
		}
		v = 0
	}
	s := strconv.FormatFloat(v, 'f', pdfDecimals, 64)
	s = strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// on returns where a place of the scene lies in the file, whose y goes up.
func (c canvas) on(at Place) Place {
	return Place{c.zero.X + float64(at.X*c.scale), c.size.Y - c.zero.Y - float64(at.Y*c.scale)}
}

// place writes a place of the scene.
func (c canvas) place(at Place) string {
	on := c.on(at)
	return c.digits(on.X) + " " + c.digits(on.Y)
}

// path writes the lines through places.
func (c canvas) path(through []Place, closed bool) string {
	var b strings.Builder
	for i, at := range through {
		if b.WriteString(c.place(at)); i == 0 {
			b.WriteString(" m ")
		} else {
			b.WriteString(" l ")
		}
	}
	if closed {
		b.WriteString("h")
	}
	return strings.TrimSpace(b.String())
}

// quarterRound is how far, in radii, the two places between lie that make a curve
// the quarter of a circle: 4/3 tan(22.5 degrees), which puts its middle on it.
const quarterRound = 0.5522847498

// round writes a circle.
func (c canvas) round(at Place, radius float64) string {
	words := []string{c.place(at.Add(Place{radius, 0})), "m"}
	for quarter := range 4 {
		from := Place{radius, 0}
		for range quarter {
			from = from.Square()
		}
		to := from.Square()
		words = append(words, c.place(at.Add(from).Along(to, quarterRound)), c.place(at.Add(to).Along(from, quarterRound)), c.place(at.Add(to)), "c")
	}
	return strings.Join(append(words, "h"), " ")
}

// shape draws a shape with its pen.
func (c canvas) shape(sh *Shape) {
	if len(sh.Through) == 0 {
		return
	}
	path := c.path(sh.Through, sh.Closed)
	if sh.Radius > 0 {
		path = c.round(sh.Through[0], sh.Radius)
	}
	p := sh.Pen
	if p.Fill == HatchFill {
		c.hatch(sh, path)
		p.Fill = ""
	}
	ink := p.Ink
	if ink == "" {
		ink = "#000"
	}
	fill, filled := c.color(p.Fill, "rg")
	stroke, stroked := c.color(ink, "RG")
	stroked = stroked && p.Width > 0
	switch {
	case filled && stroked:
		c.write("q", fill, stroke, c.line(p), path, "B Q")
	case filled:
		c.write("q", fill, path, "f Q")
	case stroked:
		c.write("q", stroke, c.line(p), path, "S Q")
	}
}

// line writes the width, the dashes and the ends of a pen's line.
func (c canvas) line(p Pen) string {
	words := []string{c.digits(float64(p.Width * c.scale)), "w"}
	if scaled := p.Scaled(c.scale); scaled.Dash != "" {
		words = append(words, "["+scaled.Dash+"]", "0 d")
	}
	if p.Round {
		words = append(words, "1 J 1 j")
	}
	return strings.Join(words, " ")
}

// color writes a color as SVG has it, #rgb or #rrggbb, for an operator; false for
// none.
func (c canvas) color(says, operator string) (string, bool) {
	digits, ok := strings.CutPrefix(says, "#")
	if !ok {
		return "", false
	}
	if len(digits) == 3 {
		digits = strings.Join([]string{digits[:1], digits[:1], digits[1:2], digits[1:2], digits[2:], digits[2:]}, "")
	}
	const most = 255
	v, err := strconv.ParseUint(digits, 16, 24)
	if err != nil {
		return "", false
	}
	part := func(v uint64) string { return c.digits(float64(v&most) / most) }
	return part(v>>16) + " " + part(v>>8) + " " + part(v) + " " + operator, true
}

// The hatching of metal, in sheet units: as the pattern of SVG has it.
const (
	hatchPitch = 4.5
	hatchWidth = 0.7
)

// hatch fills a shape with hatching, whose lines lie alike all over the sheet.
func (c canvas) hatch(sh *Shape, path string) {
	room := sh.room()
	way := Polar(-45)
	side := way.Square()
	c.write("q", path, "W n 1 1 1 rg 0 0 0 RG", c.path(room.Corners(), true), "f", c.digits(float64(hatchWidth*c.scale)), "w")
	least, most := math.Inf(1), math.Inf(-1)
	for _, corner := range room.Corners() {
		least, most = math.Min(least, corner.Dot(side)), math.Max(most, corner.Dot(side))
	}
	middle := room.Low.Add(room.High).Scale(0.5).Dot(way)
	reach := room.Low.Distance(room.High) / 2
	for n := math.Ceil(least / hatchPitch); float64(n*hatchPitch) <= most; n++ {
		at := side.Scale(float64(n * hatchPitch))
		for _, line := range room.Lines([]Place{at.Along(way, middle-reach), at.Along(way, middle+reach)}) {
			c.write(c.path(line, false), "S")
		}
	}
	c.write("Q")
}

// text writes one line of text, whose anchor is reckoned from how wide it really
// is.
func (c canvas) text(t Text) {
	face := Sans
	if t.Bold {
		face = SansBold
	}
	if t.Face != "" {
		face = t.Face
	}
	says := c.fonts.shown(face, t.Says)
	if says == "" {
		return
	}
	size := float64(t.Size * c.scale)
	width := c.fonts.width(face, says, size)
	shift := 0.0
	switch t.Anchor {
	case AnchorMiddle:
		shift = -width / 2
	case AnchorEnd:
		shift = -width
	}
	if !c.has[face] {
		c.has[face] = true
		c.doc.AddUTF8FontFromBytes(face.family(), face.style(), face.data())
	}
	c.doc.SetFont(face.family(), face.style(), size)
	at := c.on(t.At)
	sin, cos := elementary.Sincos(-t.Angle * math.Pi / 180)
	turn := []string{"q 0 0 0 rg", c.matrix(cos), c.matrix(sin), c.matrix(-sin), c.matrix(cos), c.digits(at.X), c.digits(at.Y), "cm"}
	c.write(turn...)
	if t.Halo {
		// The white rim is drawn first, and is no text to whoever copies it.
		const rim = 2.0 // sheet units
		c.write("/Span <</ActualText ()>> BDC q 1 1 1 RG 1 j 1 Tr", c.digits(float64(rim*c.scale)), "w")
		c.doc.Text(shift, c.size.Y, says)
		c.write("Q EMC")
	}
	c.doc.Text(shift, c.size.Y, says)
	c.write("Q")
}

// matrix writes the sine or cosine of a turn.
func (c canvas) matrix(v float64) string {
	const decimals = 6 // a millionth of a radian is far below what is seen
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return "0"
	}
	return s
}
