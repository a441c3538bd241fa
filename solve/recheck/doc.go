// Package recheck tells what a change makes void: two versions of a run, the one that was
// signed and today's, are compared by what they do, and every line of the rigging sheet
// is told apart into those that are to be done again and the measured figures that
// nothing moves.
//
// It compares drawings, never work: what was opened and closed again at the same length
// changes no figure, so it is told from outside (Opened).
//
// It asks package solve through what that exports, two results; the lines of the sheet are
// given to it by whoever prints the sheet, so that what is told here is what stands there.
// An aircraft is compared as the one run that it is read as. Every dimension, opened joint
// and line names its run there; what joins several runs to one control is a matter of which
// parts move together (groups), and a part on two drawings is one piece of metal.
//
// The same two versions give the same answer; nothing exported panics, whatever it is
// given. Figures are in the unit of the version that they are of.
//
// What it never does: solving, reading files, words but names as the file writes them.
package recheck
