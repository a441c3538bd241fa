package picture

import (
	"fmt"
	"math"
	"slices"

	"fullfree/render/internal/paper"
)

// chartPens tell the lines of a chart apart, with their symbols.
var chartPens = [chartLinesMost]paper.Pen{
	{Width: paper.ThickWidth, Round: true, Weight: 3},
	{Width: 1.4, Dash: paper.BetweenDash, Weight: 3},
	{Width: 1.4, Dash: paper.EndDash, Weight: 3},
	{Width: 1.4, Dash: paper.CenterDash, Weight: 3},
	{Width: 1.6, Dash: paper.BeyondDash, Round: true, Weight: 3},
	{Width: paper.ThinWidth, Round: true, Weight: 3},
}

// symbolSize is half as wide as a symbol, in sheet units.
const symbolSize = 3.6

// symbol draws the sign of a line at a place.
func (p *plot) symbol(line int, at paper.Place) {
	const k = symbolSize
	open, full := paper.PenHole, paper.PenSolid
	open.Width = 1.1
	around := func(pn paper.Pen, corners ...paper.Place) {
		for i := range corners {
			corners[i] = at.Along(corners[i], k)
		}
		p.scene.Polygon(paper.LayerHoles, pn, corners...)
	}
	square := []paper.Place{paper.At(-0.85, -0.85), paper.At(0.85, -0.85), paper.At(0.85, 0.85), paper.At(-0.85, 0.85)}
	diamond := []paper.Place{paper.At(0, -1.2), paper.At(1.2, 0), paper.At(0, 1.2), paper.At(-1.2, 0)}
	switch line {
	case 0:
		p.scene.Circle(paper.LayerHoles, open, at, k)
	case 1:
		around(full, square...)
	case 2:
		around(open, paper.At(0, -1.1), paper.At(1.1, 0.9), paper.At(-1.1, 0.9))
	case 3:
		around(full, diamond...)
	case 4:
		around(open, square...)
	default:
		around(full, paper.At(0, 1.1), paper.At(1.1, -0.9), paper.At(-1.1, -0.9))
	}
}

// curve draws one line, broken where it has no value and where it leaves the
// plot, with its symbols.
func (p *plot) curve(i int) {
	l := &p.lines[i]
	piece := 0
	put := func(through []paper.Place) {
		for _, part := range p.area.Lines(through) {
			piece++
			id := fmt.Sprintf("%s-line-%d", p.id, i+1)
			if piece > 1 {
				id += fmt.Sprintf("-%d", piece)
			}
			p.scene.Add(paper.LayerNeutral, paper.Shape{Pen: chartPens[i], Through: part, Attrs: []string{
				paper.Attr("class", "series"), paper.Attr("id", id), paper.Attr("data-series", fmt.Sprint(l.series)),
			}})
			p.labels.Avoid(chartPens[i], part...)
		}
	}
	for _, through := range p.pieces(l) {
		put(through)
		if len(through) == 1 {
			p.symbol(i, through[0])
		}
	}
	if len(p.lines) == 1 {
		return
	}
	// Those of the next line stand beside these, where two lie on each other.
	const each = 4
	for n := range each {
		share := (float64(n) + (float64(i)+0.5)/float64(len(p.lines))) / each
		x := p.sweep.Low + float64((p.sweep.High-p.sweep.Low)*share)
		if v, ok := p.between(l, x); ok {
			if at := p.on(x, v); p.area.Holds(at) {
				p.symbol(i, at)
				p.labels.Keep(paper.SquareBox(at, symbolSize))
			}
		}
	}
}

// pieces returns the places of a line on the sheet, in pieces without a gap.
// What lies so near to the place before it that it can't be seen is left out.
func (p *plot) pieces(l *chartLine) [][]paper.Place {
	const apart = 0.25 // sheet units: a sixth of a pixel on a phone
	var list [][]paper.Place
	var run []paper.Place
	var skipped *paper.Place
	finish := func() {
		if skipped != nil {
			run = append(run, *skipped)
		}
		if len(run) > 0 {
			list = append(list, run)
		}
		run, skipped = nil, nil
	}
	marked := func(k int) bool {
		return slices.ContainsFunc(l.marks, func(m chartMark) bool { return m.position == k })
	}
	for k := range p.course.Samples {
		v := p.value(l, k)
		if v == nil {
			finish()
			continue
		}
		at := p.on(p.course.Samples[k].At, *v)
		if len(run) > 0 && at.Distance(run[len(run)-1]) < apart && !marked(k) {
			skipped = &at
			continue
		}
		run, skipped = append(run, at), nil
	}
	finish()
	return list
}

