package main

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/page"
	"fullfree/render/picture"
)

// bookEnding is how the names of books end.
const bookEnding = ".html"

// otherBooks are the endings of texts of other kinds, which a book must not be
// named for; those of pictures it must not be either.
var otherBooks = []string{".svg", ".hcl", ".txt", ".md", ".csv", ".json", ".xml", ".doc", ".docx", ".odt", ".epub", ".zip"}

func reportCommand() *command {
	return &command{
		name:  "report",
		usage: "FILE... -o BOOK.html|BOOK.pdf [--paper a4|letter|a3|tabloid]\n      [--since OLD [--disturbed NAME.END]] [--set DIMENSION=VALUE]",
		does:  "a rigging book: one page that moves the runs, and prints",
		more: `
Writes one file that any web browser opens, on a phone too, and prints: for
each run the verdict, a picture that a slider moves stop to stop with every
angle, gap and rod angle beside it, charts, what is required with the place of
its worst value to go to, rods and stops as set, a rigging sheet to fill in by
hand, and the file itself with its hash. It asks for nothing from any network.
Named BOOK.pdf it is the same for a folder: at most eight pages a run (a rotor
head takes more), and one for the whole.

With --since OLD, the file that was signed, the sheet tells which measured
figures are unmoved by the drawing since, with the hash of OLD, and leaves all
else blank; --disturbed tells what was opened and closed again ("fullfree help
changes").

Every FILE has a part of its own, and the worst verdict comes first in the
list of them. --set and --since go with one FILE. "-o -" writes to standard
output.

Of an aircraft it is one book: first the whole, from the hand to the blade, then
each run as it moves in it, what is required across them, and one rigging sheet.

Exit status: 0 where the book was written, whatever the verdicts; 2 where a
file can't be read or judged, and then nothing is written.

Examples:
  fullfree report pedals.hcl -o pedals.html
  fullfree report pedals.hcl -o pedals.pdf
  fullfree report pedals.hcl sticks.hcl throttle.hcl -o book.html
  fullfree new pedals > signed.hcl
  fullfree report pedals.hcl -o pedals.html --since signed.hcl
  fullfree report aircraft/aircraft.hcl -o aircraft.html
  fullfree report throttle.hcl -o - --set link.length=243 > throttle.html
`,
		run: report,
	}
}

