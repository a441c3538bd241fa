// Package photo finds the places that were picked on a photograph of a mechanism, taken
// about square on, from distances between them read with a tape: where each is from one
// of them, and how surely.
//
// The camera is a pinhole with square pixels that looks at the plane of the drawing.
// Unknown are its distance, its tilt, its roll, its focal length, what its lens bends,
// where its axis goes through the photo, the error of each pick and the depth of each
// hole. Each is known beforehand to within what a person with a phone makes of it
// (prior.go: a named figure each, with its reason); what was taped, gauged and told of
// the camera's distance is adjusted by least squares together with them. With one tape
// that is a scale; two in different directions tell how far from square the photo was
// taken, not to which side; four or more leave the homography of a pinhole as far as
// they allow. There are no cases: what nothing tells is as wide as it was beforehand.
//
// Least squares takes what it is given for straight near where it ends, and a tilt isn't:
// what it shortens goes with its square, so that it does nothing to first order where the
// photo is square on, and two opposite tilts shorten alike. So the tilts that are likely
// beforehand are parted into many narrow ones that overlap, each is adjusted by itself, and
// the results are put together as likely as each makes what was measured (a Gaussian sum:
// Alspach and Sorenson, from memory). The standard deviations are those of the whole sum.
//
// Nothing of this is robust against a gross slip, for which an absurd camera may be found
// that fits. So measurements are first held against one another from a camera that is
// square on, and what can't be of this photo is an error that names it (start.go).
//
// What it guarantees: the same photo gives the same bytes on every processor; no NaN and
// no infinity leaves it; nothing exported panics, whatever it is given. Lengths are run
// units, directions and tilts degrees, places in the photo pixels.
//
// What it never does: pictures, files, words, runs.
package photo
