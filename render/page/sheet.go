package page

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// sheetOptions is what a rigging sheet is told besides the results.
type sheetOptions struct {
	File    string // as the user named it; empty: not told
	Hash    string // SHA-256 of the file, hexadecimal
	Version string // of the program
	// Set are the dimensions that were changed after reading.
	Set []string
	// Pinned is what every rod measures with all pins in; nil: not told.
	Pinned []solve.PinnedRod
	// Since is the version that was signed, with what may stand since; nil: every blank
	// is for the aircraft to fill.
	Since *Since
}

// sheet is the rigging sheet of a run (sheet.html writes it): what is done at the aircraft, in that
// order, with figures where the results have them and blanks where only the
// aircraft does. All in it is text to be shown as it is.
type sheet struct {
	Run   string
	View  string
	Notes []string // what the sheet rests on, and when it is void
	// Refused is why there is no sheet to sign: then there are neither fields nor steps.
	Refused []string
	Head    []sheetField
	Steps   []sheetStep
	Foot    []sheetField
	Caution string
}

// sheetField is a line with a name: what is known, or a blank to fill in.
type sheetField struct{ Name, Says string }

// sheetStep is one step of the work.
type sheetStep struct {
	step    recheck.Step
	Number  int
	Title   string
	Says    []string
	Table   sheetTable
	Blanks  []string // lines to fill in, after their words
	Sources []string // of the rules that it states
	Apart   bool     // set off from the others: not to be overlooked
	// Groups are what is done of it in each run of an aircraft.
	Groups []sheetGroup
}

// sheetGroup is what a step is in one run of an aircraft, under the run's name.
type sheetGroup struct {
	run    string // its run in the aircraft
	Head   string
	Says   []string
	Table  sheetTable
	Blanks []string
}

// sheetTable is a table to fill in.
type sheetTable struct {
	Head []string
	Rows [][]sheetCell
	// lines are what the rows are of, row by row, without their step; one that says
	// nothing is not to be filled in.
	lines []recheck.Line
}

// add adds a row to be read, its cells under the table's heads.
func (t *sheetTable) add(cells ...sheetCell) { t.line(recheck.Line{}, cells...) }

// of says which run the lines of a table are of, by what it is called in answers.
func (t *sheetTable) of(run string) {
	for i := range t.lines {
		t.lines[i].Run = run
	}
}

// line adds a row to be filled in.
func (t *sheetTable) line(of recheck.Line, cells ...sheetCell) {
	for i := range cells {
		cells[i].Under = t.Head[i]
	}
	t.Rows = append(t.Rows, cells)
	t.lines = append(t.lines, of)
}

// sheetCell is words, room to write, or boxes to tick.
type sheetCell struct {
	Under string // its column's head
	Says  string
	Blank bool
	Boxes []string // the words after each; one without any: a lone box
}

func cellSays(words string) sheetCell { return sheetCell{Says: words} }

func cellBlank() sheetCell { return sheetCell{Blank: true} }

// cellTick is a box for each of the words, or a lone one.
func cellTick(words ...string) sheetCell {
	if len(words) == 0 {
		words = []string{""}
	}
	return sheetCell{Boxes: words}
}

// sheetOf makes the rigging sheet of a run.
func sheetOf(r *solve.Result, opts sheetOptions) sheet {
	s := sheet{
		Run:     figure.Clean(r.Run.Name),
		Notes:   sheetNotes(r, opts),
		Head:    []sheetField{{Name: "Aircraft, serial number"}, {Name: "Drawing, issue"}, {Name: "Rigged by"}, {Name: "Date"}},
		Foot:    sheetFootFields(),
		Caution: render.Caution,
	}
	if r.Run.View != "" {
		s.View = "Drawn as seen " + figure.Clean(r.Run.View) + "."
	}
	if s.refuse(r) {
		return s
	}
	s.number(sheetSteps(r, opts.Pinned))
	if opts.Since != nil {
		for i := range s.Steps {
			opts.Since.fill(s.Steps[i].step, &s.Steps[i].Table)
		}
	}
	return s
}

// sheetFootFields are what is signed at the foot of a sheet.
func sheetFootFields() []sheetField {
	return []sheetField{{Name: "Rigged by, signature"}, {Name: "Date, hours"}}
}

