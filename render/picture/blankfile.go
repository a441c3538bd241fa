package picture

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/linkage/outline"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve/survey"
)

// roughStep is what coordinates of a sketch are rounded to, lest they pass for data.
func roughStep(u linkage.Unit) float64 {
	if u == linkage.Inches {
		return 0.5
	}
	return 10
}

// What a blank file is written with.
const (
	roughAngle  = 10.0    // degrees that angles are rounded to
	datumName   = "datum" // the block of places that everything is told from
	datumFirst  = "shaft"
	datumSecond = "far-end"
	sameAxis    = 1e-9 // of the run's size: nearer counts as on the axis
)

// WithDatum returns the text of a run with a place of its own that all else is
// told from: its first pivot on the airframe, and in space another on the same
// axis. The run must have been read from that text, laid out as the demos are.
func WithDatum(run *linkage.Run) ([]byte, error) {
	if err := hasText(run); err != nil {
		return nil, err
	}
	// Both sides are taped, so both are written out.
	text, err := linkage.WrittenOut(run.Source)
	if err != nil {
		return nil, err
	}
	if run, err = linkage.Read(&linkage.Source{Name: run.Source.Name, Text: text}); err != nil {
		return nil, err
	}
	datum := datumOf(run)
	if len(datum) == 0 {
		return nil, errors.New("nothing pivots on the airframe, so there is nothing to measure from")
	}
	names := []string{datumFirst, datumSecond}[:len(datum)]
	var w splices
	for _, part := range run.Parts {
		if part.Motion != linkage.Turns || part.NamedPivot != nil {
			continue
		}
		for i, at := range datum {
			if part.Pivot == at {
				from, to, err := valueAfter(run.Source.Text, part.Span.End, "pivot")
				if err != nil {
					return nil, err
				}
				w.replace(from, to, datumName+"."+names[i])
			}
		}
	}
	var block strings.Builder
	block.WriteString("\n# Everything is told from here, so this is exact by choice; all else is as taped.\nfixed \"" + datumName + "\" {\n  exact  = true\n  points = { ")
	for i, at := range datum {
		if i > 0 {
			block.WriteString(", ")
		}
		block.WriteString(names[i] + " = " + vector(at, run.Units))
	}
	block.WriteString(" }\n}\n")
	end := strings.Index(string(run.Source.Text[run.Span.End:]), "\n}\n")
	if end < 0 {
		return nil, errors.New("the run block has no end of its own line")
	}
	at := run.Span.End + end + len("\n}\n")
	w.replace(at, at, block.String())
	return w.apply(run.Source.Text), nil
}

// datumOf returns the places that a run is best told from.
func datumOf(run *linkage.Run) []linkage.Vec {
	for _, part := range run.Parts {
		if part.Motion != linkage.Turns || part.NamedPivot != nil {
			continue
		}
		first := part.Pivot
		if run.Plane {
			return []linkage.Vec{first}
		}
		near := float64(sameAxis * run.Size())
		onAxis := func(p linkage.Vec) float64 { // how far along; 0: not on it
			along := p.Sub(first).Dot(part.Axis)
			if p.Sub(first).Sub(part.Axis.Scale(along)).Norm() > near || math.Abs(along) <= near {
				return 0
			}
			return along
		}
		far := 0.0
		for _, other := range run.Parts {
			if along := onAxis(other.Pivot); other.Motion == linkage.Turns && other.Carrier == nil && math.Abs(along) > math.Abs(far) {
				far = along
			}
		}
		if far == 0 {
			for _, p := range part.Points {
				if along := p.At.Sub(first).Dot(part.Axis); math.Abs(along) > math.Abs(far)+near {
					far = along
				}
			}
		}
		if far == 0 {
			return []linkage.Vec{first}
		}
		return []linkage.Vec{first, first.Add(part.Axis.Scale(far))}
	}
	return nil
}

