package main

import (
	"bytes"
	"errors"
	"os"
	"os/signal"
	"strconv"
	"strings"
	"sync/atomic"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	"fullfree/solve/tolerance"
)

func toleranceCommand() *command {
	return &command{
		name:  "tolerance",
		usage: "FILE [--builds 100000] [--seed 1] [--bell]\n                     [--as-drilled] [--full] [--json] [--set DIMENSION=VALUE]",
		does:  "what is left when parts are made a little off",
		more: `
Draws builds at random within what the tolerance block of the file allows (see
"fullfree help tolerances"), rigs each as a builder does, and checks each: how
often each requirement holds, with the interval in which that share lies with a
confidence of 95% (Clopper and Pearson); the 5th, 50th and 95th percentile of
its worst figure; the worst build; which dimension is to blame; and how far each
dimension may be out by itself before something fails. Of sense, words,
over-center, stops, setting and engagement it tells in how many builds they
fail, and advises no wider limit.

Rigging is: rods with an end are turned, by whole steps, to where their bolts
slide in with the rig pins in; stops with adjust are set, by their steps, to the
travel required. --as-drilled leaves it out.

The same seed gives the same answer on any number of processors. Ctrl-C stops,
and what is done so far is told as such.

Exit status: 0; 2 where the file is faulty, nothing in it may be out, or it was
stopped.

Examples:
  fullfree new pedals-tolerance > pedals-tolerance.hcl
  fullfree tolerance pedals-tolerance.hcl --builds 2000
  fullfree tolerance pedals-tolerance.hcl --builds 2000 --as-drilled --full
  fullfree tolerance pedals-tolerance.hcl --builds 2000 --seed 7 --json
`,
		run: toleranceOf,
	}
}

func toleranceOf(c *command, std streams, args []string) int {
	flags := newFlags(c)
	builds := flags.Int("builds", tolerance.DefaultBuilds, "how many `BUILDS` are drawn")
	seed := flags.Uint64("seed", 1, "the `SEED` of the random numbers")
	bell := flags.Bool("bell", false, "draw from the bell curve, the tolerance two standard\ndeviations, instead of all within it as likely")
	asDrilled := flags.Bool("as-drilled", false, "rig nothing: rods and stops as they are made")
	full := flags.Bool("full", false, "every dimension of the worst builds, all blame, and how far\neach dimension may be out by itself")
	json := flags.Bool("json", false, "results for machines, at full precision")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	if *builds < 1 || *builds > tolerance.MostBuilds {
		return std.fail(c, "--builds is from 1 to %d, and %d is not", tolerance.MostBuilds, *builds)
	}
	in, status := openOne(c, std, rest, *set)
	if in == nil {
		return status
	}
	if in.Run.Aircraft != nil {
		return std.fail(c, "builds are drawn of one run: name its file; check tells of the aircraft how far it can be rocked")
	}
	var stopped atomic.Bool
	interrupts := make(chan os.Signal, 1)
	signal.Notify(interrupts, os.Interrupt)
	defer signal.Stop(interrupts)
	go func() {
		if _, ok := <-interrupts; ok {
			stopped.Store(true)
		}
	}()
	bar := newBar(std, c)
	answer, err := tolerance.Run(in.Mechanism, tolerance.Options{
		Builds: *builds, Seed: *seed, Bell: *bell, AsDrilled: *asDrilled, Progress: bar.show, Stop: stopped.Load,
	})
	bar.clear()
	if errors.Is(err, tolerance.ErrExact) {
		return std.fail(c, "%s", calls.ErrExact)
	}
	if err != nil {
		return std.problem(c, err)
	}
	var out bytes.Buffer
	if *json {
		err = machine.ToleranceJSON(&out, in.Name, answer)
	} else {
		err = render.ToleranceReport(&out, in.Title(), answer, render.ToleranceOptions{Full: *full})
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	status = exitOK
	if answer.Builds < answer.Asked {
		status = std.fail(c, "stopped after %d of %d builds; what is told is of these", answer.Builds, answer.Asked)
	}
	return std.print(c, out.Bytes(), status)
}

// bar tells on a terminal how far something is, in a line that is written over.
type bar struct {
	std   streams
	name  string
	shown bool
	last  int // in how many steps of barWidth
}

// barWidth is how many signs a bar is long.
const barWidth = 40

// newBar returns a bar; on no terminal it shows nothing.
func newBar(std streams, c *command) *bar {
	if !atTerminal(std.err) {
		return nil
	}
	return &bar{std: std, name: c.name, last: -1}
}

// show shows how far it is.
func (b *bar) show(done, of int) {
	if b == nil || of <= 0 {
		return
	}
	step := barWidth * done / of
	if step == b.last {
		return
	}
	b.last, b.shown = step, true
	b.std.message("\rfullfree %s: [%s%s] %s of %s", b.name, strings.Repeat("=", step), strings.Repeat(" ", barWidth-step), strconv.Itoa(done), strconv.Itoa(of))
}

// clear takes the bar away.
func (b *bar) clear() {
	if b != nil && b.shown {
		b.std.message("\r%s\r", strings.Repeat(" ", barWidth+len(b.name)+40))
	}
}
