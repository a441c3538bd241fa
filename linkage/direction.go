package linkage

import (
	"math"
	"slices"
	"strings"
)

// A Direction is one of the six that the people at the aircraft speak of.
type Direction string

// The directions, as a person in the seat has them.
const (
	Forward Direction = "forward"
	Aft     Direction = "aft"
	Up      Direction = "up"
	Down    Direction = "down"
	Left    Direction = "left"
	Right   Direction = "right"
)

// Directions are all of them, in the order they are told in.
var Directions = []Direction{Forward, Aft, Up, Down, Left, Right}

// Opposite is the direction the other way.
func (d Direction) Opposite() Direction {
	i := slices.Index(Directions, d)
	if i < 0 {
		return d
	}
	return Directions[i^1]
}

// directionWords are the words that mean a direction.
var directionWords = map[string]Direction{
	"forward": Forward, "forwards": Forward, "fwd": Forward,
	"aft": Aft, "back": Aft, "backward": Aft, "rearward": Aft,
	"up": Up, "upward": Up,
	"down": Down, "downward": Down,
	"left": Left, "right": Right,
}

// heldNouns are the words for what a hand or foot holds, or does with it, behind which
// a direction is a motion of it.
var heldNouns = []string{"stick", "sticks", "lever", "grip", "knob", "handle", "pedal", "bar", "pulled", "pushed"}

// heldPoints are the names of points that are where a control is held or an output
// watched, where the file doesn't say.
var heldPoints = []string{"grip", "hand", "knob", "pad", "foot", "pedal", "te"}

// squareDirections is the most that two of a run's directions may be out of square (as
// a cosine) for the third to be told from them: a degree.
const squareDirections = 0.0175

// Direction returns a direction of the aircraft in the drawing, at length 1; false where
// the run doesn't say enough to know it.
func (run *Run) Direction(d Direction) (Vec, bool) {
	if run == nil {
		return Vec{}, false
	}
	for _, axis := range []struct {
		plus, minus Direction
		is          *Vec
	}{{Forward, Aft, run.Forward}, {Up, Down, run.Up}, {Right, Left, run.Right}} {
		switch {
		case axis.is == nil:
		case d == axis.plus:
			return *axis.is, true
		case d == axis.minus:
			return axis.is.Scale(-1), true
		}
	}
	return Vec{}, false
}

// Label is what a plus or a minus says of a motion: the direction in which it goes,
// and the name of the side, "left" or "right", whose pedal or stick is meant; empty
// where none is.
type Label struct {
	Direction Direction
	Side      string
}

// ReadLabel reads the words of a plus or minus as a motion: a direction alone, or one
// behind what a hand or foot holds ("stick aft", "left pedal forward"), and behind
// "trailing edge" of an output. It is false for all else, which is not known to be a
// motion: words such as "nose left" tell what comes of it.
func ReadLabel(words string, output bool) (Label, bool) {
	list := strings.Fields(strings.ToLower(words))
	if len(list) == 0 {
		return Label{}, false
	}
	to, known := directionWords[list[len(list)-1]]
	if !known {
		return Label{}, false
	}
	before := list[:len(list)-1]
	n := len(before)
	switch {
	case n == 0:
		return Label{Direction: to}, true
	case output && n == 2 && before[0] == "trailing" && before[1] == "edge" && (to == Up || to == Down):
		return Label{Direction: to}, true
	case !slices.Contains(heldNouns, before[n-1]):
		return Label{}, false
	}
	label := Label{Direction: to}
	for _, word := range before {
		if word == "left" || word == "right" {
			label.Side = word
		}
	}
	return label, true
}

// Names reports whether a place is on the side that the label names: always where it
// names none, else where the part or rod that the place is of has that word in its name.
func (l Label) Names(place PointRef) bool {
	owner := strings.ToLower(place.Owner())
	if in := place.In(); in != nil {
		owner = strings.TrimPrefix(owner, strings.ToLower(in.Name)+".")
	}
	return l.Side == "" || slices.Contains(strings.FieldsFunc(owner, func(r rune) bool { return r == '-' || r == '_' || r == ' ' }), l.Side)
}

// heldPoint returns the only point of a part that has a name for where it is held or
// watched; nil where there is none, or more than one.
func heldPoint(part *Part) *PointRef {
	if part == nil {
		return nil
	}
	var found *PointRef
	for i, p := range part.Points {
		if slices.Contains(heldPoints, p.Name) {
			if found != nil {
				return nil
			}
			found = &PointRef{Part: part, Point: i, Span: p.Span}
		}
	}
	return found
}