// BlankFile returns the text of a run with its coordinates made rough and a
// block for each planned measurement, to be filled in. Rods are left without a
// length: each is as long as it sat when it was taped. The run must have been
// read from that text, laid out as the demos are.
func BlankFile(run *linkage.Run, plan []survey.Planned) ([]byte, error) {
	if err := hasText(run); err != nil {
		return nil, err
	}
	text := run.Source.Text
	var w splices
	if err := saySketched(&w, run); err != nil {
		return nil, err
	}
	for _, rod := range run.Rods {
		if rod.LengthGiven {
			if err := leaveOut(&w, text, rod.Span.End, "length"); err != nil {
				return nil, err
			}
		}
	}
	for _, part := range run.Parts {
		if part.Exact {
			continue
		}
		if err := roughenPart(&w, run, part, roughStep(run.Units)); err != nil {
			return nil, err
		}
	}
	addBlanks(&w, run, plan)
	return w.apply(text), nil
}

// WithBlanks returns the text of a run of one's own as a sketch, with a block for each
// planned measurement, to be filled in; its coordinates and rods stay as they are.
func WithBlanks(run *linkage.Run, plan []survey.Planned) ([]byte, error) {
	if err := hasText(run); err != nil {
		return nil, err
	}
	var w splices
	if run.Sketch == 0 {
		if err := saySketched(&w, run); err != nil {
			return nil, err
		}
	}
	addBlanks(&w, run, plan)
	return w.apply(run.Source.Text), nil
}

// saySketched writes that the coordinates come from a sketch.
func saySketched(w *splices, run *linkage.Run) error {
	text := run.Source.Text
	_, end, err := valueAfter(text, run.Span.End, "units")
	if err != nil {
		return err
	}
	end += max(0, strings.Index(string(text[end:]), "\n"))
	sketch := outline.Roughly(run.Units)
	w.replace(end, end, fmt.Sprintf("\n  sketch  = %-6s # the coordinates are from a sketch, and may be out by so much", sketch))
	return nil
}

// addBlanks writes the blocks of what is to be measured at the end.
func addBlanks(w *splices, run *linkage.Run, plan []survey.Planned) {
	var blocks strings.Builder
	blocks.WriteString("\n# To be measured at neutral, rig pins in, hole center to hole center; the letters are\n# those of the page. Write each figure in place of the word blank. What can't be\n# reached: take its block out, and see what \"fullfree survey\" says of it.\n# within is what a tape and a level read to with care (" + render.NoSource + "): write\n# what yours do.\n")
	letters := Letters(run)
	for _, m := range plan {
		blocks.WriteString(blankBlock(m, letters, run.Units))
	}
	end := len(run.Source.Text)
	w.replace(end, end, blocks.String())
}

func blankBlock(m survey.Planned, letters map[string]string, unit linkage.Unit) string {
	note := ""
	if m.Check {
		note = "   # checks others: a slip of the tape shows"
	}
	if m.Kind == linkage.Gauged {
		note = "   # degrees anticlockwise from level: " + Expected(m)
	}
	return fmt.Sprintf("%s %q {\n  from   = %s\n  to     = %s\n  is     = blank%s\n  within = %s\n}\n",
		m.Kind, plannedName(m, letters), m.From, m.To, note, outline.UsualWithin(m.Kind, unit))
}

// plannedName names a planned measurement by its letters.
func plannedName(m survey.Planned, letters map[string]string) string {
	name := letters[m.From.String()] + " to " + letters[m.To.String()]
	if m.Kind == linkage.Gauged {
		return name + ", level"
	}
	return name
}

// Letters letters the points and pivots of a run: A to Z, then AA and so on.
func Letters(run *linkage.Run) map[string]string {
	letters := map[string]string{}
	for i, place := range survey.Places(run) {
		letters[place.String()] = figure.Letter(i)
	}
	return letters
}

