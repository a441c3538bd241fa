package render

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// oddArmsSays tells of arms given by distance and angle in a plane that their part
// doesn't turn in: about its axis they are shorter than they are written.
func oddArmsSays(run *linkage.Run) []string {
	var said []string
	for _, odd := range run.OddArms() {
		remedy := "Give its place as [x, y, z]."
		if odd.Suitable != "" {
			remedy = fmt.Sprintf("polar(length, degrees, %q) lies in the plane that it turns in.", odd.Suitable)
		}
		said = append(said, fmt.Sprintf("Look at %s.%s: its polar is %s long in the plane %s, and about the axis of %s its arm is only %s. %s",
			odd.Part.Name, odd.Part.Points[odd.Point].Name, figure.Length(odd.Length, run.UnitsOf(odd.Part.In)), odd.Plane, odd.Part.Name, figure.Length(odd.Arm, run.UnitsOf(odd.Part.In)), remedy))
	}
	return said
}
