package main

import (
	"bytes"
	"time"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

func rigCommand() *command {
	return &command{
		name:  "rig",
		usage: "FILE [--json] [--write] [--set DIMENSION=VALUE]",
		does:  "finds the setting of rod ends and stop screws",
		more: `
Finds how rod ends are to be turned, in steps that they can make, and where
stops with adjust = [low, high] are to be set, so that everything required holds
with most in reserve; then the fewest turns. The best five are told, or, where
nothing meets everything, the closest, and which requirement stands in the way
of which. What was searched is told too. Every end keeps between its least and
its most thread, and every rod within what the rig pins allow. A stop is moved
only where a travel is required.

With --write the best setting is written into FILE: lengths, thread and stops,
its comments kept and nothing else changed; nothing where none was found.

Exit status: 0 found; 1 no setting meets everything; 2 the file is faulty, or
there is nothing to set.

Examples:
  fullfree new pedals-unequal > pedals-unequal.hcl
  fullfree rig pedals-unequal.hcl
  fullfree rig pedals-unequal.hcl --write
`,
		run: rig,
	}
}

func rig(c *command, std streams, args []string) int {
	flags := newFlags(c)
	asJSON := flags.Bool("json", false, "results for machines, at full precision")
	write := flags.Bool("write", false, "write the best setting into FILE")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	if wrong := writeFault(*write, *set, rest); wrong != "" {
		return std.fail(c, "%s", wrong)
	}
	in, status := openOne(c, std, rest, *set)
	if in == nil {
		return status
	}
	if *write && !in.isRegular() {
		return std.fail(c, "--write needs a file: %s is none", linkage.Printable(in.name))
	}
	found, err := in.mechanism.Rig(rigProgress(std, c))
	if err != nil {
		return std.problem(c, err)
	}
	for i := range found.Settings {
		found.Settings[i].Check.Survey = in.survey
	}
	var out bytes.Buffer
	if *asJSON {
		err = render.RigJSON(&out, in.name, in.run, found)
	} else {
		err = render.RigReport(&out, in.title(), in.run, found, *write && found.Found)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	status = exitShort
	if found.Found {
		status = exitOK
	}
	if *write && found.Found {
		text, err := linkage.Rewrite(in.source, settingOf(in.run, &found.Settings[0]))
		if err != nil {
			return std.problem(c, err)
		}
		if err := writeWhole(in.name, text); err != nil {
			return std.fail(c, "can't write %s: %s", linkage.Printable(in.name), reason(err))
		}
	}
	return std.print(c, out.Bytes(), status)
}

// progressEvery is how often a long search tells on standard error how far it
// is; one that is done sooner says nothing.
var progressEvery = 3 * time.Second

// rigProgress tells how far a search is.
func rigProgress(std streams, c *command) func(checked, most int) {
	told := time.Now()
	return func(checked, most int) {
		if now := time.Now(); now.Sub(told) >= progressEvery {
			told = now
			std.message("fullfree %s: %d settings checked, of at most %d\n", c.name, checked, most)
		}
	}
}

// settingOf lists the numbers of a file that a setting changes.
func settingOf(run *linkage.Run, s *solve.RigSetting) []linkage.Change {
	defer s.Apply(run)()
	var ends []*linkage.RodEnd
	for _, t := range s.Turns {
		ends = append(ends, t.End)
	}
	var stops []*linkage.Stop
	for _, t := range s.Stops {
		stops = append(stops, t.Stop)
	}
	return numbersOf(ends, stops)
}

// numbersOf lists the numbers of a file that tell how rod ends and stops are set.
func numbersOf(ends []*linkage.RodEnd, stops []*linkage.Stop) []linkage.Change {
	var changes []linkage.Change
	told := map[*linkage.Rod]bool{}
	for _, end := range ends {
		rod := end.Rod
		if told[rod] {
			continue
		}
		told[rod] = true
		changes = append(changes, linkage.Change{Dimension: rod.Name + ".length", Value: rod.Length})
		for _, e := range rod.Ends {
			changes = append(changes, linkage.Change{Dimension: e.String() + ".engaged", Value: e.Engaged})
		}
	}
	for _, stop := range stops {
		changes = append(changes, linkage.Change{Dimension: stop.Name + ".at", Value: stop.At})
	}
	return changes
}
