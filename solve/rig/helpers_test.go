package rig_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// read reads a run of the text of a file.
func read(t testing.TB, text string, set ...linkage.Setting) *linkage.Run {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)}, set...)
	require.NoError(t, err, "%s", text)
	return run
}

// check judges the run of the text of a file.
func check(t testing.TB, text string, set ...linkage.Setting) *solve.Result {
	t.Helper()
	m, err := solve.Compile(read(t, text, set...))
	require.NoError(t, err, "%s", text)
	result, err := m.Check()
	require.NoError(t, err, "%s", text)
	return result
}

// edited is a run with edits made.
func edited(t testing.TB, run *linkage.Run, edits ...linkage.Edit) *linkage.Run {
	t.Helper()
	changed, err := run.With(edits...)
	require.NoError(t, err)
	return changed
}

// set is a --set of a number.
func set(dimension string, value float64) linkage.Setting {
	return linkage.Setting{Dimension: dimension, Value: num(value)}
}

// num writes a number so that it reads back the same.
func num(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
