// Package paper is what every picture is drawn on: a scene of lines and texts on a
// sheet, the pens, how wide text may come out, the placing of labels where they
// cover nothing, and the one way to SVG. Everything is in sheet units, x to the
// right and y down. It knows nothing of what is drawn.
package paper

import (
	"io"
	"math"

	"fullfree/linkage"
)

// Layer is the order in which shapes lie on each other.
type Layer int

const (
	LayerFixed   Layer = iota // the airframe
	LayerEnds                 // metal and parts away from neutral
	LayerCenters              // centers, guides, arcs of travel
	LayerNeutral              // parts and rods at neutral
	LayerHoles                // holes and pivots
	LayerMarks                // flags, faces that touch, leaders, balloons, frames
	layers
)

// Shape is a line through places, or a circle about the first of them.
type Shape struct {
	Pen     Pen
	Through []Place
	Closed  bool
	Radius  float64  // more than 0: a circle
	Attrs   []string // besides its pen's
	Mounts  []Mount  // of what moves: the places that Through follows
}

// Line returns the places that a shape goes through, round to the first where
// it is closed.
func (sh Shape) Line() []Place {
	const sides = 12 // of the polygon that stands for a circle
	switch {
	case sh.Radius > 0:
		var round []Place
		for i := 0; i <= sides; i++ {
			round = append(round, sh.Through[0].Along(Polar(float64(i)*360/sides), sh.Radius))
		}
		return round
	case sh.Closed:
		return append(sh.Through[:len(sh.Through):len(sh.Through)], sh.Through[0])
	}
	return sh.Through
}

// room returns the upright rectangle about a shape.
func (sh Shape) room() Window {
	reach := Place{sh.Radius + sh.Pen.Width/2, sh.Radius + sh.Pen.Width/2}
	r := noWindow()
	for _, p := range sh.Through {
		r = r.holding(p.Sub(reach)).holding(p.Add(reach))
	}
	return r
}

// The anchors of text: which end of it lies at its place.
const (
	anchorStart  = "start"
	AnchorMiddle = "middle"
	AnchorEnd    = "end"
)

// Text is one line of text.
type Text struct {
	Says   string
	At     Place // on its baseline
	Anchor string
	Size   float64
	Bold   bool
	Angle  float64 // degrees, clockwise on the sheet
	Halo   bool    // with a white rim, for text among lines
	Face   Face    // on paper; empty: Sans, or SansBold where it is bold
}

// Scene is everything on a sheet, before it is written.
type Scene struct {
	Width, Height float64
	Shapes        [layers][]Shape
	Texts         []Text
	Room          []Place // that it takes besides
}

// Add puts shapes on a layer.
func (s *Scene) Add(l Layer, shapes ...Shape) { s.Shapes[l] = append(s.Shapes[l], shapes...) }

// Line draws a line through places.
func (s *Scene) Line(l Layer, p Pen, through ...Place) {
	s.Add(l, Shape{Pen: p, Through: through})
}

// Polygon draws a line through corners, back to the first.
func (s *Scene) Polygon(l Layer, p Pen, through ...Place) {
	s.Add(l, Shape{Pen: p, Through: through, Closed: true})
}

// Circle draws a circle.
func (s *Scene) Circle(l Layer, p Pen, at Place, radius float64) {
	s.Add(l, Shape{Pen: p, Through: []Place{at}, Radius: radius})
}

// Text puts a line of text on the scene, over all shapes.
func (s *Scene) Text(t Text) { s.Texts = append(s.Texts, t) }

// Extent returns the rectangle that everything on the scene fills.
func (s *Scene) Extent() (low, high Place) {
	r := noWindow()
	for _, shapes := range s.Shapes {
		for _, sh := range shapes {
			room := sh.room()
			r = r.holding(room.Low).holding(room.High)
		}
	}
	for _, t := range s.Texts {
		low, high := TextBox(t).Bounds()
		r = r.holding(low).holding(high)
	}
	for _, p := range s.Room {
		r = r.holding(p)
	}
	if r.Low.X > r.High.X {
		return Place{}, Place{}
	}
	return r.Low, r.High
}

// Take adds everything on another scene, moved.
func (s *Scene) Take(other *Scene, by Place) {
	for l, shapes := range other.Shapes {
		for _, sh := range shapes {
			moved := make([]Place, len(sh.Through))
			for i, p := range sh.Through {
				moved[i] = p.Add(by)
			}
			sh.Through = moved
			s.Add(Layer(l), sh)
		}
	}
	for _, t := range other.Texts {
		t.At = t.At.Add(by)
		s.Text(t)
	}
}

