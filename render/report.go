// Package render puts results into words: sentences (says*.go), and the reports of
// the commands for a terminal (report*.go, *_report.go), also as passages for a page
// that lays them out itself (passages.go). It takes results as they come from package
// solve: it solves nothing, judges nothing and changes no run. Figures in text are
// package figure's; pictures, pages and results for machines are the packages beside
// it, which take their sentences from here.
package render

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// ReportOptions is what a report is told besides the results.
type ReportOptions struct {
	Hash    string // SHA-256 of the file, hexadecimal; printed shortened
	Version string // of the program
	Redrawn []Redrawn
	// Unused is what the measurements of a run without a sketch, which adjust
	// nothing, have to say about the drawing; may be nil.
	Unused *survey.Survey
}

// Redrawn is a rod without a length that settings from outside made another.
type Redrawn struct {
	Rod        string
	Filed, Now float64 // hole to hole
	Unit       linkage.Unit
}

// Report writes a result for the person at the bench: the verdict, each
// requirement, what the run does stop to stop, and what was covered, assumed
// and not checked. File is the name of the file as the user gave it. The error
// is the writer's.
func Report(w io.Writer, file string, r *solve.Result, opts ReportOptions) error {
	if err := r.Whole(); err != nil {
		return err
	}
	p := &page{}
	p.text("", "  ", figure.Clean(r.Run.Name))
	p.text("", "  ", Headline(r))
	reportUnderHeadline(p, r, opts)
	p.blank()
	reportRun(p, r)
	reportLimits(p, figure.Clean(file), r, opts)
	reportOrigin(p, opts)
	_, err := io.WriteString(w, p.String())
	return err
}

// reportRun tells each requirement of a run, what it does stop to stop and how it was read.
func reportRun(p *page, r *solve.Result) {
	reportRequirements(p, r)
	for _, c := range r.Run.Controls {
		reportControl(p, r, SweepsOf(r, c))
	}
	reportAll(p, r)
	if r.Rotor != nil {
		reportRotor(p, r, true)
		p.blank()
	}
	reportRead(p, r)
}

// reportUnderHeadline tells what is to be known beside the verdict.
func reportUnderHeadline(p *page, r *solve.Result, opts ReportOptions) {
	p.text("", "  ", Unsure(r))
	reportBeside(p, r, opts)
}

// reportBeside tells of it what is not about the verdict as a whole.
func reportBeside(p *page, r *solve.Result, opts ReportOptions) {
	for _, words := range besideSays(r, opts) {
		p.text("", "  ", words)
	}
}

// besideSays is what that is.
func besideSays(r *solve.Result, opts ReportOptions) []string {
	said := slices.Concat([]string{temperatureSays(r.Run)}, doubtsSays(r), SecondPathFaults(r))
	for _, rod := range opts.Redrawn {
		said = append(said, fmt.Sprintf("The rod %s is redrawn by --set: %s became %s.", rod.Rod, figure.Exact(rod.Filed, rod.Unit), figure.Exact(rod.Now, rod.Unit)))
	}
	said = append(said, sizeSays(r.Run))
	return slices.DeleteFunc(said, func(words string) bool { return words == "" })
}

// Headline is the verdict in a line, after what puts all of it in doubt.
func Headline(r *solve.Result) string {
	return afterDoubt(r, figure.Joined(" ", append([]string{verdictSays(r), NotJudgedSays(r), CyclicNotJudgedSays(r), skippedSays(r)}, JointsSay(r.Run)...)...))
}

// afterDoubt puts a verdict behind what puts all of it in doubt.
func afterDoubt(r *solve.Result, verdict string) string {
	if why := doubtSays(r.Survey, r.Doubt()); why != "" {
		return "THE SURVEY IS IN DOUBT: " + why + ", so nothing here is sure. " + verdict
	}
	return verdict
}

func verdictSays(r *solve.Result) string {
	all := len(r.Requirements)
	var short, open []string
	for i := range r.Requirements {
		j := &r.Requirements[i]
		switch j.Verdict {
		case solve.FallsShort:
			if j.Requirement.Kind == linkage.Stops { // all else is judged as far as it goes without
				short = slices.Insert(short, 0, RequirementTitle(r, j.Requirement))
				continue
			}
			short = append(short, RequirementTitle(r, j.Requirement))
		case solve.CannotTell:
			open = append(open, RequirementTitle(r, j.Requirement))
		}
	}
	if words, settings := contradicted(r), r.Settings(); len(words)+len(settings) > 0 {
		return unwrittenVerdict(words, settings, all, short, open)
	}
	switch {
	case all == 0:
		return "NOTHING WAS REQUIRED, so there is no verdict."
	case len(short) > 0:
		said := fmt.Sprintf("FALLS SHORT in %d of %s: %s.", len(short), figure.Count(all, "requirement"), figure.List(short))
		if len(open) > 0 {
			said += fmt.Sprintf(" Can't be judged: %s.", figure.List(open))
		}
		return said
	case len(open) > 0:
		return fmt.Sprintf("CAN'T BE JUDGED in %d of %s: %s.", len(open), figure.Count(all, "requirement"), figure.List(open))
	case all == 1:
		return "HOLDS: the one requirement, stop to stop."
	}
	return fmt.Sprintf("HOLDS: all %d requirements, stop to stop.", all)
}

