package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// NotModeled is what a rotor does in the air and nothing here knows.
const NotModeled = "Not modeled: flapping, coning, bending, air loads, track."

// quarterNames are the four places that a blade comes over, in the order in which pitch is
// told: the tail, the right, the nose, the left.
var quarterNames = [4]string{"tail", "right", "nose", "left"}

// QuarterNames are the places of solve.PitchCell.At.
func QuarterNames() [4]string { return quarterNames }

// between is how far from the four places, degrees of rotor turn, a blade is told to be
// between two of them: half of what lies between.
const between = 22.5

// overWords tells where a blade is.
func overWords(r *solve.Rotor, azimuth float64) string {
	quarters := r.Quarters()
	nearest, off := 0, 360.0
	for i, at := range quarters {
		if d := math.Abs(math.Remainder(azimuth-at, 360)); d < off {
			nearest, off = i, d
		}
	}
	if off <= between {
		return "over the " + quarterNames[nearest]
	}
	// The next one that it comes to, and the last.
	ahead, behind := 0, 0
	for i, at := range quarters {
		if to := math.Mod(at-azimuth+720, 360); to <= 90 {
			ahead = i
		}
		if from := math.Mod(azimuth-at+720, 360); from <= 90 {
			behind = i
		}
	}
	return "between the " + quarterNames[behind] + " and the " + quarterNames[ahead]
}

// placeOf is the azimuth towards which a hand goes, with its name; false of up and down.
func placeOf(r *solve.Rotor, d linkage.Direction) (azimuth float64, name string, ok bool) {
	i, ok := map[linkage.Direction]int{linkage.Aft: 0, linkage.Right: 1, linkage.Forward: 2, linkage.Left: 3}[d]
	if !ok {
		return 0, "", false
	}
	return r.Quarters()[i], quarterNames[i], true
}

// StickWords names a stick all the way to one end: "stick forward", or by its control's name
// and words where the file doesn't say which way the hand goes.
func StickWords(run *linkage.Run, s solve.Stick, end int) string {
	if s.Toward[end] != "" {
		return "stick " + string(s.Toward[end])
	}
	words := [2]string{s.Control.Minus, s.Control.Plus}[end]
	if words == "" {
		words = "at " + figure.Quantity(s.At[end], ControlUnit(run, s.Control))
	}
	return figure.Clean(s.Control.Name) + " " + figure.Clean(words)
}

// CollectiveWords names where the collective stands: low, middle, high.
func CollectiveWords(level int) string { return [3]string{"low", "middle", "high"}[level] }

// phaseSays tells where a stick all the way over takes off most pitch, and how far before or
// past the place that the hand goes to.
func phaseSays(run *linkage.Run, r *solve.Rotor, b *solve.BladePitch, stick, end int) string {
	at, _ := r.LeastWith(b, stick, end)
	if at == nil {
		return ""
	}
	s := r.Sticks[stick]
	said := fmt.Sprintf("%s gives least pitch with the blade %s", StickWords(run, s, end), overWords(r, *at))
	to, name, ok := placeOf(r, s.Toward[end])
	if !ok {
		return said
	}
	before := math.Remainder(to-*at, 360)
	switch {
	case figure.Rounded(before, linkage.Degrees) == 0:
		return said
	case before < 0:
		return said + fmt.Sprintf(", %s of rotor turn past the %s", figure.Quantity(-before, linkage.Degrees), name)
	}
	return said + fmt.Sprintf(", %s of rotor turn before the %s", figure.Quantity(before, linkage.Degrees), name)
}

// couplingSays tells what collective and cyclic do to each other, and how far the blades are
// apart.
func couplingSays(r *solve.Rotor) (list []string) {
	degrees := func(v float64) string { return figure.Quantity(v, linkage.Degrees) }
	if v, ok := r.CyclicByCollective(); ok {
		list = append(list, "The collective from low to high changes cyclic pitch by at most "+degrees(v)+".")
	}
	if v, ok := r.CollectiveByCyclic(); ok && len(r.Sticks) > 0 {
		list = append(list, "Full cyclic changes collective pitch by at most "+degrees(v)+".")
	}
	if v, ok := r.Differ(); ok {
		list = append(list, "Over the same place, all controls alike, the blades differ by at most "+degrees(v)+".")
	}
	return list
}
