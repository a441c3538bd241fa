package picture

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
)

// balloons numbers parts and rods: each in the view that shows it best, and in
// the others where there is room.
func (dr *drawing) balloons() {
	for _, spare := range []bool{false, true} {
		for _, part := range dr.run.Parts {
			best := dr.viewFor(part)
			if best == nil {
				best = dr.views[0]
			}
			if (best != dr.v.whole()) != spare || !dr.v.letters(part) {
				continue
			}
			if at, ok := dr.balloonSpot(part); ok {
				dr.balloon(dr.partNumber(part), at, spare)
			}
		}
		for _, rod := range dr.run.Rods {
			ends := dr.rodLine(dr.neutral, rod)
			if (dr.viewOfRod(rod) != dr.v.whole()) != spare || !dr.v.lettersPlaces(ends...) {
				continue
			}
			if ends[0].Distance(ends[1]) > nearly {
				dr.balloon(dr.rodNumber(rod), dr.rodSpot(ends), spare)
			}
		}
	}
	dr.cableBalloons()
}

// rodSpot returns the place on a rod that its balloon points at: off the
// middle, where the length is written, and outside the frames of details.
func (dr *drawing) rodSpot(ends []paper.Place) paper.Place {
	var spots []paper.Place
	for _, share := range []float64{0.3, 0.7, 0.5, 0.15, 0.85} {
		spots = append(spots, ends[0].Add(ends[1].Sub(ends[0]).Scale(share)))
	}
	return dr.v.unframed(spots)
}

// balloonSpot returns the place on a part that its balloon points at.
func (dr *drawing) balloonSpot(part *linkage.Part) (paper.Place, bool) {
	if part.Motion == linkage.Fixed {
		spot, ok := fixedSpot(part)
		return dr.v.on(spot), ok
	}
	longest, at := -1.0, dr.onSheet(dr.neutral, part, part.Pivot)[0]
	for _, line := range skeleton(part) {
		on := dr.onSheet(dr.neutral, part, line...)
		for i := 1; i < len(on); i++ {
			if long := on[i-1].Distance(on[i]); long > longest {
				const share = 0.55
				longest, at = long, on[i-1].Add(on[i].Sub(on[i-1]).Scale(share))
			}
		}
	}
	if longest < 0 {
		far, ok := outermost(part)
		if !ok {
			return at, part.HasPivot()
		}
		at = dr.onSheet(dr.neutral, part, far)[0]
	}
	return at, true
}

// fixedSpot returns the place of the airframe that its balloon points at, as
// drawn.
func fixedSpot(part *linkage.Part) (linkage.Vec, bool) {
	for _, f := range part.Features {
		return f.Through[0], true
	}
	for _, p := range part.Points {
		return p.At, true
	}
	return linkage.Vec{}, false
}

// balloon puts a number in a circle near a place, with a leader to it; one that
// can be spared only where it is easily read.
func (dr *drawing) balloon(number int, at paper.Place, spare bool) {
	says := fmt.Sprint(number)
	radius := math.Max(balloonRound, paper.TextWidth(says, labelSize, false)/2+2)
	balloonAt := func(middle paper.Place) paper.Label {
		return paper.Label{
			Box:    paper.SquareBox(middle, radius),
			Texts:  []paper.Text{paper.Centered(paper.Text{Says: says, Size: labelSize}, middle)},
			Shapes: []paper.Shape{{Pen: paper.PenBalloon, Through: []paper.Place{middle}, Radius: radius}},
			Leader: []paper.Place{at, middle.Along(middle.To(at), radius)},
		}
	}
	var done bool
	if spare {
		const directions, easy = 24, 14.0 // easy: what it may cost, as much as a leader out of its own part
		var ways []paper.Label
		for d := range directions {
			ways = append(ways, balloonAt(at.Along(paper.Polar(float64(d)*360/directions), balloonNear)))
		}
		done = dr.labels.PutBelow(easy, ways...)
	} else {
		done = dr.labels.PutAround(at, balloonNear, 2*radius, balloonAt)
	}
	if done {
		dr.scene.Circle(paper.LayerMarks, paper.PenSolid, at, 1.6)
	}
}
