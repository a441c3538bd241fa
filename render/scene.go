package render

import (
	"io"
	"math"

	"fullfree/linkage/elementary"
)

// place is a place on the sheet, or a way across it: x to the right, y down,
// in sheet units.
//
// As in linkage, every product is converted to float64 before it is added, so
// that the same picture has the same bytes on every processor.
type place struct{ x, y float64 }

func (a place) add(b place) place        { return place{a.x + b.x, a.y + b.y} }
func (a place) sub(b place) place        { return place{a.x - b.x, a.y - b.y} }
func (a place) scale(k float64) place    { return place{float64(a.x * k), float64(a.y * k)} }
func (a place) dot(b place) float64      { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a place) norm() float64            { return math.Sqrt(a.dot(a)) }
func (a place) square() place            { return place{-a.y, a.x} } // a quarter turn
func (a place) to(b place) place         { return b.sub(a).unit() }
func (a place) distance(b place) float64 { return b.sub(a).norm() }

// along returns a moved by k in the direction way.
func (a place) along(way place, k float64) place { return a.add(way.scale(k)) }

// unit returns a at length 1; the zero way stays zero.
func (a place) unit() place {
	n := a.norm()
	if n == 0 {
		return a
	}
	return place{a.x / n, a.y / n}
}

// polar returns the way at an angle in degrees, anticlockwise from the right
// as seen on the sheet.
func polar(degrees float64) place {
	sin, cos := elementary.Sincos(degrees * math.Pi / 180)
	return place{cos, -sin}
}

// pen is a kind of line. Line types as in ISO 128-2 (from memory); lengths of
// dashes are the drawing's own, for a sheet read on a phone.
type pen struct {
	width float64
	dash  string // as in SVG; empty: continuous
	round bool   // round ends and corners
	ink   string // of the line; empty: black
	fill  string // empty: none
	// weight is how much a label dislikes lying on it, for each unit of its
	// length.
	weight float64
}

const (
	endDash     = "17 3 4.5 3 4.5 3" // long dash, two short dashes: extreme positions
	betweenDash = "6 2.5"            // dashes: positions between
	centerDash  = "14 2.5 3 2.5"     // chain: centers and guides
	beyondDash  = "1.5 3"            // dots: beyond the travel
	thickWidth  = 1.9
	thinWidth   = 0.9
	fineWidth   = 0.7
)

var (
	penThick   = pen{width: thickWidth, round: true, weight: 3}
	penRod     = pen{width: 2.6, round: true, weight: 3}
	penFace    = pen{width: 4, weight: 4}
	penHole    = pen{width: 1.4, fill: whiteFill, weight: 3}
	penPivot   = pen{width: thickWidth, fill: whiteFill, weight: 3}
	penSolid   = pen{width: fineWidth, fill: "#000", round: true, weight: 3}
	penThin    = pen{width: thinWidth, round: true, weight: 1.6}
	penEnd     = pen{width: thinWidth, dash: endDash, weight: 1.2}
	penBetween = pen{width: thinWidth, dash: betweenDash, weight: 1.2}
	penCenter  = pen{width: fineWidth, dash: centerDash, weight: 0.3}
	penBeyond  = pen{width: thinWidth, dash: beyondDash, weight: 0.4}
	penLeader  = pen{width: fineWidth, weight: 1.2}
	penBalloon = pen{width: thinWidth, fill: whiteFill}
	penFrame   = pen{width: 1.4}
	penRule    = pen{width: fineWidth}
)

// White is the paper; hatchFill stands for the hatching, whose id differs
// from picture to picture.
const (
	whiteFill = "#fff"
	hatchFill = "hatching"
)

// metalPens returns two pens that, one after the other along the middle of a
// piece of metal, show its outline and fill its inside.
func metalPens(width float64, outline pen, inside string) (edge, filling pen) {
	edge = outline
	edge.width, edge.round = width+outline.width, true
	return edge, pen{width: math.Max(width-outline.width, 0), round: true, ink: inside}
}

// layer is the order in which shapes lie on each other.
type layer int

const (
	layerFixed   layer = iota // the airframe
	layerEnds                 // metal and parts away from neutral
	layerCenters              // centers, guides, arcs of travel
	layerNeutral              // parts and rods at neutral
	layerHoles                // holes and pivots
	layerMarks                // flags, faces that touch, leaders, balloons, frames
	layers
)

// shape is a line through places, or a circle about the first of them.
type shape struct {
	pen     pen
	through []place
	closed  bool
	radius  float64  // more than 0: a circle
	attrs   []string // besides its pen's
	mounts  []mount  // of what moves: what through follows
}

// line returns the places that a shape goes through, round to the first where
// it is closed.
func (sh shape) line() []place {
	const sides = 12 // of the polygon that stands for a circle
	switch {
	case sh.radius > 0:
		var round []place
		for i := 0; i <= sides; i++ {
			round = append(round, sh.through[0].along(polar(float64(i)*360/sides), sh.radius))
		}
		return round
	case sh.closed:
		return append(sh.through[:len(sh.through):len(sh.through)], sh.through[0])
	}
	return sh.through
}

