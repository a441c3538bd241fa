package calls

import (
	"fullfree/linkage"
	finder "fullfree/solve/find"
	"fullfree/solve/rig"
)

// SettingOf lists the numbers of a file that a setting changes.
func SettingOf(s *rig.Setting) []linkage.Change {
	run := s.Check.Run
	var ends []*linkage.RodEnd
	for _, t := range s.Turns {
		ends = append(ends, run.RodEnd(t.End))
	}
	var stops []*linkage.Stop
	for _, t := range s.Stops {
		stops = append(stops, run.Stop(t.Stop))
	}
	return NumbersOf(ends, stops)
}

// NumbersOf lists the numbers of a file that tell how rod ends and stops are set.
func NumbersOf(ends []*linkage.RodEnd, stops []*linkage.Stop) []linkage.Change {
	var changes []linkage.Change
	told := map[*linkage.Rod]bool{}
	for _, end := range ends {
		rod := end.Rod
		if told[rod] {
			continue
		}
		told[rod] = true
		changes = append(changes, linkage.Change{Dimension: rod.Name + ".length", Value: rod.Length})
		for _, e := range rod.Ends {
			changes = append(changes, linkage.Change{Dimension: e.String() + ".engaged", Value: e.Engaged})
		}
	}
	for _, stop := range stops {
		changes = append(changes, linkage.Change{Dimension: stop.Name + ".at", Value: stop.At})
	}
	return changes
}

// FoundNumbers lists the numbers of a file that a setting changes.
func FoundNumbers(s *finder.Setting) []linkage.Change {
	var changes []linkage.Change
	var ends []*linkage.RodEnd
	for i := range s.Values {
		v := &s.Values[i]
		switch {
		case !v.Changes():
		case v.End != nil:
			ends = append(ends, s.Check.Run.RodEnd(v.End))
		default:
			for k, n := range v.Vary.Numbers {
				if v.Is[k] != v.Filed[k] {
					changes = append(changes, linkage.Change{Dimension: n.String(), Value: v.Is[k]})
				}
			}
		}
	}
	return append(changes, NumbersOf(ends, nil)...)
}

// coresOf lists the numbers of the file that tell how the nuts of cables are set.
func coresOf(nuts []*linkage.CableEnd) []linkage.Change {
	var changes []linkage.Change
	told := map[*linkage.Cable]bool{}
	for _, nut := range nuts {
		c := nut.Cable
		if told[c] || c.Pair != nil {
			continue
		}
		told[c] = true
		changes = append(changes, linkage.Change{Dimension: c.Name + ".core", Value: c.Core - c.Taken})
		for _, e := range c.Ends {
			changes = append(changes, linkage.Change{Dimension: e.String() + ".engaged", Value: e.Engaged})
		}
	}
	return changes
}