// Put puts a label on the scene.
func (s *Scene) Put(l Label) {
	s.Texts = append(s.Texts, l.Texts...)
	if len(l.Leader) == 2 {
		s.Line(LayerMarks, PenLeader, l.Leader...)
	}
	s.Add(LayerMarks, l.Shapes...)
}

// WriteSVG writes the scene as a picture; see NewSVG for id, title and desc.
func (s *Scene) WriteSVG(out io.Writer, id, title, desc string) error {
	w := NewSVG(s.Width, s.Height, id, title, desc)
	s.PutOn(w, id)
	return w.Finish(out)
}

// PutOn puts the scene on a picture that was begun with the same id.
func (s *Scene) PutOn(w *SVG, id string) {
	hatch := id + "-hatching"
	w.Hatching(hatch)
	w.Rect(0, 0, s.Width, s.Height, Attr("fill", "#fff"))
	s.PutShapes(w, hatch)
	s.PutTexts(w)
}

// PutShapes puts the shapes on a picture, one layer over the other.
func (s *Scene) PutShapes(w *SVG, hatch string) {
	for _, shapes := range s.Shapes {
		for i, sh := range shapes {
			if i == 0 || sh.Pen != shapes[i-1].Pen {
				w.Group(PenAttrs(sh.Pen, w, hatch)...)
			}
			if sh.Radius > 0 {
				w.circle(sh.Through[0], sh.Radius, sh.Attrs...)
			} else {
				w.Path(sh.Through, sh.Closed, sh.Attrs...)
			}
			if i == len(shapes)-1 || sh.Pen != shapes[i+1].Pen {
				w.End()
			}
		}
	}
}

// PutTexts puts the texts on a picture.
func (s *Scene) PutTexts(w *SVG) {
	w.Group(Attr("fill", "#000"))
	for _, t := range s.Texts {
		w.text(t)
	}
	w.End()
}

// In returns what of the scene may show in a window.
func (s *Scene) In(w Window) *Scene {
	shown := &Scene{}
	for l, shapes := range s.Shapes {
		for _, sh := range shapes {
			if sh.room().Meets(w) {
				shown.Add(Layer(l), sh)
			}
		}
	}
	for _, t := range s.Texts {
		if TextBox(t).Within(w) {
			shown.Text(t)
		}
	}
	return shown
}

// Scaled returns the scene in another unit.
func (s *Scene) Scaled(k float64) *Scene {
	other := &Scene{Width: float64(s.Width * k), Height: float64(s.Height * k)}
	for l, shapes := range s.Shapes {
		for _, sh := range shapes {
			through := make([]Place, len(sh.Through))
			for i, p := range sh.Through {
				through[i] = p.Scale(k)
			}
			sh.Through, sh.Radius, sh.Pen = through, float64(sh.Radius*k), sh.Pen.Scaled(k)
			other.Add(Layer(l), sh)
		}
	}
	for _, t := range s.Texts {
		t.At, t.Size = t.At.Scale(k), float64(t.Size*k)
		other.Text(t)
	}
	return other
}

// PutAll puts lines and text on a picture; nothing in them is hatched.
func (s *Scene) PutAll(w *SVG) {
	s.PutShapes(w, "")
	s.PutTexts(w)
}

// Crosses reports whether a line of a shape lies in a window.
func (sh Shape) Crosses(w Window) bool {
	half := sh.Pen.Width / 2
	w = w.Grown(half)
	if sh.Radius > 0 {
		at := sh.Through[0]
		nearest := Place{math.Max(w.Low.X, math.Min(at.X, w.High.X)), math.Max(w.Low.Y, math.Min(at.Y, w.High.Y))}
		farthest := Place{math.Max(math.Abs(w.Low.X-at.X), math.Abs(w.High.X-at.X)), math.Max(math.Abs(w.Low.Y-at.Y), math.Abs(w.High.Y-at.Y))}
		return nearest.Distance(at) <= sh.Radius && farthest.Norm() >= sh.Radius
	}
	through := sh.Line()
	for i := 1; i < len(through); i++ {
		if _, _, ok := w.cut(through[i-1], through[i]); ok {
			return true
		}
	}
	return false
}

// Mount is a place of a body, as drawn: it moves as the body does.
type Mount struct {
	Body int // which; less than 0: one that doesn't move
	At   linkage.Vec
}
