package page

import (
	"fmt"
	"io"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/picture"
	"fullfree/solve"
)

// BookAircraft is an aircraft of which one book is made: its file and the whole result, as
// of a run.
type BookAircraft struct {
	BookRun
	// Runs is what is told of each run besides its results, by the aircraft's members.
	Runs []render.ReportOptions
	// Together is the SHA-256 of all files one after another, the aircraft's first, then
	// its runs' in its order.
	Together string
}

// bookAircraft is what a book tells of the aircraft before its runs, and after them.
type bookAircraft struct {
	bookRun
	Hands    []bookHand
	Members  []bookMember // from the hand to the blade
	Files    []bookFile
	Together string
	Across   []bookRequired
}

// bookHand is what one control does, hand to blade.
type bookHand struct {
	Title string
	Told  []render.Passage
}

// bookMember is a run of the aircraft in the list of them.
type bookMember struct {
	bookLine
	Member string // its name in the aircraft
	Driven []string
}

// bookFile is a file that the book was made from.
type bookFile struct{ Run, Name, Hash string }

// AircraftBook writes an aircraft as one page, as Book does runs: first what its hands do,
// then each run as it moves in the aircraft, from the hand to the blade, what is required
// across runs, and the one rigging sheet.
func AircraftBook(w io.Writer, a BookAircraft, progress func(done, all int)) error {
	b, err := bookOfAircraft(a, progress)
	if err != nil {
		return err
	}
	page := newWebPage(b.Title, []string{"sheet.css", "book.css"}, []string{"motion.js", "book.js"}, nil,
		sheetFootOf(b.Aircraft.ID+"-sheet", aircraftFoot(a.Together)))
	page.Content = *b
	return page.write(w, bookTemplate)
}

// AircraftBookPDF writes it as a PDF, for a paper as BookPDF.
func AircraftBookPDF(w io.Writer, a BookAircraft, named string, progress func(done, all int)) error {
	b, err := bookOfAircraft(a, progress)
	if err != nil {
		return err
	}
	if named == "" {
		named = picture.PaperOf(b.Runs[0].result.Run.Units)
	}
	return b.pdf(w, named)
}

// aircraftTravels is how many travels a book shows of all runs of an aircraft together, but
// at least one of each hand in each run: more would be too large for a phone. All are judged.
const aircraftTravels = 24

// aircraftFoot tells at the foot of every page of the sheet what it was made from.
func aircraftFoot(together string) string {
	says := "Rigging sheet of the aircraft"
	if begins := figure.HashBegins(together); begins != "" {
		says += " whose files together have the SHA-256 that begins " + begins
	}
	return says + ". Void once any of them changes."
}

// bookOfAircraft is the book of an aircraft: that of its runs, with what is told of the whole.
func bookOfAircraft(a BookAircraft, progress func(done, all int)) (*book, error) {
	whole := a.Result
	if err := whole.Whole(); err != nil {
		return nil, err
	}
	if whole.Run.Aircraft == nil || len(a.Runs) != len(whole.Run.Aircraft.Members) {
		return nil, fmt.Errorf("%s is no aircraft whose runs are told", figure.Clean(a.File))
	}
	if a.Since != nil {
		if err := render.WholeComparison(a.Since.Comparison); err != nil {
			return nil, err
		}
	}
	var runs []BookRun
	for _, m := range render.WorkingOrder(whole.Run) {
		runs = append(runs, a.runOf(m))
	}
	b, err := bookOfRuns(runs, progress)
	if err != nil {
		return nil, err
	}
	b.Title = "Rigging book: " + figure.Clean(whole.Run.Name)
	b.Aircraft = &bookAircraft{bookRun: a.wholeOf(), Together: figure.Hexadecimal(a.Together)}
	of := b.Aircraft
	of.Sheet = a.sheet(runs)
	for _, f := range a.files() {
		of.Files = append(of.Files, bookFile{f.Run, figure.Clean(f.Name), figure.HashBegins(f.Hash)})
	}
	for _, c := range whole.Run.Controls {
		if sweeps := render.SweepsOf(whole, c); len(sweeps) > 0 {
			of.Hands = append(of.Hands, bookHand{render.HandTitle(c, sweeps), render.HandPassages(whole, c)})
		}
	}
	for i, m := range render.WorkingOrder(whole.Run) {
		told := &b.Runs[i]
		told.Apart, told.Driven = true, render.DrivenSays(whole.Run, m)
		of.Members = append(of.Members, bookMember{
			bookLine: bookLine{ID: told.ID, Name: told.Name, File: told.File, bookVerdict: told.bookVerdict, Headline: told.Headline},
			Member:   m.Name, Driven: told.Driven,
		})
		told.Name = m.Name + ": " + told.Name
	}
	for _, j := range whole.Across() {
		of.Across = append(of.Across, bookRequiredOf(of.ID, whole, j, nil))
	}
	return b, nil
}

// sheet is the one rigging sheet, of the runs in working order.
func (a BookAircraft) sheet(runs []BookRun) sheet {
	var list []sheetRun
	for i, m := range render.WorkingOrder(a.Result.Run) {
		list = append(list, sheetRun{m, runs[i].Result, runs[i].Pinned})
	}
	return aircraftSheet(a.Result, list, sheetOptions{File: a.File, Hash: a.Hash, Version: a.Version, Set: a.Set, Since: a.Since}, a.files())
}

// files are all that the book was made from, the aircraft's first.
func (a BookAircraft) files() []render.FileOf {
	list := []render.FileOf{{Name: a.File, Hash: a.Hash}}
	for i, m := range a.Result.Run.Aircraft.Members {
		list = append(list, render.FileOf{Run: m.Name, Name: m.File, Hash: a.Runs[i].Hash})
	}
	return list
}

// runOf is one run as a book tells it.
func (a BookAircraft) runOf(m *linkage.Member) BookRun {
	one := BookRun{File: m.File, Text: m.Source.Text, Result: a.Result.Only(m), ReportOptions: a.Runs[m.Index]}
	one.travels = max(len(one.Result.Run.Controls), aircraftTravels/len(a.Runs))
	for _, p := range a.Pinned {
		if p.Rod.In == m {
			p.Rod = one.Result.Run.Rod(p.Rod)
			one.Pinned = append(one.Pinned, p)
		}
	}
	for _, change := range a.Set {
		if strings.HasPrefix(change, m.Name+".") {
			one.Set = append(one.Set, change)
		}
	}
	return one
}

// wholeOf is what is told of the whole as of a run.
func (a BookAircraft) wholeOf() bookRun {
	r := a.Result
	b := bookRun{
		ID: "a", Name: figure.Clean(r.Run.Name), File: figure.Clean(a.File),
		bookVerdict: bookVerdictOf(r.Verdict), Headline: render.Headline(r),
		Caution: render.Caution,
		Hash:    figure.Hexadecimal(a.Hash), Version: figure.Clean(a.Version),
		result: r, text: a.Text,
	}
	b.Listing, b.Unseen = listing(a.Text)
	for _, change := range a.Set {
		b.Set = append(b.Set, figure.Clean(change))
	}
	render.Scope(func(words string) { b.Scope = append(b.Scope, words) }, figure.Clean(a.File)+" and the files that it names", r, a.ReportOptions)
	for _, j := range r.Judged() {
		if j.Verdict != solve.Holds {
			b.Short = append(b.Short, render.RequirementTitle(r, j.Requirement)+": "+render.Says(r, j))
		}
	}
	if says := render.UnsureInShort(r); says != "" {
		b.Short = append(b.Short, says)
	}
	b.Short = append(b.Short, render.NotCheckedSays(r)...)
	return b
}
