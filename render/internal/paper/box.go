package paper

import "math"

// Box is the room that a label takes: a rectangle, turned with its text.
type Box struct {
	Middle Place
	Way    Place // along the text, length 1
	Long   float64
	High   float64 // half sizes
}

// labelGap keeps labels apart: so much of the sheet stays free between two.
const labelGap = 1.5

// TextBox returns the room of a line of text, on the wide side.
func TextBox(t Text) Box {
	width := TextWidth(t.Says, t.Size, t.Bold)
	shift := width / 2
	switch t.Anchor {
	case AnchorMiddle:
		shift = 0
	case AnchorEnd:
		shift = -width / 2
	}
	way := Polar(-t.Angle)
	rise := float64(float64((TextAscent-TextDescent)/2) * t.Size)
	return Box{
		Middle: t.At.Along(way, shift).Along(way.Square(), -rise),
		Way:    way,
		Long:   width / 2,
		High:   float64(float64((TextAscent+TextDescent)/2) * t.Size),
	}
}

// SquareBox returns the room of something as high as wide.
func SquareBox(middle Place, half float64) Box {
	return Box{Middle: middle, Way: Place{1, 0}, Long: half, High: half}
}

// Grown returns b larger by k on every side.
func (b Box) Grown(k float64) Box {
	b.Long, b.High = b.Long+k, b.High+k
	return b
}

// Bounds returns the upright rectangle about b.
func (b Box) Bounds() (low, high Place) {
	x := float64(math.Abs(b.Way.X)*b.Long) + float64(math.Abs(b.Way.Y)*b.High)
	y := float64(math.Abs(b.Way.Y)*b.Long) + float64(math.Abs(b.Way.X)*b.High)
	return Place{b.Middle.X - x, b.Middle.Y - y}, Place{b.Middle.X + x, b.Middle.Y + y}
}

// Overlaps reports whether two boxes share any room (separating axes: two
// rectangles are apart if they are apart along a side of one of them).
func (b Box) Overlaps(c Box) bool {
	apart := func(axis Place) bool {
		reach := func(d Box) float64 {
			return float64(math.Abs(d.Way.Dot(axis))*d.Long) + float64(math.Abs(d.Way.Square().Dot(axis))*d.High)
		}
		return math.Abs(c.Middle.Sub(b.Middle).Dot(axis)) >= reach(b)+reach(c)
	}
	return !apart(b.Way) && !apart(b.Way.Square()) && !apart(c.Way) && !apart(c.Way.Square())
}

// Crossing returns how much of the line from p to q lies in b.
func (b Box) Crossing(p, q Place) float64 {
	from, to := 0.0, 1.0
	start, run := p.Sub(b.Middle), q.Sub(p)
	axis, half := b.Way, b.Long
	for range 2 {
		s, r := start.Dot(axis), run.Dot(axis)
		switch {
		case r != 0:
			in, out := (-half-s)/r, (half-s)/r
			if in > out {
				in, out = out, in
			}
			from, to = max(from, in), min(to, out)
			if from >= to {
				return 0
			}
		case math.Abs(s) >= half:
			return 0
		}
		axis, half = b.Way.Square(), b.High
	}
	return max((to-from)*p.Distance(q), pointCrossing)
}

// pointCrossing is how long, in sheet units, a line seen end on counts as.
const pointCrossing = 0.1

// Within reports whether some of a box may lie in a window.
func (b Box) Within(w Window) bool {
	low, high := b.Bounds()
	return w.Meets(Window{low, high})
}

// Inside reports whether all of a box lies in a window.
func (b Box) Inside(w Window) bool {
	low, high := b.Bounds()
	return w.Holds(low) && w.Holds(high)
}

// Centered returns t with the middle of its box at a place.
func Centered(t Text, middle Place) Text {
	t.Anchor = AnchorMiddle
	drop := float64(float64((TextAscent-TextDescent)/2) * t.Size)
	t.At = middle.Along(Polar(-t.Angle).Square(), drop)
	return t
}

// Beside returns where the middle of a text must lie for it to stand clear, by
// gap, of a line through a place square to way.
func Beside(t Text, at, way Place, gap float64) Place {
	b := TextBox(t)
	reach := float64(math.Abs(way.Dot(b.Way))*b.Long) + float64(math.Abs(way.Dot(b.Way.Square()))*b.High)
	return at.Along(way, gap+reach)
}
