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

// doubtful returns the measurement that disagrees too much; nil where none does.
func doubtful(s *solve.Survey) *solve.SurveyedMeasurement {
	for i := range s.Measurements {
		if s.Measurements[i].Doubtful {
			return &s.Measurements[i]
		}
	}
	return nil
}

// inDoubt tells in a clause why a survey doesn't settle all that it is about;
// empty where it does, and where there is none.
func inDoubt(s *solve.Survey) string {
	if s == nil {
		return ""
	}
	return doubtBy(s, looselyTied(s), s.NeedsDirection)
}

// AllInDoubt tells in a clause why nothing that is told of a run on a survey is
// sure; empty where that isn't so: also where nothing hangs on the places that the
// survey leaves open, or some of the requirements don't, and each tells its own.
func AllInDoubt(r *solve.Result) string {
	if r.Survey == nil {
		return ""
	}
	if slices.ContainsFunc(r.Requirements, func(j solve.Judgement) bool { return j.Untied != nil && !*j.Untied }) {
		return doubtBy(r.Survey, nil, false)
	}
	open := slices.DeleteFunc(looselyTied(r.Survey), func(p *solve.SurveyedPoint) bool { return p.Idle })
	return doubtBy(r.Survey, open, r.Survey.NeedsDirection)
}

// doubtBy tells in a clause what puts a survey in doubt, with some places that it
// leaves open, and the direction of the whole where it does.
func doubtBy(s *solve.Survey, open []*solve.SurveyedPoint, direction bool) string {
	switch m := doubtful(s); {
	case len(s.FarGauges) > 0:
		return figure.Quoted(s.FarGauges[0].Measurement.Name) + " was gauged far from the direction in which it is sketched"
	case m != nil:
		return figure.Quoted(m.Measurement.Name) + " disagrees with " + theRest(s)
	case len(open) == 1:
		return "nothing measured ties " + open[0].Name
	case len(open) > 1:
		return fmt.Sprintf("nothing measured ties %d of the places", len(open))
	case direction:
		return "nothing measured tells how the whole lies"
	case s.Mirror:
		return "the mirror image fits as well"
	}
	return ""
}

// looselyTied returns the places that the measurements leave open, but for the
// direction of the whole, which is told once.
func looselyTied(s *solve.Survey) []*solve.SurveyedPoint {
	var open []*solve.SurveyedPoint
	for i := range s.Points {
		if p := &s.Points[i]; openAxes(s, p) != [3]bool{} {
			open = append(open, p)
		}
	}
	return open
}

// openAxes tells which coordinates of a place the measurements leave open, the
// whole kept from turning.
func openAxes(s *solve.Survey, p *solve.SurveyedPoint) [3]bool {
	if s.NeedsDirection {
		return p.Untied
	}
	return p.Undetermined
}

// reportDoubts tells what is wrong with the measurements: a doubtful one, what
// they leave open, and what none of them checks.
func reportDoubts(p *page, s *solve.Survey) {
	said := doubtsSay(s)
	if s.NeedsDirection {
		said = append(said, "Nothing measured tells how the whole lies, and no tape can: gauge one line, or make a second place exact.")
	}
	if nothingExact(s) {
		said = append(said, fmt.Sprintf("No place is exact, so nothing tells where the whole lies but the sketch, to within %s, and every ± has that in it: make the place that all is told from exact (exact = true).", figure.Length(deviations*s.Run.Sketch, s.Run.Units)))
	}
	open := looselyTied(s)
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
	if len(said) == 0 {
		return
	}
	p.line("LOOK AT")
	for _, words := range said {
		p.text("  ", "    ", words)
	}
	p.blank()
}