func report(c *command, std streams, args []string) int {
	flags := newFlags(c)
	output := flags.StringP("output", "o", "", "the `FILE` to write; \"-\" is standard output")
	sheet := flags.String("paper", "", "of a PDF, the `PAPER`: a4, letter, a3 or tabloid (left out: a4, or letter\nwhere the first run is in inches)")
	since := flags.String("since", "", "the file that was signed, `OLD`: what it leaves unmoved stands as such")
	disturbed := disturbedFlag(flags)
	set := setFlag(flags)
	files, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	if wrong := reportFault(files, *output, *set); wrong != "" {
		return std.fail(c, "%s", wrong)
	}
	if flags.Changed("paper") {
		if wrong := bookPaperFault(*sheet, *output); wrong != "" {
			return std.fail(c, "%s", wrong)
		}
	}
	if wrong := sinceFault(files, *since, flags.Changed("since"), len(*disturbed) > 0); wrong != "" {
		return std.fail(c, "%s", wrong)
	}
	changes, err := settings(*set)
	if err != nil {
		return std.fail(c, "%s", err)
	}
	tell := progress(std, c)
	runs, aircraft, status := bookRuns(c, std, files, changes, *output, tell)
	if status != exitOK {
		return status
	}
	if *since != "" {
		of := &runs[0]
		if aircraft != nil {
			of = &aircraft.BookRun
		}
		if of.Since, err = sinceOf(std, of, *since, *disturbed, *output); err != nil {
			return std.problem(c, inFile(*since, 2, err))
		}
	}
	var out bytes.Buffer
	drawn := func(done, all int) { tell("%d of %d travels drawn", done, all) }
	switch {
	case aircraft != nil && isPDF(*output):
		err = page.AircraftBookPDF(&out, *aircraft, *sheet, drawn)
	case aircraft != nil:
		err = page.AircraftBook(&out, *aircraft, drawn)
	case isPDF(*output):
		err = page.BookPDF(&out, runs, *sheet, drawn)
	default:
		err = page.Book(&out, runs, drawn)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.write(c, *output, out.Bytes())
}

// reportFault tells what is wrong with what was asked for; empty where nothing
// is.
func reportFault(files []string, output string, set []string) string {
	standardInputs := 0
	for _, name := range files {
		if name == "-" {
			standardInputs++
		}
	}
	switch {
	case len(files) == 0:
		_, err := oneFile(files)
		return err.Error()
	case output == "":
		return "tell where to write the book: -o BOOK" + bookEnding
	case len(set) > 0 && len(files) > 1:
		return fmt.Sprintf("--set goes with one file, not %d: a run's dimensions are its own", len(files))
	case standardInputs > 1:
		return "standard input (\"-\") can be read only once"
	}
	ending := strings.ToLower(filepath.Ext(output))
	if !isPDF(output) && (slices.Contains(otherBooks, ending) || slices.Contains(otherPictures, ending)) {
		name := strings.TrimSuffix(output, filepath.Ext(output)) + bookEnding
		return fmt.Sprintf("-o %s: the book is HTML or PDF: name it %s or %s", linkage.Printable(output), linkage.Printable(name), linkage.Printable(strings.TrimSuffix(output, filepath.Ext(output))+pdfEnding))
	}
	return ""
}

// bookPaperFault tells what is wrong with a paper that a book is asked for on; empty where
// nothing is.
func bookPaperFault(name, output string) string {
	if !isPDF(output) {
		return "--paper is for a PDF: a page of the web prints on any"
	}
	if _, err := picture.PaperSize(name); err != nil {
		return "--paper " + linkage.Printable(name) + ": there is a4, letter, a3, tabloid"
	}
	return ""
}

// bookRuns reads and judges every run; where the one file is an aircraft's, that is
// returned with what is told of its runs. Where some can't be, all that is wrong with any
// has been told, and the status isn't exitOK.
func bookRuns(c *command, std streams, files []string, changes []linkage.Setting, output string, tell func(format string, args ...any)) (runs []page.BookRun, aircraft *page.BookAircraft, status int) {
	for i, name := range files {
		tell("%d of %d runs judged", i, len(files))
		in, run, err := bookRun(c, std, name, changes, output, len(files) > 1)
		if err != nil {
			status = std.problem(c, inFile(name, len(files), err))
			continue
		}
		if in.Run.Aircraft != nil {
			of := in.BookAircraft(run)
			aircraft = &of
		}
		runs = append(runs, run)
	}
	return runs, aircraft, status
}

// inFile puts the name of its file before what is wrong in one of several
// files, where that doesn't bear it already.
func inFile(name string, files int, err error) error {
	var faults *linkage.Faults
	if name = linkage.Printable(name); files < 2 || errors.As(err, &faults) || strings.Contains(err.Error(), name) {
		return err
	}
	return fmt.Errorf("%s: %w", name, err)
}

func bookRun(c *command, std streams, name string, changes []linkage.Setting, output string, several bool) (*input, page.BookRun, error) {
	in, err := open(std, name, changes)
	switch {
	case err != nil:
		return nil, page.BookRun{}, err
	case several && in.Run.Aircraft != nil:
		return nil, page.BookRun{}, fmt.Errorf("%s is an aircraft, which has a book of its own: name it alone", linkage.Printable(name))
	}
	if lost := in.overwrites(output); lost != "" {
		return nil, page.BookRun{}, fmt.Errorf("-o %s", lost)
	}
	if err := in.Ready(); err != nil {
		return nil, page.BookRun{}, err
	}
	in.Mechanism.Progress = watched(std, c)
	run, err := in.BookRun(nil)
	return in, run, err
}
