package picture

import (
	"errors"
	"io"

	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// Sheet is one run to be drawn among several.
type Sheet struct {
	Result *solve.Result
	Sweep  *solve.Sweep
	DiagramOptions
}

// SheetsPDF writes the sweep diagrams of several runs, or with charts their charts, as one
// PDF: the sheets one after another, each beginning a page.
func SheetsPDF(w io.Writer, title string, sheets []Sheet, charts bool) error {
	p := paper.NewPDF(title)
	put := putDiagram
	if charts {
		put = putCharts
	}
	for _, s := range sheets {
		if err := errors.Join(s.Result.Whole(), s.Sweep.Whole(), paperFault(s.Paper)); err != nil {
			return err
		}
		if err := put(p, s); err != nil {
			return err
		}
	}
	return p.Finish(w)
}

// oneSheetPDF is that of one run, named after it.
func oneSheetPDF(w io.Writer, title string, s Sheet, charts bool) error {
	if err := s.Result.Whole(); err != nil {
		return err
	}
	return SheetsPDF(w, title+s.Result.Run.Name, []Sheet{s}, charts)
}

// putDiagram puts a sweep diagram on pages of its own.
func putDiagram(p *paper.PDF, s Sheet) error {
	if s.Paper == "" {
		d, err := newDiagram(s.Result, s.Sweep, s.DiagramOptions)
		if err == nil {
			putLong(p, &d.scene)
		}
		return err
	}
	_, l, err := diagramOnPaper(s.Result, s.Sweep, s.DiagramOptions, false)
	if err == nil {
		l.putOn(p)
	}
	return err
}

// putCharts puts charts on pages of their own.
func putCharts(p *paper.PDF, s Sheet) error {
	c, err := chartSheetOf(s.Result, s.Sweep, s.DiagramOptions)
	if err != nil {
		return err
	}
	if s.Paper == "" {
		c.layOut()
		putLong(p, &c.scene)
		return nil
	}
	l, err := onPapers(s.Paper, c.run.Units, false, c.onLeaf)
	if err == nil {
		l.putOn(p)
	}
	return err
}
