package page

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// stepTravels lists what every control, every output and every part that is
// compared with another reads at neutral and at both ends, stop to stop.
func stepTravels(r *solve.Result) sheetStep {
	step := sheetStep{
		step:  recheck.StepTravels,
		Title: "Travels, stop to stop",
		Says:  []string{"Allowed is what the file requires; where it requires nothing, ask the designer."},
	}
	step.Table.Head = slices.Clone(travelsHead)
	for _, c := range r.Run.Controls {
		if sweeps := byHand(r, c); len(sweeps) > 0 {
			addTravels(&step.Table, r, sweeps[0], func(q quantity) bool {
				o, _ := q.of.(*linkage.Output)
				return !ofBlade(r, o)
			})
		}
	}
	return step
}

var travelsHead = []string{"reading", "with the control", "predicted", "allowed", "as rigged"}

// addTravels adds what is to be read in a sweep, of it what is wanted.
func addTravels(t *sheetTable, r *solve.Result, s *solve.Sweep, wanted func(quantity) bool) {
	with := ""
	if held := render.HeldAt(r.Run, s); len(r.Run.Controls) > 1 && held != "" {
		with = "with " + held
	}
	own := slices.ContainsFunc(s.Parts, func(p solve.PartTravel) bool { return p.Part == s.Control.Of })
	for _, q := range quantities(r, s) {
		if !wanted(q) {
			continue
		}
		for _, at := range readingsOf(q, s) {
			says := at.says
			if !own || r.Run.Aircraft != nil { // no row of the control's own stands over it
				says = figure.Joined(", ", s.Control.Name, says)
			}
			when := figure.Joined(", ", says, with)
			t.line(recheck.Line{Says: q.name + ", " + when, About: q.of, Figure: &recheck.Figure{Value: at.value, Unit: q.unit, Allowed: allowance(q, at.side)}},
				cellSays(q.name), cellSays(when), cellSays(figure.Quantity(at.value, q.unit)), allowed(q, at.side), cellBlank())
		}
	}
}

// quantity is what is read off at the ends of a travel.
type quantity struct {
	solve.Extent
	name string
	unit linkage.Unit
	of   linkage.Element // what is read: a part, an output or a control
	// travel is the requirement that gives its figures, and steady the one that
	// lets it move no more than so much; nil where there is none.
	travel, steady *linkage.Requirement
	// neutral is the requirement that says how near to the drawn position it stands at
	// neutral; nil where there is none.
	neutral *linkage.Requirement
	// alike is the requirement that compares it with another, of that name; nil
	// where there is none.
	alike *linkage.Requirement
	other string
	// own says that it is the control's own position, which is 0 at neutral.
	own bool
}

// quantities returns what is to be read in a sweep: the control's part, the
// parts that a requirement compares, the outputs; of those the ones that move.
func quantities(r *solve.Result, s *solve.Sweep) []quantity {
	compared := map[*linkage.Part]bool{}
	for _, req := range r.Run.Requirements {
		for _, of := range req.Of {
			if of.Part != nil && (req.Kind == linkage.Opposite || req.Kind == linkage.Together || req.Kind == linkage.Travel) {
				compared[of.Part] = true
			}
		}
	}
	var list []quantity
	add := func(name string, unit linkage.Unit, e solve.Extent, of linkage.Subject) {
		q := quantity{Extent: e, name: name, unit: unit, of: elementOf(of),
			travel: requiredOf(r.Run, linkage.Travel, s, of), steady: requiredOf(r.Run, linkage.Steady, s, of), neutral: requiredOf(r.Run, linkage.Neutral, s, of)}
		q.alike, q.other = comparedWith(r.Run, s, of)
		list = append(list, q)
	}
	for _, p := range s.Parts {
		of := linkage.Subject{Part: p.Part}
		switch {
		case p.Part == s.Control.Of:
			of = ofControl(s.Control)
			add(s.Control.Name+" ("+p.Name+")", s.Unit, solve.Extent{AtLow: s.Low, AtHigh: s.High}, of)
			list[len(list)-1].own = true
		case compared[p.Part] && !stays(p.Extent, p.Unit) && (p.Part.Motion != linkage.Floats || p.Name == p.Part.Name+".turn"):
			add(p.Name, p.Unit, p.Extent, of)
		}
	}
	for _, o := range s.Outputs {
		if stays(o.Extent, o.Unit) {
			continue
		}
		name := o.Output.Name
		if words := render.PlusMinus(o.Output); words != "" {
			name += " (" + words + ")"
		}
		add(name, o.Unit, o.Extent, linkage.Subject{Output: o.Output})
	}
	return list
}

