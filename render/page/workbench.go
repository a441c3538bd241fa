package page

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
)

// Workbench is a run on the workbench page, where settings are tried before a wrench is
// turned.
type Workbench struct {
	File    string // as the user named it
	Hash    string // SHA-256 of the file, hexadecimal
	Version string // of the program
	// Faults is what is wrong with the file as it is by now; then all the rest
	// is as it was when it last read well.
	Faults string
	Filed  render.Variant // the run as filed, judged
}

// workbenchJSON is what the page is told of the file: what can be moved and set.
type workbenchJSON struct {
	Hash     string                 `json:"hash"`
	File     string                 `json:"file"`
	Saves    string                 `json:"saves"` // into what it is saved, in words
	Run      string                 `json:"run"`
	View     string                 `json:"view"`
	Faults   string                 `json:"faults"`
	Controls []workbenchControlJSON `json:"controls"`
	Ends     []workbenchEndJSON     `json:"ends"`
	Stops    []workbenchStopJSON    `json:"stops"`
	Varies   []workbenchVaryJSON    `json:"varies"`
	Nothing  string                 `json:"nothing"` // that there is nothing to set, and what to write
	Example  string                 `json:"example"` // as it is written
	Scope    []string               `json:"scope"`
	Caution  string                 `json:"caution"`
	Origin   string                 `json:"origin"`
}

type workbenchControlJSON struct {
	Name  string       `json:"name"`
	Unit  linkage.Unit `json:"unit"`
	Plus  string       `json:"plus"`
	Minus string       `json:"minus"`
}

// workbenchEndJSON is a rod end that can be turned, a barrel, or nuts.
type workbenchEndJSON struct {
	Name   string  `json:"name"` // as in the file: "left-link.from"
	Label  string  `json:"label"`
	Thread string  `json:"thread"`
	Step   float64 `json:"step"` // turns that a button turns
	Goes   string  `json:"goes"` // by what it can be turned, in words
}

// workbenchStopJSON is a stop screw that can be set.
type workbenchStopJSON struct {
	Name  string       `json:"name"`
	Of    string       `json:"of"`
	Unit  linkage.Unit `json:"unit"`
	Low   float64      `json:"low"`
	High  float64      `json:"high"`
	Step  float64      `json:"step"`
	Filed float64      `json:"filed"`
}

// anyTurn is what a button turns an end by that can be set to any part of a turn.
const anyTurn = 0.25

// WorkbenchPage writes the page, with nothing of any run in it: that it asks for. It
// returns the page's Content-Security-Policy.
func WorkbenchPage(w io.Writer) (policy string, err error) {
	p := newWebPage("The workbench", append([]string{"workbench.css"}, measureFiles(".css")...), slices.Concat([]string{"browser.js", "motion.js", "workbench.js"}, measureFiles(".js"), []string{"served.js"}), []string{"connect-src 'self'"})
	p.Content = struct{ Caution string }{render.Caution}
	return p.Policy, p.write(w, workbenchTemplate)
}

var workbenchTemplate = webTemplate(append([]string{"served.html", "workbench.html"}, measureFiles(".html")...)...)

// WorkbenchJSON writes what the page is told of its file, at first and when that has
// changed.
func WorkbenchJSON(w io.Writer, b Workbench) error { return writeCompact(w, workbenchOf(b)) }

func writeCompact(w io.Writer, v any) error {
	text, err := json.Marshal(v)
	if err != nil {
		return err
	}
	_, err = w.Write(text)
	return err
}

