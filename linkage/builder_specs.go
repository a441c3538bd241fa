package linkage

import "slices"

// What the specs of a Builder say is what the attributes of the same names say in
// a file: lengths in the run's unit, angles in degrees, places as drawn. A zero
// value is left out where a file may leave it out.

// RunSpec is what is said of a whole run.
type RunSpec struct {
	Units Unit
	View  string // words under the picture
	// Of the aircraft in the drawing, of any length; two tell the third.
	Forward, Up, Right *Vec
	Sketch             float64  // how far coordinates may be out, one standard deviation; 0: they are exact
	Uncertain          *float64 // the same of each on its own, two standard deviations; nil: 1 mm or 0.04 in
	RiggedAt           *float64 // degrees Celsius when cables were drawn up; nil: not given
	Airframe           string   // "6061-T6", "steel" or empty
	Craft              Craft    // Airplane, Rotorcraft or empty
}

func (s RunSpec) write(w *blockWriter) {
	w.text("units", string(s.Units))
	w.text("view", s.View)
	w.vector("forward", s.Forward)
	w.vector("up", s.Up)
	w.vector("right", s.Right)
	w.number("sketch", s.Sketch)
	w.optional("uncertain", s.Uncertain)
	w.optional("rigged-at", s.RiggedAt)
	w.text("airframe", s.Airframe)
	w.text("craft", string(s.Craft))
}

// PartSpec is a rigid piece: what is fixed, or a part that turns on a pivot, tilts on a
// ball, slides along a direction, or, with none of these, is held by rods and joints alone.
type PartSpec struct {
	Pivot  *Vec   // where it turns; on a ball where it tilts
	On     string // instead of Pivot: the point of another part that carries it or is its pivot
	Axis   *Vec   // what it turns about, of any length; nil: square to the drawing
	Slides bool   // it slides along Axis too
	Slide  *Vec   // the direction of its guide, of any length
	Ball   bool   // it tilts any way about Pivot, or the point that it is On
	Floats string // "space": rods and joints alone hold it, in space; empty: in the plane of the drawing
	// SquareTo is the direction, as drawn and of any length, by which a part on a ball or in
	// space is told to tilt, and that of its bolts; nil: [0, 1, 0].
	SquareTo *Vec
	Points   []PointSpec
	Metal    []MetalSpec
	Exact    bool // its coordinates are exact in a sketched run
	// How far its holes and its pivot may be out either way, and the diametral play of its
	// own joint; nil: as the run's.
	Tolerance, JointPlay *float64
}

// PointSpec is a named hole or place.
type PointSpec struct {
	Name string
	At   Vec
	Arm  bool // At is measured from the part's pivot, with which it moves
	Bolt *Vec // direction of the bolt there, of any length; nil: along the part's axis
}

// MetalSpec is metal of a part that can touch other metal.
type MetalSpec struct {
	Name     string
	Shape    Shape       // Round or Edge
	Through  []Vec       // the center of a round; the points of an edge
	Radius   float64     // of a round
	Thick    float64     // full thickness of an edge that is plate
	Diameter *float64    // of an edge that is bar
	Z        *[2]float64 // between which heights it lies; nil: at any
}

func (s PartSpec) write(w *blockWriter) {
	pivot := "pivot"
	if s.Ball {
		pivot = "ball"
	}
	switch {
	case s.On == "":
		w.vector(pivot, s.Pivot)
		if s.Ball && s.Pivot == nil {
			w.fault("a part on a Ball has a Pivot, where that is, or a point that it is On")
		}
	case s.Pivot != nil:
		w.name(pivot, s.On)
		w.tell(pivot, "a part has either a Pivot of its own or a point that it is On")
	default:
		w.name(pivot, s.On)
	}
	w.vector("axis", s.Axis)
	w.truth("slides", s.Slides)
	w.vector("slide", s.Slide)
	w.text("floats", s.Floats)
	w.vector("square-to", s.SquareTo)
	w.truth("exact", s.Exact)
	w.optional(toleranceKind, s.Tolerance)
	w.optional("joint-play", s.JointPlay)
	writePoints(w, s.Points)
	for _, m := range s.Metal {
		if m.Shape == Edge {
			w.inner(m, "edge", m.Name)
		} else {
			w.inner(m, "round", m.Name)
		}
	}
}

