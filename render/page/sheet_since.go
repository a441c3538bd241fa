package page

import (
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve/recheck"
)

// Since is the version of a run or an aircraft that was signed, compared with the one that
// a sheet is printed of.
type Since struct {
	Comparison *recheck.Comparison
	// File, Date and Hash are of the signed version, as of render.RecheckOptions.
	File, Date, Hash string
	// Runs are the files of the runs of an aircraft that was signed; none of a run.
	Runs []render.FileOf
}

// fill writes into the blanks of a table of a step which measured figures nothing moves.
func (s *Since) fill(step recheck.Step, table *sheetTable) {
	type key struct{ run, says string }
	stands := map[key]bool{}
	for _, l := range s.Comparison.Unmoved {
		if l.Step == step {
			stands[key{l.Run, l.Says}] = true
		}
	}
	for i, line := range table.lines {
		if !stands[key{line.Run, line.Says}] {
			continue
		}
		row := table.Rows[i]
		for k := len(row) - 1; k >= 0; k-- { // what is measured stands last
			if row[k].Blank {
				row[k].Blank, row[k].Says = false, "unmoved by the drawing since "+render.SinceHashes(s.Hash, s.Runs, line.Run)
				break
			}
		}
	}
}

// notes tell at the head of a sheet what it was compared with and what that leaves.
func (s *Since) notes() []string {
	c := s.Comparison
	said := "Compared with " + render.OldSays(s.File, s.Date, s.Hash) + render.RunHashes(s.Runs) + "."
	if c.Same() {
		said += " Nothing changed that moves the run or is judged of it."
	} else {
		said += " " + render.ChangedInShort(c) + " A blank is to be filled in again."
	}
	notes := []string{said, "Measured figures: " + render.UnmovedSays(figure.HashBegins(s.Hash)) + ". That is told where nothing moves one by more than a tenth of what the file allows it; where it allows nothing, by nothing."}
	if len(c.Opened) == 0 {
		notes = append(notes, "It compares drawings, never work: "+render.UnknownWork+".")
	}
	return notes
}
