// Package solve is the mathematics of a control run: a run compiled to a flat
// mechanism, its poses, its sweep with every event located, and the verdict.
//
// What it guarantees:
//
//   - Every rod of a pose has its length to 1e-12 of the run's size, every cable
//     that acts alone too; what a pair of cables holds stands in balance as nearly.
//   - Events (ends, toggles, dead centers, contacts, worst values) are found as
//     sign changes of functions and of their derivatives, bracketed at steps
//     of at most a quarter degree of the control and then solved; they are not
//     samples.
//   - Nothing exported panics, whatever it is given: nil, what no function of this
//     package made and what is of another run is an error, or false where there is no
//     error to return. What is drawn of another run stands as drawn.
//   - No NaN or infinity leaves it. Where a figure doesn't exist it is nil.
//   - The same run gives the same numbers; the order of blocks in the file
//     changes none of them beyond rounding.
//   - It takes a run as rigid and exactly as drawn and set, but for pairs of
//     cables, which are elastic. It knows nothing of loads, other flexing or
//     friction; of play it tells how far everything can be rocked (FreePlay), while
//     the travel is that of joints that don't give.
//
// A Mechanism and a Result, and all that they hold, may be read by any number of
// goroutines at once, as may the run: a run never changes, a changed one is another
// (linkage.Run.With), and whoever solves a pose has space of his own for it. Making a
// Result is done by one: AddBands fills in the one that Check returned, and StopWhen is
// set before any solving. What takes long uses all processors that Go may
// (runtime.GOMAXPROCS); what comes out doesn't depend on how many.
//
// Its files form layers, each named in its file's first comment; what is below never calls
// up, nor uses a constant from there (TestLayers). From the bottom:
//
//   - values: results, units of what is told, threads, tolerances that several layers share
//   - mechanism: parts, rods and cables as bodies and constraints
//   - pose: closing constraints one block after another, and the rates of that
//   - path: poses along one control, and what is read off them
//   - compile: from a run to a mechanism that stands at neutral
//   - events: walking a path to where it ends: toggles, change points, borders
//   - sweep: a control's whole travel, with contact, dead centers and cables
//   - gradient: every derivative of a figure at once, and what joints that give let move
//   - verdict: what holds, and tables of a sweep
//   - questions: bands, effects of turns, what is left when one thing goes, diagnosis
//
// Types alone may be named from below: a mechanism holds the steps that close it.
//
// What it never does: reading files, flags, sentences for a builder other than faults,
// changing a run.
//
// Angles are radians inside and degrees in every result; lengths are the run's
// unit throughout.
package solve
