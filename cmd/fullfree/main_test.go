package main

import (
	"os"
	"runtime/debug"
	"strings"
	"testing"
	"time"
)

// childArgs is the environment variable by which the tests start themselves as the
// command: its arguments, one a line.
const childArgs = "FULLFREE_TEST_ARGS"

// childPeak is the environment variable that names the file in which such a process
// tells the most memory that it had.
const childPeak = "FULLFREE_TEST_PEAK"

// tellPeak copies what Linux tells of this process to a file. What the system tells
// the parent counts the parent's own memory too, if that is more.
func tellPeak(file string) {
	if status, err := os.ReadFile("/proc/self/status"); err == nil && file != "" {
		_ = os.WriteFile(file, status, 0o600)
	}
}

// atEnd is what is to be ended after all tests.
var atEnd []func()

func TestMain(m *testing.M) {
	if args := os.Getenv(childArgs); args != "" {
		limitMemory()
		status := run(strings.Split(args, "\n"), os.Stdin, os.Stdout, os.Stderr)
		tellPeak(os.Getenv(childPeak))
		os.Exit(status)
	}
	progressEvery = time.Hour // what a busy machine adds to standard error is in no test
	debug.SetGCPercent(gcPercent)
	status := m.Run()
	for _, end := range atEnd {
		end()
	}
	os.Exit(status)
}