// dotSize is the radius of a dot on a place whose value is told.
const dotSize = 2.6

// marked draws the places whose values are told.
func (p *plot) marked() {
	for i := range p.lines {
		for _, m := range p.lines[i].marks {
			at := p.on(p.course.Samples[m.position].At, *p.value(&p.lines[i], m.position))
			if !p.area.Holds(at) {
				// It ran away: the arrow stands where it left the plot.
				up := paper.At(0, 1)
				if at.Y < p.area.Low.Y {
					up.Y = -1
				}
				at.Y = math.Max(p.area.Low.Y, math.Min(p.area.High.Y, at.Y))
				p.scene.Polygon(paper.LayerMarks, paper.PenSolid, headAt(at, up, headLong)...)
			} else {
				p.scene.Circle(paper.LayerMarks, paper.PenSolid, at, dotSize)
				p.labels.Keep(paper.SquareBox(at, dotSize))
			}
			p.tell(at, paper.Text{Says: m.says, Size: labelSize, Bold: true, Halo: true})
		}
	}
}

// tell writes a value beside its place: as near as there is room, with a leader
// where that is farther off.
func (p *plot) tell(at paper.Place, t paper.Text) {
	const (
		clear    = 4.0  // sheet units from the place to its words, at least
		led      = 16.0 // from so far on a leader tells whose value it is
		farthest = 60.0
		step     = 5.0
		farBias  = 0.6 // for each unit away
	)
	half := paper.At(paper.TextWidth(t.Says, t.Size, t.Bold)/2, t.Size*(paper.TextAscent+paper.TextDescent)/2)
	reach := half.Add(paper.At(farthest, farthest))
	var ways []paper.Label
	for y := -reach.Y; y <= reach.Y; y += step {
		for x := -reach.X; x <= reach.X; x += step {
			// The nearest of the words.
			near := paper.At(x-math.Max(-half.X, math.Min(half.X, x)), y-math.Max(-half.Y, math.Min(half.Y, y)))
			away := near.Norm()
			if away < clear || away > farthest {
				continue
			}
			l := paper.TextLabel(paper.Centered(t, at.Add(paper.At(x, y))), float64(farBias*away))
			if away > led {
				// From outside the dot's own room, a square.
				l.Leader = []paper.Place{at.Along(near.Unit(), 1.5*dotSize), at.Along(near.Unit(), away-1)}
			}
			ways = append(ways, l)
		}
	}
	p.labels.Put(ways...)
}

// planted marks the on-center points by flags on the axis, as the diagram does
// on its arcs.
func (p *plot) planted() {
	for _, f := range p.flags {
		top, foot := p.upright(p.across(f.At))
		p.line(paper.LayerMarks, paper.PenBeyond, top, foot)
		way, tip := paper.At(1, 0), foot.Along(paper.At(0, -1), flagPole)
		if foot.X+24 > p.area.High.X {
			way.X = -1
		}
		p.line(paper.LayerMarks, paper.PenThin, foot, tip)
		p.scene.Polygon(paper.LayerMarks, paper.PenSolid, tip, tip.Add(paper.At(0, 7)).Along(way, 9), tip.Add(paper.At(0, 9)))
		p.scene.Circle(paper.LayerMarks, paper.PenSolid, foot, 1.8)
		p.labels.Keep(paper.SquareBox(tip.Add(paper.At(0, 5)).Along(way, 4.5), 5))
		t := paper.Text{Says: f.mark, Size: smallSize, Bold: true, Halo: true}
		p.labels.PutAround(tip.Add(paper.At(0, 4)), 14, paper.TextWidth(t.Says, t.Size, true), func(middle paper.Place) paper.Label {
			return paper.TextLabel(paper.Centered(t, middle), 0)
		})
	}
}

