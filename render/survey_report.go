package render

import (
	"fmt"
	"io"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve/survey"
)

// deviations is how many standard deviations a told uncertainty is: 19 of 20
// errors are smaller.
const deviations = 2

// mostPlaces is how many places that nothing ties are told one by one.
const mostPlaces = 12

// SurveyReport writes a survey for the person with the tape: what to measure
// again, what nothing ties, each measurement and each place with how sure it
// is, and what to measure next. File is the name of the file as the user gave
// it. The error is the writer's.
func SurveyReport(w io.Writer, file string, s *survey.Survey) error {
	p := &page{}
	p.text("", "  ", figure.Clean(s.Run.Name))
	p.text("", "  ", SurveyHeadline(s))
	reportThreadFaults(p, s.Run)
	p.blank()
	reportDoubts(p, s)
	reportMeasurements(p, s)
	reportPlaces(p, s)
	if s.Next.OK && s.Run.Sketch > 0 {
		p.line("NEXT")
		p.text("  ", "  ", nextSaysMore(s))
		p.blank()
	}
	reportSurveyLimits(p, figure.Clean(file), s)
	_, err := io.WriteString(w, p.String())
	return err
}

// SurveyHeadline is what matters most, in a line.
func SurveyHeadline(s *survey.Survey) string {
	all := figure.Count(len(s.Measurements), "measurement")
	switch m := s.Doubtful(); {
	case len(s.FarGauges) > 0:
		return "LOOK AGAIN: " + figure.Quoted(s.FarGauges[0].Measurement.Name) + " was gauged far from the direction in which it is sketched."
	case m != nil:
		return "MEASURE AGAIN: " + figure.Quoted(m.Measurement.Name) + " disagrees with " + theRest(s) + "."
	case len(s.Measurements) == 0:
		return "NOTHING IS MEASURED: the drawing is as the file has it."
	case s.Run.Sketch == 0:
		return fmt.Sprintf("AGREE: %s, and none disagrees with the drawing more than it may.", all)
	case s.NeedsDirection && len(s.Open()) == 0:
		return fmt.Sprintf("NOT ALL IS TIED: %s, and none that tells how the whole lies.", all)
	case len(s.Undetermined) > 0:
		return fmt.Sprintf("NOT ALL IS TIED: %s, and %s that they leave open.", all, figure.Count(len(s.Open()), "place"))
	case len(s.FarPlaces) > 0:
		return fmt.Sprintf("LOOK AGAIN: %s, and %s far from where the sketch has it.", all, figure.Count(len(s.FarPlaces), "place"))
	case s.Mirror:
		return fmt.Sprintf("TWO DRAWINGS FIT: %s, and the sketch doesn't tell which side is meant.", all)
	case s.DegreesOfFreedom == 0:
		return fmt.Sprintf("NOTHING CHECKS: %s, just as many as it takes, so a slip of the tape would not show.", all)
	}
	return fmt.Sprintf("AGREE: %s, %d more than it takes, and none disagrees with the rest more than it may.", all, s.DegreesOfFreedom)
}

// theRest is what a measurement is compared with.
func theRest(s *survey.Survey) string {
	if s.Run.Sketch == 0 {
		return "the drawing"
	}
	return "the rest"
}

func reportMeasurements(p *page, s *survey.Survey) {
	if len(s.Measurements) == 0 {
		return
	}
	t := table{head: []string{"measured", "", "is", "fits", "off", "disagrees", "sigmas"}}
	for _, m := range s.Measurements {
		unit := m.Measurement.Kind.Unit(s.Run.Units)
		cells := []string{m.Measurement.Name, string(unit), fineOrExact(m.Measurement.Is, unit), fineOrExact(m.Adjusted, unit), figure.FineNumber(m.Residual, unit), "-", "-"}
		cells[0] = figure.Clean(cells[0])
		if m.Standardized != nil {
			cells[5], cells[6] = figure.FineNumber(*m.Misclosure, unit), figure.Decimal(*m.Standardized, 1)
		}
		t.add(cells...)
	}
	t.write(p, "  ")
	p.text("  ", "  ", "(fits: what the adjusted drawing has; off: what was read less that, the residual; disagrees: with all the others together, the misclosure; sigmas: off by its standard deviation; -: nothing checks it)")
	p.blank()
}

