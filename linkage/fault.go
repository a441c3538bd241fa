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

// Faults is everything wrong with one file. It is an error.
type Faults struct {
	Source *Source
	List   []Fault
}

// Add appends a fault.
func (f *Faults) Add(at Span, format string, args ...any) {
	f.List = append(f.List, Fault{at, fmt.Sprintf(format, args...)})
}

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
// by the line itself with a mark under the place.
func (f *Faults) Error() string {
	var b strings.Builder
	for _, fault := range f.List {
		fmt.Fprintf(&b, "%s:%d,%d: %s\n", f.Source.Name, fault.Span.Line, fault.Span.Column, fault.Says)
	}
	return strings.TrimSuffix(b.String(), "\n")
}
