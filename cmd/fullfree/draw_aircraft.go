package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/picture"
	"fullfree/solve"
)

// drawnRun is a run with what of its travel is drawn.
type drawnRun struct {
	result *solve.Result
	swept  *solve.Sweep
	hash   string // of its file
}

// aircraftDrawing is how an aircraft is to be drawn: a sheet a run.
type aircraftDrawing struct {
	in     *input
	output string
	view   string
	charts bool
	paper  string
	full   fullSize
	chosen choice
}

func (a aircraftDrawing) draw(c *command, std streams) int {
	if wrong := a.outputFault(); wrong != "" {
		return std.fail(c, "-o %s", wrong)
	}
	in := a.in
	if *a.full.on && *a.full.only == "" {
		return std.fail(c, "%s", a.fullSizeFault())
	}
	in.Mechanism.Progress = watched(std, c)
	result, err := in.Check()
	if err == nil && !*a.full.on {
		err = in.Mechanism.AddBands(result, in.Survey)
	}
	if err != nil {
		return std.problem(c, err)
	}
	runs, err := a.runs(result)
	if err != nil {
		return std.problem(c, err)
	}
	for _, r := range runs {
		if left := render.SweepLeftOut(r.swept); left != "" {
			std.message("fullfree %s: %s\n", c.name, left)
		}
	}
	switch {
	case *a.full.on:
		return a.drawFullSize(c, std, runs)
	case isPDF(a.output):
		return a.drawPDF(c, std, result, runs)
	}
	return a.drawFolder(c, std, result, runs)
}

// outputFault tells what is wrong with where it is to be drawn; empty where nothing is.
func (a aircraftDrawing) outputFault() string {
	name, members := a.output, a.in.Run.Aircraft.Members
	if lost := a.in.overwrites(name); lost != "" {
		return lost
	}
	if isPDF(name) || *a.full.on {
		return ""
	}
	info, err := os.Stat(name)
	if err == nil && info.IsDir() {
		return ""
	}
	base := strings.TrimSuffix(name, filepath.Ext(name))
	if name == "-" {
		base = "sheets"
	}
	sheets := fmt.Sprintf("%d runs are a sheet each: name a folder for their pictures (-o %s), or one PDF (-o %s)",
		len(members), linkage.Printable(base), linkage.Printable(base+pdfEnding))
	if len(members) == 1 {
		sheets = fmt.Sprintf("name a folder for the picture of the run (-o %s), or a PDF (-o %s)", linkage.Printable(base), linkage.Printable(base+pdfEnding))
	}
	ending := strings.ToLower(filepath.Ext(name))
	switch {
	case name == "-":
		return "-: standard output takes one picture, and " + sheets
	case err == nil, ending == ".svg", pictureFault(name) != "":
		return linkage.Printable(name) + ": " + sheets
	}
	return ""
}

// fullSizeFault tells what to print in full size instead of an aircraft.
func (a aircraftDrawing) fullSizeFault() string {
	first := a.in.Run.Aircraft.Members[0].Source.Name
	return fmt.Sprintf("--full-size is of one run: name its file (fullfree draw %s -o %s --full-size), or tell one part or rod (--only)",
		linkage.Printable(first), linkage.Printable(a.output))
}

// runs are the runs of the aircraft, each with the sweep that is drawn: that of the control
// that was chosen where it moves the run, else of the first one that does.
func (a aircraftDrawing) runs(result *solve.Result) ([]drawnRun, error) {
	in := a.in
	held, err := a.chosen.holding(in.Run)
	if err != nil {
		return nil, err
	}
	var chosen *linkage.Control
	if *a.chosen.control != "" {
		if chosen, err = calls.ControlNamed(in.Run, *a.chosen.control); err != nil {
			return nil, err
		}
		if amongHeld(held, chosen) {
			return nil, fmt.Errorf("%s is the control that moves; --held is for the others", chosen.Name)
		}
	}
	var list []drawnRun
	for i, only := range result.Runs() {
		m := in.Run.Aircraft.Members[i]
		hand := handOf(in.Run, only, chosen, held)
		if hand == nil {
			return nil, fmt.Errorf("nothing that was looked at moves the run %s", m.Name)
		}
		one := drawnRun{result: only, hash: calls.HashOf(m.Source.Text)}
		if len(held) == 0 {
			one.swept = render.SweepsOf(only, only.Run.Control(hand))[0]
		} else if one.swept, err = sweepOnly(in, result, m, hand, held); err != nil {
			return nil, err
		}
		list = append(list, one)
	}
	return list, nil
}

