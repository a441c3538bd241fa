package main

import (
	"bytes"
	"errors"
	"fmt"

	"fullfree/linkage"
)

// A setting of an aircraft stands in the file of a run, and is written there. The names of
// dimensions in an aircraft have that of the run before them.

// fileOf names the file in which a number stands.
func (in *input) fileOf(c linkage.Change) string {
	if of := linkage.ChangesByFile(in.run, []linkage.Change{c}); len(of) > 0 && of[0].Member != nil {
		return of[0].Member.File
	}
	return in.name
}

// shared tells why changes can't be written of runs that have one file, since the others
// would change with them; empty where nothing is in the way.
func (in *input) shared(changes []linkage.Change) string {
	if in.run.Aircraft == nil {
		return ""
	}
	for _, of := range linkage.ChangesByFile(in.run, changes) {
		m := of.Member
		for _, other := range in.run.Aircraft.Members {
			if other != m && other.Source.Name == m.Source.Name {
				return fmt.Sprintf("%s is the file of the runs %s and %s: what is written for one would change both. Give each a file of its own.", linkage.Printable(m.File), m.Name, other.Name)
			}
		}
	}
	return ""
}

// rewrittenFile is a file with numbers changed in it.
type rewrittenFile struct {
	path      string
	was, text []byte
}

// rewritten returns the files that changes make other ones, each with what of them stands in
// it; by makes the changed text of one.
func (in *input) rewritten(by rewriter, changes []linkage.Change) (files []rewrittenFile, err error) {
	if why := in.shared(changes); why != "" {
		return nil, errors.New(why)
	}
	for _, of := range linkage.ChangesByFile(in.run, changes) {
		source, path := in.source, in.name
		if of.Member != nil {
			source, path = of.Member.Source, of.Member.Source.Name
		}
		text, err := by(source, of.Changes)
		if err != nil {
			return nil, err
		}
		if !bytes.Equal(text, source.Text) {
			files = append(files, rewrittenFile{path, source.Text, text})
		}
	}
	return files, nil
}

// rewriter makes the text of a file with changed numbers: linkage.Rewrite, or
// linkage.RewriteNumbers for more of them.
type rewriter func(src *linkage.Source, changes []linkage.Change) ([]byte, error)

// replaceAll writes files anew that were read before, all of them or none: where one has
// changed meanwhile or can't be written, those before it become again what they were. It
// returns what of the old files could not be kept, and which file the error is of.
func replaceAll(files []rewrittenFile) (lost []string, failed string, err error) {
	for i, f := range files {
		more, err := replaceWhole(f.path, f.was, f.text)
		if err != nil {
			for _, done := range files[:i] {
				// What somebody has saved there meanwhile stays.
				_, _ = replaceWhole(done.path, done.text, done.was)
			}
			return nil, f.path, err
		}
		lost = append(lost, more...)
	}
	return lost, "", nil
}
