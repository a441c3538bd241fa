package main

import (
	"bytes"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

func surveyCommand() *command {
	return &command{
		name:  "survey",
		usage: "FILE [--json] [--write] [--set DIMENSION=VALUE]",
		does:  "a sketched drawing adjusted to what was taped",
		more: `
Reads a run whose coordinates come from a sketch, with what was taped and gauged
on the aircraft, and finds the coordinates that fit all of it best (adjustment
by least squares, as surveyors do it): where every hole is and how sure that is,
which measurement disagrees with the rest, what nothing ties, and what to tape
next. check, sweep and draw use the adjusted drawing too. With --write the
coordinates are written into FILE, its comments kept and nothing else changed; a
line on standard error tells so.

Exit status: 0, or 2 where the file is faulty or blanks are left in it.

Words: "disagrees" is by how much a measurement disagrees with all the others
(misclosure: the residual over the redundancy number); "sigmas" its residual by
the standard deviation of that; above 3 the largest is doubtful. "±" is two
standard deviations.

Examples:
  fullfree new pedals-taped > pedals-taped.hcl
  fullfree survey pedals-taped.hcl
  fullfree survey pedals-taped.hcl --json
`,
		run: survey,
	}
}

func survey(c *command, std streams, args []string) int {
	flags := newFlags(c)
	asJSON := flags.Bool("json", false, "results for machines, at full precision")
	write := flags.Bool("write", false, "write the adjusted coordinates into FILE")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	if wrong := writeFault(*write, *set, rest); wrong != "" {
		return std.fail(c, "%s", wrong)
	}
	in, status := readOne(c, std, rest, *set)
	if in == nil {
		return status
	}
	if *write && !in.isRegular() {
		return std.fail(c, "--write needs a file: %s is none", linkage.Printable(in.name))
	}
	s, err := solve.NewSurvey(in.run)
	if err != nil {
		return std.problem(c, err)
	}
	var out bytes.Buffer
	if *asJSON {
		err = render.SurveyJSON(&out, s)
	} else {
		err = render.SurveyReport(&out, in.title(), s)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	if *write {
		changes := adjusted(s)
		text, err := linkage.Rewrite(in.source, changes)
		if err != nil {
			return std.problem(c, err)
		}
		if err := writeWhole(in.name, text); err != nil {
			return std.fail(c, "can't write %s: %s", linkage.Printable(in.name), reason(err))
		}
		std.message("fullfree %s: %s\n", c.name, render.WrittenSays(in.name, s, len(changes)))
	}
	return std.print(c, out.Bytes(), exitOK)
}

// writeFault tells why what was asked for can't be written into the file; empty
// where it can.
func writeFault(write bool, set, rest []string) string {
	switch {
	case write && len(set) > 0:
		return "--write and --set at once: what --set tries out is not for the file"
	case write && len(rest) == 1 && rest[0] == "-":
		return "--write needs a file: standard input can't be written into"
	}
	return ""
}

// isRegular reports whether there is a file behind the input, no terminal or pipe.
func (in *input) isRegular() bool { return in.info != nil && in.info.Mode().IsRegular() }

// adjusted lists the coordinates that a survey adjusted.
func adjusted(s *solve.Survey) []linkage.Change {
	var changes []linkage.Change
	for _, p := range s.Points {
		if p.Exact || s.Run.Sketch == 0 {
			continue
		}
		changes = append(changes, linkage.Change{Dimension: p.Name + ".x", Value: p.At.X}, linkage.Change{Dimension: p.Name + ".y", Value: p.At.Y})
		if !p.PlaneOnly {
			changes = append(changes, linkage.Change{Dimension: p.Name + ".z", Value: p.At.Z})
		}
	}
	return changes
}
