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
)

// views are what --view may be.
var views = []string{"xy", "xz", "yz"}

// otherPictures are the endings of pictures and drawings of other kinds, which
// what is drawn must not be named for.
var otherPictures = []string{".png", ".jpg", ".jpeg", ".gif", ".bmp", ".tif", ".tiff", ".webp", ".pdf", ".ps", ".eps", ".dxf", ".dwg"}

func drawCommand() *command {
	return &command{
		name:  "draw",
		usage: "FILE -o OUT.svg [--view xy|xz|yz | --charts]\n      [--full-size [--paper a4|letter|a3|none]] [--control NAME]\n      [--held NAME=AT] [--set DIMENSION=VALUE]",
		does:  "a picture of the travel, as a shop drawing",
		more: `
Draws the run at neutral, at both ends of the travel and between, with stops,
on-center points, rod lengths and the verdict, on one sheet for the build
record. A run in space gets three views unless --view picks one. With --charts
it draws over the travel instead what the outputs read, what ought to be equal
and opposite, rod angles, gaps and ratios, with what is required of them.
"-o -" writes to standard output.

With --full-size it draws one view at neutral in full size instead, to lay parts
on: coordinates in the SVG are millimeters. Pages are OUT-1.svg, OUT-2.svg and
so on, each with two rules: measure them before anything is laid on the print.

Examples:
  fullfree draw pedals.hcl -o pedals.svg
  fullfree draw sticks.hcl -o side.svg --view xy
  fullfree draw pedals.hcl -o pedals-charts.svg --charts
  fullfree draw pedals.hcl -o pedals-full.svg --full-size --paper letter
  fullfree draw throttle.hcl -o - --set link.length=243 > throttle.svg
`,
		run: draw,
	}
}

func draw(c *command, std streams, args []string) int {
	flags := newFlags(c)
	output := flags.StringP("output", "o", "", "the `FILE` to write; \"-\" is standard output")
	view := flags.String("view", "", "one `VIEW`: xy, xz or yz (left out: all three of a run in space)")
	charts := flags.Bool("charts", false, "draw charts over the travel instead")
	full := fullSizeFlags(flags)
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
		return std.fail(c, "tell where to draw: -o OUT.svg")
	case full.fault(*output, *charts) != "":
		return std.fail(c, "%s", full.fault(*output, *charts))
	case pictureFault(*output) != "":
		return std.fail(c, "-o %s", pictureFault(*output))
	}
	in, status := openOne(c, std, rest, *set)
	if in == nil {
		return status
	}
	if lost := in.overwrites(*output); lost != "" {
		return std.fail(c, "-o %s", lost)
	}
	in.mechanism.Progress = watched(std, c)
	result, err := in.check()
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
		return full.draw(c, std, in, result, swept, *view, *output)
	}
	if err := in.mechanism.AddBands(result, in.survey); err != nil {
		return std.problem(c, err)
	}
	drawn := picture.Diagram
	if *charts {
		drawn = picture.Charts
	}
	var out bytes.Buffer
	err = drawn(&out, result, swept, picture.DiagramOptions{
		View:    *view,
		Hash:    in.hash(),
		Version: version,
		Set:     in.changes(),
	})
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return std.write(c, *output, out.Bytes())
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
