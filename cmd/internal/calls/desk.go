package calls

import (
	"encoding/json"
	"errors"
	"slices"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"
)

// Desk answers a page that holds its files itself: several texts, of which one is on the
// bench.
type Desk struct {
	texts *Texts
	bench *Bench // nil: none
	shown string // the text on it
	// Progress, which may be nil, is told how far an answer is.
	Progress func(done, of int)
}

// NewDesk returns one without a text.
func NewDesk() *Desk { return &Desk{texts: NewTexts()} }

// text is a named text as a page sends and gets it.
type text struct {
	Name string  `json:"name"`
	Text *string `json:"text"` // null: it is taken away
}

// demoJSON is something to start from.
type demoJSON struct {
	Kind  string `json:"kind"`
	About string `json:"about"`
}

// onDesk is what a page asks of its texts.
type onDesk struct {
	Name  string `json:"name"`
	Texts []text `json:"texts"`
}

// Answer answers a call. Those of a bench go to that of the text that is shown; a fault of
// the program is told, and ends nothing.
func (d *Desk) Answer(call string, body []byte) (a Answer) {
	defer func() {
		if trouble := recover(); trouble != nil {
			a = Refused(Failed, "something went wrong in fullfree itself: %v", trouble)
		}
	}()
	if serve, known := unfiled[call]; known {
		return serve(body)
	}
	serve, known := map[string]func(*onDesk) Answer{
		"demos": func(*onDesk) Answer { return demos() },
		"demo":  demoTexts,
		"put":   d.put,
		"texts": d.all,
		"read":  d.read,
		"show":  d.show,
	}[call]
	if known {
		ask := onDesk{}
		if len(body) > 0 {
			if err := readObject(body, &ask); err != nil {
				return Refused(Wrong, "this is not what the page asks: %s", linkage.Printable(err.Error()))
			}
		}
		return serve(&ask)
	}
	if d.bench == nil {
		return Refused(Unfit, "no run is shown")
	}
	return d.bench.Answer(call, body, nil)
}

// answerJSON is an answer of plain values.
func answerJSON(v any) Answer {
	body, err := json.Marshal(v)
	if err != nil {
		return Refused(Failed, "%s", linkage.Printable(err.Error()))
	}
	return Answer{Done, body}
}

// demos lists what there is to start from.
func demos() Answer {
	list := []demoJSON{}
	for _, kind := range demo.Kinds() {
		list = append(list, demoJSON{kind, demo.About(kind)})
	}
	for _, kind := range demo.More() {
		list = append(list, demoJSON{kind, ""})
	}
	return answerJSON(append(list, demoJSON{demo.Aircraft, "five runs joined, from the hand to the blade"}))
}

// demoTexts are the files of one demo, that which is shown first.
func demoTexts(ask *onDesk) Answer {
	list := []text{}
	add := func(name string, of []byte) {
		words := string(of)
		list = append(list, text{name, &words})
	}
	if ask.Name == demo.Aircraft {
		files, err := demo.AircraftFiles()
		if err != nil {
			return Refused(Failed, "%s", linkage.Printable(err.Error()))
		}
		for _, f := range files {
			add(f.Name, f.Text)
		}
		return answerJSON(list)
	}
	of, known := demo.File(ask.Name)
	if !known {
		return Refused(Wrong, "there is no kind %q%s", linkage.Printable(ask.Name), DidYouMean(ask.Name, demo.Kinds()))
	}
	add(ask.Name+".hcl", of)
	return answerJSON(list)
}

// put takes texts over from the page.
func (d *Desk) put(ask *onDesk) Answer {
	for _, t := range ask.Texts {
		if t.Text == nil {
			d.texts.Put(t.Name, nil)
			continue
		}
		d.texts.Put(t.Name, []byte(*t.Text))
	}
	return answerJSON(struct{}{})
}

// all tells the texts as they are now: what is saved changes them.
func (d *Desk) all(*onDesk) Answer {
	list := []text{}
	for _, name := range d.texts.Names() {
		words := string(d.texts.all[name])
		list = append(list, text{name, &words})
	}
	return answerJSON(list)
}

// faultJSON is a fault at its place; line 0 has none.
type faultJSON struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Says   string `json:"says"`
}

// read tells what is wrong with a text, as far as that shows without moving anything, and
// which names are in it.
func (d *Desk) read(ask *onDesk) Answer {
	out := struct {
		Faults []faultJSON `json:"faults"`
		Names  []string    `json:"names"`
		Words  []string    `json:"words"`
		Parts  []string    `json:"parts"` // parts and rods, which can be printed alone
	}{[]faultJSON{}, []string{}, linkage.Words(), []string{}}
	words, err := d.texts.Read(ask.Name)
	if err != nil {
		return Refused(Unfit, "%s", err)
	}
	var run *linkage.Run
	if d.bench != nil && d.shown == ask.Name { // which reads and judges it once for all calls
		d.bench.look()
		run, err = d.bench.Run(), d.bench.trouble
	} else {
		in := &Input{Name: ask.Name, Beside: d.texts.Beside(ask.Name)}
		if err = in.Read(words); err == nil {
			err = in.Ready()
		}
		run = in.Run
	}
	out.Faults = faultsIn(ask.Name, err)
	if run != nil {
		out.Names = namesIn(run)
		for _, p := range run.Parts {
			out.Parts = append(out.Parts, p.Name)
		}
		for _, r := range run.Rods {
			out.Parts = append(out.Parts, r.Name)
		}
	}
	return answerJSON(out)
}

// faultsIn are the faults of an error, those of a file at their places.
func faultsIn(name string, err error) []faultJSON {
	list := []faultJSON{}
	var faults *linkage.Faults
	switch {
	case err == nil:
	case errors.As(err, &faults):
		for _, f := range faults.List {
			in := f.Span.File
			if in == "" {
				in = name
			}
			list = append(list, faultJSON{in, f.Span.Line, f.Span.Column, linkage.Printable(f.Says)})
		}
	default:
		list = append(list, faultJSON{name, 0, 0, linkage.Printable(err.Error())})
	}
	return list
}

// namesIn are the names that a run's file may refer to.
func namesIn(run *linkage.Run) (list []string) {
	for _, p := range run.Parts {
		list = append(list, p.Name)
		for _, point := range p.Points {
			list = append(list, p.Name+"."+point.Name)
		}
	}
	for _, n := range run.Numbers() {
		list = append(list, n.String())
	}
	for _, c := range run.Controls {
		list = append(list, c.Name)
	}
	for _, o := range run.Outputs {
		list = append(list, o.Name)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// show puts a text on the bench. Where it can't be judged, what was there before stays.
func (d *Desk) show(ask *onDesk) Answer {
	if d.bench == nil || d.shown != ask.Name {
		bench, err := Open(d.texts, ask.Name)
		if err != nil {
			if errors.Is(err, solve.ErrStopped) {
				return Refused(Dropped, "it was given up")
			}
			return unfit(err)
		}
		bench.Progress = func(done, of int) {
			if d.Progress != nil {
				d.Progress(done, of)
			}
		}
		d.bench, d.shown = bench, ask.Name
	}
	return d.bench.Answer("workbench", []byte(`{"lean":true}`), nil)
}
