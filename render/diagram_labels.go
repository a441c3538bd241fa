package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
)

const (
	rodTextGap   = 4.0 // between a rod's text and the rod
	balloonRound = 10.5
	balloonNear  = 24.0
	nameWidth    = 150.0 // of the names of stops in the picture
	leaderFrom   = 7.0   // sheet units from a text to what it is about: farther, a line joins them
)

// directions draws the FWD and UP arrows, where the file tells them, in the
// free corner of the view.
func (dr *drawing) directions() {
	const long, shown, beyond = 28.0, 0.3, 24.0
	var l label
	low, high := place{}, place{}
	reach := func(p place) {
		low, high = place{math.Min(low.x, p.x), math.Min(low.y, p.y)}, place{math.Max(high.x, p.x), math.Max(high.y, p.y)}
	}
	for _, a := range []struct {
		says string
		way  *linkage.Vec
	}{{"FWD", dr.run.Forward}, {"UP", dr.run.Up}} {
		if a.way == nil || dr.v.way(*a.way).norm() < shown {
			continue // it points at the viewer, or away
		}
		way := dr.v.way(*a.way).unit()
		neck, tip := place{}.along(way, long), place{}.along(way, long+headLong)
		t := text{says: a.says, size: smallSize, bold: true}
		t = centered(t, beside(t, tip, way, 2))
		l.shapes = append(l.shapes, shape{pen: penThick, through: []place{{}, neck}},
			shape{pen: penSolid, through: headAt(tip, way, headLong), closed: true})
		l.texts = append(l.texts, t)
		left, right := textBox(t).bounds()
		reach(left)
		reach(right)
	}
	if len(l.texts) == 0 {
		return
	}
	middle, half := low.add(high).scale(0.5), high.sub(low).scale(0.5)
	l.box = box{middle: middle, way: place{1, 0}, long: half.x, high: half.y}
	near := place{dr.v.low.x, dr.v.low.y + viewFar - beyond}.add(half)
	far := place{dr.v.high.x, dr.v.high.y - viewFar + beyond}.sub(half)
	var corners []label
	for i, corner := range []place{{far.x, near.y}, {near.x, near.y}, {far.x, far.y}, {near.x, far.y}} {
		at := l.moved(corner.sub(middle))
		at.bias = float64(i)
		corners = append(corners, at)
	}
	if !dr.labels.put(corners...) {
		dr.labels.take(corners[0])
	}
}

// centered returns t with the middle of its box at a place.
func centered(t text, middle place) text {
	t.anchor = anchorMiddle
	drop := float64((textAscent-textDescent)/2) * t.size
	t.at = middle.along(polar(-t.angle).square(), drop)
	return t
}

// beside returns where the middle of a text must lie for it to stand clear, by
// gap, of a line through a place square to way.
func beside(t text, at, way place, gap float64) place {
	b := textBox(t)
	reach := float64(math.Abs(way.dot(b.way))*b.long) + float64(math.Abs(way.dot(b.way.square()))*b.high)
	return at.along(way, gap+reach)
}

// nextTo returns where the middle of a text must lie, in the direction way,
// for it to stand clear of a place by gap.
func nextTo(t text, at, way place, gap float64) place {
	b := textBox(t)
	reach := math.Inf(1)
	if side := math.Abs(way.dot(b.way)); side > 0 {
		reach = (b.long + gap) / side
	}
	if side := math.Abs(way.dot(b.way.square())); side > 0 {
		reach = math.Min(reach, (b.high+gap)/side)
	}
	return at.along(way, reach)
}

// allRound returns labels of a text on all sides of a place, those in the
// direction way preferred, and near ones.
func allRound(t text, at, way place, gaps ...float64) []label {
	const step = 30.0 // degrees
	var ways []label
	for turn := 0.0; turn < 360; turn += step {
		for _, gap := range gaps {
			off := math.Min(turn, 360-turn)
			ways = append(ways, textLabel(centered(t, nextTo(t, at, turned(way, turn), gap)), off/60+gap/6))
		}
	}
	return ways
}

// put places a text at the best of some ways, or elsewhere near a place with
// a line to it.
func (dr *drawing) put(t text, at place, ways ...label) {
	size := textWidth(t.says, t.size, t.bold)
	dr.labels.putAround(at, balloonNear, size, func(middle place) label {
		l := textLabel(centered(t, middle), 0)
		if edge := edgeOf(l.box, at); edge.distance(at) > leaderFrom {
			l.leader = []place{at, edge}
		}
		return l
	}, ways...)
}

