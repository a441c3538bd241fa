package picture

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// chart is one quantity, or several of a kind, over the travel of a sweep.
type chart struct {
	// id is of letters and digits, and begins every other id in the picture.
	// Whoever puts charts of several sweeps on one page keeps them apart by it.
	id    string
	title string
	says  string // all of it in words, for those who don't see it

	sweep   *solve.Sweep
	course  *solve.Course
	flags   []onCenter
	unit    linkage.Unit
	axis    string // words over the axis of values
	lines   []chartLine
	limits  []chartLimit
	note    string
	single  func(name string) string // its title where it has one line of that name
	runaway bool                     // values may run away, as a ratio does beside a toggle
}

// chartLine is one curve.
type chartLine struct {
	name   string // at its end
	series int    // in Sweep.Series and in the values of a position
	marks  []chartMark
}

// chartMark is a place on a curve that its value is written beside.
type chartMark struct {
	position int // in the course
	says     string
}

// chartLimit is what is asked for: a level, or a band about it.
type chartLimit struct {
	says   string // empty: its fellow says it
	at     float64
	within float64 // of the band; 0: a level alone
	side   int     // on which side of the level it falls short: -1 below, 1 above, 0 neither
}

// The most that is charted of one kind: more can't be read.
const (
	chartLinesMost = 6 // in one chart, as many as there are pens
	chartsMost     = 4 // charts of several lines, or of one output each
)

// svg draws the chart as a picture of its own; see ChartPictures.
func (c *chart) svg() ([]byte, error) {
	p := c.plot(true)
	full := func(v float64) string { return fmt.Sprint(v) }
	w := paper.NewSVG(p.scene.Width, p.scene.Height, c.id, c.title, c.says,
		paper.Attr("class", "chart"), paper.Attr("id", c.id),
		paper.Attr("data-low", full(p.low)), paper.Attr("data-high", full(p.high)),
		paper.Attr("data-left", figure.Decimal(p.area.Low.X, paper.Decimals)), paper.Attr("data-right", figure.Decimal(p.area.High.X, paper.Decimals)))
	p.scene.PutOn(w, c.id)
	x := p.across(0)
	w.Line(paper.At(x, p.area.Low.Y), paper.At(x, p.area.High.Y), paper.Attr("class", "cursor"), paper.Attr("id", c.id+"-cursor"),
		paper.Attr("stroke", "#000"), paper.Attr("stroke-width", "1.6"), paper.Attr("visibility", "hidden"))
	var out bytes.Buffer
	err := w.Finish(&out)
	return out.Bytes(), err
}

// ChartPictures returns every chart of a sweep as a picture of its own, for a page:
// their ids begin with id, of letters and digits, which keeps those of several
// sweeps apart. The course is that of the sweep. Its root tells which positions of
// the control lie at the left and right edge of the plot, and where those edges
// are; a page moves the line of class "cursor" between them and shows it. An error
// means that a figure was no number.
func ChartPictures(result *solve.Result, sweep *solve.Sweep, course *solve.Course, id string) ([][]byte, error) {
	var pictures [][]byte
	for i, c := range chartsOf(result, sweep, course) {
		c.id = fmt.Sprintf("%s-chart%d", id, i+1)
		drawn, err := c.svg()
		if err != nil {
			return nil, err
		}
		pictures = append(pictures, drawn)
	}
	return pictures, nil
}

// value is that of a line at a position; nil where there is none.
func (c *chart) value(l *chartLine, position int) *float64 {
	return c.course.Samples[position].Values[l.series]
}

