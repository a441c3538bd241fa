package main

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	"fullfree/solve"
)

// The steps that a travel may be told in, and how many where not told: every
// two degrees of a lever that goes 24 each way.
const (
	usualSteps = 24
	mostSteps  = solve.MostSteps
)

// mostFigures is the most figures of a table, all rows together: with the text
// written from them they take some hundred megabytes.
const mostFigures = 5_000_000

func sweepCommand() *command {
	return &command{
		name:  "sweep",
		usage: "FILE [--control NAME] [--held NAME=AT]\n      [--steps 24] [--detents] [--csv|--json]\n      [--set DIMENSION=VALUE]",
		does:  "positions over the travel, as a table",
		more: `
Moves one control from stop to stop, in even steps, and tells where every part
then is (from its drawn position) and what the outputs read. The control's
part is the first column. With --detents a row for each notch of the control
(detents = [0, 15, 30] in its block) instead; one that no travel comes to is
told. The other controls stand at the first of their held settings unless --held
tells. A table holds at most 5000000 figures, rows times columns.

Examples:
  fullfree sweep pedals.hcl
  fullfree sweep pedals.hcl --steps 8 --csv
  fullfree sweep flaps.hcl --detents
  fullfree sweep mixer.hcl --control collective --steps 4 --json
  fullfree sweep sticks.hcl --set left-stick.grip.y=500
`,
		run: sweep,
	}
}

func sweep(c *command, std streams, args []string) int {
	flags := newFlags(c)
	chosen := choiceFlags(flags)
	stepsText := flags.String("steps", strconv.Itoa(usualSteps), "how many even steps, a `COUNT` from 1 to 100000 (left out: 24)")
	atDetents := flags.Bool("detents", false, "a row for each detent of the control, in place of even steps")
	asCSV := flags.Bool("csv", false, "comma-separated values, at full precision")
	asJSON := flags.Bool("json", false, "results for machines, at full precision")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	steps, err := parseSteps(*stepsText)
	if err == nil && *atDetents && flags.Changed("steps") {
		err = errors.New("--steps and --detents at once: choose one")
	}
	if err == nil && *asCSV && *asJSON {
		err = errors.New("--csv and --json at once: choose one")
	}
	if err != nil {
		return std.fail(c, "%s", err)
	}
	in, status := openOne(c, std, rest, *set)
	if in == nil {
		return status
	}
	swept, err := chosen.sweep(in, nil)
	if err != nil {
		return std.problem(c, err)
	}
	if err := roomFor(steps, len(swept.Columns())); err != nil {
		return std.fail(c, "%s", err)
	}
	if left := render.SweepLeftOut(swept); left != "" {
		std.message("fullfree %s: %s\n", c.name, left)
	}
	columns, rows, err := rowsOf(c, std, swept, steps, *atDetents)
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	var out bytes.Buffer
	switch {
	case *asCSV:
		err = machine.SweepCSV(&out, columns, rows)
	case *asJSON:
		err = machine.SweepJSON(&out, columns, rows)
	default:
		err = render.SweepTable(&out, in.Run, in.Survey, swept, columns, rows)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.print(c, out.Bytes(), exitOK)
}

// rowsOf is the table of even steps, or of the control's detents.
func rowsOf(c *command, std streams, swept *solve.Sweep, steps int, atDetents bool) ([]solve.Column, [][]float64, error) {
	if !atDetents {
		return swept.Table(steps)
	}
	d := swept.Detents()
	if d == nil {
		return nil, nil, fmt.Errorf("--detents: the control %s has none; write detents = [0, 15, 30] in its block", swept.Control.Name)
	}
	if beyond := render.DetentsBeyond(swept, d); beyond != "" {
		std.message("fullfree %s: %s\n", c.name, beyond)
	}
	return d.Columns, d.Rows, nil
}

func parseSteps(text string) (int, error) {
	steps, err := strconv.Atoi(text)
	if err != nil || steps < 1 || steps > mostSteps {
		return 0, fmt.Errorf("--steps %s: a whole number from 1 to %d is wanted", linkage.Printable(text), mostSteps)
	}
	return steps, nil
}

// roomFor says whether a table of so many steps and columns is small enough to
// be made.
func roomFor(steps, columns int) error {
	if (steps+1)*columns <= mostFigures {
		return nil
	}
	return fmt.Errorf("--steps %d: %d rows of %d columns are more than the %d figures that a table may hold; for this run at most --steps %d",
		steps, steps+1, columns, mostFigures, mostFigures/columns-1)
}
