package picture

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
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
	low, high := frame.Low.Scale(1/perMillimeter), frame.High.Scale(1/perMillimeter)
	id := "fullsize-" + f.id() + "-" + strconv.Itoa(i+1)
	w := paper.BeginSVG(fullDecimals, corner, f.tiling.paper, id, "Full size: "+f.run.Name, f.pageStory(i),
		paper.Attr("width", millimeters(f.tiling.paper.X)), paper.Attr("height", millimeters(f.tiling.paper.Y)))
	w.Rect(corner.X, corner.Y, f.tiling.paper.X, f.tiling.paper.Y, paper.Attr("fill", "#fff"))
	w.Clip(id+"-frame", low, high)
	w.Group(paper.Attr("clip-path", "url(#"+id+"-frame)"))
	f.shown(i).Scaled(1 / perMillimeter).PutAll(w)
	w.End()
	page := &paper.Scene{}
	f.furnish(page, i, frame)
	page.Scaled(1 / perMillimeter).PutAll(w)
	for _, rule := range f.rules(low, high) {
		w.Group(paper.Attr("class", rule.name))
		rule.scene.PutShapes(w, "")
		w.End()
	}
	return w.Finish(out)
}

// shown is what of the drawing a page shows.
func (f *fullSize) shown(i int) *paper.Scene {
	frame := f.tiling.windowOf(f.tiles[i])
	shown := f.ink.In(frame)
	shown.Texts = slices.DeleteFunc(shown.Texts, func(t paper.Text) bool { return f.left(t, frame) })
	return shown
}

// putOn draws a page of a PDF, a millimeter of the drawing a millimeter long.
func (f *fullSize) putOn(p *paper.PDF, i int) {
	frame, corner := f.tiling.windowOf(f.tiles[i]), f.tiling.cornerOf(f.tiles[i])
	p.Page(f.tiling.paper.Scale(paper.PointsPerMillimeter))
	zero := corner.Scale(-paper.PointsPerMillimeter)
	const scale = paper.PointsPerMillimeter / perMillimeter
	p.DrawIn(f.shown(i), frame, zero, scale)
	page := &paper.Scene{}
	f.furnish(page, i, frame)
	p.Draw(page, zero, scale)
	for _, rule := range f.rules(frame.Low.Scale(1/perMillimeter), frame.High.Scale(1/perMillimeter)) {
		p.Draw(&rule.scene, zero, paper.PointsPerMillimeter)
	}
}

// millimeters is a length as an attribute of the root.
func millimeters(v float64) string {
	return (&paper.SVG{Decimals: fullDecimals}).Digits(v) + "mm"
}

// pageStory is what a screen reader speaks.
func (f *fullSize) pageStory(i int) string {
	said := []string{f.pageWords(i) + ".", "In full size, at neutral" + f.heldWords() + "."}
	dr := drawing{diagram: f.diagram, v: f.v, neutral: f.pose(-1).pose}
	for _, rod := range f.run.Rods {
		said = append(said, dr.fullRodSays(rod)+".")
	}
	return strings.Join(append(said, render.Caution), " ")
}

// pageWords tells which page it is: "Page 2 of 6, column B, row 1".
func (f *fullSize) pageWords(i int) string {
	alone := ""
	if f.only != "" {
		alone = ": " + figure.Clean(f.only) + " alone"
	}
	if f.paper == PaperNone {
		return "One sheet" + alone
	}
	return fmt.Sprintf("Page %d of %d, column %s row %d%s", i+1, len(f.tiles), figure.Letter(f.tiles[i].column), f.tiles[i].row+1, alone)
}

// heldWords tells where the other controls stand, if there are any.
func (f *fullSize) heldWords() string {
	if len(f.sweep.Settings()) == 0 {
		return ""
	}
	return ", with " + render.HeldAt(f.run, f.sweep)
}

