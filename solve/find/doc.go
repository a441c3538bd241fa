// Package find searches the dimensions of a run: which of some places a hole is to have,
// how long an arm is to be, so that all that is required holds with the most in reserve,
// as little as may be is changed, and that by as little as may be.
//
// It asks package solve through what that exports: a setting is a changed run, compiled
// and checked (Mechanism.CheckRun), or glanced at where there are many; derivatives by
// every number come from Mechanism.Slopes. What holds and what falls short solve alone
// decides, and what a reserve is (Judgement.Reserve); which setting is better than another
// stands here (Answer). Every setting that is told was checked, as "check" does.
//
// Values out of a list or in steps are tried in every combination, as long as there is
// work for that; what lies between is sought from several starts, by what the slopes say
// of all requirements at once.
//
// The same run gives the same answer, whatever the number of processors; nothing exported
// panics, whatever it is given. What takes long is bounded by counted work
// (solve.MostWork), and what the bound leaves out is told.
//
// What it never does: poses, judging, writing values into files, words but those of faults
// and of what was searched.
package find
