package picture

import (
	"math"
	"slices"
	"strconv"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// tag is a name or number that moves with what it names, upright: what is in it
// lies about the mean of its mounts.
type tag struct {
	mounts []paper.Mount
	label  paper.Label
}

// tagged is what a tag names: a part, a rod or a cable, in any of its places.
type tagged struct {
	number int
	name   string
	says   string // in the list, where only its number is in the picture
	best   bool   // this view shows it best
	places [][]paper.Mount
}

const (
	tagDirections = 12
	tagPlaces     = 4     // of a piece that are tried
	tagSize       = 15.0  // of type: larger than in the diagram, for a phone
	tagWidest     = 150.0 // sheet units: longer names are left to the list
	// nameDear is what a name may cost, as much as lying across two ghosts; a
	// number and its leader are clearer then.
	nameDear = 40.0
	// numberHides is how much of thick lines a number may hide, in the mean: less
	// than lying across an arm all the time.
	numberHides = balloonRound
	// spareDear is what a name may cost in a view that shows the piece worse.
	spareDear = 6.0
	// mostTags is how many pieces are named at most: no picture has room for as many, and
	// the work grows with their square.
	mostTags = 300
	tagNear  = barWidth - 1 // from a place to its name, clear of the arm there
	tagFar   = 2 * barWidth // the same, with a line to it
)

// names names what moves: by its name where there is room for it all through
// the travel, else by a number that is told below the views; where not even that
// fits, not at all.
func (ld liveDrawing) names() []tag {
	all := ld.tagPlacers()
	var tags []tag
	tried := 0
	for _, spare := range []bool{false, true} {
		for _, p := range ld.named() {
			if p.best == spare {
				continue
			}
			if tried++; tried > mostTags {
				break
			}
			most := nameDear
			if spare {
				most = spareDear
			}
			t, ok := all.best(most, ld.nameWays(p))
			if !ok && !spare {
				for _, away := range [][]float64{tagAways, tagFarAways} { // in a thicket it stands outside
					if t, ok = all.best(math.Inf(1), all.showing(ld.numberWays(p, away))); ok {
						ld.live.numbered[p.number] = p.says
						break
					}
				}
			}
			if ok {
				all.take(t)
				tags = append(tags, t)
			}
		}
	}
	for _, t := range tags {
		for k := range all.placers {
			low, high := outlineAt(t.label, all.at(k, t)).Box.Bounds()
			ld.scene.Room = append(ld.scene.Room, low, high)
		}
	}
	return tags
}

// named returns what is named in the view.
func (ld liveDrawing) named() []tagged {
	var list []tagged
	for _, part := range ld.run.Parts {
		if part.Motion == linkage.Fixed {
			continue
		}
		best := ld.viewFor(part)
		if best == nil {
			best = ld.views[0]
		}
		p := tagged{number: ld.partNumber(part), name: onOwn(part.In, part.Name), best: best == ld.v}
		p.says = p.name + ", " + partWords(part)
		for _, at := range tagSpots(part) {
			p.places = append(p.places, ld.mountsOn(part, at))
		}
		list = append(list, p)
	}
	for _, rod := range ld.run.Rods {
		p := tagged{number: ld.rodNumber(rod), name: onOwn(rod.In, rod.Name), best: ld.viewOfRod(rod) == ld.v}
		p.says = p.name + ", " + ld.rodWords(rod)
		p.places = [][]paper.Mount{{ld.live.mountAt(rod.From), ld.live.mountAt(rod.To)}}
		list = append(list, p)
	}
	for _, c := range ld.run.Cables {
		list = append(list, ld.namedCable(c))
	}
	return list
}

// tagSpots returns the places of a part, as drawn, that a tag may belong to: its
// outermost, its points and the middles of its arms.
func tagSpots(part *linkage.Part) []linkage.Vec {
	var list []linkage.Vec
	add := func(p linkage.Vec) {
		if len(list) < tagPlaces && !slices.Contains(list, p) {
			list = append(list, p)
		}
	}
	if far, ok := outermost(part); ok {
		add(far)
	}
	for _, line := range skeleton(part) {
		n := len(line) - 1
		add(line[n])
		add(line[n-1].Add(line[n]).Scale(0.5))
	}
	if len(list) == 0 {
		add(part.Pivot)
	}
	return list
}

// nameWays returns the ways to put a piece's name beside it.
func (ld liveDrawing) nameWays(p tagged) []tag {
	t := paper.Text{Says: figure.Clean(p.name), Size: tagSize, Halo: true}
	if paper.TextWidth(t.Says, t.Size, false) > tagWidest {
		return nil
	}
	var ways []tag
	for i, mounts := range p.places {
		for d := range tagDirections {
			way := paper.Polar(float64(d) * 360 / tagDirections)
			for _, gap := range [...]float64{tagNear, tagFar} {
				l := paper.TextLabel(paper.Centered(t, nextTo(t, paper.Place{}, way, gap)), float64(i)+gap/tagNear)
				if gap == tagFar {
					l.Leader = []paper.Place{{}, paper.EdgeOf(l.Box, paper.Place{})}
				}
				ways = append(ways, tag{mounts, l})
			}
		}
	}
	return ways
}

// How far from a piece its number is tried, sheet units: near it, and where nothing there is
// clear, farther off.
var (
	tagAways    = []float64{balloonNear, 1.5 * balloonNear, 2 * balloonNear, 2.5 * balloonNear}
	tagFarAways = []float64{3.5 * balloonNear, 4.5 * balloonNear, 6 * balloonNear, 8 * balloonNear}
)

// numberWays returns the ways to put a piece's number in a balloon near it.
func (ld liveDrawing) numberWays(p tagged, aways []float64) []tag {
	says := strconv.Itoa(p.number)
	radius := math.Max(balloonRound, paper.TextWidth(says, tagSize, false)/2+2)
	var ways []tag
	for i, mounts := range p.places {
		for d := range tagDirections {
			for _, away := range aways {
				at := paper.Polar(float64(d) * 360 / tagDirections).Scale(away)
				ways = append(ways, tag{mounts, paper.Label{
					Box:    paper.SquareBox(at, radius),
					Texts:  []paper.Text{paper.Centered(paper.Text{Says: says, Size: tagSize}, at)},
					Shapes: []paper.Shape{{Pen: paper.PenBalloon, Through: []paper.Place{at}, Radius: radius}, {Pen: paper.PenSolid, Through: []paper.Place{{}}, Radius: 1.6}},
					Leader: []paper.Place{{}, at.Along(at.To(paper.Place{}), radius)},
					Bias:   float64(i) + away/balloonNear,
				}})
			}
		}
	}
	return ways
}

// tagPlacers put tags where they are clear in several positions.
type tagPlacers struct {
	v       *view
	frames  [][]solve.Frame
	placers []*paper.Placer
}

// tagPlacers returns a placer for each position, which knows what is drawn.
func (ld liveDrawing) tagPlacers() *tagPlacers {
	all := &tagPlacers{v: ld.v, frames: ld.live.all}
	for _, frames := range ld.live.all {
		p := paper.NewPlacer(ld.scene, ld.v.low, ld.v.high)
		for _, shapes := range ld.scene.Shapes {
			for _, s := range shapes {
				if len(s.Mounts) > 0 {
					s.Through = seen(ld.v, frames, s.Mounts...)
				}
				ld.avoid(p, s)
			}
		}
		for _, b := range ld.labels.Boxes {
			p.Keep(b)
		}
		all.placers = append(all.placers, p)
	}
	return all
}

// at returns where a tag is in a position.
func (all *tagPlacers) at(k int, t tag) paper.Place {
	return middle(seen(all.v, all.frames[k], t.mounts...))
}

// best returns the best of some ways, unless even that costs as much as most,
// in the mean of all positions.
func (all *tagPlacers) best(most float64, ways []tag) (best tag, ok bool) {
	for _, way := range ways {
		if way.label.Bias >= most-paper.ClearlyBetter || !all.free(way) {
			continue
		}
		cost := way.label.Bias
		for k, p := range all.placers {
			l := outlineAt(way.label, all.at(k, way))
			l.Bias = 0
			left := float64((most - cost) * float64(len(all.placers)))
			if cost += p.Cost(l, left) / float64(len(all.placers)); cost >= most-paper.ClearlyBetter {
				break
			}
		}
		if cost < most-paper.ClearlyBetter {
			best, most, ok = way, cost, true
		}
	}
	return best, ok
}

// showing returns those of some ways that are free and hide little metal.
func (all *tagPlacers) showing(ways []tag) []tag {
	most := float64(numberHides * float64(len(all.placers)))
	return slices.DeleteFunc(ways, func(way tag) bool {
		if !all.free(way) { // most are not where there are many pieces; what they hide takes long to tell
			return true
		}
		hides := 0.0
		for k, p := range all.placers {
			if hides += p.Covers(outlineAt(way.label, all.at(k, way)).Box, paper.PenThick.Weight); hides > most {
				return true
			}
		}
		return false
	})
}

// free reports whether a tag lies on no label in any position.
func (all *tagPlacers) free(t tag) bool {
	for k, p := range all.placers {
		b := t.label.Box
		b.Middle = b.Middle.Add(all.at(k, t))
		if !p.Free(b) {
			return false
		}
	}
	return true
}

// take tells the placers of a tag.
func (all *tagPlacers) take(t tag) {
	for k, p := range all.placers {
		l := outlineAt(t.label, all.at(k, t))
		p.Keep(l.Box)
		p.Avoid(paper.PenLeader, l.Leader...)
	}
}

// outlineAt returns what of a label matters to a placer, about another place.
func outlineAt(l paper.Label, by paper.Place) paper.Label {
	moved := paper.Label{Box: l.Box, Bias: l.Bias}
	moved.Box.Middle = moved.Box.Middle.Add(by)
	for _, p := range l.Leader {
		moved.Leader = append(moved.Leader, p.Add(by))
	}
	return moved
}

// putTag puts a tag on a picture.
func (l *live) putTag(w *paper.SVG, v *view, t *tag) {
	at := middle(seen(v, l.at, t.mounts...))
	attrs := []string{paper.Attr("transform", "translate("+w.Digits(at.X)+" "+w.Digits(at.Y)+")")}
	if !l.opts.Still {
		attrs = append(attrs, paper.Attr("data-at", written(t.mounts)))
	}
	s := &paper.Scene{}
	s.Put(t.label)
	w.Group(attrs...)
	s.PutAll(w)
	w.End()
}
