package paper

import (
	"cmp"
	"slices"
)

// Gaps returns the heights at which a scene can be cut across with nothing cut in two,
// from the top down: the middle of every band that nothing lies in.
func (s *Scene) Gaps() []float64 {
	type span struct{ from, to float64 }
	var spans []span
	for _, shapes := range s.Shapes {
		for _, sh := range shapes {
			room := sh.room()
			spans = append(spans, span{room.Low.Y, room.High.Y})
		}
	}
	for _, t := range s.Texts {
		low, high := TextBox(t).Bounds()
		spans = append(spans, span{low.Y, high.Y})
	}
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var gaps []float64
	end := 0.0
	for i, sp := range spans {
		if i > 0 && sp.from > end {
			gaps = append(gaps, (end+sp.from)/2)
		}
		end = max(end, sp.to)
	}
	return gaps
}

// CutAt returns what of a scene lies above a height, and what lies below it moved up;
// each thing goes whole to where its middle is.
func (s *Scene) CutAt(y float64) (above, below *Scene) {
	above, below = &Scene{Width: s.Width, Height: y}, &Scene{Width: s.Width}
	for l, shapes := range s.Shapes {
		for _, sh := range shapes {
			room := sh.room()
			if (room.Low.Y+room.High.Y)/2 < y {
				above.Add(Layer(l), sh)
			} else {
				below.Add(Layer(l), sh)
			}
		}
	}
	for _, t := range s.Texts {
		low, high := TextBox(t).Bounds()
		if (low.Y+high.Y)/2 < y {
			above.Text(t)
		} else {
			below.Text(t)
		}
	}
	moved := &Scene{Width: s.Width, Height: s.Height - y}
	moved.Take(below, Place{0, -y})
	return above, moved
}
