package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render/picture"

	"github.com/spf13/pflag"
)

// fullSize is what draw is told of a print in full size.
type fullSize struct {
	flags *pflag.FlagSet
	on    *bool
	only  *string
	paper *string
}

func fullSizeFlags(flags *pflag.FlagSet, paper *string) fullSize {
	return fullSize{
		flags,
		flags.Bool("full-size", false, "draw one view in full size instead, to lay parts on"),
		flags.String("only", "", "with --full-size, the `PART` or rod to print alone"),
		paper,
	}
}

// fault tells what is wrong with the flags; empty where nothing is.
func (f fullSize) fault(output string, charts bool) string {
	switch {
	case !*f.on && f.flags.Changed("only"):
		return "--only is for --full-size: the other pictures show the whole run"
	case !*f.on:
		return ""
	case charts:
		return "--full-size is for parts: charts have no size; leave out --full-size or --charts"
	case isPDF(output):
		return ""
	case output == "-" && *f.paper != picture.PaperNone:
		return "-o -: standard output takes one picture, and pages are one each: give a name (-o OUT.svg), or --paper none"
	case *f.paper != picture.PaperNone && !namesPages(output):
		return fmt.Sprintf("-o %s: pages are files of their own, OUT-1.svg and so on: give a name (-o OUT.svg)", linkage.Printable(output))
	}
	return ""
}

// namesPages reports whether pages can be named for an output: it has a name of
// its own, and isn't a folder, a terminal or the like.
func namesPages(output string) bool {
	_, base := filepath.Split(output)
	if name := strings.TrimSuffix(base, filepath.Ext(base)); name == "" || name == "." {
		return false
	}
	info, err := os.Stat(output)
	return err != nil || info.Mode().IsRegular()
}

// draw makes the print and writes its pages: all of them, or none.
func (f fullSize) draw(c *command, std streams, in *input, of drawnRun, view, output string) int {
	run := of.result.Run
	paper := *f.paper
	if paper == "" {
		paper = picture.PaperOf(run.Units)
	}
	only, err := onlyNamed(run, *f.only)
	if err != nil {
		return std.fail(c, "--only: %s", err)
	}
	opts := picture.FullSizeOptions{
		View:    view,
		Paper:   paper,
		Hash:    of.hash,
		Version: version,
		Set:     in.Changes(),
		Only:    only,
	}
	var file bytes.Buffer
	var pages [][]byte
	if isPDF(output) {
		err = picture.FullSizePDF(&file, of.result, of.swept, opts)
	} else {
		pages, err = picture.FullSize(of.result, of.swept, opts)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	rod := slices.ContainsFunc(run.Rods, func(r *linkage.Rod) bool { return r.Name == only })
	if view == "" && !run.Plane && !rod { // a rod alone lies flat
		std.message("A run in space is drawn in full size one view at a time: this is xy; --view picks another.\n")
	}
	if isPDF(output) {
		return std.write(c, output, file.Bytes())
	}
	if paper == picture.PaperNone {
		return std.write(c, output, pages[0])
	}
	names := pageNames(output, len(pages))
	for _, name := range names {
		if lost := in.overwrites(name); lost != "" {
			return std.fail(c, "-o %s: %s", linkage.Printable(output), lost)
		}
	}
	if name, err := writeTogether(names, pages); err != nil {
		return std.fail(c, "%s; nothing is written", cantWrite(name, err))
	}
	std.message("Written: %s.\n", printableList(names))
	if stale := stalePages(output, len(pages)); len(stale) > 0 {
		std.message("Not of this print, left over from a longer one: %s.\n", printableList(stale))
	}
	return exitOK
}

// onlyNamed finds the part or rod that is to be printed alone; empty: all.
func onlyNamed(run *linkage.Run, name string) (string, error) {
	var names []string
	for _, part := range run.Parts {
		names = append(names, part.Name)
	}
	for _, rod := range run.Rods {
		names = append(names, rod.Name)
	}
	if name == "" || slices.Contains(names, name) {
		return name, nil
	}
	return "", fmt.Errorf("there is no part or rod %q%s", linkage.Printable(name), calls.DidYouMean(name, names))
}

// pageNames returns the names of pages: OUT-1.svg, OUT-2.svg and so on.
func pageNames(output string, count int) []string {
	ending := filepath.Ext(output)
	var names []string
	for i := range count {
		names = append(names, fmt.Sprintf("%s-%d%s", strings.TrimSuffix(output, ending), i+1, ending))
	}
	return names
}

// stalePages returns what lies about under the names of further pages.
func stalePages(output string, count int) []string {
	folder, base := filepath.Split(output)
	ending := filepath.Ext(base)
	entries, err := os.ReadDir(filepath.Clean(folder))
	if err != nil {
		return nil
	}
	var numbers []int
	for _, e := range entries {
		name, ok := strings.CutPrefix(e.Name(), strings.TrimSuffix(base, ending)+"-")
		name, also := strings.CutSuffix(name, ending)
		if n, err := strconv.Atoi(name); ok && also && err == nil && n > count && strconv.Itoa(n) == name {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	var stale []string
	for _, n := range numbers {
		stale = append(stale, fmt.Sprintf("%s-%d%s", strings.TrimSuffix(output, ending), n, ending))
	}
	return stale
}

// printableList joins names of files for a person.
func printableList(names []string) string {
	return linkage.Printable(strings.Join(names, ", "))
}
