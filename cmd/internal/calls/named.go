package calls

import (
	"errors"
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
)

// ErrNoEnd is the error of a run in which nothing can be turned.
var ErrNoEnd = errors.New("no rod or cable of the file has an end to turn: give its rods their ends, as in end \"from\" { thread = \"M6x1\" ... }")

// EndNamed finds a rod end or the nuts of a conduit end.
func EndNamed(run *linkage.Run, name string) (render.Turned, error) {
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
		return render.Turned{}, ErrNoEnd
	}
	return render.Turned{}, fmt.Errorf("there is no %s %q%s", what, linkage.Printable(name), DidYouMean(name, names))
}

// TurnEnds returns a run with the turns and other edits made, and the turns as that run
// names their ends.
func TurnEnds(run *linkage.Run, turned []render.Turned, edits ...linkage.Edit) (*linkage.Run, []render.Turned, error) {
	for _, t := range turned {
		if t.Nut != nil {
			edits = append(edits, linkage.TurnCable(t.Nut, t.Turns))
		} else {
			edits = append(edits, linkage.Turn(t.End, t.Turns))
		}
	}
	now, err := run.With(edits...)
	if err != nil {
		return nil, nil, WithoutPlaces(err, "turned so, ")
	}
	here := make([]render.Turned, len(turned))
	for i, t := range turned {
		here[i] = render.Turned{End: now.RodEnd(t.End), Nut: now.CableEnd(t.Nut), Turns: t.Turns}
	}
	return now, here, nil
}

// ControlNamed finds a control.
func ControlNamed(run *linkage.Run, name string) (*linkage.Control, error) {
	var names []string
	for _, c := range run.Controls {
		if c.Name == name {
			return c, nil
		}
		names = append(names, c.Name)
	}
	for _, s := range run.SameParts {
		if s.Follows.Name == name {
			return nil, fmt.Errorf("%s is no control in the aircraft: %s drives it%s", name, s.Leads.Name, DidYouMean("", names))
		}
	}
	for _, known := range names {
		if run.Aircraft != nil && strings.HasSuffix(known, "."+name) {
			return nil, fmt.Errorf("there is no control %q; did you mean %q?", linkage.Printable(name), known)
		}
	}
	return nil, fmt.Errorf("there is no control %q%s", linkage.Printable(name), DidYouMean(name, names))
}
