package main

import (
	"bytes"
	"fmt"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	"fullfree/render/picture"
)

func compareCommand() *command {
	return &command{
		name:  "compare",
		usage: "FILE [OTHER.hcl] [--with ROD.SIDE=TURNS[,DIMENSION=VALUE]]\n      [--json] [--draw OUT.svg] [--set DIMENSION=VALUE]",
		does:  "settings, dimensions or two files side by side",
		more: `
Puts the run as filed and with rod ends turned side by side: rod lengths, thread
engaged and to spare, ends of the travel and what makes them, what every part
and output does, every requirement's worst value and verdict. What changed bears
an asterisk. Turns are counted out of the rod: +1 makes it longer by a pitch. So
are those of the nuts on a conduit end: +1 takes a pitch of slack up.
Each --with is one setting; it may turn several ends, and set any dimensions
that --set knows: crank.in.y=52.5, or a place whole, lever.horn=[0,60].

Instead of these, or besides, a second file is put beside the first: what both
call by the same name.

A setting falls short, whatever is required, that leaves an end with less thread
than its least, asks it in further than its most or than its shank has thread,
or turns it by what its step can't make. So it does in every command.

Exit status: 0, or 2 where the file is faulty or a setting can't be closed.

Examples:
  fullfree new pedals > pedals.hcl
  fullfree new pedals-unequal > pedals-unequal.hcl
  fullfree compare pedals-unequal.hcl --with right-link.from=-1.5
  fullfree compare pedals-unequal.hcl --with left-link.from=+1.5 --json
  fullfree compare pedals-unequal.hcl --with left-link.to=+1,right-link.to=-0.5
  fullfree compare lift-cables.hcl --with lift-up.conduit-from=+1
  fullfree compare pedals-unequal.hcl --with rocker.upper=[288,0]
  fullfree compare pedals.hcl pedals-unequal.hcl
`,
		run: compare,
	}
}

func compare(c *command, std streams, args []string) int {
	flags := newFlags(c)
	with := flags.StringArray("with", nil, "turn rod ends, or the nuts of conduit ends: `ROD.SIDE=TURNS`, or set\ndimensions: crank.in.y=52.5, lever.horn=[0,60]; several with commas\nbetween (repeatable: one setting each)")
	asJSON := flags.Bool("json", false, "results for machines, at full precision")
	drawn := flags.String("draw", "", "lay the settings over one another in a picture: the `FILE` to write")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	switch {
	case !goOn:
		return status
	case len(*with) == 0 && len(rest) < 2:
		return std.fail(c, "tell what to turn, --with left-link.from=+1 (out is plus), what to set, --with crank.in.y=52.5, or a second file")
	case flags.Changed("draw"):
		switch wrong := pictureFault(*drawn); {
		case *drawn == "" || *drawn == "-":
			return std.fail(c, "--draw wants a file: --draw OUT.svg")
		case wrong != "":
			return std.fail(c, "--draw %s", wrong)
		}
	}
	others := rest[min(1, len(rest)):]
	in, status := openOne(c, std, rest[:min(1, len(rest))], *set)
	if in == nil {
		return status
	}
	if lost := in.overwrites(*drawn); lost != "" {
		return std.fail(c, "--draw %s", lost)
	}
	variants, err := in.variants(*with)
	if err != nil {
		return std.problem(c, err)
	}
	for _, name := range others {
		v, err := otherFile(std, name)
		if err != nil {
			return std.problem(c, err)
		}
		if own, other := in.Run.Units, v.Result.Run.Units; own != other {
			return std.fail(c, "%s is in %s and %s in %s: they can't be put side by side", linkage.Printable(in.Name), own, linkage.Printable(name), other)
		}
		variants = append(variants, v)
	}
	if len(others) > 0 && *drawn != "" {
		return std.fail(c, "--draw lays settings of one file over one another, not two files")
	}
	var out, laid bytes.Buffer
	if *asJSON {
		err = machine.CompareJSON(&out, in.Name, variants)
	} else {
		err = render.CompareReport(&out, in.Title(), variants)
	}
	if err == nil && *drawn != "" {
		err = picture.Overlay(&laid, variants, picture.DiagramOptions{Hash: in.Hash(), Version: version, Set: in.Changes()})
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	if *drawn != "" {
		if status := std.write(c, *drawn, laid.Bytes()); status != exitOK {
			return status
		}
	}
	return std.print(c, out.Bytes(), exitOK)
}

// variants judges the run as filed, and with rod ends turned.
func (in *input) variants(with []string) ([]render.Variant, error) {
	filed, err := in.Judged()
	if err != nil {
		return nil, err
	}
	variants := []render.Variant{{Name: render.AsFiled, Result: filed}}
	for _, text := range with {
		v, err := in.variant(text)
		if err != nil {
			return nil, calls.WithoutPlaces(err, fmt.Sprintf("--with %s: ", linkage.Printable(text)))
		}
		variants = append(variants, v)
	}
	return variants, nil
}
