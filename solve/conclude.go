// Layer: sweep.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// conclude fills in the sweep from what was followed.
func (s *sweeper) conclude() {
	w := s.sweep
	low, high := s.sides[0], s.sides[1]
	w.Low, w.High = low.end.x, high.end.x
	w.Explored = [2]float64{low.w.last.x, high.w.last.x}
	w.Lost = (low.w.lost || high.w.lost) && !w.CutShort
	s.concludeCritical()
	for i, sd := range s.sides {
		w.Ends[i] = s.endOf(sd)
	}
	if s.m.lean {
		s.concludeJudgedAlone()
		return
	}
	s.concludeStops()
	for i, probe := range s.parts {
		w.Parts[i].Extent = s.extent(probe)
		s.restate(&w.Parts[i])
	}
	for i, probe := range s.outputs {
		w.Outputs[i].Extent = s.extent(probe)
		w.Outputs[i].Ratio = s.ratio(w.Outputs[i].Unit, s.ratios[i])
		w.Outputs[i].Ratio.Reverses = s.reversesAt(probe)
	}
	s.concludeCycles()
	for l, rod := range s.m.run.Rods {
		travel := RodTravel{
			Rod: rod, Length: rod.Length, TiltFrom: asinDegrees(s.largest(s.tilts[l][0])), TiltTo: asinDegrees(s.largest(s.tilts[l][1])),
		}
		if rod.SecondPath {
			travel.SecondPath = s.secondPath(l)
		} else {
			travel.Angle = s.rodAngle(l)
		}
		w.Rods = append(w.Rods, travel)
	}
	s.concludeCables()
}

// extent reads a value off where it was followed. A tracker passes over what
// differs by rounding only, so the ends are taken in again.
func (s *sweeper) extent(probe int) Extent {
	t := s.trackers[probe]
	e := Extent{Neutral: s.origin.v[probe], AtLow: s.sides[0].end.v[probe], AtHigh: s.sides[1].end.v[probe]}
	e.Least = min(t.least, e.AtLow, e.AtHigh)
	e.Most = max(t.most, e.AtLow, e.AtHigh)
	return e
}

// restate puts the number of a stop that ends the travel in the place of what
// was computed for its part there: they are the same to rounding.
func (s *sweeper) restate(p *PartTravel) {
	for i, sd := range s.sides {
		if sd.stop == nil || sd.stop.Of != p.Part || p.Name != p.Part.Name && p.Name != p.Part.Name+".turn" {
			continue
		}
		noise, at := s.m.noiseOf(p.Unit, ContactNoise), s.m.off.stop(sd.stop)
		for _, v := range []*float64{&p.AtLow, &p.AtHigh}[i : i+1] {
			if math.Abs(*v-at) <= noise {
				*v = at
			}
		}
		for _, v := range []*float64{&p.Least, &p.Most} {
			if math.Abs(*v-at) <= noise {
				*v = at
			}
		}
	}
}

func (s *sweeper) largest(probe int) float64 {
	t := s.trackers[probe]
	return math.Max(math.Abs(t.least), math.Abs(t.most))
}

func (s *sweeper) rodAngle(l int) RodAngle {
	t := s.trackers[l]
	a := RodAngle{Least: asinDegrees(t.least), Part: s.m.drivenEnd(l)}
	if !t.steady(s.p.probes[l].noise) {
		at := t.leastAt
		a.At = &at
	}
	return a
}

// drivenEnd names the part at the end of a rod that its step moves: the to end
// where it moves both.
func (m *Mechanism) drivenEnd(l int) string {
	for i := range m.steps {
		s := &m.steps[i]
		if !slices.Contains(s.constraints, l) {
			continue
		}
		rod := m.constraints[l].rod
		if slices.Contains(s.within, m.constraints[l].to.body) {
			return rod.To.Owner()
		}
		return rod.From.Owner()
	}
	return ""
}

// A rate is infinite at a toggle if it grows, over the last samples before it, as
// the inverse of the sine that goes down to 0 there: at least nearly so.
// diverging is how much it must grow when the sine gets so much smaller: the
// power of 3/4 (by roots, which every processor rounds alike). nearing is how
// much smaller the sine must get to tell.
const nearing = 2

func diverging(nearer float64) float64 { return math.Sqrt(nearer * math.Sqrt(nearer)) }

// ratio reads a rate off where it was followed. At a toggle that halts what
// drives it, it is infinite, so there is no most.
func (s *sweeper) ratio(unit linkage.Unit, probe int) Ratio {
	t := s.trackers[probe]
	neutral, least, most := s.origin.v[probe], t.least, t.most
	if math.Abs(most) < math.Abs(least) {
		least, most = most, least
	}
	if t.least < 0 && t.most > 0 {
		least = 0
	}
	r := Ratio{Unit: unit + "/" + s.sweep.Unit, Neutral: &neutral, Least: &least, Most: &most, Low: t.least, High: t.most}
	for _, sd := range s.sides {
		last := sd.tail[len(sd.tail)-1]
		if sd.stop != nil || sd.end.valid || last == nil || sd.w.singularity == nil {
			continue
		}
		first := sd.tail[slices.IndexFunc(sd.tail[:], func(b *sample) bool { return b != nil })]
		nearer := 0.0
		for _, l := range s.m.steps[sd.w.singularity.step].constraints {
			nearer = max(nearer, first.v[l]/last.v[l])
		}
		before, now := math.Abs(first.v[probe]), math.Abs(last.v[probe])
		if nearer >= nearing && now > before*diverging(nearer) && now > s.p.probes[probe].noise {
			r.Most = nil
		}
	}
	return r
}

// reversesAt finds where a value is least or most inside the travel, beyond
// what it is at either end.
func (s *sweeper) reversesAt(probe int) []float64 {
	t, noise := s.trackers[probe], s.p.probes[probe].noise
	low, high := s.sides[0].end.v[probe], s.sides[1].end.v[probe]
	var at []float64
	if t.least < min(low, high)-noise {
		at = append(at, t.leastAt)
	}
	if t.most > max(low, high)+noise {
		at = append(at, t.mostAt)
	}
	slices.Sort(at)
	return at
}

func (s *sweeper) endOf(sd *side) End {
	e := End{At: sd.end.x, Cause: ByLimit}
	switch {
	case sd.stop != nil:
		e.Cause, e.Stop = ByStop, sd.stop
		e.Wear, e.Past = s.wear(sd), sd.past
		if sd.slack >= 0 {
			e.Slack = s.m.constraints[s.m.steps[sd.slack].constraints[0]].cablePaths[0].cable
		}
	case sd.w.singularity != nil && sd.end == sd.w.singularity.at:
		e.Cause = ByToggle
		if sd.w.singularity.kind == ChangePoint {
			e.Cause = ByChangePoint
		}
		e.Part, _ = s.m.shareOf(sd.w.singularity)
	}
	return e
}

// grazingRate is the rate of a gap, shares of the run's size for a radian or a
// share of the control's, below which the contact only grazes: then wear lets
// the control go on by the root of what is worn, not in proportion.
const grazingRate = 1e-6

// wear is how far the control goes on for each unit of length that a contact
// wears; nil for the angle of a turning part and where the contact only grazes.
func (s *sweeper) wear(sd *side) *float64 {
	stop := sd.stop
	if stop.Of != nil && stop.Of.Motion != linkage.Slides || !sd.end.valid {
		return nil
	}
	probe := s.stops + stop.Index
	rate := math.Abs(sd.end.dv[probe])
	if rate <= s.p.perControl(s.m.lengthNoise(grazingRate)) {
		return nil
	}
	wear := 1 / rate
	return &wear
}
