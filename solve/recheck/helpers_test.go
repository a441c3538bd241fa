package recheck

import (
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
	v := Version{Run: r.Run.Name, Result: r}
	add := func(l Line) { v.Lines = append(v.Lines, l) }
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
	for _, s := range r.Sweeps {
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
	return v
}

// compared compares two texts, with joints opened by their names.
func compared(t testing.TB, old, now string, opened ...string) *Comparison {
	t.Helper()
	v := versionOf(t, now)
	var joints []Joint
	for _, j := range Joints(v.Result.Run, v.Run) {
		for _, name := range opened {
			if j.Name == name {
				joints = append(joints, j)
			}
		}
	}
	require.Len(t, joints, len(opened))
	c, err := Compare(versionOf(t, old), v, joints)
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
