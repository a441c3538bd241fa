package linkage

import (
	"slices"
	"strconv"
	"strings"
)

// Number is one number of a run that a Setting can change, by its name there:
// "rod.length", "part.point.x", "stop.at", "dims.arm"; and of metal "part.edge.2.x", the
// third place of an edge, "part.round.x", "part.round.radius", "part.edge.thick".
type Number struct {
	name string
	// Exactly one of these says what it is, where it isn't reread.
	dimension *Dimension
	stop      *Stop
	metal     *metalNumber
	rod       *Rod // whose diameter
	// reread says that what hangs on it is known to a file alone: a named dimension, a
	// stiffness, a pretension.
	reread bool
	value  float64
	unit   Unit
	// images are the numbers of the file that are mirrored from it, with their signs.
	images []imageNumber
}

// metalNumber is a coordinate of metal, or how thick it is.
type metalNumber struct {
	part    *Part
	feature int
	place   int // in Through; -1: how thick it is
	axis    int
}

// imageNumber is a number that is always another's times a sign.
type imageNumber struct {
	number Number
	sign   float64
}

// written is how the file of a run has its numbers.
type written struct {
	dims   map[string]float64 // what its named dimensions come to
	images map[string]image   // which numbers are mirrored from which
	set    []Setting          // what it was read with
	// with are the named dimensions that numbers are written with, by those.
	with map[string][]string
}

// String is its name.
func (n Number) String() string { return n.name }

// Value is the number as the run has it.
func (n Number) Value() float64 { return n.value }

// Unit is what it counts in: of a named dimension the run's unit of length, which most
// of them have.
func (n Number) Unit() Unit { return n.unit }

// Rereads reports whether only the file can be read with another one in its place
// (Run.Reread); any other number Edits change.
func (n Number) Rereads() bool { return n.reread }

// Dimension is the dimension of the run that the number is; nil where it is none of
// Run.Dimensions.
func (n Number) Dimension() *Dimension { return n.dimension }

// Stop is the stop whose number it is; nil where it is none.
func (n Number) Stop() *Stop { return n.stop }

// IsLength reports whether it has to be more than nothing.
func (n Number) IsLength() bool {
	return n.dimension != nil && n.dimension.IsLength() || n.metal != nil && n.metal.place < 0 || n.rod != nil
}

// Number finds a number of the run by its name; ok is false where it has none so
// called.
func (run *Run) Number(name string) (n Number, ok bool) {
	if run == nil {
		return n, false
	}
	return run.owners().number(name)
}

// owners are what the numbers of a run are of, by name.
type owners struct {
	run    *Run
	things map[string]any
	images map[string][]string // by what they are mirrored from
}

func (run *Run) owners() *owners {
	o := &owners{run: run, things: map[string]any{}, images: map[string][]string{}}
	for _, p := range run.Parts {
		o.things[p.Name] = p
	}
	for _, r := range run.Rods {
		o.things[r.Name] = r
	}
	for _, s := range run.Stops {
		o.things[s.Name] = s
	}
	for _, c := range run.Cables {
		o.things[c.Name] = c
	}
	for _, p := range run.Pairs {
		o.things[p.Name] = p
	}
	for image, of := range run.written.images {
		o.images[of.of] = append(o.images[of.of], image)
	}
	return o
}

// number is a number with what is mirrored from it.
func (o *owners) number(name string) (n Number, ok bool) {
	if n, ok = o.own(name); !ok {
		return n, false
	}
	for _, image := range slices.Sorted(slices.Values(o.images[name])) {
		if k, ok := o.own(image); ok {
			n.images = append(n.images, imageNumber{k, o.run.written.images[image].sign})
		}
	}
	return n, true
}

// own is number without what is mirrored.
func (o *owners) own(name string) (n Number, ok bool) {
	run := o.run
	words := strings.Split(name, ".")
	n = Number{name: name, unit: run.Units}
	if value, named := run.written.dims[name]; named {
		n.reread, n.value = true, value
		return n, true
	}
	if len(words) < 2 {
		return n, false
	}
	owner, rest := words[0], words[1:]
	if run.Aircraft != nil && len(words) > 2 { // a thing is named after its run
		owner, rest = words[0]+"."+words[1], words[2:]
		for _, m := range run.Aircraft.Members {
			if m.Name == words[0] {
				n.unit = m.Run.Units
			}
		}
	}
	alone := func(word string) bool { return len(rest) == 1 && rest[0] == word }
	switch thing := o.things[owner].(type) {
	case *Part:
		return run.numberOfPart(n, thing, rest)
	case *Rod:
		return run.numberOfRod(n, thing, rest)
	case *Stop:
		if alone("at") && thing.Of != nil {
			if n.stop, n.value = thing, thing.At; thing.Of.Angular() {
				n.unit = Degrees
			}
			return n, true
		}
	case *Cable:
		switch {
		case alone("core") && thing.hasCore():
			n.dimension, n.value = &Dimension{Cable: thing, Point: -1}, thing.Core
			return n, true
		case alone("stiffness") && thing.Stiffness > 0:
			n.reread, n.value, n.unit = true, thing.Stiffness, stiffnessUnit(run)
			return n, true
		}
	case *Pair:
		if alone("pretension") {
			n.reread, n.value, n.unit = true, thing.Pretension, forceUnit(run)
			return n, true
		}
	}
	return n, false
}

