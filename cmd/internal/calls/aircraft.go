package calls

import (
	"crypto/sha256"
	"fmt"
	"path/filepath"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve/survey"
)

// Files are the aircraft file, without the folders that lead to it, and those of its runs,
// each with its hash.
func (in *Input) Files() []render.FileOf {
	list := []render.FileOf{{Name: filepath.Base(in.Name), Hash: in.Hash()}}
	for _, m := range in.Run.Aircraft.Members {
		list = append(list, render.FileOf{Run: m.Name, Name: m.File, Hash: HashOf(m.Source.Text)})
	}
	return list
}

// Together is the SHA-256, hexadecimal, of all those files one after another.
func (in *Input) Together() string {
	all := sha256.New()
	all.Write(in.Source.Text)
	for _, m := range in.Run.Aircraft.Members {
		all.Write(m.Source.Text)
	}
	return fmt.Sprintf("%x", all.Sum(nil))
}

// MemberOptions are what is told of each run of an aircraft besides its results.
func (in *Input) MemberOptions() (list []render.ReportOptions) {
	for _, m := range in.Run.Aircraft.Members {
		opts := render.ReportOptions{Hash: HashOf(m.Source.Text), Version: Version, Unused: UnusedOf(m.Run)}
		for _, rod := range in.Redrawn {
			if strings.HasPrefix(rod.Rod, m.Name+".") {
				opts.Redrawn = append(opts.Redrawn, rod)
			}
		}
		list = append(list, opts)
	}
	return list
}

// UnusedOf is what was measured in a run without a sketch, which adjusts nothing; nil where
// nothing was, or where that has a fault: the drawing has none for it.
func UnusedOf(run *linkage.Run) *survey.Survey {
	if run.Sketch > 0 || len(run.Measurements) == 0 {
		return nil
	}
	s, err := survey.New(run)
	if err != nil {
		return nil
	}
	return s
}
