package sample_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve/photo"
	"fullfree/solve/photo/sample"
)

// Square on, a place is seen by similar triangles, and a turn about the line of sight turns
// the photo.
func TestSeeBySimilarTriangles(t *testing.T) {
	c := sample.Camera{Width: 3000, Height: 4000, Lens: 35, Away: 1000, LooksX: 10, LooksY: 20}
	focal := 35 * 5000 / 43.2666153056
	x, y := c.See(110, -30, 200)
	assert.InDelta(t, 1500+100*focal/800, x, 1e-9)
	assert.InDelta(t, 2000+50*focal/800, y, 1e-9)
	c.Roll = 90 // what is right of it is below in the photo of a camera turned to the left
	x, y = c.See(110, 20, 0)
	assert.InDelta(t, 1500, x, 1e-9)
	assert.InDelta(t, 2000+100*focal/1000, y, 1e-9)

	// Turned to its left and up, it stands to the right and below, and so is nearer to what
	// is right and below.
	c = sample.Camera{Width: 3000, Height: 4000, Lens: 35, Away: 1000, Yaw: 10, Pitch: 5}
	right, _ := c.See(100, 0, 0)
	left, _ := c.See(-100, 0, 0)
	_, above := c.See(0, 100, 0)
	_, below := c.See(0, -100, 0)
	assert.Greater(t, right-1500, 1500-left)
	assert.Greater(t, below-2000, 2000-above)
	ratio := (1000 + 100*math.Sin(10*math.Pi/180)*math.Cos(5*math.Pi/180)) / (1000 - 100*math.Sin(10*math.Pi/180)*math.Cos(5*math.Pi/180))
	assert.InDelta(t, ratio, (right-1500)/(1500-left), 1e-9)

	// Barrel draws the corner in by its share.
	c = sample.Camera{Width: 3000, Height: 4000, Lens: 35, Away: 1000}
	x, y = 1500*1000/focal, 2000*1000/focal
	c.Barrel = 0.01
	x, y = c.See(x, y, 0)
	assert.InDelta(t, 1500+0.99*1500, x, 1e-6)
	assert.InDelta(t, 2000-0.99*2000, y, 1e-6)
}

var scene = sample.Scene{
	Holes: []sample.Hole{{X: -450, Y: -300, Radius: 9}, {X: 450, Y: -300, Radius: 9}, {X: 450, Y: 300, Radius: 9}, {X: -450, Y: 300, Radius: 9}, {X: 120, Y: 60, Depth: 80, Radius: 9}},
	Rods:  [][2]int{{0, 4}, {4, 2}}, RodWide: 12,
}

// darkest is the middle of the dark pixels about a place.
func darkest(of image.Image, x, y float64) (float64, float64) {
	const about = 60
	weight, sumX, sumY := 0.0, 0.0, 0.0
	for j := int(y) - about; j <= int(y)+about; j++ {
		for i := int(x) - about; i <= int(x)+about; i++ {
			gray, _, _, _ := of.At(i, j).RGBA()
			dark := max(0, 90-float64(gray>>8))
			weight, sumX, sumY = weight+dark, sumX+dark*(float64(i)+0.5), sumY+dark*(float64(j)+0.5)
		}
	}
	return sumX / weight, sumY / weight
}

// The picture has its marks where See tells them, and what is picked on it, scaled by
// distances, is the run.
func TestPictureIsWhatIsSeen(t *testing.T) {
	c := sample.Phone(1600)
	c.Yaw, c.Pitch, c.Roll, c.Barrel = 5, -4, 1.5, 0.004
	var file bytes.Buffer
	require.NoError(t, c.JPEG(&file, scene))
	picture, err := jpeg.Decode(&file)
	require.NoError(t, err)
	p := photo.Photo{Width: c.Width, Height: c.Height, Unit: 1, Away: 1600, AwayWithin: 20}
	for _, h := range scene.Holes {
		x, y := c.See(h.X, h.Y, h.Depth)
		pickX, pickY := darkest(picture, x, y)
		assert.InDelta(t, x, pickX, 0.3)
		assert.InDelta(t, y, pickY, 0.3)
		p.Picks = append(p.Picks, photo.Pick{X: pickX, Y: pickY, Depth: h.Depth, DepthKnown: true})
	}
	for _, e := range [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {0, 2}} {
		a, b := scene.Holes[e[0]], scene.Holes[e[1]]
		p.Tapes = append(p.Tapes, photo.Distance{From: e[0], To: e[1], Is: math.Hypot(a.X-b.X, a.Y-b.Y), Within: 1})
	}
	p.Levels = []photo.Level{{From: 0, To: 1, Within: 0.2}}
	found, err := photo.Adjust(p)
	require.NoError(t, err)
	for i, at := range found.Places {
		h := scene.Holes[i]
		assert.InDelta(t, h.X-scene.Holes[0].X, at.X, 2*at.SigmaX+1e-9)
		assert.InDelta(t, h.Y-scene.Holes[0].Y, at.Y, 2*at.SigmaY+1e-9)
	}
	assert.Less(t, found.Largest, 4.0)
}

// Pictures have any size, up to 20 megapixels and more, and the same bytes each time.
func TestPicturesOfAnySize(t *testing.T) {
	for _, size := range []image.Point{{64, 48}, {5184, 3888}} {
		c := sample.Phone(2000)
		c.Width, c.Height = float64(size.X), float64(size.Y)
		var file bytes.Buffer
		require.NoError(t, c.JPEG(&file, scene))
		config, err := jpeg.DecodeConfig(&file)
		require.NoError(t, err)
		assert.Equal(t, size, image.Pt(config.Width, config.Height))
	}
	var file, again bytes.Buffer
	c := sample.Camera{Width: 80, Height: 60, Lens: 26, Away: 1000}
	require.NoError(t, c.PNG(&file, scene))
	require.NoError(t, c.PNG(&again, scene))
	assert.Equal(t, file.Bytes(), again.Bytes())
	_, err := png.Decode(&file)
	require.NoError(t, err)
}
