// Layer: verdict.

package solve

import "fullfree/linkage"

// BreakingCable is a cable that is drawn harder somewhere than its wire stands.
type BreakingCable struct {
	Cable *linkage.Cable
	Pulls float64 // the most, in the travel of Sweep; the run's unit of force
	Takes float64 // what the wire does, in the same unit
	Sweep *Sweep
}

// Breaking lists the cables that would break, in the file's order, each where it is drawn
// hardest. A cable without a wire, or with one that nothing is known of, isn't among them.
func (r *Result) Breaking() (list []BreakingCable) {
	if r == nil || r.Run == nil {
		return nil
	}
	for i, c := range r.Run.Cables {
		if c.Wire == nil {
			continue
		}
		breaks, known := c.Wire.BreaksAt(r.Run.UnitsOf(c.In))
		if !known {
			continue
		}
		most := BreakingCable{Cable: c, Pulls: breaks, Takes: breaks}
		for _, s := range r.Sweeps {
			if t := s.Cables[i].Most; t != nil && *t >= most.Pulls {
				most.Sweep, most.Pulls = s, *t
			}
		}
		if most.Sweep != nil {
			list = append(list, most)
		}
	}
	return list
}

// SwappedConduit is a cable whose conduit would leave less core outside, were its ends
// held the other way round: written so, core and conduit would run past each other.
type SwappedConduit struct {
	Cable  *linkage.Cable
	Across float64 // the core outside then, run units; Cable.Drawn is it as written
}

// SwappedConduits lists those of a run, in the file's order.
func SwappedConduits(run *linkage.Run) (list []SwappedConduit) {
	if run == nil {
		return nil
	}
	for _, c := range run.Cables {
		if c.Open() {
			continue
		}
		legs := c.Legs()
		across := 0.0
		for i := range legs {
			across += legs[i][0].Get().At.Sub(legs[1-i][1].Get().At).Norm()
		}
		if across < c.Drawn {
			list = append(list, SwappedConduit{c, across})
		}
	}
	return list
}