// edgeOf returns where the line from a place to the middle of a box meets it.
func edgeOf(b box, from place) place {
	total := from.distance(b.middle)
	inside := b.grown(1).crossing(from, b.middle)
	return from.along(from.to(b.middle), total-inside)
}

// labelRods writes the length of every rod along it, hole to hole, in the
// view that shows it longest.
func (dr *drawing) labelRods() {
	for _, rod := range dr.run.Rods {
		if dr.viewOfRod(rod) != dr.v {
			continue
		}
		ends := dr.rodLine(dr.neutral, rod)
		if ends[1].x < ends[0].x {
			ends[0], ends[1] = ends[1], ends[0]
		}
		way := ends[0].to(ends[1])
		angle := math.Atan2(way.y, way.x) * 180 / math.Pi
		t := text{says: Length(rod.Length, dr.run.Units), size: labelSize, angle: angle, halo: true}
		width := 0.0
		if rod.Diameter != nil {
			width = *rod.Diameter * dr.v.scale / 2
		}
		gap := math.Max(rodTextGap, width+rodTextGap/2)
		var ways []label
		for _, share := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.27, 0.73, 0.2, 0.8} {
			at := ends[0].along(way, share*ends[0].distance(ends[1]))
			for _, side := range []place{way.square().scale(-1), way.square()} {
				ways = append(ways, textLabel(centered(t, beside(t, at, side, gap)), math.Abs(share-0.5)*8))
			}
		}
		if ends[0].distance(ends[1]) < textWidth(t.says, t.size, false)+2*holeRadius {
			ways = nil // too short for its text to lie along it
		}
		t.angle = 0
		dr.put(t, ends[0].add(ends[1]).scale(0.5), ways...)
	}
}

// viewOfRod returns the view in which a rod comes out longest.
func (d *diagram) viewOfRod(rod *linkage.Rod) *view {
	best, most := d.views[0], 0.0
	for _, v := range d.views {
		if long := v.way(rod.To.Get().At.Sub(rod.From.Get().At)).norm(); long > most*(1+better) {
			best, most = v, long
		}
	}
	return best
}

// spot is where the letter of a position belongs on a part.
type spot struct {
	stance stance
	part   *linkage.Part
	at     place
	out    place // the way off the part
}

// letters puts the letter of its position on every part in every position.
// Where letters of two parts come so close that they could be mistaken, the
// number of the part stands behind them.
func (dr *drawing) letters() {
	const shared = 20.0 // sheet units
	spots := dr.letterSpots()
	numbered := map[*linkage.Part]bool{}
	for i, s := range spots {
		for _, other := range spots[:i] {
			if other.part != s.part && other.at.distance(s.at) < shared {
				numbered[s.part], numbered[other.part] = true, true
			}
		}
	}
	for _, s := range spots {
		says := s.stance.letter
		if numbered[s.part] {
			says += fmt.Sprint(dr.partNumber(s.part))
		}
		t := text{says: says, size: letterSize, bold: true, halo: true}
		dr.put(t, s.at, allRound(t, s.at, s.out, 4, 7, 11)...)
	}
}

// letterSpots returns where letters belong: on parts in the views that show
// their movement well.
func (dr *drawing) letterSpots() []spot {
	const (
		apart = 3.0 // sheet units from neutral, to be told from it
		share = 0.4 // of the movement seen in the view that shows most of it
	)
	var spots []spot
	for _, part := range dr.run.Parts {
		far, ok := outermost(part)
		if !ok || part.Motion == linkage.Fixed {
			continue
		}
		here, most := dr.movement(dr.v, part, far), 0.0
		for _, v := range dr.views {
			most = math.Max(most, dr.movement(v, part, far))
		}
		if here < apart || here < share*most {
			continue
		}
		was := dr.onSheet(dr.neutral, part, far)[0]
		for _, s := range dr.stances {
			on := dr.onSheet(s.stand, part, part.Pivot, far)
			if !s.neutral && on[1].distance(was) < apart {
				continue
			}
			out := on[0].to(on[1])
			switch {
			case part.Motion == linkage.Slides:
				out = besideGuide(dr.v.way(part.Slide).unit()).scale(-1)
			case part.Motion == linkage.Floats || out == (place{}):
				out = place{0, -1}
			}
			spots = append(spots, spot{s, part, on[1], out})
		}
	}
	return spots
}

