package main

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
)

// longestRod is the length that a rod may be turned to, run units: that of any
// number of a file.
const longestRod = 1e6

var errNoEnd = errors.New("no rod of the file has an end to turn: give its rods their ends, as in end \"from\" { thread = \"M6x1\" ... }")

// parseTurns reads what --with says: "left-link.from=+1.5,right-link.to=-1".
func parseTurns(run *linkage.Run, text string) ([]render.Turned, error) {
	var turned []render.Turned
	for _, one := range strings.Split(text, ",") {
		name, value, ok := strings.Cut(one, "=")
		name = strings.TrimSpace(name)
		if !ok || name == "" {
			return nil, fmt.Errorf("--with %s is no ROD.SIDE=TURNS, such as --with left-link.from=+1.5 (out is plus)", linkage.Printable(text))
		}
		end, err := rodEndNamed(run, name)
		if err != nil {
			return nil, err
		}
		turns, ok := parseNumber(strings.TrimSpace(value))
		if !ok {
			return nil, fmt.Errorf("--with %s: %q is no number of turns", end, linkage.Printable(value))
		}
		for _, other := range turned {
			switch {
			case other.End == end:
				return nil, fmt.Errorf("--with tells %s twice", end)
			case other.End.Rod == end.Rod && end.Rod.Barrel():
				return nil, fmt.Errorf("--with tells %s and %s, which are one barrel: turn one of them", other.End, end)
			}
		}
		turned = append(turned, render.Turned{End: end, Turns: turns})
	}
	return turned, nil
}

func rodEndNamed(run *linkage.Run, name string) (*linkage.RodEnd, error) {
	var names []string
	for _, rod := range run.Rods {
		for _, e := range rod.Ends {
			if e.String() == name {
				return e, nil
			}
			names = append(names, e.String())
		}
	}
	if len(names) == 0 {
		return nil, errNoEnd
	}
	return nil, fmt.Errorf("there is no rod end %q%s", linkage.Printable(name), didYouMean(name, names))
}

// turn makes the turns in a run, which must leave every rod a length.
func turn(run *linkage.Run, turned []render.Turned) error {
	for _, t := range turned {
		run.Turn(t.End, t.Turns)
		if rod := t.End.Rod; !(rod.Length > 0) || rod.Length > longestRod {
			return fmt.Errorf("turned so, %s would be %s %s long", rod.Name, strconv.FormatFloat(math.Round(rod.Length*1e6)/1e6, 'f', -1, 64), run.Units)
		}
	}
	return nil
}
