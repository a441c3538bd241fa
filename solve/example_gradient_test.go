package solve_test

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/solve"
)

// How far the rocker of a four-bar turns for each millimeter of every dimension,
// the crank left where it stands, at the end of its travel.
func ExampleSweep_Gradient() {
	run, err := linkage.Read(&linkage.Source{Name: "four-bar.hcl", Text: []byte(`run "Four-bar" {
  units = "mm"
}
part "crank" {
  pivot = [0, 0]
  arms  = { pin = polar(40, 90) }
}
part "rocker" {
  pivot = [100, 0]
  arms  = { pin = polar(80, 90) }
}
rod "coupler" {
  from = crank.pin
  to   = rocker.pin
}
control "hand" {
  of   = crank
  from = -20
  to   = 20
}
`)})
	if err != nil {
		fmt.Println(err)
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
	for _, series := range sweep.Series() {
		if series.Kind != solve.SeriesPart || series.Name != "rocker" {
			continue
		}
		gradient, ok := sweep.Gradient(20, series)
		if !ok {
			return
		}
		for i, d := range run.Dimensions() {
			if by := gradient.Dimensions[i]; by != 0 {
				fmt.Printf("%-15s %7.4f %s/%s\n", d, by, series.Unit, run.Units)
			}
		}
	}
	// Output:
	// crank.pivot.x    0.0032 deg/mm
	// crank.pivot.y   -0.0078 deg/mm
	// crank.pin.x     -0.0517 deg/mm
	// crank.pin.y      0.2407 deg/mm
	// rocker.pivot.x  -0.0032 deg/mm
	// rocker.pivot.y   0.0078 deg/mm
	// rocker.pin.x     0.0357 deg/mm
	// rocker.pin.y    -0.1164 deg/mm
	// coupler.length  -0.7330 deg/mm
}
