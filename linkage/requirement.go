package linkage

import "slices"

// Kind is a kind of requirement.
type Kind string

// The kinds of requirement.
const (
	Opposite     Kind = "opposite"
	Together     Kind = "together"
	Steady       Kind = "steady"
	Sense        Kind = "sense"
	Travel       Kind = "travel"
	OverCenter   Kind = "over-center"
	RodAngle     Kind = "rod-angle"
	Clearance    Kind = "clearance"
	Misalignment Kind = "misalignment"
	Stops        Kind = "stops"
	Order        Kind = "order"
	Engagement   Kind = "engagement"
	SecondPath   Kind = "second-path"
	Taut         Kind = "taut"
	Meets        Kind = "meets"
	Neutral      Kind = "neutral"
	Symmetrical  Kind = "symmetrical"
	Reading      Kind = "reading"
	FreePlay     Kind = "free-play"
	// CollectivePitch and CyclicPitch are of a blade, around the turn of its rotor.
	CollectivePitch Kind = "collective-pitch"
	CyclicPitch     Kind = "cyclic-pitch"
	// CyclicSense is where around that turn a hand takes the pitch off.
	CyclicSense Kind = "cyclic-sense"
	// AsSet is that the run can be set as it is at all. Nobody writes it: it is
	// judged always, and told where it falls short.
	AsSet Kind = "setting"
	// LabelKind is that a control or output goes the way that its plus and minus say.
	// Nobody writes it: it is judged wherever they can be read as a motion.
	LabelKind Kind = "label"
)

// Requirement is one thing that must hold over the whole travel. Only the
// fields of its kind are set.
type Requirement struct {
	Kind    Kind
	Name    string // free text; may be empty
	Span    Span
	Index   int      // in Run.Requirements
	In      *Member  // as of a Part; nil too of what is required across runs
	Control *Control // judged in this control's sweeps only; nil: in all
	// Through is set where the file names a control that is none in the aircraft. Control is
	// then what drives its part, and a reading's At is told of that part; nil elsewhere.
	Through *SamePart
	// ControlSpan is where Control is written; the requirement's own Span where
	// it is left out.
	ControlSpan Span

	Of      []Subject     // opposite, together, sense, symmetrical: two; steady, travel, neutral, reading, collective-pitch, cyclic-pitch, cyclic-sense: one; free-play: an output or control
	Between [2]FeatureRef // clearance
	Pair    *Pair         // taut
	Points  [2]PointRef   // meets
	First   *Stop         // order
	Then    *Stop         // order
	Same    bool          // sense: turns = "same"
	Places  []PlaceMotion // sense, in place of Of and Same: as the first goes, so is the second to; cyclic-sense: the hand alone
	Over    *Over         // cyclic-sense: where pitch is to be as the hand goes so
	Opposed bool          // symmetrical: what the one does at +x, the other does the other way at -x
	At      float64       // reading: where the control stands, from neutral
	Wants   float64       // reading: what is to be read there
	Within  float64       // opposite, together, steady, travel, meets, neutral, symmetrical, reading, collective-pitch, cyclic-pitch; cyclic-sense: degrees of rotor turn
	Low     float64       // travel; collective-pitch and cyclic-pitch where Most is nil
	High    float64       // the same
	Least   float64       // over-center, rod-angle, clearance, order, taut
	Most    *float64      // misalignment, second-path, free-play, collective-pitch, cyclic-pitch; nil for misalignment: each rod's own
}

// Requires reports whether a run requires something of a kind.
func (r *Run) Requires(kind Kind) bool {
	return r != nil && slices.ContainsFunc(r.Requirements, func(q *Requirement) bool { return q.Kind == kind })
}

// Subject is what a requirement is about: exactly one field is set.
type Subject struct {
	Part    *Part
	Output  *Output
	Control *Control
}

// Name returns the subject's name.
func (s Subject) Name() string {
	switch {
	case s.Part != nil:
		return s.Part.Name
	case s.Output != nil:
		return s.Output.Name
	case s.Control != nil:
		return s.Control.Name
	}
	return ""
}

// Angular reports whether the subject's travel is degrees, not a length.
func (s Subject) Angular() bool {
	switch {
	case s.Part != nil:
		return s.Part.Angular()
	case s.Output != nil:
		return s.Output.Angular()
	case s.Control != nil:
		return s.Control.Of != nil && s.Control.Of.Angular()
	}
	return false
}
