package render

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// stretchesMost is how many stretches of a travel are told one by one.
const stretchesMost = 4

// taut tells how tight the cables of a pair stay.
func (t telling) taut() string {
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	pair := t.Requirement.Pair.Name
	if slack := SlackOf(t.sweep, t.Requirement.Pair); len(slack) > 0 && *t.Worst <= 0 {
		said := fmt.Sprintf("Both cables of %s hang slack with %s %s", pair, t.sweep.Control.Name, Stretches(t.sweep, slack))
		if held := t.held(); held != "" {
			said += " and " + held
		}
		return said + "." + floatsThen(t.sweep, t.Requirement.Pair) + " " + t.wanted() + "."
	}
	where := t.place(", ")
	if where == "" {
		where = ", wherever the run stands"
	}
	least := "one of them pulls"
	if t.Cable != nil {
		least = t.Cable.Name + " pulls"
	}
	if t.Verdict == solve.Holds {
		return fmt.Sprintf("Both cables of %s stay taut: at the least %s %s%s. %s.", pair, least, t.worst(), where, t.wanted())
	}
	return fmt.Sprintf("The cables of %s don't stay tight enough: at the least %s %s%s. %s.", pair, least, t.worst(), where, t.wanted())
}

// SlackOf is the stretches of a sweep in which the cables of a pair hang slack.
func SlackOf(s *solve.Sweep, pair *linkage.Pair) [][2]float64 {
	for _, c := range s.Cables {
		if c.Cable.Pair == pair {
			return c.Slack
		}
	}
	return nil
}

// Stretches tells where the control of a sweep stands in stretches of its travel.
func Stretches(s *solve.Sweep, of [][2]float64) string {
	if len(of) == 1 && of[0] == [2]float64{s.Low, s.High} {
		return "anywhere"
	}
	var said []string
	for i, from := range of {
		if i == stretchesMost && i < len(of)-1 {
			said = append(said, fmt.Sprintf("%d more stretches", len(of)-i))
			break
		}
		said = append(said, fmt.Sprintf("from %s to %s", figure.Quantity(from[0], s.Unit), figure.Quantity(from[1], s.Unit)))
	}
	return figure.List(said)
}

// floatsThen tells how far a part floats between the slack cables of a pair;
// empty where that isn't what floats furthest in the sweep.
func floatsThen(s *solve.Sweep, pair *linkage.Pair) string {
	l := s.LostMotion
	if l == nil || !holdsPart(s, pair, l.Part) {
		return ""
	}
	said := fmt.Sprintf(" Then nothing holds %s: it floats, %s at most from one end to the other", l.Part.Name, figure.Against(l.Most, 0, l.Unit))
	if slack := SlackOf(s, pair); l.At != 0 || slack[0] != [2]float64{s.Low, s.High} {
		said += fmt.Sprintf(", with %s at %s", s.Control.Name, ControlPosition(s, l.At))
	}
	return said + "."
}

func holdsPart(s *solve.Sweep, pair *linkage.Pair, part *linkage.Part) bool {
	return slices.ContainsFunc(s.Cables, func(c solve.CableTravel) bool { return c.Cable.Pair == pair && c.Part == part })
}

// meets tells how near two points come at neutral.
func (t telling) meets() string {
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	at, to := t.Requirement.Points[0], t.Requirement.Points[1]
	if t.Verdict == solve.Holds {
		return fmt.Sprintf("%s meets %s at neutral to within %s. %s.", at, to, t.worst(), t.allowed())
	}
	way := ""
	if pose, ok := t.sweep.At(0); ok {
		way = wayOf(t.result.Run, pose.Point(at).Sub(pose.Point(to)))
	}
	said := fmt.Sprintf("%s doesn't meet %s at neutral: it stands %s off", at, to, t.worst())
	if off, ok := strings.CutPrefix(way, "goes "); ok && !strings.HasPrefix(off, "neither") {
		said += ", " + off
	}
	return said + ". " + t.allowed() + "."
}

// ByWhat names what drives a part on center: a rod, a cable or a pair of cables.
func ByWhat(c solve.Critical) string {
	switch {
	case c.Output != nil:
		return "by itself"
	case c.Joint != nil:
		return "by the joint " + c.Joint.Name
	case c.Cable == nil:
		return "by the rod " + c.Rod.Name
	case c.Cable.Pair != nil:
		return "by the pair " + c.Cable.Pair.Name
	}
	return "by the cable " + c.Cable.Name
}

