package recheck

import "fullfree/linkage"

// Step is a step of a rigging sheet.
type Step string

// The steps of a rigging sheet, in no order.
const (
	StepProcedure   Step = "procedure"
	StepLocks       Step = "locks"
	StepLevel       Step = "level"
	StepBackOff     Step = "back-off"
	StepPinsIn      Step = "pins-in"
	StepJoined      Step = "joined"
	StepRods        Step = "rods"
	StepFitCables   Step = "fit-cables"
	StepDrawUp      Step = "draw-up"
	StepPinsOut     Step = "pins-out"
	StepTension     Step = "tension"
	StepStops       Step = "stops"
	StepTravels     Step = "travels"
	StepPitch       Step = "pitch"
	StepClearances  Step = "clearances"
	StepJoints      Step = "joints"
	StepTrim        Step = "trim"
	StepForces      Step = "forces"
	StepPlay        Step = "play"
	StepFull        Step = "full"
	StepSense       Step = "sense"
	StepClose       Step = "close"
	StepOnceMore    Step = "once-more"
	StepIndependent Step = "independent"
	StepTrack       Step = "track"
	StepSigned      Step = "signed"
)

// Line is a line of a rigging sheet to be filled in or ticked, as whoever prints the
// sheet gives it.
type Line struct {
	// Run is what its run is called in answers: in an aircraft the run's name there, empty
	// for a line of the whole aircraft.
	Run  string
	Step Step
	// Title is what the sheet calls the step; empty for what stands at its foot.
	Title string
	// Says names the line as the sheet does; with its step it tells it from all others of
	// its run, in two versions of one sheet alike, so it has no figure that may change.
	Says string
	// About is what it is of; nil: of all in its run.
	About linkage.Element
	// At is the hole that a joint is in, as the file names it; empty: the line is of no
	// joint at a hole.
	At string
	// Figure is what is measured there, as predicted; nil: nothing is, or nothing predicted.
	Figure *Figure
}

// Figure is a measured figure as it is predicted.
type Figure struct {
	Value float64
	Unit  linkage.Unit
	// Allowed is by how much it may be off to either side, by the file; 0 where the file
	// allows nothing: then nothing may move it.
	Allowed float64
}

// Share is how much of what is allowed a figure something may move it by and it still
// stands as unmoved.
const Share = 0.1

// figureNoise is by how much two computed figures may differ and still be one, in degrees,
// millimeters or any other unit: events are found to 1e-9 of the travel, and nobody reads
// anything so fine.
const figureNoise = 1e-5

// always reports whether a line of a step is void as soon as anything in its control is
// touched, whatever the figures.
func (s Step) always() bool {
	switch s {
	case StepPinsOut, StepTension, StepForces, StepPlay, StepFull, StepSense, StepClose, StepOnceMore, StepIndependent, StepSigned:
		return true
	}
	return false
}
