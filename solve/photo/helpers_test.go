package photo

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage/elementary"
	"fullfree/solve/photo/sample"
)

// hole is a place in space: x, y, depth.
type hole [3]float64

func (h hole) to(other hole) float64 {
	return math.Sqrt((h[0]-other[0])*(h[0]-other[0]) + (h[1]-other[1])*(h[1]-other[1]) + (h[2]-other[2])*(h[2]-other[2]))
}

// taken is the photo of holes as a camera takes it, picked and told exactly.
func taken(c sample.Camera, holes []hole) Photo {
	p := Photo{Width: c.Width, Height: c.Height, Unit: 1}
	for _, h := range holes {
		x, y := c.See(h[0], h[1], h[2])
		p.Picks = append(p.Picks, Pick{X: x, Y: y, Depth: h[2], DepthKnown: true})
	}
	return p
}

// tape adds exact distances, to within 1 mm.
func (p *Photo) tape(holes []hole, ends ...[2]int) {
	for _, e := range ends {
		p.Tapes = append(p.Tapes, Distance{From: e[0], To: e[1], Is: holes[e[0]].to(holes[e[1]]), Within: 1})
	}
}

// gauge adds an exact direction, to within half a degree.
func (p *Photo) gauge(holes []hole, from, to int) {
	a, b := holes[from], holes[to]
	p.Levels = append(p.Levels, Level{From: from, To: to, Is: math.Atan2(b[1]-a[1], b[0]-a[0]) / degree, Within: 0.5})
}

// shaken is a photo with errors in everything that a person does.
func shaken(p Photo, random *rand.Rand) Photo {
	normal := random.NormFloat64
	sigma := p.pickSigma()
	for i := range p.Picks {
		k := &p.Picks[i]
		k.X, k.Y = min(max(0, k.X+sigma*normal()), p.Width), min(max(0, k.Y+sigma*normal()), p.Height)
		if k.DepthKnown {
			k.Depth += knownDepth / p.Unit * normal()
		}
	}
	for i := range p.Tapes {
		p.Tapes[i].Is += p.Tapes[i].Within / 2 * normal()
	}
	for i := range p.Levels {
		p.Levels[i].Is += p.Levels[i].Within / 2 * normal()
	}
	if p.Away > 0 {
		p.Away *= 1 + toldAway*normal()
	}
	return p
}

// plate is a meter of a run: four corners and some holes between, in the plane.
var plate = []hole{{-450, -300}, {450, -300}, {450, 300}, {-450, 300}, {0, 0}, {200, 120}, {-260, 40}, {30, -210}}

// corners are the sides and the diagonals of the plate.
var corners = [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {0, 2}, {1, 3}}

// sharp is a prior of picks and depths without errors, and of tapes and gauges as fine as
// they say; of the camera what the usual one has.
func sharp(p *Photo, pick float64) *prior {
	of := p.usual()
	of.pick, of.known, of.finest, of.finestTurn = pick, 1e-6, 0, 0
	return of
}

// square is a prior of a camera that is all but known: square on and level, with its lens's
// axis in the middle; and of depths without errors.
func square(p *Photo) *prior {
	of := p.usual()
	of.known = 1e-6
	for _, k := range []int{tiltX, tiltY, roll, bend, axisX, axisY} {
		of.sigma[k] *= 1e-6
	}
	return of
}

// requireAt holds the places against the holes, from the datum.
func requireAt(t *testing.T, p *Photo, found *Places, holes []hole, within float64) {
	t.Helper()
	require.Len(t, found.Places, len(holes))
	d := holes[p.Datum]
	for i, at := range found.Places {
		require.InDelta(t, 0, elementary.Hypot(at.X-(holes[i][0]-d[0]), at.Y-(holes[i][1]-d[1])), within, "place %d at %.6f, %.6f", i, at.X, at.Y)
	}
}

// adjusted is Adjust where it has to go well.
func adjusted(t testing.TB, p Photo) *Places {
	t.Helper()
	found, err := Adjust(p)
	require.NoError(t, err)
	return found
}
