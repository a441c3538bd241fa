package linkage

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Source is a file as it was read.
type Source struct {
	Name string
	Text []byte
}

// Span is a stretch of a Source. Lines and columns count from 1, columns in
// characters; Start and End are byte offsets. The zero Span is no place.
type Span struct {
	Line, Column int
	Start, End   int
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
	if len(f.List) == 0 {
		return nil
	}
	slices.SortStableFunc(f.List, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Span.Line, b.Span.Line), cmp.Compare(a.Span.Column, b.Span.Column), strings.Compare(a.Says, b.Says))
	})
	f.List = slices.Compact(f.List)
	return f
}

// Error returns every fault as "FILE:LINE,COL: what is wrong", each followed
// by the line itself with a mark under the place. A fault without a place
// stands as "FILE: what is wrong".
func (f *Faults) Error() string {
	var b strings.Builder
	for _, fault := range f.List {
		b.WriteString(Printable(f.Source.Name))
		if fault.Span.Line > 0 {
			fmt.Fprintf(&b, ":%d,%d", fault.Span.Line, fault.Span.Column)
		}
		fmt.Fprintf(&b, ": %s\n", Printable(fault.Says))
		b.WriteString(excerpt(f.Source, fault.Span))
	}
	if f.more > 0 {
		fmt.Fprintf(&b, "%s: and %d more\n", Printable(f.Source.Name), f.more)
	}
	return strings.TrimSuffix(b.String(), "\n")
}
