// Layer: sweep.

package solve

import (
	"math"

	"fullfree/linkage"
)

// A stop that is lost by a hair is worth more to a builder than one that isn't
// there: by how much it misses says what to bend. So of every stop is kept how near
// it comes on a side on which it doesn't bite, and what lies on center before it.

// nearMiss is the gap of metal, mm, or what is left to the number of a stop, mm or
// degrees, or of the control's travel past on center, up to which a stop is a near
// miss: what is bent or filed without a new part.
const nearMiss = 1.0

// nearShare is the gap, as a share of the run's size, up to which a stop that bites on
// one side has what it is missed by on the other kept: a few millimeters of a run half
// a meter large, so that none that is a near miss is passed over. Of degrees it is
// nearMiss.
const nearShare = 0.005

// mmPerInch is the length of an inch, exactly.
const mmPerInch = 25.4

// StopMiss is how a stop is missed on a side of the travel, or comes too late.
type StopMiss struct {
	Side string // of the travel: "low" or "high"
	// Late says that the stop does bite on that side, but past OnCenter.
	Late bool
	// Gap is what is left at At of the control: between the metal, or to the number
	// of the stop in its part's unit. It is the least on the side, or where OnCenter
	// is set what is left there.
	Gap  float64
	Unit linkage.Unit
	At   float64
	// OnCenter is the on-center point at At; nil where it just comes no nearer.
	OnCenter *Critical
	// After is how far past OnCenter the control comes to the stop or, past where
	// something locks up, would come if only that let it go on; nil where it isn't
	// met there, or hangs itself on what locks up.
	After *float64
	// Near says that Gap or After is next to nothing: up to a millimeter or a degree.
	Near bool
}

// approach is where a stop comes nearest on a side, once it has come nearer at all.
type approach struct {
	gap, at float64
	seen    bool
}

// seekNearest takes the stretch between two neighboring samples into account for
// the stops that haven't bitten on a side.
func (s *sweeper) seekNearest(sd *side, a, b *sample) {
	for i := range s.m.run.Stops {
		if sd.bites[i] != nil {
			continue
		}
		k, probe := &sd.near[i], s.stops+i
		noise := s.p.probes[probe].noise
		va, vb := a.v[probe], b.v[probe]
		if vb < va-noise && (!k.seen || vb < k.gap) {
			*k = approach{vb, b.x, true}
		}
		da, db := float64(a.dv[probe]*sd.w.dir), float64(b.dv[probe]*sd.w.dir)
		h := math.Abs(b.x - a.x)
		if !a.valid || !b.valid || da >= 0 || db <= 0 || -da*h <= noise ||
			k.seen && math.Min(va, vb)-float64(h*math.Max(-da, db)) >= k.gap {
			continue
		}
		if v, x, ok := s.p.extreme(a, b, probe); ok && (!k.seen || v < k.gap) {
			*k = approach{v, x, true}
		}
	}
}

// concludeStops tells where each stop bites or would bite, and where it doesn't by
// how much it is missed.
func (s *sweeper) concludeStops() {
	after := [2]map[string]float64{s.pastLocked(s.sides[0]), s.pastLocked(s.sides[1])}
	for i, stop := range s.m.run.Stops {
		bitten := s.sides[0].bites[i] != nil || s.sides[1].bites[i] != nil
		var told []StopBite
		var missed *StopMiss
		for k, sd := range s.sides {
			if at := sd.bites[i]; at != nil {
				told = append(told, StopBite{Stop: stop, At: at, Bites: sd.stop == stop, Miss: s.tooLate(sd, stop, *at)})
				continue
			}
			miss := s.missOf(sd, stop)
			if miss == nil || bitten && !s.comesNear(miss) {
				continue
			}
			if past, ok := after[k][stop.Name]; ok {
				miss.After = &past
			}
			if s.setNear(miss); missed == nil || miss.nearer(missed) {
				missed = miss
			}
		}
		if len(told) == 0 {
			told = []StopBite{{Stop: stop}}
		}
		if missed != nil && (told[0].Miss == nil || missed.Near) {
			told[0].Miss = missed
		}
		s.sweep.Stops = append(s.sweep.Stops, told...)
	}
}

// nearer reports whether a stop is missed by less than on the other side: by a turn
// past on center, where both are met there or one is, else by the gap.
func (miss *StopMiss) nearer(other *StopMiss) bool {
	switch {
	case miss.After != nil && other.After != nil:
		return *miss.After < *other.After
	case miss.After != nil || other.After != nil:
		return miss.After != nil
	}
	return miss.Gap < other.Gap
}

// setNear says whether a stop is missed by next to nothing.
func (s *sweeper) setNear(miss *StopMiss) {
	near := func(v float64, unit linkage.Unit) bool {
		if unit == linkage.Inches {
			v = float64(v * mmPerInch)
		}
		return v <= nearMiss
	}
	miss.Near = near(miss.Gap, miss.Unit) || miss.After != nil && near(*miss.After, s.sweep.Unit)
}

