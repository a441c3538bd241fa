package solve_test

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// The tests here are black box: the text of a file goes in, figures come out.
// What they are compared with is computed without the solver.

// exact is what rounding may cost in figures of the size of 1 to 1000 that
// come out of a few dozen operations (degrees, or the run's unit).
const exact = 1e-10

func read(t testing.TB, text string, set ...linkage.Setting) *linkage.Run {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)}, set...)
	require.NoError(t, err, "%s", text)
	require.NotNil(t, run)
	return run
}

// edited is a run with edits made.
func edited(t testing.TB, run *linkage.Run, edits ...linkage.Edit) *linkage.Run {
	t.Helper()
	changed, err := run.With(edits...)
	require.NoError(t, err)
	return changed
}

func check(t testing.TB, text string, set ...linkage.Setting) *solve.Result {
	t.Helper()
	m, err := solve.Compile(read(t, text, set...))
	require.NoError(t, err, "%s", text)
	result, err := m.Check()
	require.NoError(t, err, "%s", text)
	return result
}

// sweepOf checks a run of one control and returns its one sweep.
func sweepOf(t testing.TB, text string, set ...linkage.Setting) (*linkage.Run, *solve.Sweep) {
	t.Helper()
	result := check(t, text, set...)
	require.Len(t, result.Sweeps, 1)
	return result.Run, result.Sweeps[0]
}

// refusal returns what is told about a file that must be refused, wherever on
// the way to a verdict that happens.
func refusal(t testing.TB, text string) string {
	t.Helper()
	told := func(err error) string {
		var faults *linkage.Faults
		require.True(t, errors.As(err, &faults), "%T is no *linkage.Faults: %v", err, err)
		require.NotEmpty(t, faults.List)
		return err.Error()
	}
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)})
	if err != nil {
		return told(err)
	}
	m, err := solve.Compile(run)
	if err != nil {
		return told(err)
	}
	_, err = m.Check()
	require.Error(t, err, "must be refused:\n%s", text)
	return told(err)
}

// set is a --set of a number.
func set(dimension string, value float64) linkage.Setting {
	return linkage.Setting{Dimension: dimension, Value: num(value)}
}

// num writes a number so that it reads back the same.
func num(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

func partOf(t testing.TB, s *solve.Sweep, name string) solve.PartTravel {
	t.Helper()
	for _, p := range s.Parts {
		if p.Name == name {
			return p
		}
	}
	require.FailNow(t, "no such part in the sweep", name)
	return solve.PartTravel{}
}

func outputOf(t testing.TB, s *solve.Sweep, name string) solve.OutputTravel {
	t.Helper()
	for _, o := range s.Outputs {
		if o.Output.Name == name {
			return o
		}
	}
	require.FailNow(t, "no such output in the sweep", name)
	return solve.OutputTravel{}
}

func rodOf(t testing.TB, s *solve.Sweep, name string) solve.RodTravel {
	t.Helper()
	for _, r := range s.Rods {
		if r.Rod.Name == name {
			return r
		}
	}
	require.FailNow(t, "no such rod in the sweep", name)
	return solve.RodTravel{}
}

// partNamed returns a part of the run.
func partNamed(t testing.TB, run *linkage.Run, name string) *linkage.Part {
	t.Helper()
	for _, p := range run.Parts {
		if p.Name == name {
			return p
		}
	}
	require.FailNow(t, "no such part", name)
	return nil
}

// pointNamed returns a point, "part.point" or "rod.point", of the run.
func pointNamed(t testing.TB, run *linkage.Run, name string) linkage.PointRef {
	t.Helper()
	owner, point, _ := strings.Cut(name, ".")
	for _, p := range run.Parts {
		for i := range p.Points {
			if p.Name == owner && p.Points[i].Name == point {
				return linkage.PointRef{Part: p, Point: i}
			}
		}
	}
	for _, r := range run.Rods {
		for i := range r.Points {
			if r.Name == owner && r.Points[i].Name == point {
				return linkage.PointRef{Rod: r, Point: i}
			}
		}
	}
	require.FailNow(t, "no such point", name)
	return linkage.PointRef{}
}

// metalNamed returns a feature, "part.feature", or a rod.
func metalNamed(t testing.TB, run *linkage.Run, name string) linkage.FeatureRef {
	t.Helper()
	owner, feature, _ := strings.Cut(name, ".")
	for _, p := range run.Parts {
		for i := range p.Features {
			if p.Name == owner && p.Features[i].Name == feature {
				return linkage.FeatureRef{Part: p, Feature: i}
			}
		}
	}
	for _, r := range run.Rods {
		if r.Name == name {
			return linkage.FeatureRef{Rod: r}
		}
	}
	require.FailNow(t, "no such metal", name)
	return linkage.FeatureRef{}
}

// othersAtNeutral holds all controls of a run but one at neutral.
func othersAtNeutral(run *linkage.Run, swept *linkage.Control) (held []solve.Held) {
	for _, c := range run.Controls {
		if c != swept {
			held = append(held, solve.Held{Control: c})
		}
	}
	return held
}

// ofParts are the on-center points of parts, without those at which an output
// turns back by itself.
func ofParts(list []solve.Critical) (parts []solve.Critical) {
	for _, c := range list {
		if c.Output == nil {
			parts = append(parts, c)
		}
	}
	return parts
}

// standAt returns the position at x, which must be explored.
func solveAt(t testing.TB, s *solve.Sweep, x float64) *solve.Pose {
	if st, ok := s.At(x); ok && st != nil {
		return st
	}
	t.Helper()
	require.FailNow(t, "not explored", "%v is not in %v", x, s.Explored)
	return nil
}

// deg and rad convert angles.
func deg(radians float64) float64 { return radians * (180 / math.Pi) }
func rad(degrees float64) float64 { return degrees * (math.Pi / 180) }

// turnTo returns a + a multiple of 360, nearest to b.
func turnTo(a, b float64) float64 { return a + 360*math.Round((b-a)/360) }

// near asserts an absolute closeness and says what it is about. What is close is left at
// once: some tests ask millions of times, and an assertion costs as much as a position.
func near(t testing.TB, want, got, tolerance float64, about string) {
	if math.Abs(want-got) <= tolerance {
		return
	}
	t.Helper()
	require.False(t, math.IsNaN(got) || math.IsInf(got, 0), "%s: %v", about, got)
	require.InDelta(t, want, got, tolerance, about)
}

// nearf is near with a format.
func nearf(t testing.TB, want, got, tolerance float64, about string, args ...any) {
	if math.Abs(want-got) <= tolerance {
		return
	}
	t.Helper()
	near(t, want, got, tolerance, fmt.Sprintf(about, args...))
}

// nearAt is near for a figure that may be missing but must not be here.
func nearAt(t testing.TB, want float64, got *float64, tolerance float64, about string) {
	t.Helper()
	require.NotNil(t, got, about)
	near(t, want, *got, tolerance, about)
}

// nearAtf is nearAt with a format.
func nearAtf(t testing.TB, want float64, got *float64, tolerance float64, about string, args ...any) {
	t.Helper()
	nearAt(t, want, got, tolerance, fmt.Sprintf(about, args...))
}

// replaceOnce returns text with its only "old" replaced.
func replaceOnce(t testing.TB, text, old, new string) string {
	t.Helper()
	require.Equal(t, 1, strings.Count(text, old), "%q in\n%s", old, text)
	return strings.Replace(text, old, new, 1)
}
