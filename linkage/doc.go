// Package linkage is what a control run is: parts, points, rods and their
// threaded ends, stops, pins, controls and requirements, and the reading of a
// file into them.
//
// Read turns a file into a *Run or into Faults, each of which points at the
// line it is about. A Builder makes the same run without a file, by the same rules;
// its faults say which block they are about. Run.Validate tells of a run that was put
// together by hand what nothing could work with. Everything in a Run is as drawn: lengths in the run's
// unit, angles in degrees. Nothing here is solved and nothing is drawn.
//
// A Run never changes once it is made. Run.With makes another one with some edits,
// which shares what they leave as it is; what is one thing in both is found by
// Run.Part, Run.Rod and so on.
package linkage
