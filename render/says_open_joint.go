package render

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// openJointsSays tells of joints whose points don't meet as drawn: they were pulled
// together, so that the run doesn't stand at neutral as it is drawn.
func openJointsSays(run *linkage.Run) []string {
	var said []string
	for _, j := range run.OpenJoints() {
		said = append(said, fmt.Sprintf("Look at the joint %s: %s and %s are drawn %s apart, and were pulled together. Drawn at one place, they would stand as drawn.",
			j.Name, j.Of[0], j.Of[1], figure.Length(j.Gap, run.UnitsOf(j.In))))
	}
	return said
}
