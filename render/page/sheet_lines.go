package page

import (
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// SheetLines lists every line of the rigging sheet of a run, or of an aircraft, that is to
// be filled in or ticked, in the order of the sheet: what the sheet is made of, so what is
// told of a line is told of what stands there. One whose sheet is refused has them too: it
// will be signed once the file is mended.
func SheetLines(r *solve.Result, pinned []solve.PinnedRod) []recheck.Line {
	if r.Whole() != nil {
		return nil
	}
	s := sheet{Foot: sheetFootFields()}
	if r.Run.Aircraft != nil {
		s.Steps = aircraftSteps(r, sheetRuns(r, pinned))
		return s.lines("")
	}
	s.Steps = sheetSteps(r, pinned)
	return s.lines(r.Run.Name)
}

// lines lists the lines of a sheet: rows, blanks, and the signatures at its foot, which
// stand under no title. What is of no run of an aircraft is of the run told.
func (s *sheet) lines(run string) (list []recheck.Line) {
	add := func(step *sheetStep, table *sheetTable, blanks []string, run string) {
		for _, line := range table.lines {
			if line.Says != "" {
				line.Step, line.Title = step.step, step.Title
				list = append(list, line)
			}
		}
		for _, blank := range blanks {
			list = append(list, recheck.Line{Run: run, Step: step.step, Title: step.Title, Says: blank})
		}
	}
	for i := range s.Steps {
		step := &s.Steps[i]
		add(step, &step.Table, step.Blanks, run)
		for k := range step.Groups {
			g := &step.Groups[k]
			add(step, &g.Table, g.Blanks, g.run)
		}
	}
	for _, field := range s.Foot {
		list = append(list, recheck.Line{Run: run, Step: recheck.StepSigned, Says: field.Name})
	}
	return list
}

// stepClearances leaves room for what is measured between metal that is required to keep
// apart; ok is false where nothing is.
func stepClearances(r *solve.Result) (step sheetStep, ok bool) {
	step = sheetStep{
		step:  recheck.StepClearances,
		Title: "Room between metal",
		Says:  []string{"Measured with the control where it is least."},
	}
	t := &step.Table
	t.Head = []string{"between", "predicted", "least wanted", "as measured"}
	for i := range r.Requirements {
		j := &r.Requirements[i]
		req := j.Requirement
		if req.Kind != linkage.Clearance || j.Worst == nil {
			continue
		}
		between := req.Between[0].String() + " and " + req.Between[1].String()
		predicted := figure.Against(*j.Worst, req.Least, j.Unit)
		if at := render.WorstAt(r, j); at != "" {
			predicted += ", with " + at
		}
		line := recheck.Line{Says: between, About: metalOf(req), Figure: &recheck.Figure{Value: *j.Worst, Unit: j.Unit, Allowed: req.Least}}
		t.line(line, cellSays(between), cellSays(predicted), cellSays(figure.Given(req.Least, j.Unit)), cellBlank())
	}
	return step, len(t.Rows) > 0
}

// metalOf is what moves of the two things that are to keep apart: the first that does.
func metalOf(req *linkage.Requirement) linkage.Element {
	for _, metal := range req.Between {
		switch {
		case metal.Rod != nil:
			return metal.Rod
		case metal.Part != nil && metal.Part.Motion != linkage.Fixed:
			return metal.Part
		}
	}
	return nil
}

// stepTrack is for rotors: what sets their pitch sets their track; ok is false where the
// run has nothing that does.
func stepTrack(r *solve.Result) (step sheetStep, ok bool) {
	return sheetStep{
		step:   recheck.StepTrack,
		Title:  "After a change of pitch: track",
		Says:   []string{"Where anything that the collective moves, or a pitch link, was opened or set anew. The maker's procedure rules."},
		Blanks: []string{"Track", "What else the maker asks"},
		Sources: []string{
			"Track after work on what sets the pitch: " + render.NoSource + ".",
		},
	}, len(recheck.PitchSetters(r)) > 0
}
