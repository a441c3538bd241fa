package render

import (
	"fmt"
	"io"

	"fullfree/linkage"
	"fullfree/solve"
)

// Report writes a result for the person at the bench: the verdict, each
// requirement, what the run does stop to stop, and what was covered, assumed
// and not checked. File is the name of the file as the user gave it. The error
// is the writer's.
func Report(w io.Writer, file string, r *solve.Result) error {
	p := &page{}
	p.text("", "  ", clean(r.Run.Name))
	p.text("", "  ", Headline(r))
	p.blank()
	reportRequirements(p, r)
	for _, c := range r.Run.Controls {
		reportControl(p, r, sweepsOf(r, c))
	}
	reportAll(p, r)
	reportLimits(p, clean(file), r)
	_, err := io.WriteString(w, p.String())
	return err
}

// Headline is the verdict in a line.
func Headline(r *solve.Result) string {
	all := len(r.Requirements)
	var short, open []string
	for i := range r.Requirements {
		j := &r.Requirements[i]
		switch j.Verdict {
		case solve.FallsShort:
			short = append(short, title(j.Requirement))
		case solve.CannotTell:
			open = append(open, title(j.Requirement))
		}
	}
	switch {
	case all == 0:
		return "NOTHING WAS REQUIRED, so there is no verdict."
	case len(short) > 0:
		said := fmt.Sprintf("FALLS SHORT in %d of %s: %s.", len(short), count(all, "requirement"), list(short))
		if len(open) > 0 {
			said += fmt.Sprintf(" Can't be judged: %s.", list(open))
		}
		return said
	case len(open) > 0:
		return fmt.Sprintf("CAN'T BE JUDGED in %d of %s: %s.", len(open), count(all, "requirement"), list(open))
	case all == 1:
		return "HOLDS: the one requirement, stop to stop."
	}
	return fmt.Sprintf("HOLDS: all %d requirements, stop to stop.", all)
}

// title names a requirement: its kind, and its own name where it has one.
func title(req *linkage.Requirement) string {
	if req.Name == "" {
		return string(req.Kind)
	}
	return string(req.Kind) + " " + quoted(req.Name)
}

func reportRequirements(p *page, r *solve.Result) {
	if len(r.Requirements) == 0 {
		return
	}
	p.line("REQUIRED")
	for i := range r.Requirements {
		j := &r.Requirements[i]
		mark := "holds"
		switch j.Verdict {
		case solve.FallsShort:
			mark = "SHORT"
		case solve.CannotTell:
			mark = "?    "
		}
		p.text("  "+mark+"  ", "         ", title(j.Requirement))
		p.text("         ", "         ", Says(r, j))
	}
	p.blank()
}

// sweepsOf is the sweeps of one control.
func sweepsOf(r *solve.Result, c *linkage.Control) []*solve.Sweep {
	var found []*solve.Sweep
	for _, s := range r.Sweeps {
		if s.Control == c {
			found = append(found, s)
		}
	}
	return found
}

// reportLimits tells what the answer rests on, what it leaves out and what it
// is not.
func reportLimits(p *page, file string, r *solve.Result) {
	p.line("WHAT THIS ANSWER IS")
	say := func(words string) { p.text("  ", "    ", words) }
	say("Covered: " + covered(r) + ", as drawn in " + file + "; nothing beyond.")
	say("Assumed: rigid parts, exactly as drawn, rods at the lengths given, no play.")
	if unchecked := notChecked(r); unchecked != "" {
		say("Not checked, because the file doesn't require it: " + unchecked + ".")
	}
	say("Never checked here: play, flex, friction, wear, loads, clearance to anything not in the file, and the parts as they were made.")
	say("It is arithmetic on a drawing and approves nothing: the designer's instructions, the local rules and a licensed inspector do. The last check is made on the aircraft, at the blade or surface, pins out, by a second person.")
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
	return "from " + list(from) + " to " + list(to)
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
	}
	var said []string
	for _, kind := range r.NotChecked {
		said = append(said, words[kind])
	}
	return list(said)
}

// count tells how many of something there are.
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
