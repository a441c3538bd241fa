package render

import (
	"fmt"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// What is to be known beside the verdict: nothing that is required asks for it.

// Beside tells all of that where no report of the ends of the travel goes with it:
// each once, however many sweeps show it.
func Beside(r *solve.Result) []string {
	said := doubtsSays(r)
	for _, s := range r.Sweeps {
		for _, end := range s.Ends {
			if words := slackPast(s, end); words != "" && !slices.Contains(said, words) {
				said = append(said, words)
			}
		}
	}
	return said
}

// doubtsSays tells what of the drawing itself looks wrong.
func doubtsSays(r *solve.Result) []string {
	return slices.Concat(drawnSays(r), breakingSays(r), swappedSays(r.Run), oddArmsSays(r.Run), openJointsSays(r.Run))
}

// breakingSays tells which cables are drawn harder somewhere than their wire
// stands.
func breakingSays(r *solve.Result) []string {
	var said []string
	for _, b := range r.Breaking() {
		unit := r.Run.UnitsOf(b.Cable.In).ForceUnit()
		said = append(said, fmt.Sprintf("%s would break: it pulls up to %s in the travel of %s, and %s takes %s (FAA AC 43.13-1B, table 7-3).",
			b.Cable.Name, figure.Quantity(b.Pulls, unit), b.Sweep.Control.Name, b.Cable.Wire, figure.Quantity(b.Takes, unit)))
	}
	return said
}

// swappedSays tells of conduits whose ends would leave less core outside if they
// were held the other way round: written so, core and conduit would run past each
// other.
func swappedSays(run *linkage.Run) []string {
	var said []string
	for _, w := range solve.SwappedConduits(run) {
		c := w.Cable
		said = append(said, fmt.Sprintf("Look at the conduit of %s: held at %s at the from end and at %s at the to end it leaves %s of core outside, and the other way round %s.",
			c.Name, c.Conduit[0], c.Conduit[1], figure.Length(c.Drawn, run.UnitsOf(c.In)), figure.Length(w.Across, run.UnitsOf(c.In))))
	}
	return said
}