// comesNear reports whether a stop that bites on the other side comes near enough on
// this one to be kept.
func (s *sweeper) comesNear(miss *StopMiss) bool {
	if miss.Unit == degrees {
		return miss.Gap <= nearMiss
	}
	return miss.Gap <= nearShare*s.m.sizeFor(miss.Unit)
}

// missOf tells how near a stop comes on a side on which it doesn't bite; nil where
// it only goes away.
func (s *sweeper) missOf(sd *side, stop *linkage.Stop) *StopMiss {
	k := &sd.near[stop.Index]
	if !k.seen || k.gap >= math.MaxFloat64 {
		return nil
	}
	miss := &StopMiss{Side: s.sideName(sd), Gap: math.Max(0, k.gap), Unit: s.m.gapUnit(stop), At: k.at}
	c := sd.w.singularity
	switch {
	case c == nil:
	case s.hangsOn(sd, c.step): // nothing is felt of it, and what comes beyond is another
		return nil
	case c.at.v[s.stops+stop.Index] <= k.gap+s.m.stopNoise(stop):
		miss.At, miss.OnCenter = c.x, s.criticalAt(c.x, c.kind)
	}
	return miss
}

// tooLate tells of a stop that bites past a dead center what is left of its gap
// there; nil where none lies before it. Of several it is the last.
func (s *sweeper) tooLate(sd *side, stop *linkage.Stop, at float64) *StopMiss {
	var last *deadCenter
	for i := range s.dead {
		h := &s.dead[i]
		if h.output != nil || s.sideOf(h.x) != sd || s.hangsOn(sd, h.step) || (at-h.x)*sd.w.dir <= tieOfStops*math.Abs(at) {
			continue
		}
		if last == nil || (h.x-last.x)*sd.w.dir > 0 {
			last = h
		}
	}
	if last == nil {
		return nil
	}
	after := float64((at - last.x) * sd.w.dir)
	miss := &StopMiss{
		Side: s.sideName(sd), Late: true, Gap: math.Max(0, last.gaps[stop.Index]), Unit: s.m.gapUnit(stop), At: last.x,
		OnCenter: s.criticalAt(last.x, DeadCenter), After: &after,
	}
	s.setNear(miss)
	return miss
}

// criticalAt is the on-center point told at a place; of parts that halt together
// another than the one asked for may be told.
func (s *sweeper) criticalAt(x float64, kind CriticalKind) *Critical {
	for i := range s.sweep.Critical {
		c := &s.sweep.Critical[i]
		if c.Kind == kind && math.Abs(c.At-x) <= tieOfStops*math.Max(1, math.Abs(x)) {
			return c
		}
	}
	return nil
}

// pastLocked finds which stops would bite past the place where a side ends since
// something locks up, and how far past it, if only what locks up let the control go
// on: stops that don't hang on that themselves, close there, and either bite nowhere
// or are missed by next to nothing.
func (s *sweeper) pastLocked(sd *side) map[string]float64 {
	c := sd.w.singularity
	if c == nil {
		return nil
	}
	wanted := map[string]bool{}
	for i, stop := range s.m.run.Stops {
		miss := s.missOf(sd, stop)
		bitten := s.sides[0].bites[i] != nil || s.sides[1].bites[i] != nil
		if miss == nil || miss.OnCenter == nil {
			continue
		}
		if !bitten || s.comesNear(miss) {
			wanted[stop.Name] = true
		}
	}
	moved := s.m.movedWith(s.m.steps[c.step].unknowns)
	if len(wanted) == 0 || s.m.isMoved(s.m.bodies[s.m.freedoms[s.p.input].body].carrier, moved) {
		return nil
	}
	var gone []linkage.Element
	for b := range s.m.bodies {
		if part := s.m.bodies[b].part; part != nil && s.m.isMoved(b, moved) {
			gone = append(gone, part)
		}
	}
	run, err := s.m.run.With(linkage.Bare(), linkage.Remove(gone...))
	if err != nil {
		return nil
	}
	o, on := s.onward(run, c.at, sd)
	if o == nil {
		return nil
	}
	met := map[string]float64{}
	left := 0
	for i, stop := range o.m.run.Stops {
		if wanted[stop.Name] {
			left++
		}
		if closing(on.w, o.origin, o.stops+i, o.m.stopNoise(stop)) {
			on.bites[i] = &o.origin.x
		}
	}
	o.goOn(on, s.limitOf(sd), func(a, b *sample) { o.firstBite(on, a, b) }, func() bool {
		for i, stop := range o.m.run.Stops {
			if at := on.bites[i]; at != nil && wanted[stop.Name] {
				met[stop.Name] = float64((*at - c.x) * sd.w.dir)
			}
		}
		return len(met) < left
	})
	return met
}

func (s *sweeper) sideName(sd *side) string { return [2]string{"low", "high"}[sd.index] }
