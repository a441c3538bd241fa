package survey

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// Planned is something worth measuring, before it is measured.
type Planned struct {
	Kind     linkage.MeasurementKind
	From, To linkage.PlaceRef
	// Check says that the others determine the shape without it: it is there
	// so that a slip of the tape shows.
	Check bool
}

// MostPlanned is of how many places a plan is made: the time for it grows as the fourth power
// of their number, to a second at so many.
const MostPlanned = 100

// What a plan goes by.
const (
	// goodGain is how much of a distance must be new, as a share of what it
	// tells at all, to be taken while others are left to look at: less makes a
	// thin triangle, in which a millimeter of tape is many of place.
	goodGain = 0.3
	// leastGain is the same of a last resort; below it a distance tells nothing.
	leastGain = 0.02
	// wellChecked is the redundancy number from which a measurement counts as
	// checked by others: a slip shows by that share of itself.
	wellChecked = 0.05
	// tooNear is the shortest distance that is taped, as a share of the run's size.
	tooNear = 0.02
	// planTie is by how much a choice must be better than an earlier one: above
	// rounding, so that ties fall the same everywhere.
	planTie = 1e-9
)

// How easily a distance is taped: an easier one is taken first.
const (
	onOnePart   = iota // hole to hole on the bench
	alongRod           // rod end to rod end
	toAirframe         // to a place that stays where it is
	acrossParts        // anything else
	planTiers
)

// Plan chooses what to measure so that every point and pivot of a
// run that isn't exact is determined: distances, and where nothing else tells
// which way is level one direction. They are told with the easiest to tape
// first, and further distances that check them last. The run's own coordinates
// need only be roughly right. What can't be reached is left out of it. It is empty for
// more than MostPlanned places.
func Plan(run *linkage.Run, unreachable ...Planned) []Planned {
	if run.Validate() != nil || len(Places(run)) > MostPlanned {
		return nil
	}
	p := newPlanner(run, unreachable)
	var plan []Planned
	if level, ok := p.level(); ok {
		plan = append(plan, level)
	}
	for _, c := range p.determine() {
		plan = append(plan, Planned{Kind: linkage.Taped, From: c.from, To: c.to})
	}
	for _, c := range p.checks() {
		plan = append(plan, Planned{Kind: linkage.Taped, From: c.from, To: c.to, Check: true})
	}
	return plan
}

// PlanOf is what a run has been measured by, or is to be, as a plan: a distance is a check
// where those before it in the file tell it already.
func PlanOf(run *linkage.Run) []Planned {
	if run.Validate() != nil {
		return nil
	}
	var p *planner // nil: too much to be planned
	if len(Places(run)) <= MostPlanned {
		p = newPlanner(run, nil)
	}
	var plan []Planned
	for _, m := range run.Measurements {
		one := Planned{Kind: m.Kind, From: m.From, To: m.To}
		if p != nil && m.Kind == linkage.Taped {
			one.Check = p.known(one)
		}
		plan = append(plan, one)
	}
	return plan
}

// known takes a distance, and says whether it told nothing new.
func (p *planner) known(one Planned) bool {
	for i := range p.all {
		if c := &p.all[i]; one.sameLine(Planned{Kind: one.Kind, From: c.from, To: c.to}) {
			if c.left <= leastGain*leastGain {
				return true
			}
			p.take(i)
			return false
		}
	}
	return false
}

// sameLine says that two are the same, whichever end each begins at.
func (p Planned) sameLine(other Planned) bool {
	return p.Kind == other.Kind && (p.From.Same(other.From) && p.To.Same(other.To) || p.From.Same(other.To) && p.To.Same(other.From))
}

// Places returns the points and the pivots given by numbers of all parts
// of a run, in the file's order.
func Places(run *linkage.Run) []linkage.PlaceRef {
	var places []linkage.PlaceRef
	if run == nil {
		return nil
	}
	for _, part := range run.Parts {
		if part == nil {
			continue
		}
		if part.Motion == linkage.Turns && part.NamedPivot == nil {
			places = append(places, linkage.PlaceRef{Part: part, Point: -1})
		}
		for i := range part.Points {
			places = append(places, linkage.PlaceRef{Part: part, Point: i})
		}
	}
	return places
}

// planner chooses measurements of a run. Directions in the space of the
// unknown coordinates are rows.
type planner struct {
	run    *linkage.Run
	places []linkage.PlaceRef
	column []int // of a place's first unknown coordinate; -1: it is exact
	axes   int   // unknown coordinates of a place: 2 in a plane run, else 3
	width  int   // unknown coordinates in all
	free   [][]float64
	basis  [][]float64 // orthonormal: free, and what the taken distances tell
	all    []candidate
	chosen []candidate
	// unreachable is what can't be measured.
	unreachable []Planned
}

