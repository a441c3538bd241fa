package linkage_test

import (
	"fmt"

	"fullfree/linkage"
)

// What a builder gets wrong is told by the rules of a file, with the block that it is
// about.
func ExampleBuilder() {
	b := linkage.NewBuilder("Throttle", linkage.RunSpec{Units: linkage.Millimeters})
	b.Part("lever", linkage.PartSpec{
		Pivot:  &linkage.Vec{},
		Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{Y: 50}}},
	})
	b.Part("arm", linkage.PartSpec{
		Pivot:  &linkage.Vec{X: 200},
		Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{Y: 60}, Arm: true}}, // from the pivot
	})
	b.Rod("link", linkage.RodSpec{From: "lever.eye", To: "arm.eye", Length: -200})
	b.Control("hand", linkage.ControlSpec{Of: "lever"})
	if _, err := b.Run(); err != nil {
		fmt.Println(err)
	}
	// Output:
	// rod "link", length: a rod's length is more than 0, hole to hole
}
