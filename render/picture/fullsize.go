package picture

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// FullSizeOptions is what a print in full size is told besides the results.
type FullSizeOptions struct {
	View    string // "xy", "xz" or "yz"; empty: xy
	Paper   string // one of Papers
	Hash    string // SHA-256 of the file, hexadecimal; printed shortened
	Version string // of the program
	// Set are the dimensions that were changed after reading.
	Set []string
	// Only is the part or rod that is printed alone, by its name; empty: all.
	Only string
}

// The papers of a print in full size.
const (
	PaperA4      = "a4"
	PaperLetter  = "letter"
	PaperA3      = "a3"
	PaperTabloid = "tabloid"
	// PaperUsual is that of the run's unit; for a sheet that has to be one page the larger
	// one where it takes that.
	PaperUsual = "usual"
	PaperNone  = "none" // one sheet as large as it takes
)

// Papers lists them.
func Papers() []string { return []string{PaperA4, PaperLetter, PaperA3, PaperTabloid, PaperNone} }

// PaperOf is the paper that is usual where a run's unit is.
func PaperOf(u linkage.Unit) string {
	if u == linkage.Inches {
		return PaperLetter
	}
	return PaperA4
}

// perMillimeter is how many sheet units a millimeter is on a print in full
// size: the lines and letters of the other pictures come out as on a drawing,
// and coordinates stay exact, since it is a power of two.
const perMillimeter = 4.0

// millimeters of a unit of the run, exactly.
func millimetersOf(u linkage.Unit) float64 {
	if u == linkage.Inches {
		return 25.4
	}
	return 1
}

// FullSize draws the run at neutral in full size, to lay parts on, and returns
// the pages as SVG pictures: several where the paper is too small. Their
// coordinates are millimeters of the drawing, x to the right and y down, and
// the same on every page.
//
// The same results give the same bytes. An error says what to do instead.
func FullSize(result *solve.Result, sweep *solve.Sweep, opts FullSizeOptions) ([][]byte, error) {
	if err := result.Whole(); err != nil {
		return nil, err
	}
	if err := sweep.Whole(); err != nil {
		return nil, err
	}
	f, err := newFullSize(result, sweep, opts)
	if err != nil {
		return nil, err
	}
	var pages [][]byte
	for i := range f.tiles {
		var out bytes.Buffer
		if err := f.write(&out, i); err != nil {
			return nil, err
		}
		pages = append(pages, out.Bytes())
	}
	return pages, nil
}

// FullSizePDF is FullSize as one PDF, a page of it a page of the print.
func FullSizePDF(w io.Writer, result *solve.Result, sweep *solve.Sweep, opts FullSizeOptions) error {
	if err := errors.Join(result.Whole(), sweep.Whole()); err != nil {
		return err
	}
	f, err := newFullSize(result, sweep, opts)
	if err != nil {
		return err
	}
	p := paper.NewPDF("Full size: " + f.run.Name)
	for i := range f.tiles {
		f.putOn(p, i)
	}
	return p.Finish(w)
}

// newFullSize draws the run and lays the pages over it.
func newFullSize(result *solve.Result, sweep *solve.Sweep, opts FullSizeOptions) (*fullSize, error) {
	flat := opts.View == ""
	if flat {
		opts.View = "xy"
	}
	if !slices.Contains(Papers(), opts.Paper) {
		return nil, fmt.Errorf("there is no paper %q: %s", figure.Clean(opts.Paper), strings.Join(Papers(), ", "))
	}
	d, err := emptyDiagram(result, sweep, DiagramOptions{View: opts.View, Hash: opts.Hash, Version: opts.Version, Set: opts.Set})
	if err != nil {
		return nil, err
	}
	f := &fullSize{diagram: d, v: d.views[0], paper: opts.Paper, only: opts.Only}
	if opts.Only != "" {
		if err := f.alone(); err != nil {
			return nil, err
		}
		if flat && len(f.run.Rods) > 0 {
			f.layFlat(f.run.Rods[0])
		}
	}
	f.v.scale = f.scale()
	low, high := f.v.extent(f.reach())
	size := high.Sub(low).Scale(1 / perMillimeter)
	if err := f.fits(size); err != nil {
		return nil, err
	}
	dr := f.drawRun()
	if err := f.tile(); err != nil {
		return nil, err
	}
	f.label(dr)
	if f.tiles = f.printed(f.tiling); len(f.tiles) > mostPages {
		return nil, f.tooMany(size, fmt.Sprint(len(f.tiles)))
	}
	return f, nil
}

