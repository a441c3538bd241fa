package render

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// fullDecimals is how finely a print in full size is written, mm: far finer
// than a printer prints or an eye reads.
const fullDecimals = 3

// Sizes of what a page carries besides the drawing, in sheet units.
const (
	pageName  = 14.0 // of type
	pageText  = 11.0
	pageSmall = 8.0
	crossHalf = 3 * perMillimeter
	ruleTick  = 3 * perMillimeter // at the ends of a rule
	ruleMinor = 1.5 * perMillimeter
	keyWide   = 42 * perMillimeter // of the plan of the pages
	keyHigh   = 22 * perMillimeter
	keyLeast  = 4.0 // the smallest type in it
)

// Where things stand on a page, mm: below the frame, and left of it.
const (
	nameDown    = 5.0
	pageDown    = 9.3
	viewDown    = 13.1
	measureDown = 17.4
	ruleDown    = 24.0
	endsDown    = 27.2
	notesDown   = 31.0
	noteLine    = 2.55
	notesMost   = 6
	keyDown     = 2.0
	ruleAside   = 5.0
)

// write writes one page.
func (f *fullSize) write(out io.Writer, i int) error {
	frame, corner := f.tiling.windowOf(f.tiles[i]), f.tiling.cornerOf(f.tiles[i])
	low, high := frame.low.scale(1/perMillimeter), frame.high.scale(1/perMillimeter)
	id := "fullsize-" + f.id() + "-" + strconv.Itoa(i+1)
	w := beginSVG(fullDecimals, corner, f.tiling.paper, id, "Full size: "+f.run.Name, f.pageStory(i),
		attr("width", millimeters(f.tiling.paper.x)), attr("height", millimeters(f.tiling.paper.y)))
	w.rect(corner.x, corner.y, f.tiling.paper.x, f.tiling.paper.y, attr("fill", "#fff"))
	w.clip(id+"-frame", low, high)
	w.group(attr("clip-path", "url(#"+id+"-frame)"))
	shown := f.ink.in(frame)
	shown.texts = slices.DeleteFunc(shown.texts, func(t text) bool { return f.left(t, frame) })
	shown.scaled(1 / perMillimeter).putAll(w)
	w.end()
	page := &scene{}
	f.furnish(page, i, frame)
	page.scaled(1 / perMillimeter).putAll(w)
	f.rules(w, low, high)
	return w.finish(out)
}

// millimeters is a length as an attribute of the root.
func millimeters(v float64) string {
	return (&svgWriter{decimals: fullDecimals}).digits(v) + "mm"
}

// pageStory is what a screen reader speaks.
func (f *fullSize) pageStory(i int) string {
	said := []string{f.pageWords(i) + ".", "In full size, at neutral" + f.heldWords() + "."}
	dr := drawing{diagram: f.diagram, v: f.v, neutral: f.pose(-1).stand}
	for _, rod := range f.run.Rods {
		said = append(said, dr.fullRodSays(rod)+".")
	}
	return strings.Join(append(said, caution), " ")
}

// pageWords tells which page it is: "Page 2 of 6, column B, row 1".
func (f *fullSize) pageWords(i int) string {
	if f.paper == PaperNone {
		return "One sheet"
	}
	return fmt.Sprintf("Page %d of %d, column %s row %d", i+1, len(f.tiles), figure.Letter(f.tiles[i].column), f.tiles[i].row+1)
}

// heldWords tells where the other controls stand, if there are any.
func (f *fullSize) heldWords() string {
	if len(f.sweep.Held) == 0 {
		return ""
	}
	return ", with " + heldAt(f.run, f.sweep)
}

