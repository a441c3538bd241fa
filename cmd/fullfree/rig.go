package main

import (
	"bytes"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
)

func rigCommand() *command {
	return &command{
		name:  "rig",
		usage: "FILE [--full] [--json] [--write]\n               [--set DIMENSION=VALUE]",
		does:  "finds the setting of rod ends and stop screws",
		more: `
Finds how rod ends are to be turned, in steps that they can make, and where
stops with adjust = [low, high] are to be set, so that everything required holds
with most in reserve; but no second end is turned for less than twice the
reserve. Then come the fewest ends, and what moves least at neutral of what
stands right there; what does move is told. The best five are told, or, where
nothing meets everything, the closest: what fails in the fewest requirements,
never in more than the file, then misses least; which requirement stands in the
way of which; and which single dimensions would do, each by itself ("find" looks
for several together). What was searched is told too. Every end keeps between
its least and its most thread, and every rod within what the rig pins allow. A
stop is moved only where a travel is required. Where the file doesn't say, the
least is 1.5 diameters, an end goes by half turns, in by 10 turns at most, a
stop by 0.5, and pins allow 0.1 mm (0.004 in): common practice, no source.

Settings that make the same lengths are told together; --full tells each, and
what was covered and assumed.

With --write the best setting is written into FILE: lengths, thread and stops,
its comments kept and nothing else changed; nothing where none was found. Of a
mirrored rod they are written beside its mirror. What is written with a named
dimension is not written over: that is refused, and named.

Exit status: 0 found; 1 no setting meets everything; 2 the file is faulty, or
there is nothing to set.

Examples:
  fullfree new pedals-unequal > pedals-unequal.hcl
  fullfree rig pedals-unequal.hcl
  fullfree rig pedals-unequal.hcl --write
`,
		run: searchRig,
	}
}

func searchRig(c *command, std streams, args []string) int {
	in, flags, status := openToWrite(c, std, args, "write the best setting into FILE", "every setting by itself, and what was covered and assumed", (*input).Ready)
	if in == nil {
		return status
	}
	tell := progress(std, c)
	found, err := in.Rig(func(checked, most int) { tell("%d settings checked, of at most %d", checked, most) })
	if err != nil {
		return std.problem(c, err)
	}
	var out bytes.Buffer
	if flags.json {
		err = machine.RigJSON(&out, in.Name, found)
	} else {
		err = render.RigReport(&out, in.Title(), in.Run, found, render.RigOptions{Written: flags.write && found.Found, Full: flags.full})
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	status = exitShort
	if found.Found {
		status = exitOK
	}
	if flags.write && found.Found {
		if err := in.rewrite(c, std, linkage.Rewrite, calls.SettingOf(&found.Settings[0])); err != nil {
			return std.problem(c, err)
		}
	}
	return std.print(c, out.Bytes(), status)
}
