// Command fullfree tells from a drawing of a mechanical control run whether
// the controls are full, free and in the right sense: do they move the right
// way, all the way; what stops them and what would stop them next; how far is
// it from going on center.
//
//	fullfree check    FILE... [--full] [--json] [--temperature CELSIUS]
//	fullfree sweep    FILE [--control NAME] [--held NAME=AT] [--steps 24] [--csv|--json]
//	fullfree draw     FILE -o OUT.svg [--view xy|xz|yz | --charts] [--full-size [--paper PAPER]]
//	fullfree report   FILE... -o BOOK.html
//	fullfree compare  FILE --with ROD.SIDE=TURNS [--json] [--draw OUT.svg]
//	fullfree recheck  OLD NEW [--disturbed NAME.END] [--full] [--json]
//	fullfree effect   FILE [--json]
//	fullfree rig      FILE [--json] [--write]
//	fullfree find     FILE [--vary DIMENSION=LOW..HIGH[:STEP]] [--rods] [--json] [--write]
//	fullfree rods     FILE [--json]
//	fullfree show     FILE
//	fullfree fail     FILE [--full] [--json]
//	fullfree tolerance FILE [--builds 100000] [--seed 1] [--bell] [--as-drilled] [--json]
//	fullfree serve    FILE [--open] [--listen HOST:PORT]
//	fullfree survey   FILE [--json] [--write]
//	fullfree diagnose FILE [--json]
//	fullfree new      KIND [--blank [-o NAME]]
//	fullfree completion bash|zsh|fish
//	fullfree version
//	fullfree help     [COMMAND|TOPIC]
//
// Results go to standard output, messages for people to standard error. The
// exit status of check is 0 where everything required holds, 1 where
// something falls short and 2 where it could not be judged; that of rig and find is 0
// where it finds a setting, 1 where there is none and 2 where it can't search; that of
// recheck is 0 where nothing changed, 1 where something is to be done again and 2 where
// it can't compare;
// that of the other commands is 0, or 2 where they can't do it.
package main

import (
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
)

// gcPercent is by how much, in per cent, the heap may grow before it is swept: a
// command lives for milliseconds and needs some megabytes, and sweeping them as
// often as is usual takes a sixth of the time of a check.
const gcPercent = 400

// memoryLimit is how many bytes a command should get by with: nearer to it the heap is
// swept more often, whatever gcPercent says.
const memoryLimit = 128 << 20

// limitMemory sets both.
func limitMemory() {
	debug.SetGCPercent(gcPercent)
	debug.SetMemoryLimit(memoryLimit)
}

func main() {
	limitMemory()
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// The exit statuses.
const (
	exitOK     = 0
	exitShort  = 1 // check: something required falls short; rig, find: no setting meets it; recheck: something is to be done again
	exitFailed = 2 // wrong usage, an unreadable file, or a run that can't be judged
)

// streams are where a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// command is one of the words that may follow "fullfree".
type command struct {
	name string
	// usage is what may follow the name; does is what it is for, in a line;
	// more is what else its help tells, with examples that work.
	usage, does, more string
	run               func(c *command, std streams, args []string) int
}

// commands lists the commands in the order of the help.
func commands() []*command {
	return []*command{checkCommand(), sweepCommand(), drawCommand(), reportCommand(), compareCommand(), recheckCommand(), effectCommand(), rigCommand(), findCommand(), rodsCommand(), showCommand(), failCommand(), toleranceCommand(), serveCommand(), surveyCommand(), diagnoseCommand(), newCommand(), completionCommand(), versionCommand(), helpCommand()}
}

// run does what the arguments ask for and returns the exit status.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	std := streams{stdin, stdout, stderr}
	if len(args) == 0 {
		std.message("%s", overview())
		return exitFailed
	}
	word := args[0]
	switch word {
	case "-h", "--help":
		word = "help"
	case "--version":
		word = "version"
	}
	c := find(word)
	switch {
	case c == nil && strings.HasPrefix(word, "-"):
		std.message("fullfree: the command comes first, then its flags: fullfree check FILE %s\n", linkage.Printable(word))
		return exitFailed
	case c == nil:
		std.message("fullfree: there is no command %q%s\n", linkage.Printable(word), calls.DidYouMean(word, commandNames()))
		return exitFailed
	}
	return c.run(c, std, args[1:])
}

func find(name string) *command {
	for _, c := range commands() {
		if c.name == name {
			return c
		}
	}
	return nil
}

func commandNames() []string {
	var names []string
	for _, c := range commands() {
		names = append(names, c.name)
	}
	return names
}

// message writes to standard error. That it can't is nowhere to be told.
func (s streams) message(format string, args ...any) {
	_, _ = fmt.Fprintf(s.err, format, args...)
}

// fail tells what is wrong and returns the exit status for it.
func (s streams) fail(c *command, format string, args ...any) int {
	s.message("fullfree %s: %s\n", c.name, fmt.Sprintf(format, args...))
	return exitFailed
}

// print writes a result to standard output and returns the exit status: ok
// where it was written.
func (s streams) print(c *command, result []byte, ok int) int {
	if _, err := s.out.Write(result); err != nil {
		return s.fail(c, "can't write to standard output: %s", reason(err))
	}
	return ok
}
