package calls

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/linkage/outline"
	"fullfree/solve/survey"
)

// unfiled are the calls that are about no file that is open.
var unfiled = map[string]func(body []byte) Answer{
	"measure": measure,
	"outline": outlined,
	"photo":   pictured,
}

// measuring is what a page asks of a run that is being measured.
type measuring struct {
	Outline *outline.Outline `json:"outline"` // null: the text was not written by the form
	Text    string           `json:"text"`    // what the file holds now; may be empty
	Taped   []outline.Entry  `json:"taped"`
	Skip    []outline.Entry  `json:"skip"` // what can't be reached
	Page    bool             `json:"page"` // the page for taping is wanted too
}

// measured is a run that is being measured, as far as it is told.
type measured struct {
	ask   *measuring
	tail  string // of the text: what is the user's own below the form's
	told  measureJSON
	lines []lineOf // as they stand in the text
	run   *linkage.Run
	// survey is of what is filled in; nil where there is none yet.
	survey *survey.Survey
	// contradicted says that it can't be brought together.
	contradicted bool
	// formed returns a place of the file as the form names it.
	formed func(string) string
}

// Of far more than a run has that is measured no more is said than that: most places, parts
// and rods of an outline, and most that is measured or left out.
const mostThings, mostMeasured = 1000, 1000

// measure makes the text of a run that is being measured, and tells what that leaves open.
func measure(body []byte) Answer {
	m := &measured{ask: &measuring{}, told: newMeasureJSON()}
	if err := readObject(body, m.ask); err != nil {
		return Refused(Wrong, "this is not what the page asks: %s", linkage.Printable(err.Error()))
	}
	switch {
	case m.ask.Outline != nil && m.ask.Outline.Size() > mostThings || len(m.ask.Taped) > mostMeasured || len(m.ask.Skip) > mostMeasured:
		m.told.fault("", "this is more than can be measured at once: part the run")
	case m.ask.Outline != nil:
		m.write(m.soundEntries())
	default:
		m.fill()
	}
	if m.survey != nil {
		m.tellSurvey()
		m.tellEntries()
		m.tellLoose()
	}
	return answerJSON(m.told)
}

// soundEntries are the entries, blank where what is typed is no figure, which is told.
func (m *measured) soundEntries() []outline.Entry {
	var list []outline.Entry
	for i, e := range m.ask.Taped {
		if e.Kind != linkage.Gauged {
			e.Kind = linkage.Taped
		}
		unit := e.Kind.Unit(m.ask.Outline.Units)
		e.Is = m.figure(i, "is", e.Is, unit)
		e.Within = m.figure(i, "within", e.Within, unit)
		if e.From == e.To {
			m.told.fault(entryField(i, "is"), "from and to are the same place: two different ones are measured")
			continue
		}
		if e.Is != "" && slices.ContainsFunc(list, func(other outline.Entry) bool { return other.Is != "" && other.Same(e) }) {
			m.told.fault(entryField(i, "is"), "this line is measured already: leave one of the two blank")
			e.Is = ""
		}
		list = append(list, e)
	}
	return list
}

// figure returns what is typed, or nothing where that is no figure.
func (m *measured) figure(i int, field, typed string, unit linkage.Unit) string {
	if strings.TrimSpace(typed) == "" {
		return ""
	}
	const fullTurn = 360
	_, value, says := linkage.Entry(typed, unit)
	switch {
	case says != "":
	case value <= 0 && (field == "within" || unit != linkage.Degrees):
		says = "this has to be more than 0"
	case unit == linkage.Degrees && math.Abs(value) > fullTurn:
		says = "a direction is between -360 and 360 degrees, anticlockwise from level"
	default:
		return typed
	}
	m.told.fault(entryField(i, field), says)
	return ""
}

// write makes the text of the outline: first what is to be taped, then in which order.
func (m *measured) write(entries []outline.Entry) {
	o := m.ask.Outline
	if _, below, found := strings.Cut(m.ask.Text, "\n"+outline.Foot+"\n"); found {
		m.tail = below
	}
	m.told.File = fileNamed(o.Title)
	m.formed = outline.Formed
	bare := outline.Write(o, nil, "")
	probe := withControl(o, bare.Parts)
	m.told.Left = append(m.told.Left, bare.Left...)
	for _, f := range bare.Faults {
		m.told.fault(f.At, f.Says)
	}
	run, ok := m.read(outline.Write(probe, nil, "").Text)
	if !ok || m.tooMany(run) {
		return
	}
	entries = planned(run, entries, m.ask.Skip)
	run, ok = m.read(outline.Write(probe, entries, "").Text)
	if !ok || !m.adjust(run) && !m.adjustNothing(run) {
		return
	}
	m.lines = inOrder(m.survey, run, entries, m.formed)
	if o.Control.Of == "" {
		return // it is no run yet
	}
	m.told.Text = outline.Write(o, m.written(entriesOf(m.lines)), m.tail).Text
	if m.tail == "" {
		return
	}
	if _, err := linkage.Read(&linkage.Source{Name: m.told.File, Text: []byte(m.told.Text)}); err != nil {
		m.told.fault("", "Below the line, in the part that is yours: "+faultText(err))
	}
}

