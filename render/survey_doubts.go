package render

import (
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve/survey"
)

// inDoubt tells in a clause why a survey doesn't settle all that it is about;
// empty where it does, and where there is none.
func inDoubt(s *survey.Survey) string {
	if s == nil {
		return ""
	}
	return doubtSays(s, s.Doubt())
}

// doubtSays tells in a clause what puts a survey in doubt; empty where nothing does.
func doubtSays(s *survey.Survey, d *survey.Doubt) string {
	if d == nil {
		return ""
	}
	switch d.Kind {
	case survey.GaugedFar:
		return figure.Quoted(d.Measurement.Name) + " was gauged far from the direction in which it is sketched"
	case survey.Disagrees:
		return figure.Quoted(d.Measurement.Name) + " disagrees with " + theRest(s)
	case survey.LeavesOpen:
		if len(d.Open) == 1 {
			return "nothing measured ties " + d.Open[0].Name
		}
		return fmt.Sprintf("nothing measured ties %d of the places", len(d.Open))
	case survey.NoDirection:
		return "nothing measured tells how the whole lies"
	}
	return "the mirror image fits as well"
}

// reportDoubts tells what is wrong with the measurements.
func reportDoubts(p *page, s *survey.Survey) {
	said := SurveyLooks(s)
	if len(said) == 0 {
		return
	}
	p.line("LOOK AT")
	for _, words := range said {
		p.text("  ", "    ", words)
	}
	p.blank()
}

// SurveyLooks tells what is wrong with the measurements, a sentence or two each: a doubtful
// one, what they leave open, and what none of them checks.
func SurveyLooks(s *survey.Survey) []string {
	said := doubtsSay(s)
	if s.NeedsDirection {
		said = append(said, "Nothing measured tells how the whole lies, and no tape can: gauge one line, or make a second place exact.")
	}
	if s.NothingExact() {
		said = append(said, fmt.Sprintf("No place is exact, so nothing tells where the whole lies but the sketch, to within %s, and every ± has that in it: make the place that all is told from exact (exact = true).", figure.Length(deviations*s.Run.Sketch, s.Run.Units)))
	}
	open := s.Open()
	for i, point := range open {
		if i == mostPlaces {
			said = append(said, fmt.Sprintf("And %d more: see the results for machines (--json).", len(open)-i))
			break
		}
		said = append(said, looseSays(s, point))
	}
	if unchecked := uncheckedNames(s); len(unchecked) > 0 && s.Run.Sketch > 0 {
		said = append(said, fmt.Sprintf("Nothing checks %s: a slip there would not show.", figure.List(unchecked)))
	}
	return said
}

// doubtsSay tells what puts a survey in doubt, beyond what it leaves open.
func doubtsSay(s *survey.Survey) []string {
	var said []string
	for i := range s.FarGauges {
		said = append(said, farGaugeSays(s, &s.FarGauges[i]))
	}
	if m := s.Doubtful(); m != nil {
		said = append(said, doubtfulSays(s, m))
	}
	if far := farPlacesSay(s); far != "" {
		said = append(said, far)
	}
	if s.Mirror {
		said = append(said, mirrorSays(s))
	}
	return said
}

// doubtfulSays tells a measurement that disagrees too much.
func doubtfulSays(s *survey.Survey, m *survey.Measurement) string {
	by := math.Abs(m.Residual)
	if m.Misclosure != nil {
		by = math.Abs(*m.Misclosure)
	}
	what := "distance"
	if m.Measurement.Kind == linkage.Gauged {
		what = "direction"
	}
	then := ": measure it again before anything else."
	if len(s.FarGauges) > 0 {
		then = ", as may well follow from that: measure it again only once that is right."
	}
	said := fmt.Sprintf("The %s %s (%s to %s) disagrees with %s by %s%s",
		what, figure.Quoted(m.Measurement.Name), m.Measurement.From, m.Measurement.To, theRest(s), figure.Small(by, m.Measurement.Kind.Unit(s.Run.Units)), then)
	if others := asDoubtful(s); len(others) > 0 {
		said += fmt.Sprintf(" As doubtful, as nearly as can be told: %s.", figure.List(others))
	}
	if len(s.FarGauges) > 0 {
		return said
	}
	if n := s.StillDisagree; n > 0 {
		said += fmt.Sprintf(" Without it %d of the others disagree still: more than one slipped, or something is sketched on the wrong side of a line or of another hole. Look at the sketch first.", n)
	}
	return said
}

