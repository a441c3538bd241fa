package recheck

import (
	"fmt"
	"strconv"
	"strings"

	"fullfree/linkage"
)

// dimension is one thing that a run's file says and that changes how it moves or how that
// is judged, by its name: "left-link.length", "tail.horn.x" and so on as a
// linkage.Setting has them, and attributes by the block that has them.
type dimension struct {
	name  string
	value Value
	// touches are what is opened when it is changed on the aircraft; reaches is what
	// belongs to it besides. whole says that it is of everything, and follows that it
	// shows in other dimensions, of which it is made. builds says that only builds are drawn
	// by it, of which the sheet tells nothing.
	touches, reaches       []linkage.Element
	whole, follows, builds bool
	// in is the name of the run of an aircraft that it is of; empty elsewhere.
	in string
}

// lister lists the dimensions of a run.
type lister struct {
	run  *linkage.Run
	list []dimension
	// in is the run of an aircraft of which something is listed at the moment, nil of a run
	// by itself, and units is the unit of its lengths.
	in    *linkage.Member
	units linkage.Unit
	same  metal
	// named is how often each name was given: what is written otherwise may come out as
	// one name, and each must be found by its own.
	named map[string]int
	// joined is what is joined at every hole.
	joined map[hole][]linkage.Element
	// touches and reaches are those of what is listed at the moment.
	touches, reaches []linkage.Element
}

// dimensionsOf lists what a run's file says, in the order of its blocks' kinds.
func dimensionsOf(run *linkage.Run) []dimension {
	l := &lister{run: run, named: map[string]int{}, joined: joinedAt(run), same: metalOf(run)}
	if run.Aircraft != nil {
		l.aircraft()
	} else {
		l.enter(nil)
		l.ofRun(run, "")
	}
	for _, p := range run.Parts {
		l.enter(p.In)
		l.part(p)
	}
	for _, r := range run.Rods {
		l.enter(r.In)
		l.rod(r)
	}
	for _, j := range run.Joints {
		l.enter(j.In)
		l.joint(j)
	}
	l.rotor(run.Rotor)
	for _, c := range run.Cables {
		l.enter(c.In)
		l.cable(c)
	}
	for _, p := range run.Pairs {
		l.enter(p.In)
		l.pair(p)
	}
	for _, c := range run.Controls {
		l.enter(c.In)
		l.control(c)
	}
	for _, o := range run.Outputs {
		l.enter(o.In)
		l.output(o)
	}
	for _, s := range run.Stops {
		l.enter(s.In)
		l.stop(s)
	}
	for _, p := range run.Pins {
		l.enter(p.In)
		l.pin(p)
	}
	l.requirements()
	return l.list
}

// enter turns to what is of a run of an aircraft; of none, to what is of all.
func (l *lister) enter(in *linkage.Member) { l.in, l.units = in, l.run.UnitsOf(in) }

// of says what is touched by what is listed next, and what it reaches besides.
func (l *lister) of(touches []linkage.Element, reaches ...linkage.Element) {
	l.touches, l.reaches = touches, reaches
}

func (l *lister) add(name string, v Value) {
	if l.named[name]++; l.named[name] > 1 {
		name += fmt.Sprintf(" #%d", l.named[name])
	}
	l.put(dimension{name: name, value: v, touches: l.touches, reaches: l.reaches})
}

func (l *lister) put(d dimension) {
	if l.in != nil {
		d.in = l.in.Name
	}
	l.list = append(l.list, d)
}

func (l *lister) number(name string, v float64, unit linkage.Unit) { l.add(name, number(v, unit)) }

// length adds a length in the unit of its run.
func (l *lister) length(name string, v float64) { l.number(name, v, l.units) }

// lengthOrNone adds one that the file may leave out.
func (l *lister) lengthOrNone(name string, v *float64) {
	if v != nil {
		l.length(name, *v)
	}
}

// builds adds how far something made may be out; nothing where the file doesn't say.
func (l *lister) builds(name string, v *float64, unit linkage.Unit) {
	if v != nil {
		l.put(dimension{name: name, value: number(*v, unit), builds: true})
	}
}

// words adds what is no number; nothing where it is left out.
func (l *lister) words(name, v string) {
	if v != "" {
		l.add(name, words(v))
	}
}

// yes adds an attribute that is there or not.
func (l *lister) yes(name string, v bool) {
	if v {
		l.words(name, "true")
	}
}

// travel adds a travel of a part, from the drawn position.
func (l *lister) travel(name string, v float64, angular bool) {
	if angular {
		l.number(name, v, linkage.Degrees)
	} else {
		l.length(name, v)
	}
}

// vec writes a direction or a place as the file does.
func vec(v linkage.Vec) string { return list(v.X, v.Y, v.Z) }

// list writes numbers as a list of the file.
func list(numbers ...float64) string {
	var said []string
	for _, v := range numbers {
		said = append(said, strconv.FormatFloat(v, 'g', -1, 64))
	}
	return "[" + strings.Join(said, ", ") + "]"
}

