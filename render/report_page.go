package render

import (
	"io"
	"strings"
	"unicode/utf8"

	"fullfree/linkage"
)

// pageWidth is the width of a report: it fits a terminal of 80 columns, a
// phone held sideways and a printed page.
const pageWidth = 72

// tableWidth is the most that a table takes before its columns are told in groups: a
// terminal of 80 columns shows it whole.
const tableWidth = 80

// labelWidth is the most that the first column of a table takes before its
// longer cells are given lines of their own.
const labelWidth = 24

// page is text being laid out in lines of at most pageWidth; or, for a page of
// the web, which lays it out itself, kept as it is told.
type page struct {
	strings.Builder
	keeps bool
	kept  []Passage
}

// Passage is a paragraph, or a table where it has a head.
type Passage struct {
	Deep  int    // how many steps of two spaces it stands in
	Words string // of a paragraph
	Head  []string
	Rows  [][]string
}

// Numbers says whether a column of a table holds figures, which are ranged right.
func (p Passage) Numbers(column int) bool {
	for _, row := range p.Rows {
		if strings.Trim(row[column][:min(1, len(row[column]))], "+-0123456789") != "" {
			return false
		}
	}
	return true
}

// kept is what a report tells, for a page of the web.
func kept(report func(p *page)) []Passage {
	p := &page{keeps: true}
	report(p)
	return p.kept
}

// Passages takes what a report tells as passages, for a page of the web, where the report
// is written to it; so do the reports of what is tried before it is bolted up: compare,
// effect, rig, find and tolerance.
type Passages struct{ List []Passage }

// Write takes text that no passages were made of, as a paragraph.
func (l *Passages) Write(text []byte) (int, error) {
	l.List = append(l.List, Passage{Words: string(text)})
	return len(text), nil
}

// pageFor is a page for what is to be written to w.
func pageFor(w io.Writer) *page {
	_, keeps := w.(*Passages)
	return &page{keeps: keeps}
}

// writeTo writes the page. The error is the writer's.
func (p *page) writeTo(w io.Writer) error {
	if l, keeps := w.(*Passages); keeps {
		l.List = append(l.List, p.kept...)
		return nil
	}
	_, err := io.WriteString(w, p.String())
	return err
}

func (p *page) line(s string) {
	if p.keeps {
		p.text("", "", s)
		return
	}
	p.WriteString(strings.TrimRight(s, " ") + "\n")
}

func (p *page) blank() {
	if !p.keeps {
		p.WriteString("\n")
	}
}

// text writes words in lines that begin with first and then with rest. A word
// that is wider than a line is cut.
func (p *page) text(first, rest, words string) {
	if p.keeps {
		const step = 2
		label := strings.TrimLeft(first, " ")
		words = strings.TrimSpace(strings.TrimSpace(label) + " " + words)
		if words != "" {
			p.kept = append(p.kept, Passage{Deep: (len(first) - len(label)) / step, Words: words})
		}
		return
	}
	line, empty := first, true
	flush := func() {
		if !empty {
			p.line(line)
			line, empty = rest, true
		}
	}
	for _, piece := range pieces(words) {
		word := []rune(piece)
		if !empty && utf8.RuneCountInString(line)+1+len(word) > pageWidth {
			flush()
		}
		if !empty {
			line += " "
		}
		for room := pageWidth - utf8.RuneCountInString(line); len(word) > room; room = pageWidth - utf8.RuneCountInString(line) {
			line, word, empty = line+string(word[:room]), word[room:], false
			flush()
		}
		line, empty = line+string(word), false
	}
	flush()
}

// mostBracket is how long, in bytes, what stands in square brackets may get
// before it is split: three coordinates with fractions beside them do not.
const mostBracket = 56

// pieces splits text where a line may end: at spaces, but not inside "7 1/4",
// nor between a number and its unit, nor inside coordinates.
func pieces(text string) []string {
	var out []string
	for _, word := range strings.Fields(text) {
		last := len(out) - 1
		if last >= 0 && endsInDigit(out[last]) && (isFraction(word) || isUnit(word)) {
			out[last] += " " + word
			continue
		}
		if last >= 0 && out[last][0] == '[' && len(out[last]) < mostBracket && !strings.Contains(out[last], "]") {
			out[last] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}

func endsInDigit(s string) bool { return isDigit(s[len(s)-1]) }

// isFraction says whether a word begins as "1/4" does.
func isFraction(s string) bool { return isDigit(s[0]) && strings.Contains(s, "/") }

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isUnit(word string) bool {
	unit := linkage.Unit(strings.TrimRight(word, ".,;:)"))
	for _, length := range []linkage.Unit{linkage.Millimeters, linkage.Inches} {
		if unit == length || unit == length.ForceUnit() {
			return true
		}
	}
	return false
}
