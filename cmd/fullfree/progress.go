package main

import (
	"fmt"
	"time"
)

// progressEvery is how often what takes long tells on standard error how far it
// is; what is done sooner says nothing.
var progressEvery = 3 * time.Second

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
