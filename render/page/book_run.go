package page

import (
	"html/template"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
)

// bookRun is one run in a book, in the order in which it is read.
type bookRun struct {
	ID, Name, File, View string
	bookVerdict
	Headline string
	Beside   []render.Passage // to be known beside the verdict
	Short    []string         // what falls short or can't be judged, each in full

	Travels  []bookTravel
	Shares   bool           // several controls share the page that charts are printed on
	Settings []bookSettings // how each control moves with others held elsewhere
	LeftOut  string         // tells of sweeps that aren't shown

	Required []bookRequired
	Together []render.Passage
	Rods     []render.Passage // and cables
	RodsHead string
	Stops    []render.Passage
	Rotor    []render.Passage // what the controls do to its blades
	Play     []render.Passage // how far it can be rocked
	Made     []render.Passage // what is left when it is made a little off
	Read     []render.Passage
	Scope    []string
	Caution  string
	Sheet    sheet
	// Driven tells in an aircraft by what the run is driven; Apart that its sheet is that of
	// the aircraft, and not told with it.
	Driven []string
	Apart  bool

	Set           []string
	Hash, Version string
	Unseen        string // tells of characters that stand as their codes
	Listing       template.HTML

	result *solve.Result
	text   []byte
}

// bookRunOf makes one run of a book. Step is called before each sweep.
func bookRunOf(id string, run BookRun, step func()) (bookRun, error) {
	r := run.Result
	b := bookRun{
		ID: id, Name: figure.Clean(r.Run.Name), File: figure.Clean(run.File),
		bookVerdict: bookVerdictOf(r.Verdict),
		Headline:    render.Headline(r),
		Beside:      render.BesidePassages(r, run.ReportOptions),
		Rods:        render.RodPassages(r, run.Pinned),
		RodsHead:    rodsHead(r.Run),
		Stops:       render.StopPassages(r.Run),
		Rotor:       render.RotorPassages(r),
		Play:        render.PlayPassages(r),
		Made:        render.BuildsPassages(run.Builds),
		Read:        render.PartPassages(r),
		Caution:     render.Caution,
		Sheet:       sheetOf(r, sheetOptions{File: run.File, Hash: run.Hash, Version: run.Version, Set: run.Set, Pinned: run.Pinned, Since: run.Since}),
		Hash:        figure.Hexadecimal(run.Hash), Version: figure.Clean(run.Version),
		Settings: settingsOf(r),
		Shares:   len(r.Run.Controls) > 1,
		result:   r, text: run.Text,
	}
	b.Listing, b.Unseen = listing(run.Text)
	if r.Run.View != "" {
		b.View = "Drawn as seen " + figure.Clean(r.Run.View) + "."
	}
	for _, change := range run.Set {
		b.Set = append(b.Set, figure.Clean(change))
	}
	render.Scope(func(words string) { b.Scope = append(b.Scope, words) }, figure.Clean(run.File), r, run.ReportOptions)
	if len(r.Sweeps) > 1 {
		b.Together = render.TogetherPassages(r)
	}
	for _, j := range r.Judged() {
		if j.Verdict != solve.Holds {
			b.Short = append(b.Short, render.RequirementTitle(r, j.Requirement)+": "+render.Says(r, j))
		}
	}
	shown := shownSweeps(r, run.travels)
	for _, s := range shown {
		step()
		travel, err := bookTravelOf(travelID(id, s), r, s)
		if err != nil {
			return b, err
		}
		b.Travels = append(b.Travels, travel)
	}
	if left := len(r.Sweeps) - len(shown); left > 0 {
		b.LeftOut = "Judged like the others, but not shown here: " + figure.Count(left, "more setting") +
			". \"fullfree draw\" with --control and --held shows any one."
	}
	for _, j := range r.Judged() {
		b.Required = append(b.Required, bookRequiredOf(id, r, j, shown))
	}
	return b, nil
}

// rodsHead names what is told of rods and cables.
func rodsHead(run *linkage.Run) string {
	switch {
	case len(run.Cables) == 0:
		return "Rods"
	case len(run.Rods) == 0:
		return "Cables"
	}
	return "Rods and cables"
}
