package main

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// mostBytes is how much of a file is read: the most that a run may have, and
// one more, by which linkage.Read tells that it is too long.
const mostBytes = 1<<20 + 1

// fileEnding is how the names of files end.
const fileEnding = ".hcl"

// input is a file being worked on.
type input struct {
	name      string
	info      fs.FileInfo // nil where there is no file behind it
	source    *linkage.Source
	open      linkage.Opener // what an aircraft file names
	opened    []string       // of that, what was opened
	settings  []linkage.Setting
	vary      []string         // what varies besides what the file says
	redrawn   []render.Redrawn // rods without a length that the settings changed
	celsius   *float64         // the temperature that the run is to be looked at; nil: as rigged
	run       *linkage.Run
	survey    *survey.Survey   // what the drawing was adjusted by; nil where it is as the file has it
	surveys   []*survey.Survey // the same of the runs of an aircraft, nil where one has none
	mechanism *solve.Mechanism
}

// openOne opens the one file that a command works on. Where it can't, it says
// why and returns nil and the exit status.
func openOne(c *command, std streams, rest, set []string) (*input, int) {
	return inputOf(c, std, rest, set, (*input).ready)
}

// telling is how a command is to tell its results.
type telling struct{ json, full bool }

// openPlain parses the arguments of a command that takes a file, --json, --set and
// --full alone, and opens the file; full is what --full does, empty where there is none.
// in is nil where there is nothing more to do but to return the status.
func openPlain(c *command, std streams, args []string, full string) (in *input, told telling, status int) {
	flags := newFlags(c)
	if full != "" {
		flags.BoolVar(&told.full, "full", false, full)
	}
	flags.BoolVar(&told.json, "json", false, "results for machines, at full precision")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return nil, told, status
	}
	in, status = openOne(c, std, rest, *set)
	return in, told, status
}

// inputOf is openOne for a command that wants its run prepared otherwise.
func inputOf(c *command, std streams, rest, set []string, prepare func(*input) error) (*input, int) {
	name, err := oneFile(rest)
	if err != nil {
		return nil, std.fail(c, "%s", err)
	}
	changes, err := settings(set)
	if err != nil {
		return nil, std.fail(c, "%s", err)
	}
	in, err := open(std, name, changes)
	if err == nil {
		err = prepare(in)
	}
	if err != nil {
		return nil, std.problem(c, err)
	}
	return in, exitOK
}

// problem tells what is wrong, faults of a file by their place in it, and
// returns the exit status for it.
func (s streams) problem(c *command, err error) int {
	var faults *linkage.Faults
	if !errors.As(err, &faults) {
		return s.fail(c, "%s", err)
	}
	s.message("%s\n", strings.TrimSuffix(faults.Error(), "\n"))
	return exitFailed
}

