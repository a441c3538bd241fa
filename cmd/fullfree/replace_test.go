package main

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"fullfree/linkage"
	"fullfree/linkage/hunt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// waysToReplace are that of this system and that of one where files can't change
// names at once.
var waysToReplace = map[string]func(a, b string) error{
	"here":      exchange,
	"elsewhere": func(string, string) error { return errors.ErrUnsupported },
}

// What somebody saves between the reading and the writing stays, however it is
// saved, and nothing is left beside it.
func TestReplaceLosesNothingSavedMeanwhile(t *testing.T) {
	for way, exchange := range waysToReplace {
		for name, save := range map[string]func(t *testing.T, path string){
			"in place":  func(t *testing.T, path string) { require.NoError(t, os.WriteFile(path, []byte("edited"), 0o644)) },
			"by rename": func(t *testing.T, path string) { saveByRename(t, path, "edited") },
			"removed":   func(t *testing.T, path string) { require.NoError(t, os.Remove(path)) },
			"longer": func(t *testing.T, path string) {
				require.NoError(t, os.WriteFile(path, []byte("read, and more"), 0o644))
			},
		} {
			t.Run(way+", "+name, func(t *testing.T) {
				folder := t.TempDir()
				path := filepath.Join(folder, "a.hcl")
				require.NoError(t, os.WriteFile(path, []byte("read"), 0o644))
				p, err := prepare(path, []byte("ours"))
				require.NoError(t, err)
				save(t, path)
				want, wantErr := os.ReadFile(path)
				require.ErrorIs(t, p.putFor([]byte("read"), exchange), errChanged)
				got, err := os.ReadFile(path)
				assert.Equal(t, wantErr == nil, err == nil)
				assert.Equal(t, string(want), string(got))
				if err == nil {
					assert.Equal(t, []string{"a.hcl"}, names(t, folder))
				} else {
					assert.Empty(t, names(t, folder))
				}
			})
		}
		t.Run(way+", unchanged", func(t *testing.T) {
			folder := t.TempDir()
			path := filepath.Join(folder, "a.hcl")
			require.NoError(t, os.WriteFile(path, []byte("read"), 0o644))
			p, err := prepare(path, []byte("ours"))
			require.NoError(t, err)
			require.NoError(t, p.putFor([]byte("read"), exchange))
			got, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, "ours", string(got))
			assert.Equal(t, []string{"a.hcl"}, names(t, folder))
		})
	}
}

func saveByRename(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(path+"~", []byte(text), 0o644))
	require.NoError(t, os.Rename(path+"~", path))
}

// Saved again in the very moment in which the first save goes back, the last save
// stays.
func TestReplaceGivesTheLastSaveBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.hcl")
	require.NoError(t, os.WriteFile(path, []byte("read"), 0o644))
	p, err := prepare(path, []byte("ours"))
	require.NoError(t, err)
	calls := 0
	swap := func(a, b string) error { // by three renames, with a save before the second
		if calls++; calls == 2 {
			saveByRename(t, b, "edited twice")
		}
		require.NoError(t, os.Rename(a, a+".x"))
		require.NoError(t, os.Rename(b, a))
		return os.Rename(a+".x", b)
	}
	saveByRename(t, path, "edited")
	require.ErrorIs(t, p.putFor([]byte("read"), swap), errChanged)
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "edited twice", string(got))
	assert.Equal(t, []string{"a.hcl"}, names(t, filepath.Dir(path)))
}

// Two saves before what came out goes back: the second one may get the number of the file
// that the first one was written over, and isn't that one.
func TestReplaceKnowsItsFileFromTheNext(t *testing.T) {
	for range 20 {
		path := filepath.Join(t.TempDir(), "a.hcl")
		require.NoError(t, os.WriteFile(path, []byte("read"), 0o644))
		p, err := prepare(path, []byte("written"))
		require.NoError(t, err)
		calls := 0
		swap := func(a, b string) error {
			if calls++; calls == 2 {
				saveByRename(t, b, "edited twice")
				saveByRename(t, b, "edited thrice")
			}
			require.NoError(t, os.Rename(a, a+".x"))
			require.NoError(t, os.Rename(b, a))
			return os.Rename(a+".x", b)
		}
		saveByRename(t, path, "edited")
		require.ErrorIs(t, p.putFor([]byte("read"), swap), errChanged)
		got, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, "edited thrice", string(got))
	}
}

// An editor that saves as fast as it can, and somebody who appends to what was read:
// what the editor saved is either there in the end or was read before it was written
// over.
func TestHuntReplaceAgainstAnEditor(t *testing.T) {
	hunt.Each(t, 4, func(t *testing.T, random *rand.Rand) {
		path := filepath.Join(t.TempDir(), "a.hcl")
		require.NoError(t, os.WriteFile(path, []byte("0"), 0o644))
		const saves = 150
		pauses := random.Perm(saves)
		var editing sync.WaitGroup
		editing.Go(func() {
			for i := range saves {
				text := fmt.Sprint(i + 1)
				assert.NoError(t, os.WriteFile(path+"~", []byte(text), 0o644))
				assert.NoError(t, os.Rename(path+"~", path))
				for range pauses[i] { // some time, not always the same
					_, _ = os.Stat(path)
				}
			}
		})
		done := make(chan struct{})
		go func() { editing.Wait(); close(done) }()
		seen := 0
		for ended := false; !ended; {
			select {
			case <-done:
				ended = true
			default:
			}
			was, err := os.ReadFile(path)
			require.NoError(t, err, "the file is always there")
			var number int
			_, err = fmt.Sscan(strings.TrimRight(string(was), "+"), &number)
			require.NoError(t, err)
			require.GreaterOrEqual(t, number, seen, "a later save was lost")
			seen = number
			if _, err := replaceWhole(path, was, append(was, '+')); err != nil {
				require.ErrorIs(t, err, errChanged)
			}
		}
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, fmt.Sprint(saves), strings.TrimRight(string(text), "+"), "the last save")
		assert.Equal(t, []string{"a.hcl"}, names(t, filepath.Dir(path)))
	})
}

// The commands that write into their file say that it has changed, and leave it.
func TestWriteIntoAFileThatHasChanged(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "run.hcl")
	require.NoError(t, os.WriteFile(path, []byte(threaded), 0o640))
	var said strings.Builder
	std := streams{nil, nil, &said}
	in, err := open(std, path, nil)
	require.NoError(t, err)
	edited := strings.Replace(threaded, "# as it came", "# as made", 1)
	require.NotEqual(t, threaded, edited)
	require.NoError(t, os.WriteFile(path, []byte(edited), 0o640))
	changes := []linkage.Change{{Dimension: "link.length", Value: 200}}
	err = in.rewrite(rigCommand(), std, linkage.Rewrite, changes)
	assert.EqualError(t, err, path+" has changed since it was read, so nothing was written: run this again")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, edited, string(text))

	in, err = open(std, path, nil)
	require.NoError(t, err)
	require.NoError(t, in.rewrite(rigCommand(), std, linkage.Rewrite, changes))
	text, err = os.ReadFile(path)
	require.NoError(t, err)
	assert.Contains(t, string(text), "length = 200 ")
	assert.Empty(t, said.String())
	assert.Equal(t, []string{"run.hcl"}, names(t, folder))
}
