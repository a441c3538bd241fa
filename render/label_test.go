package render

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func randomBox(r *rand.Rand) box {
	return box{
		middle: place{r.Float64() * 40, r.Float64() * 40},
		way:    polar(r.Float64() * 360),
		long:   1 + r.Float64()*12,
		high:   1 + r.Float64()*5,
	}
}

// inside reports whether a place lies in a box, from the box's own sides.
func inside(b box, p place) bool {
	d := p.sub(b.middle)
	return math.Abs(d.dot(b.way)) < b.long && math.Abs(d.dot(b.way.square())) < b.high
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
				p := a.middle.along(a.way, a.long*float64(i)/steps).along(a.way.square(), a.high*float64(k)/steps)
				shared = inside(a, p) && inside(b, p)
			}
		}
		assert.Equal(t, a.overlaps(b), b.overlaps(a))
		seen[shared]++
		if shared {
			assert.True(t, a.overlaps(b), "seed %d: %v %v", seed, a, b)
		} else {
			assert.False(t, a.grown(-0.3).overlaps(b.grown(-0.3)), "seed %d: %v %v", seed, a, b)
		}
		low, high := a.bounds()
		assert.True(t, inside(box{low.add(high).scale(0.5), place{1, 0}, (high.x-low.x)/2 + 1e-9, (high.y-low.y)/2 + 1e-9}, a.middle.along(a.way, a.long)))
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
		p, q := place{r.Float64() * 40, r.Float64() * 40}, place{r.Float64() * 40, r.Float64() * 40}
		count := 0
		for i := range steps {
			if inside(b, p.add(q.sub(p).scale((float64(i)+0.5)/steps))) {
				count++
			}
		}
		want := float64(count) / steps * p.distance(q)
		assert.InDelta(t, want, b.crossing(p, q), pointCrossing+0.05, "seed %d", seed)
	}
	b := squareBox(place{0, 0}, 1)
	assert.Positive(t, b.crossing(place{0.5, 0}, place{0.5, 0}), "a line seen end on is still in the way")
	assert.Zero(t, b.crossing(place{2, 0}, place{2, 0}))
}

// The box of turned text is the box of the text, turned about its place.
func TestTextBoxTurns(t *testing.T) {
	flat := textBox(text{says: "184.0 mm", size: 13})
	up := textBox(text{says: "184.0 mm", size: 13, angle: -90})
	assert.InDelta(t, flat.middle.x, -up.middle.y, 1e-9)
	assert.InDelta(t, flat.middle.y, up.middle.x, 1e-9)
	assert.Equal(t, flat.long, up.long)
	low, high := textBox(centered(text{says: "B", size: 16, angle: 30}, place{5, 7})).bounds()
	assert.InDelta(t, 5, (low.x+high.x)/2, 1e-9)
	assert.InDelta(t, 7, (low.y+high.y)/2, 1e-9)
}

// Far more labels than there is room for: none lies on another, and those
// that found no room are told.
func TestPlacerNeverOverlaps(t *testing.T) {
	s := &scene{}
	p := newPlacer(s, place{0, 0}, place{200, 150})
	put := 0
	for i := range 300 {
		tx := text{says: fmt.Sprintf("label %d", i), size: 13}
		at := func(middle place) label { return textLabel(centered(tx, middle), 0) }
		if p.putAround(place{float64(i * 7 % 200), float64(i * 13 % 150)}, 5, textWidth(tx.says, 13, false), at) {
			put++
		}
	}
	assert.Equal(t, put, len(s.texts))
	assert.Greater(t, put, 15)
	assert.Less(t, put, 60)
	for i, a := range s.texts {
		low, high := textBox(a).bounds()
		assert.True(t, low.x >= 0 && low.y >= 0 && high.x <= 200 && high.y <= 150)
		for _, b := range s.texts[:i] {
			assert.False(t, textBox(a).overlaps(textBox(b)))
		}
	}
}

// A label keeps off a thick line where there is room beside it.
func TestPlacerKeepsOffLines(t *testing.T) {
	s := &scene{}
	p := newPlacer(s, place{0, 0}, place{200, 200})
	p.avoid(penThick, place{0, 100}, place{200, 100})
	tx := text{says: "rod", size: 13}
	var ways []label
	for _, y := range []float64{100, 101, 60, 99} {
		ways = append(ways, textLabel(centered(tx, place{100, y}), 0))
	}
	assert.True(t, p.put(ways...))
	assert.Equal(t, ways[2].texts[0].at, s.texts[0].at)
}
