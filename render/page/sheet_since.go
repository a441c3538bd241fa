package page

import (
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve/recheck"
)

// Since is the version of a run that was signed, compared with the one that a sheet is
// printed of.
type Since struct {
	Comparison *recheck.Comparison
	// File, Date and Hash are of the signed version, as of render.RecheckOptions.
	File, Date, Hash string
}

// fill writes into the blanks of a step which measured figures nothing moves.
func (s *Since) fill(step *sheetStep) {
	stands := map[string]bool{}
	for _, l := range s.Comparison.Unmoved {
		if l.Step == step.step {
			stands[l.Says] = true
		}
	}
	for i, line := range step.Table.lines {
		if !stands[line.Says] {
			continue
		}
		row := step.Table.Rows[i]
		for k := len(row) - 1; k >= 0; k-- { // what is measured stands last
			if row[k].Blank {
				row[k].Blank, row[k].Says = false, "unmoved by the drawing since "+figure.HashBegins(s.Hash)
				break
			}
		}
	}
}

// notes tell at the head of a sheet what it was compared with and what that leaves.
func (s *Since) notes() []string {
	c := s.Comparison
	said := "Compared with " + render.OldSays(s.File, s.Date, s.Hash) + "."
	if c.Same() {
		said += " Nothing changed that moves the run or is judged of it."
	} else {
		said += " " + render.ChangedInShort(c) + " A blank is to be filled in again."
	}
	notes := []string{said, "Measured figures: " + render.UnmovedSays(s.Hash) + ". That is told where nothing moves one by more than a tenth of what the file allows it; where it allows nothing, by nothing."}
	if len(c.Opened) == 0 {
		notes = append(notes, "It compares drawings, never work: "+render.UnknownWork+".")
	}
	return notes
}
