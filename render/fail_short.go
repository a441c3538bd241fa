package render

import (
	"fmt"
	"io"
	"strings"

	"fullfree/render/figure"
	"fullfree/solve"
)

// FailShortReport writes what is left when each element of a run goes, worst first, a
// line for all elements that leave the same; FailReport tells each case by itself. The
// error is the writer's.
func FailShortReport(w io.Writer, file string, f *solve.Failures) error {
	p := &page{}
	p.text("", "  ", figure.Clean(f.Run.Name))
	p.text("", "  ", failHeadline(f))
	p.text("", "  ", failLeftOut(f))
	reportThreadFaults(p, f.Run)
	p.blank()
	p.line("WORST FIRST")
	for _, same := range casesAlike(f) {
		c := same[0]
		p.text("  "+severityFigure(c.Severity)+"  ", "     ", fmt.Sprintf("%s %s: %s", elementNames(same), c.How, failInShort(f, c)))
	}
	p.text("  ", "  ", failRule(f))
	p.blank()
	if len(f.Shared) > 0 {
		p.line("WHAT BOTH PATHS SHARE")
		for _, path := range f.Shared {
			p.text("  ", "    ", sharedSays(path))
		}
		p.blank()
	}
	how := "one thing at a time"
	if f.AtNeutral {
		how += ", the other controls at neutral"
	}
	p.text("", "  ", "As drawn in "+figure.Clean(file)+"; "+how+". "+CautionInShort)
	_, err := io.WriteString(w, p.String())
	return err
}

// elementNames are the elements of cases as the file names them, those of one kind that stand
// together under one word.
func elementNames(cases []*solve.Failure) string {
	var groups []string
	var names []string
	for i, c := range cases {
		kind, name := elementKind(c.Element)
		names = append(names, name)
		if i+1 < len(cases) {
			if next, _ := elementKind(cases[i+1].Element); next == kind {
				continue
			}
		}
		if len(names) > 1 {
			kind = manyOf[kind]
		}
		groups = append(groups, kind+" "+figure.List(names))
		names = nil
	}
	return strings.Join(groups, "; ")
}

// manyOf are the words for several elements of a kind.
var manyOf = map[string]string{
	"rod end": "rod ends", "rod": "rods", "cable": "cables", "joint": "joints", "ball of": "balls of", "pivot of": "pivots of",
	"stop": "stops", "part": "parts",
}

// casesAlike groups the cases of one severity that go in one way and leave the same, in
// the order of the first of each.
func casesAlike(f *solve.Failures) [][]*solve.Failure {
	cases := make([]*solve.Failure, len(f.Cases))
	for i := range f.Cases {
		cases[i] = &f.Cases[i]
	}
	return alike(cases, func(c *solve.Failure) string { return fmt.Sprint(c.Severity, c.How, failInShort(f, c)) })
}
