package linkage

// Dimension is one number of a run that a setting, a survey or a diagnosis can
// change: a rod's length, the core of a cable, or a coordinate of a point or
// pivot. It is named as in a Setting.
type Dimension struct {
	Rod   *Rod   // whose length, or whose point
	Cable *Cable // whose core
	Part  *Part  // whose point or pivot
	Point int    // in Points; -1: the length, the core, or the pivot
	Axis  int    // 0, 1, 2: x, y, z
}

// In returns the member of an aircraft that it is of; nil where it is of none.
func (d Dimension) In() *Member {
	if d.Cable != nil {
		return d.Cable.In
	}
	return PointRef{Part: d.Part, Rod: d.Rod}.In()
}

// IsLength reports whether it is a length that is set: a rod's, or the core of a
// cable.
func (d Dimension) IsLength() bool { return d.Cable != nil || d.Rod != nil && d.Point < 0 }

// Given reports whether the file sets it; a length that it doesn't set is as
// drawn.
func (d Dimension) Given() bool {
	switch {
	case d.Cable != nil:
		return d.Cable.CoreGiven
	case d.IsLength():
		return d.Rod.LengthGiven
	}
	return true
}

// whole reports whether it names a number.
func (d Dimension) whole() bool {
	points := -1
	switch {
	case d.Cable != nil || d.IsLength():
		return true
	case d.Rod != nil:
		points = len(d.Rod.Points)
	case d.Part != nil:
		points = len(d.Part.Points)
	}
	return d.Point < points && d.Axis >= 0 && d.Axis < len(axes)
}

// Block is the header of the block that it belongs to.
func (d Dimension) Block() Span {
	if !d.whole() {
		return Span{}
	}
	switch {
	case d.Cable != nil:
		return d.Cable.Span
	case d.Rod != nil:
		return d.Rod.Span
	}
	return d.Part.Span
}

// axes end the names of coordinates.
var axes = [...]string{".x", ".y", ".z"}

// String returns its name: "rod.length", "cable.core", "part.point.x",
// "part.pivot.y"; "" where it names no number.
func (d Dimension) String() string {
	if !d.whole() {
		return ""
	}
	axis := axes[d.Axis]
	switch {
	case d.Cable != nil:
		return d.Cable.Name + ".core"
	case d.IsLength():
		return d.Rod.Name + ".length"
	case d.Rod != nil:
		return d.Rod.Name + "." + d.Rod.Points[d.Point].Name + axis
	case d.Point < 0:
		return d.Part.Name + ".pivot" + axis
	}
	return d.Part.Name + "." + d.Part.Points[d.Point].Name + axis
}

// Dimensions lists the coordinates of every point and of every pivot that the
// file gives by numbers, the length of every rod, and the core of every cable in
// a conduit that is in no pair; of one without a set length too, whose length can
// be set. What cables give and are drawn up to is no place and no length: a
// Setting changes it, and it is not listed.
func (run *Run) Dimensions() []Dimension {
	var list []Dimension
	if run == nil {
		return nil
	}
	place := func(d Dimension) {
		for d.Axis = 0; d.Axis < 3; d.Axis++ {
			list = append(list, d)
		}
	}
	for _, p := range run.Parts {
		if p.HasPivot() && p.NamedPivot == nil {
			place(Dimension{Part: p, Point: -1})
		}
		for i := range p.Points {
			place(Dimension{Part: p, Point: i})
		}
	}
	for _, r := range run.Rods {
		list = append(list, Dimension{Rod: r, Point: -1})
		for i := range r.Points {
			place(Dimension{Rod: r, Point: i})
		}
	}
	for _, c := range run.Cables {
		if c.hasCore() {
			list = append(list, Dimension{Cable: c, Point: -1})
		}
	}
	return list
}

// Value returns the dimension's number.
func (d Dimension) Value() float64 {
	switch {
	case !d.whole():
		return 0
	case d.Cable != nil:
		return d.Cable.Core
	case d.IsLength():
		return d.Rod.Length
	}
	return *d.at().axis(d.Axis)
}

// Offset is its value as the file writes it: a coordinate of an arm from the pivot.
func (d Dimension) Offset() float64 {
	if d.whole() && d.Part != nil && d.Point >= 0 && d.Part.Points[d.Point].Arm {
		return *d.Part.Points[d.Point].offset.axis(d.Axis)
	}
	return d.Value()
}

func (d Dimension) at() *Vec {
	switch {
	case d.Rod != nil:
		return &d.Rod.Points[d.Point].At
	case d.Point < 0:
		return &d.Part.Pivot
	}
	return &d.Part.Points[d.Point].At
}

func (a *Vec) axis(i int) *float64 { return [...]*float64{&a.X, &a.Y, &a.Z}[i] }

// pivotOf returns where a part's pivot is, or would be once what it is named
// after has moved.
func (run *Run) pivotOf(p *Part) Vec {
	if p.NamedPivot != nil {
		return p.NamedPivot.Get().At
	}
	return p.Pivot
}

// measure works out a rod's drawn length, and its length where none is set.
func (r *Rod) measure() {
	r.Drawn = r.To.Get().At.Sub(r.From.Get().At).Norm()
	if !r.LengthGiven {
		r.Length = r.Drawn
	}
}
