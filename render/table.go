package render

import (
	"errors"
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

// columnGap is the room between two columns of a table.
const columnGap = 2

// table is rows of text under a heading, the first column ranged left and the
// others right. All rows are as long as the heading.
type table struct {
	head []string
	rows [][]string
	// again are columns besides the first without which no other can be understood: where
	// the others are told in groups they stand in each.
	again []int
}

// add appends a row.
func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// write writes the table, indented. Where it doesn't fit the page the first
// column stands on lines of its own, and where that is not enough the other
// columns are told in groups, one under another.
func (t *table) write(p *page, indent string) {
	if p.keeps {
		p.kept = append(p.kept, Passage{Head: t.head, Rows: t.rows})
		return
	}
	widths := make([]int, len(t.head))
	for _, row := range append([][]string{t.head}, t.rows...) {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	others := 0
	for _, w := range widths[1:] {
		others += columnGap + w
	}
	room := tableWidth - len(indent)
	all := make([]int, 0, len(widths))
	for i := 1; i < len(widths); i++ {
		all = append(all, i)
	}
	if widths[0]+others <= room {
		t.writeLines(p, indent, widths, all)
		return
	}
	widths[0] = min(widths[0], labelWidth)
	for len(all) > 0 {
		group, used := []int(nil), widths[0]
		if len(all) < len(widths)-1 {
			p.blank()
			for _, i := range t.again {
				group, used = append(group, i), used+columnGap+widths[i]
			}
		}
		for first := true; len(all) > 0 && (first || used+columnGap+widths[all[0]] <= room); first = false {
			group, used = append(group, all[0]), used+columnGap+widths[all[0]]
			all = all[1:]
		}
		t.writeLines(p, indent, widths, group)
	}
}

// writeLines writes the first column and others. A cell of the first column that is wider
// than its column has a line of its own.
func (t *table) writeLines(p *page, indent string, widths, others []int) {
	for _, row := range append([][]string{t.head}, t.rows...) {
		label := row[0]
		if utf8.RuneCountInString(label) > widths[0] {
			p.text(indent, indent, label)
			label = ""
		}
		var line strings.Builder
		line.WriteString(indent + label + spaces(widths[0]-utf8.RuneCountInString(label)))
		for _, i := range others {
			line.WriteString(spaces(columnGap+widths[i]-utf8.RuneCountInString(row[i])) + row[i])
		}
		p.line(line.String())
	}
}

func spaces(n int) string { return strings.Repeat(" ", max(n, 0)) }

// SweepTable writes positions over a travel for people: a heading of names
// and units, and a row a position, rounded for use. Columns that don't fit
// the page come in further tables, each with the control's part first. Survey is
// what the drawing was adjusted by, or nil. The error is the writer's.
func SweepTable(w io.Writer, run *linkage.Run, survey *survey.Survey, s *solve.Sweep, columns []solve.Column, rows [][]float64) error {
	if err := s.Whole(); err != nil {
		return err
	}
	if run == nil {
		return errors.New("there is no run to tell of")
	}
	p := &page{}
	p.text("", "  ", figure.Clean(run.Name))
	p.text("", "  ", SweepTitle(run, s))
	p.text("", "  ", "Travel is told from the drawn position; outputs as their gauge reads.")
	p.text("", "  ", SurveyNote(survey))
	reportThreadFaults(p, run)
	p.blank()
	columns, rows, still := movingColumns(run, columns, rows)
	t := table{head: make([]string, len(columns))}
	unitRow := make([]string, len(columns))
	for i, c := range columns {
		t.head[i], unitRow[i] = c.Name, string(c.Unit)
	}
	t.rows = append(t.rows, unitRow)
	for _, row := range rows {
		cells := make([]string, len(row))
		for i, v := range row {
			cells[i] = figure.Number(v, columns[i].Unit)
		}
		t.rows = append(t.rows, cells)
	}
	t.rangeRight()
	t.write(p, "")
	if still > 0 {
		p.text("", "  ", fmt.Sprintf("Left out: %s that %s leaves where they stand (--csv has all).", figure.Count(still, "column"), s.Control.Name))
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// movingColumns are the columns of a table in which anything moves that can be read, of an
// aircraft, most of which a control leaves where it stands; of a run by itself all. still
// is how many are left out.
func movingColumns(run *linkage.Run, columns []solve.Column, rows [][]float64) (moving []solve.Column, kept [][]float64, still int) {
	if run.Aircraft == nil {
		return columns, rows, 0
	}
	kept = make([][]float64, len(rows))
	for i, c := range columns {
		first := figure.Number(rows[0][i], c.Unit)
		if i > 0 && !slices.ContainsFunc(rows, func(row []float64) bool { return figure.Number(row[i], c.Unit) != first }) {
			still++
			continue
		}
		moving = append(moving, c)
		for k, row := range rows {
			kept[k] = append(kept[k], row[i])
		}
	}
	return moving, kept, still
}

// rangeRight pads the first column so that its numbers stand right, as those
// of the other columns.
func (t *table) rangeRight() {
	width := 0
	for _, row := range append([][]string{t.head}, t.rows...) {
		width = max(width, utf8.RuneCountInString(row[0]))
	}
	for _, row := range append([][]string{t.head}, t.rows...) {
		row[0] = spaces(width-utf8.RuneCountInString(row[0])) + row[0]
	}
}
