package recheck

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/require"
)

// signed is the text of the file that the pairs of testdata/recheck are made from.
func signed(t testing.TB) string { return pairText(t, "signed") }

func pairText(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "recheck", name+".hcl"))
	require.NoError(t, err)
	return string(text)
}

// changedText is a text with something in it replaced, which must be there.
func changedText(t testing.TB, text, old, now string) string {
	t.Helper()
	require.Contains(t, text, old)
	return strings.Replace(text, old, now, 1)
}

func runOf(t testing.TB, text string) *linkage.Run {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "f.hcl", Text: []byte(text)})
	require.NoError(t, err)
	return run
}

// versionOf judges a run, with a few lines as a sheet has them: of every rod its length
// and both its joints, what every output reads at the ends and at neutral, and two lines
// that are void whatever the figures for each control.
func versionOf(t testing.TB, text string) Version {
	t.Helper()
	m, err := solve.Compile(runOf(t, text))
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	return Version{Run: r.Run.Name, Result: r, Lines: linesOf(r, r.Run.Name)}
}

// judged are the aircraft that aircraftOf judged, by all of their texts; no test changes
// what is in one.
var judged = map[string]Version{}

// aircraftOf judges an aircraft that is written in several texts, by the names of their
// files, with such lines for each run.
func aircraftOf(t testing.TB, files map[string]string) Version {
	t.Helper()
	all := fmt.Sprint(files) // in the order of their names
	if _, known := judged[all]; !known {
		judged[all] = judgedAircraft(t, files)
	}
	return judged[all]
}

func judgedAircraft(t testing.TB, files map[string]string) Version {
	t.Helper()
	open := func(name string) (*linkage.Source, error) {
		text, ok := files[name]
		if !ok {
			return nil, fmt.Errorf("can't read %s", name)
		}
		return &linkage.Source{Name: name, Text: []byte(text)}, nil
	}
	source, err := open(aircraftFile)
	require.NoError(t, err)
	run, err := linkage.ReadWith(source, open)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	joined, err := m.Joined()
	require.NoError(t, err)
	m, err = solve.Compile(joined)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	v := Version{Run: r.Run.Name, Result: r}
	for i, only := range r.Runs() {
		m := r.Run.Aircraft.Members[i]
		v.Lines = append(v.Lines, linesOf(only, m.Name)...)
		for _, o := range only.Run.Outputs {
			v.Lines = append(v.Lines, Line{Run: m.Name, Step: StepPlay, Says: o.Name, About: o})
		}
		if len(PitchSetters(only)) > 0 {
			v.Lines = append(v.Lines, Line{Run: m.Name, Step: StepTrack, Says: "Track"})
		}
	}
	return v
}

// aircraftFile is the name of the file of an aircraft of several texts.
const aircraftFile = "aircraft.hcl"

// aircraftTexts reads an aircraft from a folder of the project.
func aircraftTexts(t testing.TB, folder ...string) map[string]string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(append([]string{"..", ".."}, append(folder, "*.hcl")...)...))
	require.NoError(t, err)
	require.NotEmpty(t, found)
	files := map[string]string{}
	for _, name := range found {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		files[filepath.Base(name)] = string(text)
	}
	return files
}

// with is the texts with something in one of them replaced, which must be there.
func with(t testing.TB, files map[string]string, name, old, now string) map[string]string {
	t.Helper()
	other := maps.Clone(files)
	other[name] = changedText(t, files[name], old, now)
	return other
}

// linesOf are lines of a run as a sheet has them.
func linesOf(r *solve.Result, run string) (list []Line) {
	add := func(l Line) {
		l.Run = run
		list = append(list, l)
	}
	for _, rod := range r.Run.Rods {
		add(Line{Step: StepRods, Says: rod.Name, About: rod, Figure: &Figure{Value: rod.Length, Unit: r.Run.Units}})
	}
	for _, p := range r.Run.Parts {
		if p.Motion == linkage.Turns {
			at := ""
			if p.NamedPivot != nil {
				at = p.NamedPivot.String()
			}
			add(Line{Step: StepJoints, Says: p.Name, About: p, At: at})
		}
	}
	for _, rod := range r.Run.Rods {
		for _, end := range []linkage.PointRef{rod.From, rod.To} {
			add(Line{Step: StepJoints, Says: rod.Name + " at " + end.String(), About: rod, At: end.String()})
		}
	}
	for i, s := range r.Sweeps {
		if i > 0 && r.Sweeps[i-1].Control == s.Control {
			continue // as on a sheet: at the first setting of the others
		}
		for i := range s.Outputs {
			o := &s.Outputs[i]
			allowed := 0.0
			for _, q := range r.Run.Requirements {
				if q.Kind == linkage.Travel && q.Of[0].Output == o.Output && q.Control == s.Control {
					allowed = q.Within
				}
			}
			for i, v := range []float64{o.AtLow, o.AtHigh} {
				name := [...]string{"low", "high"}[i]
				add(Line{Step: StepTravels, Says: s.Control.Name + ": " + o.Output.Name + ", " + name, About: o.Output, Figure: &Figure{v, o.Unit, allowed}})
			}
			add(Line{Step: StepTravels, Says: s.Control.Name + ": " + o.Output.Name + ", neutral", About: o.Output, Figure: &Figure{o.Neutral, o.Unit, 0}})
		}
	}
	for _, c := range r.Run.Controls {
		add(Line{Step: StepFull, Says: c.Name, About: c})
	}
	add(Line{Step: StepPinsOut, Says: "Counted out"})
	add(Line{Step: StepLevel, Says: "Leveled how"})
	return list
}

// compared compares two texts, with joints opened by their names.
func compared(t testing.TB, old, now string, opened ...string) *Comparison {
	t.Helper()
	return comparedVersions(t, versionOf(t, old), versionOf(t, now), opened...)
}

// comparedVersions compares two versions, with joints of the new one opened.
func comparedVersions(t testing.TB, old, now Version, opened ...string) *Comparison {
	t.Helper()
	var joints []Joint
	for _, j := range Joints(now.Result.Run, now.Run) {
		for _, name := range opened {
			if j.Name == name {
				joints = append(joints, j)
			}
		}
	}
	require.Len(t, joints, len(opened))
	c, err := Compare(old, now, joints)
	require.NoError(t, err)
	return c
}

// redone are the lines that are to be done again for a reason, as the sheet names them.
func (c *Comparison) redone(why Why) (list []string) {
	for _, r := range c.Redo {
		if r.Why == why {
			list = append(list, r.Says)
		}
	}
	return list
}

func (c *Comparison) stands() (list []string) {
	for _, l := range c.Unmoved {
		list = append(list, l.Says)
	}
	return list
}

func (c *Comparison) changed() (list []string) {
	for _, d := range c.Changes {
		list = append(list, d.Dimension)
	}
	return list
}
