package picture

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"math"
	"slices"
	"strconv"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// LiveOptions is what a live picture is told besides the results.
type LiveOptions struct {
	// id, of letters, digits and dashes, tells the ids of pictures on a page
	// apart; empty: by the sweep's control and number.
	ID string
	At float64 // where the control stands
	// still leaves out what a page needs to move the picture.
	Still bool
}

// Live returns the picture of a run that a page moves: the airframe
// and the ends of the travel, and over them, thick, what moves. What moves
// carries its places as drawn (data-at) in a view that tells how it lies on the
// sheet (data-view); motion.js puts them where the frames of a position have
// them. It looks as the sweep diagram does. The same results give the same
// bytes.
func Live(result *solve.Result, sweep *solve.Sweep, opts LiveOptions) ([]byte, error) {
	l, err := newLive(result, sweep, opts)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = l.svg(&out)
	return out.Bytes(), err
}

// live is a live picture being drawn.
type live struct {
	*diagram
	opts   LiveOptions
	bodies bodies
	// Frames of its bodies: as laid out, at neutral; as delivered; in the
	// positions in which names that move must be clear of each other; and all
	// through the travel, for marks that stand still.
	neutral, at  []solve.Frame
	all, through [][]solve.Frame
	values       []*float64 // by the sweep's series, as delivered
	places       int        // decimals of a place as drawn
	drawn        []liveView
	flagged      map[string]bool // the marks of flags that are in the picture
	numbered     map[int]string  // what the numbers in balloons stand for
}

// liveView is a view with what is drawn of it.
type liveView struct {
	v     *view
	scene *paper.Scene
	tags  []tag
}

// liveReach is in how many positions is looked for how far things get.
const liveReach = 12

func newLive(result *solve.Result, sweep *solve.Sweep, opts LiveOptions) (*live, error) {
	d, err := emptyDiagram(result, sweep, DiagramOptions{})
	if err != nil {
		return nil, err
	}
	l := &live{diagram: d, opts: opts, bodies: bodiesOf(sweep), flagged: map[string]bool{}, numbered: map[int]string{}}
	_, l.places = frameDecimals(d.run)
	d.shownPoses = slices.DeleteFunc(d.shownPoses, func(s shownPose) bool { return !s.neutral && s.end < 0 })
	if l.neutral, err = l.framesAt(0); err != nil {
		return nil, err
	}
	if l.at, err = l.framesAt(opts.At); err != nil {
		return nil, err
	}
	if p, ok := sweep.Sample(opts.At); ok {
		l.values = p.Values
	}
	for _, x := range []float64{sweep.Low, sweep.Low / 2, 0, sweep.High / 2, sweep.High} {
		frames, err := l.framesAt(x)
		if err != nil {
			return nil, err
		}
		l.all = append(l.all, frames)
	}
	for _, x := range l.steps() {
		if frames, err := l.framesAt(x); err == nil {
			l.through = append(l.through, frames)
		}
	}
	d.flags = flagsOf(sweep)
	if l.opts.ID == "" {
		l.opts.ID = l.ownID()
	}
	l.layOut()
	return l, nil
}

// ownID tells this picture's ids apart from those of other pictures of the run,
// and of other runs.
func (l *live) ownID() string {
	var file string
	if source := l.run.Source; source != nil {
		file = source.Name + "\n" + string(source.Text)
	}
	id := fmt.Sprintf("live-%08x-%d-%d", crc32.ChecksumIEEE([]byte(file)), l.sweep.Control.Index, l.sweep.Index)
	if l.opts.Still {
		id += fmt.Sprintf("-at-%016x", math.Float64bits(l.opts.At))
	}
	return id
}

// framesAt returns where the bodies are at a place of the control.
func (l *live) framesAt(x float64) ([]solve.Frame, error) {
	p, ok := l.sweep.Sample(x)
	if !ok {
		return nil, errors.New("the run doesn't get to " + figure.Quantity(x, l.sweep.Unit) + " of " + figure.Clean(l.sweep.Control.Name))
	}
	return p.Frames, nil
}

// Sizes of a live picture, in sheet units: a phone held upright (360 pixels
// wide, the page's margins left) shows a unit as 0.75 of a pixel, so that
// names read at 11 and marks at 10.
const (
	liveWidth    = plotAlone
	liveTallest  = 480.0 // of a single view
	livesTallest = 820.0 // of several
)