// furnish draws what a page carries besides the drawing and the rules.
func (f *fullSize) furnish(s *paper.Scene, i int, frame paper.Window) {
	s.Polygon(paper.LayerMarks, paper.PenRule, frame.Corners()...)
	f.joints(s, f.tiles[i])
	width := frame.High.X - frame.Low.X - keyWide - 3*perMillimeter
	write := func(down, size float64, bold bool, says string) {
		s.Text(paper.Text{Says: paper.Shorten(says, width, size, bold), At: underFrame(frame, down), Size: size, Bold: bold})
	}
	write(nameDown, pageName, true, f.run.Name)
	write(pageDown, pageText, false, f.pageWords(i)+". Full size, at neutral"+f.heldWords()+".")
	write(viewDown, pageText, false, f.v.words+".")
	long, says := testRule(f.run.Units)
	write(measureDown, pageText, true, "Measure this first: both rules "+says+". If not exact, print at 100 % (actual size).")
	var lines []string
	for _, words := range f.notes() {
		lines = append(lines, paper.Wrap(words, width, pageSmall, false)...)
	}
	if len(lines) > notesMost {
		lines = append(lines[:notesMost-1], lines[notesMost-1]+" …")
	}
	for k, line := range lines {
		write(notesDown+float64(float64(k)*noteLine), pageSmall, false, line)
	}
	s.Text(paper.Text{Says: "0", At: underFrame(frame, endsDown), Size: pageText, Anchor: paper.AnchorMiddle})
	s.Text(paper.Text{Says: says, At: underFrame(frame, endsDown).Add(paper.At(long*perMillimeter, 0)), Size: pageText, Anchor: paper.AnchorMiddle})
	aside := frame.Low.Add(paper.At(-1.2*perMillimeter, long*perMillimeter/2))
	s.Text(paper.Text{Says: says, At: aside, Size: pageText, Anchor: paper.AnchorMiddle, Angle: -90})
	f.key(s, i, paper.At(frame.High.X-keyWide, frame.High.Y+keyDown*perMillimeter))
	if arrows, ok := f.directions(f.v); ok && f.v.name != rodView {
		corner := paper.At(frame.High.X-arrows.Box.Long, frame.High.Y+footStrip*perMillimeter-arrows.Box.High)
		s.Put(arrows.Moved(corner.Sub(arrows.Box.Middle)))
	}
}

// underFrame returns the place so many millimeters below a window's lower left corner.
func underFrame(w paper.Window, down float64) paper.Place {
	return paper.At(w.Low.X, w.High.Y+down*perMillimeter)
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
	notes := []string{figure.Joined(" ", made, f.settings()), render.Caution}
	if len(f.tiles) > 1 {
		notes = append(notes, "Cut along the frame where a page joins another, and lay cross on cross.")
	}
	if f.crowded() {
		notes = append(notes, "It is crowded: names that found no room are left out.")
	}
	return append(notes,
		"Circles mark centers of holes and pivots, not sizes; oblique crosses where "+f.crossed()+" stand at the ends of the travel. "+figure.Joined(" ", render.SurveyNote(f.result.Survey), f.cableNote()))
}

// testRule is how long the rules on a page are, mm, and what they say.
func testRule(u linkage.Unit) (long float64, says string) {
	if u == linkage.Inches {
		return 4 * 25.4, "4 in (101.6 mm)"
	}
	return 100, "100 mm"
}

// testLine is a rule to be measured, in millimeters.
type testLine struct {
	name  string
	scene paper.Scene
}

// rules draws the two rules to be measured before anything is laid on the print.
func (f *fullSize) rules(low, high paper.Place) []testLine {
	var list []testLine
	long, _ := testRule(f.run.Units)
	parts := 10.0 // 10 mm each
	if f.run.Units == linkage.Inches {
		parts = 8 // half inches
	}
	for _, rule := range []struct {
		name            string
		from, way, side paper.Place
	}{
		{"rule-across", paper.At(low.X, high.Y+ruleDown), paper.At(1, 0), paper.At(0, -1)},
		{"rule-down", paper.At(low.X-ruleAside, low.Y), paper.At(0, 1), paper.At(-1, 0)},
	} {
		drawn := testLine{name: rule.name}
		pen := penFine.Scaled(1 / perMillimeter)
		drawn.scene.Line(paper.LayerMarks, pen, rule.from, rule.from.Along(rule.way, long))
		for k := 0.0; k <= parts; k++ {
			tick := ruleMinor
			if k == 0 || k == parts {
				tick = ruleTick
			}
			at := rule.from.Along(rule.way, long*k/parts)
			drawn.scene.Line(paper.LayerMarks, pen, at, at.Along(rule.side, tick/perMillimeter))
		}
		list = append(list, drawn)
	}
	return list
}

// joints draws the crosses by which pages are laid together, and tells which
// page joins.
func (f *fullSize) joints(s *paper.Scene, t tile) {
	g := f.tiling
	for _, side := range []paper.Place{paper.At(1, 0), paper.At(-1, 0), paper.At(0, 1), paper.At(0, -1)} {
		number := f.number(tile{t.column + int(side.X), t.row + int(side.Y)})
		if number == 0 {
			continue
		}
		frame := g.windowOf(t)
		says := paper.Text{Says: fmt.Sprintf("joins page %d", number), Size: pageSmall, Anchor: paper.AnchorMiddle}
		middle := frame.Low.Add(frame.High).Scale(0.5)
		switch {
		case side.X > 0:
			says.At, says.Angle = paper.At(frame.High.X+3*perMillimeter, middle.Y), -90
		case side.X < 0: // between the frame and the upright rule, below its words
			says.At, says.Angle = paper.At(frame.Low.X-1.2*perMillimeter, middle.Y), -90
		case side.Y < 0:
			says.At = paper.At(middle.X, frame.Low.Y-1.5*perMillimeter)
		default: // between the frame and the name of the run
			says.At = paper.At(middle.X, frame.High.Y+1.9*perMillimeter)
		}
		s.Text(says)
		for _, at := range f.crossings(t, side) {
			f.crossAt(s, at, frame)
		}
	}
}

