// Layer: pose.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// fahrenheit is how many degrees Fahrenheit a degree Celsius is.
const fahrenheit = 1.8

// Temper returns a run as it is at another temperature, degrees Celsius: each open
// cable grows by its free length times what it expands more than the airframe
// that it is strung in, times the difference from where it was drawn up
// (Cable.Grown, Run.Temperature). Rods and conduits stay: of those no figures are known, and so a
// run with a conduit cable is refused, as is one whose file leaves out what this
// needs. The error is *linkage.Faults.
func Temper(run *linkage.Run, celsius float64) (*linkage.Run, error) {
	if err := run.Validate(); err != nil {
		return nil, err
	}
	faults := &linkage.Faults{Source: run.Source}
	switch {
	case len(run.Cables) == 0:
		faults.Add(run.Span, "there is no open cable in this run, so the temperature changes nothing that could be told")
	case math.IsNaN(celsius) || math.IsInf(celsius, 0):
		faults.Add(run.Span, "the temperature is no number of degrees Celsius")
	}
	var homes []*linkage.Run // that have open cables: the run, or those of an aircraft
	for _, c := range run.Cables {
		if home := run.Home(c.In); c.Open() && !slices.Contains(homes, home) {
			homes = append(homes, home)
		}
	}
	for _, home := range homes {
		if home.RiggedAt == nil {
			faults.Add(home.Span, "what the temperature does can't be told without the one at which the cables were drawn up: say rigged-at = 15 (degrees Celsius) in the run")
		}
		if _, known := home.AirframeExpansion(); !known {
			faults.Add(home.Span, `what the temperature does can't be told without what the airframe is of: say airframe = "6061-T6" or "steel" in the run`)
		}
	}
	for _, c := range run.Cables {
		switch {
		case !c.Open():
			faults.Add(c.Span, "what the temperature does to the conduit cable %q can't be told: no figures are known of how core and conduit grow together", c.Name)
		case c.Wire == nil:
			faults.Add(c.Span, "what the temperature does to the cable %q can't be told without what it is made of: give wire and run in the place of stiffness", c.Name)
		case c.Wire.Stainless:
			faults.Add(c.Span, "what the temperature does to the cable %q can't be told: no figure of how much a stainless one grows is known here", c.Name)
		case c.Length == 0:
			faults.Add(c.Span, "what the temperature does to the cable %q can't be told without its free length: give run", c.Name)
		}
	}
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	grown := make([]float64, len(run.Cables))
	for i, c := range run.Cables {
		home := run.Home(c.In)
		own, _ := c.Wire.Expansion()
		airframe, _ := home.AirframeExpansion()
		grown[i] = float64(c.Length * (own - airframe) * fahrenheit * (celsius - *home.RiggedAt))
	}
	return run.With(linkage.Temper(celsius, grown))
}