// room returns the upright rectangle about a shape.
func (sh shape) room() window {
	reach := place{sh.radius + sh.pen.width/2, sh.radius + sh.pen.width/2}
	r := noWindow()
	for _, p := range sh.through {
		r = r.holding(p.sub(reach)).holding(p.add(reach))
	}
	return r
}

// The anchors of text: which end of it lies at its place.
const (
	anchorStart  = "start"
	anchorMiddle = "middle"
	anchorEnd    = "end"
)

// text is one line of text.
type text struct {
	says   string
	at     place // on its baseline
	anchor string
	size   float64
	bold   bool
	angle  float64 // degrees, clockwise on the sheet
	halo   bool    // with a white rim, for text among lines
}

// scene is everything on a sheet, before it is written.
type scene struct {
	width, height float64
	shapes        [layers][]shape
	texts         []text
	room          []place // that it takes besides
}

func (s *scene) add(l layer, shapes ...shape) { s.shapes[l] = append(s.shapes[l], shapes...) }

func (s *scene) line(l layer, p pen, through ...place) {
	s.add(l, shape{pen: p, through: through})
}

func (s *scene) polygon(l layer, p pen, through ...place) {
	s.add(l, shape{pen: p, through: through, closed: true})
}

func (s *scene) circle(l layer, p pen, at place, radius float64) {
	s.add(l, shape{pen: p, through: []place{at}, radius: radius})
}

func (s *scene) write(t text) { s.texts = append(s.texts, t) }

// extent returns the rectangle that everything on the scene fills.
func (s *scene) extent() (low, high place) {
	r := noWindow()
	for _, shapes := range s.shapes {
		for _, sh := range shapes {
			room := sh.room()
			r = r.holding(room.low).holding(room.high)
		}
	}
	for _, t := range s.texts {
		low, high := textBox(t).bounds()
		r = r.holding(low).holding(high)
	}
	for _, p := range s.room {
		r = r.holding(p)
	}
	if r.low.x > r.high.x {
		return place{}, place{}
	}
	return r.low, r.high
}

// take adds everything on another scene, moved.
func (s *scene) take(other *scene, by place) {
	for l, shapes := range other.shapes {
		for _, sh := range shapes {
			moved := make([]place, len(sh.through))
			for i, p := range sh.through {
				moved[i] = p.add(by)
			}
			sh.through = moved
			s.add(layer(l), sh)
		}
	}
	for _, t := range other.texts {
		t.at = t.at.add(by)
		s.write(t)
	}
}

// put puts a label on the scene.
func (s *scene) put(l label) {
	s.texts = append(s.texts, l.texts...)
	if len(l.leader) == 2 {
		s.line(layerMarks, penLeader, l.leader...)
	}
	s.add(layerMarks, l.shapes...)
}

// svg writes the scene as a picture; see newSVG for id, title and desc.
func (s *scene) svg(out io.Writer, id, title, desc string) error {
	w := newSVG(s.width, s.height, id, title, desc)
	s.putOn(w, id)
	return w.finish(out)
}

// putOn puts the scene on a picture that was begun with the same id.
func (s *scene) putOn(w *svgWriter, id string) {
	hatch := id + "-hatching"
	w.hatching(hatch)
	w.rect(0, 0, s.width, s.height, attr("fill", "#fff"))
	s.putShapes(w, hatch)
	s.putTexts(w)
}

// putShapes puts the shapes on a picture, one layer over the other.
func (s *scene) putShapes(w *svgWriter, hatch string) {
	for _, shapes := range s.shapes {
		for i, sh := range shapes {
			if i == 0 || sh.pen != shapes[i-1].pen {
				w.group(penAttrs(sh.pen, w, hatch)...)
			}
			if sh.radius > 0 {
				w.circle(sh.through[0], sh.radius, sh.attrs...)
			} else {
				w.path(sh.through, sh.closed, sh.attrs...)
			}
			if i == len(shapes)-1 || sh.pen != shapes[i+1].pen {
				w.end()
			}
		}
	}
}

// putTexts puts the texts on a picture.
func (s *scene) putTexts(w *svgWriter) {
	w.group(attr("fill", "#000"))
	for _, t := range s.texts {
		w.text(t)
	}
	w.end()
}

// penAttrs returns a pen as attributes.
func penAttrs(p pen, w *svgWriter, hatch string) []string {
	paint := func(color, left string) string {
		switch color {
		case "":
			return left
		case hatchFill:
			return "url(#" + hatch + ")"
		}
		return color
	}
	attrs := []string{attr("fill", paint(p.fill, "none")), attr("stroke", paint(p.ink, "#000")), attr("stroke-width", w.digits(p.width))}
	if p.dash != "" {
		attrs = append(attrs, attr("stroke-dasharray", p.dash))
	}
	if p.round {
		attrs = append(attrs, attr("stroke-linecap", "round"), attr("stroke-linejoin", "round"))
	}
	return attrs
}
