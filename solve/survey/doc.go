// Package survey adjusts a sketched run to what was taped and gauged of it: where each
// place is and how surely, what every measurement has to say about the others, and what
// to measure next. Before anything is measured, Plan chooses what is worth measuring.
//
// It knows places and the lines between them, and nothing of how a run moves; package
// solve asks it, and judges.
//
// What it guarantees: the same run gives the same bytes on every processor, but for
// what NullSpace of gonum decides; no NaN and no infinity leaves it; nothing exported
// panics, whatever it is given. A Survey may be read by any number of goroutines at once.
// Lengths are the run's unit, directions degrees; what is refused is *linkage.Faults.
//
// What it never does: poses, verdicts, words, changing a run other than by Apply, which
// makes another.
package survey