// unwrittenVerdict is the verdict in a line of a run that falls short of what nobody has
// to write: words that the drawing contradicts, or how an end is set; with all that is
// required, and what of that falls short or can't be judged.
func unwrittenVerdict(words []string, settings []*solve.Judgement, all int, short, open []string) string {
	said := "FALLS SHORT"
	if len(words) > 0 {
		said += ": the drawing contradicts the words of " + figure.List(words)
	}
	if len(settings) > 0 {
		if len(words) > 0 {
			said += ", and it falls short"
		}
		said += " in the setting of " + figure.List(unfitEnds(settings))
	}
	if len(short) > 0 {
		said += fmt.Sprintf(", and in %d of %s: %s", len(short), figure.Count(all, "requirement"), figure.List(short))
	}
	said += "."
	switch {
	case all == 0:
		return said + " Nothing was required."
	case len(open) > 0:
		return said + fmt.Sprintf(" Can't be judged: %s.", figure.List(open))
	case len(short) == 0:
		return said + " Nothing required falls short."
	}
	return said
}

// title names a requirement: its kind, and its own name where it has one.
func title(req *linkage.Requirement) string {
	if req.Name == "" {
		return string(req.Kind)
	}
	return string(req.Kind) + " " + figure.Quoted(req.Name)
}

// RequirementTitle is title, with what a requirement without a name is of where the
// run has others of its kind, and in an aircraft the run whose it is.
func RequirementTitle(r *solve.Result, req *linkage.Requirement) (said string) {
	alike := 0
	for i := range r.Requirements {
		if other := r.Requirements[i].Requirement; other.Kind == req.Kind && other.Name == "" && other.In == req.In {
			alike++
		}
	}
	said = title(req)
	if r.Run.Aircraft != nil && req.In != nil {
		defer func() { said += " (" + req.In.Name + ")" }()
	}
	if req.Name != "" || alike < 2 {
		return said
	}
	var of []string
	for _, s := range req.Of {
		of = append(of, s.Name())
	}
	for _, p := range req.Places {
		of = append(of, p.Place.String())
	}
	switch req.Kind {
	case linkage.Clearance:
		of = []string{req.Between[0].String(), req.Between[1].String()}
	case linkage.Order:
		of = []string{req.First.Name, req.Then.Name}
	case linkage.Taut:
		of = []string{req.Pair.Name}
	case linkage.Meets:
		of = []string{req.Points[0].String(), req.Points[1].String()}
	}
	if len(of) > 0 {
		said += " of " + figure.List(of)
	}
	if req.Kind == linkage.Reading {
		said += " at " + figure.Exactly(req.At)
	}
	if req.Control != nil {
		said += " under " + req.Control.Name
	}
	return said
}

func reportRequirements(p *page, r *solve.Result) {
	judged := r.Judged()
	if len(judged) == 0 {
		return
	}
	p.line("REQUIRED")
	for _, j := range judged {
		mark := "holds"
		switch j.Verdict {
		case solve.FallsShort:
			mark = "SHORT"
		case solve.CannotTell:
			mark = "?    "
		}
		p.text("  "+mark+"  ", "         ", RequirementTitle(r, j.Requirement))
		p.text("         ", "         ", Says(r, j))
		p.text("         ", "         ", BandSays(r, j))
	}
	p.blank()
}

// SweepsOf is the sweeps of one control.
func SweepsOf(r *solve.Result, c *linkage.Control) []*solve.Sweep {
	var found []*solve.Sweep
	for _, s := range r.Sweeps {
		if s.Control == c {
			found = append(found, s)
		}
	}
	return found
}

// Caution stands on every report and every sheet.
const Caution = "It is arithmetic on a drawing and approves nothing: the designer's instructions, the local rules and a licensed inspector do. The last check is made on the aircraft, at the blade or surface, pins out, by a second person."

// reportLimits tells what the answer rests on, what it leaves out and what it
// is not.
func reportLimits(p *page, file string, r *solve.Result, opts ReportOptions) {
	p.line("WHAT THIS ANSWER IS")
	say := func(words string) { p.text("  ", "    ", words) }
	Scope(say, file, r, opts)
	say(Caution)
}

