package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// BandSays tells by how much the worst value of a requirement may be worse for the
// uncertainty of the drawing, and whether the answer is still so then, or why that
// can't be told; empty where it has no figure.
func BandSays(r *solve.Result, j *solve.Judgement) string {
	doubt, open := r.Doubt() != nil, j.Untied != nil && *j.Untied
	switch {
	case ExactlyKnown(r):
		return ""
	case (j.Band == nil || j.Sure == nil) && open && !doubt:
		return "Not to be told surely: it may hang on what the survey leaves open."
	case j.Band == nil || j.Sure == nil:
		return noBand(j.NoBand)
	}
	moves := holesOut(r) + " this moves by about " + figure.Small(*j.Band, j.Unit) + "."
	if Unmeasured(j) {
		moves = holesOut(r) + " this moves by more than a figure can tell."
	}
	if *j.Band < figure.LeastUsable {
		moves = holesOut(r) + " this hardly moves."
	}
	sure, but := *j.Sure, "but not surely: "
	switch {
	case doubt:
		but = "but not surely, since the survey is in doubt: "
	case open:
		but = "but not surely, since it hangs on what the survey leaves open: "
	}
	switch {
	case j.Verdict == solve.Holds && sure:
		return "Surely so: " + moves
	case j.Verdict == solve.Holds:
		return "Holds, " + but + moves
	case j.Verdict == solve.FallsShort && sure:
		return "Surely short: " + moves
	case j.Verdict == solve.FallsShort:
		return "Falls short, " + but + moves
	}
	return "Not to be told surely: " + moves
}

// Unmeasured reports whether the band of a ratio is so large that its figure has no
// meaning.
func Unmeasured(j *solve.Judgement) bool {
	return strings.Contains(string(j.Unit), "/") && figure.RatioNumber(*j.Band) == figure.BeyondMeasure
}

// noBand tells why there is no telling how surely an answer holds; empty where it has
// no figure that moves.
func noBand(why solve.NoBand) string {
	because := map[solve.NoBand]string{
		solve.BandChangePoint: "the travel ends at a change point, which a hole a little out does away with",
		solve.BandOnCenter:    "it is worst just short of where a part is on center",
		solve.BandSlackCable:  "it hangs on where a cable goes slack",
		solve.BandNotMet:      "nothing was met as far as was looked",
		solve.BandEndsBefore:  "the travel may end before the control gets there",
		solve.BandTooFar:      "with the holes out by what is assumed it moves farther than a slope can tell",
		solve.BandAside:       "a stretch of the travel is left out, and its ends go with the drawing",
	}[why]
	if because == "" {
		return ""
	}
	return "How surely can't be told: " + because + "."
}

// ExactlyKnown reports whether the file says that no hole is out at all.
func ExactlyKnown(r *solve.Result) bool { return r.Survey == nil && r.Run.Uncertain == 0 }

// Unsure tells what was left out, and which of the requirements that hold do so only
// as drawn; empty where there is neither.
func Unsure(r *solve.Result) string {
	return strings.TrimSpace(LeftOutSays(r) + " " + asDrawnOnly(r))
}

// asDrawnOnly tells which of the requirements that hold do so only as drawn; empty
// where none does, and where the headline says that nothing is sure.
func asDrawnOnly(r *solve.Result) string {
	names := drawnOnly(r)
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("Not surely in %d: %s.", len(names), figure.List(names))
}

// drawnOnly lists those requirements.
func drawnOnly(r *solve.Result) (names []string) {
	if r.Doubt() != nil {
		return nil
	}
	for i := range r.Requirements {
		j := &r.Requirements[i]
		if open := j.Untied != nil && *j.Untied; j.Verdict == solve.Holds && (open || j.Sure != nil && !*j.Sure) {
			names = append(names, RequirementTitle(r, j.Requirement))
		}
	}
	return names
}

// holesOut tells for what a band is.
func holesOut(r *solve.Result) string {
	if r.Survey == nil {
		return "with every hole out by up to about " + holeUncertainty(r)
	}
	return fmt.Sprintf("with the holes out by what the survey leaves, up to about %s,", holeUncertainty(r))
}

// holeUncertainty tells how far holes may be out on which anything hangs: what the
// survey leaves of the least sure, or what the run says.
func holeUncertainty(r *solve.Result) string {
	unit := r.Run.Units
	if aircraft := r.Run.Aircraft; aircraft != nil && r.Survey == nil { // each run by its own
		var told []string
		for _, m := range aircraft.Members {
			if says := figure.Given(m.Run.Uncertain, m.Run.Units); !slices.Contains(told, says) {
				told = append(told, says)
			}
		}
		return figure.Joined(" or ", told...)
	}
	if r.Survey == nil {
		return figure.Given(r.Run.Uncertain, unit)
	}
	most := 0.0
	for i := range r.Survey.Points {
		if r.Survey.Points[i].Idle {
			continue
		}
		for _, sigma := range axesOf(r.Survey.Points[i].Sigma) {
			most = math.Max(most, deviations*sigma)
		}
	}
	return figure.Small(most, unit)
}

// BandsAssume tells what the bands leave out; empty where no requirement has one.
func BandsAssume(r *solve.Result) string {
	for i := range r.Requirements {
		if r.Requirements[i].Band == nil || ExactlyKnown(r) {
			continue
		}
		from := fmt.Sprintf("every coordinate and set length out on its own by %s (two standard deviations%s)", holeUncertainty(r), uncertainAssumed(r.Run))
		if r.Survey != nil {
			from = "the survey's own uncertainty (two standard deviations)"
		}
		return fmt.Sprintf("Assumed for \"surely\": %s; metal (%s) and stops count as exact.", from, metalWords(r.Run))
	}
	return ""
}

// metalWords names the kinds of metal that a run has.
func metalWords(run *linkage.Run) string {
	rounds, edges, rods := false, false, false
	for _, part := range run.Parts {
		for _, f := range part.Features {
			rounds = rounds || f.Shape == linkage.Round
			edges = edges || f.Shape == linkage.Edge
		}
	}
	for _, rod := range run.Rods {
		rods = rods || rod.Diameter != nil
	}
	var said []string
	for _, kind := range []struct {
		has   bool
		words string
	}{{rounds, "rounds"}, {edges, "edges"}, {rods, "thickness of rods"}} {
		if kind.has {
			said = append(said, kind.words)
		}
	}
	if len(said) == 0 {
		return "rounds and edges"
	}
	return figure.List(said)
}
