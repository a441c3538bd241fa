package main

import (
	"bytes"
	"math"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	"fullfree/solve"
)

func checkCommand() *command {
	return &command{
		name:  "check",
		usage: "FILE... [--full] [--json] [--temperature CELSIUS]\n                 [--set DIMENSION=VALUE]",
		does:  "the verdict, what falls short and why, what ends it",
		more: `
Reads a run from FILE ("-" is standard input), moves every control from stop
to stop with the others at each of their held settings, and judges what the
file requires. An end with less thread in than its least (left out: 1.5
diameters), or more than its most, falls short whatever is required ("setting").

It prints what there is to act on: the verdict, what falls short with its cause,
a line for each requirement that holds, what ends the travel and would next, and
where it is on center. --full prints all: every figure with where it is worst,
how surely it holds, what every part moves, the parts as read, and what the
answer covers, assumes and never checks. --json has all of that as well.

Of several files each is told under its name, and the exit status is the worst;
--json and --set go with one file.

Exit status: 0 everything required holds; 1 something falls short; 2 it could
not be judged: nothing was required, the arithmetic can't tell, or the file
can't be read.

Each answer also says whether it is surely so: with every hole and set length
out by 1 mm (0.04 in; common practice, no source), or by what the run says is
uncertain, or by what the survey of a sketched drawing leaves. That changes
neither verdict nor exit status.

With --temperature the run is as it is at so many degrees Celsius: open cables
then have another tension than they were drawn up to, for the airframe grows
otherwise than they do. The run must say rigged-at and airframe, and of each
cable its wire and run; of cables in conduits no figures are known.

A run that is more than one answer has room for (hundreds of controls or held
settings) is looked at as far as that goes: LEFT OUT tells what was not, and
nothing holds for it.

Words: "stop to stop" is the travel; "in hand" what is left before trouble
(margin); "on center" where, mostly with an arm and its rod in line, it locks up
(toggle), a part that follows the control halts whole and turns back while the
control goes on (dead center: told of the first such part, not of what turns
back because of it; also of an output that turns back by itself, as at the top
of an arc, unless a steady names it), or it may go either way (change point);
"second path" another row of rods to the same part; "hole to hole"
the length of a rod between its ball centers.

Examples:
  fullfree check pedals.hcl
  fullfree check pedals.hcl --full
  fullfree check pedals.hcl throttle.hcl
  fullfree check pedals.hcl --set left-link.length=297.5
  fullfree check throttle.hcl --json
  fullfree check pedals-cable.hcl --temperature 35
  fullfree new chain | fullfree check -
`,
		run: check,
	}
}

func check(c *command, std streams, args []string) int {
	flags := newFlags(c)
	full := flags.Bool("full", false, "every figure, the parts as read, what was covered and assumed")
	asJSON := flags.Bool("json", false, "results for machines, at full precision, of one file")
	temperature := flags.String("temperature", "", "as it is at so many degrees `CELSIUS`, by its open cables")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	asked := checking{full: *full, asJSON: *asJSON, set: *set}
	if flags.Changed("temperature") {
		v, ok := parseNumber(*temperature)
		if !ok || math.Abs(v) > linkage.Hottest {
			return std.fail(c, "--temperature %s is no temperature: degrees Celsius from -%d to %d, such as --temperature 35",
				linkage.Printable(*temperature), linkage.Hottest, linkage.Hottest)
		}
		asked.celsius = &v
	}
	if len(rest) < 2 {
		out, status := asked.of(c, std, rest)
		if len(out) == 0 {
			return status
		}
		return std.print(c, out, status)
	}
	if *asJSON || len(*set) > 0 {
		return std.fail(c, "--json and --set go with one file, not with %d", len(rest))
	}
	return asked.each(c, std, rest)
}

// checking is how files are to be checked.
type checking struct {
	full, asJSON bool
	celsius      *float64 // nil: as rigged
	set          []string
}

// each checks several files one after another, each under its name. A file that can't be
// read keeps none of the others from being checked; the exit status is the worst.
func (asked checking) each(c *command, std streams, names []string) int {
	worst, gap := exitOK, ""
	for _, name := range names {
		out, status := asked.of(c, std, []string{name})
		worst = max(worst, status)
		if len(out) == 0 {
			continue
		}
		heading := gap + linkage.Printable(name) + ":\n"
		if std.print(c, append([]byte(heading), out...), exitOK) != exitOK {
			return exitFailed
		}
		gap = "\n"
	}
	return worst
}

// of checks one file and returns what there is to print of it, and the exit status. Where
// it can't be checked, it has said why and returns nothing to print.
func (asked checking) of(c *command, std streams, rest []string) (report []byte, status int) {
	in, status := inputOf(c, std, rest, asked.set, func(in *input) error {
		in.Celsius = asked.celsius
		return in.Ready()
	})
	if in == nil {
		return nil, status
	}
	in.Mechanism.Progress = watched(std, c)
	result, err := in.Judged()
	if err != nil {
		return nil, std.problem(c, err)
	}
	var out bytes.Buffer
	opts := render.ReportOptions{Hash: in.Hash(), Version: version, Redrawn: in.Redrawn, Unused: in.Unused()}
	switch {
	case asked.asJSON:
		err = machine.CheckJSON(&out, in.Name, result)
	case result.Run.Aircraft != nil:
		err = render.AircraftReport(&out, in.Title(), result, asked.full, opts)
	case asked.full:
		err = render.Report(&out, in.Title(), result, opts)
	default:
		err = render.ShortReport(&out, in.Title(), result, opts)
	}
	if err != nil {
		return nil, std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return out.Bytes(), verdictStatus(result.Verdict)
}

// verdictStatus is the exit status of a verdict.
func verdictStatus(v solve.Verdict) int {
	switch v {
	case solve.Holds:
		return exitOK
	case solve.FallsShort:
		return exitShort
	}
	return exitFailed
}
