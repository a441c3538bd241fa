package render

import (
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// boundSays tells the stretches in which a second path binds: "below -24.1° and above 25.3°".
func boundSays(b solve.BoundSweep) string {
	s := b.Sweep
	var said []string
	for _, x := range b.Stretches {
		low, high := x[0] <= s.Low, x[1] >= s.High
		switch {
		case low && high:
			said = append(said, "all through the travel")
		case low:
			said = append(said, "below "+figure.Quantity(x[1], s.Unit))
		case high:
			said = append(said, "above "+figure.Quantity(x[0], s.Unit))
		default:
			said = append(said, "from "+figure.Quantity(x[0], s.Unit)+" to "+figure.Quantity(x[1], s.Unit))
		}
	}
	return figure.List(said)
}

// bindsSays tells where a second path binds; empty where it doesn't.
func bindsSays(r *solve.Result, n *solve.SecondPathNeeds) string {
	var said []string
	for _, b := range n.Bound {
		words := boundSays(b) + " of " + b.Sweep.Control.Name
		if len(b.Sweep.Settings()) > 0 {
			words += " with " + HeldAt(r.Run, b.Sweep)
		}
		said = append(said, words)
	}
	return strings.Join(said, "; ")
}

// SecondPathFaults tells which second paths bind, where no requirement says so.
func SecondPathFaults(r *solve.Result) []string {
	for _, req := range r.Run.Requirements {
		if req.Kind == linkage.SecondPath {
			return nil
		}
	}
	var said []string
	for i := range r.SecondPaths {
		n := &r.SecondPaths[i]
		if where := bindsSays(r, n); where != "" {
			said = append(said, fmt.Sprintf("%s (second path) binds %s: it is up to %s out, with a play of %s.", n.Rod.Name, where,
				figure.Calipers(n.Misfit, r.Run.UnitsOf(n.Rod.In)), figure.Calipers(n.Rod.Play, r.Run.UnitsOf(n.Rod.In))))
		}
	}
	return said
}

// secondPathWhere tells where in the travel a second path fits worst.
func secondPathWhere(r *solve.Result, n *solve.SecondPathNeeds) string {
	if n.At == nil {
		return ", all through the travel"
	}
	said := ", with " + n.Sweep.Control.Name + " at " + ControlPosition(n.Sweep, *n.At)
	if len(n.Sweep.Settings()) > 0 {
		said += " and " + HeldAt(r.Run, n.Sweep)
	}
	return said
}

// secondPathSays tells what a second path needs, where it binds and what to set it to.
func secondPathSays(r *solve.Result, n *solve.SecondPathNeeds) string {
	unit := r.Run.UnitsOf(n.Rod.In)
	said := fmt.Sprintf("%s (second path) needs %s hole to hole", n.Rod.Name, figure.Calipers(n.NeedsLeast, unit))
	if figure.CalipersNumber(n.NeedsLeast, unit) != figure.CalipersNumber(n.NeedsMost, unit) {
		said = fmt.Sprintf("%s (second path) needs from %s to %s hole to hole as the run moves", n.Rod.Name, figure.Calipers(n.NeedsLeast, unit), figure.Calipers(n.NeedsMost, unit))
	}
	said += fmt.Sprintf(" and is set to %s: %s out%s.", figure.Calipers(n.Set, unit), figure.Calipers(n.Misfit, unit), secondPathWhere(r, n))
	if n.Beyond > 0 {
		said += fmt.Sprintf(" That is %s more than its play of %s: there the two paths bind against each other.", figure.Calipers(n.Beyond, unit), figure.Calipers(n.Rod.Play, unit))
		if where := bindsSays(r, n); where != "" {
			said += " It binds " + where + "."
		}
	} else {
		said += fmt.Sprintf(" Its play of %s takes that up: it does not bind.", figure.Calipers(n.Rod.Play, unit))
	}
	said += fmt.Sprintf(" It fits best set to %s", figure.Calipers(n.BestLength, unit))
	if figure.CalipersNumber(n.BestLength, unit) == figure.CalipersNumber(n.Set, unit) {
		return said + ", as it is."
	}
	turn := n.Turn
	switch {
	case turn == nil:
		return said + "."
	case turn.Turns == 0:
		return said + fmt.Sprintf("; as near as %s come: as it is.", stepsOf(turn.End))
	}
	said += ": " + turn.End.String() + " " + signedTurns(turn.Turns)
	if left := leftSays(turn, unit); left != "" {
		said += ", " + left
	}
	if !turn.HasThread {
		said += "; but no end has the thread for it"
	}
	return said + "."
}

// secondPath tells how the second paths fit.
func (t telling) secondPath() string {
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	for i := range t.result.SecondPaths {
		if n := &t.result.SecondPaths[i]; n.Rod == t.Rod {
			return secondPathSays(t.result, n) + " " + t.beyondPlay()
		}
	}
	return "No rod is a second path. " + t.beyondPlay()
}

// beyondPlay tells the misfit beyond play against what is allowed.
func (t telling) beyondPlay() string {
	if *t.Worst == 0 && t.Limit == 0 {
		return "Nothing beyond play allowed."
	}
	return "Beyond play: " + t.allowed() + "."
}

// reportSecondPaths tells how every second path fits.
func reportSecondPaths(p *page, r *solve.Result) {
	list := r.SecondPaths
	if len(list) == 0 {
		return
	}
	unit := r.Run.UnitsOf(list[0].Rod.In)
	t := table{head: []string{"second path", string(unit), "needs least", "most", "out", "play", "best"}}
	for _, n := range list {
		t.add(figure.Clean(n.Rod.Name), figure.CalipersLength(n.Set, unit), figure.CalipersLength(n.NeedsLeast, unit), figure.CalipersLength(n.NeedsMost, unit), figure.CalipersNumber(n.Misfit, unit), figure.CalipersNumber(n.Rod.Play, unit), figure.CalipersLength(n.BestLength, unit))
	}
	t.write(p, "  ")
	p.text("  ", "  ", "(it drives nothing: needs is hole to hole, as the rest of the run moves; out: the most that it is off, before its play; best: the setting that is least out)")
	for i := range list {
		p.text("  ", "    ", secondPathSays(r, &list[i]))
	}
	p.blank()
}
