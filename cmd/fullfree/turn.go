package main

import (
	"fmt"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
)

// parseTurns reads what --with says: "left-link.from=+1.5,right-link.to=-1".
func parseTurns(run *linkage.Run, text string) ([]render.Turned, error) {
	var turned []render.Turned
	for _, one := range strings.Split(text, ",") {
		name, value, ok := strings.Cut(one, "=")
		name = strings.TrimSpace(name)
		if !ok || name == "" {
			return nil, fmt.Errorf("--with %s is no ROD.SIDE=TURNS or CABLE.END=TURNS, such as --with left-link.from=+1.5 (out is plus)", linkage.Printable(text))
		}
		next, err := calls.EndNamed(run, name)
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
