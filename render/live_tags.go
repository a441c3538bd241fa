package render

import (
	"math"
	"slices"
	"strconv"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// tag is a name or number that moves with what it names, upright: what is in it
// lies about the mean of its mounts.
type tag struct {
	mounts []mount
	label  label
}

// tagged is what a tag names: a part, a rod or a cable, in any of its places.
type tagged struct {
	number int
	name   string
	says   string // in the list, where only its number is in the picture
	best   bool   // this view shows it best
	places [][]mount
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
	tagNear   = barWidth - 1 // from a place to its name, clear of the arm there
	tagFar    = 2 * barWidth // the same, with a line to it
)

// names names what moves: by its name where there is room for it all through
// the travel, else by a number that is told below the views; where not even that
// fits, not at all.
func (ld *liveDrawing) names() []tag {
	all := ld.tagPlacers()
	var tags []tag
	for _, spare := range []bool{false, true} {
		for _, p := range ld.named() {
			if p.best == spare {
				continue
			}
			most := nameDear
			if spare {
				most = spareDear
			}
			t, ok := all.best(most, ld.nameWays(p))
			if !ok && !spare {
				if t, ok = all.best(math.Inf(1), all.showing(ld.numberWays(p))); ok {
					ld.live.numbered[p.number] = p.says
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
			low, high := t.label.at(all.at(k, t)).box.bounds()
			ld.scene.room = append(ld.scene.room, low, high)
		}
	}
	return tags
}

// named returns what is named in the view.
func (ld *liveDrawing) named() []tagged {
	var list []tagged
	for _, part := range ld.run.Parts {
		if part.Motion == linkage.Fixed {
			continue
		}
		best := ld.viewFor(part)
		if best == nil {
			best = ld.views[0]
		}
		p := tagged{number: ld.partNumber(part), name: part.Name, best: best == ld.v}
		p.says = part.Name + ", " + partWords(part)
		for _, at := range tagSpots(part) {
			p.places = append(p.places, ld.mountsOn(part, at))
		}
		list = append(list, p)
	}
	for _, rod := range ld.run.Rods {
		p := tagged{number: ld.rodNumber(rod), name: rod.Name, best: ld.viewOfRod(rod) == ld.v}
		p.says = rod.Name + ", " + ld.rodWords(rod)
		p.places = [][]mount{{ld.live.mountAt(rod.From), ld.live.mountAt(rod.To)}}
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
func (ld *liveDrawing) nameWays(p tagged) []tag {
	t := text{says: figure.Clean(p.name), size: tagSize, halo: true}
	if textWidth(t.says, t.size, false) > tagWidest {
		return nil
	}
	var ways []tag
	for i, mounts := range p.places {
		for d := range tagDirections {
			way := polar(float64(d) * 360 / tagDirections)
			for _, gap := range [...]float64{tagNear, tagFar} {
				l := textLabel(centered(t, nextTo(t, place{}, way, gap)), float64(i)+gap/tagNear)
				if gap == tagFar {
					l.leader = []place{{}, edgeOf(l.box, place{})}
				}
				ways = append(ways, tag{mounts, l})
			}
		}
	}
	return ways
}

// numberWays returns the ways to put a piece's number in a balloon near it.
func (ld *liveDrawing) numberWays(p tagged) []tag {
	says := strconv.Itoa(p.number)
	radius := math.Max(balloonRound, textWidth(says, tagSize, false)/2+2)
	var ways []tag
	for i, mounts := range p.places {
		for d := range tagDirections {
			for _, away := range [...]float64{balloonNear, 1.5 * balloonNear, 2 * balloonNear, 2.5 * balloonNear} {
				at := polar(float64(d) * 360 / tagDirections).scale(away)
				ways = append(ways, tag{mounts, label{
					box:    squareBox(at, radius),
					texts:  []text{centered(text{says: says, size: tagSize}, at)},
					shapes: []shape{{pen: penBalloon, through: []place{at}, radius: radius}, {pen: penSolid, through: []place{{}}, radius: 1.6}},
					leader: []place{{}, at.along(at.to(place{}), radius)},
					bias:   float64(i) + away/balloonNear,
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
	placers []*placer
}

// tagPlacers returns a placer for each position, which knows what is drawn.
func (ld *liveDrawing) tagPlacers() *tagPlacers {
	all := &tagPlacers{v: ld.v, frames: ld.live.all}
	for _, frames := range ld.live.all {
		p := newPlacer(ld.scene, ld.v.low, ld.v.high)
		for _, shapes := range ld.scene.shapes {
			for _, s := range shapes {
				if len(s.mounts) > 0 {
					s.through = seen(ld.v, frames, s.mounts...)
				}
				ld.avoid(p, s)
			}
		}
		for _, b := range ld.labels.boxes {
			p.keep(b)
		}
		all.placers = append(all.placers, p)
	}
	return all
}

// at returns where a tag is in a position.
func (all *tagPlacers) at(k int, t tag) place {
	return middle(seen(all.v, all.frames[k], t.mounts...))
}

// best returns the best of some ways, unless even that costs as much as most,
// in the mean of all positions.
func (all *tagPlacers) best(most float64, ways []tag) (best tag, ok bool) {
	for _, way := range ways {
		if way.label.bias >= most-better || !all.free(way) {
			continue
		}
		cost := way.label.bias
		for k, p := range all.placers {
			l := way.label.at(all.at(k, way))
			l.bias = 0
			left := (most - cost) * float64(len(all.placers))
			if cost += p.cost(l, left) / float64(len(all.placers)); cost >= most-better {
				break
			}
		}
		if cost < most-better {
			best, most, ok = way, cost, true
		}
	}
	return best, ok
}

// showing returns those of some ways that are free and hide little metal.
func (all *tagPlacers) showing(ways []tag) []tag {
	most := numberHides * float64(len(all.placers))
	return slices.DeleteFunc(ways, func(way tag) bool {
		if !all.free(way) { // most are not where there are many pieces; what they hide takes long to tell
			return true
		}
		hides := 0.0
		for k, p := range all.placers {
			if hides += p.covers(way.label.at(all.at(k, way)).box, penThick.weight); hides > most {
				return true
			}
		}
		return false
	})
}

// free reports whether a tag lies on no label in any position.
func (all *tagPlacers) free(t tag) bool {
	for k, p := range all.placers {
		b := t.label.box
		b.middle = b.middle.add(all.at(k, t))
		if !p.free(b) {
			return false
		}
	}
	return true
}

// take tells the placers of a tag.
func (all *tagPlacers) take(t tag) {
	for k, p := range all.placers {
		l := t.label.at(all.at(k, t))
		p.keep(l.box)
		p.avoid(penLeader, l.leader...)
	}
}

// at returns what of a label matters to a placer, about another place.
func (l label) at(by place) label {
	moved := label{box: l.box, bias: l.bias}
	moved.box.middle = moved.box.middle.add(by)
	for _, p := range l.leader {
		moved.leader = append(moved.leader, p.add(by))
	}
	return moved
}

// putTag puts a tag on a picture.
func (l *live) putTag(w *svgWriter, v *view, t *tag) {
	at := middle(seen(v, l.at, t.mounts...))
	attrs := []string{attr("transform", "translate("+w.digits(at.x)+" "+w.digits(at.y)+")")}
	if !l.opts.still {
		attrs = append(attrs, attr("data-at", written(t.mounts)))
	}
	s := &scene{}
	s.put(t.label)
	w.group(attrs...)
	s.putAll(w)
	w.end()
}