// fullSize is a print in full size being made.
type fullSize struct {
	*diagram
	v      *view
	paper  string
	only   string      // what is printed alone; empty: all
	ink    paper.Scene // the run, in quarter millimeters from the drawing's zero
	tiling tiling
	tiles  []tile // the pages that are printed
}

// alone leaves of the drawing one part or rod, at neutral.
func (f *fullSize) alone() error {
	one := *f.run
	one.Parts, one.Rods, one.Cables = nil, nil, nil
	for _, part := range f.run.Parts {
		if part.Name == f.only {
			one.Parts = []*linkage.Part{part}
		}
	}
	for _, rod := range f.run.Rods {
		if rod.Name == f.only {
			one.Rods = []*linkage.Rod{rod}
		}
	}
	if one.Parts == nil && one.Rods == nil {
		return fmt.Errorf("there is no part or rod %q", figure.Clean(f.only))
	}
	f.run = &one
	f.shownPoses = []shownPose{f.pose(-1)}
	return nil
}

// rodView is the name of the view of a rod that lies on the sheet, true to length.
const rodView = "rod"

// layFlat looks at a rod so that it lies on the sheet, however it stands in the run,
// with its first hole at zero.
func (f *fullSize) layFlat(rod *linkage.Rod) {
	pose := f.pose(-1).pose
	from := pose.Point(rod.From)
	right := pose.Point(rod.To).Sub(from)
	long := right.Norm()
	if long == 0 {
		return
	}
	right = right.Scale(1 / long)
	best := linkage.Vec{}
	for _, side := range []linkage.Vec{{Y: 1}, {X: 1}, {Z: 1}} { // up as drawn where it isn't along it
		if up := side.Sub(right.Scale(side.Dot(right))); up.Norm() > 1.1*best.Norm() {
			best = up
		}
	}
	for i := range rod.Points { // a bracket of its own shows its true reach
		out := pose.Point(linkage.PointRef{Rod: rod, Point: i}).Sub(from)
		if out = out.Sub(right.Scale(out.Dot(right))); out.Norm() > 0 {
			best = out
			break
		}
	}
	up := best.Scale(1 / best.Norm())
	f.v.name, f.v.words = rodView, "Lying flat, true to length"
	f.v.right, f.v.up, f.v.toward = right, up, right.Cross(up)
	f.v.zero = paper.At(float64(-from.Dot(right)*f.scale()), float64(from.Dot(up)*f.scale()))
}

// scale is how many sheet units a unit of the run is.
func (f *fullSize) scale() float64 { return float64(perMillimeter * millimetersOf(f.run.Units)) }

const (
	// mostPages is how many pages are printed: more can't be joined with any
	// accuracy.
	mostPages = 100
	// longestSheet is the most that one sheet may measure, mm: no plotter's roll
	// is laid out longer.
	longestSheet = 10_000
)

// fits refuses a run that no paper is large enough for, before it is drawn.
func (f *fullSize) fits(size paper.Place) error {
	switch {
	case f.paper == PaperNone && math.Max(size.X, size.Y) > longestSheet:
		return fmt.Errorf("in full size the drawing is %s, and a sheet may be %s: draw it without --full-size", sizeWords(size), metersWords(longestSheet))
	case f.paper != PaperNone && math.Max(size.X, size.Y) > mostPages*longestPaper:
		return f.tooMany(size, "more than "+fmt.Sprint(mostPages))
	}
	return nil
}

// longestPaper is the longest of the papers that pages are tiled over, mm.
const longestPaper = 17 * 25.4

// tooMany refuses more pages than can be joined, and says what to do.
func (f *fullSize) tooMany(size paper.Place, pages string) error {
	instead := "--paper none gives one sheet for a plotter"
	if larger := LargerPaper(f.paper); larger != "" {
		instead = "take larger paper (--paper " + larger + "), or " + instead
	}
	if math.Max(size.X, size.Y) > longestSheet {
		instead = "draw it without --full-size"
	}
	return fmt.Errorf("in full size the drawing is %s: %s pages of %s, and %d are the most that can be joined; %s", sizeWords(size), pages, f.paper, mostPages, instead)
}

// sizeWords tells the size of a drawing in meters.
func sizeWords(mm paper.Place) string { return metersWords(mm.X) + " by " + metersWords(mm.Y) }

func metersWords(mm float64) string {
	const meter = 1000
	return figure.UpTo(mm/meter, 2) + " m"
}
