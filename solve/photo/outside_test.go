package photo

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"fullfree/solve/photo/sample"
)

// One distance and a camera that is known to be square on make a similarity: every place is
// its pixels times the distance over its pixels.
func TestOneDistanceScales(t *testing.T) {
	p := taken(sample.Phone(1700), plate)
	p.tape(plate, [2]int{0, 1})
	found, err := adjustWith(&p, square(&p))
	require.NoError(t, err)
	scale := p.Tapes[0].Is / (p.Picks[1].X - p.Picks[0].X)
	for i, at := range found.Places {
		assert.InDelta(t, float64(scale*(p.Picks[i].X-p.Picks[0].X)), at.X, 1e-3) // a millionth: the usual distance and lens pull as much
		assert.InDelta(t, float64(scale*(p.Picks[0].Y-p.Picks[i].Y)), at.Y, 1e-3) // a millionth: the usual distance and lens pull as much
	}
}

// From far away a tilt by an angle shortens what lies square to its axis by the cosine of
// it, and leaves what lies along it: an orthographic projection.
func TestTiltShortensByItsCosine(t *testing.T) {
	const tilt = 12 * degree
	p := Photo{Width: 4000, Height: 3000}
	var c camera
	u := [cameraSize]float64{lnAway: math.Log(1e7), lnFocal: math.Log(1e7), tiltY: 2 * math.Tan(tilt/2)}
	c.set(&p, &u)
	var middle, right, up seen
	for at, s := range map[[2]float64]*seen{{2000, 1500}: &middle, {2500, 1500}: &right, {2000, 1000}: &up} {
		require.True(t, c.see(&Pick{X: at[0], Y: at[1]}, &[pickSize]float64{}, s))
	}
	assert.InDelta(t, 500/math.Cos(tilt), math.Hypot(right.x-middle.x, right.y-middle.y), 0.01) // 500 / 1e7 of it is perspective
	assert.InDelta(t, 500, math.Hypot(up.x-middle.x, up.y-middle.y), 0.01)
	assert.InDelta(t, tilt, tiltOf(u[tiltY]), 1e-12)
}

// A hole that is nearer by z than the plane, at the distance D, is seen farther from where
// the camera looks by z / (D - z) of how far it is from there, so by z / D to first order.
func TestDepthIsOffByDepthOverDistance(t *testing.T) {
	const away, depth = 2000.0, 100.0
	flat := taken(sample.Phone(away), plate)
	flat.tape(plate, corners...)
	flat.Datum, flat.Away, flat.AwayWithin = 4, away, 1
	near := flat
	near.Picks = append([]Pick(nil), flat.Picks...)
	near.Picks[5].Depth = depth // seen where it was, said to be nearer
	was, is := adjusted(t, flat).Places[5], adjusted(t, near).Places[5]
	assert.InDelta(t, depth/away, (was.X-is.X)/was.X, 2e-3*depth/away)
	assert.InDelta(t, depth/away, (was.Y-is.Y)/was.Y, 2e-3*depth/away)
	// One that isn't told is as wide as is guessed over the distance.
	told := adjusted(t, near).Places[5]
	near.Picks[5].DepthKnown = false
	guessed := adjusted(t, near).Places[5]
	wider := math.Sqrt(guessed.SigmaX*guessed.SigmaX - told.SigmaX*told.SigmaX)
	assert.InEpsilon(t, widening*guessedDepth/away*was.X, wider, 0.03) // knownDepth's share, and the place's own
}

// Four places with all six distances between them determine the camera. Where everything
// is exact, every other place is found as by the homography of the four, from an
// independent direct linear transformation of eight equations (Hartley and Zisserman,
// Multiple View Geometry, from memory), and both where it is.
func TestFourPlacesAreAHomography(t *testing.T) {
	c := sample.Camera{Width: 4032, Height: 3024, Lens: 33, Away: 1500, Yaw: 7, Pitch: -4, LooksX: 20, LooksY: -10}
	p := taken(c, plate)
	p.tape(plate, corners...)
	for i := range p.Tapes {
		p.Tapes[i].Within = 2e-3
	}
	p.gauge(plate, 0, 1)
	p.Levels[0].Within = 1e-4
	of := sharp(&p, 1e-3)
	for _, k := range []int{bend, axisX, axisY} {
		of.sigma[k] *= 1e-6
	}
	found, err := adjustWith(&p, of)
	require.NoError(t, err)
	requireAt(t, &p, found, plate, 1e-3) // a millionth of its size
	h := homography(t, p.Picks[:4], plate[:4])
	for i, k := range p.Picks {
		w := h[6]*k.X + h[7]*k.Y + 1
		x, y := (h[0]*k.X+h[1]*k.Y+h[2])/w, (h[3]*k.X+h[4]*k.Y+h[5])/w
		assert.InDelta(t, x-plate[0][0], found.Places[i].X, 1e-3)
		assert.InDelta(t, y-plate[0][1], found.Places[i].Y, 1e-3)
	}
	assert.InDelta(t, math.Acos(math.Cos(7*degree)*math.Cos(4*degree))/degree, found.Tilt, 1e-3)
	assert.InDelta(t, 1500, found.Away, 0.1)
}

// homography is the eight figures that bring four picks to four places.
func homography(t *testing.T, picks []Pick, places []hole) [8]float64 {
	t.Helper()
	a, b := mat.NewDense(8, 8, nil), mat.NewVecDense(8, nil)
	for i, k := range picks {
		x, y := places[i][0], places[i][1]
		a.SetRow(2*i, []float64{k.X, k.Y, 1, 0, 0, 0, -k.X * x, -k.Y * x})
		a.SetRow(2*i+1, []float64{0, 0, 0, k.X, k.Y, 1, -k.X * y, -k.Y * y})
		b.SetVec(2*i, x)
		b.SetVec(2*i+1, y)
	}
	var h mat.VecDense
	require.NoError(t, h.SolveVec(a, b))
	return [8]float64(h.RawVector().Data)
}

// What a place goes with is what a small change of each unknown makes of it, and a camera
// written another way sees the place where it was picked.
func TestSlopesAreThoseOfDifferences(t *testing.T) {
	p := Photo{Width: 4032, Height: 3024, Unit: 1}
	pick := Pick{X: 3500, Y: 600}
	u := [cameraSize]float64{math.Log(1800), 0.1, -0.14, 0.03, math.Log(3100), 0.006, 20, -15}
	off := [pickSize]float64{1, -2, 60}
	at := func(u [cameraSize]float64, off [pickSize]float64) (s seen) {
		var c camera
		c.set(&p, &u)
		require.True(t, c.see(&pick, &off, &s))
		return s
	}
	here := at(u, off)
	const step = 1e-5
	for k := range cameraSize {
		more, less := u, u
		more[k] += step
		less[k] -= step
		a, b := at(more, off), at(less, off)
		assert.InDelta(t, (a.x-b.x)/(2*step), here.camera[k][0], 1e-4, "unknown %d", k)
		assert.InDelta(t, (a.y-b.y)/(2*step), here.camera[k][1], 1e-4, "unknown %d", k)
	}
	for k := range pickSize {
		more, less := off, off
		more[k] += step
		less[k] -= step
		a, b := at(u, more), at(u, less)
		assert.InDelta(t, (a.x-b.x)/(2*step), here.pick[k][0], 1e-6)
		assert.InDelta(t, (a.y-b.y)/(2*step), here.pick[k][1], 1e-6)
	}
}