func workbenchOf(b Workbench) workbenchJSON {
	r := b.Filed.Result
	run := r.Run
	out := workbenchJSON{
		Hash: b.Hash, File: figure.Clean(b.File), Saves: figure.Clean(b.File), Run: figure.Clean(run.Name), View: figure.Clean(run.View), Faults: faultLines(b.Faults),
		Controls: []workbenchControlJSON{}, Ends: []workbenchEndJSON{}, Stops: []workbenchStopJSON{}, Varies: workbenchVariesOf(run),
		Scope: workbenchScope(b), Caution: render.Caution,
		Origin: fmt.Sprintf("File, SHA-256 begins %s; fullfree %s.", figure.HashBegins(b.Hash), figure.Clean(b.Version)),
	}
	if run.Aircraft != nil {
		out.Saves = "the file of its run"
		out.Origin = fmt.Sprintf("All files together, SHA-256 begins %s; fullfree %s.", figure.HashBegins(b.Hash), figure.Clean(b.Version))
	}
	for _, c := range run.Controls {
		out.Controls = append(out.Controls, workbenchControlJSON{c.Name, render.ControlUnit(run, c), figure.Clean(c.Plus), figure.Clean(c.Minus)})
	}
	for _, rod := range run.Rods {
		for _, e := range turnable(rod) {
			out.Ends = append(out.Ends, workbenchEndOf(e))
		}
	}
	for _, e := range render.CableEnds(run) {
		out.Ends = append(out.Ends, workbenchNutOf(e))
	}
	for _, s := range run.Stops {
		if s.Adjust != nil {
			out.Stops = append(out.Stops, workbenchStopJSON{s.Name, s.Of.Name, figure.PartUnit(run, s.Of), s.Adjust[0], s.Adjust[1], s.Step, s.At})
		}
	}
	what, which, end, adjust := "rod ends", "rods what their ends are", exampleEnd(run.Units), "adjust = [20, 28]  # beside at"
	if len(run.Rods) == 0 && slices.ContainsFunc(run.Cables, func(c *linkage.Cable) bool { return !c.Open() }) {
		what, which, end = "nuts", "cables what the ends of their conduits are", exampleNut(run.Units)
	}
	switch {
	case len(out.Ends) > 0:
	case len(out.Stops)+len(out.Varies) > 0:
		out.Nothing, out.Example = "The file has no "+what+" to turn. Tell in its "+which+":", end
	default:
		out.Nothing = "The file has no " + what + " to turn and no stop to set, so the run can be moved here, but not set. Tell in its " + which + ", and in a stop what its screw can be set to:"
		out.Example = end + "\n\n" + adjust
	}
	return out
}

// exampleEnd is what to write into a rod so that there is an end to turn.
func exampleEnd(units linkage.Unit) string {
	return exampleOf(units, "from", "11", "7/16", "the rod")
}

// exampleOf is an end as a file writes it, with so many millimeters or inches of
// thread in something.
func exampleOf(units linkage.Unit, side, metric, inch, in string) string {
	thread, engaged := "M6x1", metric
	if units == linkage.Inches {
		thread, engaged = "1/4-28", inch
	}
	return fmt.Sprintf("end %q {\n  thread  = %q\n  engaged = %-6s # thread in %s\n}", side, thread, engaged, in)
}

// turnable lists the ends of a rod that are turned one by one: of a barrel the
// first, with which the other goes.
func turnable(rod *linkage.Rod) []*linkage.RodEnd {
	if rod.Barrel() {
		return rod.Ends[:1]
	}
	return rod.Ends
}

// workbenchStep is what a button turns an end by, turns, and by what the end can be
// turned, in words.
func workbenchStep(step float64) (turns float64, goes string) {
	if step == 0 {
		return anyTurn, "by any part of a turn"
	}
	return step, "by " + render.TurnsWords(step) + " at a time"
}

func workbenchEndOf(e *linkage.RodEnd) workbenchEndJSON {
	at := e.Rod.From
	if e.Side == "to" {
		at = e.Rod.To
	}
	out := workbenchEndJSON{
		Name: e.String(), Label: fmt.Sprintf("%s, the end at %s", e, at), Thread: render.ThreadName(e),
	}
	out.Step, out.Goes = workbenchStep(e.Step)
	if e.Rod.Barrel() {
		out.Label = e.Rod.Name + ", the barrel: both its ends at once"
		out.Thread = render.ThreadName(e.Rod.Ends[0]) + " and " + render.ThreadName(e.Rod.Ends[1])
	}
	if e.Rod.SecondPath {
		out.Label += " (second path)"
	}
	return out
}