// written are those of the entries that stand in the text. Once nothing is open a blank would
// only keep the run from being tried: then what isn't measured is left out, and asked for all
// the same.
func (m *measured) written(entries []outline.Entry) []outline.Entry {
	open := func(p survey.Point) bool { return m.survey.OpenAxes(&p) != [3]bool{} }
	if m.contradicted || len(m.survey.Measurements) == 0 || m.survey.NeedsDirection || slices.ContainsFunc(m.survey.Points, open) {
		return entries
	}
	return slices.DeleteFunc(slices.Clone(entries), func(e outline.Entry) bool { return e.Is == "" })
}

// withControl is an outline with something that moves it, without which there is no run: what
// is to be taped doesn't hang on what that is. Parts are those that stand in its text.
func withControl(o *outline.Outline, parts []string) *outline.Outline {
	if o.Control.Of != "" {
		return o
	}
	for i := range o.Parts {
		p := &o.Parts[i]
		if p.Kind == outline.Slides || !slices.Contains(parts, p.Name) {
			continue
		}
		probe := *o
		probe.Control = outline.Control{Of: p.Name}
		if len(outline.Write(&probe, nil, "").Faults) == 0 {
			return &probe
		}
	}
	return o
}

// read reads a text that the form wrote; what is wrong is told.
func (m *measured) read(text string) (*linkage.Run, bool) {
	if text == "" {
		return nil, false
	}
	run, err := linkage.Read(&linkage.Source{Name: m.told.File, Text: []byte(text)})
	m.tellFaults(err)
	return run, err == nil
}

// tellFaults tells what is wrong with the whole; an error of nil is nothing.
func (m *measured) tellFaults(err error) {
	for _, f := range faultsIn("", err) {
		m.told.fault("", f.Says)
	}
}

// tooMany tells of a run that is too large to be measured so.
func (m *measured) tooMany(run *linkage.Run) bool {
	if len(run.Measurements) > mostMeasured {
		m.told.fault("", fmt.Sprintf("%d measurements are more than can be adjusted at once (%d): part the run", len(run.Measurements), mostMeasured))
		return true
	}
	n := len(survey.Places(run))
	if n > survey.MostPlanned {
		m.told.fault("", fmt.Sprintf("%d places are more than can be measured at once (%d): part the run", n, survey.MostPlanned))
	}
	return n > survey.MostPlanned
}

// adjust surveys what is filled in.
func (m *measured) adjust(run *linkage.Run) bool {
	s, err := survey.New(run.Filled())
	if err != nil {
		m.tellFaults(err)
		return false
	}
	m.run, m.survey = run, s
	return true
}

// adjustNothing surveys as if nothing were measured, where what is measured can't be brought
// together, which is told: so that it can be mended.
func (m *measured) adjustNothing(run *linkage.Run) bool {
	bare := *run
	bare.Measurements = nil
	s, err := survey.New(&bare)
	if err != nil {
		return false
	}
	m.run, m.survey, m.contradicted = run, s, true
	return true
}

// fill writes what was measured into a text that the form didn't write. A figure that is
// entered as it stands there stays as it is: it may be of named dimensions, and of
// arithmetic that nobody would type. Of two measurements of one line each has its own.
func (m *measured) fill() {
	m.formed = asFiled
	text := m.ask.Text
	run, ok := m.read(text)
	if !ok || m.tooMany(run) {
		return
	}
	stands := filledEntries(run, text)
	typed := map[*linkage.Measurement]string{}
	for i, k := range pairedWith(stands, m.ask.Taped) {
		if k < 0 || strings.TrimSpace(m.ask.Taped[k].Is) == stands[i].Is {
			continue
		}
		one := run.Measurements[i]
		typed[one] = m.figure(k, "is", m.ask.Taped[k].Is, one.Kind.Unit(run.Units))
	}
	text = string(linkage.FillIn(run, []byte(text), func(one *linkage.Measurement) (is string, ok bool) {
		is, ok = typed[one]
		return is, ok
	}))
	if run, ok = m.read(text); !ok || !m.adjust(run) && !m.adjustNothing(run) {
		return
	}
	m.told.Text = text
	m.lines = inOrder(m.survey, run, filledEntries(run, text), asFiled)
}

// fileNamed is a name for the file of a run.
func fileNamed(title string) string {
	var b strings.Builder
	for _, c := range strings.ToLower(title) {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
			b.WriteRune(c)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	name := strings.Trim(b.String(), "-")
	const most = 40
	if name == "" {
		name = "own-run"
	}
	return strings.Trim(name[:min(most, len(name))], "-") + ".hcl"
}

// outlined takes a text that the form wrote apart again.
func outlined(body []byte) Answer {
	var ask struct {
		Text string `json:"text"`
	}
	if err := readObject(body, &ask); err != nil {
		return Refused(Wrong, "this is not what the page asks: %s", linkage.Printable(err.Error()))
	}
	out := struct {
		Outline *outline.Outline `json:"outline"`
		Taped   []outline.Entry  `json:"taped"`
		Why     string           `json:"why"`
	}{Taped: []outline.Entry{}}
	o, entries, _, err := outline.Read([]byte(ask.Text))
	if err != nil {
		out.Why = err.Error()
		if run, err := linkage.Read(&linkage.Source{Text: []byte(ask.Text)}); err == nil {
			out.Taped = append(out.Taped, filledEntries(run, ask.Text)...)
		}
		return answerJSON(out)
	}
	out.Outline, out.Taped = o, append(out.Taped, entries...)
	return answerJSON(out)
}
