package solve_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// rigged is one measured block. Other than in a file, control may be left out
// only where there is one.
type rigged struct {
	name, of, control string
	at, read          []float64
	within            float64
	date              string
}

// text returns the block.
func (r rigged) text() string {
	var pairs []string
	for i, x := range r.at {
		pairs = append(pairs, fmt.Sprintf("[%s, %s]", num(x), num(r.read[i])))
	}
	text := fmt.Sprintf("measured %q {\n  of = %s\n  readings = [%s]\n  within = %s\n", r.name, r.of, strings.Join(pairs, ", "), num(r.within))
	if r.control != "" {
		text += "  control = " + r.control + "\n"
	}
	if r.date != "" {
		text += fmt.Sprintf("  date = %q\n", r.date)
	}
	return text + "}\n"
}

// readFrom returns the block with what it reads of a run: of text with some
// dimensions set, the other controls at neutral.
func (r rigged) readFrom(t testing.TB, text string, set ...linkage.Setting) rigged {
	t.Helper()
	run := read(t, text, set...)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	control := run.Controls[0]
	for _, c := range run.Controls {
		if c.Name == r.control {
			control = c
		}
	}
	s, err := m.Sweep(control, othersAtNeutral(run, control))
	require.NoError(t, err)
	r.read = nil
	for _, x := range r.at {
		st := solveAt(t, s, x)
		v, found := 0.0, false
		for _, o := range run.Outputs {
			if o.Name == r.of {
				v, found = st.Reading(o), true
			}
		}
		for _, p := range run.Parts {
			if p.Name == r.of {
				v, found = st.Travel(p), true
			}
		}
		require.True(t, found, r.of)
		r.read = append(r.read, v)
	}
	return r
}

// diagnosed diagnoses the run of a text and blocks.
func diagnosed(t testing.TB, text string, blocks ...rigged) *solve.Diagnosis {
	t.Helper()
	for _, b := range blocks {
		text += b.text()
	}
	m, err := solve.Compile(read(t, text))
	require.NoError(t, err, "%s", text)
	d, err := m.Diagnose()
	require.NoError(t, err, "%s", text)
	return d
}

// suspectNamed returns a candidate.
func suspectNamed(t testing.TB, d *solve.Diagnosis, name string) solve.Candidate {
	t.Helper()
	for _, c := range d.Candidates {
		if c.Dimension == name {
			return c
		}
	}
	require.FailNow(t, "no such candidate", name)
	return solve.Candidate{}
}

// names returns the candidates of a group, all for 0.
func names(d *solve.Diagnosis, group int) (list []string) {
	for _, c := range d.Candidates {
		if group == 0 || c.Group == group {
			list = append(list, c.Dimension)
		}
	}
	return list
}