// workbenchScope tells what the answers rest on and what they leave out.
func workbenchScope(b Workbench) []string {
	r := b.Filed.Result
	scope := []string{}
	say := func(words string) { scope = append(scope, figure.Clean(words)) }
	if r.Run.Aircraft != nil {
		for _, only := range r.Runs() { // each in its own unit; what is said of all alike once
			workbenchSettings(only, func(words string) {
				if !slices.Contains(scope, figure.Clean(words)) {
					say(words)
				}
			})
		}
		render.Scope(say, figure.Clean(b.File)+" and the files that it names", r, render.ReportOptions{})
		return scope
	}
	workbenchSettings(r, say)
	render.Scope(say, figure.Clean(b.File), r, render.ReportOptions{})
	return scope
}

// workbenchSettings tells what a run's settings rest on.
func workbenchSettings(r *solve.Result, say func(words string)) {
	if len(render.RodEnds(r.Run)) > 0 {
		say(render.TurnsCounted)
		for _, words := range render.BarrelSays(r.Run) {
			say(words)
		}
	}
	for _, words := range workbenchNutsSay(r.Run) {
		say(words)
	}
	for _, words := range render.SettingsAssumed(r.Run) {
		say(words)
	}
	if len(render.RodEnds(r.Run)) > 0 {
		say(render.WitnessCheck)
	}
}

// faultLines makes the faults of a file fit to be shown line by line.
func faultLines(text string) string {
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	for i := range lines {
		lines[i] = figure.Clean(lines[i])
	}
	return strings.Join(lines, "\n")
}

// FileState writes what a page that watches the file is told: the hash of the
// file as it last read well, and what is wrong with it since.
func FileState(w io.Writer, hash, faults string) error {
	return writeCompact(w, struct {
		Hash   string `json:"hash"`
		Faults string `json:"faults"`
	}{hash, faultLines(faults)})
}

// TrialFault writes that a setting can't be judged, and why.
func TrialFault(w io.Writer, hash, fault string) error {
	return writeCompact(w, struct {
		Hash  string `json:"hash"`
		Fault string `json:"fault"`
	}{hash, faultLines(fault)})
}

// Written is a number of the file that a setting changes.
type Written struct {
	Dimension string
	File      string // that it stands in
	Unit      linkage.Unit
	Was, Now  float64
}

type writtenJSON struct {
	Name string `json:"name"`
	File string `json:"file"`
	Was  string `json:"was"`
	Now  string `json:"now"`
}

// figures is what the number was and what it is now, as linkage writes them.
func (w Written) figures() (was, now string) {
	const decimals = 6
	shown := func(v float64) string { return figure.WithUnit(figure.UpTo(v, decimals), w.Unit) }
	return shown(w.Was), shown(w.Now)
}

// Differs reports whether the number is written otherwise than it was.
func (w Written) Differs() bool {
	was, now := w.figures()
	return was != now
}

func writtenOf(list []Written) []writtenJSON {
	out := []writtenJSON{}
	for _, w := range list {
		was, now := w.figures()
		out = append(out, writtenJSON{w.Dimension, figure.Clean(w.File), was, now})
	}
	return out
}

// Saved writes that a setting was saved: what was written, the hash of the file as
// it is now, and what of the old file could not be kept.
func Saved(w io.Writer, hash string, list []Written, lost []string) error {
	return writeCompact(w, struct {
		Hash  string        `json:"hash"`
		Saved []writtenJSON `json:"saved"`
		Lost  []string      `json:"lost"`
	}{hash, writtenOf(list), append([]string{}, lost...)})
}
