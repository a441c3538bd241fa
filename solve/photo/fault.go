package photo

import (
	"fmt"
	"math"
)

// Reason is why a photo can't be adjusted.
type Reason int

// The reasons.
const (
	NoSize        Reason = iota + 1 // the photo's width, height or unit is none
	NotFinite                       // a figure is no number, or infinite
	OutOfRange                      // there is no pick of this number
	TooMany                         // more than are adjusted at once
	OutsidePhoto                    // a pick lies beside the photo
	NotPositive                     // a distance or a tolerance has to be more than zero
	TooFine                         // a length is less or more than anything that is photographed
	SamePlace                       // both ends of it are picked in one place
	NothingScales                   // no distance was taped
	TooNear                         // a hole's depth is more than half of the camera's distance
	Disagrees                       // the rest can't be brought together with this measurement
	Unsettled                       // the adjustment finds no rest; it is about what disagrees most
)

// Of is what an Error is about.
type Of int

// What an Error may be about.
const (
	OfPhoto Of = iota
	OfPick
	OfTape
	OfLevel
	OfAway
)

// Error is why a photo can't be adjusted: what it is about and which of them, counted
// from 0. Sentences for a builder are made by who asks.
type Error struct {
	Reason Reason
	Of     Of
	At     int
}

var (
	reasonNames = map[Reason]string{
		NoSize: "no size", NotFinite: "not finite", OutOfRange: "no such pick", TooMany: "too many", OutsidePhoto: "outside the photo",
		NotPositive: "not positive", TooFine: "too small or too large", SamePlace: "both ends in one place", NothingScales: "nothing scales it",
		TooNear: "too near to the camera", Disagrees: "disagrees with the rest", Unsettled: "doesn't settle",
	}
	ofNames = map[Of]string{OfPhoto: "photo", OfPick: "pick", OfTape: "tape", OfLevel: "level", OfAway: "away"}
)

func (e *Error) Error() string {
	return fmt.Sprintf("%s %d: %s", ofNames[e.Of], e.At, reasonNames[e.Reason])
}

const (
	// leastLength and mostLength bound every length that is told, in millimeters: a
	// tenth of a millimeter to a kilometer.
	leastLength, mostLength = 0.1, 1e6
	// mostPixels bounds the photo's sides; the largest cameras have a tenth of it.
	mostPixels = 1e6
	// leastPixels is the least side of a photo on which anything can be picked.
	leastPixels = 16
	// picksTogether is how many standard deviations of a pick the ends of a distance or
	// direction must lie apart: else it is an error of picking that is measured.
	picksTogether = 4
	// nearest is the share of the camera's distance that a hole's depth may have: what is
	// nearer fills the photo.
	nearest = 0.9
)

// finite reports whether all are numbers.
func finite(of ...float64) bool {
	for _, v := range of {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// unfit returns why a photo can't be adjusted; nil where it can.
func (p *Photo) unfit() *Error {
	if !finite(p.Width, p.Height, p.Unit, p.Away, p.AwayWithin) {
		return &Error{Reason: NotFinite}
	}
	if !(min(p.Width, p.Height) >= leastPixels && max(p.Width, p.Height) <= mostPixels && p.Unit >= leastUnit && p.Unit <= mostUnit) {
		return &Error{Reason: NoSize}
	}
	for _, many := range []struct {
		of          Of
		count, most int
	}{{OfPick, len(p.Picks), mostPicks}, {OfTape, len(p.Tapes), mostTapes}, {OfLevel, len(p.Levels), mostLevels}} {
		if many.count > many.most {
			return &Error{Reason: TooMany, Of: many.of, At: many.most}
		}
	}
	for i, pick := range p.Picks {
		switch {
		case !finite(pick.X, pick.Y, pick.Depth):
			return &Error{Reason: NotFinite, Of: OfPick, At: i}
		case min(pick.X, pick.Y) < 0 || pick.X > p.Width || pick.Y > p.Height:
			return &Error{Reason: OutsidePhoto, Of: OfPick, At: i}
		case math.Abs(pick.Depth)*p.Unit > mostLength:
			return &Error{Reason: TooFine, Of: OfPick, At: i}
		}
	}
	if p.Datum < 0 || p.Datum >= len(p.Picks) {
		return &Error{Reason: OutOfRange}
	}
	if len(p.Tapes) == 0 {
		return &Error{Reason: NothingScales}
	}
	return p.unfitMeasurements()
}

// The units that a drawing may have, in millimeters, with room to both sides.
const leastUnit, mostUnit = 1e-3, 1e4

// unfitMeasurements is unfit of what was measured.
func (p *Photo) unfitMeasurements() *Error {
	for i, tape := range p.Tapes {
		reason := p.unfitEnds(tape.From, tape.To, tape.Is, tape.Within)
		if reason == 0 && tape.Is <= 0 {
			reason = NotPositive
		} else if reason == 0 && !p.isLength(tape.Is) {
			reason = TooFine
		}
		if reason != 0 {
			return &Error{Reason: reason, Of: OfTape, At: i}
		}
	}
	for i, level := range p.Levels {
		if reason := p.unfitEnds(level.From, level.To, level.Is, level.Within); reason != 0 {
			return &Error{Reason: reason, Of: OfLevel, At: i}
		}
	}
	switch {
	case p.Away < 0 || p.AwayWithin < 0:
		return &Error{Reason: NotPositive, Of: OfAway}
	case p.Away > 0 && !p.isLength(p.Away):
		return &Error{Reason: TooFine, Of: OfAway}
	}
	return nil
}

// isLength reports whether a length in run units is one that is photographed.
func (p *Photo) isLength(length float64) bool {
	in := float64(length * p.Unit)
	return in >= leastLength && in <= mostLength
}

// unfitEnds is why something can't be measured between two picks; 0 where it can.
func (p *Photo) unfitEnds(from, to int, is, within float64) Reason {
	switch {
	case min(from, to) < 0 || max(from, to) >= len(p.Picks):
		return OutOfRange
	case !finite(is, within):
		return NotFinite
	case within <= 0:
		return NotPositive
	case p.pixelsApart(from, to) < picksTogether*p.pickSigma():
		return SamePlace
	}
	return 0
}
