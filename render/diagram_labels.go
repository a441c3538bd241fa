package render

import (
	"math"

	"fullfree/render/figure"
)

const (
	rodTextGap   = 4.0 // between a rod's text and the rod
	balloonRound = 10.5
	balloonNear  = 24.0
	nameWidth    = 150.0 // of the names of stops in the picture
	leaderWays   = 16    // directions in which a leader may go
	ledBias      = 4.0   // what it costs that a text doesn't lie along its rod
	leaderFrom   = 7.0   // sheet units from a text to what it is about: farther, a line joins them
)

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
	dr.labels.putAround(at, balloonNear, size, func(middle place) label { return dr.led(t, at, middle) }, ways...)
}

// led returns a text with its middle at a place, with a line to what it is
// about where that is far.
func (dr *drawing) led(t text, at, middle place) label {
	return textLabel(centered(t, middle), 0).ledTo(at)
}

// ledTo returns a label with a line to what it is about where that is far.
func (l label) ledTo(at place) label {
	if edge := edgeOf(l.box, at); edge.distance(at) > leaderFrom {
		l.leader = []place{at, edge}
	}
	return l
}

// edgeOf returns where the line from a place to the middle of a box meets it.
func edgeOf(b box, from place) place {
	total := from.distance(b.middle)
	inside := b.grown(1).crossing(from, b.middle)
	return from.along(from.to(b.middle), total-inside)
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
			t := text{says: figure.Quantity(math.Abs(travel), a.unit), size: labelSize, halo: true}
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
				says += " " + flagWords(dr.sweep, f.Critical)
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
