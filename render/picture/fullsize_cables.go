package picture

import (
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
)

// fullCable is what of a cable is drawn true to size: its core outside the
// conduit at each end, or all of an open one between its quadrants. The path of
// a conduit isn't known, so none is printed.
func (dr *drawing) fullCable(c *linkage.Cable) [][]paper.Place {
	if c.Open() {
		t, _ := tangentOf(c)
		return [][]paper.Place{{dr.v.on(t.at[0]), dr.v.on(t.at[1])}}
	}
	return dr.coreLines(dr.neutral, c)
}

// fullRims draws the rims of the quadrants that an open cable lies on.
func (dr *drawing) fullRims(c *linkage.Cable) {
	if !c.Open() {
		return
	}
	t, ok := tangentOf(c)
	for i, part := range c.Quadrants {
		if !ok {
			return
		}
		on := dr.rim(t, c, i)
		dr.stroke(paper.LayerNeutral, paper.PenThin, on...)
		dr.stroke(paper.LayerNeutral, paper.PenThin, dr.pegs(dr.neutral, part, part.Pivot)[0], on[0])
	}
}

// labelFullCables names every cable along what is drawn of it.
func (dr *drawing) labelFullCables() {
	for _, c := range dr.run.Cables {
		lines := dr.fullCable(c)
		for i, line := range lines {
			says := c.Name + ", open cable"
			if !c.Open() {
				says = c.Name + ", core at the " + [...]string{"from", "to"}[i] + " end"
			}
			dr.labelAlong(line, says, rodTextGap)
		}
	}
}

// crossed names what is marked where it stands at the ends of the travel.
func (f *fullSize) crossed() string {
	if len(f.run.Cables) == 0 {
		return "rods' holes"
	}
	return "holes of rods and cores"
}

// cableNote tells what of cables isn't printed, and what their place rests on.
func (f *fullSize) cableNote() string {
	note := ""
	if f.conduitNote() != "" {
		note = "No conduit is printed: its path isn't known."
	}
	return figure.Joined(" ", append([]string{note}, render.SpringsAssume(f.result)...)...)
}
