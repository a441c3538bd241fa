package paper

import "math"

// Window is an upright rectangle of the sheet.
type Window struct{ Low, High Place }

// Holds reports whether a place lies in the window or on its rim.
func (w Window) Holds(p Place) bool {
	return p.X >= w.Low.X && p.X <= w.High.X && p.Y >= w.Low.Y && p.Y <= w.High.Y
}

// noWindow holds nothing: windows that are to hold something grow from it.
func noWindow() Window {
	return Window{Place{math.Inf(1), math.Inf(1)}, Place{math.Inf(-1), math.Inf(-1)}}
}

// Corners returns the corners of a window, one after the other round it.
func (w Window) Corners() []Place {
	return []Place{w.Low, {w.High.X, w.Low.Y}, w.High, {w.Low.X, w.High.Y}}
}

// Grown returns a window larger by k on every side.
func (w Window) Grown(k float64) Window {
	return Window{w.Low.Sub(Place{k, k}), w.High.Add(Place{k, k})}
}

// holding returns a window large enough to hold p.
func (w Window) holding(p Place) Window {
	return Window{
		Place{math.Min(w.Low.X, p.X), math.Min(w.Low.Y, p.Y)},
		Place{math.Max(w.High.X, p.X), math.Max(w.High.Y, p.Y)},
	}
}

// Meets reports whether two windows share any room.
func (w Window) Meets(o Window) bool {
	return w.Low.X < o.High.X && o.Low.X < w.High.X && w.Low.Y < o.High.Y && o.Low.Y < w.High.Y
}

// sides calls do for each side: depth tells how far inside it a place lies.
func (w Window) sides(do func(depth func(Place) float64)) {
	do(func(p Place) float64 { return p.X - w.Low.X })
	do(func(p Place) float64 { return w.High.X - p.X })
	do(func(p Place) float64 { return p.Y - w.Low.Y })
	do(func(p Place) float64 { return w.High.Y - p.Y })
}

// cut returns what of the line from p to q lies in the window.
func (w Window) cut(p, q Place) (from, to Place, ok bool) {
	from, to, ok = p, q, true
	w.sides(func(depth func(Place) float64) {
		a, b := depth(from), depth(to)
		switch {
		case !ok:
		case a < 0 && b < 0:
			ok = false
		case a < 0:
			from = from.Add(to.Sub(from).Scale(a / (a - b)))
		case b < 0:
			to = from.Add(to.Sub(from).Scale(a / (a - b)))
		}
	})
	return from, to, ok
}

// Lines returns the stretches of a line through places that lie in the window.
func (w Window) Lines(through []Place) [][]Place {
	var list [][]Place
	for i := 1; i < len(through); i++ {
		from, to, ok := w.cut(through[i-1], through[i])
		if !ok {
			continue
		}
		if last := len(list) - 1; last >= 0 && list[last][len(list[last])-1] == from {
			list[last] = append(list[last], to)
			continue
		}
		list = append(list, []Place{from, to})
	}
	return list
}

// Polygon returns what of a polygon lies in the window: cut at one side after
// the other (Sutherland and Hodgman's way, from memory).
func (w Window) Polygon(corners []Place) []Place {
	w.sides(func(depth func(Place) float64) {
		var kept []Place
		for i, q := range corners {
			p := corners[(i+len(corners)-1)%len(corners)]
			a, b := depth(p), depth(q)
			if a < 0 != (b < 0) {
				kept = append(kept, p.Add(q.Sub(p).Scale(a/(a-b))))
			}
			if b >= 0 {
				kept = append(kept, q)
			}
		}
		corners = kept
	})
	return corners
}
