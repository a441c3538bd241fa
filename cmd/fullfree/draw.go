package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/picture"

	"github.com/spf13/pflag"
)

// views are what --view may be.
var views = []string{"xy", "xz", "yz"}

// otherPictures are the endings of pictures and drawings of other kinds, which
// what is drawn must not be named for.
var otherPictures = []string{".png", ".jpg", ".jpeg", ".gif", ".bmp", ".tif", ".tiff", ".webp", ".pdf", ".ps", ".eps", ".dxf", ".dwg"}

func drawCommand() *command {
	return &command{
		name:  "draw",
		usage: "FILE -o OUT.pdf|OUT.svg|FOLDER [--view xy|xz|yz | --charts]\n      [--full-size [--only PART]] [--paper a4|letter|a3|tabloid|none]\n      [--control NAME] [--held NAME=AT] [--set DIMENSION=VALUE]",
		does:  "a picture of the travel, as a shop drawing",
		more: `
Draws the run at neutral, at both ends of the travel and between, with stops,
on-center points, rod lengths and the verdict, on one sheet for the build
record. A run in space gets three views unless --view picks one. With --charts
it draws over the travel instead what the outputs read, what ought to be equal
and opposite, rod angles, gaps and ratios, with what is required of them.
The name tells the format: OUT.pdf for paper, OUT.svg for a screen and other
programs. "-o -" writes SVG to standard output.

The sheet is laid out for one page whose smallest type is 7 pt: A4, of a run in
inches Letter. Where that is too small, a PDF takes a second page, and an SVG
goes to A3 or tabloid. --paper none is one sheet as long as it takes.

Of an aircraft each run is a sheet of its own, moved as on the aircraft, by the
control chosen where that moves it, else by the first that does: -o FOLDER gets
a picture a run, named after it, -o OUT.pdf all of them.

With --full-size it draws one view at neutral in full size instead, to lay parts
on, over as many pages as it takes, each with two rules: measure them before
anything is laid on the print. --only prints one part or rod alone, a rod lying
flat. As SVG the pages are files, OUT-1.svg, OUT-2.svg and so on, whose
coordinates are millimeters. Of an aircraft it prints one part or rod.

Examples:
  fullfree draw pedals.hcl -o pedals.pdf
  fullfree draw sticks.hcl -o side.svg --view xy
  fullfree draw pedals.hcl -o pedals-charts.svg --charts
  fullfree draw pedals.hcl -o full.pdf --full-size --paper letter
  fullfree draw pedals.hcl -o link.pdf --full-size --only left-link
  fullfree draw throttle.hcl -o - --set link.length=243 > throttle.svg
  fullfree draw aircraft/aircraft.hcl -o sheets
`,
		run: draw,
	}
}

