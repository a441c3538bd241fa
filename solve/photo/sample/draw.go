package sample

import (
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"math"

	"fullfree/linkage/elementary"
)

// Hole is a place that is marked in the picture: a dark disc with a light cross, whose
// arms meet in the place.
type Hole struct{ X, Y, Depth, Radius float64 }

// Scene is what stands before the camera: a light plate with holes, and rods between them.
type Scene struct {
	Holes   []Hole
	Rods    [][2]int // between holes, by their numbers
	RodWide float64  // how wide a rod is, run units
}

// The grays of the picture: the plate, at most and at least as light falls, its grain to
// both sides, rods, discs and crosses.
const (
	plateLight, plateDark = 232, 206
	grain                 = 4
	rodGray               = 128
	discGray, crossGray   = 36, 244
)

const (
	// crossShare is how thick the arms of a cross are, as a share of the disc's radius;
	// thinnest is how thick they are at least, in pixels.
	crossShare, thinnest = 0.16, 1.6
	// rodPieces is how many straight pieces a rod is drawn in: a lens bends it.
	rodPieces = 16
	// quality is that of the JPEG file, as of a phone.
	quality = 92
)

// JPEG writes the picture as a JPEG file, as a phone would.
func (c Camera) JPEG(w io.Writer, s Scene) error {
	return jpeg.Encode(w, c.Draw(s), &jpeg.Options{Quality: quality})
}

// PNG writes the picture as a PNG file.
func (c Camera) PNG(w io.Writer, s Scene) error { return png.Encode(w, c.Draw(s)) }

// Draw returns the picture that the camera takes. A place that See tells at x, y is so far
// from the upper left corner of the picture's first pixel, so that a pixel's middle is at
// its number and a half.
func (c Camera) Draw(s Scene) *image.Gray {
	of := picture{image.NewGray(image.Rect(0, 0, int(c.Width), int(c.Height)))}
	of.plate()
	for _, r := range s.Rods {
		of.rod(c, s.Holes[r[0]], s.Holes[r[1]], s.RodWide)
	}
	for _, h := range s.Holes {
		of.hole(c, h)
	}
	return of.Gray
}

type picture struct{ *image.Gray }

// plate fills the picture with a plate that is lighter toward its upper left corner, and
// has a grain, so that its file isn't smaller than a photo's.
func (p picture) plate() {
	size := p.Rect.Size()
	for y := range size.Y {
		row := p.Pix[y*p.Stride : y*p.Stride+size.X]
		for x := range row {
			light := plateLight - (plateLight-plateDark)*(x+y)/(size.X+size.Y)
			row[x] = uint8(light + int(hash(uint32(x), uint32(y))%(2*grain+1)) - grain)
		}
	}
}

// hash is a number that goes with a pixel and looks like chance.
func hash(x, y uint32) uint32 {
	h := x*0x9E3779B1 ^ y*0x85EBCA77
	h ^= h >> 15
	h *= 0x2C1B3C6D
	return h ^ h>>13
}

// hole draws a mark.
func (p picture) hole(c Camera, h Hole) {
	x, y := c.See(h.X, h.Y, h.Depth)
	besideX, besideY := c.See(h.X+h.Radius, h.Y, h.Depth)
	radius := elementary.Hypot(besideX-x, besideY-y)
	thick := max(thinnest, float64(crossShare*radius)) / 2
	p.paint(x, y, radius, discGray, func(dx, dy float64) float64 { return elementary.Hypot(dx, dy) - radius })
	p.paint(x, y, radius, crossGray, func(dx, dy float64) float64 {
		return max(elementary.Hypot(dx, dy)-float64(0.8*radius), min(math.Abs(dx), math.Abs(dy))-thick)
	})
}

// rod draws a rod in straight pieces.
func (p picture) rod(c Camera, from, to Hole, wide float64) {
	between := func(a, b float64, i int) float64 { return a + float64((b-a)*float64(i))/rodPieces }
	at := func(i int) (x, y float64) {
		return c.See(between(from.X, to.X, i), between(from.Y, to.Y, i), between(from.Depth, to.Depth, i))
	}
	half := max(1, float64(wide*c.Scale())/2)
	for i := range rodPieces {
		x, y := at(i)
		endX, endY := at(i + 1)
		alongX, alongY := endX-x, endY-y
		square := float64(alongX*alongX) + float64(alongY*alongY)
		p.paint(x, y, half+math.Sqrt(square), rodGray, func(dx, dy float64) float64 {
			share := min(1, max(0, (float64(dx*alongX)+float64(dy*alongY))/square))
			return elementary.Hypot(dx-float64(share*alongX), dy-float64(share*alongY)) - half
		})
	}
}

// paint covers the pixels of a shape that lies within reach of x, y with a gray, given how
// far a place beside x, y is outside of it; less than 0 inside. Pixels on its edge are
// covered in part.
func (p picture) paint(x, y, reach float64, gray uint8, outside func(dx, dy float64) float64) {
	left, right := int(max(0, math.Floor(x-reach-1))), int(min(float64(p.Rect.Dx()-1), x+reach+1))
	top, bottom := int(max(0, math.Floor(y-reach-1))), int(min(float64(p.Rect.Dy()-1), y+reach+1))
	for j := top; j <= bottom; j++ {
		for i := left; i <= right; i++ {
			cover := min(1, max(0, 0.5-outside(float64(i)+0.5-x, float64(j)+0.5-y)))
			was := float64(p.GrayAt(i, j).Y)
			p.SetGray(i, j, color.Gray{Y: uint8(math.Round(was + float64(cover*(float64(gray)-was))))})
		}
	}
}
