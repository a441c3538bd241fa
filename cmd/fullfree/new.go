package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/demo"
	"fullfree/linkage"
)

func newCommand() *command {
	return &command{
		name:  "new",
		usage: "KIND [--blank [-o NAME]] | --blank FILE | aircraft -o FOLDER",
		does:  "a commented file to start from",
		more: fmt.Sprintf(`
Writes a run of an invented aircraft to standard output, commented like a
drawing, to be changed into your own. KIND is one of

%s
The runs that the manual tells of besides are there too: %s,
%s, %s and %s.

"aircraft -o FOLDER" writes a whole one: six runs, each a file that can be
checked by itself, and the file that joins them, into a folder that isn't there
yet.

With --blank it is a run without a drawing, to be measured: the same run from a
rough sketch, with a block for each distance to tape, its figure left blank. A
page to take to the aircraft comes with it, the holes lettered and the
distances listed with lines to write on. "-o NAME" writes both, NAME.hcl and
NAME.svg; without it, or with "-o -", the file goes to standard output. A file
that is there already is not written over.

With --blank and a FILE of your own, a name that ends in .hcl or "-", it is the
page for taping that: for the blocks taped and gauged that it has, with what is
read already. A FILE without any is taken for a sketch, and gets what is to be
taped: "-o NAME" writes it as NAME.hcl beside the page, NAME.svg. Without -o the
page goes to standard output.

Examples:
  fullfree new
  fullfree new throttle > throttle.hcl
  fullfree new pedals --blank -o my-pedals
  fullfree new chain --blank > my-chain.hcl
  fullfree new --blank my-pedals.hcl > my-pedals.svg
  fullfree new aircraft -o my-aircraft
`, kindsTold("  "), demo.WrongHole, demo.Taped, demo.Unequal, demo.Dual),
		run: newFile,
	}
}

func newFile(c *command, std streams, args []string) int {
	flags := newFlags(c)
	asBlank := flags.Bool("blank", false, "with what is to be measured left blank, and a page to take along")
	name := flags.StringP("output", "o", "", "write `NAME`.hcl and NAME.svg (with --blank), or the folder NAME\n(of an aircraft)")
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	named := flags.Changed("output")
	if len(rest) == 1 && rest[0] == demo.Aircraft {
		return newAircraft(c, std, *name, *asBlank)
	}
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
	if strings.HasSuffix(rest[0], fileEnding) || rest[0] == "-" {
		if !*asBlank {
			return std.fail(c, "%s is a file that you have: --blank makes the page for taping it", linkage.Printable(rest[0]))
		}
		return newBlankOf(c, std, rest[0], *name)
	}
	text, ok := demo.File(rest[0])
	if !ok {
		return std.fail(c, "there is no kind %q%s", linkage.Printable(rest[0]), calls.DidYouMean(rest[0], demo.Kinds()))
	}
	if *asBlank {
		return newBlank(c, std, rest[0], text, *name)
	}
	return std.print(c, text, exitOK)
}

// newAircraft writes the files of the demo aircraft into a folder that it makes.
func newAircraft(c *command, std streams, folder string, blank bool) int {
	files, err := demo.AircraftFiles()
	switch {
	case err != nil:
		return std.fail(c, "%s", err)
	case blank:
		return std.fail(c, "an aircraft is measured run by run: fullfree new pedals --blank -o my-pedals")
	case strings.TrimSpace(folder) == "" || folder == "-":
		return std.fail(c, "an aircraft is %d files: fullfree new aircraft -o FOLDER writes them into a folder that isn't there yet", len(files))
	}
	if err := os.Mkdir(folder, 0o777); err != nil {
		return std.fail(c, "can't make the folder %s: %s", linkage.Printable(folder), reason(err))
	}
	var names []string
	var texts [][]byte
	for _, f := range files {
		names, texts = append(names, filepath.Join(folder, f.Name)), append(texts, f.Text)
	}
	if err := writeNew(names, texts); err != nil {
		return std.fail(c, "%s", err)
	}
	return exitOK
}

// kindsTold lists the kinds, each with what it is.
func kindsTold(indent string) string {
	var b strings.Builder
	for _, kind := range demo.Kinds() {
		fmt.Fprintf(&b, "%s%-14s  %s\n", indent, kind, demo.About(kind))
	}
	fmt.Fprintf(&b, "%s%-14s  %s\n", indent, demo.Aircraft, "six runs joined, from the hand to the blade (-o FOLDER)")
	return b.String()
}

// newBlank writes the blank of a kind under a name, or its file to standard
// output where there is none.
func newBlank(c *command, std streams, kind string, text []byte, name string) int {
	name, file := blankName(name)
	made, err := blankOf(kind, text, file)
	if err != nil {
		return std.problem(c, err)
	}
	return writeBlank(c, std, made, made.file, name)
}

// newBlankOf is newBlank of a file of one's own, of which the page goes to standard output.
func newBlankOf(c *command, std streams, path, name string) int {
	in := newInput(path)
	text, err := in.readAll(std)
	if err != nil {
		return std.problem(c, err)
	}
	run, err := linkage.ReadWith(&linkage.Source{Name: path, Text: text}, in.Beside)
	if err != nil {
		return std.problem(c, err)
	}
	name, file := blankName(name)
	if file == "" && path != "-" && len(run.Measurements) > 0 {
		file = filepath.Base(path) // which has the blanks
	}
	made, err := blankOfRun(run, file)
	if err != nil {
		return std.problem(c, err)
	}
	return writeBlank(c, std, made, made.page, name)
}

// blankName is a name without the ending that it may have, and that of the file; both empty
// where all goes to standard output.
func blankName(name string) (bare, file string) {
	bare = strings.TrimSuffix(strings.TrimSuffix(name, fileEnding), pageEnding)
	if bare == "" || bare == "-" {
		return "", ""
	}
	return bare, filepath.Base(bare) + fileEnding
}

// writeBlank writes a blank under a name; without one, a part of it to standard output.
func writeBlank(c *command, std streams, made blank, part []byte, name string) int {
	if name == "" {
		return std.print(c, part, exitOK)
	}
	if err := writeNew([]string{name + fileEnding, name + pageEnding}, [][]byte{made.file, made.page}); err != nil {
		return std.fail(c, "%s", err)
	}
	return exitOK
}
