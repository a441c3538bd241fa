package render

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// failRules are by what rule a case is of a severity.
var failRules = []struct {
	severity solve.Severity
	says     string
}{
	{solve.Dangerous, "1: a control jams, is reversed, or can go over center where it couldn't"},
	{solve.Lost, "2: something is lost: an output, or a part under a hand or foot, that follows no more"},
	{solve.Reduced, "3: reduced: an output reaches less than 99% of what it reaches as filed (a mark of this tool's own, no source)"},
	{solve.NoEffect, "4: none of these"},
}

// failRule tells the rule of the severities that there are.
func failRule(f *solve.Failures) string {
	var said []string
	for _, rule := range failRules {
		if slices.ContainsFunc(f.Cases, func(c solve.Failure) bool { return c.Severity == rule.severity }) {
			said = append(said, rule.says)
		}
	}
	return "(" + strings.Join(said, "; ") + ".)"
}

// elementWidth is how wide the names of elements stand in the table; wider ones
// have a line of their own.
const elementWidth = 30

// FailReport writes what is left when each element of a run goes, worst first.
// File is the name of the file as the user gave it; survey is what the drawing
// was adjusted by, or nil. The error is the writer's.
func FailReport(w io.Writer, file string, survey *survey.Survey, f *solve.Failures) error {
	p := &page{}
	p.text("", "  ", figure.Clean(f.Run.Name))
	p.text("", "  ", failHeadline(f))
	p.text("", "  ", failLeftOut(f))
	reportThreadFaults(p, f.Run)
	p.blank()
	reportFailTable(p, f)
	p.line("CASE BY CASE")
	for i := range f.Cases {
		c := &f.Cases[i]
		p.text("  ", "    ", ElementName(c.Element)+" "+string(c.How)+":")
		p.text("    ", "    ", FailSays(f, c))
	}
	p.blank()
	if len(f.Shared) > 0 {
		p.line("WHAT BOTH PATHS SHARE")
		for _, path := range f.Shared {
			p.text("  ", "    ", sharedSays(path))
		}
		p.text("  ", "    ", "A part that seizes is no better for a second path: the control that moves it is locked by either.")
		p.blank()
	}
	reportFailLimits(p, file, survey, f)
	_, err := io.WriteString(w, p.String())
	return err
}

// failLeftOut tells how many cases were not looked at; empty where all were.
func failLeftOut(f *solve.Failures) string {
	if f.LeftOut == 0 {
		return ""
	}
	return fmt.Sprintf("LEFT OUT, since this run is more than one answer has room for: the last %d of %s, in the order rods, cables, pivots and stops parted, then parts, rod ends and cables seized.",
		f.LeftOut, figure.Count(len(f.Cases)+f.LeftOut, "case"))
}

// failHeadline counts the cases.
func failHeadline(f *solve.Failures) string {
	counts := map[solve.Severity]int{}
	for i := range f.Cases {
		counts[f.Cases[i].Severity]++
	}
	said := []string{}
	for _, k := range []struct {
		severity  solve.Severity
		one, many string
	}{
		{solve.NotKnown, "can't be told", "can't be told"},
		{solve.Dangerous, "jams, reverses or lets run over center", "jam, reverse or let run over center"},
		{solve.Lost, "loses something", "lose something"},
		{solve.Reduced, "reduces something", "reduce something"},
		{solve.NoEffect, "does none of these", "do none of these"},
	} {
		switch n := counts[k.severity]; {
		case n == 1:
			said = append(said, "1 "+k.one)
		case n > 1:
			said = append(said, fmt.Sprintf("%d %s", n, k.many))
		}
	}
	return fmt.Sprintf("WHAT IS LEFT when one thing goes: of %s, %s.", figure.Count(len(f.Cases), "case"), figure.List(said))
}

