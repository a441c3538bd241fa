package photo

// Photo is what was picked on a photograph, and what was measured of what it shows.
type Photo struct {
	// Width and Height are those of the whole photo, in the pixels that picks are in.
	// A photo that was cropped has its lens's axis elsewhere than in the middle.
	Width, Height float64
	Unit          float64 // millimeters in a run unit: 1 or 25.4
	Datum         int     // the pick that all places are told from
	Picks         []Pick
	Tapes         []Distance // at least one: else nothing scales the photo
	Levels        []Level
	// Away is how far the lens was from the plane, along its line of sight, in run units;
	// AwayWithin is two standard deviations. Away of 0: not told; AwayWithin of 0: as
	// surely as a distance is paced.
	Away, AwayWithin float64
}

// Pick is a place that was picked on the photo.
type Pick struct {
	X, Y float64 // pixels from the photo's upper left corner, y down
	// Depth is how far the hole is from the plane, in run units: nearer to the camera is
	// plus. Where it isn't known it is a guess, 0 at best.
	Depth      float64
	DepthKnown bool
}

// Distance is a distance between two picked places, read with a tape, in space: the
// difference of their depths is in it.
type Distance struct {
	From, To   int     // picks
	Is, Within float64 // run units; Within is two standard deviations
}

// Level is a gauged direction from one picked place to another as the drawing shows it.
type Level struct {
	From, To   int     // picks
	Is, Within float64 // degrees anticlockwise from level; Within is two standard deviations
}

const (
	mostPicks  = 200 // picks of a photo: more are no picking by hand
	mostTapes  = 200 // distances of a photo, as many
	mostLevels = 50  // directions of a photo: all tell the same turn
)

// Places is what Adjust finds.
type Places struct {
	Places []Place // of the picks, in their order
	// Largest is the largest standard deviation of any coordinate, and LargestShape the
	// largest of any place's Shape, in run units.
	Largest, LargestShape float64
	// Together is the root of the sum of the variances of all coordinates, in run units. What
	// they are out by goes together, as one tilt moves all; errors of this standard deviation
	// that don't, each by itself, are nowhere less: no covariance is larger than its trace.
	Together float64

	// Tilt is how far from square the photo was taken: the angle between the line of
	// sight and the plane's normal. TiltTold says that the measurements tell it, rather
	// than what is likely beforehand. Degrees.
	Tilt, TiltSigma float64
	TiltTold        bool
	// Roll is how far the camera was turned about its line of sight, anticlockwise as
	// the photographer sees it. Degrees.
	Roll, RollSigma float64
	// Away is how far the lens was from the plane, along its line of sight. Run units.
	Away, AwaySigma float64

	Tapes  []Check // of each distance, in run units
	Levels []Check // of each direction, in degrees
	// AwayTold is of the camera's distance as told: its Residual is in run units; all
	// zero where it wasn't told.
	AwayTold Check
	// OneDirection says that all distances lie in about one direction: then nothing but
	// perspective tells by how much the photo is foreshortened across it.
	OneDirection bool
}

// Place is where a pick is in the plane, from the datum: x right, y up, in run units.
type Place struct {
	X, Y           float64
	SigmaX, SigmaY float64 // standard deviations; 0 of the datum
	// Shape is the larger standard deviation of the two were the whole not turned about
	// the datum: what a level gauged between two places would leave of them.
	Shape float64
}

// Check is what the rest says about a measurement.
type Check struct {
	Residual float64 // what was measured less what the places have
	// Redundancy is the share of an error of this measurement that shows in its
	// residual: 0 (nothing checks it) to 1 (the rest tell it exactly).
	Redundancy float64
	// Checked says that a gross error would show. Misclosure is how far the measurement is
	// from what all others make of it, and Standardized that over its standard deviation;
	// both are 0 where it isn't Checked.
	Checked                  bool
	Misclosure, Standardized float64
	// Doubtful is the one that disagrees most with the rest, where that is more than
	// chance. AsDoubtful says that this could as well be the one that slipped.
	Doubtful, AsDoubtful bool
}
