package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/demo"
	"fullfree/linkage"
)

// mostBytes is how much of a file is read: the most that a run may have, and
// one more, by which linkage.Read tells that it is too long.
const mostBytes = 1<<20 + 1

// fileEnding is how the names of files end.
const fileEnding = ".hcl"

// input is a file being worked on, on this machine.
type input struct {
	calls.Input
	info fs.FileInfo // nil where there is no file behind it
}

// newInput is the file of a name, which nothing is known of yet.
func newInput(name string) *input {
	return &input{Input: calls.Input{Name: name, Beside: besideOf(name)}}
}

// openOne opens the one file that a command works on. Where it can't, it says
// why and returns nil and the exit status.
func openOne(c *command, std streams, rest, set []string) (*input, int) {
	return inputOf(c, std, rest, set, (*input).Ready)
}

// telling is how a command is to tell its results.
type telling struct{ json, full bool }

// openPlain parses the arguments of a command that takes a file, --json, --set and
// --full alone, and opens the file; full is what --full does, empty where there is none.
// in is nil where there is nothing more to do but to return the status.
func openPlain(c *command, std streams, args []string, full string) (in *input, told telling, status int) {
	flags := newFlags(c)
	if full != "" {
		flags.BoolVar(&told.full, "full", false, full)
	}
	flags.BoolVar(&told.json, "json", false, "results for machines, at full precision")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return nil, told, status
	}
	in, status = openOne(c, std, rest, *set)
	return in, told, status
}

// inputOf is openOne for a command that wants its run prepared otherwise.
func inputOf(c *command, std streams, rest, set []string, prepare func(*input) error) (*input, int) {
	name, err := oneFile(rest)
	if err != nil {
		return nil, std.fail(c, "%s", err)
	}
	changes, err := settings(set)
	if err != nil {
		return nil, std.fail(c, "%s", err)
	}
	in, err := open(std, name, changes)
	if err == nil {
		err = prepare(in)
	}
	if err != nil {
		return nil, std.problem(c, err)
	}
	return in, exitOK
}

// problem tells what is wrong, faults of a file by their place in it, and
// returns the exit status for it.
func (s streams) problem(c *command, err error) int {
	var faults *linkage.Faults
	if !errors.As(err, &faults) {
		return s.fail(c, "%s", err)
	}
	s.message("%s\n", strings.TrimSuffix(faults.Error(), "\n"))
	return exitFailed
}

// open reads a file, or standard input where its name is "-", changed by the
// settings; one with blanks left in it is refused. The error tells a person what
// is wrong.
func open(std streams, name string, set []linkage.Setting) (*input, error) {
	in := newInput(name)
	in.Settings = set
	text, err := in.readAll(std)
	if err != nil {
		return nil, err
	}
	return in, in.Read(text)
}

func (in *input) readAll(std streams) ([]byte, error) {
	from := std.in
	if in.Name != "-" {
		f, info, err := openFile(in.Name)
		if err != nil {
			return nil, cantRead(in.Name, err)
		}
		defer f.Close()
		from, in.info = f, info
	} else if f, ok := from.(*os.File); ok { // which may be a file that is not to be lost
		if info, err := f.Stat(); err == nil {
			in.info = info
		}
	}
	text, err := io.ReadAll(io.LimitReader(from, mostBytes))
	if err != nil {
		return nil, cantRead(in.Name, err)
	}
	return text, nil
}

// hint tells what may have been meant by the name of a file that isn't there.
func hint(name string, err error) string {
	if !errors.Is(err, fs.ErrNotExist) {
		return ""
	}
	if _, err := os.Stat(name + fileEnding); err == nil {
		return fmt.Sprintf("; did you mean %q?", linkage.Printable(name+fileEnding))
	}
	kind := strings.TrimSuffix(name, fileEnding)
	if slices.Contains(demo.Kinds(), kind) {
		return fmt.Sprintf("; \"fullfree new %s > %s\" writes it", kind, kind+fileEnding)
	}
	return ""
}

// reason is why a file can't be read or written, without its name, which
// stands beside it.
func reason(err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return "there is no such file"
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	if err.Error() == "path escapes from parent" { // the os package has no name for it
		return "it is a link out of the folder of the file that names it: put the file itself there"
	}
	return linkage.Printable(err.Error())
}
