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

// conduitHeld is up to which share of its way from an end a conduit is drawn
// moving with what holds it there, and conduitFree from which it stays: between
// the two it gives way. Its true path isn't known.
const (
	conduitHeld = 0.25
	conduitFree = 0.4
)

// cables draws every cable: cores follow what they are held on, and rims turn
// with their quadrants; conduits and open cables lie under the parts.
func (ld liveDrawing) cables() {
	for _, c := range ld.run.Cables {
		if c.Open() {
			ld.openCable(c)
			continue
		}
		ld.conduit(c)
		for i, leg := range c.Legs() {
			ends := pegMounts([]peg{ld.point(leg[0]), ld.point(leg[1])})
			ld.follow(paper.LayerNeutral, paper.Shape{Pen: penCore, Mounts: ends, Attrs: ld.live.tension(c)})
			ld.attach(ld.aside(func(dr *drawing) { dr.conduitEnd(c, i, leg) }), ends[1])
		}
	}
}

// conduit draws a conduit: it stays where it is, but near an end that a moving
// part holds.
func (ld liveDrawing) conduit(c *linkage.Cable) {
	path := ld.conduitMounts(c)
	edge, inside := paper.MetalPens(conduitWidth, paper.PenThin, paper.WhiteFill)
	edge.Weight = paper.PenThin.Weight
	if slices.ContainsFunc(path, func(m paper.Mount) bool { return m.Body != fixedBody }) {
		ld.follow(paper.LayerCenters, paper.Shape{Pen: edge, Mounts: path})
		ld.follow(paper.LayerCenters, paper.Shape{Pen: inside, Mounts: path})
		return
	}
	ld.drawing.conduit(c)
}

// conduitMounts is the way on which a conduit is drawn.
func (ld liveDrawing) conduitMounts(c *linkage.Cable) []paper.Mount {
	bodies := [2]int{ld.live.mountAt(c.Conduit[0]).Body, ld.live.mountAt(c.Conduit[1]).Body}
	var list []paper.Mount
	for i, p := range conduitPath(ld.drawing.neutral, c) {
		share, body := float64(i)/conduitParts, bodies[0]
		if share > 0.5 {
			share, body = 1-share, bodies[1]
		}
		switch {
		case bodies[0] == bodies[1], share <= conduitHeld:
		case body != fixedBody && share < conduitFree:
			continue
		default:
			body = fixedBody
		}
		list = append(list, ld.live.fasten(body, p))
	}
	return list
}

// rimSpare is how far a rim is drawn beyond where its cable leaves it, degrees: so
// that it is still there where the quadrant has turned farthest.
func (l *live) rimSpare(part *linkage.Part) float64 {
	spare := float64(rimSpare)
	for _, t := range l.sweep.Parts {
		if t.Part == part {
			spare = math.Max(spare, math.Max(-t.Least, t.Most)+rimStep)
		}
	}
	return math.Min(rimStep*math.Ceil(spare/rimStep), 360-rimTurn)
}

// tension tells a page which series is a cable's tension, by which it shows the
// cable slack (motion.js); nil where none is. As delivered it is shown as it is.
func (l *live) tension(c *linkage.Cable) []string {
	for i, s := range l.sweep.Series() {
		if s.Kind != solve.SeriesTension || s.Cable != c {
			continue
		}
		var attrs []string
		if v := l.values[i]; v != nil && *v <= 0 {
			attrs = append(attrs, paper.Attr("class", "slack"))
		}
		if !l.opts.Still {
			attrs = append(attrs, paper.Attr("data-tension", strconv.Itoa(i)))
		}
		return attrs
	}
	return nil
}

// cableNotes tells what of cables isn't as it is drawn, and what a dashed one is.
func (l *live) cableNotes() string {
	note := l.conduitNote()
	for _, c := range l.sweep.Cables {
		if len(c.Slack) > 0 {
			return figure.Joined(" ", note, "Thick dashes: a cable that hangs slack.")
		}
	}
	return note
}

// namedCable is what names a cable in the view.
func (ld liveDrawing) namedCable(c *linkage.Cable) tagged {
	p := tagged{number: ld.cableNumber(c), name: onOwn(c.In, c.Name), best: ld.viewOfCable(c) == ld.v}
	p.says = p.name + ", " + ld.cableWords(c)
	if c.Open() {
		t, _ := tangentOf(c)
		for _, share := range []float64{0.5, 0.35, 0.65, 0.2} {
			at := t.at[0].Add(t.at[1].Sub(t.at[0]).Scale(share))
			p.places = append(p.places, []paper.Mount{ld.live.mount(fixedBody, at)})
		}
		return p
	}
	path := ld.conduitMounts(c)
	for _, share := range []float64{0.5, 0.35, 0.65, 0.2} {
		p.places = append(p.places, path[int(share*float64(len(path)-1)):][:1])
	}
	return p
}