// reportFailTable tells every case in a line or two.
func reportFailTable(p *page, f *solve.Failures) {
	p.line("WORST FIRST")
	p.text("  ", "  ", failRule(f))
	width := 0
	for i := range f.Cases {
		width = max(width, min(elementWidth, utf8.RuneCountInString(ElementName(f.Cases[i].Element))))
	}
	for i := range f.Cases {
		c := &f.Cases[i]
		name := ElementName(c.Element)
		first := "  " + severityFigure(c.Severity) + "  "
		rest := spaces(utf8.RuneCountInString(first) + 2)
		if n := utf8.RuneCountInString(name); n <= width {
			first += name + spaces(width-n)
		} else {
			p.text(first, rest, name)
			first = spaces(utf8.RuneCountInString(first) + width)
		}
		p.text(first+"  "+string(c.How)+"  ", spaces(utf8.RuneCountInString("  1  ")+width+len("  parted  ")), failInShort(f, c))
	}
	p.blank()
}

func severityFigure(s solve.Severity) string {
	if s == solve.NotKnown {
		return figure.Unknown
	}
	return fmt.Sprint(int(s))
}

// ElementName is an element as the file names it.
func ElementName(e solve.Element) string {
	kind, name := elementKind(e)
	return strings.TrimSpace(kind + " " + name)
}

// elementKind is what an element is, and its name in the file.
func elementKind(e solve.Element) (kind, name string) {
	switch {
	case e.Rod != nil && e.End != "":
		return "rod end", figure.Clean(e.Rod.Name) + "." + e.End
	case e.Rod != nil:
		return "rod", figure.Clean(e.Rod.Name)
	case e.Cable != nil:
		return "cable", figure.Clean(e.Cable.Name)
	case e.Joint != nil:
		return "joint", figure.Clean(e.Joint.Name)
	case e.Pivot != nil && e.Pivot.Motion == linkage.Tilts:
		return "ball of", figure.Clean(e.Pivot.Name)
	case e.Pivot != nil:
		return "pivot of", figure.Clean(e.Pivot.Name)
	case e.Stop != nil:
		return "stop", figure.Clean(e.Stop.Name)
	case e.Part != nil:
		return "part", figure.Clean(e.Part.Name)
	}
	return "", figure.Unknown
}

// reportFailLimits tells what the answer rests on, what it leaves out and what
// it is not.
func reportFailLimits(p *page, file string, survey *survey.Survey, f *solve.Failures) {
	result := &solve.Result{Run: f.Run, Survey: survey}
	p.line("WHAT THIS ANSWER IS")
	say := func(words string) { p.text("  ", "    ", words) }
	parted, seized := "every rod, pivot bolt and stop", "every part and rod end"
	if len(f.Run.Cables) > 0 {
		parted, seized = "every rod, cable, pivot bolt and stop", "every part and rod end and every core in its conduit"
	}
	say("Covered: " + covered(result) + ", as drawn in " + file + "; " + parted + " parted, " + seized + " seized, one at a time.")
	say(SurveyNote(survey))
	points := "wherever the file holds them"
	if f.AtNeutral {
		points = "so too"
	}
	say("Assumed: " + Assumed(result) + ", no play but a second path's own; what seizes does so at neutral; travels with the other controls at neutral, on-center points " + points + ". A control goes over center where its travel, to the first stop that holds it, ends on center or has a dead center inside: within its from and to and, where nothing stops it there any more, beyond; where it does so on that side as filed, that is nothing new. A part under a hand is a control's own, or one that opposite or together ties to it.")
	for _, k := range f.OnCenter {
		say(fmt.Sprintf("As filed %s is on center already in the travel of %s, at %s: that isn't counted again.", figure.Clean(k.Name()), figure.Clean(k.Control.Name), controlAt(f.Run, k.Control, k.At)))
	}
	say("Not checked: what the loose end does: where it falls, what it fouls or jams; a seizure in flight, away from neutral; two at once; welds, brackets, guides of sliding parts and what the file doesn't name; loads, so also whether a second path, or what is left, bears them.")
	say(Caution)
}

// controlAt tells where a control stands.
func controlAt(run *linkage.Run, c *linkage.Control, at float64) string {
	return ControlPosition(&solve.Sweep{Control: c, Unit: ControlUnit(run, c)}, at)
}
