package page

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// sheetRun is a run of an aircraft on its sheet.
type sheetRun struct {
	member *linkage.Member
	result *solve.Result // what the aircraft's tells of it
	pinned []solve.PinnedRod
}

// aircraftSheet makes the one rigging sheet of an aircraft: the steps of the work as of a
// run, and in each what is done in each run, under its name, from the hand to the blade.
func aircraftSheet(whole *solve.Result, runs []sheetRun, opts sheetOptions, files []render.FileOf) sheet {
	s := sheet{
		Run:     figure.Clean(whole.Run.Name),
		Notes:   aircraftNotes(whole, runs, opts, files),
		Head:    []sheetField{{Name: "Aircraft, serial number"}, {Name: "Drawings, issue"}, {Name: "Rigged by"}, {Name: "Date"}},
		Foot:    []sheetField{{Name: "Rigged by, signature"}, {Name: "Date, hours"}},
		Caution: render.Caution,
	}
	if s.refuse(whole) {
		return s
	}
	s.number(aircraftSteps(whole, runs))
	if opts.Since != nil {
		for i := range s.Steps {
			step := &s.Steps[i]
			opts.Since.fill(step.step, &step.Table)
			for k := range step.Groups {
				opts.Since.fill(step.step, &step.Groups[k].Table)
			}
		}
	}
	return s
}

// sheetRuns are the runs of an aircraft on its sheet, from the hand to the blade.
func sheetRuns(whole *solve.Result, pinned []solve.PinnedRod) (list []sheetRun) {
	for _, m := range render.WorkingOrder(whole.Run) {
		r := sheetRun{member: m, result: whole.Only(m)}
		for _, p := range pinned {
			if p.Rod.In == m {
				p.Rod = r.result.Run.Rod(p.Rod)
				r.pinned = append(r.pinned, p)
			}
		}
		list = append(list, r)
	}
	return list
}

// aircraftSteps are the steps of the work, in its order.
func aircraftSteps(whole *solve.Result, runs []sheetRun) []sheetStep {
	each := func(step func(sheetRun) (sheetStep, bool)) []sheetStep { return grouped(runs, step) }
	always := func(step func(*solve.Result) sheetStep) []sheetStep {
		return each(func(r sheetRun) (sheetStep, bool) { return step(r.result), true })
	}
	withCables := func(step func(*solve.Result) sheetStep) []sheetStep {
		return each(func(r sheetRun) (sheetStep, bool) { return step(r.result), len(r.result.Run.Cables) > 0 })
	}
	one := func(steps ...sheetStep) []sheetStep { return steps }
	steps := slices.Concat(
		one(stepProcedure(), stepLocks(), stepLevel()),
		stepJoined(whole.Run),
		always(stepBackOff),
		always(stepPinsIn),
		each(func(r sheetRun) (sheetStep, bool) {
			return stepRods(r.result, r.pinned), len(r.result.Run.Rods) > 0 || len(r.result.Run.Cables) == 0
		}),
		withCables(stepFitCables),
		withCables(stepDrawUp),
		one(stepPinsOut(whole)),
		each(func(r sheetRun) (sheetStep, bool) { return stepTension(r.result) }),
		one(stepStops(whole)),
		withAcross(always(stepTravels), whole),
		each(func(r sheetRun) (sheetStep, bool) { return stepPitch(r.result) }),
		each(func(r sheetRun) (sheetStep, bool) { return stepClearances(r.result) }),
		each(func(r sheetRun) (sheetStep, bool) { return jointsOf(r), true }),
		one(stepTrim(), stepForces(whole)),
		always(stepPlay),
		one(stepFull(whole), stepSense(whole), stepClose(), stepOnceMore(whole), stepIndependent()),
		each(func(r sheetRun) (sheetStep, bool) { return stepTrack(r.result) }),
	)
	for i := range steps {
		steps[i].ofRuns()
	}
	return steps
}

// ofRuns says which run each line of a step of an aircraft's sheet is of: that whose group it
// is in, outside of groups that of what it is about; else it is of the whole aircraft.
func (s *sheetStep) ofRuns() {
	for i := range s.Table.lines {
		if in := recheck.MemberOf(s.Table.lines[i].About); in != nil {
			s.Table.lines[i].Run = in.Name
		}
	}
	for i := range s.Groups {
		s.Groups[i].Table.of(s.Groups[i].run)
	}
}

