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

var errNoEnd = errors.New("no rod or cable of the file has an end to turn: give its rods their ends, as in end \"from\" { thread = \"M6x1\" ... }")

// parseTurns reads what --with says: "left-link.from=+1.5,right-link.to=-1".
func parseTurns(run *linkage.Run, text string) ([]render.Turned, error) {
	var turned []render.Turned
	for _, one := range strings.Split(text, ",") {
		name, value, ok := strings.Cut(one, "=")
		name = strings.TrimSpace(name)
		if !ok || name == "" {
			return nil, fmt.Errorf("--with %s is no ROD.SIDE=TURNS or CABLE.END=TURNS, such as --with left-link.from=+1.5 (out is plus)", linkage.Printable(text))
		}
		next, err := endNamed(run, name)
		if err != nil {
			return nil, err
		}
		if next.Turns, ok = parseNumber(strings.TrimSpace(value)); !ok {
			return nil, fmt.Errorf("--with %s: %q is no number of turns", next.Name(), linkage.Printable(value))
		}
		for _, other := range turned {
			switch {
			case other.End == next.End && other.Nut == next.Nut:
				return nil, fmt.Errorf("--with tells %s twice", next.Name())
			case next.End != nil && other.End != nil && other.End.Rod == next.End.Rod && next.End.Rod.Barrel():
				return nil, fmt.Errorf("--with tells %s and %s, which are one barrel: turn one of them", other.End, next.End)
			}
		}
		turned = append(turned, next)
	}
	return turned, nil
}

// endNamed finds a rod end or the nuts of a conduit end.
func endNamed(run *linkage.Run, name string) (render.Turned, error) {
	var names []string
	for _, rod := range run.Rods {
		for _, e := range rod.Ends {
			if e.String() == name {
				return render.Turned{End: e}, nil
			}
			names = append(names, e.String())
		}
	}
	what := "rod end"
	for _, c := range run.Cables {
		for _, e := range c.Ends {
			if e.String() == name {
				return render.Turned{Nut: e}, nil
			}
			names = append(names, e.String())
			what = "rod end or conduit end"
		}
	}
	if len(names) == 0 {
		return render.Turned{}, errNoEnd
	}
	return render.Turned{}, fmt.Errorf("there is no %s %q%s", what, linkage.Printable(name), didYouMean(name, names))
}

// turn makes the turns in a run, which must leave every rod a length.
func turn(run *linkage.Run, turned []render.Turned) error {
	for _, t := range turned {
		if t.Nut != nil {
			run.TurnCable(t.Nut, t.Turns)
			if c := t.Nut.Cable; math.Abs(c.Taken) > linkage.MaxSize {
				return fmt.Errorf("turned so, %s would be taken up by %g %s", c.Name, c.Taken, run.Units)
			}
			continue
		}
		run.Turn(t.End, t.Turns)
		if rod := t.End.Rod; !(rod.Length > 0) || rod.Length > linkage.MaxSize {
			return fmt.Errorf("turned so, %s would be %s %s long", rod.Name, strconv.FormatFloat(math.Round(rod.Length*1e6)/1e6, 'f', -1, 64), run.Units)
		}
	}
	return nil
}
