package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// Details, as in ISO 128 (from memory): what comes out too small in a view is
// framed there and drawn again, larger, under a letter.
const (
	detailSmall   = 30.0  // sheet units: smaller parts can't be lettered where they are
	detailSlide   = 12.0  // the same, of the travel of a part that slides
	detailWanted  = 100.0 // the size that their smallest is brought to
	detailLeast   = 1.5   // times larger: less isn't worth a detail
	detailTallest = 190.0 // of what is shown
	detailPad     = 30.0  // left around it, for arcs: farther out lines are cut off
	detailLabels  = 34.0  // and beyond that, for labels
	detailFirst   = 'P'   // letter; well after those of positions, before X of flags
	detailMost    = 8
	viewEnlarged  = 250.0 // tallest that one of several whole views is enlarged to
	// detailPairs is how much smaller details may come out that stand side by
	// side.
	detailPairs = 0.7
)

// enlargements are the scales of details, times that of the view.
var enlargements = []float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100}

// enlargement returns the largest usual scale up to most.
func enlargement(most float64) float64 {
	best := enlargements[0]
	for _, k := range enlargements {
		if k <= most*(1+better) {
			best = k
		}
	}
	return best
}

// cluster is small parts close together, in a view's own lengths: those of the
// drawing, y down.
type cluster struct {
	low, high place
	smallest  float64
}

func (c cluster) size() place { return c.high.sub(c.low) }

// joined returns the cluster of two.
func (c cluster) joined(o cluster) cluster {
	return cluster{
		place{math.Min(c.low.x, o.low.x), math.Min(c.low.y, o.low.y)},
		place{math.Max(c.high.x, o.high.x), math.Max(c.high.y, o.high.y)},
		math.Min(c.smallest, o.smallest),
	}
}

// near reports whether two clusters, enlarged, would lie in each other's
// labels.
func (c cluster) near(o cluster) bool {
	const share = 0.8 // of the size of the smallest
	gap := share * math.Min(c.smallest, o.smallest)
	return c.low.x-gap < o.high.x && o.low.x-gap < c.high.x && c.low.y-gap < o.high.y && o.low.y-gap < c.high.y
}

// bare returns the view at the scale of the drawing and with its zero.
func (v *view) bare() *view {
	bare := *v
	bare.scale, bare.zero = 1, place{}
	return &bare
}

// room returns between which places of the view, at the drawing's scale, a
// part moves; ok is false for one that has no place.
func (d *diagram) room(v *view, part *linkage.Part) (low, high place, ok bool) {
	reach := d.reachOf(part)
	low, high = v.bare().extent(reach)
	return low, high, len(reach) > 0
}

// sizeOf returns how large a part comes out in a view, in the drawing's
// lengths: from what it turns on to its farthest point, or all of it.
func (d *diagram) sizeOf(v *view, part *linkage.Part) float64 {
	if part.Motion == linkage.Turns {
		far, ok := outermost(part)
		if !ok {
			return 0
		}
		return v.way(far.Sub(footOf(part, far))).norm()
	}
	low, high, _ := d.room(v, part)
	return high.sub(low).norm()
}

// goes reports whether a part moves enough in this sweep to be lettered.
func (d *diagram) goes(part *linkage.Part) bool {
	for _, t := range d.sweep.Parts {
		moves := t.Most - t.Least
		if t.Part == part && (moves >= littleTravel || t.Unit != "deg" && moves*d.views[0].scale > nearly) {
			return true
		}
	}
	return false
}

// findDetails decides what of the whole views is drawn again as details.
func (d *diagram) findDetails() {
	count := 0
	for _, v := range d.views {
		var clusters []cluster
		for _, part := range d.run.Parts {
			if part.Motion == linkage.Fixed || d.viewFor(part) != v || !d.goes(part) {
				continue
			}
			low, high, ok := d.room(v, part)
			size, small := d.sizeOf(v, part), detailSmall
			if part.Motion == linkage.Slides {
				small = detailSlide
			}
			if !ok || size == 0 || size*v.scale >= small {
				continue
			}
			clusters = gather(clusters, cluster{low, high, size})
		}
		for _, detail := range detailsOf(v, clusters) {
			if count == detailMost {
				break
			}
			detail.letter = string(rune(detailFirst + count))
			detail.words = fmt.Sprintf("Detail %s, %s times as large", detail.letter, figure.Given(detail.larger, ""))
			detail.parts = map[*linkage.Part]bool{}
			for _, part := range d.run.Parts {
				low, high, ok := d.room(v, part)
				if part.Motion == linkage.Fixed {
					if spot, there := fixedSpot(part); there {
						low, ok = v.bare().on(spot), true
						high = low
					}
				}
				inside := window{detail.least, detail.most}
				detail.parts[part] = ok && inside.holds(low) && inside.holds(high)
			}
			v.details = append(v.details, detail)
			count++
		}
	}
}

// gather adds a cluster to others, joined with those that it is near.
func gather(clusters []cluster, c cluster) []cluster {
	for i, o := range clusters {
		if c.near(o) {
			rest := append(append([]cluster{}, clusters[:i]...), clusters[i+1:]...)
			return gather(rest, c.joined(o))
		}
	}
	return append(clusters, c)
}

