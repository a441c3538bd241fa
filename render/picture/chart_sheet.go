package picture

import (
	"fmt"
	"io"
	"math"
	"strings"

	"fullfree/render"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// Charts writes the charts of one sweep of a run, one below the other on one
// sheet, as an SVG picture: what the outputs read, what ought to be equal or left
// alone, rod angles, gaps and ratios over the travel, with what is asked of
// them. Lines, symbols and words alone carry the meaning, no color does. The view
// of the options plays no part.
//
// The picture is written in one piece, or not at all with an error. The same
// results give the same bytes.
func Charts(w io.Writer, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) error {
	if err := result.Whole(); err != nil {
		return err
	}
	if err := sweep.Whole(); err != nil {
		return err
	}
	if err := paperFault(opts.Paper); err != nil {
		return err
	}
	s, err := chartSheetOf(result, sweep, opts)
	if err != nil {
		return err
	}
	if opts.Paper == "" {
		s.layOut()
		return s.scene.WriteSVG(w, "charts-"+s.id(), "Charts: "+s.run.Name, s.story())
	}
	l, err := onPapers(opts.Paper, s.run.Units, true, s.onLeaf)
	if err != nil {
		return err
	}
	if opts.Paper == PaperUsual && len(l.pages) > 1 {
		opts.Paper = "" // no one page holds them: as long as it takes
		return Charts(w, result, sweep, opts)
	}
	return l.writeSVG(w, "charts-"+s.id(), "Charts: "+s.run.Name, s.story())
}

// ChartsPDF writes them as a PDF, on as many pages as it takes.
func ChartsPDF(w io.Writer, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) error {
	return oneSheetPDF(w, "Charts: ", Sheet{result, sweep, opts}, true)
}

// onLeaf lays the charts out on pages, as many side by side as it is wide.
func (s *chartSheet) onLeaf(l leaf) (*laid, error) {
	f := &flow{leaf: l, head: s.pageHead}
	f.put(s.block(l.room.X, func(d *diagram, y float64) float64 {
		return d.judgedHeading(y, "Charts of the travel: "+d.moving())
	}))
	count, wide := l.columns()
	var row []*paper.Scene
	tall := 0.0
	put := func() {
		if len(row) > 0 {
			if tall > f.left() && f.down > f.top {
				f.turn()
			}
			f.down = f.putSideBySide(row, wide)
		}
		row, tall = nil, 0
	}
	for i := range s.charts {
		p := s.charts[i].plotWide(wide+2*sheetMargin, false)
		p.scene.Height -= sheetMargin
		row, tall = append(row, &p.scene), math.Max(tall, p.scene.Height)
		if len(row) == count {
			put()
		}
	}
	put()
	f.put(s.block(l.room.X, func(d *diagram, y float64) float64 {
		return (&chartSheet{diagram: d}).onCenter(y)
	}))
	f.putAtFoot(s.block(l.room.X, func(d *diagram, y float64) float64 {
		return (&chartSheet{diagram: d, course: s.course}).signed(y)
	}))
	return &laid{l, f.pages}, nil
}

// chartSheet is a sheet of charts. Of its diagram only the words are used.
type chartSheet struct {
	*diagram
	course *solve.Course
	charts []chart
}

func newChartSheet(result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) (*chartSheet, error) {
	s, err := chartSheetOf(result, sweep, opts)
	if err != nil {
		return nil, err
	}
	s.layOut()
	return s, nil
}

// chartSheetOf is a sheet on which nothing is laid out yet.
func chartSheetOf(result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) (*chartSheet, error) {
	opts.View = ""
	d, err := emptyDiagram(result, sweep, opts)
	if err != nil {
		return nil, err
	}
	s := &chartSheet{diagram: d, course: sweep.Course(coursePlaces(result, sweep)...)}
	s.charts = chartsOf(result, sweep, s.course)
	return s, nil
}

// layOut draws the whole sheet, from top to bottom.
func (s *chartSheet) layOut() {
	s.scene.Width = sheetWidth
	y := s.judgedHeading(sheetMargin, "Charts of the travel: "+s.moving())
	for i := range s.charts {
		y = s.rule(y+sectionGap/2, paper.PenFrame) - sheetMargin/2
		p := s.charts[i].plot(false)
		s.scene.Take(&p.scene, paper.At(0, y))
		y += p.scene.Height - sheetMargin
	}
	y = s.onCenter(y)
	s.scene.Height = s.signed(y) + sheetMargin
}

// signed draws the title block.
func (s *chartSheet) signed(y float64) float64 {
	return s.titleBlockOf(y, "Curves through", func(at paper.Place) {
		s.scene.Text(paper.Text{Says: fmt.Sprintf("%d positions solved", len(s.course.Samples)),
			At: paper.At(at.X, at.Y+smallSize+headSize*lineHeight), Size: headSize})
	})
}

// onCenter tells what the flags stand for, all of the sweep's and not only those
// that are near enough to be flagged here.
func (s *chartSheet) onCenter(y float64) float64 {
	flags := flagsOf(s.sweep)
	if len(flags) == 0 {
		return s.onCenterTable(y)
	}
	y = s.section(y, "On center")
	for _, f := range flags {
		y = s.lettered(y, f.mark, onCenterSays(s.sweep, f.Critical))
	}
	return y
}

// story tells every chart in words.
func (s *chartSheet) story() string {
	said := []string{render.Headline(s.result), fmt.Sprintf("%s: %s.", s.run.Name, s.moving())}
	for _, words := range []string{render.Unsure(s.result), s.settings(), s.opts.Aircraft} {
		if words != "" {
			said = append(said, words)
		}
	}
	for _, c := range s.charts {
		said = append(said, c.says)
	}
	return strings.Join(append(said, s.rests()), " ")
}
