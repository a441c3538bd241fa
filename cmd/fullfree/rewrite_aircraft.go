package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
)

// A setting of an aircraft stands in the file of a run, and is written there. The names of
// dimensions in an aircraft have that of the run before them.

// memberOf is the run of an aircraft in whose file a dimension stands, and its name there;
// nil and the name as it is of a run by itself.
func (in *input) memberOf(dimension string) (*linkage.Member, string) {
	if in.run.Aircraft == nil {
		return nil, dimension
	}
	run, name, _ := strings.Cut(dimension, ".")
	for _, m := range in.run.Aircraft.Members {
		if m.Name == run {
			return m, name
		}
	}
	return nil, dimension
}

// fileOf names the file in which a number stands.
func (in *input) fileOf(c linkage.Change) string {
	if m, _ := in.memberOf(c.Dimension); m != nil {
		return m.File
	}
	return in.name
}

// shared tells why changes can't be written of runs that have one file, since the others
// would change with them; empty where nothing is in the way.
func (in *input) shared(changes []linkage.Change) string {
	if in.run.Aircraft == nil {
		return ""
	}
	for _, c := range changes {
		m, _ := in.memberOf(c.Dimension)
		for _, other := range in.run.Aircraft.Members {
			if m != nil && other != m && other.Source.Name == m.Source.Name {
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
// it.
func (in *input) rewritten(changes []linkage.Change) (files []rewrittenFile, err error) {
	var members []*linkage.Member
	own := map[*linkage.Member][]linkage.Change{}
	for _, c := range changes {
		m, name := in.memberOf(c.Dimension)
		if !slices.Contains(members, m) {
			members = append(members, m)
		}
		own[m] = append(own[m], linkage.Change{Dimension: name, Value: c.Value})
	}
	for _, m := range members {
		source, path := in.source, in.name
		if m != nil {
			source, path = m.Source, m.Source.Name
		}
		text, err := linkage.Rewrite(source, own[m])
		if err != nil {
			return nil, err
		}
		if !bytes.Equal(text, source.Text) {
			files = append(files, rewrittenFile{path, source.Text, text})
		}
	}
	return files, nil
}

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
