package linkage

import (
	"math"
	"slices"
)

// Numbers of a mirror image stand nowhere: they follow from those that it mirrors.
// What is wanted of them otherwise is refused, but for a rod's length and the thread in
// its ends, which are set on each rod by itself: these are written beside its mirror.

// original returns what a block is the mirror image of.
func original[T any](r *reader, b *block) (T, bool) {
	thing, ok := r.names[b.mirroring.of.label()].thing.(T)
	return thing, ok
}

// asSet is a rod as it was read.
type asSet struct {
	length  float64
	given   bool
	engaged []float64
}

// keepRods notes how the rods that are mirror images are set before anything changes.
func (w *rewriter) keepRods() {
	for _, b := range w.r.rods {
		if b.mirroring == nil {
			continue
		}
		was := asSet{length: b.rod.Length, given: b.rod.LengthGiven}
		for _, end := range b.ends {
			was.engaged = append(was.engaged, end.end.Engaged)
		}
		if w.rodsWere == nil {
			w.rodsWere = map[*rodBlock]asSet{}
		}
		w.rodsWere[b] = was
	}
}

// follow is where a place of a mirror image is, as it follows from the original; what
// is wanted of it otherwise is refused.
func (w *rewriter) follow(b *block, dimension string, at Vec) Vec {
	for i, axis := range axes {
		if want, ok := w.wanted(dimension + axis); ok {
			w.mustFollow(b, dimension+axis, want, *at.axis(i), "measure and write that, or write this one out (fullfree show)")
		}
	}
	return at
}

// mustFollow refuses a figure of a mirror image that isn't the image of the original's.
func (w *rewriter) mustFollow(b *block, dimension string, want, follows float64, remedy string) {
	if math.Abs(want-follows) > 2*writtenHalf+float64(polarShare*max(math.Abs(want), w.r.run.Size())) {
		asked, _ := decimal(want)
		is, _ := decimal(follows)
		w.r.faults.Add(spanOf(b.mirroring.at), "nothing was written: %s is to be %s, and it is mirrored from %s, by which it is %s: %s", shortName(dimension), asked, shortName(w.r.images[dimension].of), is, remedy)
	}
}

// followPivot makes the pivot of a mirrored part what it follows to.
func (w *rewriter) followPivot(p *partBlock, done []bool) {
	if of, ok := original[*Part](w.r, p.block); ok {
		w.rewritePart(of.Index, done)
		p.part.Pivot = w.follow(p.block, p.part.Name+".pivot", w.r.reflect(of.Pivot))
	}
}

// followPoint is where a point of a mirrored part is.
func (w *rewriter) followPoint(p *partBlock, point *Point, done []bool) Vec {
	of, ok := original[*Part](w.r, p.block)
	if !ok {
		return point.At
	}
	w.rewritePart(of.Index, done)
	i := slices.IndexFunc(of.Points, func(q Point) bool { return q.Name == point.Name && q.Arm == point.Arm })
	if i < 0 {
		return point.At
	}
	at := w.r.reflect(of.Points[i].At)
	if point.Arm {
		at = p.part.Pivot.Add(w.r.reflect(of.Points[i].At.Sub(of.Pivot)))
	}
	return w.follow(p.block, p.part.Name+"."+point.Name, at)
}

// followRodPoints puts the points of mirrored rods where they follow to.
func (w *rewriter) followRodPoints() {
	for _, b := range w.r.rods {
		if !b.isImage("points") {
			continue
		}
		if of, ok := original[*Rod](w.r, b.block); ok {
			for i := range b.rod.Points {
				b.rod.Points[i].At = w.follow(b.block, b.rod.Name+"."+b.rod.Points[i].Name, w.r.reflect(of.Points[i].At))
			}
		}
	}
}

// besideRods writes beside the mirror of a rod what is set on it otherwise than on the
// rod that it mirrors.
func (w *rewriter) besideRods() {
	for _, b := range w.r.rods {
		was, mirrored := w.rodsWere[b]
		if !mirrored {
			continue
		}
		of, ok := original[*Rod](w.r, b.block)
		if !ok {
			continue
		}
		var own []mirrorLine
		rod := b.rod
		rod.measure()
		if !b.mirroring.own["length"] {
			own = append(own, w.besideLength(rod, of, was)...)
		}
		for i, end := range b.ends {
			own = append(own, w.besideEnd(b, end, of, was.engaged[i])...)
		}
		if len(own) > 0 {
			w.beside(b.block, own, false)
		}
	}
}

// besideLength is the length of a mirrored rod, where it is another than that of the
// original.
func (w *rewriter) besideLength(rod, of *Rod, was asSet) []mirrorLine {
	length, wanted := w.wanted(rod.Name + ".length")
	follows := rod.Drawn
	if of.LengthGiven {
		follows = of.Length
	}
	switch {
	case wanted:
	case was.given:
		length = was.length
	default:
		length = rod.Drawn
	}
	rod.Length, rod.LengthGiven = follows, of.LengthGiven
	if same(length, follows) {
		return nil
	}
	text, value := decimal(length)
	rod.Length, rod.LengthGiven = value, true
	return []mirrorLine{{name: "length", value: text}}
}

// besideEnd is an end of a mirrored rod, where more or less of its thread is in the
// rod than in the original.
func (w *rewriter) besideEnd(b *rodBlock, end endBlock, of *Rod, was float64) []mirrorLine {
	header := "end " + quoted(end.end.Side)
	if b.mirroring.own["end "+end.end.Side] {
		w.rewriteEngaged(end)
		return nil
	}
	engaged, wanted := w.wanted(end.end.String() + ".engaged")
	if !wanted {
		engaged = was
	}
	twin := of.End(end.end.Side)
	line, ok := b.mirroring.line(header)
	if twin == nil || !ok {
		return nil
	}
	if end.end.Engaged = twin.Engaged; same(engaged, twin.Engaged) {
		return nil
	}
	line.inner = slices.Clone(line.inner)
	for i := range line.inner {
		l, k := &line.inner[i], end.end
		var value float64
		switch l.name {
		case "engaged":
			l.value, value = decimal(engaged)
			k.Engaged = value
		case "home":
			l.value, value = decimal((*k.Most - engaged) / k.Thread.Pitch)
			k.Engaged = *k.Most - float64(value*k.Thread.Pitch)
		case "exposed":
			l.value, value = decimal(*k.Shank - engaged)
			k.Engaged = *k.Shank - value
		}
	}
	return []mirrorLine{line}
}

// followStops makes the figures of mirrored stops what they follow to.
func (w *rewriter) followStops() {
	for i, b := range w.r.stops {
		s := w.r.run.Stops[i]
		if !b.isImage("at") || s.Of == nil {
			continue
		}
		of, ok := original[*Stop](w.r, b)
		if !ok {
			continue
		}
		want, wanted := w.wanted(s.Name + ".at")
		if !wanted {
			want = s.At
		}
		s.At = float64(w.r.images[s.Name+".at"].sign * of.At)
		asked, _ := decimal(want)
		w.mustFollow(b, s.Name+".at", want, s.At, "write at = "+asked+" beside mirror, and its screw is set by itself")
	}
}
