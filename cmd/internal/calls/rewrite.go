package calls

import (
	"bytes"
	"errors"
	"fmt"

	"fullfree/linkage"
)

// A setting of an aircraft stands in the file of a run, and is written there. The names of
// dimensions in an aircraft have that of the run before them.

// FileOf names the file in which a number stands.
func (in *Input) FileOf(c linkage.Change) string {
	if of := linkage.ChangesByFile(in.Run, []linkage.Change{c}); len(of) > 0 && of[0].Member != nil {
		return of[0].Member.File
	}
	return in.Name
}

// Shared tells why changes can't be written of runs that have one file, since the others
// would change with them; empty where nothing is in the way.
func (in *Input) Shared(changes []linkage.Change) string {
	if in.Run.Aircraft == nil {
		return ""
	}
	for _, of := range linkage.ChangesByFile(in.Run, changes) {
		m := of.Member
		for _, other := range in.Run.Aircraft.Members {
			if other != m && other.Source.Name == m.Source.Name {
				return fmt.Sprintf("%s is the file of the runs %s and %s: what is written for one would change both. Give each a file of its own.", linkage.Printable(m.File), m.Name, other.Name)
			}
		}
	}
	return ""
}

// Rewritten is a file with numbers changed in it.
type Rewritten struct {
	Path      string
	Was, Text []byte
}

// Rewritten returns the files that changes make other ones, each with what of them stands in
// it; by makes the changed text of one.
func (in *Input) Rewritten(by Rewriter, changes []linkage.Change) (files []Rewritten, err error) {
	if why := in.Shared(changes); why != "" {
		return nil, errors.New(why)
	}
	for _, of := range linkage.ChangesByFile(in.Run, changes) {
		source, path := in.Source, in.Name
		if of.Member != nil {
			source, path = of.Member.Source, of.Member.Source.Name
		}
		text, err := by(source, of.Changes)
		if err != nil {
			return nil, err
		}
		if !bytes.Equal(text, source.Text) {
			files = append(files, Rewritten{path, source.Text, text})
		}
	}
	return files, nil
}

// Rewriter makes the text of a file with changed numbers: linkage.Rewrite, or
// linkage.RewriteNumbers for more of them.
type Rewriter func(src *linkage.Source, changes []linkage.Change) ([]byte, error)