// ofControl is what a requirement of a control's own position names: the control where it
// is measured on its part's carrier, and its part else.
func ofControl(c *linkage.Control) linkage.Subject {
	if c.Of.Carrier != nil {
		return linkage.Subject{Control: c}
	}
	return linkage.Subject{Part: c.Of}
}

// elementOf is the element that a subject is.
func elementOf(of linkage.Subject) linkage.Element {
	switch {
	case of.Output != nil:
		return of.Output
	case of.Control != nil:
		return of.Control
	}
	return of.Part
}

// allowance is by how much a reading may be off to either side by what the file requires
// of it: the least where several requirements say so, 0 where none does.
func allowance(q quantity, side int) float64 {
	least := math.Inf(1)
	for _, req := range []*linkage.Requirement{q.travel, q.steady, q.neutral, q.alike} {
		if req != nil && (req == q.alike || (req == q.neutral) == (side == 0)) {
			least = math.Min(least, req.Within)
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// requiredOf returns the first requirement of a kind that a sweep's reading of
// something is judged by.
func requiredOf(run *linkage.Run, kind linkage.Kind, s *solve.Sweep, of linkage.Subject) *linkage.Requirement {
	for _, req := range run.Requirements {
		if req.Kind == kind && (req.Control == nil || req.Control == s.Control) && req.Of[0] == of {
			return req
		}
	}
	return nil
}

// comparedWith returns the first requirement that compares something that isn't
// the control itself with another, and the name of that; nil where there is none.
func comparedWith(run *linkage.Run, s *solve.Sweep, of linkage.Subject) (*linkage.Requirement, string) {
	if of.Part == s.Control.Of || of.Control != nil {
		return nil, ""
	}
	for _, req := range run.Requirements {
		if req.Kind != linkage.Opposite && req.Kind != linkage.Together || req.Control != nil && req.Control != s.Control {
			continue
		}
		for i, subject := range req.Of {
			if subject == of && len(req.Of) == 2 {
				return req, req.Of[1-i].Name()
			}
		}
	}
	return nil, ""
}

// readAt is one of the three places where something is read.
type readAt struct {
	says  string
	value float64
	side  int // -1: its low figure is meant, 1: its high one, 0: neither
}

// readingsOf returns neutral and the ends of the travel, with which of the two
// figures of a travel is meant at each end.
func readingsOf(q quantity, s *solve.Sweep) []readAt {
	var list []readAt
	if !q.own {
		list = append(list, readAt{says: "neutral", value: q.Neutral})
	}
	up := 1
	if q.AtHigh < q.AtLow {
		up = -1
	}
	for i, end := range s.Ends {
		if end.At == 0 {
			continue
		}
		at := readAt{says: sideOf(s.Control, i == 1), value: q.AtLow, side: -up}
		if i == 1 {
			at.value, at.side = q.AtHigh, up
		}
		list = append(list, at)
	}
	return list
}

// allowed tells between which figures a reading is to lie, and how near to
// another's; a blank where the file gives neither. At neutral only a requirement of
// that name tells a figure.
func allowed(q quantity, side int) sheetCell {
	figures, alike := "", ""
	switch {
	case side == 0 && q.neutral != nil:
		figures = "within " + figure.Given(q.neutral.Within, q.unit) + " of the drawing"
	case side == 0:
	case q.steady != nil:
		figures = "within " + figure.Given(q.steady.Within, q.unit) + " of neutral"
	case q.travel != nil:
		shown := q.travel.Low
		if side > 0 {
			shown = q.travel.High
		}
		if q.travel.Within == 0 {
			figures = figure.Given(shown, q.unit)
		} else {
			figures = fmt.Sprintf("%s to %s", tidy(shown-q.travel.Within, ""), tidy(shown+q.travel.Within, q.unit))
		}
	}
	if q.alike != nil {
		as := "as "
		if q.alike.Kind == linkage.Opposite {
			as = "opposite to "
		}
		alike = as + q.other + ", within " + figure.Given(q.alike.Within, q.unit)
	}
	if says := figure.Joined("; ", figures, alike); says != "" {
		return cellSays(says)
	}
	return cellBlank()
}

// tidy is a sum of numbers of the file, without what adding them leaves.
func tidy(v float64, unit linkage.Unit) string {
	const fine = 1e6
	return figure.Given(math.Round(v*fine)/fine, unit)
}
