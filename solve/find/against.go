package find

import (
	"slices"

	"fullfree/solve"
)

// againstStarts is from how many places a search goes on without a requirement.
const againstStarts = 2

// tellAgainst finds the requirements without each of which all others can be met.
func (s *search) tellAgainst(a *Answer) error {
	closest := s.best(-1, 1)[0]
	for i := range s.m.Run().Requirements {
		// What holds at the closest and could be dropped for another is of those that limit it.
		s.improveWithout(closest, i)
		best := s.best(i, 1)
		if len(best) == 0 || best[0].fareWithout(i).failed > 0 {
			continue
		}
		set, err := s.setting(best[0])
		if err != nil {
			return err
		}
		a.Against = append(a.Against, Against{s.m.Run().Requirements[i], set})
	}
	return s.tellInTheWay(a, closest)
}

// tellInTheWay finds, for everything that the closest setting misses, the best that meets
// it, and what falls short there.
func (s *search) tellInTheWay(a *Answer, closest *trial) error {
	for i, holds := range closest.holds {
		if holds {
			continue
		}
		way := InTheWay{Requirement: s.m.Run().Requirements[i]}
		var best *trial
		for _, t := range s.trials {
			if t.closes && t.holds[i] && (best == nil || compareFares(t.fare, best.fare) < 0) {
				best = t
			}
		}
		if best != nil {
			set, err := s.setting(best)
			if err != nil {
				return err
			}
			way.Best = set
			for k := range set.Check.Requirements {
				if set.Check.Requirements[k].Verdict != solve.Holds {
					way.Fails = append(way.Fails, s.m.Run().Requirements[k])
				}
			}
		}
		a.InTheWay = append(a.InTheWay, way)
	}
	return nil
}

// improveWithout seeks what is possible without a requirement, where something may take
// any value and nothing that was judged meets all others.
func (s *search) improveWithout(closest *trial, dropped int) {
	if len(s.ranges()) == 0 || slices.ContainsFunc(s.trials, func(t *trial) bool { return t.closes && t.fareWithout(dropped).failed == 0 }) {
		return
	}
	list := slices.Clone(s.trials)
	list = slices.DeleteFunc(list, func(t *trial) bool { return !t.closes || t.at == nil })
	slices.SortStableFunc(list, func(a, b *trial) int {
		switch x, y := a.merit(dropped), b.merit(dropped); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	from := s.apart(list)
	for _, t := range from[:min(againstStarts, len(from))] {
		s.improve(t, dropped, s.ranges())
	}
}