// detailsOf returns details for those clusters that come out enough larger,
// alone in a row or in pairs.
func detailsOf(v *view, clusters []cluster) []*view {
	var list []*view
	for _, c := range clusters {
		scaled := func(across float64) float64 {
			room := sheetInner/across - 2*(detailPad+detailLabels)
			most := math.Min(detailWanted/c.smallest, detailTallest/math.Max(c.size().y, c.smallest))
			return enlargement(math.Min(most, room/math.Max(c.size().x, c.smallest)) / v.scale)
		}
		alone, paired := scaled(1), scaled(2)
		if alone < detailLeast {
			continue
		}
		detail := &view{name: v.name, right: v.right, up: v.up, toward: v.toward, of: v, least: c.low, most: c.high, larger: alone}
		if len(clusters) > 1 && paired >= detailLeast && paired >= detailPairs*alone {
			detail.larger, detail.paired = paired, true
		}
		detail.scale = v.scale * detail.larger
		list = append(list, detail)
	}
	return list
}

// detailRows arranges the details of a row of views.
func detailRows(row []*view) [][]*view {
	var rows [][]*view
	for _, v := range row {
		for _, detail := range v.details {
			if last := len(rows) - 1; last >= 0 && detail.paired && len(rows[last]) == 1 && rows[last][0].paired {
				rows[last] = append(rows[last], detail)
				continue
			}
			rows = append(rows, []*view{detail})
		}
	}
	return rows
}

// whole returns the view that this one, where it is a detail, is a part of.
func (v *view) whole() *view {
	if v.of != nil {
		return v.of
	}
	return v
}

// letters reports whether a part is lettered in this view: in a detail where
// there is one, else in the whole.
func (v *view) letters(part *linkage.Part) bool {
	if v.of != nil {
		return v.parts[part]
	}
	return !v.inDetail(part)
}

// inDetail reports whether a detail of a view letters a part.
func (v *view) inDetail(part *linkage.Part) bool {
	for _, detail := range v.details {
		if detail.parts[part] {
			return true
		}
	}
	return false
}

// lettersOf returns the names of the parts that a detail letters.
func (d *diagram) lettersOf(detail *view) []string {
	var names []string
	for _, part := range d.run.Parts {
		if detail.parts[part] {
			names = append(names, part.Name)
		}
	}
	return names
}

// framed reports whether a place of a view lies in the frame of a detail.
func (v *view) framed(at place) bool {
	for _, detail := range v.details {
		if v.frame(detail).holds(at) {
			return true
		}
	}
	return false
}

// unframed returns the first of some places that lies in no such frame; the
// first of all where each lies in one.
func (v *view) unframed(spots []place) place {
	for _, at := range spots {
		if !v.framed(at) {
			return at
		}
	}
	return spots[0]
}

// lettersPlaces reports whether what lies between places of the sheet is
// lettered in this view.
func (v *view) lettersPlaces(places ...place) bool {
	within := func(w window) bool {
		for _, p := range places {
			if !w.holds(p) {
				return false
			}
		}
		return true
	}
	if v.of != nil {
		return within(v.frame(v))
	}
	for _, detail := range v.details {
		if within(v.frame(detail)) {
			return false
		}
	}
	return true
}

// frame returns what a detail shows, as a window of this view.
func (v *view) frame(detail *view) window {
	pad := detailPad / detail.scale
	at := func(p place, out float64) place {
		return v.zero.add(place{p.x + out, p.y + out}.scale(v.scale))
	}
	return window{at(detail.least, -pad), at(detail.most, pad)}
}

// frames draws the frames of a view's details with their letters.
func (dr *drawing) frames() {
	for _, detail := range dr.v.details {
		w := dr.v.frame(detail)
		dr.polygon(layerMarks, penThin, w.corners()...)
		t := text{says: "Detail " + detail.letter, size: labelSize, bold: true, halo: true}
		middle := w.low.add(w.high).scale(0.5)
		half := w.high.sub(w.low).scale(0.5)
		var ways []label
		for i, way := range []place{{0, -1}, {0, 1}, {1, 0}, {-1, 0}} {
			edge := middle.add(place{way.x * half.x, way.y * half.y})
			ways = append(ways, textLabel(centered(t, nextTo(t, edge, way, 4)), float64(i)))
		}
		dr.put(t, w.low, ways...)
		dr.labels.closed = append(dr.labels.closed, w)
	}
}

// enlarge draws views that are much smaller than the first one larger, where
// each has a row of its own.
func enlarge(rows [][]*view) {
	for _, row := range rows[1:] {
		if len(row) > 1 {
			return
		}
	}
	for _, row := range rows[1:] {
		v := row[0]
		size := v.most.sub(v.least)
		if size.x == 0 || size.y == 0 {
			continue
		}
		most := math.Min((sheetInner-2*viewsPad)/size.x, viewEnlarged/size.y)
		if larger := enlargement(most / v.scale); larger >= detailLeast {
			v.scale *= larger
			v.words += fmt.Sprintf(", %s times as large", figure.Given(larger, ""))
		}
	}
}
