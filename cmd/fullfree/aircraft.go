package main

import (
	"crypto/sha256"
	"fmt"
	"path/filepath"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve/survey"
)

// files are the aircraft file, without the folders that lead to it, and those of its runs,
// each with its hash.
func (in *input) files() []render.FileOf {
	list := []render.FileOf{{Name: filepath.Base(in.name), Hash: in.hash()}}
	for _, m := range in.run.Aircraft.Members {
		list = append(list, render.FileOf{Run: m.Name, Name: m.File, Hash: hashOf(m.Source.Text)})
	}
	return list
}

// together is the SHA-256, hexadecimal, of all those files one after another.
func (in *input) together() string {
	all := sha256.New()
	all.Write(in.source.Text)
	for _, m := range in.run.Aircraft.Members {
		all.Write(m.Source.Text)
	}
	return fmt.Sprintf("%x", all.Sum(nil))
}

// memberOptions are what is told of each run of an aircraft besides its results.
func (in *input) memberOptions() (list []render.ReportOptions) {
	for _, m := range in.run.Aircraft.Members {
		opts := render.ReportOptions{Hash: hashOf(m.Source.Text), Version: version, Unused: unusedOf(m.Run)}
		for _, rod := range in.redrawn {
			if strings.HasPrefix(rod.Rod, m.Name+".") {
				opts.Redrawn = append(opts.Redrawn, rod)
			}
		}
		list = append(list, opts)
	}
	return list
}

// unusedOf is what was measured in a run without a sketch, which adjusts nothing; nil where
// nothing was, or where that has a fault: the drawing has none for it.
func unusedOf(run *linkage.Run) *survey.Survey {
	if run.Sketch > 0 || len(run.Measurements) == 0 {
		return nil
	}
	s, err := survey.New(run)
	if err != nil {
		return nil
	}
	return s
}
