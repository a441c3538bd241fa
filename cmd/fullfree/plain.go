package main

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// plainWidth is how many columns the manual takes on a terminal: it fits one of 80.
const plainWidth = 78

// tableIndent is how far what a table tells of a row stands in from its name.
const tableIndent = "    "

// plain lays Markdown out to be read on a terminal: its paragraphs filled, each row of
// a table as a name with what it tells below it, and what is typed or printed as it
// stands. Pictures are left out. It knows as much of Markdown as the manual uses.
func plain(markdown string) string {
	p := &plainer{}
	for _, line := range strings.Split(markdown, "\n") {
		p.line(line)
	}
	p.flush()
	return strings.TrimSpace(p.out.String()) + "\n"
}

// plainer is a text being laid out.
type plainer struct {
	out    strings.Builder
	fenced bool
	// words are those of the paragraph that is being read; first and rest are what
	// its first line and the others begin with.
	words       []string
	first, rest string
	// head is that of the table that is being read, nil outside one.
	head []string
}

// bullet begins an item of a list.
var bullet = regexp.MustCompile(`^(\* |- |\d\. )`)

// line takes in one line of Markdown.
func (p *plainer) line(line string) {
	if strings.HasPrefix(line, "```") {
		p.flush()
		p.fenced = !p.fenced
		return
	}
	switch {
	case p.fenced:
		p.write(strings.TrimRight("    "+line, " "))
		return
	case strings.HasPrefix(line, "|"):
		p.flush()
		p.row(line)
		return
	}
	p.head = nil
	switch {
	case line == "":
		p.flush()
		p.write("")
	case strings.HasPrefix(line, "#"):
		p.flush()
		p.write(strings.ToUpper(strings.TrimLeft(line, "# ")))
	case strings.HasPrefix(line, "!["), strings.HasPrefix(line, "<img"):
		p.flush()
	case strings.HasPrefix(line, "    "):
		p.flush()
		p.write(line)
	case bullet.MatchString(line):
		p.flush()
		p.first = bullet.FindString(line)
		p.rest = strings.Repeat(" ", len(p.first))
		p.words = strings.Fields(unmarked(line[len(p.first):]))
	default:
		p.words = append(p.words, strings.Fields(unmarked(line))...)
	}
}

// write writes a line, and no second blank one after another.
func (p *plainer) write(line string) {
	if line == "" && strings.HasSuffix(p.out.String(), "\n\n") {
		return
	}
	p.out.WriteString(line + "\n")
}

// flush fills the paragraph that was read.
func (p *plainer) flush() {
	if len(p.words) == 0 {
		return
	}
	line := p.first + p.words[0]
	for _, word := range p.words[1:] {
		if utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > plainWidth {
			p.write(line)
			line = p.rest + word
		} else {
			line += " " + word
		}
	}
	p.write(line)
	p.words, p.first, p.rest = nil, "", ""
}

// row takes in a row of a table. In a table of more than two columns each cell but the
// first is told with the head of its column.
func (p *plainer) row(line string) {
	cells := strings.Split(strings.Trim(line, "|"), "|")
	for i := range cells {
		cells[i] = unmarked(strings.TrimSpace(cells[i]))
	}
	switch {
	case p.head == nil:
		p.head = cells
		return
	case strings.Trim(line, "|-") == "":
		return
	}
	if cells[0] != "" {
		p.first, p.rest = "", tableIndent
		p.words = strings.Fields(cells[0])
		p.flush()
	}
	for i, cell := range cells[1:] {
		if cell == "" {
			continue
		}
		if len(p.head) > 2 {
			cell = p.head[i+1] + ": " + cell
		}
		p.first, p.rest = tableIndent, tableIndent
		p.words = strings.Fields(cell)
		p.flush()
	}
	p.write("")
}

// marks are the signs of bold type and of what is typed, and links, of which the
// words stay.
var marks = regexp.MustCompile("\\*\\*|`|\\[([^]]+)\\]\\([^)]*\\)")

// unmarked leaves the signs of Markdown out of a line.
func unmarked(line string) string { return marks.ReplaceAllString(line, "$1") }
