package picture

import (
	"math"
	"strings"

	"fullfree/linkage/elementary"
	"fullfree/render/internal/paper"
	"fullfree/solve/survey"
)

// hole is a place on the page for taping with its letters: several where holes
// lie one behind the other.
type hole struct {
	at     paper.Place
	says   []string
	middle paper.Place // of its part, to write on the far side from
}

// A letter must not pass for that of another hole, or the wrong distance is
// taped.
const (
	clearlyOwn  = 1.6  // a letter without a leader is by so much nearer to its own hole than to any other
	ownBy       = 4.0  // and at least so many sheet units
	letterRoom  = 9.0  // sheet units from a letter to another hole: nearer, even one with a leader is mistaken
	leaderClear = 5.0  // sheet units from a leader to another hole, which it would seem to begin at
	mistaken    = 60   // what either costs: more than any line that a letter may lie on
	ledLetter   = 4    // what a leader costs: a letter beside its hole is read faster
	letterFrom  = 12.0 // sheet units from a letter to its hole: farther, a line joins them
	letterApart = 5.0  // sheet units to the next label on a line with it, lest two read as one
)

// holesIn returns the holes of a view; those one behind the other are one.
func (p *blankPage) holesIn(v *view) []*hole {
	var holes []*hole
	for _, ref := range survey.Places(p.run) {
		at := v.on(ref.At())
		var found *hole
		for _, h := range holes {
			if h.at.Distance(at) < nearly {
				found = h
			}
		}
		if found == nil {
			found = &hole{at: at, middle: v.on(ref.Part.Pivot)}
			holes = append(holes, found)
		}
		found.says = append(found.says, p.letters[ref.String()])
	}
	return holes
}

// letterHoles writes the letters of the holes beside them, with a line to the
// hole wherever another is as near.
func (p *blankPage) letterHoles(dr *drawing) {
	holes := p.holesIn(dr.v)
	for _, h := range holes {
		t := paper.Text{Says: strings.Join(h.says, ", "), Size: letterSize, Bold: true, Halo: true}
		out := h.middle.To(h.at)
		if out == (paper.Place{}) {
			out = paper.At(0, -1)
		}
		ways := allRound(t, h.at, out, 5, 9, 14)
		for i := range ways {
			ways[i] = h.told(ways[i], holes)
		}
		size := paper.TextWidth(t.Says, t.Size, t.Bold)
		dr.labels.PutAround(h.at, balloonNear, size, func(middle paper.Place) paper.Label {
			return h.told(paper.TextLabel(paper.Centered(t, middle), 0), holes)
		}, ways...)
	}
}

// told returns a label of a hole with a leader where it takes one, and dearer
// where it could be mistaken for the label of another.
func (h *hole) told(l paper.Label, holes []*hole) paper.Label {
	edge := paper.EdgeOf(l.Box, h.at)
	own, foreign := edge.Distance(h.at), math.Inf(1)
	for _, other := range holes {
		if other != h {
			foreign = math.Min(foreign, fromBox(l.Box, other.at))
		}
	}
	l.Box.Long += letterApart
	if own <= letterFrom && foreign >= clearlyOwn*own && foreign >= own+ownBy {
		return l
	}
	l.Leader = []paper.Place{h.at, edge}
	l.Bias += ledLetter
	if foreign < letterRoom || own < letterFrom {
		l.Bias += mistaken
	}
	for _, other := range holes {
		if other != h && fromLine(h.at, edge, other.at) < leaderClear {
			l.Bias += mistaken
		}
	}
	return l
}

// fromBox returns how far a place is from the nearest edge of a box; 0 inside.
func fromBox(b paper.Box, at paper.Place) float64 {
	off := at.Sub(b.Middle)
	along := math.Max(0, math.Abs(off.Dot(b.Way))-b.Long)
	across := math.Max(0, math.Abs(off.Dot(b.Way.Square()))-b.High)
	return elementary.Hypot(along, across)
}

// fromLine returns how far a place is from the line between two others.
func fromLine(from, to, at paper.Place) float64 {
	long := from.Distance(to)
	if long == 0 {
		return at.Distance(from)
	}
	share := math.Min(1, math.Max(0, at.Sub(from).Dot(to.Sub(from))/(long*long)))
	return at.Distance(from.Add(to.Sub(from).Scale(share)))
}
