package render

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/render/figure"
	"fullfree/solve"
)

// missTold reports whether a builder wants to know how a stop is missed: by next to
// nothing, or since it is metal that would be met only past on center.
func missTold(s *solve.Sweep, b *solve.StopBite) bool {
	m := b.Miss
	switch {
	case m == nil:
		return false
	case m.Near:
		return true
	case m.After == nil || b.Stop.Of != nil:
		return false
	}
	return !m.Late || !b.Bites && b == NextStop(s, missSide(m))
}

// missSide is the side of the travel, 0 or 1, on which a stop is missed.
func missSide(m *solve.StopMiss) int {
	if m.Side == SideName(0) {
		return 0
	}
	return 1
}

// missGap tells what is left of the gap of a stop.
func missGap(m *solve.StopMiss) string {
	return figure.Calipers(m.Gap, m.Unit)
}

// missSays tells in a sentence how a stop is missed, or that it comes too late.
func missSays(s *solve.Sweep, b *solve.StopBite) string {
	m, stop := b.Miss, figure.Quoted(b.Stop.Name)
	meets := "bite"
	if b.Stop.Of == nil {
		meets = "touch"
	}
	if m.OnCenter == nil {
		return fmt.Sprintf("The stop %s is missed by %s, nearest with %s at %s.", stop, missGap(m), figure.Clean(s.Control.Name), ControlPosition(s, m.At))
	}
	center := fmt.Sprintf("on center at %s (%s) it is %s short", figure.Quantity(m.At, s.Unit), CenterTerm(m.OnCenter.Kind), missGap(m))
	switch {
	case m.After == nil:
		return fmt.Sprintf("The stop %s is not met: %s.", stop, center)
	case !m.Late:
		return fmt.Sprintf("The stop %s would %s %s after on center: %s.", stop, meets, figure.Against(*m.After, 0, s.Unit), center)
	case meets == "bite":
		return fmt.Sprintf("The stop %s bites %s after on center: %s.", stop, figure.Against(*m.After, 0, s.Unit), center)
	}
	return fmt.Sprintf("The stop %s touches %s after on center: %s.", stop, figure.Against(*m.After, 0, s.Unit), center)
}

// missesSays tells of every stop that is missed on a side of the travel, or comes
// too late there, what a builder wants to know.
func missesSays(s *solve.Sweep, i int) string {
	var said []string
	for k := range s.Stops {
		if b := &s.Stops[k]; missTold(s, b) && missSide(b.Miss) == i {
			said = append(said, missSays(s, b))
		}
	}
	return strings.Join(said, " ")
}

// missInShort tells in a cell of a table how a stop is missed, or what lies before
// it; empty where nobody wants to know.
func missInShort(s *solve.Sweep, b *solve.StopBite) string {
	m := b.Miss
	if !missTold(s, b) {
		return ""
	}
	if m.OnCenter == nil {
		return fmt.Sprintf("missed by %s, at %s", missGap(m), figure.Quantity(m.At, s.Unit))
	}
	said := fmt.Sprintf("%s short on center, at %s", missGap(m), figure.Quantity(m.At, s.Unit))
	switch {
	case m.After == nil:
		return said
	case !m.Late:
		return said + fmt.Sprintf("; it would take %s more", figure.Against(*m.After, 0, s.Unit))
	}
	return fmt.Sprintf("%s after on center, where it is %s short", figure.Against(*m.After, 0, s.Unit), missGap(m))
}

// MissesInShort lists on a side of the travel the stops that are missed or come too
// late, with how.
func MissesInShort(s *solve.Sweep, i int) (list []string) {
	for k := range s.Stops {
		b := &s.Stops[k]
		if words := missInShort(s, b); words != "" && missSide(b.Miss) == i {
			list = append(list, figure.Clean(b.Stop.Name)+" "+words)
		}
	}
	return slices.Compact(list)
}
