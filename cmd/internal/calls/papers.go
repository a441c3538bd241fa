package calls

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	"fullfree/render/page"
	"fullfree/render/picture"
	"fullfree/solve"
	"fullfree/solve/tolerance"
)

// bookBuilds is how many builds a book tells of, and a page unless it asks for another
// number: enough to tell a share to two percent, in a part of a second.
const bookBuilds = 2000

// BookRun is the run, judged, as a book takes it; of an aircraft the whole. Progress, which
// may be nil, is told how many builds of it are made.
func (in *Input) BookRun(progress func(done, of int)) (page.BookRun, error) {
	result, err := in.Judged()
	if err != nil {
		return page.BookRun{}, err
	}
	builds, err := tolerance.Run(in.Mechanism, tolerance.Options{Builds: bookBuilds, Seed: 1, Progress: progress})
	if err != nil {
		builds = nil // nothing may be out, or it can't be rigged, which fullfree tolerance tells
	}
	run := in.sheetRun(result)
	run.Builds = builds
	return run, nil
}

// sheetRun is the run as its rigging sheet takes it.
func (in *Input) sheetRun(result *solve.Result) page.BookRun {
	return page.BookRun{
		File: in.Filed(), Text: in.Source.Text, Set: in.Changes(), Result: result, Pinned: in.Mechanism.Pinned(),
		ReportOptions: render.ReportOptions{Hash: in.Hash(), Version: Version, Redrawn: in.Redrawn, Unused: in.Unused()},
	}
}

// BookAircraft is an aircraft as a book takes it, made of what BookRun returned.
func (in *Input) BookAircraft(run page.BookRun) page.BookAircraft {
	return page.BookAircraft{BookRun: run, Runs: in.MemberOptions(), Together: in.Together()}
}

// whole judges the file once more, with how sure all answers are, however large it is.
func (b *Bench) whole() (*Input, *solve.Result, error) {
	in := b.filed.in
	if b.filed.banded() {
		return in, b.filed.result, b.filed.addBands()
	}
	result, err := in.Judged()
	return in, result, err
}

// check answers what "fullfree check --json" prints of the file.
func (b *Bench) check(*Asked) Answer {
	_, result, err := b.whole()
	if err != nil {
		return unfit(err)
	}
	return told(func(w io.Writer) error { return machine.CheckJSON(w, b.name, result) })
}

// book makes the rigging book of the file, as a page of the web or as PDF.
func (b *Bench) book(ask *Asked) Answer {
	in := b.filed.in
	run, err := in.BookRun(b.progress)
	if err != nil {
		return unfit(err)
	}
	return told(func(w io.Writer) error {
		switch aircraft := in.Run.Aircraft != nil; {
		case aircraft && ask.PDF:
			return page.AircraftBookPDF(w, in.BookAircraft(run), ask.Paper, b.progress)
		case aircraft:
			return page.AircraftBook(w, in.BookAircraft(run), b.progress)
		case ask.PDF:
			return page.BookPDF(w, []page.BookRun{run}, ask.Paper, b.progress)
		}
		return page.Book(w, []page.BookRun{run}, b.progress)
	})
}

// sheet tells the rigging sheet of the file, to be shown step by step.
func (b *Bench) sheet(*Asked) Answer {
	in, result, err := b.whole()
	if err != nil {
		return unfit(err)
	}
	run := in.sheetRun(result)
	return told(func(w io.Writer) error {
		if in.Run.Aircraft != nil {
			return page.AircraftSheetJSON(w, in.BookAircraft(run))
		}
		return page.SheetJSON(w, run)
	})
}

// fullSize prints one view of the file in full size, or one part or rod alone; of an
// aircraft that alone.
func (b *Bench) fullSize(ask *Asked) Answer {
	in := b.filed.in
	result, hash := b.filed.result, in.Hash()
	if in.Run.Aircraft != nil {
		if ask.Only == "" {
			return unfit(errors.New("an aircraft is printed in full size part by part: name the part or rod"))
		}
		i := slices.IndexFunc(result.Runs(), func(r *solve.Result) bool { return named(r.Run, ask.Only) && len(r.Sweeps) > 0 })
		if i < 0 {
			return Refused(Wrong, "there is no part or rod %q", linkage.Printable(ask.Only))
		}
		result, hash = result.Runs()[i], HashOf(in.Run.Aircraft.Members[i].Source.Text)
	}
	if ask.Only != "" && !named(result.Run, ask.Only) {
		return Refused(Wrong, "there is no part or rod %q", linkage.Printable(ask.Only))
	}
	paper := ask.Paper
	if paper == "" {
		paper = picture.PaperOf(result.Run.Units)
	}
	if len(result.Sweeps) == 0 {
		return unfit(fmt.Errorf("nothing of %s could be moved, so there is nothing to print", linkage.Printable(b.name)))
	}
	return told(func(w io.Writer) error {
		return picture.FullSizePDF(w, result, result.Sweeps[0], picture.FullSizeOptions{View: ask.View, Paper: paper, Hash: hash, Version: Version, Only: ask.Only})
	})
}

// named reports whether a run has a part or rod of that name.
func named(run *linkage.Run, name string) bool {
	return slices.ContainsFunc(run.Parts, func(p *linkage.Part) bool { return p.Name == name }) ||
		slices.ContainsFunc(run.Rods, func(r *linkage.Rod) bool { return r.Name == name })
}