// writePoints writes points and arms in the order in which the first of each
// stands, and their bolts.
func writePoints(w *blockWriter, points []PointSpec) {
	tables := []string{"points", "arms"}
	if len(points) > 0 && points[0].Arm {
		slices.Reverse(tables)
	}
	for _, table := range tables {
		var rows []row
		for _, p := range points {
			if p.Arm == (table == "arms") {
				rows = append(rows, row{p.Name, p.At})
			}
		}
		w.table(table, rows)
	}
	var bolts []row
	for _, p := range points {
		if p.Bolt != nil {
			bolts = append(bolts, row{p.Name, *p.Bolt})
		}
	}
	w.table("bolts", bolts)
}

func (s MetalSpec) write(w *blockWriter) {
	if s.Shape == Round && len(s.Through) == 1 {
		w.vector("at", &s.Through[0])
	} else if len(s.Through) > 0 {
		w.vectors("through", s.Through)
	}
	if s.Shape == Round {
		w.needed("radius", s.Radius)
	} else {
		w.number("radius", s.Radius)
	}
	w.number("thick", s.Thick)
	w.optional("diameter", s.Diameter)
	w.interval("z", s.Z)
}

// RodSpec is a rod.
type RodSpec struct {
	From, To     string      // points of parts or rods
	Length       float64     // hole to hole as set; 0: as drawn
	Diameter     *float64    // where it may touch other metal
	Misalignment *float64    // the most that its ends may tilt; nil: not given
	Points       []PointSpec // its own; neither arms nor bolts
	Ends         []EndSpec
	SecondPath   bool
	Play         float64 // each way, of a second path
	// How far its set length may be out either way, and the diametral play of the joints at
	// its ends; nil: as the run's.
	Tolerance, JointPlay *float64
}

func (s RodSpec) write(w *blockWriter) {
	w.name("from", s.From)
	w.name("to", s.To)
	w.number("length", s.Length)
	w.optional("diameter", s.Diameter)
	w.optional("misalignment", s.Misalignment)
	writePoints(w, s.Points)
	w.truth("second-path", s.SecondPath)
	w.number("play", s.Play)
	w.optional(toleranceKind, s.Tolerance)
	w.optional("joint-play", s.JointPlay)
	for _, e := range s.Ends {
		w.inner(e, "end", e.Side)
	}
}

// JointSpec is a joint.
type JointSpec struct {
	Of        [2]string // points of two parts
	JointPlay *float64  // diametral; nil: as the run's
}

func (s JointSpec) write(w *blockWriter) {
	w.names("of", s.Of[:])
	w.optional("joint-play", s.JointPlay)
}

// RotorSpec is what turns blades.
type RotorSpec struct {
	Hub   string // the part that carries them
	Turns string // "anticlockwise from above" or "clockwise from above"
}

func (s RotorSpec) write(w *blockWriter) {
	w.name("hub", s.Hub)
	w.text("turns", s.Turns)
}

// EndSpec is a threaded end of a rod, or an adjuster of a cable.
type EndSpec struct {
	Side    string   // "from" or "to"; of a cable "conduit-from" or "conduit-to"
	Thread  string   // "1/4-28", "M6x1"
	Left    bool     // a left-hand thread
	Engaged float64  // thread in the rod, or in the nuts
	Least   float64  // that must be; 0: 1.5 diameters
	Most    float64  // where it bottoms out; 0: not given
	Shank   float64  // length of the end's own thread; 0: not given
	Step    *float64 // turns by which it is set; nil: half a turn of a rod end, any of an adjuster
	// JointPlay is the diametral play of a rod end's joint; nil: as the rod's.
	JointPlay *float64
}

func (s EndSpec) write(w *blockWriter) {
	w.text("thread", s.Thread)
	if s.Left {
		w.text("hand", "left")
	}
	w.needed("engaged", s.Engaged)
	w.number("least", s.Least)
	w.number("most", s.Most)
	w.number("shank", s.Shank)
	w.optional("step", s.Step)
	w.optional("joint-play", s.JointPlay)
}

// CableSpec is a cable: its core in a conduit, from point to point, or open, from
// quadrant to quadrant.
type CableSpec struct {
	From, To  string    // points, or the parts that are quadrants
	Conduit   [2]string // points where the conduit is held, at the from end and at the to end
	Core      float64   // outside the conduit, at both ends together; 0: as drawn
	Pushes    bool
	Radius    [2]float64 // of the quadrants
	Winds     [2]string  // "up" or "down": what a positive turn of each quadrant does
	Stiffness float64    // N per mm or lbf per in
	Spring    string     // "plus", "minus" or empty
	Run       float64    // free length of an open cable
	Wire      string     // "7x19 1/8 galvanized"
	Ends      []EndSpec  // its adjusters
}

