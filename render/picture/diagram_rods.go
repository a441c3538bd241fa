package picture

import (
	"cmp"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
)

// labelRods writes the length of every rod along it, hole to hole, in the
// view that shows it longest.
func (dr *drawing) labelRods() {
	for _, rod := range dr.run.Rods {
		ends := dr.rodLine(dr.neutral, rod)
		if dr.viewOfRod(rod) != dr.v.whole() || !dr.v.lettersPlaces(ends...) {
			continue
		}
		if ends[1].X < ends[0].X {
			ends[0], ends[1] = ends[1], ends[0]
		}
		way := ends[0].To(ends[1])
		angle := elementary.Atan2(way.Y, way.X) * 180 / math.Pi
		t := paper.Text{Says: figure.Exact(rod.Length, dr.run.Units), Size: labelSize, Angle: angle, Halo: true}
		width := 0.0
		if rod.Diameter != nil {
			width = *rod.Diameter * dr.v.scale / 2
		}
		gap := math.Max(rodTextGap, width+rodTextGap/2)
		var ways []paper.Label
		for _, share := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.27, 0.73, 0.2, 0.8} {
			at := ends[0].Along(way, float64(share*ends[0].Distance(ends[1])))
			for _, side := range []paper.Place{way.Square().Scale(-1), way.Square()} {
				ways = append(ways, paper.TextLabel(paper.Centered(t, paper.Beside(t, at, side, gap)), math.Abs(share-0.5)*8))
			}
		}
		if ends[0].Distance(ends[1]) < paper.TextWidth(t.Says, t.Size, false)+2*holeRadius {
			ways = nil // too short for its text to lie along it
		}
		t.Angle = 0
		for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			at := ends[0].Along(way, float64(share*ends[0].Distance(ends[1])))
			if dr.v.framed(at) {
				continue
			}
			for away := balloonNear; away < 2*balloonNear; away += balloonNear / 2 {
				for d := range leaderWays {
					l := dr.led(t, at, at.Along(paper.Polar(float64(d)*360/leaderWays), away))
					l.Bias += ledBias + float64(math.Abs(share-0.5)*4) + away/balloonNear
					ways = append(ways, l)
				}
			}
		}
		dr.put(t, ends[0].Add(ends[1]).Scale(0.5), ways...)
	}
}

// viewOfRod returns the view in which a rod comes out longest; of several alike
// the one in which least lies over it.
func (d *diagram) viewOfRod(rod *linkage.Rod) *view {
	if d.rodViews == nil {
		d.rodViews = make([]*view, len(d.run.Rods))
	}
	if d.rodViews[rod.Index] == nil {
		d.rodViews[rod.Index] = d.bestOfRod(rod)
	}
	return d.rodViews[rod.Index]
}

func (d *diagram) bestOfRod(rod *linkage.Rod) *view {
	const alike = 0.98
	ends := []linkage.Vec{rod.From.Get().At, rod.To.Get().At}
	long := func(v *view) float64 { return v.way(ends[1].Sub(ends[0])).Norm() }
	most := 0.0
	for _, v := range d.views {
		most = math.Max(most, long(v))
	}
	var best []*view
	for _, v := range d.views {
		if long(v) >= most*alike {
			best = append(best, v)
		}
	}
	if len(best) > 1 && len(d.run.Rods) <= overMost {
		slices.SortStableFunc(best, func(a, b *view) int { return cmp.Compare(d.over(a.bare(), rod), d.over(b.bare(), rod)) })
	}
	return best[0]
}

// overMost is the most rods among which is looked for what lies over them; a
// picture with more can't be read in any view.
const overMost = 200

// over returns how much of a rod other rods and parts lie along or across in a
// view, as a share of it.
func (d *diagram) over(v *view, rod *linkage.Rod) float64 {
	const pieces = 16
	from, to := v.on(rod.From.Get().At), v.on(rod.To.Get().At)
	near := from.Distance(to) / pieces
	var lines [][]linkage.Vec
	for _, other := range d.run.Rods {
		if other != rod {
			lines = append(lines, []linkage.Vec{other.From.Get().At, other.To.Get().At})
		}
	}
	for _, part := range d.run.Parts {
		lines = append(lines, skeleton(part)...)
		for _, f := range part.Features {
			lines = append(lines, f.Through)
		}
	}
	covered := 0.0
	for i := 1; i < pieces; i++ { // not at its ends, where it hangs on others
		room := paper.SquareBox(from.Add(to.Sub(from).Scale(float64(i)/pieces)), near/2)
		hit := false
		for _, line := range lines {
			for k := 1; k < len(line); k++ {
				hit = hit || room.Crossing(v.on(line[k-1]), v.on(line[k])) > 0
			}
		}
		if hit {
			covered++
		}
	}
	return covered / pieces
}