// driverName is the name of the rod or cable that drives a part on center; a dash
// where an output turns back by itself.
func driverName(c solve.Critical) string {
	switch {
	case c.Output != nil:
		return "-"
	case c.Joint != nil:
		return c.Joint.Name
	case c.Cable != nil:
		return c.Cable.Name
	}
	return c.Rod.Name
}

// meaningOfCable tells what an on-center point means where cables drive.
func meaningOfCable(s *solve.Sweep, c solve.Critical) string {
	by := "the core of " + driverName(c)
	if c.Cable.Pair != nil {
		by = "the pair " + c.Cable.Pair.Name
	}
	part := c.Part.Name
	switch {
	case c.Kind == solve.Toggle && c.InLine != nil:
		other := c.Cable.Pair.Cables[0]
		if other == c.InLine {
			other = c.Cable.Pair.Cables[1]
		}
		return fmt.Sprintf("There the cable %s %s, and %s goes slack: %s locks up and is driven no further.", c.InLine.Name, acrossDriven(c), other.Name, part)
	case c.Kind == solve.Toggle && c.Cable.Pair != nil:
		return fmt.Sprintf("There %s holds %s no more: it goes over center, away from where it is wanted.", by, part)
	case c.Kind == solve.Toggle:
		return fmt.Sprintf("There %s %s: %s locks up and is driven no further; thrown past that point, %s.", by, acrossDriven(c), part, thrownPast(s, c))
	case c.Kind == solve.ChangePoint:
		return fmt.Sprintf("There %s no longer tells which way %s goes on: from there it may go either way, one of them backwards.", by, part)
	}
	return fmt.Sprintf("There %s is no longer moved along: %s halts and reverses%s; past this point, %s.", by, part, little(s, c), movingOn(s, c))
}

// cablesAssumed tells shortly what an answer about cables rests on; empty where
// there are none.
func cablesAssumed(r *solve.Result) string {
	if len(r.Run.Cables) == 0 {
		return ""
	}
	return ", cables without friction or load" + springsKeep(r.Run)
}

// springsKeep tells shortly which lone cables a spring is taken to keep taut.
func springsKeep(run *linkage.Run) string {
	said := ""
	for _, c := range run.Cables {
		if c.Spring != "" {
			said += ", a spring keeping " + c.Name + " taut"
		}
	}
	return said
}

// cablesDrawnUp tells shortly what a diagnosis takes of cables; empty where there
// are none.
func cablesDrawnUp(run *linkage.Run) string {
	if len(run.Cables) == 0 {
		return ""
	}
	return "; cables set as the file says, without friction or load" + springsKeep(run)
}

// cablesAssume tells what an answer about cables rests on.
func cablesAssume(r *solve.Result) []string {
	run := r.Run
	if len(run.Cables) == 0 {
		return nil
	}
	said := []string{"Assumed of cables: they run free, without friction or sag, conduits keep their length, and nothing loads what they move."}
	said = append(said, SpringsAssume(r)...)
	for _, p := range run.Pairs {
		if p.Cables[0].Wire == nil || p.Cables[1].Wire == nil {
			said = append(said, fmt.Sprintf("Assumed of the pair %s: each cable as stiff as the file says, %s.", p.Name, pairStiffness(p, run.UnitsOf(p.In))))
		}
	}
	said = append(said, wiresAssume(run)...)
	return append(said, temperatureAssumes(run)...)
}

func pairStiffness(p *linkage.Pair, u linkage.Unit) string {
	a, b := p.Cables[0], p.Cables[1]
	if a.Stiffness == b.Stiffness {
		return stiffnessOf(a, u)
	}
	return fmt.Sprintf("%s and %s", stiffnessOf(a, u), stiffnessOf(b, u))
}

// stiffnessOf tells what a cable pulls for each unit that it is stretched.
func stiffnessOf(c *linkage.Cable, u linkage.Unit) string {
	const decimals = 1 // N a mm, lbf an inch: the figures that it comes from have three digits
	return figure.WithUnit(figure.UpTo(c.Stiffness, decimals), u.ForceUnit()+"/"+u)
}

