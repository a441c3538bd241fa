package linkage

import (
	"slices"
	"strconv"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Over is a place around the turn of a rotor at which a blade is to have its least pitch, or
// its most.
type Over struct {
	Most bool
	// Toward is what the blade is over there: Aft the tail, Right, Forward the nose, Left.
	// Empty where the file tells degrees.
	Toward Direction
	// Azimuth is that in degrees from over the tail, counted with the rotation; 0 where
	// Toward tells it.
	Azimuth float64
}

// overWords are the places that a blade comes over, each with the direction it is then in.
var overWords = []struct {
	word   string
	toward Direction
}{{"nose", Forward}, {"left", Left}, {"tail", Aft}, {"right", Right}}

// wholeCircle is a turn of the rotor, degrees: no azimuth is as much.
const wholeCircle = 360

// Attribute is what the file calls it.
func (o *Over) Attribute() string {
	if o != nil && o.Most {
		return "most-over"
	}
	return "least-over"
}

// String is the place as the file has it: "nose", or degrees.
func (o *Over) String() string {
	if o == nil {
		return ""
	}
	for _, k := range overWords {
		if k.toward == o.Toward {
			return k.word
		}
	}
	return strconv.FormatFloat(o.Azimuth, 'g', -1, 64)
}

// At is the azimuth of the place, degrees from over the tail with the rotation: from 0 to
// below 360.
func (o *Over) At(rotor *Rotor) float64 {
	quarter := map[Direction]float64{Aft: 0, Right: 90, Forward: 180, Left: 270}
	at, named := quarter[o.Toward]
	switch {
	case !named:
		return o.Azimuth
	case rotor != nil && rotor.Clockwise && at != 0:
		return wholeCircle - at
	}
	return at
}

// readCyclicSense reads where around the turn a hand is to take the pitch off a blade.
func (r *reader) readCyclicSense(b *block, q *Requirement) {
	if e := b.need("of", "of = output"); e != nil {
		r.readPitchOutput(b, q, e)
	}
	if when := r.readPlaceMotion(b, "when", `[stick.grip, "forward"]`); when != nil {
		q.Places = []PlaceMotion{*when}
	}
	q.Over = r.readOver(b)
	q.Within = orZero(r.needLeast(b, "within", "within = 15", 0))
	if q.Within >= wholeCircle/4 {
		r.faults.Add(b.at("within"), "90 degrees of rotor turn on is the next place: within is what the designer allows, as in within = 15")
	}
	switch {
	case b.get("control") == nil:
		b.need("control", "control = fore-and-aft")
	case q.Control != nil && r.run.Rotor != nil && q.Control.Of != nil && q.Control.Of == r.run.Rotor.Hub:
		r.faults.Add(b.at("control"), "%s turns the rotor itself: name the control by which the hand tilts the swashplate", shortName(q.Control.Name))
	}
	if len(r.rotors) == 0 && r.run.Rotor == nil {
		r.faults.Add(q.Span, "%s tells where the blade is, and the run says of no rotor which way it turns: write rotor { with hub and turns, and a control of the hub from -180 to 180", b)
	}
}

// readOver reads the place of least pitch, or of most; nil where it is faulty.
func (r *reader) readOver(b *block) *Over {
	least, most := b.get("least-over"), b.get("most-over")
	if least != nil && most != nil {
		r.faults.Add(b.at("most-over"), "%s says where pitch is least or where it is most, and the other lies across: leave out one of the two", b)
		return nil
	}
	o, e := &Over{Most: most != nil}, most
	if most == nil {
		if e = b.need("least-over", `least-over = "right"`); e == nil {
			return nil
		}
	}
	if _, quoted := unwrap(e).(*hclsyntax.TemplateExpr); quoted {
		words := make([]string, len(overWords))
		for i, k := range overWords {
			words[i] = k.word
		}
		word, ok := r.choice(e, words...)
		if !ok {
			return nil
		}
		o.Toward = overWords[slices.Index(words, word)].toward
		return o
	}
	var ok bool
	if o.Azimuth, ok = r.number(e); !ok {
		return nil
	}
	if o.Azimuth < 0 || o.Azimuth >= wholeCircle {
		r.faults.Add(b.at(o.Attribute()), "%g is no azimuth: write degrees from over the tail, with the rotation, from 0 to below %d, or a word as in \"nose\"", o.Azimuth, wholeCircle)
		return nil
	}
	return o
}
