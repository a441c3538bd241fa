package main

import (
	"bytes"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
)

func rodsCommand() *command {
	return &command{
		name:  "rods",
		usage: "FILE [--json] [--set DIMENSION=VALUE]",
		does:  "the rod list for the bench, and the cables",
		more: `
Lists every rod, hole to hole as set, with the thread in each end and to spare,
the thread outside where the end's shank is given, and how to check it: with a
wire where the internally threaded piece has a witness hole, else by the thread
that shows. With every rig pin of the file in, it tells the length at which the
rod's bolt slides in by finger, so that rods are made up off the aircraft. A rod
is measured so where both its parts are pinned or fixed. Where the file doesn't
say, the bolt slides in to within 0.1 mm (0.004 in), the least thread is 1.5
diameters, and an end goes by half turns: common practice, no source; a maker's
figure rules.

Of every cable in a conduit it tells how much core is outside it, hole to hole,
and the thread in the nuts on its ends.

Exit status: 0, or 2 where the file is faulty.

Examples:
  fullfree new pedals-unequal > pedals-unequal.hcl
  fullfree rods pedals-unequal.hcl
  fullfree rods pedals-unequal.hcl --json
`,
		run: rods,
	}
}

func rods(c *command, std streams, args []string) int {
	in, told, status := openPlain(c, std, args, "")
	if in == nil {
		return status
	}
	pinned := in.Mechanism.Pinned()
	var out bytes.Buffer
	var err error
	if told.json {
		err = machine.RodsJSON(&out, in.Run, pinned)
	} else {
		err = render.RodsReport(&out, in.Title(), in.Run, in.Survey, pinned)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.print(c, out.Bytes(), exitOK)
}
