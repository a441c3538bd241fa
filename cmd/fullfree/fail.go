package main

import (
	"bytes"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
)

func failCommand() *command {
	return &command{
		name:  "fail",
		usage: "FILE [--full] [--json] [--set DIMENSION=VALUE]",
		does:  "what is left when one part goes or jams",
		more: `
Takes every rod, cable, pivot bolt and stop away in turn, and locks every part,
rod end and cable core at neutral in turn, and tells of each, worst first: what
still follows which control and how far, what hangs loose and through what
range, whether the travel can now run over center, whether a second path carries
it and with what play, what a lone cable of a pair still pulls and how stiffly,
which controls a seizure locks and whether one jam takes both seats, and which
parts both paths share.

What leaves the same is told in one line; --full tells every case by itself, and
what the answer covers and assumes.

Severity is 1 where a control jams, is reversed, or can go over center where it
couldn't; 2 where something is lost: an output, or a part under a hand or foot,
that follows no more; 3 where an output reaches less than 99% of what it reaches
as filed (a mark of this tool's own, no source); 4 where none of these. Over
center counts as far as the file explores (from, to), and beyond where nothing
is in the way any more.

Exit status: 0, or 2 where the file is faulty.

Examples:
  fullfree new pedals > pedals.hcl
  fullfree fail pedals.hcl
  fullfree fail pedals.hcl --full
  fullfree fail pedals.hcl --json
`,
		run: fail,
	}
}

func fail(c *command, std streams, args []string) int {
	in, told, status := openPlain(c, std, args, "every case by itself, and what was covered and assumed")
	if in == nil {
		return status
	}
	tell := progress(std, c)
	failures, err := in.Mechanism.Failures(func(done, of int) { tell("%d cases of %d", done, of) })
	if err != nil {
		return std.problem(c, err)
	}
	var out bytes.Buffer
	switch {
	case told.json:
		err = machine.FailJSON(&out, failures)
	case told.full:
		err = render.FailReport(&out, in.Title(), in.Survey, failures)
	default:
		err = render.FailShortReport(&out, in.Title(), failures)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.print(c, out.Bytes(), exitOK)
}