// endLabels are the names at the right ends of the lines; none of one line,
// whose name is the chart's.
type endLabels struct {
	wide  float64
	lines [][]string
}

const (
	endLabelMost = 150.0 // as wide as names may be
	endLabelLead = 22.0  // from the plot to the names, with the symbol
)

func (c *chart) endLabels() (e endLabels) {
	if len(c.lines) < 2 {
		return e
	}
	const rows = 2
	for _, l := range c.lines {
		lines := paper.Wrap(l.name, endLabelMost, smallSize, false)
		if len(lines) > rows {
			lines = []string{paper.Shorten(l.name, endLabelMost, smallSize, false)}
		}
		for _, line := range lines {
			e.wide = math.Max(e.wide, paper.TextWidth(line, smallSize, false))
		}
		e.lines = append(e.lines, lines)
	}
	e.wide += endLabelLead
	return e
}

// nameAtEnds writes the names of the lines beside their right ends, apart from
// each other, with leaders.
func (p *plot) nameAtEnds(e endLabels) {
	if len(e.lines) == 0 {
		return
	}
	const row = smallSize * 1.15
	type end struct {
		line int
		at   paper.Place
		high float64
	}
	var list []end
	for i := range p.lines {
		at := paper.At(p.across(p.sweep.High), (p.area.Low.Y+p.area.High.Y)/2)
		for k := range p.course.Samples {
			if v := p.value(&p.lines[i], k); v != nil {
				at = p.on(p.course.Samples[k].At, *v)
			}
		}
		at.Y = math.Max(p.area.Low.Y, math.Min(p.area.High.Y, at.Y))
		list = append(list, end{i, at, float64(row*float64(len(e.lines[i]))) + 2})
	}
	slices.SortStableFunc(list, func(a, b end) int {
		switch {
		case a.at.Y < b.at.Y-paper.ClearlyBetter:
			return -1
		case a.at.Y > b.at.Y+paper.ClearlyBetter:
			return 1
		}
		return 0
	})
	var wanted, highs []float64
	for _, l := range list {
		wanted, highs = append(wanted, l.at.Y), append(highs, l.high)
	}
	for n, y := range apart(wanted, highs, p.area.Low.Y-6, p.area.High.Y+6) {
		l := list[n]
		x := p.area.High.X + endLabelLead
		sign := paper.At(x-symbolSize-5, y)
		p.scene.Line(paper.LayerEnds, paper.PenLeader, l.at, paper.At(p.area.High.X+2, y), sign)
		p.symbol(l.line, sign)
		top := y - float64(row*float64(len(e.lines[l.line])))/2
		for k, says := range e.lines[l.line] {
			p.scene.Text(paper.Text{Says: says, At: paper.At(x, top+float64(row*(float64(k)+0.8))), Size: smallSize})
		}
	}
}

// apart moves things of given heights as little as can be so that none lies on
// another, between low and high where they fit; wanted are their middles,
// ascending.
func apart(wanted, highs []float64, low, high float64) []float64 {
	// Neighbors that push each other form a pile, with its top where that suits
	// its members best.
	type pile struct {
		first     int
		sum, tall float64 // of the tops that its members want; its height
		count     float64
	}
	top := func(a pile) float64 {
		return math.Max(low, math.Min(high-a.tall, a.sum/a.count))
	}
	var piles []pile
	for i := range wanted {
		a := pile{i, wanted[i] - highs[i]/2, highs[i], 1}
		for len(piles) > 0 {
			b := piles[len(piles)-1]
			if top(b)+b.tall <= top(a) {
				break
			}
			a = pile{b.first, b.sum + a.sum - float64(a.count*b.tall), b.tall + a.tall, b.count + a.count}
			piles = piles[:len(piles)-1]
		}
		piles = append(piles, a)
	}
	list := make([]float64, 0, len(wanted))
	for n, a := range piles {
		last := len(wanted)
		if n+1 < len(piles) {
			last = piles[n+1].first
		}
		y := top(a)
		for i := a.first; i < last; i++ {
			list = append(list, y+highs[i]/2)
			y += highs[i]
		}
	}
	return list
}
