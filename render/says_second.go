package render

import (
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// needs is what a second path needs over several sweeps.
type needs struct {
	rod   *linkage.Rod
	fit   solve.SecondPathFit // At is in sweep
	sweep *solve.Sweep
	binds []binding // where it binds, a sweep each
}

// binding is where a second path binds over a sweep.
type binding struct {
	sweep     *solve.Sweep
	stretches [][2]float64
}

// says tells the stretches: "below -24.1° and above 25.3°".
func (b binding) says() string {
	s := b.sweep
	var said []string
	for _, x := range b.stretches {
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
func (n needs) bindsSays(r *solve.Result) string {
	var said []string
	for _, b := range n.binds {
		words := b.says() + " of " + b.sweep.Control.Name
		if len(b.sweep.Held) > 0 {
			words += " with " + HeldAt(r.Run, b.sweep)
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
	for _, n := range secondPaths(r) {
		if where := n.bindsSays(r); where != "" {
			said = append(said, fmt.Sprintf("%s (second path) binds %s: it is up to %s out, with a play of %s.", n.rod.Name, where,
				figure.Calipers(n.fit.Misfit, string(r.Run.Units)), figure.Calipers(n.rod.Play, string(r.Run.Units))))
		}
	}
	return said
}

// secondPaths tells what every second path of a run needs, over all sweeps.
func secondPaths(r *solve.Result) []needs {
	var list []needs
	if len(r.Sweeps) == 0 {
		return nil
	}
	for i, told := range r.Sweeps[0].Rods {
		n := needs{rod: told.Rod}
		for _, s := range r.Sweeps {
			fit := s.Rods[i].SecondPath
			if fit != nil && len(fit.Binds) > 0 && fit.Misfit-told.Rod.Play > ThreadNoise {
				n.binds = append(n.binds, binding{s, fit.Binds})
			}
			switch {
			case fit == nil:
				continue
			case n.sweep == nil:
				n.fit, n.sweep = *fit, s
				continue
			case fit.Misfit > n.fit.Misfit:
				n.fit.Misfit, n.fit.At, n.sweep = fit.Misfit, fit.At, s
			}
			n.fit.NeedsLeast = math.Min(n.fit.NeedsLeast, fit.NeedsLeast)
			n.fit.NeedsMost = math.Max(n.fit.NeedsMost, fit.NeedsMost)
		}
		if n.sweep != nil {
			n.fit.BestLength = n.fit.NeedsLeast + float64(0.5*(n.fit.NeedsMost-n.fit.NeedsLeast))
			list = append(list, n)
		}
	}
	return list
}

// where tells where in the travel a second path fits worst.
func (n needs) where(r *solve.Result) string {
	if n.fit.At == nil {
		return ", all through the travel"
	}
	said := ", with " + n.sweep.Control.Name + " at " + ControlPosition(n.sweep, *n.fit.At)
	if len(n.sweep.Held) > 0 {
		said += " and " + HeldAt(r.Run, n.sweep)
	}
	return said
}

// says tells what a second path needs, where it binds and what to set it to.
func (n needs) says(r *solve.Result) string {
	unit := string(r.Run.Units)
	said := fmt.Sprintf("%s (second path) needs %s hole to hole", n.rod.Name, figure.Calipers(n.fit.NeedsLeast, unit))
	if figure.CalipersNumber(n.fit.NeedsLeast, unit) != figure.CalipersNumber(n.fit.NeedsMost, unit) {
		said = fmt.Sprintf("%s (second path) needs from %s to %s hole to hole as the run moves", n.rod.Name, figure.Calipers(n.fit.NeedsLeast, unit), figure.Calipers(n.fit.NeedsMost, unit))
	}
	said += fmt.Sprintf(" and is set to %s: %s out%s.", figure.Calipers(n.rod.Length, unit), figure.Calipers(n.fit.Misfit, unit), n.where(r))
	if beyond := n.fit.Misfit - n.rod.Play; beyond > ThreadNoise {
		said += fmt.Sprintf(" That is %s more than its play of %s: there the two paths bind against each other.", figure.Calipers(beyond, unit), figure.Calipers(n.rod.Play, unit))
		if where := n.bindsSays(r); where != "" {
			said += " It binds " + where + "."
		}
	} else {
		said += fmt.Sprintf(" Its play of %s takes that up: it does not bind.", figure.Calipers(n.rod.Play, unit))
	}
	said += fmt.Sprintf(" It fits best set to %s", figure.Calipers(n.fit.BestLength, unit))
	off := n.fit.BestLength - n.rod.Length
	if figure.CalipersNumber(n.fit.BestLength, unit) == figure.CalipersNumber(n.rod.Length, unit) {
		return said + ", as it is."
	}
	turn := nearestTurn(r.Run, n.rod, off)
	switch {
	case turn == nil:
		return said + "."
	case turn.turns == 0:
		return said + fmt.Sprintf("; as near as %s come: as it is.", stepsOf(turn.end))
	}
	said += ": " + turn.end.String() + " " + signedTurns(turn.turns)
	if left := turn.leftSays(unit); left != "" {
		said += ", " + left
	}
	if !turn.thread {
		said += "; but no end has the thread for it"
	}
	return said + "."
}

// secondPath tells how the second paths fit.
func (t telling) secondPath() string {
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	for _, n := range secondPaths(t.result) {
		if n.rod == t.Rod {
			return n.says(t.result) + " " + t.beyondPlay()
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
	list := secondPaths(r)
	if len(list) == 0 {
		return
	}
	unit := string(r.Run.Units)
	t := table{head: []string{"second path", unit, "needs least", "most", "out", "play", "best"}}
	for _, n := range list {
		t.add(figure.Clean(n.rod.Name), figure.CalipersNumber(n.rod.Length, unit), figure.CalipersNumber(n.fit.NeedsLeast, unit), figure.CalipersNumber(n.fit.NeedsMost, unit), figure.CalipersNumber(n.fit.Misfit, unit), figure.CalipersNumber(n.rod.Play, unit), figure.CalipersNumber(n.fit.BestLength, unit))
	}
	t.write(p, "  ")
	p.text("  ", "  ", "(it drives nothing: needs is hole to hole, as the rest of the run moves; out: the most that it is off, before its play; best: the setting that is least out)")
	for _, n := range list {
		p.text("  ", "    ", n.says(r))
	}
	p.blank()
}

// SecondPathSpan is between which lengths a second path is needed over all sweeps;
// false for a rod that drives.
func SecondPathSpan(r *solve.Result, rod *linkage.Rod) (least, most float64, ok bool) {
	for _, n := range secondPaths(r) {
		if n.rod == rod {
			return n.fit.NeedsLeast, n.fit.NeedsMost, true
		}
	}
	return 0, 0, false
}
