package render

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// LineWords names a line of a rigging sheet as it stands there, under the title of its step.
func LineWords(l *recheck.Line) string { return figure.Joined(": ", l.Title, figure.Clean(l.Says)) }

// UnmovedSays is what is told of measured figures that nothing moves, by the hashes of what
// they were signed with, as SinceHashes has them.
func UnmovedSays(since string) string {
	return "unmoved by the drawing since " + since + "; whoever signs decides"
}

// SinceHashes tells what a run was signed with: how the hash of its file begins; in an
// aircraft, of which files are told, those of the aircraft's file and of the run's.
func SinceHashes(hash string, files []FileOf, run string) string {
	said := figure.HashBegins(hash)
	for _, f := range files {
		if f.Run != "" && f.Run == run {
			said += ", " + run + " " + figure.HashBegins(f.Hash)
		}
	}
	return said
}

// RunHashes tells after the name of an aircraft's file how the hashes of those of its runs
// begin; empty where there are none.
func RunHashes(files []FileOf) string {
	var said []string
	for _, f := range files {
		said = append(said, f.Run+" "+figure.HashBegins(f.Hash))
	}
	if len(said) == 0 {
		return ""
	}
	return "; of its runs " + figure.List(said)
}

// WhyRedo tells why a line is to be done again.
func WhyRedo(r *recheck.Redo) string {
	switch r.Why {
	case recheck.Moved:
		return figureMoves(r)
	case recheck.NotBefore:
		return "the sheet that was signed has no such line"
	case recheck.Reached:
		return causesSay(r.Reason) + ", in its control from hand to blade"
	case recheck.Pitch:
		return causesSay(r.Reason) + ", by which pitch is set (" + NoSource + ": what the maker asks rules)"
	}
	return causesSay(r.Reason)
}

// causesSay tells what a line follows from.
func causesSay(r recheck.Reason) string {
	var said []string
	for _, c := range r.Causes {
		said = append(said, figure.Clean(c.Dimension)+" "+happened(c))
	}
	for _, j := range r.Opened {
		said = append(said, j.Name+" was opened")
	}
	if r.More {
		said = append(said, "more")
	}
	return figure.List(said)
}

func happened(c *recheck.Change) string {
	switch {
	case c.Old == nil:
		return "came"
	case c.New == nil:
		return "went"
	}
	return "changed"
}

// figureMoves tells by how much a figure moves, and what it may.
func figureMoves(r *recheck.Redo) string {
	was, now := thenAndNow(r.Was.Value, r.Was.Unit, r.Figure.Value, r.Figure.Unit)
	said := fmt.Sprintf("it moves from %s to %s, by %s; ", was, now, figure.Readable(r.By, float64(recheck.Share*r.Allowed), r.Figure.Unit))
	if r.Allowed > 0 {
		return said + "of the " + figure.Given(r.Allowed, r.Figure.Unit) + " allowed it a tenth may be left"
	}
	return said + "the file gives it no allowance"
}

// thenAndNow tells two figures so that it is seen that they differ, where they do.
func thenAndNow(was float64, unit linkage.Unit, now float64, other linkage.Unit) (then, today string) {
	then, today = figure.Quantity(was, unit), figure.Quantity(now, other)
	if then == today && was != now {
		return figure.Given(was, unit), figure.Given(now, other)
	}
	return then, today
}

// changeSays tells what a dimension was and is.
func changeSays(c *recheck.Change) string {
	name := figure.Clean(c.Dimension)
	switch {
	case c.Old == nil:
		return name + " came: " + comparedSays(c.New)
	case c.New == nil:
		return name + " went; it was " + comparedSays(c.Old)
	}
	return fmt.Sprintf("%s: %s then, %s now", name, comparedSays(c.Old), comparedSays(c.New))
}

func comparedSays(v *recheck.Value) string {
	if v.IsNumber {
		return figure.Given(v.Number, v.Unit)
	}
	return figure.Clean(v.Words)
}