// sheetSteps are the steps of the work, in its order.
func sheetSteps(r *solve.Result, pinned []solve.PinnedRod) []sheetStep {
	steps := []sheetStep{stepProcedure(), stepLocks(), stepLevel(), stepBackOff(r), stepPinsIn(r)}
	if len(r.Run.Rods) > 0 || len(r.Run.Cables) == 0 {
		steps = append(steps, stepRods(r, pinned))
	}
	steps = append(steps, stepsCables(r)...)
	steps = append(steps, stepPinsOut(r))
	if tension, ok := stepTension(r); ok {
		steps = append(steps, tension)
	}
	steps = append(steps, stepStops(r), stepTravels(r))
	if pitch, ok := stepPitch(r); ok {
		steps = append(steps, pitch)
	}
	if room, ok := stepClearances(r); ok {
		steps = append(steps, room)
	}
	steps = append(steps, stepJoints(r), stepTrim(), stepForces(r), stepPlay(r), stepFull(r), stepSense(r), stepClose(), stepOnceMore(r), stepIndependent())
	if track, ok := stepTrack(r); ok {
		steps = append(steps, track)
	}
	for i := range steps {
		steps[i].Table.of(r.Run.Name)
	}
	return steps
}

// refuse leaves nothing to sign where the drawing contradicts the words of the file, and
// reports whether it does.
func (s *sheet) refuse(r *solve.Result) bool {
	contradicted := r.Contradicted()
	if len(contradicted) == 0 {
		return false
	}
	s.Head, s.Foot = nil, nil
	s.Refused = []string{"No sheet to sign: the drawing contradicts the words of the file, so what it would have confirmed as the right sense may be the wrong one. Mend the words or the drawing, and print it again."}
	for _, j := range contradicted {
		s.Refused = append(s.Refused, figure.Clean(render.Says(r, j)))
	}
	return true
}

// number adds steps, each with its number.
func (s *sheet) number(steps []sheetStep) {
	for _, step := range steps {
		step.Number = len(s.Steps) + 1
		s.Steps = append(s.Steps, step)
	}
}

// sheetNotes tells what the sheet was made from, and until when it holds.
func sheetNotes(r *solve.Result, opts sheetOptions) []string {
	from := "Made"
	if opts.Version != "" {
		from += " by fullfree " + figure.Clean(opts.Version)
	}
	if from += " from the run's file"; opts.File != "" {
		from += " " + figure.Clean(opts.File)
	}
	if hash := figure.HashBegins(opts.Hash); hash != "" {
		from += ", SHA-256 begins " + hash
	}
	again := ", and begin again"
	if opts.Since != nil {
		again = "" // what is to be begun again is told below
	}
	notes := []string{from + ". Void once the file, the drawing or a setting changes: print it again" + again + ".", render.Headline(r)}
	if unsure := render.Unsure(r); unsure != "" {
		notes = append(notes, unsure)
	}
	for _, words := range render.Beside(r) {
		notes = append(notes, figure.Clean(words))
	}
	if len(opts.Set) > 0 {
		notes = append(notes, "As filed, but with "+figure.Clean(figure.List(opts.Set))+".")
	}
	if opts.Since != nil {
		notes = append(notes, opts.Since.notes()...)
	}
	if note := render.SurveyNote(r.Survey); note != "" {
		notes = append(notes, note)
	}
	units := "Lengths in millimeters"
	if r.Run.Units == linkage.Inches {
		units = "Lengths in inches"
	}
	return append(notes, units+", angles in degrees, from the drawn position; outputs as their gauge reads. Figures are predicted; a blank is for the aircraft to fill.")
}

// sheetFoot is a rule of style: it prints at the foot of every page of a run's
// sheet what the sheet was made from, for pages that come apart. The id is one
// of the page's own making.
func sheetFoot(id, hash string) string { return sheetFootOf(id, sheetFootSays(hash)) }

// sheetFootOf is sheetFoot with the words for it, which are of the page's own making.
func sheetFootOf(id, says string) string {
	return fmt.Sprintf("@page %[1]s-sheet { @bottom-left { content: \"%[2]s\"; font: 8pt sans-serif; } }\n"+
		"@media print { #%[1]s .sheet { page: %[1]s-sheet; } }\n", id, says)
}

// sheetFootSays tells what a sheet was made from.
func sheetFootSays(hash string) string {
	says := "Rigging sheet"
	if begins := figure.HashBegins(hash); begins != "" {
		says += " of the file whose SHA-256 begins " + begins
	}
	return says + ". Void once the file changes."
}
