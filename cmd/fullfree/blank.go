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

// blankOf makes a blank of the text of a run. File is the name that the file
// will have; may be empty.
func blankOf(kind string, text []byte, file string) (blank, error) {
	run, err := linkage.Read(&linkage.Source{Name: kind + fileEnding, Text: text})
	if err != nil {
		return blank{}, err
	}
	if len(run.Measurements) > 0 || len(run.Riggings) > 0 {
		return blank{}, fmt.Errorf("%s is measured already; \"fullfree new %s > FILE.hcl\" writes it, its figures to be replaced by yours", kind, kind)
	}
	if slices.ContainsFunc(run.Parts, (*linkage.Part).Spatial) {
		return blank{}, fmt.Errorf("%s has parts that tilt any way, and distances from one place don't tell how these stand; \"fullfree new %s > FILE.hcl\" writes it, its figures to be replaced by yours", kind, kind)
	}
	if text, err = picture.WithDatum(run); err != nil {
		return blank{}, err
	}
	if run, err = linkage.Read(&linkage.Source{Name: kind + fileEnding, Text: text}); err != nil {
		return blank{}, err
	}
	plan := survey.Plan(run)
	out, err := picture.BlankFile(run, plan)
	if err != nil {
		return blank{}, err
	}
	var page bytes.Buffer
	err = picture.BlankPage(&page, run, plan, picture.BlankOptions{File: file, Version: version})
	return blank{out, page.Bytes()}, err
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
