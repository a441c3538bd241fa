package main

import (
	"fmt"
	"io"
	"os"
	"time"
)

// progressEvery is how often what takes long tells on standard error how far it
// is; what is done sooner says nothing.
var progressEvery = 3 * time.Second

// firstProgress is after how long a person who waits at a terminal is told first.
var firstProgress = time.Second

// atTerminal reports whether a person reads what is written there.
func atTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// watched returns what tells at a terminal how far the judging of a run is, where that
// takes longer than a second; nil where nobody reads it.
func watched(std streams, c *command) func(what string, done, of int) {
	if !atTerminal(std.err) {
		return nil
	}
	due := time.Now().Add(firstProgress)
	return func(what string, done, of int) {
		if now := time.Now(); !now.Before(due) {
			due = now.Add(progressEvery)
			std.message("fullfree %s: %d of %d %s\n", c.name, done, of, what)
		}
	}
}

// progress returns what tells how far a command is, where that is due.
func progress(std streams, c *command) func(format string, args ...any) {
	told := time.Now()
	return func(format string, args ...any) {
		if now := time.Now(); now.Sub(told) >= progressEvery {
			told = now
			std.message("fullfree %s: %s\n", c.name, fmt.Sprintf(format, args...))
		}
	}
}
