package main

import (
	"fmt"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"

	"github.com/spf13/pflag"
)

func helpCommand() *command {
	return &command{
		name:  "help",
		usage: "[COMMAND|TOPIC]",
		does:  "this, more about one command, or a page of the manual",
		more: `
The manual is carried by the program; "fullfree help" lists its topics.

Examples:
  fullfree help
  fullfree help check
  fullfree help file
`,
		run: help,
	}
}

func help(c *command, std streams, args []string) int {
	rest, goOn, status := parse(c, std, newFlags(c), args)
	switch {
	case !goOn:
		return status
	case len(rest) == 0:
		return std.print(c, []byte(overview()), exitOK)
	case len(rest) > 1:
		return std.fail(c, "one command or topic at a time")
	}
	if page, ok := manualPage(rest[0]); ok {
		return std.print(c, []byte(plain(page)), exitOK)
	}
	about := find(rest[0])
	if about == nil {
		return std.fail(c, "there is no command or topic %q%s", linkage.Printable(rest[0]), calls.DidYouMean(rest[0], append(commandNames(), topics()...)))
	}
	return about.run(about, std, []string{"--help"})
}

// help is what "fullfree help NAME" prints.
func (c *command) help(flags *pflag.FlagSet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "fullfree %s: %s\n\n  %s\n%s", c.name, c.does, strings.TrimSpace("fullfree "+c.name+" "+c.usage), c.more)
	if flags.HasFlags() {
		b.WriteString("\nFlags:\n")
		flags.VisitAll(func(f *pflag.Flag) { b.WriteString(flagHelp(f)) })
	}
	return b.String()
}

// flagHelp tells a flag in lines that fit a phone.
func flagHelp(f *pflag.Flag) string {
	value, usage := pflag.UnquoteUsage(f)
	head := "--" + f.Name
	if f.Shorthand != "" {
		head = "-" + f.Shorthand + ", " + head
	}
	if f.Value.Type() != "bool" {
		head += " " + value
	}
	return fmt.Sprintf("  %s\n      %s\n", head, strings.ReplaceAll(usage, "\n", "\n      "))
}

// overview is what "fullfree help" prints.
func overview() string {
	var b strings.Builder
	b.WriteString(`fullfree tells from a drawing of a mechanical control run whether it moves the
right way, all the way, freely; what stops it, and what would stop it next.

`)
	for _, c := range commands() {
		fmt.Fprintf(&b, "  fullfree %-10s %s\n", c.name, c.does)
	}
	b.WriteString("\nThe manual, by topic:\n")
	for _, topic := range topics() {
		page, _ := manualPage(topic)
		fmt.Fprintf(&b, "  fullfree help %-12s %s\n", topic, titleOf(page))
	}
	b.WriteString(`
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
`)
	return b.String()
}