// story tells a chart in words: every line at the ends, at neutral and where it
// is marked, what is asked for, and what ends the travel.
func (c *chart) story() string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+" ", args...) }
	s := c.sweep
	say("%s, %s, over the travel of %s, %s to %s.", c.title, c.axis, s.Control.Name, figure.Quantity(s.Low, s.Unit), figure.Quantity(s.High, s.Unit))
	for i := range c.lines {
		l := &c.lines[i]
		var said []string
		for _, at := range []struct {
			x    float64
			says string
		}{{s.Low, "low end"}, {0, "neutral"}, {s.High, "high end"}} {
			if k := c.positionAt(at.x); k >= 0 {
				shown := "none"
				if v := c.value(l, k); v != nil {
					shown = figure.Quantity(*v, c.unit)
				}
				said = append(said, at.says+" "+shown)
			}
		}
		for _, m := range l.marks {
			said = append(said, fmt.Sprintf("%s at %s", m.says, figure.Quantity(c.course.Samples[m.position].At, s.Unit)))
		}
		say("%s: %s.", l.name, strings.Join(said, ", "))
	}
	for _, l := range c.limits {
		if l.says != "" {
			say("Marked: %s.", l.says)
		}
	}
	for i, end := range s.Ends {
		say("The %s end: %s, %s.", render.SideName(i), figure.Quantity(end.At, s.Unit), render.EndOf(s, i))
	}
	for _, f := range c.flags {
		say("On center, flag %s: %s.", f.mark, onCenterSays(s, f.Critical))
	}
	if c.note != "" {
		say("%s", c.note)
	}
	return strings.TrimSpace(b.String())
}

// positionAt is the position of the course at x, or -1.
func (c *chart) positionAt(x float64) int {
	for i := range c.course.Samples {
		if c.course.Samples[i].At == x {
			return i
		}
	}
	return -1
}

// unitAxis names a unit along an axis.
func unitAxis(unit linkage.Unit) string {
	switch {
	case unit == linkage.Degrees:
		return "degrees"
	case strings.Contains(string(unit), "/"):
		return figure.RatioUnit(unit)
	}
	return string(unit)
}

// coursePlaces are the places of a sweep's travel that its charts mark, and so
// belong into its course: those of worst values, and where an output turns back.
func coursePlaces(result *solve.Result, sweep *solve.Sweep) []float64 {
	var list []float64
	take := func(at *float64) {
		if at != nil {
			list = append(list, *at)
		}
	}
	for i := range result.Requirements {
		if j := &result.Requirements[i]; sameSweep(render.SweepAt(result, j.Sweep), sweep) {
			take(j.At)
		}
	}
	for _, r := range sweep.Rods {
		take(r.Angle.At)
		if fit := r.SecondPath; fit != nil {
			take(fit.At)
			for _, bind := range fit.Binds {
				list = append(list, bind[0], bind[1])
			}
		}
	}
	for _, o := range sweep.Outputs {
		list = append(list, o.Ratio.Reverses...)
	}
	for _, c := range sweep.Critical {
		list = append(list, c.At)
	}
	for _, c := range sweep.Cables {
		take(c.At)
		for _, slack := range c.Slack {
			list = append(list, slack[0], slack[1])
		}
	}
	if sweep.LostMotion != nil {
		list = append(list, sweep.LostMotion.At)
	}
	return list
}

// worst returns the position of a line that is worst by a measure, larger being
// worse: where a judgement of this very sweep has it, else the first of the
// largest. -1: the line has no value.
func (c *chart) worst(l *chartLine, j *solve.Judgement, worse func(v float64) float64) int {
	if j != nil {
		if k := c.positionAt(*j.At); k >= 0 && c.value(l, k) != nil {
			return k
		}
	}
	// Less than what two figures that are alike may differ by through rounding.
	const more = 1e-9
	best, most := -1, math.Inf(-1)
	for k := range c.course.Samples {
		v := c.value(l, k)
		if v == nil {
			continue
		}
		if w := worse(*v); best < 0 || w > most+float64(more*math.Abs(most)) {
			best, most = k, w
		}
	}
	return best
}

// judgedHere is the judgement of a requirement whose worst place lies in a
// sweep; nil where it lies in another, or nowhere.
func judgedHere(result *solve.Result, sweep *solve.Sweep, of func(*linkage.Requirement, *solve.Judgement) bool) *solve.Judgement {
	for i := range result.Requirements {
		j := &result.Requirements[i]
		if j.At != nil && sameSweep(render.SweepAt(result, j.Sweep), sweep) && of(j.Requirement, j) {
			return j
		}
	}
	return nil
}