// reaches says whether the line of two places can be measured.
func (p *planner) reaches(kind linkage.MeasurementKind, from, to linkage.PlaceRef) bool {
	return !slices.ContainsFunc(p.unreachable, Planned{Kind: kind, From: from, To: to}.sameLine)
}

// candidate is a distance that could be taped.
type candidate struct {
	from, to linkage.PlaceRef
	tier     int
	row      []entry // what it tells: its derivative, at length 1
	left     float64 // of that, what the basis doesn't have: the square of its length
	taken    bool
	tapes    bool // it can be reached
}

// entry is a number of a row that isn't 0. A distance has them for its two ends alone.
type entry struct {
	at int // unknown coordinate
	is float64
}

// times returns a row times a whole one.
func times(row []entry, whole []float64) (sum float64) {
	for _, e := range row {
		sum += float64(e.is * whole[e.at])
	}
	return sum
}

// whole is a row with all its numbers.
func (p *planner) whole(row []entry) []float64 {
	list := make([]float64, p.width)
	for _, e := range row {
		list[e.at] += e.is
	}
	return list
}

func newPlanner(run *linkage.Run, unreachable []Planned) *planner {
	p := &planner{run: run, places: Places(run), axes: 3, unreachable: unreachable}
	if run.Plane {
		p.axes = 2
	}
	p.column = make([]int, len(p.places))
	for i, place := range p.places {
		p.column[i] = -1
		if !place.Part.Exact {
			p.column[i] = p.width
			p.width += p.axes
		}
	}
	p.free = p.freeMotions()
	for i := range p.places {
		for j := i + 1; j < len(p.places); j++ {
			if c, ok := p.candidate(i, j); ok {
				p.all = append(p.all, c)
			}
		}
	}
	for _, motion := range p.free {
		p.learn(motion)
	}
	return p
}

// learn takes a direction, orthonormal to the basis, into it.
func (p *planner) learn(direction []float64) {
	p.basis = append(p.basis, direction)
	for i := range p.all {
		part := times(p.all[i].row, direction)
		p.all[i].left = math.Max(0, p.all[i].left-float64(part*part))
	}
}

// take takes a distance.
func (p *planner) take(i int) {
	c := &p.all[i]
	rest, _ := num.Remainder(p.whole(c.row), p.basis)
	c.taken = true
	p.chosen = append(p.chosen, *c)
	p.learn(rest)
}

// freeMotions returns an orthonormal basis of the motions of the whole drawing
// that no distance tells of: all that leave the exact places where they are.
func (p *planner) freeMotions() [][]float64 {
	turns := []linkage.Vec{{Z: 1}}
	shifts := []linkage.Vec{{X: 1}, {Y: 1}}
	if p.axes == 3 {
		turns = append(turns, linkage.Vec{X: 1}, linkage.Vec{Y: 1})
		shifts = append(shifts, linkage.Vec{Z: 1})
	}
	size := p.run.Size()
	var moved, held [][]float64 // of unknown and of exact coordinates
	put := func(velocity func(linkage.Vec) linkage.Vec) {
		unknown, exact := make([]float64, p.width), []float64(nil)
		for i, place := range p.places {
			v := velocity(place.At())
			list := []float64{v.X, v.Y, v.Z}[:p.axes]
			if at := p.column[i]; at >= 0 {
				copy(unknown[at:], list)
			} else {
				exact = append(exact, list...)
			}
		}
		moved, held = append(moved, unknown), append(held, exact)
	}
	for _, s := range shifts {
		put(func(linkage.Vec) linkage.Vec { return s })
	}
	for _, t := range turns {
		put(func(at linkage.Vec) linkage.Vec { return t.Cross(at.Scale(1 / size)) })
	}
	// What moves an exact place is taken out, one motion for each that does.
	for at := range held[0] {
		most := 0
		for i := range held {
			if math.Abs(held[i][at]) > math.Abs(held[most][at]) {
				most = i
			}
		}
		if math.Abs(held[most][at]) <= leastGain {
			continue
		}
		for i := range held {
			if i != most {
				k := held[i][at] / held[most][at]
				num.AddScaled(held[i], held[most], -k)
				num.AddScaled(moved[i], moved[most], -k)
			}
		}
		held, moved = slices.Delete(held, most, most+1), slices.Delete(moved, most, most+1)
		if len(held) == 0 {
			return nil
		}
	}
	var basis [][]float64
	for _, row := range moved {
		if rest, gain := num.Remainder(row, basis); gain > leastGain {
			basis = append(basis, rest)
		}
	}
	return basis
}

