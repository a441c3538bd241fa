package calls

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
)

// Asked is all that a page tries, as it sends it with every request.
type Asked struct {
	// Hash is that of the file that the page knows; it may be left out but to save.
	Hash string `json:"hash"`
	// Turns are those of rod ends and of nuts on conduit ends, out positive, by
	// "rod.side" and "cable.conduit-side"; of a barrel those of either end.
	Turns map[string]float64 `json:"turns"`
	Stops map[string]float64 `json:"stops"` // where stops are set, by name
	// Varies is what that which may vary is set to, by name: a value, or the number of a
	// choice; left out: as filed.
	Varies map[string]float64 `json:"varies"`
	At     map[string]float64 `json:"at"`    // where controls stand, by name; left out: at neutral
	Moves  string             `json:"moves"` // the control that moves; left out: the first
	// Picture is the one that the page shows, which needn't be sent again.
	Picture string `json:"picture"`
	// Pictures are those of the runs of an aircraft that it shows, by their names.
	Pictures map[string]string `json:"pictures"`

	// Lean leaves out how sure the answers are, which takes as long as the rest; who asks so
	// asks once more.
	Lean bool `json:"lean"`
	// Beside are other settings to compare with.
	Beside []Asked `json:"beside"`
	// Builds is how many builds are drawn (0: as many as for a book), and AsDrilled says
	// that none is rigged first.
	Builds    int  `json:"builds"`
	AsDrilled bool `json:"as_drilled"`
	// Rods says that rod ends are turned too where dimensions are sought.
	Rods bool `json:"rods"`
	// PDF says that the book is for paper; Paper is which, and View and Only what of the
	// run is printed in full size.
	PDF   bool   `json:"pdf"`
	Paper string `json:"paper"`
	View  string `json:"view"`
	Only  string `json:"only"`
}

// mostTurns is how many turns an end may be asked to make: far more than it
// has thread for, so that what is asked stays a number to reckon with.
const mostTurns = 1e6

// check tells of names that the run doesn't have, and of what can't be asked.
func (a *Asked) check(run *linkage.Run) error {
	barrels := map[*linkage.Rod]string{}
	for _, name := range slices.Sorted(maps.Keys(a.Turns)) {
		found, err := EndNamed(run, name)
		end := found.End
		switch {
		case err != nil:
			return err
		case math.Abs(a.Turns[name]) > mostTurns:
			return fmt.Errorf("%s can't make so many turns", found.Name())
		case end == nil: // nuts, which turn alone
		case end.Rod.Barrel() && barrels[end.Rod] != "":
			return fmt.Errorf("%s and %s are one barrel: turn one of them", barrels[end.Rod], end)
		case end.Rod.Barrel():
			barrels[end.Rod] = name
		}
	}
	for _, name := range slices.Sorted(maps.Keys(a.Stops)) {
		if _, err := stopNamed(run, name); err != nil {
			return err
		}
	}
	for _, name := range slices.Sorted(maps.Keys(a.At)) {
		if _, err := ControlNamed(run, name); err != nil {
			return err
		}
	}
	if _, err := a.variedAs(run); err != nil {
		return err
	}
	if a.Moves != "" {
		_, err := ControlNamed(run, a.Moves)
		return err
	}
	return nil
}

func stopNamed(run *linkage.Run, name string) (*linkage.Stop, error) {
	var names []string
	for _, s := range run.Stops {
		switch {
		case s.Adjust == nil:
		case s.Name == name:
			return s, nil
		default:
			names = append(names, s.Name)
		}
	}
	return nil, fmt.Errorf("there is no stop %q to set%s", linkage.Printable(name), DidYouMean(name, names))
}

// key tells settings apart; empty: all is as filed.
func (a *Asked) key(run *linkage.Run) string {
	var said []string
	say := func(name string, v float64) { said = append(said, name+"="+strconv.FormatFloat(v, 'g', -1, 64)) }
	for _, name := range slices.Sorted(maps.Keys(a.Turns)) {
		if a.Turns[name] != 0 {
			say(name, a.Turns[name])
		}
	}
	for _, s := range run.Stops {
		if at, ok := a.Stops[s.Name]; ok && at != s.At {
			say(s.Name, at)
		}
	}
	list, _ := a.variedAs(run) // which was checked
	for _, v := range list {
		for i, n := range v.vary.Numbers {
			say(n.String(), v.values[i])
		}
	}
	return strings.Join(said, " ")
}

// set returns the input of a run as filed set as is asked, and notes what was turned and
// which stops were moved.
func (a *Asked) set(t *tried, filed *Input) (*Input, error) {
	run := filed.Run
	var turned []render.Turned
	var stops []*linkage.Stop
	var edits []linkage.Edit
	for _, rod := range run.Rods {
		for _, e := range rod.Ends {
			if turns := a.Turns[e.String()]; turns != 0 {
				turned = append(turned, render.Turned{End: e, Turns: turns})
			}
		}
	}
	for _, c := range run.Cables {
		for _, e := range c.Ends {
			if turns := a.Turns[e.String()]; turns != 0 {
				turned = append(turned, render.Turned{Nut: e, Turns: turns})
			}
		}
	}
	for _, s := range run.Stops {
		at, ok := a.Stops[s.Name]
		if !ok || at == s.At {
			continue
		}
		if at < s.Adjust[0] || at > s.Adjust[1] {
			return nil, fmt.Errorf("the stop %q can be set from %g to %g, and %g is asked for", s.Name, s.Adjust[0], s.Adjust[1], at)
		}
		edits, stops = append(edits, linkage.SetStop(s, at)), append(stops, s)
	}
	in := *filed
	var err error
	if t.varied, err = a.variedAs(run); err != nil {
		return nil, err
	}
	base, more, err := runVaried(run, t.varied)
	if err != nil {
		return nil, err
	}
	if in.Run, t.turned, err = TurnEnds(base, turned, append(more, edits...)...); err != nil {
		return nil, err
	}
	for _, s := range stops {
		t.stops = append(t.stops, in.Run.Stop(s))
	}
	return &in, nil
}

// stands is where the page has the controls, and which of them moves.
func (a *Asked) whereAsked(run *linkage.Run) (moves *linkage.Control, at []float64) {
	moves = run.Controls[0]
	for _, c := range run.Controls {
		if c.Name == a.Moves {
			moves = c
		}
		at = append(at, a.At[c.Name])
	}
	return moves, at
}