// crossings returns where crosses lie in the overlap of a page with its
// neighbor on a side, mm: the same from either page.
func (f *fullSize) crossings(t tile, side paper.Place) []paper.Place {
	g := f.tiling
	step, _ := roundStep(f.run.Units)
	low := g.windowOf(t).Low.Scale(1 / perMillimeter)
	var list []paper.Place
	for _, share := range []float64{0.25, 0.75} {
		// The further of the two pages begins where the overlap does.
		at := paper.At(low.X+stepped(float64(g.window.X*share), step), low.Y+stepped(float64(g.window.Y*share), step))
		switch {
		case side.X > 0:
			at.X = low.X + g.pitch.X + g.overlap/2
		case side.X < 0:
			at.X = low.X + g.overlap/2
		case side.Y > 0:
			at.Y = low.Y + g.pitch.Y + g.overlap/2
		default:
			at.Y = low.Y + g.overlap/2
		}
		list = append(list, at)
	}
	return list
}

// stepped is v, down to a multiple of a step.
func stepped(v, step float64) float64 { return float64(float64(int(v/step)) * step) }

// crossAt draws a cross with its place on the drawing, in the run's unit, on
// that side of it where the frame leaves room.
func (f *fullSize) crossAt(s *paper.Scene, mm paper.Place, frame paper.Window) {
	at := mm.Scale(perMillimeter)
	for _, way := range []paper.Place{paper.At(1, 0), paper.At(0, 1)} {
		s.Line(paper.LayerMarks, paper.PenThin, at.Along(way, -crossHalf), at.Along(way, crossHalf))
	}
	in := millimetersOf(f.run.Units)
	lines := [2]paper.Text{}
	beyond := false
	for k, v := range []float64{float64(mm.X / in * f.v.signs().X), float64(mm.Y / in * f.v.signs().Y)} {
		lines[k] = paper.Text{Says: f.v.axes()[k] + " " + figure.UpTo(v, 3), At: at.Add(paper.At(3, 9+8*float64(k))), Size: pageSmall}
		beyond = beyond || !paper.TextBox(lines[k]).Inside(frame)
	}
	for _, t := range lines {
		if beyond {
			t.At.X, t.Anchor = at.X-3, paper.AnchorEnd
		}
		s.Text(t)
	}
}

// axes names what of the drawing runs across a view and what down it.
func (v *view) axes() [2]string {
	return map[string][2]string{"xy": {"x", "y"}, "xz": {"x", "z"}, "yz": {"z", "y"}, rodView: {"along", "up"}}[v.name]
}

// signs tells which way these count: 1 where they grow to the right or down.
func (v *view) signs() paper.Place {
	if v.name == rodView {
		return paper.At(1, -1)
	}
	sum := func(a linkage.Vec) float64 { return a.X + a.Y + a.Z }
	return paper.At(sum(v.right), -sum(v.up))
}

// number returns the number of a page; 0 where it isn't printed.
func (f *fullSize) number(t tile) int { return slices.Index(f.tiles, t) + 1 }

// key draws the plan of the pages, this one in a thick frame.
func (f *fullSize) key(s *paper.Scene, i int, corner paper.Place) {
	if f.paper == PaperNone {
		return
	}
	g := f.tiling
	const head = 1.7 * pageSmall
	says := "Plan of the pages"
	if len(f.tiles) < g.columns*g.rows {
		says += "; struck out: empty, left out"
	}
	s.Text(paper.Text{Says: says, At: corner.Add(paper.At(0, pageSmall)), Size: pageSmall})
	k := min(keyWide/(float64(g.columns)*g.pitch.X), keyHigh/(float64(g.rows)*g.pitch.Y))
	cell := g.pitch.Scale(k)
	size := min(pageText, cell.Y*0.7, cell.X*0.5)
	var own paper.Window
	for row := range g.rows {
		for column := range g.columns {
			low := corner.Add(paper.At(float64(float64(column)*cell.X), head+float64(float64(row)*cell.Y)))
			room := paper.Window{Low: low, High: low.Add(cell)}
			s.Polygon(paper.LayerCenters, paper.PenRule, room.Corners()...)
			n := f.number(tile{column, row})
			switch {
			case n == 0:
				s.Line(paper.LayerCenters, paper.PenRule, room.Low, room.High)
			case n == i+1:
				own = room
			}
			if n > 0 && size >= keyLeast {
				middle := room.Low.Add(room.High).Scale(0.5)
				s.Text(paper.Text{Says: strconv.Itoa(n), At: paper.At(middle.X, middle.Y+float64(size*0.36)), Size: size, Bold: n == i+1, Anchor: paper.AnchorMiddle})
			}
		}
	}
	thick := paper.PenFrame
	thick.Width = 3
	s.Polygon(paper.LayerMarks, thick, own.Corners()...)
}
