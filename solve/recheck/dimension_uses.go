package recheck

import (
	"fmt"

	"fullfree/linkage"
)

func (l *lister) rod(r *linkage.Rod) {
	l.of([]linkage.Element{r}, r)
	l.words(r.Name+".from", r.From.String())
	l.words(r.Name+".to", r.To.String())
	l.length(r.Name+".length", r.Length)
	l.lengthOrNone(r.Name+".diameter", r.Diameter)
	if r.Misalignment != nil {
		l.number(r.Name+".misalignment", *r.Misalignment, linkage.Degrees)
	}
	if r.SecondPath {
		l.yes(r.Name+".second-path", true)
		l.length(r.Name+".play", r.Play)
	}
	l.builds(r.Name+".tolerance", r.Tolerance, l.units)
	l.play(r.Name, r.JointPlay, r)
	for _, e := range r.Ends {
		name := e.String()
		l.play(name, e.JointPlay, r)
		l.thread(name, e.Thread, e.Left, e.Engaged, e.Least, e.Most, e.Step)
		l.lengthOrNone(name+".shank", e.Shank)
	}
	for i := range r.Points {
		l.of(append(l.atPoint(linkage.PointRef{Rod: r, Point: i}), r), r)
		l.place(r.Name+"."+r.Points[i].Name, linkage.Dimension{Rod: r, Point: i})
	}
}

func (l *lister) joint(j *linkage.Joint) {
	l.of([]linkage.Element{j}, j)
	l.words(j.Name+".of", j.Of[0].String()+", "+j.Of[1].String())
	l.of(nil, j)
	l.lengthOrNone(j.Name+".joint-play", j.JointPlay)
}

// rotor adds what turns blades, which is of all that it turns.
func (l *lister) rotor(r *linkage.Rotor) {
	if r == nil {
		return
	}
	l.enter(r.Hub.In)
	l.of(nil, r.Hub)
	before := ""
	if r.Hub.In != nil {
		before = r.Hub.In.Name + "."
	}
	turns := "anticlockwise"
	if r.Clockwise {
		turns = "clockwise"
	}
	l.words(before+"rotor.hub", r.Hub.Name)
	l.words(before+"rotor.turns", turns)
}

// thread adds what is known of a threaded end.
func (l *lister) thread(name string, t linkage.Thread, left bool, engaged, least float64, most *float64, step float64) {
	l.words(name+".thread", t.Name)
	hand := "right"
	if left {
		hand = "left"
	}
	l.words(name+".hand", hand)
	l.length(name+".engaged", engaged)
	l.length(name+".least", least)
	l.lengthOrNone(name+".most", most)
	if step > 0 {
		l.number(name+".step", step, linkage.NoUnit)
	}
}

// play adds how much a rod's joint gives. A joint that is worn or fitted anew is felt from
// the hand to the blade, but its rod is as long as it was.
func (l *lister) play(name string, v *float64, r *linkage.Rod) {
	touches, reaches := l.touches, l.reaches
	l.of(nil, r)
	l.lengthOrNone(name+".joint-play", v)
	l.of(touches, reaches...)
}

func (l *lister) cable(c *linkage.Cable) {
	l.of([]linkage.Element{c}, c)
	if c.Open() {
		for i, quadrant := range c.Quadrants {
			side := [...]string{"from", "to"}[i]
			l.words(c.Name+"."+side, quadrant.Name)
			l.length(c.Name+".radius-"+side, c.Radius[i])
			l.number(c.Name+".winds-"+side, c.Winds[i], linkage.NoUnit)
		}
	} else {
		for i, leg := range c.Legs() {
			side := [...]string{"from", "to"}[i]
			l.words(c.Name+"."+side, leg[0].String())
			l.words(c.Name+".conduit-"+side, leg[1].String())
		}
		if c.Pair == nil {
			l.length(c.Name+".core", c.Core)
		}
	}
	l.yes(c.Name+".pushes", c.Pushes)
	if c.Stiffness > 0 {
		l.number(c.Name+".stiffness", c.Stiffness, perLength(l.units))
	}
	l.words(c.Name+".spring", c.Spring)
	if c.Length > 0 {
		l.length(c.Name+".run", c.Length)
	}
	if c.Wire != nil {
		l.words(c.Name+".wire", c.Wire.String())
	}
	for _, e := range c.Ends {
		l.thread(e.String(), e.Thread, e.Left, e.Engaged, e.Least, e.Most, e.Step)
	}
}