// doubtsSay tells what puts a survey in doubt, beyond what it leaves open.
func doubtsSay(s *solve.Survey) []string {
	var said []string
	for i := range s.FarGauges {
		said = append(said, farGaugeSays(s, &s.FarGauges[i]))
	}
	if m := doubtful(s); m != nil {
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
func doubtfulSays(s *solve.Survey, m *solve.SurveyedMeasurement) string {
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
		what, figure.Quoted(m.Measurement.Name), m.Measurement.From, m.Measurement.To, theRest(s), figure.Small(by, measurementUnit(s.Run, m.Measurement)), then)
	if others := asDoubtful(s, m); len(others) > 0 {
		said += fmt.Sprintf(" As doubtful, as nearly as can be told: %s.", figure.List(others))
	}
	if len(s.FarGauges) > 0 {
		return said
	}
	if n := disagreeWithout(s, m); n > 0 {
		said += fmt.Sprintf(" Without it %d of the others disagree still: more than one slipped, or something is sketched on the wrong side of a line or of another hole. Look at the sketch first.", n)
	}
	return said
}

const (
	// beyondChance is the standardized residual above which a measurement
	// disagrees: chance alone goes so far once in 370.
	beyondChance = 3
	// likeDoubtful is how near the largest another standardized residual must
	// come for either to be the one that slipped: chance moves them by as much.
	likeDoubtful = 0.5
)

// disagreeWithout counts the measurements that disagree with the rest once one
// is taken out: 0 where it was the only slip.
func disagreeWithout(s *solve.Survey, out *solve.SurveyedMeasurement) int {
	run := *s.Run
	run.Measurements = nil
	for i := range s.Measurements {
		if m := &s.Measurements[i]; m != out {
			run.Measurements = append(run.Measurements, m.Measurement)
		}
	}
	again, err := solve.NewSurvey(&run)
	if err != nil {
		return 0 // it is what holds all of them together: there is no telling
	}
	n := 0
	for i := range again.Measurements {
		if z := again.Measurements[i].Standardized; z != nil && math.Abs(*z) > beyondChance {
			n++
		}
	}
	return n
}

// asDoubtful names the others that could as well be the one that slipped.
func asDoubtful(s *solve.Survey, most *solve.SurveyedMeasurement) []string {
	var names []string
	for i := range s.Measurements {
		m := &s.Measurements[i]
		if m == most || m.Standardized == nil || most.Standardized == nil {
			continue
		}
		if z := math.Abs(*m.Standardized); z > beyondChance && z > math.Abs(*most.Standardized)-likeDoubtful {
			names = append(names, figure.Quoted(m.Measurement.Name))
		}
	}
	return names
}

// farGaugeSays tells a direction gauged far from the sketched one.
func farGaugeSays(s *solve.Survey, f *solve.FarGauge) string {
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
func farPlacesSay(s *solve.Survey) string {
	if len(s.FarPlaces) == 0 {
		return ""
	}
	said := figure.FirstOf(len(s.FarPlaces), mostPlaces, func(i int) string {
		return s.FarPlaces[i].Name + " " + figure.Small(s.FarPlaces[i].Moved, string(s.Run.Units))
	})
	return fmt.Sprintf("Far from where they are sketched, with a sketch that is out by %s (one standard deviation): %s. Look at what was measured there; or sketch nearer to the truth.",
		figure.Given(s.Run.Sketch, string(s.Run.Units)), figure.List(said))
}

// mirrorSays tells that places sketched in line lie aside of it, on a side
// that nothing tells.
func mirrorSays(s *solve.Survey) string {
	names := figure.FirstOf(len(s.Mirrored), mostPlaces, func(i int) string {
		m := &s.Mirrored[i]
		return fmt.Sprintf("%s (as well at [%s, %s])", m.Name, figure.FineNumber(m.At.X, string(s.Run.Units)), figure.FineNumber(m.At.Y, string(s.Run.Units)))
	})
	return "Sketched in line, and measured not to be; on which side, nothing tells: " + figure.List(names) + ". Sketch it on the side where it lies."
}

// nothingExact reports whether a sketched run has no place that all else is told
// from.
func nothingExact(s *solve.Survey) bool {
	for i := range s.Points {
		if s.Points[i].Exact {
			return false
		}
	}
	return s.Run.Sketch > 0 && len(s.Points) > 0
}

// looseSays tells a place that the measurements leave open, and what would tie
// it.
func looseSays(s *solve.Survey, p *solve.SurveyedPoint) string {
	var ways []string
	for axis, words := range []string{"sideways", "up and down", "in and out"} {
		if openAxes(s, p)[axis] {
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
func uncheckedNames(s *solve.Survey) []string {
	var names []string
	for _, m := range s.Measurements {
		if m.Standardized == nil {
			names = append(names, figure.Quoted(m.Measurement.Name))
		}
	}
	return names
}