// requiredThen tells how a requirement came out, then and now.
func requiredThen(r recheck.Required) (then, now string) {
	cell := func(j *solve.Judgement) string {
		if j == nil {
			return "not required"
		}
		return VerdictMark(j.Verdict) + " " + WorstWords(j)
	}
	return cell(r.Old), cell(r.New)
}

// endThen tells an end of a travel, then and now.
func endThen(e recheck.Ends) (then, now string) {
	cell := func(end *solve.End, unit linkage.Unit) string {
		if end == nil {
			return "no such control"
		}
		return figure.Quantity(end.At, unit) + ", " + MadeBy(*end)
	}
	return cell(e.Old, e.OldUnit), cell(e.New, e.NewUnit)
}

// standsThen tells where a part stands at neutral, then and now.
func standsThen(s recheck.Stands) (then, now string) {
	switch {
	case s.Old == nil:
		return "no such part", figure.Quantity(*s.New, s.NewUnit)
	case s.New == nil:
		return figure.Quantity(*s.Old, s.OldUnit), "no such part"
	}
	return thenAndNow(*s.Old, s.OldUnit, *s.New, s.NewUnit)
}

// redoOf is lines that are to be done again for the same reason, step by step.
type redoOf struct {
	head  string
	steps [][]*recheck.Redo
}

// redoGroups puts what is to be done again under why, in the order in which a builder
// goes about it: what was touched, what moves, then what all of it voids.
func redoGroups(redo []*recheck.Redo) []redoOf {
	heads := []struct {
		head string
		of   []recheck.Why
	}{
		{"where it was touched", []recheck.Why{recheck.Touched}},
		{"figures that it moves", []recheck.Why{recheck.Moved, recheck.NotBefore}},
		{"whatever the figures, from hand to blade", []recheck.Why{recheck.Reached}},
		{"pitch: " + NoSource + ", what the maker asks rules", []recheck.Why{recheck.Pitch}},
	}
	var groups []redoOf
	for _, h := range heads {
		var list []*recheck.Redo
		for _, r := range redo {
			if slices.Contains(h.of, r.Why) {
				list = append(list, r)
			}
		}
		if len(list) > 0 {
			groups = append(groups, redoOf{h.head, alike(list, func(r *recheck.Redo) string { return r.Title })})
		}
	}
	return groups
}

// mostLines is how many lines of a step the short report names; the others are counted.
const mostLines = 12

// redoStep names the lines of a step of a run's sheet that are to be done again: by its
// title alone where all of them are.
func redoStep(c *recheck.Comparison, step []*recheck.Redo) string {
	all := 0
	for i := range c.New.Lines {
		if l := &c.New.Lines[i]; l.Title == step[0].Title && l.Run == step[0].Run {
			all++
		}
	}
	if len(step) == all && step[0].Title != "" && step[0].Why != recheck.Moved && step[0].Why != recheck.NotBefore {
		return step[0].Title
	}
	names := figure.FirstOf(len(step), mostLines, func(i int) string {
		r := step[i]
		name := figure.Clean(r.Says)
		if r.Why == recheck.Moved {
			was, now := thenAndNow(r.Was.Value, r.Was.Unit, r.Figure.Value, r.Figure.Unit)
			name += fmt.Sprintf(" (%s then, %s now)", was, now)
		}
		return name
	})
	return figure.Joined(": ", step[0].Title, strings.Join(names, "; "))
}

// ChangedInShort tells in a sentence or two what was changed and opened.
func ChangedInShort(c *recheck.Comparison) string {
	said, left := changedSays(c, mostChanges)
	if left > 0 {
		said = append(said, figure.Count(left, "more dimension"))
	}
	words := ""
	if len(said) > 0 {
		words = "Changed: " + strings.Join(said, "; ") + "."
	}
	if len(c.Opened) > 0 {
		words = figure.Joined(" ", words, "Opened and closed again: "+openedNames(c)+".")
	}
	return words
}

func openedNames(c *recheck.Comparison) string {
	var names []string
	for _, j := range c.Opened {
		names = append(names, j.Name)
	}
	return figure.List(names)
}