func (l *lister) pair(p *linkage.Pair) {
	both := []linkage.Element{p.Cables[0], p.Cables[1]}
	l.of(both, both...)
	l.words(p.Name+".cables", p.Cables[0].Name+", "+p.Cables[1].Name)
	l.number(p.Name+".pretension", p.Pretension, l.units.ForceUnit())
}

func (l *lister) control(c *linkage.Control) {
	l.of(nil, c)
	angular := c.Of.Angular()
	l.words(c.Name+".of", c.Of.Name)
	l.travel(c.Name+".from", c.From, angular)
	l.travel(c.Name+".to", c.To, angular)
	l.words(c.Name+".held", list(c.Held...))
	l.words(c.Name+".plus", c.Plus)
	l.words(c.Name+".minus", c.Minus)
	if c.Grip != nil {
		l.words(c.Name+".grip", c.Grip.String())
	}
	if t := c.Twist; t != nil {
		turns := "anticlockwise"
		if t.Clockwise {
			turns = "clockwise"
		}
		l.words(c.Name+".seen-from", t.SeenFrom)
		l.words(c.Name+".turns", turns)
	}
	if len(c.Detents) > 0 {
		l.words(c.Name+".detents", list(c.Detents...))
	}
}

func (l *lister) output(o *linkage.Output) {
	l.of(nil, o)
	switch {
	case o.Point != nil:
		l.words(o.Name+".of", o.Point.String())
		l.words(o.Name+".along", vec(o.Along))
	case o.Part != nil:
		l.words(o.Name+".of", o.Part.Name)
	}
	l.words(o.Name+".plus", o.Plus)
	l.words(o.Name+".minus", o.Minus)
	l.travel(o.Name+".reads", o.Reads, o.Angular())
	if o.SeenAt != nil {
		l.words(o.Name+".seen-at", o.SeenAt.String())
	}
	if o.Tilts != nil {
		l.words(o.Name+".tilts", vec(*o.Tilts))
	}
	if o.LeadingEdge != nil {
		l.words(o.Name+".leading-edge", o.LeadingEdge.String())
	}
	if o.AgainstCarrier {
		l.words(o.Name+".against", "carrier")
	}
}

func (l *lister) stop(s *linkage.Stop) {
	l.of([]linkage.Element{s}, s)
	if s.Of != nil && s.Of.Angular() {
		l.builds(s.Name+".tolerance", s.Tolerance, linkage.Degrees)
	} else {
		l.builds(s.Name+".tolerance", s.Tolerance, l.units)
	}
	if s.Of == nil {
		l.words(s.Name+".touch", s.Touch[0].String()+", "+s.Touch[1].String())
		return
	}
	angular := s.Of.Angular()
	l.words(s.Name+".of", s.Of.Name)
	l.travel(s.Name+".at", s.At, angular)
	l.words(s.Name+".side", s.Side)
	if s.Adjust != nil {
		l.words(s.Name+".adjust", list(s.Adjust[0], s.Adjust[1]))
	}
	if s.StepGiven {
		l.travel(s.Name+".step", s.Step, angular)
	}
}

func (l *lister) pin(p *linkage.Pin) {
	l.of(nil, p.Of)
	l.words(p.Name+".of", p.Of.Name)
	l.travel(p.Name+".at", p.At, p.Of.Angular())
	l.length(p.Name+".within", p.Within)
}

// requirements lists the figures of what is required. One without a name is told from
// others of its kind by its place among them.
func (l *lister) requirements() {
	titles := titlesOf(l.run)
	for i, q := range l.run.Requirements {
		l.enter(q.In)
		l.of(nil, ofRequirement(q)...)
		first := len(l.list)
		before := ""
		if q.In != nil {
			before = q.In.Name + "."
		}
		l.requirement(before+titles[i], q)
		if len(l.reaches) == 0 {
			for k := range l.list[first:] {
				l.ofAll(&l.list[first+k])
			}
		}
	}
}