// withoutPlaces returns faults without the places in the file that they have, which
// isn't so set: what is wrong with each, after a word on what set it so. Any other
// error is returned as it is.
func withoutPlaces(err error, before string) error {
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

// open reads a file, or standard input where its name is "-", changed by the
// settings; one with blanks left in it is refused. The error tells a person what
// is wrong.
func open(std streams, name string, set []linkage.Setting) (*input, error) {
	in := &input{name: name, settings: set}
	text, err := in.readAll(std)
	if err != nil {
		return nil, err
	}
	return in, in.read(text)
}

// read reads the run from the text of its file; one with blanks left in it is
// refused.
func (in *input) read(text []byte) (err error) {
	in.source = &linkage.Source{Name: in.name, Text: text}
	beside := besideOf(in.name)
	in.open = remembered(func(name string) (*linkage.Source, error) {
		in.opened = append(in.opened, name)
		return beside(name)
	})
	if in.run, err = linkage.ReadVarying(in.source, in.open, in.vary, in.settings...); err != nil {
		return err
	}
	in.redrawn = in.redrawnSinceFiled()
	return in.run.BlankFaults().Err()
}

// ready adjusts a sketched drawing to what was measured and compiles the run.
func (in *input) ready() error {
	if err := in.adjust(); err != nil {
		return err
	}
	return in.compile()
}

func (in *input) compile() (err error) {
	if in.celsius != nil {
		if in.run, err = solve.Temper(in.run, *in.celsius); err != nil {
			return err
		}
	}
	if in.mechanism, err = solve.Compile(in.run); err != nil || in.run.Aircraft == nil {
		return err
	}
	joined, err := in.mechanism.Joined()
	if err == nil && joined != in.run {
		in.run = joined
		in.mechanism, err = solve.Compile(joined)
	}
	return err
}

// unused is what the measurements of a run by itself have to say that adjust nothing.
func (in *input) unused() *survey.Survey {
	if in.run.Aircraft != nil {
		return nil // told of each run
	}
	return unusedOf(in.run)
}

// adjust puts the coordinates that fit the measurements best into a sketched
// drawing. Coordinates that --set gives, and those that follow from what it gives, are
// put in afterwards: what is tried out was not measured, and must move nothing else.
func (in *input) adjust() (err error) {
	switch {
	case in.run.Sketch == 0:
		return nil
	case in.run.Aircraft != nil:
		return in.adjustMembers()
	}
	tried, filed := in.setPlaces(), in.run
	if others := in.otherSettings(tried); len(others) < len(in.settings) {
		// Where the file is whole only with what --set gives, that is the sketch.
		if run, err := linkage.ReadWith(in.source, in.open, others...); err == nil {
			filed = run
		}
	}
	if in.survey, err = survey.New(filed); err != nil {
		return err
	}
	edits := followed(filed, in.run, tried)
	if in.run, err = in.survey.Apply(in.run); err != nil || len(edits) == 0 {
		return err
	}
	long := rodLengths(in.run)
	if in.run, err = in.run.With(edits...); err != nil {
		return err
	}
	in.redrawn = in.redrawnFrom(long)
	return nil
}

// adjustMembers does so for every run of an aircraft that is sketched, each by itself.
// What --set gives there is part of the sketch.
func (in *input) adjustMembers() error {
	in.surveys = make([]*survey.Survey, len(in.run.Aircraft.Members))
	for i, m := range in.run.Aircraft.Members {
		if m.Run.Sketch == 0 {
			continue
		}
		s, err := survey.New(in.run.Only(m))
		if err != nil {
			return err
		}
		if in.run, err = s.Apply(in.run); err != nil {
			return err
		}
		in.surveys[i] = s
	}
	return nil
}

// setPlaces returns the coordinates that --set gave, by name.
func (in *input) setPlaces() map[string]float64 {
	set := map[string]float64{}
	for _, d := range in.run.Dimensions() {
		for _, s := range in.settings {
			if !d.IsLength() && strings.TrimSpace(s.Dimension) == d.String() {
				set[d.String()] = d.Value()
			}
		}
	}
	return set
}

// otherSettings lists what --set gave besides some coordinates and besides named
// dimensions, which coordinates may be written with.
func (in *input) otherSettings(places map[string]float64) []linkage.Setting {
	var others []linkage.Setting
	for _, s := range in.settings {
		dimension := strings.TrimSpace(s.Dimension)
		if _, ok := places[dimension]; !ok && !slices.Contains(in.run.Named, dimension) {
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

// check judges the run.
func (in *input) check() (*solve.Result, error) {
	result, err := in.mechanism.Check()
	if err != nil {
		return nil, err
	}
	if err := in.mechanism.AddRotor(result); err != nil {
		return nil, err
	}
	result.Survey, result.Surveys = in.survey, in.surveys
	return result, nil
}

// judged is check, with how sure every answer is.
func (in *input) judged() (*solve.Result, error) {
	result, err := in.check()
	if err != nil {
		return nil, err
	}
	if err := in.mechanism.AddBands(result, in.allSurveys()...); err != nil {
		return nil, err
	}
	return result, nil
}

// allSurveys are what the drawings were adjusted by.
func (in *input) allSurveys() []*survey.Survey {
	return append([]*survey.Survey{in.survey}, in.surveys...)
}

// title is the name of the file and what --set changed in it.
func (in *input) title() string {
	if len(in.settings) == 0 {
		return in.name
	}
	return in.name + " with " + strings.Join(in.changes(), ", ")
}

// filed is title without the folders that lead to the file: for what goes to others.
func (in *input) filed() string {
	bare := *in
	bare.name = filepath.Base(in.name)
	return bare.title()
}

// changes are what --set changed, as a drawing would say it.
func (in *input) changes() []string {
	var changes []string
	for _, s := range in.settings {
		changes = append(changes, s.Dimension+" = "+s.Value)
	}
	return changes
}

// redrawnSinceFiled finds the rods without a length that the settings redrew.
func (in *input) redrawnSinceFiled() []render.Redrawn {
	if len(in.settings) == 0 {
		return nil
	}
	filed, err := linkage.ReadWith(in.source, in.open)
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
func (in *input) redrawnFrom(long []float64) []render.Redrawn {
	var redrawn []render.Redrawn
	for i, rod := range in.run.Rods {
		if !rod.LengthGiven && rod.Length != long[i] {
			redrawn = append(redrawn, render.Redrawn{Rod: rod.Name, Filed: long[i], Now: rod.Length, Unit: in.run.UnitsOf(rod.In)})
		}
	}
	return redrawn
}

// hash is the SHA-256 of the file, hexadecimal.
func (in *input) hash() string { return hashOf(in.source.Text) }

func hashOf(text []byte) string { return fmt.Sprintf("%x", sha256.Sum256(text)) }

func (in *input) readAll(std streams) ([]byte, error) {
	from := std.in
	if in.name != "-" {
		f, info, err := openFile(in.name)
		if err != nil {
			return nil, cantRead(in.name, err)
		}
		defer f.Close()
		from, in.info = f, info
	} else if f, ok := from.(*os.File); ok { // which may be a file that is not to be lost
		if info, err := f.Stat(); err == nil {
			in.info = info
		}
	}
	text, err := io.ReadAll(io.LimitReader(from, mostBytes))
	if err != nil {
		return nil, cantRead(in.name, err)
	}
	return text, nil
}

// hint tells what may have been meant by the name of a file that isn't there.
func hint(name string, err error) string {
	if !errors.Is(err, fs.ErrNotExist) {
		return ""
	}
	if _, err := os.Stat(name + fileEnding); err == nil {
		return fmt.Sprintf("; did you mean %q?", linkage.Printable(name+fileEnding))
	}
	kind := strings.TrimSuffix(name, fileEnding)
	if slices.Contains(demo.Kinds(), kind) {
		return fmt.Sprintf("; \"fullfree new %s > %s\" writes it", kind, kind+fileEnding)
	}
	return ""
}

// reason is why a file can't be read or written, without its name, which
// stands beside it.
func reason(err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return "there is no such file"
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	if err.Error() == "path escapes from parent" { // the os package has no name for it
		return "it is a link out of the folder of the file that names it: put the file itself there"
	}
	return linkage.Printable(err.Error())
}