// asDoubtful names the others that could as well be the one that slipped.
func asDoubtful(s *survey.Survey) []string {
	var names []string
	for i := range s.Measurements {
		if s.Measurements[i].AsDoubtful {
			names = append(names, figure.Quoted(s.Measurements[i].Measurement.Name))
		}
	}
	return names
}

// farGaugeSays tells a direction gauged far from the sketched one.
func farGaugeSays(s *survey.Survey, f *survey.FarGauge) string {
	const (
		half, quarter = 180.0, 90.0 // degrees
		near          = 30.0        // degrees: so much a sketch may be out
	)
	m := f.Measurement
	said := fmt.Sprintf("The direction %s (%s to %s) was gauged at %s, and is sketched at %s: %s from it.",
		figure.Quoted(m.Name), m.From, m.To, figure.Quantity(m.Is, "deg"), figure.Quantity(f.Drawn, "deg"), figure.Quantity(math.Abs(f.Off), "deg"))
	for _, slip := range []struct {
		turn float64
		says string
	}{
		{half, " From the other end it is %s: if it was read so, write that, or exchange from and to."},
		{quarter, " If it was told from plumb, it is %s from level: write that."},
	} {
		if math.Abs(math.Abs(f.Off)-slip.turn) <= near {
			said += fmt.Sprintf(slip.says, figure.Quantity(m.Is-math.Copysign(slip.turn, f.Off), "deg"))
		}
	}
	return said + " Or was it told clockwise, or is it sketched wrong? Set that right before anything else."
}

// farPlacesSay tells the places that lie far from where they are sketched;
// empty where none does.
func farPlacesSay(s *survey.Survey) string {
	if len(s.FarPlaces) == 0 {
		return ""
	}
	said := figure.FirstOf(len(s.FarPlaces), mostPlaces, func(i int) string {
		return s.FarPlaces[i].Name + " " + figure.Small(s.FarPlaces[i].Moved, s.Run.Units)
	})
	return fmt.Sprintf("Far from where they are sketched, with a sketch that is out by %s (one standard deviation): %s. Look at what was measured there; or sketch nearer to the truth.",
		figure.Given(s.Run.Sketch, s.Run.Units), figure.List(said))
}

// mirrorSays tells that places sketched in line lie aside of it, on a side
// that nothing tells.
func mirrorSays(s *survey.Survey) string {
	names := figure.FirstOf(len(s.Mirrored), mostPlaces, func(i int) string {
		m := &s.Mirrored[i]
		return fmt.Sprintf("%s (as well at [%s, %s])", m.Name, figure.FineNumber(m.At.X, s.Run.Units), figure.FineNumber(m.At.Y, s.Run.Units))
	})
	return "Sketched in line, and measured not to be; on which side, nothing tells: " + figure.List(names) + ". Sketch it on the side where it lies."
}

// looseSays tells a place that the measurements leave open, and what would tie
// it.
func looseSays(s *survey.Survey, p *survey.Point) string {
	var ways []string
	for axis, words := range []string{"sideways", "up and down", "in and out"} {
		if s.OpenAxes(p)[axis] {
			ways = append(ways, words)
		}
	}
	said := fmt.Sprintf("Nothing ties %s %s", p.Name, strings.Join(ways, " or "))
	if to := s.TapeTo(p.Place); to.OK {
		return said + fmt.Sprintf(": tape it to %s.", to.To)
	}
	return said + "."
}

// uncheckedNames lists the measurements that no other checks.
func uncheckedNames(s *survey.Survey) []string {
	var names []string
	for _, m := range s.Measurements {
		if m.Standardized == nil {
			names = append(names, figure.Quoted(m.Measurement.Name))
		}
	}
	return names
}
