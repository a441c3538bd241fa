// Package tolerance tells what is left of a run when its parts are drilled, welded and set
// a little off: builds are drawn at random within what the file allows, each is rigged as a
// builder does, and each is judged.
//
// It asks package solve through what that exports (Mechanism.Builds, or a run of its own
// for each build). What holds and what falls short solve alone decides; how builds are
// drawn and rigged, and what is counted, stands here.
//
// The same run and seed give the same answer, whatever the processors: each build has a
// random sequence of its own, by the seed and its number, and what is summed is summed in
// the order of the builds. Nothing exported panics, whatever it is given. Lengths are the
// run's unit, angles degrees.
//
// What it never does: poses, judging, words, reading files.
package tolerance