// handOf is the control whose sweep is drawn of a run: the one that was chosen where it
// moves the run, else the first that does and isn't held.
func handOf(run *linkage.Run, only *solve.Result, chosen *linkage.Control, held []solve.Held) (hand *linkage.Control) {
	for _, c := range run.Controls {
		there := only.Run.Control(c)
		if there == nil || len(render.SweepsOf(only, there)) == 0 {
			continue
		}
		if c == chosen {
			return c
		}
		if hand == nil || amongHeld(held, hand) && !amongHeld(held, c) {
			hand = c
		}
	}
	return hand
}

// sweepOnly moves a control with others held, and returns what that tells of one run.
func sweepOnly(in *input, result *solve.Result, m *linkage.Member, hand *linkage.Control, held []solve.Held) (*solve.Sweep, error) {
	held = slices.DeleteFunc(slices.Clone(held), func(h solve.Held) bool { return h.Control == hand })
	swept, err := sweepHeld(in, hand, held)
	if err != nil {
		return nil, err
	}
	one := *result
	one.Requirements, one.Labels, one.Unfit, one.SecondPaths, one.Sweeps = nil, nil, nil, nil, []*solve.Sweep{swept}
	return one.Only(m).Sweeps[0], nil
}

// options are what the sheet of a run is told.
func (a aircraftDrawing) options(result *solve.Result, i int, of drawnRun) picture.DiagramOptions {
	return picture.DiagramOptions{
		View: a.view, Paper: sheetPaper(a.paper), Hash: of.hash, Version: version, Set: a.in.Changes(),
		Aircraft: render.OfAircraft(result, a.in.Run.Aircraft.Members[i], a.in.Files()),
	}
}

// drawPDF draws all runs on the pages of one PDF, for one paper.
func (a aircraftDrawing) drawPDF(c *command, std streams, result *solve.Result, runs []drawnRun) int {
	var sheets []picture.Sheet
	for i, of := range runs {
		opts := a.options(result, i, of)
		if a.paper == "" {
			opts.Paper = picture.PaperOf(runs[0].result.Run.Units)
		}
		sheets = append(sheets, picture.Sheet{Result: of.result, Sweep: of.swept, DiagramOptions: opts})
	}
	title := "Sweep diagrams: "
	if a.charts {
		title = "Charts: "
	}
	var out bytes.Buffer
	if err := picture.SheetsPDF(&out, title+result.Run.Name, sheets, a.charts); err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.write(c, a.output, out.Bytes())
}

// drawFolder draws each run into a picture named after it: all of them, or none.
func (a aircraftDrawing) drawFolder(c *command, std streams, result *solve.Result, runs []drawnRun) int {
	drawn := picture.Diagram
	if a.charts {
		drawn = picture.Charts
	}
	var names []string
	var pictures [][]byte
	for i, of := range runs {
		m := a.in.Run.Aircraft.Members[i]
		var out bytes.Buffer
		if err := drawn(&out, of.result, of.swept, a.options(result, i, of)); err != nil {
			return std.fail(c, "%s: %s", m.Name, linkage.Printable(err.Error()))
		}
		name := filepath.Join(a.output, m.Name+".svg")
		if lost := a.in.overwrites(name); lost != "" {
			return std.fail(c, "-o %s: %s", linkage.Printable(a.output), lost)
		}
		names, pictures = append(names, name), append(pictures, out.Bytes())
	}
	made, err := makeFolder(a.output)
	if err != nil {
		return std.fail(c, "can't make the folder %s: %s", linkage.Printable(a.output), reason(err))
	}
	if name, err := writeTogether(names, pictures); err != nil {
		if made {
			os.Remove(a.output)
		}
		return std.fail(c, "%s; nothing is written", cantWrite(name, err))
	}
	std.message("Written: %s.\n", printableList(names))
	return exitOK
}

// makeFolder makes a folder where there is none yet, and tells whether it did.
func makeFolder(name string) (made bool, err error) {
	err = os.Mkdir(name, 0o777)
	if errors.Is(err, os.ErrExist) {
		if info, there := os.Stat(name); there == nil && info.IsDir() {
			return false, nil
		}
	}
	return err == nil, err
}

// drawFullSize prints one part or rod in full size.
func (a aircraftDrawing) drawFullSize(c *command, std streams, runs []drawnRun) int {
	if _, err := onlyNamed(a.in.Run, *a.full.only); err != nil {
		return std.fail(c, "--only: %s", err)
	}
	i := slices.IndexFunc(runs, func(of drawnRun) bool {
		_, err := onlyNamed(of.result.Run, *a.full.only)
		return err == nil
	})
	return a.full.draw(c, std, a.in, runs[i], a.view, a.output)
}