func forceUnit(run *Run) Unit {
	if run.Units == Inches {
		return PoundsForce
	}
	return Newtons
}

func stiffnessUnit(run *Run) Unit { return forceUnit(run) + "/" + run.Units }

// axisOf is the coordinate that a word names; -1: none.
func axisOf(word string) int { return slices.Index(axes[:], "."+word) }

func (run *Run) numberOfPart(n Number, p *Part, rest []string) (Number, bool) {
	if len(rest) < 2 || len(rest) > 3 {
		return n, false
	}
	place := func(d Dimension) (Number, bool) {
		if d.Axis = axisOf(rest[1]); d.Axis < 0 || len(rest) > 2 {
			return n, false
		}
		n.dimension, n.value = &d, d.Value()
		return n, true
	}
	if rest[0] == "pivot" {
		if !p.HasPivot() || p.NamedPivot != nil {
			return n, false
		}
		return place(Dimension{Part: p, Point: -1})
	}
	if i := slices.IndexFunc(p.Points, func(q Point) bool { return q.Name == rest[0] }); i >= 0 {
		return place(Dimension{Part: p, Point: i})
	}
	i := slices.IndexFunc(p.Features, func(f Feature) bool { return f.Name == rest[0] })
	if i < 0 {
		return n, false
	}
	f := &p.Features[i]
	m := &metalNumber{part: p, feature: i, place: -1}
	switch {
	case f.Shape == Round && len(rest) == 2 && rest[1] == "radius", f.Shape == Edge && len(rest) == 2 && rest[1] == f.thickness():
	case f.Shape == Round && len(rest) == 2:
		m.place, m.axis = 0, axisOf(rest[1])
	case f.Shape == Edge && len(rest) == 3:
		at, err := strconv.Atoi(rest[1])
		if err != nil || at < 0 || at >= len(f.Through) || strconv.Itoa(at) != rest[1] {
			return n, false
		}
		m.place, m.axis = at, axisOf(rest[2])
	default:
		return n, false
	}
	if m.axis < 0 {
		return n, false
	}
	n.metal, n.value = m, *m.at(f)
	if f.Shape == Edge && m.place < 0 {
		n.value *= 2
	}
	return n, true
}

// thickness is the attribute that tells how thick an edge is.
func (f *Feature) thickness() string {
	if f.Bar {
		return "diameter"
	}
	return "thick"
}

// at is where the feature keeps it; of an edge half of how thick it is.
func (m *metalNumber) at(f *Feature) *float64 {
	if m.place < 0 {
		return &f.Radius
	}
	return f.Through[m.place].axis(m.axis)
}

func (run *Run) numberOfRod(n Number, r *Rod, rest []string) (Number, bool) {
	switch {
	case len(rest) == 1 && rest[0] == "length":
		n.dimension, n.value = &Dimension{Rod: r, Point: -1}, r.Length
		return n, true
	case len(rest) == 1 && rest[0] == "diameter" && r.Diameter != nil:
		n.rod, n.value = r, *r.Diameter
		return n, true
	case len(rest) != 2:
		return n, false
	}
	i := slices.IndexFunc(r.Points, func(q Point) bool { return q.Name == rest[0] })
	axis := axisOf(rest[1])
	if i < 0 || axis < 0 {
		return n, false
	}
	d := Dimension{Rod: r, Point: i, Axis: axis}
	n.dimension, n.value = &d, d.Value()
	return n, true
}

// WrittenWith returns the named dimensions that a number is written with in the file, with
// which it goes; none of one that stands by itself.
func (run *Run) WrittenWith(n Number) []string {
	if run == nil {
		return nil
	}
	return run.written.with[n.name]
}

// Numbers lists every number of the run by name: named dimensions first, then as the
// file has what they are of.
func (run *Run) Numbers() (list []Number) {
	if run == nil {
		return nil
	}
	o := run.owners()
	add := func(name string) {
		if _, image := run.written.images[name]; image {
			return
		}
		if n, ok := o.number(name); ok {
			list = append(list, n)
		}
	}
	for _, name := range run.Named {
		add(name)
	}
	for _, d := range run.Dimensions() {
		add(d.String())
	}
	run.eachThickness(add)
	for _, s := range run.Stops {
		add(s.Name + ".at")
	}
	for _, c := range run.Cables {
		add(c.Name + ".stiffness")
	}
	for _, p := range run.Pairs {
		add(p.Name + ".pretension")
	}
	return list
}

// eachThickness names the numbers of metal, and how thick rods are.
func (run *Run) eachThickness(add func(name string)) {
	for _, p := range run.Parts {
		for _, f := range p.Features {
			name := p.Name + "." + f.Name
			for i := range f.Through {
				for _, axis := range axes {
					if f.Shape == Edge {
						axis = "." + strconv.Itoa(i) + axis
					}
					add(name + axis)
				}
			}
			if f.Shape == Round {
				add(name + ".radius")
			} else {
				add(name + "." + f.thickness())
			}
		}
	}
	for _, r := range run.Rods {
		add(r.Name + ".diameter")
	}
}
