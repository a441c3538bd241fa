package render

import (
	"fmt"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// drawnSays tells of a run that doesn't hold what it may follow from: the stops that it
// lacks, and the rods that are hardly joined as meant.
func drawnSays(r *solve.Result) (said []string) {
	if r.Verdict == solve.Holds {
		return said
	}
	if words := noStopSays(r); words != "" {
		said = append(said, words)
	}
	for _, odd := range r.Run.OddRods() {
		said = append(said, oddRodSays(r.Run, odd))
	}
	return said
}

// asLarge are things of sizes that everybody knows, up to so many millimeters.
var asLarge = []struct {
	most float64
	what string
}{
	{30, "a thumbnail"}, {70, "a matchbox"}, {110, "the palm of a hand"}, {220, "a hand"}, {450, "a forearm"}, {1100, "an arm"},
	{2500, "a door is high"}, {6000, "a car"}, {15_000, "a bus"}, {40_000, "an airliner"},
}

// sizeSays tells of a run whose figures are hardly in its unit; empty where they may be.
func sizeSays(run *linkage.Run) string {
	size, arm, of, odd := run.OddSize()
	if odd == 0 {
		return ""
	}
	larger := "a whole airfield"
	for _, k := range slices.Backward(asLarge) {
		if size <= k.most {
			larger = k.what
		}
	}
	scale, other := 1.0, linkage.Inches
	if run.Units == linkage.Inches {
		scale, other = millimetersPerInch, linkage.Millimeters
	}
	// What the other unit would make of it tells whether that may be meant.
	meant := fmt.Sprintf("; are its figures in %s? Then write units = %q.", unitWords[other], string(other))
	if (odd < 0) != (other == linkage.Inches) {
		meant = "; check its figures."
	}
	return fmt.Sprintf("Is units = %q right? So the whole run is as large as %s, %s from corner to corner, and the arm to %s is %s long%s", string(run.Units), larger,
		figure.Length(size/scale, run.Units), of, figure.Length(arm/scale, run.Units), meant)
}

// millimetersPerInch is exact by definition.
const millimetersPerInch = 25.4

// noStopSays tells what a run lacks first of all, where it falls short of more than that:
// a stop. The rest is judged past where one would hold it.
func noStopSays(r *solve.Result) string {
	lacks, others := lacksStop(r), 0
	for i := range r.Requirements {
		if j := &r.Requirements[i]; j.Verdict != solve.Holds && j.Requirement.Kind != linkage.Stops {
			others++
		}
	}
	if lacks == nil || others == 0 {
		return ""
	}
	for _, s := range r.Sweeps {
		for i, end := range s.Ends {
			if lacks.Control != nil && lacks.Control != s.Control || end.HoldsControl() || end.Slack != nil || hasStop(r.Run, s.Control, i) {
				continue
			}
			return fmt.Sprintf("First a stop is missing: none ends the %s side of %s%s. Put that in; the rest is judged as far as the run goes without it.",
				SideName(i), s.Control.Name, figure.Bracketed(SideWord(s, i == 1)))
		}
	}
	return ""
}

// hasStop reports whether the file gives a control a stop on a side, reached or not. Of
// metal that touches it isn't known for which side it is meant.
func hasStop(run *linkage.Run, c *linkage.Control, side int) bool {
	return slices.ContainsFunc(run.Stops, func(s *linkage.Stop) bool {
		if s.Of == nil {
			return true
		}
		if s.Side != "" {
			return s.Of == c.Of && s.Side == SideName(side)
		}
		return s.Of == c.Of && (s.At > 0) == (side == 1)
	})
}

// lacksStop is a requirement of stops that falls short; nil where none does.
func lacksStop(r *solve.Result) *linkage.Requirement {
	for i := range r.Requirements {
		if j := &r.Requirements[i]; j.Requirement.Kind == linkage.Stops && j.Verdict == solve.FallsShort {
			return j.Requirement
		}
	}
	return nil
}

// oddRodSays tells of a rod that is hardly joined as it was meant.
func oddRodSays(run *linkage.Run, odd linkage.OddRod) string {
	said := fmt.Sprintf("Is %s in the right hole, from %s to %s? ", odd.Rod.Name, odd.Rod.From, odd.Rod.To)
	switch odd.Why {
	case linkage.CrossesPivot:
		said += fmt.Sprintf("As drawn it crosses the pivot of %s.", odd.Part.Name)
	case linkage.TooLong:
		said += fmt.Sprintf("It is %s, more than twice as long as any other rod.", figure.Exact(odd.Rod.Length, run.UnitsOf(odd.Rod.In)))
	case linkage.OutOfSquare:
		said += fmt.Sprintf("As drawn its end on %s stands %.0f° out of square to the bolt, farther than rod ends take.", odd.Part.Name, odd.Tilt)
	case linkage.SharedHole:
		said += fmt.Sprintf("It shares %s with %s, and nothing ends in %s.", odd.Shared, odd.Other.Name, odd.Free)
	}
	return said
}

// unitWords are the units of length in a sentence.
var unitWords = map[linkage.Unit]string{linkage.Inches: "inches", linkage.Millimeters: "millimeters"}
