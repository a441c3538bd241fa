package render

import "math"

// window is an upright rectangle of the sheet.
type window struct{ low, high place }

func (w window) holds(p place) bool {
	return p.x >= w.low.x && p.x <= w.high.x && p.y >= w.low.y && p.y <= w.high.y
}

// noWindow holds nothing: windows that are to hold something grow from it.
func noWindow() window {
	return window{place{math.Inf(1), math.Inf(1)}, place{math.Inf(-1), math.Inf(-1)}}
}

// corners returns the corners of a window, one after the other round it.
func (w window) corners() []place {
	return []place{w.low, {w.high.x, w.low.y}, w.high, {w.low.x, w.high.y}}
}

// grown returns a window larger by k on every side.
func (w window) grown(k float64) window {
	return window{w.low.sub(place{k, k}), w.high.add(place{k, k})}
}

// holding returns a window large enough to hold p.
func (w window) holding(p place) window {
	return window{
		place{math.Min(w.low.x, p.x), math.Min(w.low.y, p.y)},
		place{math.Max(w.high.x, p.x), math.Max(w.high.y, p.y)},
	}
}

// meets reports whether two windows share any room.
func (w window) meets(o window) bool {
	return w.low.x < o.high.x && o.low.x < w.high.x && w.low.y < o.high.y && o.low.y < w.high.y
}

// sides calls do for each side: depth tells how far inside it a place lies.
func (w window) sides(do func(depth func(place) float64)) {
	do(func(p place) float64 { return p.x - w.low.x })
	do(func(p place) float64 { return w.high.x - p.x })
	do(func(p place) float64 { return p.y - w.low.y })
	do(func(p place) float64 { return w.high.y - p.y })
}

// cut returns what of the line from p to q lies in the window.
func (w window) cut(p, q place) (from, to place, ok bool) {
	from, to, ok = p, q, true
	w.sides(func(depth func(place) float64) {
		a, b := depth(from), depth(to)
		switch {
		case !ok:
		case a < 0 && b < 0:
			ok = false
		case a < 0:
			from = from.add(to.sub(from).scale(a / (a - b)))
		case b < 0:
			to = from.add(to.sub(from).scale(a / (a - b)))
		}
	})
	return from, to, ok
}

// lines returns the stretches of a line through places that lie in the window.
func (w window) lines(through []place) [][]place {
	var list [][]place
	for i := 1; i < len(through); i++ {
		from, to, ok := w.cut(through[i-1], through[i])
		if !ok {
			continue
		}
		if last := len(list) - 1; last >= 0 && list[last][len(list[last])-1] == from {
			list[last] = append(list[last], to)
			continue
		}
		list = append(list, []place{from, to})
	}
	return list
}

// polygon returns what of a polygon lies in the window: cut at one side after
// the other (Sutherland and Hodgman's way, from memory).
func (w window) polygon(corners []place) []place {
	w.sides(func(depth func(place) float64) {
		var kept []place
		for i, q := range corners {
			p := corners[(i+len(corners)-1)%len(corners)]
			a, b := depth(p), depth(q)
			if a < 0 != (b < 0) {
				kept = append(kept, p.add(q.sub(p).scale(a/(a-b))))
			}
			if b >= 0 {
				kept = append(kept, q)
			}
		}
		corners = kept
	})
	return corners
}