// candidate returns the distance of two places, if it can be taped and tells
// anything.
func (p *planner) candidate(i, j int) (candidate, bool) {
	from, to := p.places[i], p.places[j]
	apart := to.At().Sub(from.At())
	if apart.Norm() < tooNear*p.run.Size() || p.column[i] < 0 && p.column[j] < 0 {
		return candidate{}, false
	}
	u := apart.Unit()
	c := candidate{from: from, to: to, tier: p.tier(from, to), left: 1, tapes: p.reaches(linkage.Taped, from, to)}
	square := 0.0
	for axis, v := range []float64{u.X, u.Y, u.Z}[:p.axes] {
		for _, end := range []entry{{p.column[i], -v}, {p.column[j], v}} {
			if end.at >= 0 {
				c.row = append(c.row, entry{end.at + axis, end.is})
				square += float64(end.is * end.is)
			}
		}
	}
	length := math.Sqrt(square)
	if length < goodGain {
		return candidate{}, false // along an axis that isn't asked for
	}
	for k := range c.row {
		c.row[k].is /= length
	}
	return c, true
}

// tier tells how easily a distance is taped.
func (p *planner) tier(from, to linkage.PlaceRef) int {
	if onOnePiece(from, to) {
		return onOnePart
	}
	for _, rod := range p.run.Rods {
		if isEnd(rod.From, from) && isEnd(rod.To, to) || isEnd(rod.From, to) && isEnd(rod.To, from) {
			return alongRod
		}
	}
	if stays(from) || stays(to) {
		return toAirframe
	}
	return acrossParts
}

// turnsOn reports whether a part's pivot is named after a place.
func turnsOn(part *linkage.Part, place linkage.PlaceRef) bool {
	return part.NamedPivot != nil && isEnd(*part.NamedPivot, place)
}

func isEnd(end linkage.PointRef, place linkage.PlaceRef) bool {
	return end.Part == place.Part && end.Point == place.Point
}

// stays reports whether a place doesn't move with the controls.
func stays(place linkage.PlaceRef) bool {
	return place.Part.Motion == linkage.Fixed || place.Point < 0 && place.Part.Carrier == nil
}

// level returns a direction to gauge, where the run could otherwise be turned
// in the plane of the drawing: that of the two holes of one part that lie
// furthest apart.
func (p *planner) level() (Planned, bool) {
	best, long := candidate{}, 0.0
	for _, c := range p.all {
		d := c.to.At().Sub(c.from.At())
		d.Z = 0
		if p.reaches(linkage.Gauged, c.from, c.to) && c.tier == onOnePart && d.Norm() > float64((1+planTie)*long) && p.turnsFreely(c) {
			best, long = c, d.Norm()
		}
	}
	if long == 0 {
		return Planned{}, false
	}
	// From left to right, or of what stands upright from below: so it reads
	// about what the face of an inclinometer shows.
	if d := best.to.At().Sub(best.from.At()); d.X+d.Y < 0 {
		best.from, best.to = best.to, best.from
	}
	return Planned{Kind: linkage.Gauged, From: best.from, To: best.to}, true
}

// turnsFreely reports whether a motion that no distance tells of turns the
// line of two places in the drawing.
func (p *planner) turnsFreely(c candidate) bool {
	d := c.to.At().Sub(c.from.At())
	square := linkage.Vec{X: -d.Y, Y: d.X}.Unit()
	row := make([]float64, p.width)
	for i, place := range p.places {
		at, sign := p.column[i], 0.0
		switch place {
		case c.from:
			sign = -1
		case c.to:
			sign = 1
		}
		if at >= 0 && sign != 0 {
			row[at], row[at+1] = float64(sign*square.X), float64(sign*square.Y)
		}
	}
	for _, motion := range p.free {
		if math.Abs(num.Dot(row, motion)) > leastGain*leastGain {
			return true
		}
	}
	return false
}

// determine takes distances until nothing is left that another would tell:
// the easy ones first, of those each time the one that tells most.
func (p *planner) determine() []candidate {
	for _, least := range []float64{goodGain, leastGain} {
		for tier := range planTiers {
			for p.takeBest(tier, least) {
			}
		}
	}
	return p.chosen
}

func (p *planner) takeBest(tier int, least float64) bool {
	best, most := -1, least
	for i := range p.all {
		if c := &p.all[i]; !c.taken && c.tier == tier && c.tapes {
			if gain := math.Sqrt(c.left); gain > most+planTie {
				best, most = i, gain
			}
		}
	}
	if best < 0 {
		return false
	}
	p.take(best)
	return true
}