// Scope says what the answer rests on and what it leaves out.
func Scope(say func(words string), file string, r *solve.Result, opts ReportOptions) {
	say("Covered: " + covered(r) + ", as drawn in " + file + "; nothing beyond.")
	for _, note := range []string{SurveyNote(r.Survey), unusedNote(opts.Unused)} {
		if note != "" {
			say(note)
		}
	}
	play, never := ", no play", "play, flex"
	if r.Run.HasPlay() {
		play, never = ", no play but for how far it can be rocked, which is told by itself", "flex"
	}
	say("Assumed: " + Assumed(r) + play + ".")
	for _, words := range cablesAssume(r) {
		say(words)
	}
	if bands := BandsAssume(r); bands != "" {
		say(bands)
	}
	if unchecked := notChecked(r); unchecked != "" {
		say("Not checked, because the file doesn't require it: " + unchecked + ".")
	}
	for _, words := range notSwept(r) {
		say("Not checked: " + words + ".")
	}
	say("Never checked here: " + never + ", friction, wear, loads, clearance to anything not in the file, and the parts as they were made.")
}

// Assumed tells what the answer rests on.
func Assumed(r *solve.Result) string {
	if r.Survey != nil {
		return "rigid parts, exactly as the survey adjusts the drawing, rods at the lengths given" + cablesAssumed(r)
	}
	return "rigid parts, exactly as drawn, rods at the lengths given" + cablesAssumed(r)
}

// covered tells from which controls to which outputs the answer reaches.
func covered(r *solve.Result) string {
	var from, to []string
	for _, c := range r.Run.Controls {
		from = append(from, fmt.Sprintf("%s (%s)", c.Name, c.Of.Name))
	}
	for _, o := range r.Run.Outputs {
		of := ""
		switch {
		case o.Part != nil:
			of = o.Part.Name
		case o.Point != nil:
			of = o.Point.String()
		}
		to = append(to, fmt.Sprintf("%s (%s)", o.Name, of))
	}
	if len(to) == 0 {
		to = []string{"the parts told above"}
	}
	return "from " + figure.List(from) + " to " + figure.List(to)
}

// notChecked tells in words the kinds that the run doesn't require.
func notChecked(r *solve.Result) string {
	words := map[linkage.Kind]string{
		linkage.Sense:        "which way things move (sense)",
		linkage.Travel:       "how far the outputs go (travel)",
		linkage.Stops:        "that stops end the travel (stops)",
		linkage.OverCenter:   "how far on center is (over-center)",
		linkage.RodAngle:     "how flat the rods get (rod-angle)",
		linkage.Misalignment: "the tilt of the rod ends (misalignment)",
		linkage.Clearance:    "the room between metal (clearance)",
		linkage.Engagement:   "how much thread " + threadsOf(r.Run) + " have to spare (engagement)",
		linkage.SecondPath:   "how second paths fit (second-path)",
		linkage.Taut:         "that the cables stay taut (taut)",
		linkage.FreePlay:     "how far the joints let it be rocked (free-play)",
	}
	var said []string
	for _, kind := range r.NotChecked {
		said = append(said, words[kind])
	}
	return figure.List(said)
}

// notSwept tells, of a run with several controls, what is swept with another
// control at neutral alone, because the file doesn't say where else it stands.
func notSwept(r *solve.Result) []string {
	var said []string
	run := r.Run
	for _, c := range run.Controls {
		if c.HeldSpan != c.Span || c.In != nil { // in an aircraft it stands at the ends of its travel too
			continue
		}
		if slices.ContainsFunc(r.Sweeps, func(s *solve.Sweep) bool { return s.Control == c && s.TurnsRotor() }) {
			continue // it is swept at all their settings, all the way round
		}
		var others []string
		for _, other := range run.Controls {
			if other != c {
				others = append(others, other.Name)
			}
		}
		if len(others) > 0 {
			said = append(said, fmt.Sprintf("%s with %s anywhere but at neutral (give %s held = [...])", figure.List(others), c.Name, c.Name))
		}
	}
	return said
}

// reportOrigin tells by which file and program a report was made, as the sheet
// does.
func reportOrigin(p *page, opts ReportOptions) {
	var said []string
	if hash := figure.HashBegins(opts.Hash); hash != "" {
		said = append(said, "File, SHA-256 begins "+hash)
	}
	if opts.Version != "" {
		said = append(said, "fullfree "+figure.Clean(opts.Version))
	}
	if len(said) > 0 {
		p.text("  ", "    ", strings.Join(said, "; ")+".")
	}
}
