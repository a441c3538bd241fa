package page

import (
	"bytes"
	"fmt"
	"html/template"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/picture"
	"fullfree/solve"
)

// mostTravels is how many sweeps of one run a book shows: with more it would
// be too large for a phone. All are judged.
const mostTravels = 24

// rotorTravels is that of a rotor, whose parts go a long way round.
const rotorTravels = 10

// mostPlaced is how many travels, times the pieces of the run squared, a book shows: to
// put names beside the pieces takes so much work for each.
const mostPlaced = 200_000

// travelsShown is how many sweeps of a run a book shows at most.
func travelsShown(r *solve.Result) int {
	pieces := len(r.Run.Parts) + len(r.Run.Rods) + len(r.Run.Cables)
	if r.Rotor != nil {
		return min(rotorTravels, 1+mostPlaced/max(1, pieces*pieces))
	}
	return min(mostTravels, 1+mostPlaced/max(1, pieces*pieces))
}

// mostStills is how many pictures of one travel are printed, neutral and both
// ends among them.
const mostStills = 5

// bookTravel is one sweep in a book.
type bookTravel struct {
	ID, Title  string
	Again      bool   // another setting of a control that was told already
	Tall       bool   // its pictures are so high that one is printed, and not several
	Choice     string // its name in a list to choose from
	Control    string
	Unit       linkage.Unit
	Low, High  string // of the control, exactly
	Minus      string // at the low end
	Plus       string // at the high end
	Picture    template.HTML
	Course     picture.Course
	Readout    []readoutGroup
	Stills     []bookStill
	StillTable render.Passage
	Charts     []template.HTML
	Moves      []render.Passage
	Ends       []render.Passage
	Centers    []render.Passage
	Bites      []render.Passage

	sweep  *solve.Sweep
	course *solve.Course
}

// bookStill is the run in one position, for print.
type bookStill struct {
	Letter, Says string
	Neutral      bool
	Picture      template.HTML
	at           float64
	series       []*float64
}

// travelID is the id of the section of a sweep.
func travelID(run string, s *solve.Sweep) string { return fmt.Sprintf("%ss%d", run, s.Index+1) }

// shownSweeps is the sweeps that a book shows, in their order: those where a
// requirement is worst before others, if there are too many.
func shownSweeps(r *solve.Result, most int) []*solve.Sweep {
	if most = min(most, travelsShown(r)); most == 0 {
		most = travelsShown(r)
	}
	if len(r.Sweeps) <= most {
		return r.Sweeps
	}
	shown := map[int]bool{}
	for _, c := range r.Run.Controls {
		if s := render.SweepsOf(r, c); len(s) > 0 && len(shown) < most {
			shown[s[0].Index] = true
		}
	}
	for i, s := range r.Sweeps { // a rotor going round, with one other control to one side
		if s.TurnsRotor() && len(s.Settings()) > 0 && offNeutral(s) == 1 && len(shown) < most {
			shown[i] = true
		}
	}
	for _, j := range r.Requirements {
		if j.At != nil && len(shown) < most {
			shown[j.Sweep] = true
		}
	}
	for i := 0; len(shown) < most; i++ {
		shown[i] = true
	}
	var list []*solve.Sweep
	for i, s := range r.Sweeps {
		if shown[i] {
			list = append(list, s)
		}
	}
	return list
}

// offNeutral is how many other controls stand off neutral in a sweep.
func offNeutral(s *solve.Sweep) (n int) {
	for _, h := range s.Held {
		if h.At != 0 {
			n++
		}
	}
	return n
}

// worstPlaces is where in a sweep requirements are at their worst, those that
// don't hold first; what is worst at one place stands there together.
func worstPlaces(r *solve.Result, s *solve.Sweep) []worstPlace {
	var places []worstPlace
	for _, verdict := range []solve.Verdict{solve.FallsShort, solve.CannotTell, solve.Holds} {
		for i := range r.Requirements {
			j := &r.Requirements[i]
			if j.Verdict != verdict || j.At == nil || j.Sweep != s.Index {
				continue
			}
			k := slices.IndexFunc(places, func(p worstPlace) bool { return p.at == *j.At })
			if k < 0 {
				k, places = len(places), append(places, worstPlace{at: *j.At})
			}
			places[k].of = append(places[k].of, render.RequirementTitle(r, j.Requirement))
		}
	}
	return places
}

// worstPlace is a place of the control where requirements are at their worst.
type worstPlace struct {
	at float64
	of []string
}

