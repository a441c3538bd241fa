package picture

import (
	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// stops charts how far off every stop is: angles and lengths apart.
func (m *charter) stops() {
	for _, unit := range []linkage.Unit{"deg", m.result.Run.Units} {
		var list []wanted
		m.each(solve.SeriesStop, func(i int, s *solve.Series) {
			if s.Unit == unit {
				list = append(list, wanted{
					chartLine: chartLine{name: figure.Clean(s.Name), series: i},
					worse:     func(v float64) float64 { return -v },
					say:       func(v float64) string { return figure.Quantity(v, unit) },
				})
			}
		})
		title, axis := "Gap to each stop, as an angle", "to go until it bites, "
		if unit != linkage.Degrees {
			title, axis = "Gap to each stop, as a length", "until it touches, "
		}
		c := m.blank(title, axis+unitAxis(unit), unit)
		c.single = func(name string) string { return "Gap to the stop " + name }
		c.limits = []chartLimit{{says: "bites", at: 0, side: -1}}
		m.spread(c, list)
	}
}

// clearances charts what shall keep apart: what shall keep as far apart on one
// chart.
func (m *charter) clearances() {
	var leasts []float64
	groups := map[float64][]wanted{}
	unit := m.result.Run.Units
	m.each(solve.SeriesRequirement, func(i int, s *solve.Series) {
		r := s.Requirement
		if r.Kind != linkage.Clearance {
			return
		}
		if groups[r.Least] == nil {
			leasts = append(leasts, r.Least)
		}
		groups[r.Least] = append(groups[r.Least], wanted{
			chartLine: chartLine{name: figure.Clean(r.Between[0].String() + " to " + r.Between[1].String()), series: i},
			worse:     func(v float64) float64 { return -v },
			judge:     m.judged(r),
			say:       func(v float64) string { return figure.Readable(v, r.Least, unit) },
		})
	})
	for _, least := range leasts {
		c := m.blank("Clearance, at least "+figure.Given(least, unit), "gap, "+unitAxis(unit), unit)
		c.single = func(name string) string { return "Clearance: " + name }
		c.limits = []chartLimit{{says: "at least " + figure.Given(least, unit), at: least, side: -1}}
		m.spread(c, groups[least])
	}
}
