package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"fullfree/demo"
	"fullfree/linkage"
)

func newCommand() *command {
	return &command{
		name:  "new",
		usage: "KIND [--blank [-o NAME]]",
		does:  "a commented file to start from",
		more: fmt.Sprintf(`
Writes a run of an invented aircraft to standard output, commented like a
drawing, to be changed into your own. KIND is one of

%s
The runs that the manual tells of besides are there too: %s,
%s, %s and %s.

With --blank it is a run without a drawing, to be measured: the same run from a
rough sketch, with a block for each distance to tape, its figure left blank. A
page to take to the aircraft comes with it, the holes lettered and the
distances listed with lines to write on. "-o NAME" writes both, NAME.hcl and
NAME.svg; without it, or with "-o -", the file goes to standard output. A file
that is there already is not written over.

Examples:
  fullfree new
  fullfree new throttle > throttle.hcl
  fullfree new pedals --blank -o my-pedals
  fullfree new chain --blank > my-chain.hcl
`, kindsTold("  "), demo.WrongHole, demo.Taped, demo.Unequal, demo.Dual),
		run: newFile,
	}
}

func newFile(c *command, std streams, args []string) int {
	flags := newFlags(c)
	asBlank := flags.Bool("blank", false, "with what is to be measured left blank, and a page to take along")
	name := flags.StringP("output", "o", "", "write `NAME`.hcl and NAME.svg (with --blank)")
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	named := flags.Changed("output")
	switch {
	case named && !*asBlank:
		return std.fail(c, "-o goes with --blank; without it the file goes to standard output: fullfree new KIND > FILE.hcl")
	case named && strings.TrimSpace(*name) == "":
		return std.fail(c, "tell the name after -o: -o NAME writes NAME.hcl and NAME.svg")
	}
	switch len(rest) {
	case 0:
		if *asBlank {
			return std.fail(c, "--blank of what? there is %s", strings.Join(demo.Kinds(), ", "))
		}
		return std.print(c, []byte(kindsTold("")), exitOK)
	case 1:
	default:
		return std.fail(c, "one kind at a time, not %d", len(rest))
	}
	text, ok := demo.File(rest[0])
	if !ok {
		return std.fail(c, "there is no kind %q%s", linkage.Printable(rest[0]), didYouMean(rest[0], demo.Kinds()))
	}
	if *asBlank {
		return newBlank(c, std, rest[0], text, *name)
	}
	return std.print(c, text, exitOK)
}

// kindsTold lists the kinds, each with what it is.
func kindsTold(indent string) string {
	var b strings.Builder
	for _, kind := range demo.Kinds() {
		fmt.Fprintf(&b, "%s%-14s  %s\n", indent, kind, demo.About(kind))
	}
	return b.String()
}

// newBlank writes the blank of a kind under a name, or its file to standard
// output where there is none.
func newBlank(c *command, std streams, kind string, text []byte, name string) int {
	name = strings.TrimSuffix(strings.TrimSuffix(name, fileEnding), pageEnding)
	file, toOutput := "", name == "" || name == "-"
	if !toOutput {
		file = filepath.Base(name) + fileEnding
	}
	made, err := blankOf(kind, text, file)
	if err != nil {
		return std.problem(c, err)
	}
	if toOutput {
		return std.print(c, made.file, exitOK)
	}
	if err := writeNew([]string{name + fileEnding, name + pageEnding}, [][]byte{made.file, made.page}); err != nil {
		return std.fail(c, "%s", err)
	}
	return exitOK
}
