// Package rig searches the settings of a run: what every rod end is to be turned, and
// every adjustable stop set to, so that all that is required holds with the most in
// reserve, the rods keep to the pins, and as little as may be is turned.
//
// It asks package solve through what that exports: a setting is a changed run, compiled
// and checked (Mechanism.CheckWith). What holds and what falls short solve alone decides;
// which setting is better than another stands here (Answer).
//
// The same run gives the same answer, whatever the processors; nothing exported panics,
// whatever it is given. What takes long is bounded by counted work (solve.MostWork), and
// what the bound leaves out is told. Turns are of an end out of its rod, lengths the
// run's unit.
//
// What it never does: poses, judging, writing settings into files, words but those of
// what was searched.
package rig