// aircraftNotes tells what the sheet was made from, and until when it holds.
func aircraftNotes(whole *solve.Result, runs []sheetRun, opts sheetOptions, files []render.FileOf) []string {
	var named []string
	for _, f := range files {
		named = append(named, figure.Joined(" ", figure.Clean(f.Name), figure.HashBegins(f.Hash)))
	}
	from := "Made"
	if opts.Version != "" {
		from += " by fullfree " + figure.Clean(opts.Version)
	}
	notes := []string{from + " from these files, and how the SHA-256 of each begins: " + figure.List(named) + ". Void once any of them, a drawing or a setting changes: print it again, and begin again.",
		figure.Joined(" ", render.Headline(whole), render.UnsureInShort(whole))}
	for _, r := range runs {
		for _, words := range render.Beside(r.result) {
			notes = append(notes, r.member.Name+": "+figure.Clean(words))
		}
	}
	if opts.Since != nil {
		notes = append(notes, opts.Since.notes()...)
	}
	if len(opts.Set) > 0 {
		notes = append(notes, "As filed, but with "+figure.Clean(figure.List(opts.Set))+".")
	}
	if note := render.SurveyNote(whole.Survey); note != "" {
		notes = append(notes, note)
	}
	return append(notes, "Lengths as on each run's drawing, in the unit written; angles in degrees, from the drawn position; outputs as their gauge reads. Figures are predicted; a blank is for the aircraft to fill.")
}

// grouped makes one step of what a step is in each run that has it; none where no run has.
func grouped(runs []sheetRun, of func(sheetRun) (sheetStep, bool)) []sheetStep {
	var steps []sheetStep
	var heads, names []string
	for _, r := range runs {
		if step, has := of(r); has {
			steps, heads, names = append(steps, step), append(heads, runHead(r)), append(names, r.member.Name)
		}
	}
	if len(steps) == 0 {
		return nil
	}
	all := sheetStep{step: steps[0].step, Title: steps[0].Title, Apart: steps[0].Apart}
	for _, words := range steps[0].Says {
		alike := func(s sheetStep) bool { return slices.Contains(s.Says, words) }
		if !slices.ContainsFunc(steps, func(s sheetStep) bool { return !alike(s) }) {
			all.Says = append(all.Says, words)
		}
	}
	for i, step := range steps {
		g := sheetGroup{run: names[i], Head: heads[i], Table: step.Table, Blanks: step.Blanks}
		for _, words := range step.Says {
			if !slices.Contains(all.Says, words) {
				g.Says = append(g.Says, words)
			}
		}
		for _, source := range step.Sources {
			if !slices.Contains(all.Sources, source) {
				all.Sources = append(all.Sources, source)
			}
		}
		if len(g.Table.Rows) > 0 || len(g.Blanks) > 0 || len(g.Says) > 0 {
			all.Groups = append(all.Groups, g)
		}
	}
	return []sheetStep{all}
}

// jointsOf lists the joints of a run by the names of its own drawing: its name stands over
// them, and with it before each they would find no room.
func jointsOf(r sheetRun) sheetStep {
	step := stepJoints(r.result)
	for _, row := range step.Table.Rows {
		words := strings.Fields(row[0].Says)
		for i := range words {
			words[i] = strings.TrimPrefix(words[i], r.member.Name+".")
		}
		row[0].Says = strings.Join(words, " ")
	}
	return step
}

// runHead heads what is of one run.
func runHead(r sheetRun) string {
	return fmt.Sprintf("Run %s: %s", r.member.Name, figure.Clean(r.result.Run.Name))
}

// stepJoined finds the parts at which the runs are joined: none where no two are.
func stepJoined(run *linkage.Run) []sheetStep {
	if len(run.SameParts) == 0 {
		return nil
	}
	step := sheetStep{step: recheck.StepJoined, Title: "Where the runs join: one piece, on two drawings"}
	t := &step.Table
	t.Head = []string{"on the drawing of what drives", "on that of what is driven", "both drawings show it in one position", "found so at neutral"}
	for _, s := range run.SameParts {
		holes := "not checked: no hole has one name on both"
		if s.Aligned {
			holes = "by their holes"
		}
		line := recheck.Line{Says: s.Leads.Name + " is " + s.Follows.Of.Name, About: s.Follows.Of}
		t.line(line, cellSays(s.Leads.Name), cellSays(s.Follows.Of.Name), cellSays(holes), cellTick())
	}
	return []sheetStep{step}
}

// withAcross adds to the travels those that are asked for across runs.
func withAcross(steps []sheetStep, whole *solve.Result) []sheetStep {
	run := *whole.Run
	run.Requirements = nil
	for _, q := range whole.Run.Requirements {
		if q.In == nil {
			run.Requirements = append(run.Requirements, q)
		}
	}
	across := *whole
	across.Run = &run
	g := sheetGroup{Head: "Across the runs", Table: sheetTable{Head: slices.Clone(travelsHead)}}
	for _, c := range run.Controls {
		sweeps := byHand(whole, c)
		if len(sweeps) == 0 {
			continue
		}
		asked := func(q quantity) bool { return q.travel != nil || q.steady != nil || q.alike != nil }
		addTravels(&g.Table, &across, sweeps[0], asked)
	}
	if len(g.Table.Rows) > 0 && len(steps) > 0 {
		steps[0].Groups = append(steps[0].Groups, g)
	}
	return steps
}
