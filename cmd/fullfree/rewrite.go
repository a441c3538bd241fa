package main

import (
	"errors"
	"fmt"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
)

// writing is what a command is told that can write into its file.
type writing struct {
	telling
	write bool
}

// openToWrite is openPlain for a command that takes --write besides, which does
// what writes tells, and wants its run prepared so; full is what --full does, empty where
// there is none.
func openToWrite(c *command, std streams, args []string, writes, full string, prepare func(*input) error) (in *input, told writing, status int) {
	flags := newFlags(c)
	flags.BoolVar(&told.json, "json", false, "results for machines, at full precision")
	flags.BoolVar(&told.write, "write", false, writes)
	if full != "" {
		flags.BoolVar(&told.full, "full", false, full)
	}
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	switch {
	case !goOn:
		return nil, told, status
	case told.write && len(*set) > 0:
		return nil, told, std.fail(c, "--write and --set at once: what --set tries out is not for the file")
	case told.write && len(rest) == 1 && rest[0] == "-":
		return nil, told, std.fail(c, "--write needs a file: standard input can't be written into")
	}
	in, status = inputOf(c, std, rest, *set, prepare)
	return in, told, status
}

// rewrite writes changed numbers into the file, of an aircraft into the files of the runs
// that have them, and changes nothing else there. A file that isn't any more what was read
// is left as it is, and then all of them.
func (in *input) rewrite(c *command, std streams, by calls.Rewriter, changes []linkage.Change) error {
	files, err := in.Rewritten(by, changes)
	if err != nil {
		return err
	}
	lost, failed, err := replaceAll(files)
	switch {
	case errors.Is(err, errChanged):
		return fmt.Errorf("%s has changed since it was read, so nothing was written: run this again", linkage.Printable(failed))
	case err != nil:
		return fmt.Errorf("can't write %s: %s", linkage.Printable(failed), reason(err))
	}
	std.tellLost(c, in.Name, lost)
	return nil
}

// replaceAll writes files anew that were read before, all of them or none: where one has
// changed meanwhile or can't be written, those before it become again what they were. It
// returns what of the old files could not be kept, and which file the error is of.
func replaceAll(files []calls.Rewritten) (lost []string, failed string, err error) {
	for i, f := range files {
		more, err := replaceWhole(f.Path, f.Was, f.Text)
		if err != nil {
			for _, done := range files[:i] {
				// What somebody has saved there meanwhile stays.
				_, _ = replaceWhole(done.Path, done.Text, done.Was)
			}
			return nil, f.Path, err
		}
		lost = append(lost, more...)
	}
	return lost, "", nil
}