func (s CableSpec) write(w *blockWriter) {
	w.name("from", s.From)
	w.name("to", s.To)
	w.names("conduit", s.Conduit[:])
	w.number("core", s.Core)
	w.truth("pushes", s.Pushes)
	if s.Radius != [2]float64{} {
		w.numbers("radius", s.Radius[:])
	}
	w.texts("winds", s.Winds[:])
	w.number("stiffness", s.Stiffness)
	w.text("spring", s.Spring)
	w.number("run", s.Run)
	w.text("wire", s.Wire)
	for _, e := range s.Ends {
		w.inner(e, "end", e.Side)
	}
}

// PairSpec is two cables drawn up against each other.
type PairSpec struct {
	Cables     [2]string
	Pretension float64 // N or lbf in each, with the part that they hold as drawn
}

func (s PairSpec) write(w *blockWriter) {
	w.names("cables", s.Cables[:])
	w.needed("pretension", s.Pretension)
}

// ControlSpec is what a hand or foot moves.
type ControlSpec struct {
	Of          string    // a part
	From, To    *float64  // explored from neutral; nil: half a turn
	Held        []float64 // where it stands while others are swept; nil: at neutral
	Plus, Minus string    // words for its two sides
	Grip        string    // the point where the hand or foot holds it
	// SeenFrom and Turns say which way its plus turns: "clockwise" or "counterclockwise",
	// seen from LittleFinger, Thumb or a Direction.
	SeenFrom, Turns string
	Detents         []float64 // its notches, from neutral
}

func (s ControlSpec) write(w *blockWriter) {
	w.name("of", s.Of)
	w.optional("from", s.From)
	w.optional("to", s.To)
	if s.Held != nil {
		w.numbers("held", s.Held)
	}
	w.text("plus", s.Plus)
	w.text("minus", s.Minus)
	w.name("grip", s.Grip)
	w.text("seen-from", s.SeenFrom)
	w.text("turns", s.Turns)
	if s.Detents != nil {
		w.numbers("detents", s.Detents)
	}
}

// OutputSpec is what the run is there to move.
type OutputSpec struct {
	Of          string  // a part; or a point, then with Along
	Along       *Vec    // of any length
	Tilts       string  // of a part that tilts any way, the Direction towards which it is read,
	TiltsAlong  *Vec    // or that in the drawing, of any length
	LeadingEdge string  // the point of a blade that is up as its pitch is plus
	Plus, Minus string  // words for its two sides
	Reads       float64 // what the gauge shows in the drawn position
	SeenAt      string  // the point where its motion is watched
	Against     string  // "carrier": a carried part's turn is read against what carries it
}

func (s OutputSpec) write(w *blockWriter) {
	w.name("of", s.Of)
	w.vector("along", s.Along)
	w.text("tilts", s.Tilts)
	if s.TiltsAlong != nil {
		w.vector("tilts", s.TiltsAlong)
		if s.Tilts != "" {
			w.tell("tilts", "an output has either Tilts or TiltsAlong")
		}
	}
	w.name("leading-edge", s.LeadingEdge)
	w.text("plus", s.Plus)
	w.text("minus", s.Minus)
	w.number("reads", s.Reads)
	w.name("seen-at", s.SeenAt)
	w.text("against", s.Against)
}

// StopSpec is a stop: of a part at a figure, or where two pieces of metal touch.
type StopSpec struct {
	Of     string
	At     float64     // degrees or a length, from the drawn position
	Side   string      // "low" or "high"; empty: by where At lies
	Touch  [2]string   // features or rods
	Adjust *[2]float64 // between which figures it may be set; nil: it may not
	Step   float64     // by which it is set; 0: half a degree, or half the run's unit
	// Tolerance is how far from At it may bite either way; nil: as the run's.
	Tolerance *float64
}

func (s StopSpec) write(w *blockWriter) {
	w.name("of", s.Of)
	if s.Of != "" || s.At != 0 {
		w.needed("at", s.At)
	}
	w.text("side", s.Side)
	w.names("touch", s.Touch[:])
	w.interval("adjust", s.Adjust)
	w.number("step", s.Step)
	w.optional(toleranceKind, s.Tolerance)
}

