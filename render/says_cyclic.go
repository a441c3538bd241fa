package render

import (
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// wrongWay is how far from where it is to be a blade has its least pitch and is told to work
// the wrong way round, degrees of rotor turn: nearer to the opposite than to a quarter off.
const wrongWay = 135

// cyclicSense tells where around the turn a hand takes the pitch off a blade.
func (t telling) cyclicSense() string {
	q := t.Requirement
	name, hand, to := q.Of[0].Name(), q.Places[0].Place.String(), q.Places[0].Direction
	switch t.Why {
	case solve.NoFullTurn, solve.NoCycle, solve.NoLeadingEdge:
		return t.noPitch(name, "pitch")
	case solve.NoBlade:
		return fmt.Sprintf("It can't be judged: the rotor's hub doesn't carry what %s is of, or it points nowhere out from the mast, so there is no telling where the blade is.", name)
	case solve.HeldAtOnePlace:
		return fmt.Sprintf("It can't be judged: while the rotor turns, %s is held at neutral only. Hold it at both ends too, neutral first: held = [0, -9, 9] in its control.", t.controlName())
	case solve.NeverAlong:
		return fmt.Sprintf("It can't be judged: %s moves %s hardly %s or %s, so which end is meant isn't known: name a place and a way that it goes.", t.controlName(), hand, to, to.Opposite())
	case solve.TooLittleCyclic:
		return fmt.Sprintf("It can't be judged: %s moves the cyclic pitch of %s by as little as %s to either side; only from %s on is it told where pitch is least.", t.controlName(), name, figure.Readable(t.By, solve.LeastAmplitude, linkage.Degrees), figure.Given(solve.LeastAmplitude, linkage.Degrees))
	}
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	rotor := &solve.Rotor{Rotor: t.result.Run.Rotor}
	wants, got, which := q.Over.At(rotor.Rotor), t.Reaches, "least"
	if q.Over.Most {
		which, got = "most", math.Mod(got+180, 360)
	}
	away := math.Mod(wants+180, 360)
	if t.Verdict == solve.Holds {
		return fmt.Sprintf("With %s %s %s has its %s pitch %s, and with it %s %s, to within %s of rotor turn, worst%s. %s.",
			hand, to, name, which, overPlace(rotor, wants), to.Opposite(), overPlace(rotor, away), t.worst(), t.heldClause(), t.allowed())
	}
	if t.End == "back" {
		to, wants = to.Opposite(), away
	}
	said := fmt.Sprintf("With %s %s %s has its %s pitch %s; it is to be %s: %s of rotor turn off%s. %s.",
		hand, to, name, which, overPlace(rotor, got), overPlace(rotor, wants), t.worst(), t.heldClause(), t.allowed())
	if *t.Worst >= wrongWay {
		said += " That is the wrong way round: look whether its pitch link is on the right horn, and whether the swashplate tilts the right way."
	}
	return said
}

// controlName is that of the requirement's control.
func (t telling) controlName() string {
	if t.Requirement.Control == nil {
		return "its control"
	}
	return t.Requirement.Control.Name
}

// overPlace tells where a blade is: over one of the four places, or by its azimuth where it
// stands off all of them.
func overPlace(r *solve.Rotor, azimuth float64) string {
	said := overWords(r, azimuth)
	for _, at := range r.Quarters() {
		if figure.Rounded(math.Remainder(azimuth-at, 360), linkage.Degrees) == 0 {
			return said
		}
	}
	return said + azimuthSays(azimuth)
}

// azimuthSays tells an azimuth in brackets.
func azimuthSays(azimuth float64) string {
	return " (azimuth " + figure.Quantity(azimuth, linkage.Degrees) + ")"
}

// CyclicNotJudgedSays tells of which hands nothing tells where around the turn they take the
// pitch off; empty where there is none.
func CyclicNotJudgedSays(r *solve.Result) string {
	var hands []string
	blades := map[string][]string{}
	for _, k := range r.CyclicNotJudged {
		hand := figure.Clean(k.Control.Name)
		if blades[hand] == nil {
			hands = append(hands, hand)
		}
		blades[hand] = append(blades[hand], figure.Clean(k.Output.Name))
	}
	if len(hands) == 0 {
		return ""
	}
	for i, hand := range hands {
		hands[i] = hand + " (" + strings.Join(blades[hand], ", ") + ")"
	}
	return "Which way the cyclic works was not judged: " + strings.Join(hands, ", ") + "."
}
