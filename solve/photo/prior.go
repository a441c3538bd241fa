package photo

import (
	"math"

	"fullfree/linkage/elementary"
)

// What is known before anything is measured. Lengths are millimeters here, angles
// degrees, and each figure is a standard deviation but where it says otherwise. Those
// without a source are common practice, from memory.
const (
	// tiltSigma is how far from square one who means to be square holds a phone, about
	// each of two axes. Few are off by more than 12 degrees in all; those who are must find
	// their places within what is told too, where no more than two distances tell the tilt.
	tiltSigma = 8
	// rollSigma is how far from level one holds it.
	rollSigma = 2.5
	// usualLens is the focal length of a phone's main lens, as that of a camera whose
	// film has the diagonal filmDiagonal; lensSigma is of its natural logarithm, and
	// covers the widest lens (13) and the long one (75) at one and a half.
	usualLens, lensSigma = 30, 0.6
	filmDiagonal         = 43.27
	// usualAway is how far away one stands for a part of an airframe; awaySigma is of its
	// natural logarithm: 0.35 to 8 m at two standard deviations.
	usualAway, awaySigma = 1700, 0.8
	// toldAway is the share by which a paced or taped distance of the camera is out.
	toldAway = 0.05
	// bendSigma is the share of its distance from the middle by which a place at the
	// photo's corner is off: what a phone leaves after it has straightened the picture.
	bendSigma = 0.007
	// axisSigma is how far the lens's axis goes beside the photo's middle, as a share of
	// its longer side: lenses that are moved to steady the picture go so far.
	axisSigma = 0.01
	// pickSigma is the error of a pick under a magnifier, in each direction: 1.5 pixels of
	// a photo that is 2560 pixels long, and as large a share of any other.
	pickSigma = 1.5 / 2560
	// knownDepth and guessedDepth are the errors of a depth that was told, 5 mm either
	// way, and of one that wasn't: two standard deviations each.
	knownDepth, guessedDepth = 2.5, DepthWithin / 2
	// finestTape is the least standard deviation of a tape, as a share of what it reads:
	// nobody holds one to less than 0.2 mm in a meter.
	finestTape = 1e-4
	// finestLevel is the least standard deviation of a gauged direction in degrees: no
	// gauge that is held by hand tells less than a tenth of a degree.
	finestLevel = 0.05
	// finestAway is the least standard deviation of the camera's distance, as a share of
	// it: nobody knows where in a lens its center lies to less than a centimeter.
	finestAway = 0.002
)

// DepthWithin is what a depth that wasn't told counts as, either way, in millimeters: two
// standard deviations.
const DepthWithin = 50.0

// LeanWithin is how far from level the camera is taken to be held, either way, in degrees,
// before a direction is gauged: two standard deviations.
const LeanWithin = 2 * rollSigma

const degree = math.Pi / 180

// prior is what is known beforehand, in run units, radians and pixels; of distance and
// lens the natural logarithms.
type prior struct {
	mean, sigma  [cameraSize]float64
	pick         float64 // standard deviation, pixels
	known, guess float64 // standard deviations of depths
	finest       float64 // standard deviation of a tape, at least, as a share of what it reads
	finestTurn   float64 // of a gauged direction, at least, degrees
}

// pickSigma is the standard deviation of a pick in pixels.
func (p *Photo) pickSigma() float64 { return float64(pickSigma * max(p.Width, p.Height)) }

// pixelsApart is how far two picks are from one another in the photo.
func (p *Photo) pixelsApart(from, to int) float64 {
	return elementary.Hypot(p.Picks[to].X-p.Picks[from].X, p.Picks[to].Y-p.Picks[from].Y)
}

// halfDiagonal is half the photo's diagonal in pixels.
func (p *Photo) halfDiagonal() float64 { return elementary.Hypot(p.Width, p.Height) / 2 }

// usual is the prior of a photo that was taken by hand.
func (p *Photo) usual() *prior {
	aside := float64(axisSigma * max(p.Width, p.Height))
	of := &prior{pick: p.pickSigma(), known: knownDepth / p.Unit, guess: guessedDepth / p.Unit, finest: finestTape, finestTurn: finestLevel}
	of.mean[lnAway], of.sigma[lnAway] = elementary.Log(usualAway/p.Unit), awaySigma
	of.mean[lnFocal], of.sigma[lnFocal] = elementary.Log(float64(p.halfDiagonal()*(2*usualLens/filmDiagonal))), lensSigma
	of.sigma[tiltX], of.sigma[tiltY] = tiltSigma*degree, tiltSigma*degree
	of.sigma[roll], of.sigma[bend] = rollSigma*degree, bendSigma
	of.sigma[axisX], of.sigma[axisY] = aside, aside
	return of
}
