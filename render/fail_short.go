package render

import (
	"fmt"
	"io"

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
		names := make([]string, len(same))
		for i, c := range same {
			names[i] = ElementName(c.Element)
		}
		c := same[0]
		p.text("  "+severityFigure(c.Severity)+"  ", "     ", fmt.Sprintf("%s %s: %s", figure.List(names), c.How, failInShort(f, c)))
	}
	p.text("  ", "  ", "("+failRule+")")
	p.blank()
	if len(f.Shared) > 0 {
		p.line("WHAT BOTH PATHS SHARE")
		for _, path := range f.Shared {
			p.text("  ", "    ", sharedSays(path))
		}
		p.blank()
	}
	p.text("", "  ", "As drawn in "+figure.Clean(file)+"; one thing at a time. "+CautionInShort)
	_, err := io.WriteString(w, p.String())
	return err
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
