package calls

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
	"fullfree/solve/rig"
	"fullfree/solve/survey"
)

// Input is a file being worked on: its text, the run that was read from it, and what was
// compiled of that.
type Input struct {
	Name      string
	Beside    linkage.Opener // opens the files that an aircraft file names
	Source    *linkage.Source
	Open      linkage.Opener // Beside, but what was opened once is remembered
	Opened    []string       // what was
	Settings  []linkage.Setting
	Vary      []string         // what varies besides what the file says
	Redrawn   []render.Redrawn // rods without a length that the settings changed
	Celsius   *float64         // the temperature that the run is to be looked at; nil: as rigged
	Run       *linkage.Run
	Survey    *survey.Survey   // what the drawing was adjusted by; nil where it is as the file has it
	Surveys   []*survey.Survey // the same of the runs of an aircraft, nil where one has none
	Mechanism *solve.Mechanism
}

// withoutPlaces returns faults without the places in the file that they have, which
// isn't so set: what is wrong with each, after a word on what set it so. Any other
// error is returned as it is.
func WithoutPlaces(err error, before string) error {
	var faults *linkage.Faults
	if !errors.As(err, &faults) {
		return err
	}
	var said []string
	for _, fault := range faults.List {
		said = append(said, before+fault.Says)
	}
	return errors.New(strings.Join(said, "\n"))
}

// Read reads the run from the text of its file; one with blanks left in it is
// refused.
func (in *Input) Read(text []byte) (err error) {
	in.Source = &linkage.Source{Name: in.Name, Text: text}
	in.Open = remembered(func(name string) (*linkage.Source, error) {
		in.Opened = append(in.Opened, name)
		return in.Beside(name)
	})
	if in.Run, err = linkage.ReadVarying(in.Source, in.Open, in.Vary, in.Settings...); err != nil {
		return err
	}
	in.Redrawn = in.redrawnSinceFiled()
	return in.Run.BlankFaults().Err()
}

// Ready adjusts a sketched drawing to what was measured and compiles the run.
func (in *Input) Ready() error {
	if err := in.Adjust(); err != nil {
		return err
	}
	return in.Compile()
}

func (in *Input) Compile() (err error) {
	if in.Celsius != nil {
		if in.Run, err = solve.Temper(in.Run, *in.Celsius); err != nil {
			return err
		}
	}
	if in.Mechanism, err = solve.Compile(in.Run); err != nil || in.Run.Aircraft == nil {
		return err
	}
	joined, err := in.Mechanism.Joined()
	if err == nil && joined != in.Run {
		in.Run = joined
		in.Mechanism, err = solve.Compile(joined)
	}
	return err
}

// Unused is what the measurements of a run by itself have to say that adjust nothing.
func (in *Input) Unused() *survey.Survey {
	if in.Run.Aircraft != nil {
		return nil // told of each run
	}
	return UnusedOf(in.Run)
}

// Adjust puts the coordinates that fit the measurements best into a sketched
// drawing. Coordinates that --set gives, and those that follow from what it gives, are
// put in afterwards: what is tried out was not measured, and must move nothing else.
func (in *Input) Adjust() (err error) {
	switch {
	case in.Run.Sketch == 0:
		return nil
	case in.Run.Aircraft != nil:
		return in.adjustMembers()
	}
	tried, filed := in.setPlaces(), in.Run
	if others := in.otherSettings(tried); len(others) < len(in.Settings) {
		// Where the file is whole only with what --set gives, that is the sketch.
		if run, err := linkage.ReadWith(in.Source, in.Open, others...); err == nil {
			filed = run
		}
	}
	if in.Survey, err = survey.New(filed); err != nil {
		return err
	}
	edits := followed(filed, in.Run, tried)
	if in.Run, err = in.Survey.Apply(in.Run); err != nil || len(edits) == 0 {
		return err
	}
	long := rodLengths(in.Run)
	if in.Run, err = in.Run.With(edits...); err != nil {
		return err
	}
	in.Redrawn = in.redrawnFrom(long)
	return nil
}

// adjustMembers does so for every run of an aircraft that is sketched, each by itself.
// What --set gives there is part of the sketch.
func (in *Input) adjustMembers() error {
	in.Surveys = make([]*survey.Survey, len(in.Run.Aircraft.Members))
	for i, m := range in.Run.Aircraft.Members {
		if m.Run.Sketch == 0 {
			continue
		}
		s, err := survey.New(in.Run.Only(m))
		if err != nil {
			return err
		}
		if in.Run, err = s.Apply(in.Run); err != nil {
			return err
		}
		in.Surveys[i] = s
	}
	return nil
}

// setPlaces returns the coordinates that --set gave, by name.
func (in *Input) setPlaces() map[string]float64 {
	set := map[string]float64{}
	for _, d := range in.Run.Dimensions() {
		for _, s := range in.Settings {
			if !d.IsLength() && strings.TrimSpace(s.Dimension) == d.String() {
				set[d.String()] = d.Value()
			}
		}
	}
	return set
}

