package tolerance

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve"
)

// A builder doesn't bolt a run up as its parts come: rods are turned until their bolts
// slide in with the rig pins in, by the whole steps that their ends can make, and stops are
// set, by their steps, to where the travel that is required is reached. What the parts are
// out by is mostly gone then, and what is left is what a step leaves.

// rigging says what is set in a build.
type rigging int

const (
	bySteps  rigging = iota // as a builder does
	smoothly                // as if steps were as small as may be, for derivatives
)

// reaching is a stop that is set to a travel.
type reaching struct {
	*solve.Reaching
	variable int
}

// make puts a build together of what was drawn: variable kept, where it isn't -1, is not
// rigged. Smoothly, what was drawn of what is rigged is left in it in the end.
func (s *search) make(r *room, how rigging, kept int) error {
	b := &r.build
	clear(b.Dimensions)
	clear(b.Stops)
	clear(r.turns)
	copy(r.left, r.drawn)
	for i := range s.variables {
		v := &s.variables[i]
		switch {
		case how == smoothly && v.Rigged && i != kept: // comes last
		case v.dimension >= 0:
			b.Dimensions[v.dimension] = r.drawn[i]
		default:
			b.Stops[v.stop] = r.drawn[i]
		}
	}
	if err := s.rigRods(r, how, kept); err != nil {
		return err
	}
	for _, k := range s.reaching {
		if k.variable != kept {
			s.rigStop(r, how, k)
		}
	}
	return nil
}

// rigRods sets the rods to the pins.
func (s *search) rigRods(r *room, how rigging, kept int) (err error) {
	if len(s.answer.RiggedRods) == 0 {
		return nil
	}
	b := &r.build
	if r.pinned, err = r.shop.pinned(b, r.pinned); err != nil {
		return err
	}
	for i := range s.variables {
		v := &s.variables[i]
		if v.rod < 0 || i == kept || r.pinned[v.rod] == 0 {
			continue
		}
		rod := s.run.Rods[v.rod]
		longer := r.pinned[v.rod] - (rod.Length + b.Dimensions[v.dimension])
		if how == smoothly {
			b.Dimensions[v.dimension] += longer + r.drawn[i]
			continue
		}
		t := solve.NearestTurn(rod, longer)
		by := float64(t.Turns * t.End.PerTurn())
		b.Dimensions[v.dimension] += by
		r.left[i] = by - longer
		r.turns[v.rod] = turned{t.End, t.Turns}
	}
	return nil
}

// rigStop sets a stop to where the travel that is required is reached; one that doesn't
// reach it is left as it is.
func (s *search) rigStop(r *room, how rigging, k reaching) {
	b, v := &r.build, &s.variables[k.variable]
	at, ok := r.shop.where(b, k.Reaching)
	if !ok {
		if how == smoothly {
			b.Stops[v.stop] += r.drawn[k.variable]
		}
		return
	}
	stop := s.run.Stops[v.stop]
	off := at - (stop.At + b.Stops[v.stop])
	if how == smoothly {
		b.Stops[v.stop] += off + r.drawn[k.variable]
		return
	}
	steps := math.Round(off / stop.Step)
	least, most := stepsTo(stop)
	steps = math.Max(least, math.Min(most, steps))
	by := float64(steps * stop.Step)
	b.Stops[v.stop] += by
	r.left[k.variable] = by - off
}

// stepsTo is how many steps a stop can be set down and up.
func stepsTo(s *linkage.Stop) (least, most float64) {
	return math.Ceil((s.Adjust[0]-s.At)/s.Step - solve.StepNoise), math.Floor((s.Adjust[1]-s.At)/s.Step + solve.StepNoise)
}