// roughenPart rounds the places of a part.
func roughenPart(w *splices, run *linkage.Run, part *linkage.Part, step float64) error {
	text := run.Source.Text
	round := func(v linkage.Vec) linkage.Vec {
		to := func(x float64) float64 { return float64(math.Round(x/step) * step) }
		if run.Plane {
			return linkage.Vec{X: to(v.X), Y: to(v.Y), Z: v.Z}
		}
		return linkage.Vec{X: to(v.X), Y: to(v.Y), Z: to(v.Z)}
	}
	if part.Motion == linkage.Turns && part.NamedPivot == nil {
		from, to, err := valueAfter(text, part.Span.End, "pivot")
		if err != nil {
			return err
		}
		w.replace(from, to, vector(round(part.Pivot), run.Units))
	}
	for _, p := range part.Points {
		from, to, err := valueAfter(text, p.Span.Start, p.Name)
		if err != nil {
			return err
		}
		switch arm := p.At.Sub(part.Pivot); {
		case strings.HasPrefix(string(text[from:to]), "polar") && !strings.Contains(string(text[from:to]), `"`):
			long := math.Max(step, math.Round(arm.Norm()/step)*step)
			angle := float64(math.Round(elementary.Atan2(arm.Y, arm.X)*180/math.Pi/roughAngle) * roughAngle)
			w.replace(from, to, fmt.Sprintf("polar(%s, %s)", coordinate(long, run.Units), coordinate(angle, linkage.Millimeters)))
		case p.Arm:
			w.replace(from, to, vector(round(arm), run.Units))
		default:
			w.replace(from, to, vector(round(p.At), run.Units))
		}
	}
	return nil
}

// vector writes a place as a file does.
func vector(v linkage.Vec, u linkage.Unit) string {
	said := "[" + coordinate(v.X, u) + ", " + coordinate(v.Y, u)
	if v.Z != 0 {
		said += ", " + coordinate(v.Z, u)
	}
	return said + "]"
}

// coordinate writes a number as a file does: inches as a whole and a fraction.
func coordinate(v float64, u linkage.Unit) string {
	if u != linkage.Inches {
		return figure.Given(v, "")
	}
	size := figure.InchNumber(math.Abs(v))
	whole, part, mixed := strings.Cut(size, " ")
	if mixed {
		size = whole + " + " + part
	}
	switch {
	case v >= 0 || size == "0":
		return size
	case mixed:
		return "-(" + size + ")"
	}
	return "-" + size
}

// value is what may stand behind an attribute's or a point's equals sign here:
// a list, polar(...) with one level of brackets inside, or a word in quotes.
var value = regexp.MustCompile(`^\s*=\s*(\[[^\]]*\]|polar\((?:[^()]|\([^()]*\))*\)|"[^"]*")`)

// valueAfter returns where the value of a name is written, looking from a
// place of the text on.
func valueAfter(text []byte, from int, name string) (start, end int, err error) {
	found := regexp.MustCompile(`(^|[\s{])` + regexp.QuoteMeta(name) + `\s*=`).FindIndex(text[max(from-1, 0):])
	if found != nil {
		at := max(from-1, 0) + found[1] - 1
		if m := value.FindSubmatchIndex(text[at:]); m != nil {
			return at + m[2], at + m[3], nil
		}
	}
	return 0, 0, fmt.Errorf("%s isn't written as a blank file can be made of", figure.Clean(name))
}

// leaveOut takes the line of an attribute out of a block, looking from a place
// of the text on.
func leaveOut(w *splices, text []byte, from int, name string) error {
	found := regexp.MustCompile(`(?m)^[ \t]*` + regexp.QuoteMeta(name) + `[ \t]*=.*\n`).FindIndex(text[from:])
	if end := strings.Index(string(text[from:]), "\n}"); found == nil || end < found[0] {
		return fmt.Errorf("%s isn't written as a blank file can be made of", figure.Clean(name))
	}
	w.replace(from+found[0], from+found[1], "")
	return nil
}

// splices are stretches of a text to be replaced.
type splices []splice

type splice struct {
	from, to int
	by       string
}

func (w *splices) replace(from, to int, by string) { *w = append(*w, splice{from, to, by}) }

// apply returns the text with all replaced.
func (w splices) apply(text []byte) []byte {
	slices.SortStableFunc(w, func(a, b splice) int { return cmp.Compare(a.from, b.from) })
	var out []byte
	at := 0
	for _, s := range w {
		out = append(append(out, text[at:s.from]...), s.by...)
		at = s.to
	}
	return append(out, text[at:]...)
}

// hasText says that a run has no text to be changed, since it was not read from one.
func hasText(run *linkage.Run) error {
	if run == nil || run.Source == nil || run.Span.Line == 0 {
		return errors.New("the run was not read from a file, so there is no text to write into")
	}
	return nil
}