// ofRun lists what the run block says but for title and view, which are words for people,
// and what its dims blocks name. Before is what stands before their names: that of the run
// in its aircraft.
func (l *lister) ofRun(run *linkage.Run, before string) {
	l.of(nil)
	first := len(l.list)
	l.words(before+"run.units", string(run.Units))
	l.words(before+"run.craft", string(run.Craft))
	for _, d := range []struct {
		name string
		v    *linkage.Vec
	}{{"forward", run.Forward}, {"up", run.Up}, {"right", run.Right}} {
		if d.v != nil {
			l.words(before+"run."+d.name, vec(*d.v))
		}
	}
	if run.Sketch > 0 {
		l.length(before+"run.sketch", run.Sketch)
	}
	if run.UncertainGiven {
		l.length(before+"run.uncertain", run.Uncertain)
	}
	if run.RiggedAt != nil {
		l.number(before+"run.rigged-at", *run.RiggedAt, linkage.NoUnit)
	}
	l.words(before+"run.airframe", run.Airframe)
	if t := run.Tolerance; t != nil && t.JointPlay > 0 {
		l.length(before+"tolerance.joint-play", t.JointPlay)
	}
	for i := first; i < len(l.list); i++ {
		l.ofAll(&l.list[i])
	}
	if t := run.Tolerance; t != nil {
		l.builds(before+"tolerance.points", &t.Points, l.units)
		l.builds(before+"tolerance.pivots", &t.Pivots, l.units)
		l.builds(before+"tolerance.rods", &t.Rods, l.units)
		l.builds(before+"tolerance.stops", &t.Stops, linkage.Degrees)
	}
	for _, name := range run.Named {
		if value, ok := l.run.NamedValue(before + name); ok {
			l.put(dimension{name: before + name, value: number(value, linkage.NoUnit), follows: true})
		}
	}
}

// motions are the words for how a part may move.
var motions = map[linkage.Motion]string{
	linkage.Fixed: "fixed", linkage.Turns: "turns", linkage.Slides: "slides", linkage.Floats: "floats",
	linkage.Tilts: "on a ball", linkage.Roams: "floats in space", linkage.TurnsAndSlides: "turns and slides",
}

func (l *lister) part(p *linkage.Part) {
	joined := l.onPart(p)
	l.of(append([]linkage.Element{p}, joined...), p)
	l.words(p.Name+".motion", motions[p.Motion])
	if p.HasPivot() && p.NamedPivot == nil {
		l.place(p.Name+".pivot", linkage.Dimension{Part: p, Point: -1})
	}
	if p.NamedPivot != nil {
		l.words(p.Name+".pivot", p.NamedPivot.String())
	}
	if p.Carrier != nil && p.NamedPivot == nil {
		l.words(p.Name+".carrier", p.Carrier.String())
	}
	if p.Spatial() {
		l.words(p.Name+".square-to", vec(p.SquareTo))
	} else {
		l.words(p.Name+".axis", vec(p.Axis))
	}
	if p.Motion == linkage.Slides {
		l.words(p.Name+".slide", vec(p.Slide))
	}
	l.of(nil, p)
	l.lengthOrNone(p.Name+".joint-play", p.JointPlay)
	l.builds(p.Name+".tolerance", p.Tolerance, l.units)
	for i := range p.Points {
		point := &p.Points[i]
		l.of(l.atPoint(linkage.PointRef{Part: p, Point: i}), p)
		l.place(p.Name+"."+point.Name, linkage.Dimension{Part: p, Point: i})
		if point.Bolt != nil {
			l.words(p.Name+"."+point.Name+".bolt", vec(*point.Bolt))
		}
	}
	for i := range p.Features {
		l.metal(p, i)
	}
}

// place adds the coordinates of a point or pivot.
func (l *lister) place(name string, d linkage.Dimension) {
	for d.Axis = range 3 {
		v := number(d.Value(), l.units)
		v.given = d.Offset()
		l.add(name+[...]string{".x", ".y", ".z"}[d.Axis], v)
	}
}

// metal adds what a feature looks like. It is worked where it is, so no joint is opened,
// but what it stops is set anew.
func (l *lister) metal(p *linkage.Part, i int) {
	f := &p.Features[i]
	var touches []linkage.Element
	reaches := []linkage.Element{p}
	is := func(r linkage.FeatureRef) bool { return r.Part == p && r.Feature == i }
	for _, s := range l.run.Stops {
		if s.Of == nil && (is(s.Touch[0]) || is(s.Touch[1])) {
			touches = append(touches, s)
			reaches = append(reaches, s)
		}
	}
	for _, q := range l.run.Requirements {
		if q.Kind == linkage.Clearance && (is(q.Between[0]) || is(q.Between[1])) {
			reaches = append(reaches, ofRequirement(q)...)
		}
	}
	l.of(touches, reaches...)
	name := p.Name + "." + f.Name
	l.words(name+".shape", [...]string{linkage.Round: "round", linkage.Edge: "edge"}[f.Shape])
	for k, at := range f.Through {
		place := name
		if f.Shape == linkage.Edge {
			place = fmt.Sprintf("%s.through-%d", name, k+1)
		}
		l.length(place+".x", at.X)
		l.length(place+".y", at.Y)
		l.length(place+".z", at.Z)
	}
	switch {
	case f.Shape == linkage.Round:
		l.length(name+".radius", f.Radius)
	case f.Bar:
		l.length(name+".diameter", 2*f.Radius)
	default:
		l.length(name+".thick", 2*f.Radius)
	}
	if f.Z != nil {
		l.length(name+".z-low", f.Z[0])
		l.length(name+".z-high", f.Z[1])
	}
}
