package main

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// helpOverview is what "fullfree help" is to say, word for word.
const helpOverview = `fullfree tells from a drawing of a mechanical control run whether it moves the
right way, all the way, freely; what stops it, and what would stop it next.

  fullfree check      the verdict, what falls short and why, what ends it
  fullfree sweep      positions over the travel, as a table
  fullfree draw       a picture of the travel, as a shop drawing
  fullfree report     a rigging book: one page that moves the runs, and prints
  fullfree compare    settings, dimensions or two files side by side
  fullfree recheck    what a change makes void, to be done and signed again
  fullfree effect     which rod end or nut to turn, and which way
  fullfree rig        finds the setting of rod ends and stop screws
  fullfree find       finds the hole, the arm, the place that makes it work
  fullfree rods       the rod list for the bench, and the cables
  fullfree show       the file with every mirrored block written out
  fullfree fail       what is left when one part goes or jams
  fullfree tolerance  what is left when parts are made a little off
  fullfree serve      a page to try settings on, before a wrench is turned
  fullfree survey     a sketched drawing adjusted to what was taped
  fullfree diagnose   which dimension explains readings taken after rigging
  fullfree new        a commented file to start from
  fullfree completion what a shell needs to complete what is typed
  fullfree version    which fullfree this is
  fullfree help       this, more about one command, or a page of the manual

The manual, by topic:
  fullfree help begin        A first run, from a drawing
  fullfree help file         What may stand in a file
  fullfree help mirror       A side written once
  fullfree help requirements What can be required
  fullfree help sense        Which way is judged
  fullfree help commands     The commands
  fullfree help pages        Pictures and pages
  fullfree help answer       What an answer is worth
  fullfree help measure      Your own run, from tape, level and photograph
  fullfree help tape         No drawing, only a tape
  fullfree help settings     Before it is bolted up
  fullfree help dimensions   Which hole, which arm, which place
  fullfree help readings     Readings after rigging
  fullfree help second-path  Two paths to one part
  fullfree help cables       Cables
  fullfree help failures     When one thing goes
  fullfree help tolerances   Made a little off: tolerance and play
  fullfree help rotor        Parts in space, and the rotor
  fullfree help aircraft     One aircraft: from the hand to the blade
  fullfree help changes      What a change makes void
  fullfree help status       Exit status, and what is written

To begin, take a commented file of an invented aircraft, and make it yours:
  fullfree new pedals > pedals.hcl
  fullfree check pedals.hcl
  fullfree draw pedals.hcl -o pedals.svg

No drawing? Take a page to the aircraft, and tape it; of a run of your own
"fullfree help measure" tells how:
  fullfree new pedals --blank -o my-pedals

"fullfree help COMMAND" tells more, with examples.

It is arithmetic on a drawing and approves nothing: the designer's instructions,
the local rules and a licensed inspector do. The last check is made on the
aircraft, at the blade or surface, pins out, by a second person.
`

// usages are what each command takes, in the order in which they are told.
var usages = []struct{ name, flags string }{
	{"check", "full json temperature set"},
	{"sweep", "control held steps detents csv json set"},
	{"draw", "view charts full-size paper control held set only"},
	{"report", "paper since disturbed set"},
	{"compare", "with json draw set"},
	{"recheck", "disturbed full json set"},
	{"effect", "full json set"},
	{"rig", "full json write set"},
	{"rods", "json set"},
	{"show", ""},
	{"fail", "full json set"},
	{"serve", "open listen"},
	{"survey", "json write set"},
	{"diagnose", "json set"},
	{"new", "blank"},
	{"completion", ""},
	{"version", ""},
	{"help", ""},
}

var longFlag = regexp.MustCompile(`--([a-z-]+)`)

// flagsIn returns the flags that a text names, once each, in the alphabet's order.
func flagsIn(text string) []string {
	flags := []string{}
	for _, m := range longFlag.FindAllStringSubmatch(text, -1) {
		flags = append(flags, m[1])
	}
	slices.Sort(flags)
	return slices.Compact(flags)
}

// What the help says of a command's flags is what the command takes: the line on how
// to call it, the list of flags, and the command itself agree with what is written
// here. -o has no long form but one.
func TestHelp(t *testing.T) {
	for _, args := range [][]string{{"help"}, {"--help"}, {"-h"}} {
		assert.Equal(t, outcome{exitOK, helpOverview, ""}, fullfree("", args...))
	}
	for _, c := range usages {
		want := strings.Fields(c.flags)
		slices.Sort(want)
		long := fullfree("", "help", c.name)
		assert.Equal(t, exitOK, long.status)
		assert.Empty(t, long.err)
		assert.Equal(t, long, fullfree("", c.name, "--help"))
		assert.Equal(t, long, fullfree("", c.name, "-h"))

		does, rest, ok := strings.Cut(long.out, "\n\n")
		require.True(t, ok, c.name)
		assert.Regexp(t, `^fullfree `+c.name+`: \w`, does)
		assert.Contains(t, helpOverview, strings.TrimPrefix(does, "fullfree "+c.name+": "), "the overview says the same")
		usage, rest, ok := strings.Cut(rest, "\n\n")
		require.True(t, ok, c.name)
		assert.Regexp(t, `^  fullfree `+c.name+`( |$)`, usage)
		assert.ElementsMatch(t, want, flagsIn(usage), "%s: how it is called", c.name)
		assert.Contains(t, rest, "Example")

		_, listed, _ := strings.Cut(rest, "\nFlags:\n")
		var heads []string
		for _, line := range strings.Split(listed, "\n") {
			if strings.HasPrefix(line, "  -") {
				heads = append(heads, line)
			}
		}
		inList := slices.DeleteFunc(flagsIn(strings.Join(heads, "\n")), func(flag string) bool { return flag == "output" })
		assert.ElementsMatch(t, want, inList, "%s: its list of flags", c.name)

		// Flags of every command are tried on this one.
		for _, other := range usages {
			for _, flag := range strings.Fields(other.flags) {
				known := !strings.Contains(fullfree("", c.name, "--"+flag).err, "there is no flag")
				assert.Equal(t, slices.Contains(want, flag), known, "%s --%s", c.name, flag)
			}
		}
	}
}