// otherSettings lists what --set gave besides some coordinates and besides named
// dimensions, which coordinates may be written with.
func (in *Input) otherSettings(places map[string]float64) []linkage.Setting {
	var others []linkage.Setting
	for _, s := range in.Settings {
		dimension := strings.TrimSpace(s.Dimension)
		if _, ok := places[dimension]; !ok && !slices.Contains(in.Run.Named, dimension) {
			others = append(others, s)
		}
	}
	return others
}

// followed makes every coordinate that --set gave what it gave, and shifts those that
// follow from it by as much as they differ from the file: an arm from its pivot.
func followed(filed, tried *linkage.Run, given map[string]float64) []linkage.Edit {
	var edits []linkage.Edit
	before := filed.Dimensions()
	for i, d := range tried.Dimensions() {
		value, set := given[d.String()]
		switch {
		case d.IsLength():
		case set:
			edits = append(edits, linkage.Set(d, value))
		case d.Offset() != before[i].Offset():
			edits = append(edits, linkage.Shift(d, d.Offset()-before[i].Offset()))
		}
	}
	return edits
}

// Check judges the run.
func (in *Input) Check() (*solve.Result, error) {
	result, err := in.Mechanism.Check()
	if err != nil {
		return nil, err
	}
	if err := in.Mechanism.AddRotor(result); err != nil {
		return nil, err
	}
	result.Survey, result.Surveys = in.Survey, in.Surveys
	return result, nil
}

// Judged is check, with how sure every answer is.
func (in *Input) Judged() (*solve.Result, error) {
	result, err := in.Check()
	if err != nil {
		return nil, err
	}
	if err := in.Mechanism.AddBands(result, in.AllSurveys()...); err != nil {
		return nil, err
	}
	return result, nil
}

// Rig searches for the settings of the run that do best; each is told with what the
// drawings were adjusted by.
func (in *Input) Rig(progress func(checked, most int)) (*rig.Answer, error) {
	found, err := rig.Search(in.Mechanism, progress)
	if err != nil {
		return nil, err
	}
	for i := range found.Settings {
		found.Settings[i].Check.Survey, found.Settings[i].Check.Surveys = in.Survey, in.Surveys
	}
	return found, nil
}

// AllSurveys are what the drawings were adjusted by.
func (in *Input) AllSurveys() []*survey.Survey {
	return append([]*survey.Survey{in.Survey}, in.Surveys...)
}

// Title is the name of the file and what --set changed in it.
func (in *Input) Title() string {
	if len(in.Settings) == 0 {
		return in.Name
	}
	return in.Name + " with " + strings.Join(in.Changes(), ", ")
}

// Filed is title without the folders that lead to the file: for what goes to others.
func (in *Input) Filed() string {
	bare := *in
	bare.Name = filepath.Base(in.Name)
	return bare.Title()
}

// Changes are what --set changed, as a drawing would say it.
func (in *Input) Changes() []string {
	var changes []string
	for _, s := range in.Settings {
		changes = append(changes, s.Dimension+" = "+s.Value)
	}
	return changes
}

// redrawnSinceFiled finds the rods without a length that the settings redrew.
func (in *Input) redrawnSinceFiled() []render.Redrawn {
	if len(in.Settings) == 0 {
		return nil
	}
	filed, err := linkage.ReadWith(in.Source, in.Open)
	if err != nil {
		return nil // the settings are what makes it whole
	}
	return in.redrawnFrom(rodLengths(filed))
}

func rodLengths(run *linkage.Run) (long []float64) {
	for _, rod := range run.Rods {
		long = append(long, rod.Length)
	}
	return long
}

// redrawnFrom finds the rods without a length that aren't as long as they were.
func (in *Input) redrawnFrom(long []float64) []render.Redrawn {
	var redrawn []render.Redrawn
	for i, rod := range in.Run.Rods {
		if !rod.LengthGiven && rod.Length != long[i] {
			redrawn = append(redrawn, render.Redrawn{Rod: rod.Name, Filed: long[i], Now: rod.Length, Unit: in.Run.UnitsOf(rod.In)})
		}
	}
	return redrawn
}

// Hash is the SHA-256 of the file, hexadecimal.
func (in *Input) Hash() string { return HashOf(in.Source.Text) }

func HashOf(text []byte) string { return fmt.Sprintf("%x", sha256.Sum256(text)) }

// remembered reads every file once, so that what is read again is the same, whoever saves
// meanwhile.
func remembered(open linkage.Opener) linkage.Opener {
	type file struct {
		src *linkage.Source
		err error
	}
	read := map[string]file{}
	return func(name string) (*linkage.Source, error) {
		f, known := read[name]
		if !known {
			f.src, f.err = open(name)
			read[name] = f
		}
		return f.src, f.err
	}
}
