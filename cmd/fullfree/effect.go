package main

import (
	"bytes"
	"errors"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
)

func effectCommand() *command {
	return &command{
		name:  "effect",
		usage: "FILE [--full] [--json] [--set DIMENSION=VALUE]",
		does:  "which rod end or nut to turn, and which way",
		more: `
Tells of every part and output that moves what a turn out of each rod end does
to it, at neutral and at the ends of the travel, with the controls left where
they stand; the end that does most comes first, with the turn that answers a
complaint and what it moves elsewhere. By derivative; "fullfree compare" tells
of whole turns exactly.

Both ends of a rod that do the same are one line; --full tells them apart, and
what was covered and assumed.

So of the nuts on conduit ends, with the tension of both cables of a pair, and
what a turn does to what is required. Of each pair with nuts on both cables it
tells the turns that make what it holds stand as drawn, at the tension wanted.

Exit status: 0, or 2 where the file is faulty or nothing has an end to turn.

Examples:
  fullfree new pedals-unequal > pedals-unequal.hcl
  fullfree effect pedals-unequal.hcl
  fullfree effect pedals-unequal.hcl --json
  fullfree effect lift-cables.hcl
`,
		run: effect,
	}
}

func effect(c *command, std streams, args []string) int {
	in, told, status := openPlain(c, std, args, "both ends of a rod apart, and what was covered and assumed")
	if in == nil {
		return status
	}
	effects, result, err := in.EffectsOf()
	switch {
	case errors.Is(err, calls.ErrNoEnd):
		return std.fail(c, "%s", err)
	case err != nil:
		return std.problem(c, err)
	}
	var out bytes.Buffer
	if told.json {
		err = machine.EffectJSON(&out, result, effects)
	} else {
		err = render.EffectReport(&out, in.Title(), result, effects, told.full)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.print(c, out.Bytes(), exitOK)
}