// movement returns how far, in sheet units, a place of a part gets from
// neutral as a view shows it.
func (dr *drawing) movement(v *view, part *linkage.Part, at linkage.Vec) float64 {
	most := 0.0
	for _, s := range dr.stances {
		most = math.Max(most, v.way(s.stand.Place(part, at).Sub(dr.neutral.Place(part, at))).norm()*v.scale)
	}
	return most
}

// turned returns a way turned by degrees.
func turned(way place, degrees float64) place {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return way.scale(cos).add(way.square().scale(sin))
}

// labelArcs writes the travel beside each arc.
func (dr *drawing) labelArcs() {
	for _, a := range dr.arcs {
		for _, travel := range []float64{a.least, a.most} {
			if !a.visible(travel) {
				continue
			}
			t := text{says: Quantity(math.Abs(travel), a.unit), size: labelSize, halo: true}
			var ways []label
			for _, share := range []float64{0.55, 0.7, 0.4, 0.85, 0.25, 1} {
				at := travel * share
				for _, side := range []float64{1, -1} {
					for _, gap := range []float64{3, 12} {
						bias := 1.5 - float64(1.5*side) + math.Abs(share-0.55) + gap/3
						ways = append(ways, textLabel(centered(t, beside(t, a.at(at, 0), a.out(at).scale(side), gap)), bias))
					}
				}
			}
			dr.put(t, a.at(travel/2, 0), ways...)
		}
	}
}

// labelFlags writes what is in hand at each flag.
func (dr *drawing) labelFlags() {
	for _, f := range dr.flags {
		for i, part := range dr.flagged(f) {
			a, travel, ok := dr.flagAt(f, part)
			if !ok {
				continue
			}
			says := f.mark
			if i == 0 {
				says += " " + spare(dr.sweep, f.Critical)
			}
			t := text{says: says, size: labelSize, bold: true, halo: true}
			top := a.at(travel, flagPole)
			dr.put(t, top, allRound(t, top, a.out(travel), 3, 6)...)
		}
	}
}

// labelStops writes the names of the stops that end the travel.
func (dr *drawing) labelStops() {
	for _, m := range dr.marks {
		t := text{says: shorten(stopWords(m.stop), nameWidth, labelSize, false), size: labelSize, halo: true}
		dr.put(t, m.at, allRound(t, m.at, m.out, 8, 12, 18)...)
	}
}

// balloons numbers parts and rods.
func (dr *drawing) balloons() {
	for _, part := range dr.run.Parts {
		if at, ok := dr.balloonSpot(part); ok {
			dr.balloon(dr.partNumber(part), at)
		}
	}
	for _, rod := range dr.run.Rods {
		ends := dr.rodLine(dr.neutral, rod)
		if ends[0].distance(ends[1]) > nearly {
			const share = 0.3 // off the middle, where the length is written
			dr.balloon(dr.rodNumber(rod), ends[0].add(ends[1].sub(ends[0]).scale(share)))
		}
	}
}

// balloonSpot returns the place on a part that its balloon points at.
func (dr *drawing) balloonSpot(part *linkage.Part) (place, bool) {
	if part.Motion == linkage.Fixed {
		for _, f := range part.Features {
			return dr.v.on(f.Through[0]), true
		}
		for _, p := range part.Points {
			return dr.v.on(p.At), true
		}
		return place{}, false
	}
	longest, at := -1.0, dr.onSheet(dr.neutral, part, part.Pivot)[0]
	for _, line := range skeleton(part) {
		on := dr.onSheet(dr.neutral, part, line...)
		for i := 1; i < len(on); i++ {
			if long := on[i-1].distance(on[i]); long > longest {
				const share = 0.55
				longest, at = long, on[i-1].add(on[i].sub(on[i-1]).scale(share))
			}
		}
	}
	if longest < 0 {
		far, ok := outermost(part)
		if !ok {
			return at, part.Motion == linkage.Turns
		}
		at = dr.onSheet(dr.neutral, part, far)[0]
	}
	return at, true
}

// balloon puts a number in a circle near a place, with a leader to it.
func (dr *drawing) balloon(number int, at place) {
	says := fmt.Sprint(number)
	radius := math.Max(balloonRound, textWidth(says, labelSize, false)/2+2)
	done := dr.labels.putAround(at, balloonNear, 2*radius, func(middle place) label {
		return label{
			box:    squareBox(middle, radius),
			texts:  []text{centered(text{says: says, size: labelSize}, middle)},
			shapes: []shape{{pen: penBalloon, through: []place{middle}, radius: radius}},
			leader: []place{at, middle.along(middle.to(at), radius)},
		}
	})
	if done {
		dr.scene.circle(layerMarks, penSolid, at, 1.6)
	}
}