// layOut draws the views, and below them what their marks stand for.
func (l *live) layOut() {
	l.scene.Width = liveWidth
	y := sheetMargin / 2
	for _, row := range arrange(l.views, l.travelled(), l.inner(), liveTallest, livesTallest) {
		first := len(l.drawn)
		scenes, down, end := l.layRow(y, row, l.drawLive)
		for i, s := range scenes {
			moved := paper.Scene{}
			moved.Take(s, down)
			lv := &l.drawn[first+i]
			lv.scene = &moved
			lv.v.zero = lv.v.zero.Add(down)
		}
		y = end + viewGap
	}
	l.scene.Height = l.notes(y) + sheetMargin/2
}

// travelled returns everything that is drawn, all through the travel.
func (l *live) travelled() []sphere {
	d := *l.diagram
	d.shownPoses = slices.Clone(d.shownPoses)
	for _, x := range l.steps() {
		if pose, ok := l.sweep.At(x); ok {
			d.shownPoses = append(d.shownPoses, shownPose{pose: pose})
		}
	}
	return d.reach()
}

// steps returns places of the control between the ends of its travel.
func (l *live) steps() []float64 {
	var list []float64
	for i := 1; i < liveReach; i++ {
		list = append(list, l.sweep.Low+float64((l.sweep.High-l.sweep.Low)*float64(i)/liveReach))
	}
	return list
}

// notes tells below the views what their marks and numbers stand for.
func (l *live) notes(y float64) float64 {
	y += smallSize / 2
	for _, f := range l.flags {
		if l.flagged[f.mark] {
			y = l.lettered(y, f.mark, l.flagSays(f))
		}
	}
	for number := range len(l.run.Parts) + len(l.run.Rods) + len(l.run.Cables) + 1 {
		if says, ok := l.numbered[number]; ok {
			y = l.lettered(y, strconv.Itoa(number), says)
		}
	}
	if note := l.cableNotes(); note != "" {
		y = l.paragraph(y, 0, smallSize, false, note)
	}
	return y
}

// svg writes the picture.
func (l *live) svg(out *bytes.Buffer) error {
	id := l.opts.ID
	w := paper.NewSVG(l.scene.Width, l.scene.Height, id, l.title(), l.liveStory())
	hatch := id + "-hatching"
	w.Hatching(hatch)
	w.Rect(0, 0, l.scene.Width, l.scene.Height, paper.Attr("fill", "#fff"))
	for _, lv := range l.drawn {
		attrs := []string{paper.Attr("class", "view")}
		if !l.opts.Still {
			attrs = append(attrs, paper.Attr("data-view", lv.v.onSheet()))
		}
		w.Group(attrs...)
		for k := range lv.scene.Shapes {
			for i := range lv.scene.Shapes[k] {
				l.put(lv.v, &lv.scene.Shapes[k][i])
			}
		}
		lv.scene.PutShapes(w, hatch)
		lv.scene.PutTexts(w)
		for i := range lv.tags {
			l.putTag(w, lv.v, &lv.tags[i])
		}
		w.End()
	}
	l.scene.PutShapes(w, hatch)
	l.scene.PutTexts(w)
	return w.Finish(out)
}

// onSheet tells how a view lies on the sheet, as motion.js reads it.
func (v *view) onSheet() string {
	var words []string
	for _, k := range []float64{v.right.X, v.right.Y, v.right.Z, v.up.X, v.up.Y, v.up.Z, v.zero.X, v.zero.Y, v.scale} {
		words = append(words, number64(k))
	}
	return strings.Join(words, " ")
}

// number64 writes a number in full, without a negative zero.
func number64(v float64) string {
	if v == 0 {
		v = 0
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

func (l *live) title() string {
	if l.opts.Still {
		return fmt.Sprintf("%s, with %s at %s", l.run.Name, l.sweep.Control.Name, figure.Quantity(l.opts.At, l.sweep.Unit))
	}
	return "Moving picture: " + l.run.Name
}

// liveStory tells the picture in words, for those who don't see it.
func (l *live) liveStory() string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+" ", args...) }
	say("%s. Thick: the run where the control stands. Thin, in long and two short dashes: the ends of the travel.", l.moving())
	for i := range l.sweep.Ends {
		say("The %s end, at %s: %s.", render.SideName(i), figure.Quantity(l.sweep.Ends[i].At, l.sweep.Unit), render.EndOf(l.sweep, i))
	}
	for _, f := range l.flags {
		say("On center, flag %s: %s.", f.mark, l.flagSays(f))
	}
	for _, v := range l.views {
		say("%s.", v.words)
	}
	return strings.TrimSpace(b.String())
}