// furnish draws what a page carries besides the drawing and the rules.
func (f *fullSize) furnish(s *scene, i int, frame window) {
	s.polygon(layerMarks, penRule, frame.corners()...)
	f.joints(s, f.tiles[i])
	width := frame.high.x - frame.low.x - keyWide - 3*perMillimeter
	write := func(down, size float64, bold bool, says string) {
		s.write(text{says: shorten(says, width, size, bold), at: frame.foot(down), size: size, bold: bold})
	}
	write(nameDown, pageName, true, f.run.Name)
	write(pageDown, pageText, false, f.pageWords(i)+". Full size, at neutral"+f.heldWords()+".")
	write(viewDown, pageText, false, f.v.words+".")
	long, says := testRule(f.run.Units)
	write(measureDown, pageText, true, "Measure this first: both rules "+says+". If not exact, print at 100 % (actual size).")
	var lines []string
	for _, words := range f.notes() {
		lines = append(lines, wrap(words, width, pageSmall, false)...)
	}
	if len(lines) > notesMost {
		lines = append(lines[:notesMost-1], lines[notesMost-1]+" …")
	}
	for k, line := range lines {
		write(notesDown+float64(float64(k)*noteLine), pageSmall, false, line)
	}
	s.write(text{says: "0", at: frame.foot(endsDown), size: pageText, anchor: anchorMiddle})
	s.write(text{says: says, at: frame.foot(endsDown).add(place{long * perMillimeter, 0}), size: pageText, anchor: anchorMiddle})
	aside := frame.low.add(place{-1.2 * perMillimeter, long * perMillimeter / 2})
	s.write(text{says: says, at: aside, size: pageText, anchor: anchorMiddle, angle: -90})
	f.key(s, i, place{frame.high.x - keyWide, frame.high.y + keyDown*perMillimeter})
	if arrows, ok := f.directions(f.v); ok {
		corner := place{frame.high.x - arrows.box.long, frame.high.y + footStrip*perMillimeter - arrows.box.high}
		s.put(arrows.moved(corner.sub(arrows.box.middle)))
	}
}

// foot returns the place so many millimeters below a window's lower left corner.
func (w window) foot(down float64) place {
	return place{w.low.x, w.high.y + down*perMillimeter}
}

// notes are the small words at the foot of every page, what matters most first.
func (f *fullSize) notes() []string {
	made := "Void once the file changes."
	if hash := f.hash(); hash != "" {
		made = "File, SHA-256 begins " + hash + ": void once it changes."
	}
	if f.opts.Version != "" {
		made = "fullfree " + figure.Clean(f.opts.Version) + ". " + made
	}
	notes := []string{figure.Joined(" ", made, f.settings()), caution}
	if len(f.tiles) > 1 {
		notes = append(notes, "Cut along the frame where a page joins another, and lay cross on cross.")
	}
	if f.crowded() {
		notes = append(notes, "It is crowded: names that found no room are left out.")
	}
	return append(notes,
		"Circles mark centers of holes and pivots, not sizes; oblique crosses where "+f.crossed()+" stand at the ends of the travel. "+figure.Joined(" ", SurveyNote(f.result.Survey), f.cableNote()))
}

// testRule is how long the rules on a page are, mm, and what they say.
func testRule(u linkage.Units) (long float64, says string) {
	if u == linkage.Inches {
		return 4 * 25.4, "4 in (101.6 mm)"
	}
	return 100, "100 mm"
}

// rules draws the two rules to be measured before anything is laid on the
// print: straight onto the picture, in millimeters.
func (f *fullSize) rules(w *svgWriter, low, high place) {
	long, _ := testRule(f.run.Units)
	parts := 10.0 // 10 mm each
	if f.run.Units == linkage.Inches {
		parts = 8 // half inches
	}
	for _, rule := range []struct {
		name            string
		from, way, side place
	}{
		{"rule-across", place{low.x, high.y + ruleDown}, place{1, 0}, place{0, -1}},
		{"rule-down", place{low.x - ruleAside, low.y}, place{0, 1}, place{-1, 0}},
	} {
		w.group(append([]string{attr("class", rule.name)}, penAttrs(penFine.scaled(1/perMillimeter), w, "")...)...)
		w.path([]place{rule.from, rule.from.along(rule.way, long)}, false)
		for k := 0.0; k <= parts; k++ {
			tick := ruleMinor
			if k == 0 || k == parts {
				tick = ruleTick
			}
			at := rule.from.along(rule.way, long*k/parts)
			w.path([]place{at, at.along(rule.side, tick/perMillimeter)}, false)
		}
		w.end()
	}
}

// joints draws the crosses by which pages are laid together, and tells which
// page joins.
func (f *fullSize) joints(s *scene, t tile) {
	g := f.tiling
	for _, side := range []place{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
		number := f.number(tile{t.column + int(side.x), t.row + int(side.y)})
		if number == 0 {
			continue
		}
		frame := g.windowOf(t)
		says := text{says: fmt.Sprintf("joins page %d", number), size: pageSmall, anchor: anchorMiddle}
		middle := frame.low.add(frame.high).scale(0.5)
		switch {
		case side.x > 0:
			says.at, says.angle = place{frame.high.x + 3*perMillimeter, middle.y}, -90
		case side.x < 0: // between the frame and the upright rule, below its words
			says.at, says.angle = place{frame.low.x - 1.2*perMillimeter, middle.y}, -90
		case side.y < 0:
			says.at = place{middle.x, frame.low.y - 1.5*perMillimeter}
		default: // between the frame and the name of the run
			says.at = place{middle.x, frame.high.y + 1.9*perMillimeter}
		}
		s.write(says)
		for _, at := range f.crossings(t, side) {
			f.crossAt(s, at, frame)
		}
	}
}

