// Layer: values.

package solve

// mostPredicted is the most that a freedom is predicted to move, radians or
// shares of the run's size.
const mostPredicted = 0.5

// valueNoise is what rounding may do to a travel, radians or shares of the
// run's size: a few thousand roundings.
const valueNoise = 1e-12

// criticalSine is the sine of a rod's angle below which the rod stands on
// center (the design's figure).
const criticalSine = 1e-6

// tieOfStops is the share of the travel within which two stops bite together:
// the accuracy to which events are promised.
const tieOfStops = 1e-9

// follows is the movement, radians or shares of the run's size, above which
// something follows: above what rounding leaves and below what a builder
// could see.
const follows = 1e-6

// compilePoses is the work of compiling what is left of a run, in poses.
const compilePoses = 50

// halfTurn is how far a loose part is turned each way: then it has been
// everywhere.
const halfTurn = 180

// strayShare is how far from where it was expected a pose may be found, as
// a share of the move from the one before; farther, it may be another
// assembly.
const strayShare = 0.3

// sampleStep is the longest step of a turning control between two samples,
// degrees. Events closer together than this are still found if they show
// in the rates at both ends.
const sampleStep = 0.25

// slideDetail is the same as a share of the smallest piece of metal that may
// touch something, so that none is stepped over.
const slideDetail = 0.25

// slideStep is the same for a sliding control, as a share of the run's size:
// what a quarter degree moves the end of an arm as long as the run.
const slideStep = sampleStep * degree

// judgeNoise is by how much a worst value may pass its limit, in its own unit,
// and still be on it: the accuracy to which worst values are promised.
const judgeNoise = 1e-9
