package page

import (
	"fmt"
	"io"

	"fullfree/render"
	"fullfree/render/figure"
)

// sheetJSON is the rigging sheet for a page that shows it step by step.
type sheetJSON struct {
	Hash    string          `json:"hash"`
	Title   string          `json:"title"`
	Foot    string          `json:"foot"` // what it was made from, and until when it holds
	Notes   []string        `json:"notes"`
	Refused []string        `json:"refused"` // why there is none to sign; else empty
	Head    []string        `json:"head"`    // lines to fill in
	Steps   []sheetStepJSON `json:"steps"`
	Signed  []string        `json:"signed"` // lines to sign, on paper
	Caution string          `json:"caution"`
}

type sheetStepJSON struct {
	Number  int              `json:"number"`
	Title   string           `json:"title"`
	Apart   bool             `json:"apart"`
	Groups  []sheetGroupJSON `json:"groups"` // the first has no head
	Sources []string         `json:"sources"`
}

type sheetGroupJSON struct {
	Head   string            `json:"head"`
	Says   []string          `json:"says"`
	Table  []string          `json:"table"` // its heads
	Rows   [][]sheetCellJSON `json:"rows"`
	Blanks []string          `json:"blanks"`
}

type sheetCellJSON struct {
	Says  string   `json:"says"`
	Blank bool     `json:"blank"`
	Boxes []string `json:"boxes"`
}

// SheetJSON writes the rigging sheet of a run.
func SheetJSON(w io.Writer, run BookRun) error {
	if err := run.Result.Whole(); err != nil {
		return err
	}
	s := sheetOf(run.Result, sheetOptions{File: run.File, Hash: run.Hash, Version: run.Version, Set: run.Set, Pinned: run.Pinned, Since: run.Since})
	return writeCompact(w, sheetToldOf(s, run.Hash, sheetFootSays(run.Hash)))
}

// AircraftSheetJSON writes the one rigging sheet of an aircraft.
func AircraftSheetJSON(w io.Writer, a BookAircraft) error {
	whole := a.Result
	if err := whole.Whole(); err != nil {
		return err
	}
	if whole.Run.Aircraft == nil || len(a.Runs) != len(whole.Run.Aircraft.Members) {
		return fmt.Errorf("%s is no aircraft whose runs are told", figure.Clean(a.File))
	}
	var runs []BookRun
	for _, m := range render.WorkingOrder(whole.Run) {
		runs = append(runs, a.runOf(m))
	}
	return writeCompact(w, sheetToldOf(a.sheet(runs), a.Together, aircraftFoot(a.Together)))
}

func sheetToldOf(s sheet, hash, foot string) sheetJSON {
	out := sheetJSON{
		Hash: hash, Title: "Rigging sheet: " + s.Run, Foot: foot, Notes: append([]string{}, s.Notes...), Refused: append([]string{}, s.Refused...),
		Head: fieldNames(s.Head), Steps: []sheetStepJSON{}, Signed: fieldNames(s.Foot), Caution: s.Caution,
	}
	if s.View != "" {
		out.Notes = append([]string{s.View}, out.Notes...)
	}
	for i := range s.Steps {
		step := &s.Steps[i]
		told := sheetStepJSON{Number: step.Number, Title: step.Title, Apart: step.Apart, Sources: append([]string{}, step.Sources...)}
		told.Groups = append(told.Groups, sheetGroupOf("", step.Says, &step.Table, step.Blanks))
		for k := range step.Groups {
			g := &step.Groups[k]
			told.Groups = append(told.Groups, sheetGroupOf(g.Head, g.Says, &g.Table, g.Blanks))
		}
		out.Steps = append(out.Steps, told)
	}
	return out
}

func fieldNames(list []sheetField) []string {
	names := []string{}
	for _, f := range list {
		names = append(names, f.Name)
	}
	return names
}

func sheetGroupOf(head string, says []string, table *sheetTable, blanks []string) sheetGroupJSON {
	out := sheetGroupJSON{Head: head, Says: append([]string{}, says...), Table: append([]string{}, table.Head...), Rows: [][]sheetCellJSON{}, Blanks: append([]string{}, blanks...)}
	for _, row := range table.Rows {
		cells := []sheetCellJSON{}
		for _, c := range row {
			cells = append(cells, sheetCellJSON{c.Says, c.Blank, append([]string{}, c.Boxes...)})
		}
		out.Rows = append(out.Rows, cells)
	}
	return out
}
