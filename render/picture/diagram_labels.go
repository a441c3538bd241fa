package picture

import (
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
)

const (
	rodTextGap   = 4.0 // between a rod's text and the rod
	balloonRound = 10.5
	balloonNear  = 24.0
	nameWidth    = 150.0 // of the names of stops in the picture
	leaderWays   = 16    // directions in which a leader may go
	ledBias      = 4.0   // what it costs that a text doesn't lie along its rod
)

// nextTo returns where the middle of a text must lie, in the direction way,
// for it to stand clear of a place by gap.
func nextTo(t paper.Text, at, way paper.Place, gap float64) paper.Place {
	b := paper.TextBox(t)
	reach := math.Inf(1)
	if side := math.Abs(way.Dot(b.Way)); side > 0 {
		reach = (b.Long + gap) / side
	}
	if side := math.Abs(way.Dot(b.Way.Square())); side > 0 {
		reach = math.Min(reach, (b.High+gap)/side)
	}
	return at.Along(way, reach)
}

// allRound returns labels of a text on all sides of a place, those in the
// direction way preferred, and near ones.
func allRound(t paper.Text, at, way paper.Place, gaps ...float64) []paper.Label {
	const step = 30.0 // degrees
	var ways []paper.Label
	for turn := 0.0; turn < 360; turn += step {
		for _, gap := range gaps {
			off := math.Min(turn, 360-turn)
			ways = append(ways, paper.TextLabel(paper.Centered(t, nextTo(t, at, turned(way, turn), gap)), off/60+gap/6))
		}
	}
	return ways
}

// put places a text at the best of some ways, or elsewhere near a place with
// a line to it.
func (dr *drawing) put(t paper.Text, at paper.Place, ways ...paper.Label) {
	size := paper.TextWidth(t.Says, t.Size, t.Bold)
	dr.labels.PutAround(at, balloonNear, size, func(middle paper.Place) paper.Label { return dr.led(t, at, middle) }, ways...)
}

// led returns a text with its middle at a place, with a line to what it is
// about where that is far.
func (dr *drawing) led(t paper.Text, at, middle paper.Place) paper.Label {
	return paper.TextLabel(paper.Centered(t, middle), 0).LedTo(at)
}

// turned returns a way turned by degrees.
func turned(way paper.Place, degrees float64) paper.Place {
	sin, cos := elementary.Sincos(degrees * math.Pi / 180)
	return way.Scale(cos).Add(way.Square().Scale(sin))
}

// labelArcs writes the travel beside each arc.
func (dr *drawing) labelArcs() {
	for _, a := range dr.arcs {
		for _, travel := range []float64{a.least, a.most} {
			if !a.visible(travel) {
				continue
			}
			t := paper.Text{Says: figure.Quantity(math.Abs(travel), a.unit), Size: labelSize, Halo: true}
			var ways []paper.Label
			for _, share := range []float64{0.55, 0.7, 0.4, 0.85, 0.25, 1} {
				at := float64(travel * share)
				for _, side := range []float64{1, -1} {
					for _, gap := range []float64{3, 12} {
						bias := 1.5 - float64(1.5*side) + math.Abs(share-0.55) + gap/3
						ways = append(ways, paper.TextLabel(paper.Centered(t, paper.Beside(t, a.at(at, 0), a.out(at).Scale(side), gap)), bias))
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
			t := paper.Text{Says: says, Size: labelSize, Bold: true, Halo: true}
			top := a.at(travel, flagPole)
			dr.put(t, top, allRound(t, top, a.out(travel), 3, 6)...)
		}
	}
}

// onOwn is the name of something on the drawing of its own run: in an aircraft without that
// of the run, which would leave names in the picture no room.
func onOwn(in *linkage.Member, name string) string {
	if in == nil {
		return name
	}
	return strings.TrimPrefix(name, in.Name+".")
}

// labelStops writes the names of the stops that end the travel.
func (dr *drawing) labelStops() {
	for _, m := range dr.marks {
		stop := *m.stop
		stop.Name = onOwn(stop.In, stop.Name)
		t := paper.Text{Says: paper.Shorten(render.StopWords(&stop), nameWidth, labelSize, false), Size: labelSize, Halo: true}
		dr.put(t, m.at, allRound(t, m.at, m.out, 8, 12, 18)...)
	}
}
