package linkage

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Source is a file as it was read. A run that a Builder made has one without a
// name and without text.
type Source struct {
	Name string
	Text []byte
	// built says what a Builder made, in its order: `rod "left-link"` and
	// `rod "left-link", length`.
	built []string
	// members are the files that an aircraft file names.
	members []*Source
}

// of returns the source that a place is in.
func (s *Source) of(at Span) *Source {
	if s != nil && at.File != "" {
		for _, member := range s.members {
			if member.Name == at.File {
				return member
			}
		}
	}
	return s
}

// Span is a stretch of a Source. Lines and columns count from 1, columns in
// characters; Start and End are byte offsets. The zero Span is no place. Of what a
// Builder made Line is 0, and Start counts what it made, from 1.
type Span struct {
	Line, Column int
	Start, End   int
	// File is the name of the Source where it isn't the one that the run was read from
	// but that of one of its members; else empty.
	File string
}

// Fault is one thing wrong with a file, told to the person who wrote it.
type Fault struct {
	Span Span
	// Says is what is wrong and what would be right, in one or two clauses,
	// without the place and without a full stop.
	Says string
}

// maxFaults is how many faults are kept; the rest are counted. More help
// nobody, and a hostile file could otherwise ask for millions.
const maxFaults = 100

// Faults is everything wrong with one file. It is an error.
type Faults struct {
	Source *Source
	List   []Fault
	more   int // found but not kept
}

// Add appends a fault.
func (f *Faults) Add(at Span, format string, args ...any) {
	if f == nil {
		return // nothing is kept where nobody asks
	}
	if len(f.List) >= maxFaults {
		f.more++
		return
	}
	f.List = append(f.List, Fault{at, fmt.Sprintf(format, args...)})
}

// found is how many faults there were so far, kept or not.
func (f *Faults) found() int { return len(f.List) + f.more }

// full says that further faults are only counted, so that their words need
// not be composed.
func (f *Faults) full() bool { return len(f.List) >= maxFaults }

// Err returns f as an error, sorted by place, each fault once; nil where
// there is none.
func (f *Faults) Err() error {
	if f == nil || len(f.List) == 0 {
		return nil
	}
	slices.SortStableFunc(f.List, func(a, b Fault) int {
		return cmp.Or(strings.Compare(a.Span.File, b.Span.File), cmp.Compare(a.Span.Line, b.Span.Line), cmp.Compare(a.Span.Column, b.Span.Column), cmp.Compare(a.Span.Start, b.Span.Start), strings.Compare(a.Says, b.Says))
	})
	f.List = slices.Compact(f.List)
	return f
}

// Error returns every fault as "FILE:LINE,COL: what is wrong", each followed
// by the line itself with a mark under the place. A fault without a place
// stands as "FILE: what is wrong", and one of a run without a file as
// `rod "left-link": what is wrong`.
func (f *Faults) Error() string {
	if f == nil {
		return ""
	}
	var b strings.Builder
	for _, fault := range f.List {
		says := Printable(fault.Says)
		src := f.Source.of(fault.Span)
		where, made := src.where(fault.Span), Printable(src.made(fault.Span))
		if where != "" && (made == "" || !strings.HasPrefix(says, made)) {
			says = where + ": " + says
		}
		fmt.Fprintf(&b, "%s\n", says)
		b.WriteString(excerpt(src, fault.Span))
	}
	if f.more > 0 {
		says := fmt.Sprintf("and %d more", f.more)
		if where := f.Source.where(Span{}); where != "" {
			says = where + ": " + says
		}
		fmt.Fprintf(&b, "%s\n", says)
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// where says where a place is: in a file, or in what was built; "" where there is
// neither.
func (s *Source) where(at Span) string {
	switch {
	case s == nil:
		return ""
	case at.Line > 0:
		return strings.TrimPrefix(fmt.Sprintf("%s:%d,%d", Printable(s.Name), at.Line, at.Column), ":")
	case s.made(at) != "":
		return Printable(s.made(at))
	}
	return Printable(s.Name)
}

// made is what a Builder made at a place; "" for a place of a file.
func (s *Source) made(at Span) string {
	if s == nil || at.Line > 0 || at.Start < 1 || at.Start > len(s.built) {
		return ""
	}
	return s.built[at.Start-1]
}

// seen says, after "given already", where that was.
func (s *Source) seen(at Span) string {
	if made := s.made(at); made != "" {
		return "at " + made
	}
	return fmt.Sprintf("on line %d", at.Line)
}
