package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"

	"fullfree/linkage"
	"fullfree/render/picture"
	"fullfree/solve/survey"
)

// pageEnding is how the names of pages end.
const pageEnding = ".svg"

// blank is a run to be measured: the file to fill in, and the page to take to
// the aircraft.
type blank struct{ file, page []byte }

// blankOf makes a blank of a demo. File is the name that the file will have; may be
// empty.
func blankOf(kind string, text []byte, file string) (blank, error) {
	run, err := linkage.Read(&linkage.Source{Name: kind + fileEnding, Text: text})
	if err != nil {
		return blank{}, err
	}
	if len(run.Measurements) > 0 || len(run.Riggings) > 0 {
		return blank{}, fmt.Errorf("%s is measured already; \"fullfree new %s > FILE.hcl\" writes it, its figures to be replaced by yours", kind, kind)
	}
	if tiltsAny(run) {
		return blank{}, fmt.Errorf("%s %s; \"fullfree new %s > FILE.hcl\" writes it, its figures to be replaced by yours", kind, tilting, kind)
	}
	if run, err = withDatum(run); err != nil {
		return blank{}, err
	}
	plan := survey.Plan(run)
	out, err := picture.BlankFile(run, plan)
	if err != nil {
		return blank{}, err
	}
	return blankWith(run, plan, out, file)
}

// tilting says why a run in which parts tilt has no page.
const tilting = "has parts that tilt any way, and distances from one place don't tell how these stand"

func tiltsAny(run *linkage.Run) bool { return slices.ContainsFunc(run.Parts, (*linkage.Part).Spatial) }

// withDatum is a run with a place of its own that all else is told from.
func withDatum(run *linkage.Run) (*linkage.Run, error) {
	text, err := picture.WithDatum(run)
	if err != nil {
		return nil, err
	}
	return linkage.Read(&linkage.Source{Name: run.Source.Name, Text: text})
}

// blankOfRun makes a blank of a run of one's own. One in which something is measured, or to
// be, keeps its file: the page has just that. Of another the file gets what is to be taped.
func blankOfRun(run *linkage.Run, file string) (blank, error) {
	name := linkage.Printable(run.Source.Name)
	switch {
	case run.Aircraft != nil:
		return blank{}, fmt.Errorf("%s is an aircraft, which is measured run by run: name the file of one", name)
	case tiltsAny(run):
		return blank{}, fmt.Errorf("%s %s", name, tilting)
	case len(survey.Places(run)) > survey.MostPlanned:
		return blank{}, fmt.Errorf("%s has %d places, and a page for taping has room for %d: part the run", name, len(survey.Places(run)), survey.MostPlanned)
	}
	if len(run.Measurements) > 0 {
		return blankWith(run, survey.PlanOf(run), run.Source.Text, file)
	}
	if !slices.ContainsFunc(run.Parts, func(p *linkage.Part) bool { return p.Exact }) {
		// Where its text isn't laid out for that, the survey tells what to do.
		if told, err := withDatum(run); err == nil {
			run = told
		}
	}
	plan := survey.Plan(run)
	if len(plan) == 0 {
		return blank{}, fmt.Errorf("there is nothing to measure in %s: every place that it has is exact", name)
	}
	out, err := picture.WithBlanks(run, plan)
	if err != nil {
		return blank{}, err
	}
	return blankWith(run, plan, out, file)
}

// blankWith is a file with the page for it.
func blankWith(run *linkage.Run, plan []survey.Planned, text []byte, file string) (blank, error) {
	var page bytes.Buffer
	err := picture.BlankPage(&page, run, plan, picture.BlankOptions{File: file, Version: version})
	return blank{text, page.Bytes()}, err
}

// writeNew writes new files, all of them or none. One that is there already is
// left alone where it is the same, and refused where it isn't: it may have been
// filled in.
func writeNew(names []string, data [][]byte) error {
	var missing []string
	var missed [][]byte
	for i, name := range names {
		_, err := os.Stat(name) // it isn't opened: a pipe would wait
		switch {
		case errors.Is(err, fs.ErrNotExist):
			missing, missed = append(missing, name), append(missed, data[i])
		case err != nil:
			return cantWrite(name, err)
		case !holds(name, data[i]):
			return fmt.Errorf("%s is there already, and would be lost", linkage.Printable(name))
		}
	}
	if name, err := writeTogether(missing, missed); err != nil {
		return cantWrite(name, err)
	}
	return nil
}