// crossings returns where crosses lie in the overlap of a page with its
// neighbor on a side, mm: the same from either page.
func (f *fullSize) crossings(t tile, side place) []place {
	g := f.tiling
	step, _ := roundStep(f.run.Units)
	low := g.windowOf(t).low.scale(1 / perMillimeter)
	var list []place
	for _, share := range []float64{0.25, 0.75} {
		// The further of the two pages begins where the overlap does.
		at := place{low.x + stepped(g.window.x*share, step), low.y + stepped(g.window.y*share, step)}
		switch {
		case side.x > 0:
			at.x = low.x + g.pitch.x + g.overlap/2
		case side.x < 0:
			at.x = low.x + g.overlap/2
		case side.y > 0:
			at.y = low.y + g.pitch.y + g.overlap/2
		default:
			at.y = low.y + g.overlap/2
		}
		list = append(list, at)
	}
	return list
}

// stepped is v, down to a multiple of a step.
func stepped(v, step float64) float64 { return float64(int(v/step)) * step }

// crossAt draws a cross with its place on the drawing, in the run's unit, on
// that side of it where the frame leaves room.
func (f *fullSize) crossAt(s *scene, mm place, frame window) {
	at := mm.scale(perMillimeter)
	for _, way := range []place{{1, 0}, {0, 1}} {
		s.line(layerMarks, penThin, at.along(way, -crossHalf), at.along(way, crossHalf))
	}
	in := millimetersOf(f.run.Units)
	lines := [2]text{}
	beyond := false
	for k, v := range []float64{mm.x / in * f.v.signs().x, mm.y / in * f.v.signs().y} {
		lines[k] = text{says: f.v.axes()[k] + " " + figure.UpTo(v, 3), at: at.add(place{3, 9 + 8*float64(k)}), size: pageSmall}
		beyond = beyond || !textBox(lines[k]).inside(frame)
	}
	for _, t := range lines {
		if beyond {
			t.at.x, t.anchor = at.x-3, anchorEnd
		}
		s.write(t)
	}
}

// axes names what of the drawing runs across a view and what down it.
func (v *view) axes() [2]string {
	return map[string][2]string{"xy": {"x", "y"}, "xz": {"x", "z"}, "yz": {"z", "y"}}[v.name]
}

// signs tells which way these count: 1 where they grow to the right or down.
func (v *view) signs() place {
	sum := func(a linkage.Vec) float64 { return a.X + a.Y + a.Z }
	return place{sum(v.right), -sum(v.up)}
}

// number returns the number of a page; 0 where it isn't printed.
func (f *fullSize) number(t tile) int { return slices.Index(f.tiles, t) + 1 }

// key draws the plan of the pages, this one in a thick frame.
func (f *fullSize) key(s *scene, i int, corner place) {
	if f.paper == PaperNone {
		return
	}
	g := f.tiling
	const head = 1.7 * pageSmall
	says := "Plan of the pages"
	if len(f.tiles) < g.columns*g.rows {
		says += "; struck out: empty, left out"
	}
	s.write(text{says: says, at: corner.add(place{0, pageSmall}), size: pageSmall})
	k := min(keyWide/(float64(g.columns)*g.pitch.x), keyHigh/(float64(g.rows)*g.pitch.y))
	cell := g.pitch.scale(k)
	size := min(pageText, cell.y*0.7, cell.x*0.5)
	var own window
	for row := range g.rows {
		for column := range g.columns {
			low := corner.add(place{float64(column) * cell.x, head + float64(row)*cell.y})
			room := window{low, low.add(cell)}
			s.polygon(layerCenters, penRule, room.corners()...)
			n := f.number(tile{column, row})
			switch {
			case n == 0:
				s.line(layerCenters, penRule, room.low, room.high)
			case n == i+1:
				own = room
			}
			if n > 0 && size >= keyLeast {
				middle := room.low.add(room.high).scale(0.5)
				s.write(text{says: strconv.Itoa(n), at: place{middle.x, middle.y + size*0.36}, size: size, bold: n == i+1, anchor: anchorMiddle})
			}
		}
	}
	thick := penFrame
	thick.width = 3
	s.polygon(layerMarks, thick, own.corners()...)
}
