package render

import (
	"fmt"
	"io"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// RecheckOptions is what a report of a change is told besides the comparison.
type RecheckOptions struct {
	OldFile, NewFile string   // as the user named them
	OldHash, NewHash string   // SHA-256, hexadecimal
	OldRuns, NewRuns []FileOf // the files of the runs of an aircraft; none of a run
	Date             string   // of the old file, of an aircraft the latest of its files; empty: not known
	Full             bool     // every figure then and now, and why each line is void
}

// mostChanges is how many changes the short report names; the others are counted.
const mostChanges = 5

// RecheckReport writes what a change makes void: what is to be done again first. The error
// is the writer's, or that of a comparison of nothing.
func RecheckReport(w io.Writer, c *recheck.Comparison, opts RecheckOptions) error {
	if err := WholeComparison(c); err != nil {
		return err
	}
	p := &page{}
	p.text("", "  ", figure.Clean(c.New.Result.Run.Name))
	p.text("", "  ", recheckHeadline(c, opts))
	p.text("", "  ", "Compared with "+OldSays(opts.OldFile, opts.Date, opts.OldHash)+".")
	if old, now := c.Old.Result.Run, c.New.Result.Run; old.Name != now.Name {
		p.text("", "  ", "Then it was called "+figure.Quoted(old.Name)+".")
	}
	if old, now := c.Old.Result.Run.Units, c.New.Result.Run.Units; old != now {
		p.text("", "  ", fmt.Sprintf("Then it was in %s, now it is in %s: each figure is told in its own.", unitName(old), unitName(now)))
	}
	if then, now := Headline(c.Old.Result), Headline(c.New.Result); then != now {
		p.text("", "  ", "Then: "+then)
		p.text("", "  ", "Now: "+now)
	} else if c.New.Result.Verdict != solve.Holds {
		p.text("", "  ", "Then and now: "+now)
	}
	p.blank()
	recheckFiles(p, c, opts)
	recheckRedo(p, c, opts.Full)
	recheckChanges(p, c, opts.Full)
	if !c.Same() {
		recheckUnmoved(p, c, opts)
	}
	if opts.Full {
		recheckBeside(p, c)
	}
	if len(c.Opened) == 0 {
		p.text("", "  ", "It compares drawings, never work:")
		p.text("  ", "  ", UnknownWork+".")
		before := ""
		if c.New.Result.Run.Aircraft != nil {
			before = "RUN."
		}
		p.text("", "  ", "--disturbed "+before+"ROD.END, "+before+"PART.pivot or "+before+"CABLE.END tells it of one.")
	}
	p.text("", "  ", fmt.Sprintf("As drawn in %s, SHA-256 begins %s. It is arithmetic on a drawing and approves nothing. The last check is made on the aircraft, pins out, by a second person.",
		figure.Clean(opts.NewFile), figure.HashBegins(opts.NewHash)))
	_, err := io.WriteString(w, p.String())
	return err
}

// SameSays is told where nothing was changed or opened.
const SameSays = "NOTHING CHANGED that moves the run or is judged of it"

// UnknownWork is told where nobody says what was opened and closed again.
const UnknownWork = "joints opened and closed again are not known to this comparison"

// WholeComparison says what is missing of a comparison that can't be told.
func WholeComparison(c *recheck.Comparison) error {
	if c == nil {
		return recheck.ErrNothingInCommon
	}
	for _, v := range []recheck.Version{c.Old, c.New} {
		if err := v.Result.Whole(); err != nil {
			return err
		}
	}
	return nil
}

// OldSays names the file that a run is compared with, by its date and hash.
func OldSays(file, date, hash string) string {
	said := figure.Clean(file)
	if date != "" {
		said += " of " + date
	}
	return said + ", SHA-256 begins " + figure.HashBegins(hash)
}

func recheckHeadline(c *recheck.Comparison, opts RecheckOptions) string {
	switch {
	case c.Same() && (opts.OldHash != opts.NewHash || len(movedFiles(opts)) > 0):
		return SameSays + ": the files differ in words alone."
	case c.Same():
		return SameSays + "."
	}
	said := "VOID: " + figure.Count(len(c.Redo), "line") + " of the rigging sheet"
	if a := c.New.Result.Run.Aircraft; a != nil {
		said = fmt.Sprintf("VOID: %s of the rigging sheet, in %s", figure.Count(len(c.Redo), "line"), figure.List(c.Reached))
		if len(c.Reached) == 0 {
			said = "NOTHING THAT IS LEFT IS VOID: what changed reaches none of the runs"
		}
	}
	if len(c.Unmoved) > 0 {
		said += "; " + figure.Count(len(c.Unmoved), "measured figure") + " may stand"
	}
	return said + "."
}

// recheckRedo tells what is to be done again.
func recheckRedo(p *page, c *recheck.Comparison, full bool) {
	if len(c.Redo) == 0 {
		return
	}
	p.line("TO BE DONE AGAIN")
	for _, run := range byRun(c, lines(c.Redo), func(r *recheck.Redo) string { return r.Run }) {
		indent := "  "
		if head := runHead(c, run[0].Run); head != "" {
			p.text(indent, "    ", head)
			indent += "  "
		}
		if full {
			redoInFull(p, run, indent)
			continue
		}
		for _, group := range redoGroups(run) {
			p.text(indent, indent, group.head+":")
			for _, step := range group.steps {
				p.text(indent+"  ", indent+"    ", redoStep(c, step))
			}
		}
	}
	p.blank()
}

// redoInFull tells what is to be done again of a run step by step, each line with why.
func redoInFull(p *page, redo []*recheck.Redo, indent string) {
	for _, step := range alike(redo, func(r *recheck.Redo) string { return r.Title }) {
		indent := indent
		if step[0].Title != "" { // else it stands at the foot
			p.text(indent, indent+"  ", step[0].Title)
			indent += "  "
		}
		for _, same := range alike(step, WhyRedo) {
			var says []string
			for _, r := range same {
				says = append(says, figure.Clean(r.Says))
			}
			p.text(indent, indent+"  ", strings.Join(says, "; "))
			p.text(indent+"  ", indent+"    ", "since "+WhyRedo(same[0]))
		}
	}
}

func lines(list []recheck.Redo) []*recheck.Redo {
	var all []*recheck.Redo
	for i := range list {
		all = append(all, &list[i])
	}
	return all
}

// recheckChanges tells what was changed and opened, and in short which verdicts changed.
func recheckChanges(p *page, c *recheck.Comparison, full bool) {
	if c.Same() {
		return
	}
	p.line("WHAT CHANGED")
	most := mostChanges
	if full {
		most = len(c.Changes)
	}
	shown, left := changedSays(c, most)
	for _, says := range shown {
		p.text("  ", "    ", says)
	}
	if left > 0 {
		p.text("  ", "    ", "and "+figure.Count(left, "more dimension")+" (--full)")
	}
	if len(c.Opened) > 0 {
		p.text("  ", "    ", "opened and closed again: "+openedNames(c))
	}
	for _, r := range c.Requirements {
		if !full && (r.Old == nil || r.New == nil || r.Old.Verdict != r.New.Verdict) {
			then, now := requiredThen(r)
			p.text("  ", "    ", fmt.Sprintf("%s: %s then, %s now", figure.Clean(r.Title), then, now))
		}
	}
	p.blank()
}

// recheckUnmoved tells which measured figures may stand.
func recheckUnmoved(p *page, c *recheck.Comparison, opts RecheckOptions) {
	if len(c.Unmoved) == 0 {
		return
	}
	p.line("MEASURED FIGURES THAT MAY STAND")
	since := figure.HashBegins(opts.OldHash)
	if c.New.Result.Run.Aircraft != nil {
		since += " and what its run's file was then"
	}
	p.text("  ", "  ", UnmovedSays(since))
	for _, run := range byRun(c, c.Unmoved, func(l *recheck.Line) string { return l.Run }) {
		head, indent := runHead(c, run[0].Run), "    "
		if opts.Full {
			if head != "" {
				p.text(indent, indent, head)
				indent += "  "
			}
			for _, l := range run {
				p.text(indent, indent+"  ", LineWords(l))
			}
			continue
		}
		var said []string
		for _, step := range alike(run, func(l *recheck.Line) string { return l.Title }) {
			said = append(said, fmt.Sprintf("%s (%d)", step[0].Title, len(step)))
		}
		p.text(indent, indent+"  ", figure.Joined(": ", head, strings.Join(said, "; ")))
	}
	p.text("  ", "  ", "Nothing moves one by more than a tenth of what the file allows it; where it allows nothing, by nothing.")
	p.blank()
}

// recheckBeside tells every requirement, every end and where every part stands, then and
// now; what differs bears an asterisk.
func recheckBeside(p *page, c *recheck.Comparison) {
	mark := func(changed bool, then string) string {
		if changed {
			return "*" + then
		}
		return then
	}
	required := &table{head: []string{"requirement", "then", "now"}}
	for _, r := range c.Requirements {
		then, now := requiredThen(r)
		required.add(figure.Clean(r.Title), then, mark(r.Changed(), now))
	}
	ends := &table{head: []string{"end of the travel", "then", "now"}}
	for _, e := range c.Ends {
		then, now := endThen(e)
		ends.add(figure.Clean(e.Control)+", "+SideName(e.Side), then, mark(e.Changed(), now))
	}
	stands := &table{head: []string{"stands at neutral", "then", "now"}}
	for _, s := range c.Neutral {
		then, now := standsThen(s)
		stands.add(figure.Clean(s.Part), then, mark(s.Changed(), now))
	}
	p.line("THEN AND NOW (what differs bears an asterisk)")
	for _, t := range []*table{required, ends, stands} {
		if len(t.rows) > 0 {
			t.write(p, "  ")
			p.blank()
		}
	}
}

func unitName(u linkage.Unit) string {
	if u == linkage.Inches {
		return "inches"
	}
	return "millimeters"
}
