//go:build unix

package main

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What lies beside a file that is to be replaced may be read by nobody else than
// the file, from before a byte is in it.
func TestTemporaryHasTheModeOfItsTarget(t *testing.T) {
	defer syscall.Umask(syscall.Umask(0))
	folder := t.TempDir()
	path := filepath.Join(folder, "a.svg")
	for _, mode := range []os.FileMode{0o600, 0o640, 0o644, 0o604, 0o777, 0o666, 0o200} {
		require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
		require.NoError(t, os.Chmod(path, mode))
		old, err := os.Stat(path)
		require.NoError(t, err)
		p := &prepared{path: path, old: old}
		f, err := p.createTemp()
		require.NoError(t, err)
		first, err := f.Stat()
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(ownMode), first.Mode(), "while it is empty")
		require.NoError(t, p.takeAfter(f))
		then, err := f.Stat()
		require.NoError(t, err)
		assert.Equal(t, mode, then.Mode())
		assert.Zero(t, then.Size())
		require.NoError(t, f.Close())
		p.drop()
		_, err = writeWhole(path, []byte("new"))
		require.NoError(t, err)
		now, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, mode, now.Mode())
	}
}

// Who may give files away keeps whose it was; else it is told. Another name goes on
// leading to the old file, which is told too.
func TestWriteKeepsTheOwnerOrTells(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.svg")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o664))
	if os.Getuid() == 0 {
		const owner, group = 12345, 23456 // of nobody
		require.NoError(t, os.Chown(path, owner, group))
		lost, err := writeWhole(path, []byte("new"))
		require.NoError(t, err)
		assert.Empty(t, lost)
		info, err := os.Stat(path)
		require.NoError(t, err)
		now := info.Sys().(*syscall.Stat_t)
		assert.Equal(t, [2]uint32{owner, group}, [2]uint32{now.Uid, now.Gid})
	}
	require.NoError(t, os.Link(path, filepath.Join(folder, "b.svg")))
	lost, err := writeWhole(path, []byte("newer"))
	require.NoError(t, err)
	assert.Equal(t, []string{"it had another name (a hard link), under which the file stays as it was"}, lost)
	_, file := folderWith(t, threaded)
	require.NoError(t, os.Link(file, file+".too"))
	require.NoError(t, os.Link(file, file+".and"))
	got := fullfree("", "draw", file, "-o", path)
	require.Equal(t, outcome{exitOK, "", ""}, got)
	in, err := open(streams{}, file, nil)
	require.NoError(t, err)
	lost, err = replaceWhole(file, in.Source.Text, []byte("x"))
	require.NoError(t, err)
	assert.Equal(t, []string{"it had 2 other names (hard links), under which the file stays as it was"}, lost)
	kept, err := os.ReadFile(file + ".too")
	require.NoError(t, err)
	assert.Equal(t, threaded, string(kept))
}

// A link to a run is still one after it was written into; its file is changed.
func TestRigWritesThroughALink(t *testing.T) {
	folder := t.TempDir()
	file, link := filepath.Join(folder, "run.hcl"), filepath.Join(folder, "link.hcl")
	text := demoText(t, "pedals-unequal")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	require.NoError(t, os.Symlink("run.hcl", link))
	got := fullfree("", "rig", link, "--write")
	require.Equal(t, exitOK, got.status, got.err)
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink)
	info, err = os.Lstat(file)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode())
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.NotEqual(t, text, string(now))
}

// Every command that takes a file refuses at once what is none.
func TestWhatIsNoFileIsRefusedAtOnce(t *testing.T) {
	folder := t.TempDir()
	pipe := filepath.Join(folder, "pipe.hcl")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	link := filepath.Join(folder, "link.hcl")
	require.NoError(t, os.Symlink("pipe.hcl", link))
	out := filepath.Join(folder, "out.svg")
	commands := [][]string{
		{"check"}, {"sweep"}, {"draw", "-o", out}, {"draw", "--charts", "-o", out}, {"draw", "--full-size", "-o", out},
		{"report", "-o", filepath.Join(folder, "out.html")}, {"compare", "--with", "a.from=1"}, {"effect"}, {"rig"}, {"rig", "--write"},
		{"rods"}, {"fail"}, {"serve"}, {"survey"}, {"survey", "--write"}, {"diagnose"},
	}
	for name, want := range map[string]string{pipe: "it is a pipe", link: "it is a pipe", folder: "it is a folder", os.DevNull: "it is a device"} {
		for _, command := range commands {
			ended := make(chan outcome, 1)
			go func() { ended <- fullfree("", append(command, name)...) }()
			select {
			case got := <-ended:
				assert.Equal(t, exitFailed, got.status, command)
				assert.Empty(t, got.out, command)
				assert.Contains(t, got.err, "can't read "+name+": "+want, command)
			case <-time.After(10 * time.Second):
				t.Fatalf("%s %s hangs", command, name)
			}
		}
	}
	assert.Equal(t, []string{"link.hcl", "pipe.hcl"}, names(t, folder))

	// What is to be written anew doesn't hang either.
	require.NoError(t, os.Rename(pipe, filepath.Join(folder, "mine.hcl")))
	got := fullfree("", "new", "pedals", "--blank", "-o", filepath.Join(folder, "mine"))
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "is there already, and would be lost")
}