func bookTravelOf(id string, r *solve.Result, s *solve.Sweep) (bookTravel, error) {
	places := worstPlaces(r, s)
	var through []float64
	for _, p := range places {
		through = append(through, p.at)
	}
	course := s.Course(through...)
	live, err := picture.Live(r, s, picture.LiveOptions{ID: id + "-live"})
	if err != nil {
		return bookTravel{}, err
	}
	b := bookTravel{
		ID: id, Title: render.SweepTitle(r.Run, s), Choice: s.Control.Name,
		Again:   render.SweepsOf(r, s.Control)[0] != s,
		Control: s.Control.Name, Unit: s.Unit, Low: figure.Exactly(s.Low), High: figure.Exactly(s.High),
		Minus: travelEnd(s, 0), Plus: travelEnd(s, 1),
		Picture: inPage(live),
		Course:  picture.CourseOf(r, s, course),
		Ends:    render.EndPassages(r, s),
		Centers: render.CenterPassages(s),
		Bites:   render.BitePassages(s),
		Moves:   render.MovePassages(r, s),
		sweep:   s, course: course,
	}
	if len(s.Settings()) > 0 {
		b.Choice += ", with " + render.HeldAt(r.Run, s)
	}
	b.Tall = tall(live)
	charts, err := picture.ChartPictures(r, s, course, id)
	if err != nil {
		return bookTravel{}, err
	}
	for _, drawn := range charts {
		b.Charts = append(b.Charts, inPage(drawn))
	}
	err = b.addStills(r, s, course, places)
	return b, err
}

// tallShare is from what height on, of its width, a picture is tall: several side by side
// on paper would leave nothing to read.
const tallShare = 0.95

// tall reports whether a picture of ours is so much higher than wide.
func tall(svg []byte) bool {
	const box = `viewBox="0 0 `
	var wide, high float64
	size, _, _ := bytes.Cut(svg[bytes.Index(svg, []byte(box))+len(box):], []byte(`"`))
	_, err := fmt.Sscan(string(size), &wide, &high)
	return err == nil && high > tallShare*wide
}

// travelEnd names an end of a travel: the file's words for that side, or else
// its figure.
func travelEnd(s *solve.Sweep, end int) string {
	if words := render.SideWord(s, end == 1); words != "" {
		return figure.Clean(words)
	}
	return figure.Quantity(s.Ends[end].At, s.Unit)
}

// addStills adds the pictures for print, by position: the ends, neutral, and
// the worst places that lie farthest from those, and what the run does there.
func (b *bookTravel) addStills(r *solve.Result, s *solve.Sweep, course *solve.Course, places []worstPlace) error {
	at := []float64{s.Low}
	for _, x := range []float64{0, s.High} {
		if !slices.Contains(at, x) {
			at = append(at, x)
		}
	}
	const apart = 0.04 // of the travel: nearer, one picture looks as the other
	for _, p := range places {
		near := slices.ContainsFunc(at, func(x float64) bool { return math.Abs(x-p.at) < apart*(s.High-s.Low) })
		if !near && p.at > s.Low && p.at < s.High && len(at) < mostStills {
			at = append(at, p.at)
		}
	}
	slices.Sort(at)
	series := b.Course.Series
	b.StillTable.Head = []string{"at", ""}
	for _, x := range at {
		k := slices.IndexFunc(course.Samples, func(p solve.PoseSample) bool { return p.At == x })
		if k < 0 {
			continue // it couldn't be followed there
		}
		letter := figure.Letter(len(b.Stills))
		drawn, err := picture.Live(r, s, picture.LiveOptions{ID: b.ID + "-still" + letter, At: x, Still: true})
		if err != nil {
			return err
		}
		still := bookStill{Letter: letter, Says: stillSays(s, x, places), Neutral: x == 0, Picture: inPage(drawn), at: x, series: course.Samples[k].Values}
		b.Stills = append(b.Stills, still)
		b.StillTable.Head = append(b.StillTable.Head, letter)
	}
	b.addStillRow(s.Control.Name+" (control)", s.Unit, func(still bookStill) string { return figure.Number(still.at, s.Unit) })
	for i, one := range series {
		b.addStillRow(one.Label, one.Unit, func(still bookStill) string { return seriesFigure(one, still.series[i]) })
	}
	b.Readout = readoutOf(series, course)
	return nil
}

// addStillRow adds what one thing is in every still.
func (b *bookTravel) addStillRow(label string, unit linkage.Unit, shown func(bookStill) string) {
	row := []string{label, string(unit)}
	for _, still := range b.Stills {
		row = append(row, shown(still))
	}
	b.StillTable.Rows = append(b.StillTable.Rows, row)
}

// stillSays tells where a still is, and what is worst there.
func stillSays(s *solve.Sweep, at float64, places []worstPlace) string {
	said := s.Control.Name + " at " + render.ControlPosition(s, at)
	for i, end := range []string{"low end", "high end"} {
		if at == s.Ends[i].At {
			said += ", " + end
		}
	}
	for _, p := range places {
		if p.at == at {
			said += "; worst here: " + figure.List(p.of)
		}
	}
	return said
}
