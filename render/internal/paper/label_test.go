package paper

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func randomBox(r *rand.Rand) Box {
	return Box{
		Middle: Place{r.Float64() * 40, r.Float64() * 40},
		Way:    Polar(r.Float64() * 360),
		Long:   1 + r.Float64()*12,
		High:   1 + r.Float64()*5,
	}
}

// inside reports whether a place lies in a box, from the box's own sides.
func inside(b Box, p Place) bool {
	d := p.Sub(b.Middle)
	return math.Abs(d.Dot(b.Way)) < b.Long && math.Abs(d.Dot(b.Way.Square())) < b.High
}

// Whether two boxes overlap, against a fine net of places tried in both.
func TestBoxOverlapsAgainstPlaces(t *testing.T) {
	const seed, cases, steps = 1, 400, 60
	r := rand.New(rand.NewPCG(seed, 0))
	seen := map[bool]int{}
	for range cases {
		a, b := randomBox(r), randomBox(r)
		shared := false
		for i := -steps; i <= steps && !shared; i++ {
			for k := -steps; k <= steps && !shared; k++ {
				p := a.Middle.Along(a.Way, a.Long*float64(i)/steps).Along(a.Way.Square(), a.High*float64(k)/steps)
				shared = inside(a, p) && inside(b, p)
			}
		}
		assert.Equal(t, a.Overlaps(b), b.Overlaps(a))
		seen[shared]++
		if shared {
			assert.True(t, a.Overlaps(b), "seed %d: %v %v", seed, a, b)
		} else {
			assert.False(t, a.Grown(-0.3).Overlaps(b.Grown(-0.3)), "seed %d: %v %v", seed, a, b)
		}
		low, high := a.Bounds()
		assert.True(t, inside(Box{low.Add(high).Scale(0.5), Place{1, 0}, (high.X-low.X)/2 + 1e-9, (high.Y-low.Y)/2 + 1e-9}, a.Middle.Along(a.Way, a.Long)))
	}
	assert.Greater(t, seen[true], 50)
	assert.Greater(t, seen[false], 50)
}

// How much of a line lies in a box, against places tried along it.
func TestBoxCrossingAgainstPlaces(t *testing.T) {
	const seed, steps = 2, 4000
	r := rand.New(rand.NewPCG(seed, 0))
	for range 200 {
		b := randomBox(r)
		p, q := Place{r.Float64() * 40, r.Float64() * 40}, Place{r.Float64() * 40, r.Float64() * 40}
		count := 0
		for i := range steps {
			if inside(b, p.Add(q.Sub(p).Scale((float64(i)+0.5)/steps))) {
				count++
			}
		}
		want := float64(count) / steps * p.Distance(q)
		assert.InDelta(t, want, b.Crossing(p, q), pointCrossing+0.05, "seed %d", seed)
	}
	b := SquareBox(Place{0, 0}, 1)
	assert.Positive(t, b.Crossing(Place{0.5, 0}, Place{0.5, 0}), "a line seen end on is still in the way")
	assert.Zero(t, b.Crossing(Place{2, 0}, Place{2, 0}))
}

// The box of turned text is the box of the text, turned about its place.
func TestTextBoxTurns(t *testing.T) {
	flat := TextBox(Text{Says: "184.0 mm", Size: 13})
	up := TextBox(Text{Says: "184.0 mm", Size: 13, Angle: -90})
	assert.InDelta(t, flat.Middle.X, -up.Middle.Y, 1e-9)
	assert.InDelta(t, flat.Middle.Y, up.Middle.X, 1e-9)
	assert.Equal(t, flat.Long, up.Long)
	low, high := TextBox(Centered(Text{Says: "B", Size: 16, Angle: 30}, Place{5, 7})).Bounds()
	assert.InDelta(t, 5, (low.X+high.X)/2, 1e-9)
	assert.InDelta(t, 7, (low.Y+high.Y)/2, 1e-9)
}

// Far more labels than there is room for: none lies on another, and those
// that found no room are told.
func TestPlacerNeverOverlaps(t *testing.T) {
	s := &Scene{}
	p := NewPlacer(s, Place{0, 0}, Place{200, 150})
	put := 0
	for i := range 300 {
		tx := Text{Says: fmt.Sprintf("label %d", i), Size: 13}
		at := func(middle Place) Label { return TextLabel(Centered(tx, middle), 0) }
		if p.PutAround(Place{float64(i * 7 % 200), float64(i * 13 % 150)}, 5, TextWidth(tx.Says, 13, false), at) {
			put++
		}
	}
	assert.Equal(t, put, len(s.Texts))
	assert.Greater(t, put, 15)
	assert.Less(t, put, 60)
	for i, a := range s.Texts {
		low, high := TextBox(a).Bounds()
		assert.True(t, low.X >= 0 && low.Y >= 0 && high.X <= 200 && high.Y <= 150)
		for _, b := range s.Texts[:i] {
			assert.False(t, TextBox(a).Overlaps(TextBox(b)))
		}
	}
}

// A label keeps off a thick line where there is room beside it.
func TestPlacerKeepsOffLines(t *testing.T) {
	s := &Scene{}
	p := NewPlacer(s, Place{0, 0}, Place{200, 200})
	p.Avoid(PenThick, Place{0, 100}, Place{200, 100})
	tx := Text{Says: "rod", Size: 13}
	var ways []Label
	for _, y := range []float64{100, 101, 60, 99} {
		ways = append(ways, TextLabel(Centered(tx, Place{100, y}), 0))
	}
	assert.True(t, p.Put(ways...))
	assert.Equal(t, ways[2].Texts[0].At, s.Texts[0].At)
}
