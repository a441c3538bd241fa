package solve_test

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/solve"
)

// From a file to a verdict.
func Example() {
	run, err := linkage.Read(&linkage.Source{Name: "throttle.hcl", Text: []byte(`
run "Throttle" { units = "mm" }
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 50] }
}
part "arm" {
  pivot  = [200, 0]
  points = { eye = [200, 50] }
}
rod "link" {
  from = lever.eye
  to   = arm.eye
}
control "hand" {
  of   = lever
  from = -30
  to   = 30
}
require "together" {
  of     = [lever, arm]
  within = 0.5
}
`)})
	if err != nil {
		fmt.Println(err) // every fault, with its line
		return
	}
	m, err := solve.Compile(run)
	if err != nil {
		fmt.Println(err)
		return
	}
	result, err := m.Check()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, j := range result.Requirements {
		fmt.Printf("%s: holds %t, %.1f %s of %.1f\n", j.Requirement.Kind, j.Verdict == solve.Holds, *j.Worst, j.Unit, j.Limit)
	}
	// Output:
	// together: holds true, 0.0 deg of 0.5
}

// From a run that a program puts together to where its parts are.
func ExampleSweep_At() {
	b := linkage.NewBuilder("Throttle", linkage.RunSpec{Units: linkage.Millimeters})
	b.Part("lever", linkage.PartSpec{Pivot: &linkage.Vec{}, Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{Y: 50}}}})
	b.Part("arm", linkage.PartSpec{Pivot: &linkage.Vec{X: 200}, Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{Y: 100}, Arm: true}}})
	b.Rod("link", linkage.RodSpec{From: "lever.eye", To: "arm.eye"})
	b.Control("hand", linkage.ControlSpec{Of: "lever"})
	b.Stop("forward", linkage.StopSpec{Of: "lever", At: -40})
	run, err := b.Run()
	if err != nil {
		fmt.Println(err) // every fault, with its block
		return
	}
	m, err := solve.Compile(run)
	if err != nil {
		fmt.Println(err)
		return
	}
	sweep, err := m.Sweep(run.Controls[0], nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("goes from %.0f, a %s\n", sweep.Low, sweep.Ends[0].Cause)
	pose, ok := sweep.At(-20)
	if !ok {
		fmt.Println("that is not explored")
		return
	}
	eye := pose.Point(run.Rods[0].To)
	fmt.Printf("the arm turns %.1f degrees, its eye is at %.1f, %.1f\n", pose.Travel(run.Parts[1]), eye.X, eye.Y)
	// Output:
	// goes from -40, a stop
	// the arm turns -9.6 degrees, its eye is at 216.7, 98.6
}
