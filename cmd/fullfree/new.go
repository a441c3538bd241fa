package main

import (
	"fmt"
	"strings"

	"fullfree/demo"
	"fullfree/linkage"
)

func newCommand() *command {
	return &command{
		name:  "new",
		usage: "KIND",
		does:  "a commented file to start from",
		more: fmt.Sprintf(`
Writes a run of an invented aircraft to standard output, commented like a
drawing, to be changed into your own. KIND is one of
  %s.

Examples:
  fullfree new
  fullfree new throttle > throttle.hcl
`, strings.Join(demo.Kinds(), ", ")),
		run: newFile,
	}
}

func newFile(c *command, std streams, args []string) int {
	flags := newFlags(c)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	switch len(rest) {
	case 0:
		return std.print(c, []byte(strings.Join(demo.Kinds(), "\n")+"\n"), exitOK)
	case 1:
	default:
		return std.fail(c, "one kind at a time, not %d", len(rest))
	}
	text, ok := demo.File(rest[0])
	if !ok {
		return std.fail(c, "there is no kind %q%s", linkage.Printable(rest[0]), didYouMean(rest[0], demo.Kinds()))
	}
	return std.print(c, text, exitOK)
}
