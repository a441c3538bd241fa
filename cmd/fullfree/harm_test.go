//go:build unix

package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	// mostHarm is the most memory that a command may need for a file of up to 64 kB.
	mostHarm = 256 << 20
	// mostRubbish is the same for any mebibyte that is no run.
	mostRubbish = 100 << 20
)

// peak runs the command in a process of its own and returns the most memory that it
// had at once, bytes, and what it wrote.
func peak(t *testing.T, in io.Reader, args ...string) (most int64, out string) {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	c := exec.Command(self)
	told := filepath.Join(t.TempDir(), "peak")
	c.Env = append(os.Environ(), childArgs+"="+strings.Join(args, "\n"), childPeak+"="+told)
	c.Stdin = in
	text, _ := c.CombinedOutput() // what it exits with is not the point
	if status, err := os.ReadFile(told); err == nil {
		_, after, _ := strings.Cut(string(status), "VmHWM:")
		fields := strings.Fields(after)
		require.NotEmpty(t, fields)
		most, err = strconv.ParseInt(fields[0], 10, 64)
		require.NoError(t, err)
		return most << 10, string(text)
	}
	usage, ok := c.ProcessState.SysUsage().(*syscall.Rusage)
	require.True(t, ok)
	return int64(usage.Maxrss), string(text)
}

// Files that took gigabytes, or had no end, are answered, and what was left out is told.
func TestHarmfulFiles(t *testing.T) {
	for name, told := range map[string]string{
		"controls-50":        "NOTHING WAS REQUIRED",
		"carried-60":         "NOTHING WAS REQUIRED",
		"chain150-held400":   "LEFT OUT, since this run is more than one answer has room for: only",
		"ever-smaller-steps": "FALLS SHORT in 5 of 5 requirements",
	} {
		t.Run(name, func(t *testing.T) {
			most, out := peak(t, nil, "check", filepath.Join("../../testdata/harm", name+".hcl"))
			assert.Contains(t, strings.Join(strings.Fields(out), " "), told)
			assert.Less(t, most, int64(mostHarm))
		})
	}
}

// A mebibyte of rubbish is refused without much memory.
func TestRubbishMemory(t *testing.T) {
	for _, piece := range []string{"[", "a=1\n", ",", "\"\"", "#\n", "${"} {
		most, out := peak(t, strings.NewReader(strings.Repeat(piece, 1<<20/len(piece))), "check", "-")
		assert.Contains(t, out, "-:")
		assert.Less(t, most, int64(mostRubbish), "%q", piece)
	}
}
