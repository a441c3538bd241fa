package solve

import (
	"fmt"
	"strings"

	"fullfree/linkage"
)

// name returns the name of what a link is.
func (l *link) name() string {
	switch {
	case l.rod != nil:
		return l.rod.Name
	case l.pair != nil:
		return l.pair.Name
	}
	return l.cords[0].cable.Name
}

// span is where it is written.
func (l *link) span() linkage.Span {
	switch {
	case l.rod != nil:
		return l.rod.Span
	case l.pair != nil:
		return l.pair.Span
	}
	return l.cords[0].cable.Span
}

// cable returns the cable that a link is, of a pair the first; nil for a rod.
func (l *link) cable() *linkage.Cable {
	if l.cords == nil {
		return nil
	}
	return l.cords[0].cable
}

// kind is the word for what it is.
func (l *link) kind() string {
	switch {
	case l.rod != nil:
		return "rod"
	case l.pair != nil:
		return "pair"
	}
	return "cable"
}

// String returns it for a sentence: the rod "left-link".
func (l *link) String() string { return fmt.Sprintf("the %s %q", l.kind(), l.name()) }

// ofLinks names links for a sentence: the rods "a" and "b" and the cable "c".
func ofLinks(links []*link) string {
	var phrases []string
	for _, kind := range []string{"rod", "cable", "pair"} {
		var names []string
		for _, l := range links {
			if l.kind() == kind {
				names = append(names, l.name())
			}
		}
		switch len(names) {
		case 0:
		case 1:
			phrases = append(phrases, "the "+kind+" "+list(names))
		default:
			phrases = append(phrases, "the "+kind+"s "+list(names))
		}
	}
	return strings.Join(phrases, " and ")
}
