package main

import (
	"bytes"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
)

func diagnoseCommand() *command {
	return &command{
		name:  "diagnose",
		usage: "FILE [--json] [--set DIMENSION=VALUE]",
		does:  "which dimension explains readings taken after rigging",
		more: `
Reads a run with what was read after rigging (measured blocks: where the control
stood, what the gauge showed) and finds which dimension of the file, changed by
itself, explains the readings: each rod's length, each coordinate, the zero of
each gauge. Those that these readings don't rule out (all that leave each within
its "within", and all that chance may make look worse than the best) are told as
one group, with the further reading that would tell them apart: turn no rod
before that.
With several dates the last is diagnosed, and what has changed since is told
(wear).

Exit status: 0, or 2 where the file is faulty or has no readings.

Examples:
  fullfree new pedals-taped > pedals-taped.hcl
  fullfree diagnose pedals-taped.hcl
  fullfree diagnose pedals-taped.hcl --json
`,
		run: diagnose,
	}
}

func diagnose(c *command, std streams, args []string) int {
	in, told, status := openPlain(c, std, args, "")
	if in == nil {
		return status
	}
	d, err := in.Mechanism.Diagnose()
	if err != nil {
		return std.problem(c, err)
	}
	var out bytes.Buffer
	if told.json {
		err = machine.DiagnoseJSON(&out, d)
	} else {
		err = render.DiagnoseReport(&out, in.Title(), in.Run, in.Survey, d)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.print(c, out.Bytes(), exitOK)
}