// fineOrExact is a number of a survey in a cell: a length in inches as it would be set.
func fineOrExact(v float64, unit linkage.Unit) string {
	if unit == linkage.Inches {
		return figure.ExactNumber(v, unit)
	}
	return figure.FineNumber(v, unit)
}

// reportPlaces tells where everything is, and how sure that is.
func reportPlaces(p *page, s *survey.Survey) {
	unit := s.Run.Units
	t := table{head: []string{"place", "", "x", "±", "y", "±"}}
	space := false
	for i := range s.Points {
		space = space || !s.Points[i].PlaneOnly
	}
	if space {
		t.head = append(t.head, "z", "±")
	}
	t.head = append(t.head, "moved")
	for i := range s.Points {
		point := &s.Points[i]
		cells := []string{point.Name, string(unit)}
		at, sigma := axesOf(point.At), axesOf(point.Sigma)
		for axis := range len(t.head)/2 - 1 {
			sure := "exact"
			switch {
			case point.Undetermined[axis]:
				sure = "open"
			case !point.Exact && s.Run.Sketch > 0:
				sure = figure.FineNumber(deviations*sigma[axis], unit)
			}
			cells = append(cells, fineOrExact(at[axis], unit), sure)
		}
		t.add(append(cells, figure.FineNumber(point.At.Sub(point.Drawn).Norm(), unit))...)
	}
	t.write(p, "  ")
	if s.Run.Sketch > 0 {
		p.text("  ", "  ", `(±: two standard deviations: 19 of 20 lie within, if the measurements are as good as their "within" says; moved: from the sketch; open: nothing ties it)`)
	}
	p.blank()
}

func axesOf(v linkage.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

// TapeSays tells a further distance to tape, or direction to gauge.
func TapeSays(next survey.Suggestion) string {
	do := "tape"
	if next.Kind == linkage.Gauged {
		do = "gauge"
	}
	return fmt.Sprintf("%s %s to %s", do, next.From, next.To)
}

// nextSaysMore tells which further distance would help most, and with what.
func nextSaysMore(s *survey.Survey) string {
	said := "What would help most: " + TapeSays(s.Next)
	switch {
	case s.Next.Settles > 0:
		return said + fmt.Sprintf("; it ties %s.", figure.Count(s.Next.Settles, "more coordinate"))
	case s.Next.Removes > 0:
		const percent = 100
		return said + fmt.Sprintf("; it takes %s%% off the sum of all variances.", figure.Decimal(math.Max(1, math.Round(s.Next.Removes*percent)), 0))
	}
	return said + "."
}

func reportSurveyLimits(p *page, file string, s *survey.Survey) {
	p.line("WHAT THIS ANSWER IS")
	say := func(words string) { p.text("  ", "    ", words) }
	say("Covered: the holes and pivots named in " + file + ", in the one position in which they were measured; metal (rounds, edges) and stops are taken as written.")
	if s.Run.Sketch > 0 {
		say(fmt.Sprintf("Assumed: rigid parts; a sketch that is out by no more than about %s; measurements as good as their \"within\" says.", figure.Length(deviations*s.Run.Sketch, s.Run.Units)))
	} else {
		say("Assumed: rigid parts, exactly as drawn: the file has no sketch, so no coordinate is adjusted, and only how the measurements agree with the drawing is told.")
	}
	say("Not checked: whether it moves as it should, which \"fullfree check\" tells of the adjusted drawing.")
	say(Caution)
}

// NotSurveyedSays names the runs of an aircraft in which nothing is sketched or taped, in
// a line; empty where there is none.
func NotSurveyedSays(runs []string) string {
	if len(runs) == 0 {
		return ""
	}
	p := &page{}
	p.text("", "  ", "Nothing is sketched or taped in "+figure.List(runs)+".")
	return p.String()
}
