package picture

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
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
		if k <= most*(1+paper.ClearlyBetter) {
			best = k
		}
	}
	return best
}

// cluster is small parts close together, in a view's own lengths: those of the
// drawing, y down.
type cluster struct {
	low, high paper.Place
	smallest  float64
}

func (c cluster) size() paper.Place { return c.high.Sub(c.low) }

// joined returns the cluster of two.
func (c cluster) joined(o cluster) cluster {
	return cluster{
		paper.At(math.Min(c.low.X, o.low.X), math.Min(c.low.Y, o.low.Y)),
		paper.At(math.Max(c.high.X, o.high.X), math.Max(c.high.Y, o.high.Y)),
		math.Min(c.smallest, o.smallest),
	}
}

// near reports whether two clusters, enlarged, would lie in each other's
// labels.
func (c cluster) near(o cluster) bool {
	const share = 0.8 // of the size of the smallest
	gap := float64(share * math.Min(c.smallest, o.smallest))
	return c.low.X-gap < o.high.X && o.low.X-gap < c.high.X && c.low.Y-gap < o.high.Y && o.low.Y-gap < c.high.Y
}

// bare returns the view at the scale of the drawing and with its zero.
func (v *view) bare() *view {
	bare := *v
	bare.scale, bare.zero = 1, paper.Place{}
	return &bare
}

// room returns between which places of the view, at the drawing's scale, a
// part moves; ok is false for one that has no place.
func (d *diagram) room(v *view, part *linkage.Part) (low, high paper.Place, ok bool) {
	reach := d.reachOf(part)
	low, high = v.bare().extent(reach)
	return low, high, len(reach) > 0
}

// sizeOf returns how large a part comes out in a view, in the drawing's
// lengths: from what it turns on to its farthest point, or all of it.
func (d *diagram) sizeOf(v *view, part *linkage.Part) float64 {
	if part.OnAxis() {
		far, ok := outermost(part)
		if !ok {
			return 0
		}
		return v.way(far.Sub(footOf(part, far))).Norm()
	}
	low, high, _ := d.room(v, part)
	return high.Sub(low).Norm()
}

// goes reports whether a part moves enough in this sweep to be lettered.
func (d *diagram) goes(part *linkage.Part) bool {
	for _, t := range d.sweep.Parts {
		moves := t.Most - t.Least
		if t.Part == part && (moves >= render.LittleTravel || t.Unit != linkage.Degrees && moves*d.views[0].scale > nearly) {
			return true
		}
	}
	return false
}

// findDetails decides what of the whole views is drawn again as details. Of a rotor nothing is:
// what goes all the way round is seen by where the blades are.
func (d *diagram) findDetails() {
	if d.sweep.TurnsRotor() {
		return
	}
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
		for _, detail := range detailsOf(v, clusters, d.inner()) {
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
				inside := paper.Window{Low: detail.least, High: detail.most}
				detail.parts[part] = ok && inside.Holds(low) && inside.Holds(high)
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
// alone in a row or in pairs, on a sheet so wide between its margins.
func detailsOf(v *view, clusters []cluster, wide float64) []*view {
	var list []*view
	for _, c := range clusters {
		scaled := func(across float64) float64 {
			room := wide/across - 2*(detailPad+detailLabels)
			most := math.Min(detailWanted/c.smallest, detailTallest/math.Max(c.size().Y, c.smallest))
			return enlargement(math.Min(most, room/math.Max(c.size().X, c.smallest)) / v.scale)
		}
		alone, paired := scaled(1), scaled(2)
		if alone < detailLeast {
			continue
		}
		detail := &view{name: v.name, right: v.right, up: v.up, toward: v.toward, of: v, least: c.low, most: c.high, larger: alone}
		if len(clusters) > 1 && paired >= detailLeast && paired >= detailPairs*alone {
			detail.larger, detail.paired = paired, true
		}
		detail.scale = float64(v.scale * detail.larger)
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
func (v *view) framed(at paper.Place) bool {
	for _, detail := range v.details {
		if v.frame(detail).Holds(at) {
			return true
		}
	}
	return false
}

// unframed returns the first of some places that lies in no such frame; the
// first of all where each lies in one.
func (v *view) unframed(spots []paper.Place) paper.Place {
	for _, at := range spots {
		if !v.framed(at) {
			return at
		}
	}
	return spots[0]
}

// lettersPlaces reports whether what lies between places of the sheet is
// lettered in this view.
func (v *view) lettersPlaces(places ...paper.Place) bool {
	within := func(w paper.Window) bool {
		for _, p := range places {
			if !w.Holds(p) {
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
func (v *view) frame(detail *view) paper.Window {
	pad := detailPad / detail.scale
	at := func(p paper.Place, out float64) paper.Place {
		return v.zero.Add(paper.At(p.X+out, p.Y+out).Scale(v.scale))
	}
	return paper.Window{Low: at(detail.least, -pad), High: at(detail.most, pad)}
}

// frames draws the frames of a view's details with their letters.
func (dr *drawing) frames() {
	for _, detail := range dr.v.details {
		w := dr.v.frame(detail)
		dr.polygon(paper.LayerMarks, paper.PenThin, w.Corners()...)
		t := paper.Text{Says: "Detail " + detail.letter, Size: labelSize, Bold: true, Halo: true}
		middle := w.Low.Add(w.High).Scale(0.5)
		half := w.High.Sub(w.Low).Scale(0.5)
		var ways []paper.Label
		for i, way := range []paper.Place{paper.At(0, -1), paper.At(0, 1), paper.At(1, 0), paper.At(-1, 0)} {
			edge := middle.Add(paper.At(float64(way.X*half.X), float64(way.Y*half.Y)))
			ways = append(ways, paper.TextLabel(paper.Centered(t, nextTo(t, edge, way, 4)), float64(i)))
		}
		dr.put(t, w.Low, ways...)
		dr.labels.Closed = append(dr.labels.Closed, w)
	}
}

// enlarge draws views that are much smaller than the first one larger, where
// each has a row of its own, on a sheet so wide between its margins.
func enlarge(rows [][]*view, wide float64) {
	for _, row := range rows[1:] {
		if len(row) > 1 {
			return
		}
	}
	for _, row := range rows[1:] {
		v := row[0]
		size := v.most.Sub(v.least)
		if size.X == 0 || size.Y == 0 {
			continue
		}
		most := math.Min((wide-2*viewsPad)/size.X, viewEnlarged/size.Y)
		if larger := enlargement(most / v.scale); larger >= detailLeast {
			v.scale = float64(v.scale * larger)
			v.words += fmt.Sprintf(", %s times as large", figure.Given(larger, ""))
		}
	}
}
