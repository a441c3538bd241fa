package main

import (
	"errors"
	"fmt"

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
// is left as it is.
func (in *input) rewrite(c *command, std streams, changes []linkage.Change) error {
	return in.rewriteWith(c, std, linkage.Rewrite, changes)
}

// rewriteWith is rewrite by what makes the changed text.
func (in *input) rewriteWith(c *command, std streams, by func(src *linkage.Source, changes []linkage.Change) ([]byte, error), changes []linkage.Change) error {
	type rewritten struct {
		src  *linkage.Source
		text []byte
	}
	var list []rewritten
	for _, of := range linkage.ChangesByFile(in.run, changes) {
		src := of.Source
		if src == nil {
			src = in.source
		}
		text, err := by(src, of.Changes)
		if err != nil {
			return err
		}
		list = append(list, rewritten{src, text})
	}
	for _, r := range list {
		lost, err := replaceWhole(r.src.Name, r.src.Text, r.text)
		switch {
		case errors.Is(err, errChanged):
			return fmt.Errorf("%s has changed since it was read, so nothing was written into it: run this again", linkage.Printable(r.src.Name))
		case err != nil:
			return fmt.Errorf("can't write %s: %s", linkage.Printable(r.src.Name), reason(err))
		}
		std.tellLost(c, r.src.Name, lost)
	}
	return nil
}