// titlesOf names every requirement of a run: its kind, its own name, and where several
// are called alike which of them it is; of an aircraft among those of the same run, or
// across runs.
func titlesOf(run *linkage.Run) []string {
	type key struct {
		in    *linkage.Member
		title string
	}
	var titles []string
	seen := map[key]int{}
	for _, q := range run.Requirements {
		title := string(q.Kind)
		if q.Name != "" {
			title += fmt.Sprintf(" %q", q.Name)
		}
		k := key{q.In, title}
		if seen[k]++; seen[k] > 1 {
			title += fmt.Sprintf(" #%d", seen[k])
		}
		titles = append(titles, title)
	}
	return titles
}

func (l *lister) requirement(title string, q *linkage.Requirement) {
	of := ""
	var unit linkage.Unit
	named := func(name string) {
		if of != "" {
			of += ", "
		}
		of += name
	}
	for _, s := range q.Of {
		named(s.Name())
		if unit = l.run.UnitsOf(s.In()); s.Angular() {
			unit = linkage.Degrees
		}
	}
	limit := func(name string, v float64) { l.number(title+"."+name, v, unit) }
	of2 := func(name string) { l.words(title+"."+name, of) }
	switch q.Kind {
	case linkage.Opposite, linkage.Together, linkage.Steady, linkage.Neutral, linkage.Symmetrical:
		of2("of")
		l.yes(title+".opposed", q.Opposed)
		limit("within", q.Within)
	case linkage.Sense:
		if q.Places != nil {
			places(l, title, q.Places)
			break
		}
		of2("of")
		turns := "opposite"
		if q.Same {
			turns = "same"
		}
		l.words(title+".turns", turns)
	case linkage.Travel:
		of2("of")
		limit("low", q.Low)
		limit("high", q.High)
		limit("within", q.Within)
	case linkage.CollectivePitch, linkage.CyclicPitch:
		of2("of")
		if q.Most != nil {
			limit("most", *q.Most)
			break
		}
		limit("low", q.Low)
		limit("high", q.High)
		limit("within", q.Within)
	case linkage.CyclicSense:
		of2("of")
		places(l, title, q.Places)
		l.words(title+"."+q.Over.Attribute(), q.Over.String())
		l.number(title+".within", q.Within, linkage.Degrees)
	case linkage.Reading:
		of2("of")
		l.number(title+".at", q.At, linkage.NoUnit)
		limit("wants", q.Wants)
		limit("within", q.Within)
	case linkage.OverCenter:
		l.number(title+".least", q.Least, linkage.NoUnit)
	case linkage.RodAngle:
		l.number(title+".least", q.Least, linkage.Degrees)
	case linkage.Clearance:
		l.words(title+".between", q.Between[0].String()+", "+q.Between[1].String())
		l.length(title+".least", q.Least)
	case linkage.Misalignment:
		if q.Most != nil {
			l.number(title+".most", *q.Most, linkage.Degrees)
			break
		}
		l.words(title, "each rod's own")
	case linkage.FreePlay:
		of2("of")
		if q.Most != nil {
			limit("most", *q.Most)
		}
	case linkage.SecondPath:
		l.lengthOrNone(title+".most", q.Most)
	case linkage.Order:
		l.words(title+".first", q.First.Name)
		l.words(title+".then", q.Then.Name)
		l.number(title+".least", q.Least, linkage.NoUnit)
	case linkage.Taut:
		l.words(title+".of", q.Pair.Name)
		l.number(title+".least", q.Least, l.run.UnitsOf(q.Pair.In).ForceUnit())
	case linkage.Meets:
		l.words(title+".of", q.Points[0].String()+", "+q.Points[1].String())
		l.length(title+".within", q.Within)
	default:
		l.words(title, "required")
	}
	switch {
	case q.Through != nil: // what it names is no control here
		l.words(title+".control", q.Through.Follows.Name)
	case q.Control != nil:
		l.words(title+".control", q.Control.Name)
	}
}

// places lists the places that a sense is told by.
func places(l *lister, title string, list []linkage.PlaceMotion) {
	for i, place := range list {
		l.words(title+"."+[...]string{"when", "then"}[i], place.Place.String()+", "+string(place.Direction))
	}
}
