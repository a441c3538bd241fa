// Package picture draws a run: the sweep diagram, charts over the travel, settings
// laid over one another, the picture that a page moves with what moves it, the print
// in full size, and the page and file for taping. It draws on package paper and takes
// its words from package render. It knows no page, and solves and judges nothing.
package picture

import (
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// DiagramOptions is what a sweep diagram is told besides the results.
type DiagramOptions struct {
	// View is "xy", "xz" or "yz"; empty: xy for a plane run, all three on one
	// sheet for a run in space.
	View string
	// Paper is the one that the sheet is laid out for, one of Papers but PaperNone, or
	// PaperUsual. Empty: one sheet as long as it takes, narrow enough for a phone.
	Paper   string
	Hash    string // SHA-256 of the file, hexadecimal; printed shortened
	Version string // of the program
	// Set are the dimensions that were changed after reading, as the user gave
	// them ("link.length = 243"): the sheet says that it isn't the file's own.
	Set []string
	// Aircraft tells of a run of an aircraft what it is of, which files that is made from,
	// and how it comes out as a whole; empty of a run by itself.
	Aircraft string
}

// The sheet, in its own units. It is narrow and its type large, so that it
// reads on a phone held upright (360 pixels wide, where a unit is 0.64 of a
// pixel) as well as printed on one page.
const (
	sheetWidth  = 560.0
	sheetMargin = 14.0
	sheetInner  = sheetWidth - 2*sheetMargin

	titleSize  = 19.0
	headSize   = 14.0
	tableSize  = 13.0
	labelSize  = 13.0
	letterSize = 16.0
	smallSize  = 12.0
	lineHeight = 1.3 // of the size of type
)

// Diagram writes the sweep diagram of one sweep of a run as an SVG picture:
// the run at neutral and at the ends of its travel, what ends it, where it is
// on center, and the tables that go with it. Lines and letters alone carry
// the meaning, no color does.
//
// The picture is written in one piece, or not at all with an error. The same
// results give the same bytes.
func Diagram(w io.Writer, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) error {
	if err := result.Whole(); err != nil {
		return err
	}
	if err := sweep.Whole(); err != nil {
		return err
	}
	if err := paperFault(opts.Paper); err != nil {
		return err
	}
	if opts.Paper == "" {
		d, err := newDiagram(result, sweep, opts)
		if err != nil {
			return err
		}
		return d.scene.WriteSVG(w, d.id(), "Sweep diagram: "+d.run.Name, d.story())
	}
	d, l, err := diagramOnPaper(result, sweep, opts, true)
	if err != nil {
		return err
	}
	if opts.Paper == PaperUsual && len(l.pages) > 1 {
		opts.Paper = "" // no one page holds it: as long as it takes
		return Diagram(w, result, sweep, opts)
	}
	return l.writeSVG(w, d.id(), "Sweep diagram: "+d.run.Name, d.story())
}

// DiagramPDF writes it as a PDF, on as many pages as it takes.
func DiagramPDF(w io.Writer, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) error {
	return oneSheetPDF(w, "Sweep diagram: ", Sheet{result, sweep, opts}, false)
}

// newDiagram lays out the sheet.
func newDiagram(result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) (*diagram, error) {
	d, err := emptyDiagram(result, sweep, opts)
	if err != nil {
		return nil, err
	}
	d.flags = flagsOf(sweep)
	d.edgeOn()
	d.layOut()
	return d, nil
}

// emptyDiagram is a sheet with nothing on it yet.
func emptyDiagram(result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) (*diagram, error) {
	if result == nil || result.Run == nil || sweep == nil {
		return nil, errors.New("there is no sweep to draw")
	}
	d := &diagram{result: result, run: result.Run, sweep: sweep, opts: opts, verdict: render.Headline(result)}
	var err error
	if d.views, err = viewsOf(d.run, opts.View); err != nil {
		return nil, err
	}
	if d.shownPoses, err = shownPosesOf(result, sweep); err != nil {
		return nil, err
	}
	return d, nil
}

// diagram is a sheet being drawn.
type diagram struct {
	result     *solve.Result
	run        *linkage.Run
	sweep      *solve.Sweep
	opts       DiagramOptions
	verdict    string // in the title block
	views      []*view
	shownPoses []shownPose
	flags      []onCenter
	scene      paper.Scene

	rodViews []*view // by rod; see viewOfRod
}

// inner is how wide the sheet is between its margins.
func (d *diagram) inner() float64 { return d.scene.Width - 2*sheetMargin }

// layOut draws the whole sheet, from top to bottom.
func (d *diagram) layOut() {
	d.scene.Width = sheetWidth
	y := d.heading(sheetMargin)
	rows := d.rows(viewTallest, viewsTallest)
	d.findDetails()
	for _, row := range rows {
		y = d.drawRow(y+viewGap, row, d.drawView)
		for _, details := range detailRows(row) {
			y = d.drawRow(y+viewGap, details, d.drawView)
		}
	}
	y = d.positionsTable(y)
	y = d.requiredTable(y)
	y = d.onCenterTable(y)
	y = d.partsList(y)
	y = d.titleBlock(y)
	d.scene.Height = y + sheetMargin
}

// id tells this picture's ids apart from those of other pictures on a page.
func (d *diagram) id() string {
	names := []string{"sweep"}
	for _, v := range d.views {
		names = append(names, v.name)
	}
	names = append(names, fmt.Sprint(d.sweep.Control.Index), fmt.Sprint(d.sweep.Index))
	if hash := d.hash(); hash != "" {
		names = append(names, hash)
	}
	if len(d.opts.Set) > 0 {
		names = append(names, fmt.Sprintf("%08x", crc32.ChecksumIEEE([]byte(d.settings()))))
	}
	return strings.Join(names, "-")
}

// hash returns the start of the file's hash, enough to tell builds apart;
// nothing that isn't hexadecimal.
func (d *diagram) hash() string { return figure.HashBegins(d.opts.Hash) }

// settings tells what was changed in the file; empty where nothing was.
func (d *diagram) settings() string {
	if len(d.opts.Set) == 0 {
		return ""
	}
	return "As filed, but with " + figure.List(d.opts.Set) + "."
}

// partNumber and rodNumber are the numbers in balloons and in the parts list.
func (d *diagram) partNumber(p *linkage.Part) int { return p.Index + 1 }
func (d *diagram) rodNumber(r *linkage.Rod) int   { return len(d.run.Parts) + r.Index + 1 }

// nearly is how far, in sheet units, what moves must get to be worth drawing
// twice.
const nearly = 1.0
