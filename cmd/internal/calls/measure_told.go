package calls

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"

	"fullfree/linkage"
	"fullfree/linkage/outline"
	"fullfree/render"
	"fullfree/render/picture"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// measureJSON is how a run stands that is being measured, as a page gets it.
type measureJSON struct {
	Faults   []outline.Fault `json:"faults"`
	Text     string          `json:"text"` // empty while it can't be written
	File     string          `json:"file"`
	Entries  []entryJSON     `json:"entries"` // blanks by what they help, then what is filled in
	Places   []placeJSON     `json:"places"`
	Mark     string          `json:"mark"`
	Headline string          `json:"headline"`
	Says     []string        `json:"says"`
	Sketch   string          `json:"sketch"`
	Left     []string        `json:"left"`
}

// entryJSON is something measured, or to be.
type entryJSON struct {
	outline.Entry
	Letters string `json:"letters"`
	Says    string `json:"says"` // about what it will read
	Check   bool   `json:"check"`
	Help    string `json:"help"`
}

// placeJSON is where a place is, and how surely.
type placeJSON struct {
	Name   string `json:"name"`
	Letter string `json:"letter"`
	X      string `json:"x"`
	Y      string `json:"y"`
	Within string `json:"within"`
	Open   bool   `json:"open"`
}

// newMeasureJSON has lists that are empty, not null.
func newMeasureJSON() measureJSON {
	return measureJSON{Faults: []outline.Fault{}, Entries: []entryJSON{}, Places: []placeJSON{}, Says: []string{}, Left: []string{}, Mark: "open", Headline: "NOT WRITTEN YET."}
}

func (m *measureJSON) fault(at, says string) {
	m.Faults = append(m.Faults, outline.Fault{At: at, Says: says})
}

// entryField is the field of an entry.
func entryField(i int, field string) string { return fmt.Sprintf("taped.%d.%s", i, field) }

// tellLoose tells what holds nothing, of a run that is whole but for what is measured.
func (m *measured) tellLoose() {
	if len(m.told.Left) > 0 || len(m.told.Faults) > 0 {
		return
	}
	run, err := m.survey.Apply(m.run.Filled())
	if err == nil {
		_, err = solve.Compile(run)
	}
	for _, f := range faultsIn("", err) {
		m.told.Says = append(m.told.Says, "So far it would not be held: "+f.Says+".")
	}
}

// tellPage makes the page for taping.
func (m *measured) tellPage(plan []survey.Planned) {
	var page bytes.Buffer
	if err := picture.BlankPage(&page, m.run, plan, picture.BlankOptions{File: m.told.File, Version: Version}); err == nil {
		m.told.Sketch = page.String()
	}
}

// tellSurvey tells how it stands, and what to do next.
func (m *measured) tellSurvey() {
	s := m.survey
	m.told.Headline = m.asFormed(render.SurveyHeadline(s))
	m.told.Mark = render.SurveyMark(s)
	switch {
	case m.contradicted:
		m.told.Headline, m.told.Mark = "LOOK AGAIN: what is measured can't be brought together.", "short"
	case len(s.Measurements) == 0:
		m.told.Headline = "NOTHING IS TAPED YET."
	}
	for _, says := range render.SurveyLooks(s) {
		m.told.Says = append(m.told.Says, m.asFormed(says))
	}
	letters := picture.Letters(m.run)
	for i := range s.Points {
		p := &s.Points[i]
		m.told.Places = append(m.told.Places, placeJSON{
			Name: m.formed(p.Name), Letter: letters[p.Name],
			X: render.PlaceFigure(p.At.X, s.Run.Units), Y: render.PlaceFigure(p.At.Y, s.Run.Units),
			Within: render.PlaceWithin(s, p), Open: s.OpenAxes(p) != [3]bool{},
		})
	}
}

// asFormed is what is told of a survey with the places as the form names them, and no line told
// twice that is named after its ends.
func (m *measured) asFormed(says string) string {
	for i := range m.survey.Points {
		name := m.survey.Points[i].Name
		if formed := m.formed(name); formed != name {
			says = regexp.MustCompile(`\b`+regexp.QuoteMeta(name)+`([^\pL\pN-]|$)`).ReplaceAllString(says, formed+"$1")
		}
	}
	for _, one := range m.run.Measurements {
		ends := m.formed(one.From.String()) + " to " + m.formed(one.To.String())
		says = strings.ReplaceAll(says, `"`+ends+`" (`+ends+`)`, `"`+ends+`"`)
	}
	return says
}

// tellEntries tells what is to be measured, and what each would help; on a page too, where
// that is wanted.
func (m *measured) tellEntries() {
	letters := picture.Letters(m.run)
	plan := survey.PlanOf(m.run)
	left := 1.0 // the share of today's variances that those before leave
	for _, l := range m.lines {
		one, asked := m.run.Measurements[l.number], plan[l.number]
		told := entryJSON{Entry: l.Entry, Letters: letters[one.From.String()] + " to " + letters[one.To.String()], Check: asked.Check}
		if one.Kind == linkage.Gauged {
			told.Says = picture.Expected(asked)
		}
		if l.helps != nil {
			// Of what is left by then a later one may take a larger share than one that helps
			// more: all are told as shares of one whole.
			removes := float64(l.helps.Removes * left)
			left -= removes
			told.Help, told.Check = render.HelpSays(l.helps.Settles, removes), told.Check && l.helps.Settles == 0
		}
		m.told.Entries = append(m.told.Entries, told)
	}
	if m.ask.Page {
		m.tellPage(plan)
	}
}
