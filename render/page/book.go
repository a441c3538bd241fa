package page

import (
	"bytes"
	"cmp"
	"fmt"
	"html/template"
	"io"
	"slices"

	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/tolerance"
)

// BookRun is one run of a book.
type BookRun struct {
	File   string // its name as the user gave it, and what --set changed
	Text   []byte // the file itself
	Set    []string
	Result *solve.Result
	Pinned []solve.PinnedRod
	// Since is the version that was signed, for a sheet on which unmoved figures stand as
	// such; nil: every blank is to be filled in.
	Since  *Since
	Builds *tolerance.Answer // what becomes of builds of it; nil: nothing may be out
	render.ReportOptions
	travels int // how many are shown at most; 0: travelsShown
}

// bookTemplate is the book as a page.
var bookTemplate = webTemplate("book.html", "book_aircraft.html", "sheet.html")

// book is what the page of a book is made from.
type book struct {
	Title   string
	Several bool
	Summary []bookLine // the worst verdict first
	Runs    []bookRun
	// Aircraft is what its runs are of; nil: they are runs by themselves.
	Aircraft *bookAircraft
	Caution  string
	Made     string
}

// bookLine is a run in a line of the summary.
type bookLine struct {
	ID, Name, File string
	bookVerdict
	Headline string
	verdict  solve.Verdict
}

// Book writes runs as one page of one file, which moves them through their
// travel: the rigging book of an aircraft. It asks for nothing from any network.
// Progress, which may be nil, is told before each sweep how many are done, of
// how many. The error is the writer's, or that of a picture.
func Book(w io.Writer, runs []BookRun, progress func(done, all int)) error {
	b, err := bookOfRuns(runs, progress)
	if err != nil {
		return err
	}
	var feet []string
	for _, run := range b.Runs {
		feet = append(feet, sheetFoot(run.ID, run.Hash))
	}
	page := newWebPage(b.Title, []string{"sheet.css", "book.css"}, []string{"motion.js", "book.js"}, nil, feet...)
	page.Content = *b
	return page.write(w, bookTemplate)
}

// bookOfRuns is what a book of runs tells, on a page of the web or on paper.
func bookOfRuns(runs []BookRun, progress func(done, all int)) (*book, error) {
	for _, run := range runs {
		if err := run.Result.Whole(); err != nil {
			return nil, err
		}
		if run.Since != nil {
			if err := render.WholeComparison(run.Since.Comparison); err != nil {
				return nil, err
			}
		}
	}
	b := &book{Several: len(runs) > 1, Caution: render.Caution}
	done, all := 0, 0
	for _, run := range runs {
		all += len(shownSweeps(run.Result, run.travels))
	}
	step := func() {
		if progress != nil {
			progress(done, all)
		}
		done++
	}
	for i, run := range runs {
		told, err := bookRunOf(fmt.Sprintf("r%d", i+1), run, step)
		if err != nil {
			return nil, err
		}
		b.Runs = append(b.Runs, told)
		b.Summary = append(b.Summary, bookLine{
			ID: told.ID, Name: told.Name, File: told.File,
			bookVerdict: told.bookVerdict, Headline: told.Headline, verdict: run.Result.Verdict,
		})
	}
	slices.SortStableFunc(b.Summary, func(x, y bookLine) int { return cmp.Compare(urgency(x.verdict), urgency(y.verdict)) })
	b.Title = "Rigging book"
	if len(runs) == 1 {
		b.Title += ": " + b.Runs[0].Name
	}
	if len(runs) > 0 && runs[0].Version != "" {
		b.Made = "Made by fullfree " + figure.Clean(runs[0].Version) + "."
	}
	return b, nil
}

// urgency puts the worst verdict first.
func urgency(v solve.Verdict) int {
	switch v {
	case solve.FallsShort:
		return 0
	case solve.Holds:
		return 2
	}
	return 1
}

// bookVerdict is a verdict on a page: in words, and the class of its frame.
type bookVerdict struct{ Verdict, Class string }

func bookVerdictOf(v solve.Verdict) bookVerdict {
	switch v {
	case solve.Holds:
		return bookVerdict{"holds", "holds"}
	case solve.FallsShort:
		return bookVerdict{"falls short", "short"}
	}
	return bookVerdict{"can't be judged", "open"}
}

// inPage is a picture of ours as it stands in a page, without what makes it a
// file of its own. The one writer of pictures has escaped all that comes from a
// run.
func inPage(svg []byte) template.HTML {
	return template.HTML(bytes.TrimSpace(svg[max(0, bytes.Index(svg, []byte("<svg"))):]))
}