func draw(c *command, std streams, args []string) int {
	flags := newFlags(c)
	output := flags.StringP("output", "o", "", "the `FILE` to write; \"-\" is standard output")
	view := flags.String("view", "", "one `VIEW`: xy, xz or yz (left out: all three of a run in space)")
	charts := flags.Bool("charts", false, "draw charts over the travel instead")
	sheet := paperFlag(flags)
	full := fullSizeFlags(flags, sheet)
	chosen := choiceFlags(flags)
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	switch {
	case *charts && flags.Changed("view"):
		return std.fail(c, "--view is for drawings: charts have no view; leave out --view or --charts")
	case flags.Changed("view") && !slices.Contains(views, *view):
		return std.fail(c, "--view %s: there is %s", linkage.Printable(*view), strings.Join(views, ", "))
	case *output == "":
		return std.fail(c, "tell where to draw: -o OUT.pdf, or OUT.svg")
	case flags.Changed("paper") && !slices.Contains(picture.Papers(), *sheet):
		return std.fail(c, "--paper %s: there is %s", linkage.Printable(*sheet), strings.Join(picture.Papers(), ", "))
	case full.fault(*output, *charts) != "":
		return std.fail(c, "%s", full.fault(*output, *charts))
	}
	in, status := openOne(c, std, rest, *set)
	if in == nil {
		return status
	}
	if in.Run.Aircraft != nil {
		asked := aircraftDrawing{in: in, output: *output, view: *view, charts: *charts, paper: *sheet, full: full, chosen: chosen}
		return asked.draw(c, std)
	}
	if !isPDF(*output) && pictureFault(*output) != "" {
		return std.fail(c, "-o %s", drawingFault(*output))
	}
	if lost := in.overwrites(*output); lost != "" {
		return std.fail(c, "-o %s", lost)
	}
	in.Mechanism.Progress = watched(std, c)
	result, err := in.Check()
	if err != nil {
		return std.problem(c, err)
	}
	swept, err := chosen.sweep(in, result)
	if err != nil {
		return std.problem(c, err)
	}
	if left := render.SweepLeftOut(swept); left != "" {
		std.message("fullfree %s: %s\n", c.name, left)
	}
	if *full.on {
		return full.draw(c, std, in, drawnRun{result: result, swept: swept, hash: in.Hash()}, *view, *output)
	}
	if err := in.Mechanism.AddBands(result, in.AllSurveys()...); err != nil {
		return std.problem(c, err)
	}
	drawn := picture.Diagram
	switch {
	case *charts && isPDF(*output):
		drawn = picture.ChartsPDF
	case *charts:
		drawn = picture.Charts
	case isPDF(*output):
		drawn = picture.DiagramPDF
	}
	var out bytes.Buffer
	err = drawn(&out, result, swept, picture.DiagramOptions{
		View:    *view,
		Paper:   sheetPaper(*sheet),
		Hash:    in.Hash(),
		Version: version,
		Set:     in.Changes(),
	})
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.write(c, *output, out.Bytes())
}

// pdfEnding is how the names of files for paper end.
const pdfEnding = ".pdf"

// isPDF reports whether a name asks for a PDF.
func isPDF(name string) bool { return strings.EqualFold(filepath.Ext(name), pdfEnding) }

// paperFlag is the paper that is drawn for.
func paperFlag(flags *pflag.FlagSet) *string {
	return flags.String("paper", "", "the `PAPER`: a4, letter, a3 or tabloid, or none: one sheet as long\nas it takes (left out: a4, of a run in inches letter)")
}

// sheetPaper is a paper that was asked for as package picture takes it for a sheet.
func sheetPaper(asked string) string {
	switch asked {
	case "":
		return picture.PaperUsual
	case picture.PaperNone:
		return ""
	}
	return asked
}

// drawingFault tells what is wrong with the name of a drawing, which may be a PDF too.
func drawingFault(name string) string {
	ending := filepath.Ext(name)
	base := strings.TrimSuffix(name, ending)
	return fmt.Sprintf("%s: the drawing is PDF or SVG: name it %s or %s", linkage.Printable(name), linkage.Printable(base+pdfEnding), linkage.Printable(base+".svg"))
}

// pictureFault tells what is wrong with the name of a picture to write; empty
// where nothing is.
func pictureFault(name string) string {
	ending := filepath.Ext(name)
	if !slices.Contains(otherPictures, strings.ToLower(ending)) {
		return ""
	}
	return fmt.Sprintf("%s: the drawing is SVG: name it %s", linkage.Printable(name), linkage.Printable(strings.TrimSuffix(name, ending)+".svg"))
}

// overwrites tells what would be lost if something were written to a path: the
// file of the run itself, or another run; empty where nothing would.
func (in *input) overwrites(path string) string {
	switch name := linkage.Printable(path); {
	case path == "-":
		return ""
	case in.isFile(path):
		return name + " is the file of the run itself, and would be lost"
	case leadsToRun(path):
		return name + " is the name of a run, which would be lost"
	}
	return ""
}

// leadsToRun reports whether a path, or what it is a link to, ends as the names of
// runs do, in letters of any case.
func leadsToRun(path string) bool {
	names := []string{path}
	if file, err := followLinks(path); err == nil {
		names = append(names, file)
	}
	return slices.ContainsFunc(names, func(name string) bool { return strings.EqualFold(filepath.Ext(name), fileEnding) })
}

// isFile says whether a path leads to the file that the run was read from.
func (in *input) isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && in.info != nil && info.Mode().IsRegular() && os.SameFile(info, in.info)
}