// rigAsDrilled rigs the run without anything out: what builds are held against.
func rigAsDrilled(m *solve.Mechanism, run *linkage.Run, asDrilled bool) (*solve.Mechanism, *solve.Result, []*solve.Reaching, error) {
	var edits []linkage.Edit
	pinned := m.Pinned()
	for i, r := range run.Rods {
		rigged := !asDrilled && isRigged(&pinned[i])
		if !r.LengthGiven && (rigged || r.Tolerance != nil) {
			edits = append(edits, linkage.Set(linkage.Dimension{Rod: r, Point: -1}, r.Length))
		}
		if rigged && pinned[i].Turn.Turns != 0 {
			edits = append(edits, linkage.Turn(pinned[i].Turn.End, pinned[i].Turn.Turns))
		}
	}
	check := func(edits []linkage.Edit) (n *solve.Mechanism, r *solve.Result, err error) {
		changed, err := run.With(edits...)
		if err != nil {
			return nil, nil, err
		}
		if n, err = solve.Compile(changed); err != nil {
			return nil, nil, err
		}
		r, err = n.Check()
		return n, r, err
	}
	n, result, err := check(edits)
	if err != nil || asDrilled {
		return n, result, nil, err
	}
	stops := reachable(result)
	if len(stops) == 0 {
		return n, result, nil, nil
	}
	shop := newLongShop(n, result)
	none := &solve.Build{Dimensions: make([]float64, len(n.Run().Dimensions())), Stops: make([]float64, len(n.Run().Stops))}
	set := edits
	for _, k := range stops {
		at, ok := shop.where(none, k)
		if !ok {
			continue
		}
		least, most := stepsTo(k.Stop)
		steps := math.Max(least, math.Min(most, math.Round((at-k.Stop.At)/k.Stop.Step)))
		if steps != 0 {
			set = append(set, linkage.SetStop(k.Stop, k.Stop.At+float64(steps*k.Stop.Step)))
		}
		k.From = at
	}
	if n, result, err = check(set); err != nil {
		return nil, nil, nil, err
	}
	return n, result, reachable(result), nil
}

// isRigged reports whether a rod is set to the pins: they tell its length, and it has an end
// that makes it longer or shorter.
func isRigged(r *solve.PinnedRod) bool { return r.Length != nil && r.Turn != nil }

// reachable are the stops that are set to a travel: those with adjust that end the travel of
// a control, the others at neutral, where a travel of something that it moves is required.
func reachable(r *solve.Result) (list []*solve.Reaching) {
	known := map[*linkage.Stop]bool{}
	for _, w := range r.Sweeps {
		neutral := true
		for _, h := range w.Held {
			neutral = neutral && h.At == 0
		}
		if !neutral {
			continue
		}
		for side, e := range w.Ends {
			s := e.Stop
			if e.Cause != solve.ByStop || s == nil || s.Adjust == nil || s.Of == nil || known[s] || e.Slack != nil {
				continue
			}
			for _, q := range r.Run.Requirements {
				if q.Kind != linkage.Travel || q.Control != nil && q.Control != w.Control {
					continue
				}
				figure, ok := figureAt(w, q, side)
				if !ok {
					continue
				}
				known[s] = true
				list = append(list, &solve.Reaching{Stop: s, Of: q.Of[0], Figure: figure, Control: w.Control, From: e.At})
				break
			}
		}
	}
	return list
}

// figureAt is which figure of a travel is to be reached on a side of a sweep.
func figureAt(w *solve.Sweep, q *linkage.Requirement, side int) (figure float64, ok bool) {
	at := func(e solve.Extent) bool {
		end := e.AtLow
		if side == 1 {
			end = e.AtHigh
		}
		if end == e.Neutral {
			return false
		}
		figure = q.Low
		if end > e.Neutral {
			figure = q.High
		}
		return figure != e.Neutral && (figure > e.Neutral) == (end > e.Neutral)
	}
	for _, o := range w.Outputs {
		if o.Output == q.Of[0].Output {
			return figure, at(o.Extent)
		}
	}
	for _, p := range w.Parts {
		if q.Of[0].Part != nil && p.Part == q.Of[0].Part && p.Name == p.Part.Name {
			return figure, at(p.Extent)
		}
	}
	return 0, false
}
