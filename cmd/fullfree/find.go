package main

import (
	"bytes"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	finder "fullfree/solve/find"
)

func findCommand() *command {
	return &command{
		name:  "find",
		usage: "FILE [--vary DIMENSION=LOW..HIGH[:STEP]] [--rods] [--full]\n                [--json] [--write] [--set DIMENSION=VALUE]",
		does:  "finds the hole, the arm, the place that makes it work",
		more: `
Finds what the dimensions that may vary are to be, so that everything required
holds with most in reserve (of what is allowed, the share that is left), then
with the fewest of them changed, then by the least. What may vary the file says:

    vary "arm hole" {
      of    = lever.horn              # a point: one of these places
      among = [[0, 50], [0, 60], [0, 70]]
    }
    vary "crank arm" {
      of   = crank.in.y               # any dimension that --set knows
      low  = 40
      high = 70
      step = 0.5                      # left out: any
    }

or --vary does. A rod without a length follows the holes: it is cut to fit.
With --rods the rod ends take part too, as far as their thread goes, and every
rod keeps to what the rig pins allow.

Choices and steps are tried in every combination, up to 20000; what may be
anything is sought from several starts. Up to five settings are told that really
differ, or, where nothing meets everything, the closest, which never fails in
more than the file; and what stands against each other. Every setting told was
checked with the very values that --json tells.

With --write the best setting is written into FILE, its comments kept and
nothing else changed; nothing where none was found.

Exit status: 0 found; 1 no setting meets everything; 2 the file is faulty,
nothing varies, or no setting closes.

Examples:
  fullfree new throttle-wrong-hole > throttle.hcl
  fullfree find throttle.hcl --vary link.length=250..270
  fullfree new pedals > pedals.hcl
  fullfree find pedals.hcl --vary rocker.upper.x=280..300:2 --json
`,
		run: findDimensions,
	}
}

// varyUsage is what --vary tells.
const varyUsage = "let this `DIMENSION=LOW..HIGH[:STEP]` vary: link.length=290..300:0.5,\ncrank.in.y=40..70; or a point among places: lever.horn=[0,50],[0,60]\n(repeatable; in place of what the file says of the same)"

func findDimensions(c *command, std streams, args []string) int {
	flags := newFlags(c)
	vary := flags.StringArray("vary", nil, varyUsage)
	rods := flags.Bool("rods", false, "turn rod ends too")
	full := flags.Bool("full", false, "every setting in full, and what was covered and assumed")
	asJSON := flags.Bool("json", false, "results for machines, at full precision")
	write := flags.Bool("write", false, "write the best setting into FILE")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	switch {
	case !goOn:
		return status
	case *write && len(*set) > 0:
		return std.fail(c, "--write and --set at once: what --set tries out is not for the file")
	case *write && len(rest) == 1 && rest[0] == "-":
		return std.fail(c, "--write needs a file: standard input can't be written into")
	}
	in, status := inputVarying(c, std, rest, *set, *vary)
	if in == nil {
		return status
	}
	if in.Run.Aircraft != nil {
		return std.fail(c, "dimensions are found in one run: name its file, and check the aircraft with what is found")
	}
	if *write && in.Run.Sketch > 0 {
		return std.fail(c, "--write: the drawing is a sketch, whose places follow from what was taped; measure them again once they are changed")
	}
	tell := progress(std, c)
	found, err := finder.Search(in.Mechanism, finder.Options{
		Rods: *rods, Survey: in.Survey,
		Progress: func(judged, most int) { tell("%d settings judged, of at most %d", judged, most) },
	})
	if err != nil {
		return std.problem(c, err)
	}
	var out bytes.Buffer
	if *asJSON {
		err = machine.FindJSON(&out, found)
	} else {
		err = render.FindReport(&out, in.Title(), in.Run, found, render.FindOptions{Written: *write && found.Found && found.Settings[0].Changed > 0, Full: *full})
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	status = exitShort
	if found.Found {
		status = exitOK
	}
	if *write && found.Found && found.Settings[0].Changed > 0 {
		if err := in.rewrite(c, std, linkage.RewriteNumbers, calls.FoundNumbers(&found.Settings[0])); err != nil {
			return std.problem(c, err)
		}
	}
	return std.print(c, out.Bytes(), status)
}

// inputVarying is openOne of a file in which more varies than it says.
func inputVarying(c *command, std streams, rest, set, vary []string) (*input, int) {
	name, err := oneFile(rest)
	if err != nil {
		return nil, std.fail(c, "%s", err)
	}
	changes, err := settings(set)
	if err != nil {
		return nil, std.fail(c, "%s", err)
	}
	in := newInput(name)
	in.Settings, in.Vary = changes, vary
	text, err := in.readAll(std)
	if err == nil {
		err = in.Read(text)
	}
	if err == nil {
		err = in.Ready()
	}
	if err != nil {
		return nil, std.problem(c, err)
	}
	return in, exitOK
}