const fixedBody = -1

// bodies finds the numbers of the bodies of a sweep.
type bodies struct {
	parts map[*linkage.Part]int
	rods  map[*linkage.Rod]int
}

func bodiesOf(sweep *solve.Sweep) bodies {
	b := bodies{map[*linkage.Part]int{}, map[*linkage.Rod]int{}}
	for i, body := range sweep.Bodies() {
		if body.Part != nil {
			b.parts[body.Part] = i
		} else {
			b.rods[body.Rod] = i
		}
	}
	return b
}

// of returns the number of a part's body.
func (b bodies) of(part *linkage.Part) int {
	if i, ok := b.parts[part]; ok {
		return i
	}
	return fixedBody
}

// mountOn returns a place of a part, given as drawn.
func (l *live) mountOn(part *linkage.Part, drawn linkage.Vec) paper.Mount {
	return l.mount(l.bodies.of(part), drawn)
}

// mountAt returns a point of a part or rod.
func (l *live) mountAt(ref linkage.PointRef) paper.Mount {
	if ref.Rod != nil {
		return l.mount(l.bodies.rods[ref.Rod], ref.Get().At)
	}
	return l.mountOn(ref.Part, ref.Get().At)
}

// mount rounds a place to what is written of it.
func (l *live) mount(body int, drawn linkage.Vec) paper.Mount {
	return paper.Mount{Body: body, At: linkage.Vec{X: roundTo(drawn.X, l.places), Y: roundTo(drawn.Y, l.places), Z: roundTo(drawn.Z, l.places)}}
}

// placeOf returns where a mount is.
func placeOf(m paper.Mount, frames []solve.Frame) linkage.Vec {
	if m.Body == fixedBody {
		return m.At
	}
	return frames[m.Body].Place(m.At)
}

// hold mounts on a body what is seen, at neutral, off a mount of it by so much
// of the sheet.
func (l *live) hold(v *view, near paper.Mount, off paper.Place) paper.Mount {
	return l.fasten(near.Body, placeOf(near, l.neutral).
		Add(v.right.Scale(off.X/v.scale)).
		Sub(v.up.Scale(off.Y/v.scale)))
}

// fasten mounts on a body a place where something is at neutral.
func (l *live) fasten(body int, now linkage.Vec) paper.Mount {
	if body == fixedBody {
		return l.mount(fixedBody, now)
	}
	f := &l.neutral[body]
	p, t := now.Sub(f.Shift), &f.Turn
	column := func(i int) float64 {
		return float64(t[i]*p.X) + float64(t[i+3]*p.Y) + float64(t[i+6]*p.Z)
	}
	return l.mount(body, linkage.Vec{X: column(0), Y: column(1), Z: column(2)})
}

// put puts a shape that moves where the picture is to show it.
func (l *live) put(v *view, s *paper.Shape) {
	if len(s.Mounts) == 0 {
		return
	}
	s.Through = s.Through[:0:0]
	for _, m := range s.Mounts {
		s.Through = append(s.Through, v.on(placeOf(m, l.at)))
	}
	if !l.opts.Still {
		s.Attrs = append(s.Attrs, paper.Attr("data-at", written(s.Mounts)))
		if s.Closed {
			s.Attrs = append(s.Attrs, paper.Attr("data-closed", ""))
		}
	}
}

// written returns mounts as motion.js reads them.
func written(mounts []paper.Mount) string {
	var words []string
	for _, m := range mounts {
		words = append(words, strconv.Itoa(m.Body), number64(m.At.X), number64(m.At.Y), number64(m.At.Z))
	}
	return strings.Join(words, " ")
}

// seen returns where mounts are on the sheet.
func seen(v *view, frames []solve.Frame, mounts ...paper.Mount) []paper.Place {
	var list []paper.Place
	for _, m := range mounts {
		list = append(list, v.on(placeOf(m, frames)))
	}
	return list
}

// middle returns the mean of places.
func middle(places []paper.Place) paper.Place {
	sum := paper.Place{}
	for _, p := range places {
		sum = sum.Add(p)
	}
	return sum.Scale(1 / math.Max(1, float64(len(places))))
}