// SpringsAssume tells which lone cables a spring is taken to keep taut.
func SpringsAssume(r *solve.Result) []string {
	var said []string
	for i, c := range r.Run.Cables {
		if c.Spring == "" {
			continue
		}
		part := "what it moves"
		if len(r.Sweeps) > 0 && r.Sweeps[0].Cables[i].Part != nil {
			part = r.Sweeps[0].Cables[i].Part.Name
		}
		said = append(said, fmt.Sprintf("Taken: a spring returns %s to its %s side and keeps %s taut; the spring is not reckoned with.", part, c.Spring, c.Name))
	}
	return said
}

// wiresAssume tells by which figures the stiffness of open cables follows from
// what they are made of; of those that are alike once.
func wiresAssume(run *linkage.Run) []string {
	type made struct {
		wire   linkage.Wire
		length float64
	}
	var kinds []made
	names := map[made][]string{}
	first := map[made]*linkage.Cable{}
	for _, c := range run.Cables {
		if c.Wire == nil {
			continue
		}
		k := made{*c.Wire, c.Length}
		if first[k] == nil {
			kinds = append(kinds, k)
			first[k] = c
		}
		names[k] = append(names[k], c.Name)
	}
	var said []string
	for _, k := range kinds {
		c := first[k]
		words := fmt.Sprintf("Assumed of %s: %s, %s of it free, pulls %s (elastic stretch from a rope maker's technical table; one source)",
			figure.List(names[k]), c.Wire, figure.Length(c.Length, run.UnitsOf(c.In)), stiffnessOf(c, run.UnitsOf(c.In)))
		if breaks, known := c.Wire.BreaksAt(run.UnitsOf(c.In)); known {
			words += fmt.Sprintf("; it breaks at %s (FAA AC 43.13-1B, table 7-3)", figure.Quantity(breaks, run.UnitsOf(c.In).ForceUnit()))
		}
		said = append(said, words+".")
	}
	return said
}

// temperatureSays heads a run that is looked at at another temperature than it was
// rigged at; empty where it isn't.
func temperatureSays(run *linkage.Run) string {
	if run.Temperature == nil || run.RiggedAt == nil {
		return ""
	}
	said := fmt.Sprintf("AT %s; the cables were drawn up at %s.", figure.Celsius(*run.Temperature), figure.Celsius(*run.RiggedAt))
	var kinds []string
	names := map[string][]string{}
	for _, c := range run.Cables {
		if c.Grown == 0 {
			continue
		}
		words := grownSays(c, run.UnitsOf(c.In))
		if names[words] == nil {
			kinds = append(kinds, words)
		}
		names[words] = append(names[words], c.Name)
	}
	if len(kinds) == 0 && *run.Temperature != *run.RiggedAt {
		said += " The airframe grows as they do, so that changes nothing."
	}
	for _, words := range kinds {
		said += fmt.Sprintf(" So %s %s %s for the airframe.", figure.List(names[words]), isOrAre(names[words]), words)
	}
	return said
}

func isOrAre(names []string) string {
	if len(names) == 1 {
		return "is"
	}
	return "are"
}

// grownSays tells by how much a temperature lets an open cable out or takes it up.
func grownSays(c *linkage.Cable, u linkage.Unit) string {
	if c.Grown < 0 {
		return figure.Calipers(-c.Grown, u) + " too short"
	}
	return figure.Calipers(c.Grown, u) + " too long"
}

// temperatureAssumes tells by which figures a temperature changes cables.
func temperatureAssumes(run *linkage.Run) []string {
	if run.Temperature == nil {
		return nil
	}
	airframe, known := run.AirframeExpansion()
	if !known {
		return nil
	}
	said := ""
	for _, c := range run.Cables {
		if c.Wire == nil {
			continue
		}
		if own, known := c.Wire.Expansion(); known {
			const million = 1e6
			said = fmt.Sprintf("Assumed of the temperature: everything at %s throughout; for each degree Fahrenheit cables grow by %s and the airframe, of %s, by %s millionths of their length (appendix of a text on the mechanics of materials); parts and rods as drawn.",
				figure.Celsius(*run.Temperature), figure.UpTo(float64(own*million), 1), run.Airframe, figure.UpTo(float64(airframe*million), 1))
		}
	}
	if said == "" {
		return nil
	}
	return []string{said}
}
