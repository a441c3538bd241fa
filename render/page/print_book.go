package page

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/render/picture"
)

// BookPDF writes what Book does as a PDF, for a paper (one of picture.Papers but
// picture.PaperNone; empty: that of the first run's unit): a page for the whole where
// there are several runs, and each run from what is required of it to the file itself.
func BookPDF(w io.Writer, runs []BookRun, named string, progress func(done, all int)) error {
	b, err := bookOfRuns(runs, progress)
	if err != nil {
		return err
	}
	if named == "" && len(runs) > 0 {
		named = picture.PaperOf(runs[0].Result.Run.Units)
	}
	return b.pdf(w, named)
}

// pdf lays the book out on a paper.
func (b *book) pdf(w io.Writer, named string) error {
	size, err := picture.PaperSize(named)
	if err != nil {
		return err
	}
	size = size.Scale(paper.PointsPerMillimeter)
	p := newPrinter(size)
	if b.Aircraft != nil {
		p.aircraft(b.Title, b.Aircraft)
	} else if b.Several {
		p.turn()
		p.head(b.Title, printTitle)
		p.head("The runs, the worst verdict first", printPart)
		t := render.Passage{Head: []string{"run", "verdict", "", "file"}}
		for _, line := range b.Summary {
			t.Rows = append(t.Rows, []string{line.Name, line.Verdict, line.Headline, line.File})
		}
		p.table(t)
		p.words(b.Caution, printSmall, false, 0)
		p.words(b.Made, printSmall, false, 0)
	}
	for i := range b.Runs {
		run := &b.Runs[i]
		head, high := run.Name, printHead
		if !b.Several {
			head, high = b.Title, printTitle
		}
		own, err := printRun(size, run, head, high)
		if err != nil {
			return err
		}
		p.pages, p.feet = append(p.pages, own.pages...), append(p.feet, own.feet...)
	}
	if b.Aircraft != nil {
		p.across(b.Aircraft)
	}
	return p.pdf(b.Title).Finish(w)
}

// pagesMost is how many pages of a book a run takes, where that can be.
const pagesMost = 8

// savings are what is left out of a run that takes more pages, one after the other.
const (
	saveNothing   = iota
	saveCharts    // but a few
	saveAllCharts // and pictures are smaller
	savingsMost   = saveAllCharts
)

// printRun lays a run out on pages of its own, and leaves out what it takes to keep to the
// most pages.
func printRun(size paper.Place, run *bookRun, head string, high float64) (*printer, error) {
	for saving := saveNothing; ; saving++ {
		p := newPrinter(size)
		p.saving = saving
		p.turn()
		p.head(head, high)
		if err := p.run(run); err != nil || len(p.pages) <= pagesMost || saving == savingsMost {
			return p, err
		}
	}
}

// tallest is how high a picture may be.
func (p *printer) tallest() float64 {
	if p.saving == saveAllCharts {
		return printLower
	}
	return printTallest
}

// run writes a run: the verdict and what is required, how it moves, how it is set, the
// charts, the file, and last, on pages of its own, the rigging sheet.
func (p *printer) run(b *bookRun) error {
	p.verdict(b)
	p.say(figure.Joined(" ", "From "+b.File+".", b.View))
	for _, says := range b.Driven {
		p.say(says)
	}
	p.head("Required", printPart)
	p.required(b.Required)
	for i := range b.Travels {
		if t := &b.Travels[i]; !t.Again {
			if err := p.travel(b, t); err != nil {
				return err
			}
		}
	}
	for _, s := range b.Settings {
		p.head(s.Control+", with the others held elsewhere", printPart)
		p.table(s.Table)
	}
	if b.LeftOut != "" {
		p.say(b.LeftOut)
	}
	if len(b.Rods) > 0 {
		p.head(b.RodsHead, printPart)
		p.told(b.Rods)
	}
	p.inColumns(func(p *printer) {
		for _, part := range []struct {
			head string
			told []render.Passage
		}{{"All settings together", b.Together}, {"Pitch of the blades", b.Rotor}, {"Free play", b.Play}, {"Made a little off", b.Made}, {"Stops, as set", b.Stops}, {"As read", b.Read}} {
			if len(part.told) > 0 {
				p.head(part.head, printPart)
				p.told(part.told)
			}
		}
	})
	p.charts(b)
	p.inColumns(func(p *printer) {
		p.head("What this answer is", printPart)
		for _, says := range slices.Concat(b.Scope, []string{b.Caution}) {
			p.words(says, printTable, false, 0)
		}
	})
	p.source(b)
	if !b.Apart {
		p.sheet(&b.Sheet, sheetFootSays(b.Hash))
	}
	return nil
}

