// Layer: questions.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// trend fits each candidate of group 1 to the readings of each date by
// themselves. A zero is that of all gauges that read the same; what the
// readings of a date don't depend on has no point there.
func (g *diagnoser) trend(dates []string) {
	if len(dates) < 2 {
		return
	}
	var at []*readings
	for _, date := range dates {
		var of []*linkage.Rigging
		for _, r := range g.m.run.Riggings {
			if r.Date == date {
				of = append(of, r)
			}
		}
		at = append(at, g.newReadings(of))
	}
	for _, c := range g.likely() {
		for i, date := range dates {
			point := TrendPoint{Dimension: c.Dimension, Date: date}
			switch r := at[i]; {
			case c.Zero != nil:
				same := func(r *linkage.Rigging) bool { return sameGauge(r.Of, c.Zero.Of) }
				if !slices.ContainsFunc(r.blocks, func(b block) bool { return same(b.rigging) }) {
					continue
				}
				point.Estimate, point.SE, _ = r.fitZero(same)
			default:
				f, ok := g.fit(r, *c.Dim)
				if !ok {
					continue
				}
				if point.Estimate, point.SE = f.value, f.se; !f.told {
					point.SE = g.spread(r, *c.Dim, f.trial)
				}
			}
			g.d.Trend = append(g.d.Trend, point)
		}
	}
}