// ToleranceSpec is how far what is made may be out either way, and how much every joint
// gives.
type ToleranceSpec struct {
	Points, Pivots, Rods float64 // each coordinate of each hole and pivot, each set length
	Stops                float64 // degrees
	JointPlay            float64 // diametral
}

func (s ToleranceSpec) write(w *blockWriter) {
	w.number("points", s.Points)
	w.number("pivots", s.Pivots)
	w.number("rods", s.Rods)
	w.number("stops", s.Stops)
	w.number("joint-play", s.JointPlay)
}

// PinSpec holds a part at a position while the rods are fitted.
type PinSpec struct {
	Of     string
	At     float64 // degrees or a length, from the drawn position
	Within float64 // how far a bolt hole may be out; 0: 0.1 mm or 0.004 in
}

func (s PinSpec) write(w *blockWriter) {
	w.name("of", s.Of)
	w.number("at", s.At)
	w.number("within", s.Within)
}

// RequireSpec is what a requirement says; which fields it needs depends on its
// kind.
type RequireSpec struct {
	Of          []string  // parts, outputs, a control, a pair or points
	Control     string    // judged in this control's sweeps only; empty: in all
	Between     [2]string // clearance: two features or rods
	First, Then string    // order: stops
	Turns       string    // sense: "same" or "opposite"
	// Sense by places, in place of Of and Turns: each a point, and the Direction in which
	// it goes.
	When, SoThen [2]string
	// Cyclic-sense: "nose", "left", "tail" or "right", or degrees as text; one of the two.
	LeastOver, MostOver string
	Opposed             bool    // symmetrical
	At, Wants           float64 // reading
	Within              float64
	Low, High           float64
	Least               float64
	Most                *float64
}

// requireSpec is a RequireSpec with its kind.
type requireSpec struct {
	kind Kind
	RequireSpec
}

func (s requireSpec) write(w *blockWriter) {
	switch {
	case len(s.Of) == 1 && slices.Contains([]Kind{Steady, Travel, Taut, Neutral, Reading, FreePlay, CollectivePitch, CyclicPitch, CyclicSense}, s.kind):
		w.name("of", s.Of[0])
	case len(s.Of) > 0:
		w.names("of", s.Of)
	}
	w.name("control", s.Control)
	w.names("between", s.Between[:])
	w.name("first", s.First)
	w.name("then", s.Then)
	w.text("turns", s.Turns)
	w.motion("when", s.When)
	w.motion("then", s.SoThen)
	w.over("least-over", s.LeastOver)
	w.over("most-over", s.MostOver)
	w.truth("opposed", s.Opposed)
	for _, figure := range []struct {
		name  string
		value float64
	}{{"at", s.At}, {"wants", s.Wants}, {"within", s.Within}, {"low", s.Low}, {"high", s.High}, {"least", s.Least}} {
		if slices.Contains(requireAttributes[s.kind], figure.name) && (s.Most == nil || s.kind != CollectivePitch && s.kind != CyclicPitch) {
			w.needed(figure.name, figure.value)
		} else {
			w.number(figure.name, figure.value)
		}
	}
	w.optional("most", s.Most)
}

// MeasurementSpec is one thing taped or gauged.
type MeasurementSpec struct {
	From, To string // points or pivots of parts
	Is       float64
	Blank    bool    // not filled in yet; Is says nothing
	Within   float64 // how far it reads to either way
}

func (s MeasurementSpec) write(w *blockWriter) {
	w.name("from", s.From)
	w.name("to", s.To)
	if s.Blank {
		w.name("is", blankWord)
	} else {
		w.needed("is", s.Is)
	}
	w.needed("within", s.Within)
}

// RiggingSpec is a set of readings taken after rigging.
type RiggingSpec struct {
	Of       string       // an output or a part
	Control  string       // which was moved; empty: the only one
	Readings [][2]float64 // the control's position and what was read
	Within   float64      // how far they read to either way
	Date     string       // "2026-05-01" or empty
}

func (s RiggingSpec) write(w *blockWriter) {
	w.name("of", s.Of)
	w.name("control", s.Control)
	w.pairs("readings", s.Readings)
	w.needed("within", s.Within)
	w.text("date", s.Date)
}
