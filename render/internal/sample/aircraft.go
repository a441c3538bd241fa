package sample

import (
	"os"
	"path/filepath"
	"testing"

	"fullfree/linkage"
	_ "fullfree/linkage/hunt" // for how seldom it has the heap swept
	"fullfree/solve"

	"github.com/stretchr/testify/require"
)

// Aircraft reads an aircraft file with the runs that it names, and checks them together.
func Aircraft(t testing.TB, path string) (*solve.Mechanism, *solve.Result) {
	t.Helper()
	read := func(name string) (*linkage.Source, error) {
		text, err := os.ReadFile(filepath.Join(filepath.Dir(path), name))
		return &linkage.Source{Name: name, Text: text}, err
	}
	source, err := read(filepath.Base(path))
	require.NoError(t, err)
	run, err := linkage.ReadWith(source, read)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	joined, err := m.Joined()
	require.NoError(t, err)
	if joined != run {
		m, err = solve.Compile(joined)
		require.NoError(t, err)
	}
	result, err := m.Check()
	require.NoError(t, err)
	return m, result
}

// CheckedFile reads the file of a run by itself and checks it.
func CheckedFile(t testing.TB, path string) *solve.Result {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return Checked(t, filepath.Base(path), string(text))
}
