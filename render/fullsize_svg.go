package render

import (
	"strconv"
	"strings"
)

// in returns what of the scene may show in a window.
func (s *scene) in(w window) *scene {
	shown := &scene{}
	for l, shapes := range s.shapes {
		for _, sh := range shapes {
			if sh.room().meets(w) {
				shown.add(layer(l), sh)
			}
		}
	}
	for _, t := range s.texts {
		if textBox(t).within(w) {
			shown.write(t)
		}
	}
	return shown
}

// scaled returns the scene in another unit.
func (s *scene) scaled(k float64) *scene {
	other := &scene{width: float64(s.width * k), height: float64(s.height * k)}
	for l, shapes := range s.shapes {
		for _, sh := range shapes {
			through := make([]place, len(sh.through))
			for i, p := range sh.through {
				through[i] = p.scale(k)
			}
			sh.through, sh.radius, sh.pen = through, float64(sh.radius*k), sh.pen.scaled(k)
			other.add(layer(l), sh)
		}
	}
	for _, t := range s.texts {
		t.at, t.size = t.at.scale(k), float64(t.size*k)
		other.write(t)
	}
	return other
}

// scaled returns the pen in another unit.
func (p pen) scaled(k float64) pen {
	p.width = float64(p.width * k)
	var dashes []string
	for _, dash := range strings.Fields(p.dash) {
		if v, err := strconv.ParseFloat(dash, 64); err == nil {
			dashes = append(dashes, strconv.FormatFloat(float64(v*k), 'f', -1, 64))
		}
	}
	p.dash = strings.Join(dashes, " ")
	return p
}

// putAll puts lines and text on a picture; nothing in them is hatched.
func (s *scene) putAll(w *svgWriter) {
	s.putShapes(w, "")
	s.putTexts(w)
}

// clip defines a frame beyond which a group that names it isn't drawn.
func (w *svgWriter) clip(id string, low, high place) {
	w.svg.Def()
	w.svg.ClipPath(attr("id", id))
	w.rect(low.x, low.y, high.x-low.x, high.y-low.y)
	w.svg.ClipEnd()
	w.svg.DefEnd()
}
