package linkage

// MeasurementKind is a way of measuring where places are.
type MeasurementKind string

// The kinds of measurement.
const (
	Taped  MeasurementKind = "taped"  // the distance of two places
	Gauged MeasurementKind = "gauged" // the direction from one to the other, degrees anticlockwise from level
)

// Unit is the unit of what is measured so, of a run with a unit of lengths.
func (k MeasurementKind) Unit(lengths Unit) Unit {
	if k == Gauged {
		return Degrees
	}
	return lengths
}

// Measurement is one thing measured on the airframe or the bench, in the pose
// that is drawn.
type Measurement struct {
	Kind     MeasurementKind
	Name     string // free text
	Span     Span
	In       *Member // as of a Part
	IsSpan   Span    // where Is is written
	From, To PlaceRef
	Is       float64 // run units or degrees
	Blank    bool    // not filled in yet; Is says nothing
	// Within is how far it reads to either way: two standard deviations.
	Within float64
}

// PlaceRef names a point or the pivot of a part. A pivot that the file names
// after a point is that point.
type PlaceRef struct {
	Part  *Part
	Point int // in Part.Points; -1: the pivot
	Span  Span
}

// Same reports whether two name one place.
func (r PlaceRef) Same(other PlaceRef) bool { return r.Part == other.Part && r.Point == other.Point }

// whole reports whether it names a place.
func (r PlaceRef) whole() bool { return r.Part != nil && r.Point < len(r.Part.Points) }

// At returns where the place is, as drawn.
func (r PlaceRef) At() Vec {
	if !r.whole() {
		return Vec{}
	}
	if r.Point < 0 {
		return r.Part.Pivot
	}
	return r.Part.Points[r.Point].At
}

// String returns the place's name as written in the file: "part.point" or
// "part.pivot"; "" where it names no place.
func (r PlaceRef) String() string {
	if !r.whole() {
		return ""
	}
	if r.Point < 0 {
		return r.Part.Name + ".pivot"
	}
	return r.Part.Name + "." + r.Part.Points[r.Point].Name
}

// Rigging is a set of readings taken after rigging.
type Rigging struct {
	Name    string // free text
	Span    Span
	In      *Member // as of a Part
	Of      Subject // an output or a part
	Control *Control
	// Readings are pairs of the control's position and what was read.
	Readings [][2]float64
	Within   float64 // how far they read to either way: two standard deviations
	Date     string  // "2026-05-01"; may be empty
}

// Blanks returns the measurements that are not filled in yet.
func (run *Run) Blanks() []*Measurement {
	var blanks []*Measurement
	if run == nil {
		return nil
	}
	for _, m := range run.Measurements {
		if m.Blank {
			blanks = append(blanks, m)
		}
	}
	return blanks
}

// BlankFaults tells of the measurements that are not filled in yet, for all
// that can't do without; its Err is nil where there is none.
func (run *Run) BlankFaults() *Faults {
	faults := &Faults{}
	if run != nil {
		faults.Source = run.Source
	}
	for _, m := range run.Blanks() {
		what, do := "distance", "tape"
		if m.Kind == Gauged {
			what, do = "direction", "gauge"
		}
		faults.Add(m.IsSpan, "the %s %s is still blank: %s it and write it in", what, shortName(m.Name), do)
	}
	return faults
}

// Filled returns the run without the measurements that are blank still; all else of it is
// shared.
func (run *Run) Filled() *Run {
	if run == nil || len(run.Blanks()) == 0 {
		return run
	}
	filled := *run
	filled.Measurements = nil
	for _, m := range run.Measurements {
		if !m.Blank {
			filled.Measurements = append(filled.Measurements, m)
		}
	}
	return &filled
}

// FillIn returns the text of a run with what was measured written in: is tells of a
// measurement what was read, as a person types it, empty for blank again; false leaves it as
// it is.
func FillIn(run *Run, text []byte, is func(*Measurement) (string, bool)) []byte {
	var out []byte
	at := 0
	for _, m := range run.Measurements {
		typed, known := is(m)
		if !known || m.IsSpan.Start < at || m.IsSpan.End > len(text) {
			continue
		}
		written := blankWord
		if typed != "" {
			var says string
			if written, _, says = Entry(typed, m.Kind.Unit(run.Units)); says != "" {
				continue
			}
		}
		out = append(append(out, text[at:m.IsSpan.Start]...), written...)
		at = m.IsSpan.End
	}
	return append(out, text[at:]...)
}
