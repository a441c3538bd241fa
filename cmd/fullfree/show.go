package main

import (
	"fullfree/linkage"
)

func showCommand() *command {
	return &command{
		name:  "show",
		usage: "FILE",
		does:  "the file with every mirrored block written out",
		more: `
Prints the file as it is, but every part, rod, control, output and stop that is
the mirror image of another is written out in full. Comments, named dimensions
and everything else stay as they are. What it prints reads back to the same
answers.

Exit status: 0, or 2 where the file is faulty.

Examples:
  fullfree new ailerons > ailerons.hcl
  fullfree show ailerons.hcl
  fullfree show ailerons.hcl > written-out.hcl
`,
		run: show,
	}
}

func show(c *command, std streams, args []string) int {
	rest, goOn, status := parse(c, std, newFlags(c), args)
	if !goOn {
		return status
	}
	name, err := oneFile(rest)
	if err != nil {
		return std.fail(c, "%s", err)
	}
	in := newInput(name)
	text, err := in.readAll(std)
	if err != nil {
		return std.problem(c, err)
	}
	if text, err = linkage.WrittenOut(&linkage.Source{Name: name, Text: text}); err != nil {
		return std.problem(c, err)
	}
	return std.print(c, text, exitOK)
}