// readDirections reads where the aircraft lies in the drawing, and tells the third
// direction from two.
func (r *reader) readDirections(b *block) {
	run := r.run
	run.Forward, run.Up, run.Right = r.arrow(b, "forward"), r.arrow(b, "up"), r.arrow(b, "right")
	square := func(a, b *Vec) bool { return math.Abs(a.Dot(*b)) < squareDirections }
	third := func(a, b *Vec) *Vec {
		if a == nil || b == nil || !square(a, b) {
			return nil
		}
		v := a.Cross(*b).Unit()
		return &v
	}
	switch {
	case run.Right == nil:
		run.Right = third(run.Forward, run.Up)
	case run.Up == nil && run.Forward == nil:
	case run.Up == nil:
		run.Up = third(run.Right, run.Forward)
	case run.Forward == nil:
		run.Forward = third(run.Up, run.Right)
	default:
		if is := third(run.Forward, run.Up); is != nil && is.Dot(*run.Right) < 1-squareDirections {
			r.faults.Add(b.at("right"), "right doesn't go with forward and up, of which two tell the third: it would be %s here; leave one of the three out", is.list())
		}
	}
}

// list writes a direction as a file has it, without what rounding leaves of it.
func (v Vec) list() string {
	return "[" + plain(v.X) + ", " + plain(v.Y) + ", " + plain(v.Z) + "]"
}

// readHeldAt reads where a control is held or an output watched, a place of the part or
// of any that moves with it; left out, the part's only point with a name for that.
func (r *reader) readHeldAt(b *block, name string, part *Part) *PointRef {
	e := b.get(name)
	if e == nil {
		return heldPoint(part)
	}
	ref, ok := r.pointRef(e)
	if !ok {
		return nil
	}
	if ref.Part != nil && ref.Part.Motion == Fixed {
		r.faults.Add(ref.Span, "%s is fixed, and a place that moves is wanted here", shortName(ref.String()))
		return nil
	}
	return &ref
}

// A PlaceMotion is a place that goes in a direction: "stick.grip", "right".
type PlaceMotion struct {
	Place     PointRef
	Direction Direction
	Along     Vec // the direction in the drawing, at length 1
}

// readPlaceMotion reads the place and the direction of a when or then.
func (r *reader) readPlaceMotion(b *block, name, example string) *PlaceMotion {
	e := b.need(name, name+" = "+example)
	if e == nil {
		return nil
	}
	entries, ok := r.list(e, 2, example)
	if !ok {
		return nil
	}
	m := &PlaceMotion{}
	place, okPlace := r.pointRef(entries[0])
	if okPlace && place.Part != nil && place.Part.Motion == Fixed {
		r.faults.Add(place.Span, "%s is fixed, and a place that moves is wanted here", shortName(place.String()))
		okPlace = false
	}
	words := make([]string, len(Directions))
	for i, d := range Directions {
		words[i] = string(d)
	}
	word, okWord := r.choice(entries[1], words...)
	if !okPlace || !okWord {
		return nil
	}
	m.Place, m.Direction = place, Direction(word)
	along, known := r.run.Home(place.In()).Direction(m.Direction)
	if !known {
		r.faults.Add(spanOf(entries[1].Range()), "which way is %s in the drawing? the run doesn't say: give it two of forward, up and right, square to each other", word)
		return nil
	}
	m.Along = along
	return m
}

// Toward is the direction in the drawing, at length 1, of the side from which a turning
// control is seen; false where there is none: no lever carries it, or the run doesn't
// know the direction.
func (t *Twist) Toward(run *Run, part *Part) (Vec, bool) {
	if t.SeenFrom != LittleFinger && t.SeenFrom != Thumb {
		return run.Direction(Direction(t.SeenFrom))
	}
	if part.Carrier == nil || part.Carrier.Part == nil || part.Carrier.Part.Motion != Turns {
		return Vec{}, false
	}
	inward := part.Carrier.Part.Pivot.Sub(part.Pivot) // to the lever's pivot, where the little finger is
	if inward.Norm() == 0 {
		return Vec{}, false
	}
	if t.SeenFrom == Thumb {
		inward = inward.Scale(-1)
	}
	return inward.Unit(), true
}