// verdict writes the verdict in a frame, with what is to be known beside it.
func (p *printer) verdict(b *bookRun) {
	top, pages := p.down+2, len(p.pages)
	p.left, p.wide, p.down = p.left+6, p.wide-12, p.down+4
	p.words(b.Headline, printHead-1.5, true, 0)
	for _, says := range b.Short {
		p.say(says)
	}
	p.told(b.Beside)
	p.left, p.wide = p.left-6, p.wide+12
	if len(p.pages) == pages {
		p.page().Polygon(paper.LayerMarks, printFrame, paper.Window{Low: paper.At(p.left, top), High: paper.At(p.left+p.wide, p.down+2)}.Corners()...)
	}
	p.down += 6
}

// required writes the requirements: those that don't hold have been told in words.
func (p *printer) required(list []bookRequired) {
	if len(list) == 0 {
		p.say("Nothing was required.")
		return
	}
	t := render.Passage{Head: []string{"requirement", "verdict", "worst", "where", "limit", "in hand", "surely"}}
	for _, j := range list {
		place := j.Place
		if place == "" {
			place = nothing
		}
		t.Rows = append(t.Rows, []string{j.Title, j.Verdict, j.Worst, place, j.Limit, j.InHand, j.Sure})
	}
	p.table(t)
}

const (
	// printTallest is how high a picture may be, points; printLower where pages are saved.
	printTallest, printLower = 380.0, 250.0
	stillsMost               = 4
	// chartsAlone is how many charts of a run with one control are printed: what goes on a
	// page. With several, chartsShared is for all together.
	chartsAlone, chartsShared = 12, 8
)

// travel writes how one control moves the run.
func (p *printer) travel(b *bookRun, t *bookTravel) error {
	var list []printFigure
	for _, still := range t.Stills {
		scene, err := picture.StillScene(b.result, t.sweep, still.at)
		if err != nil {
			return err
		}
		list = append(list, printFigure{still.Letter + "  " + still.Says, scene})
	}
	list = list[:min(stillsMost, len(list))]
	tall := t.Tall && len(list) > 0
	if tall {
		for i, still := range t.Stills[:len(list)] {
			if still.at == 0 { // the ends are thin in it
				list[0] = list[i]
			}
		}
		p.beside(t.Title, list[0], t.StillTable)
	} else {
		p.need(p.figuresHigh(list[:min(2, len(list))], p.tallest()) + 2*printPart*printLine)
		p.head(t.Title, printPart)
		p.pictures(list, p.tallest())
	}
	p.inColumns(func(p *printer) {
		if !tall {
			p.table(t.StillTable)
		}
		p.head("What ends the travel", printText)
		p.told(t.Ends)
		p.told(t.Bites)
		p.head("On center", printText)
		p.told(t.Centers)
		p.head("What moves, and how far", printText)
		p.told(t.Moves)
	})
	return nil
}

// charts writes the charts of the travels, of each control as many.
func (p *printer) charts(b *bookRun) {
	var moved []*bookTravel
	for i := range b.Travels {
		if t := &b.Travels[i]; !t.Again {
			moved = append(moved, t)
		}
	}
	left := 0
	for _, t := range moved {
		var list []printFigure
		for _, scene := range picture.ChartScenes(b.result, t.sweep, t.course) {
			list = append(list, printFigure{"", scene})
		}
		most := chartsAlone
		if len(moved) > 1 {
			most = max(2, chartsShared/len(moved))
		}
		if p.saving > saveNothing {
			most = 2
		}
		if p.saving == saveAllCharts {
			most = 0
		}
		left += max(0, len(list)-most)
		if list = list[:min(most, len(list))]; len(list) == 0 {
			continue
		}
		p.need(p.figuresHigh(list[:min(2, len(list))], printTallest) + 2*printPart*printLine)
		p.head("Charts: "+t.Title, printPart)
		p.pictures(list, printTallest)
	}
	if left > 0 {
		p.say(figure.Count(left, "more chart") + ": \"fullfree draw --charts\", with --control, draws all.")
	}
}

// source writes what the run was made from, and the file itself.
func (p *printer) source(b *bookRun) {
	p.head("The file that this was made from", printPart)
	made := "File: " + b.File + ". SHA-256: " + b.Hash + "."
	if b.Version != "" {
		made += " Made by fullfree " + b.Version + "."
	}
	p.say(made)
	for _, change := range b.Set {
		p.say("Changed for this: " + change + " (the file below has its own figure).")
	}
	if b.Unseen != "" {
		p.say(b.Unseen)
	}
	p.listing(sourceLines(bytes.TrimRight(b.text, "\r\n")))
}

// sourceLines is a file in lines as a listing on paper shows them: what isn't seen for what
// it is as its code.
func sourceLines(text []byte) []string {
	var lines []string
	for line := range strings.SplitSeq(strings.ReplaceAll(strings.ReplaceAll(string(text), "\r\n", "\n"), "\r", "\n"), "\n") {
		var s strings.Builder
		for _, r := range line {
			switch {
			case r == '\t':
				s.WriteString("    ")
			case !linkage.Visible(r):
				fmt.Fprintf(&s, "[%U]", r)
			default:
				s.WriteRune(r)
			}
		}
		lines = append(lines, s.String())
	}
	return lines
}
