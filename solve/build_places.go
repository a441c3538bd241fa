// Layer: questions.

package solve

import (
	"cmp"
	"math"
	"slices"

	"fullfree/linkage"
)

// event is about where a probe has an extreme, or passes 0.
type event struct {
	x     float64
	probe int
}

// eventsBetween adds those between two samples that judging looks for.
func (s *sweeper) eventsBetween(events []event, a, c *sample) []event {
	if !a.valid || !c.valid {
		return events
	}
	h := c.x - a.x
	turns := func(i int) {
		if da, dc := a.dv[i], c.dv[i]; da*dc < 0 && math.Abs(h)*math.Max(math.Abs(da), math.Abs(dc)) > s.p.probes[i].noise {
			events = append(events, event{a.x + float64(h*da/(da-dc)), i})
		}
	}
	passes := func(i int) {
		if va, vc := a.v[i], c.v[i]; va*vc < 0 && math.Max(math.Abs(va), math.Abs(vc)) > s.p.probes[i].noise {
			events = append(events, event{a.x + float64(h*va/(va-vc)), i})
		}
	}
	for i, t := range s.trackers {
		if t != nil && !(t.noLeast && t.noMost) {
			turns(i)
		}
	}
	for i := range s.m.run.Stops {
		turns(s.stops + i)
		passes(s.stops + i)
	}
	for _, k := range s.candidates {
		passes(k.probe)
	}
	for i := range s.judged {
		j := &s.judged[i]
		if s.m.run.Requirements[j.requirement].Kind != linkage.Sense {
			continue
		}
		passes(j.first)
		if j.aside != 0 {
			passes(j.aside)
		}
	}
	return events
}

// beyondShare is how far beyond where the travel of the run as drawn ends, as a share of
// all that is explored, a build is looked at in any case: its own end lies before that.
const beyondShare = 1.0 / 16

// placesAbout are places on either side of neutral, outward, between which each probe has
// one event at most.
func (s *sweeper) placesAbout(events []event) (places [2][]float64) {
	slices.SortStableFunc(events, func(a, b event) int { return cmp.Compare(math.Abs(a.x), math.Abs(b.x)) })
	for i, sd := range s.sides {
		limit := math.Abs(sd.w.last.x)
		end := math.Abs(sd.end.x) + float64(beyondShare*limit)
		last := make(map[int]float64) // by probe: its last event in this stretch
		add := func(x float64) {
			places[i] = append(places[i], float64(x*sd.w.dir))
			clear(last)
		}
		for _, e := range events {
			if e.x*sd.w.dir <= 0 {
				continue
			}
			x := math.Abs(e.x)
			if end > 0 && x > end && end < limit {
				add(end)
				end = 0
			}
			if before, again := last[e.probe]; again && x > before {
				add(before + float64(0.5*(x-before)))
			}
			last[e.probe] = x
		}
		if end > 0 && end < limit {
			add(end)
		}
	}
	return places
}
