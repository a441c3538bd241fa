package render

import (
	"fmt"
	"math"
	"slices"
)

// chartPens tell the lines of a chart apart, with the symbols of chartSymbols.
var chartPens = [chartLinesMost]pen{
	{width: thickWidth, round: true, weight: 3},
	{width: 1.4, dash: betweenDash, weight: 3},
	{width: 1.4, dash: endDash, weight: 3},
	{width: 1.4, dash: centerDash, weight: 3},
	{width: 1.6, dash: beyondDash, round: true, weight: 3},
	{width: thinWidth, round: true, weight: 3},
}

// symbolSize is half as wide as a symbol, in sheet units.
const symbolSize = 3.6

// symbol draws the sign of a line at a place.
func (p *plot) symbol(line int, at place) {
	const k = symbolSize
	open, full := penHole, penSolid
	open.width = 1.1
	around := func(pn pen, corners ...place) {
		for i := range corners {
			corners[i] = at.along(corners[i], k)
		}
		p.scene.polygon(layerHoles, pn, corners...)
	}
	square := []place{{-0.85, -0.85}, {0.85, -0.85}, {0.85, 0.85}, {-0.85, 0.85}}
	diamond := []place{{0, -1.2}, {1.2, 0}, {0, 1.2}, {-1.2, 0}}
	switch line {
	case 0:
		p.scene.circle(layerHoles, open, at, k)
	case 1:
		around(full, square...)
	case 2:
		around(open, place{0, -1.1}, place{1.1, 0.9}, place{-1.1, 0.9})
	case 3:
		around(full, diamond...)
	case 4:
		around(open, square...)
	default:
		around(full, place{0, 1.1}, place{1.1, -0.9}, place{-1.1, -0.9})
	}
}

// curve draws one line, broken where it has no value and where it leaves the
// plot, with its symbols.
func (p *plot) curve(i int) {
	l := &p.lines[i]
	piece := 0
	put := func(through []place) {
		for _, part := range p.area.lines(through) {
			piece++
			id := fmt.Sprintf("%s-line-%d", p.id, i+1)
			if piece > 1 {
				id += fmt.Sprintf("-%d", piece)
			}
			p.scene.add(layerNeutral, shape{pen: chartPens[i], through: part, attrs: []string{
				attr("class", "series"), attr("id", id), attr("data-series", fmt.Sprint(l.series)),
			}})
			p.labels.avoid(chartPens[i], part...)
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
			if at := p.on(x, v); p.area.holds(at) {
				p.symbol(i, at)
				p.labels.keep(squareBox(at, symbolSize))
			}
		}
	}
}

// pieces returns the places of a line on the sheet, in pieces without a gap.
// What lies so near to the place before it that it can't be seen is left out.
func (p *plot) pieces(l *chartLine) [][]place {
	const apart = 0.25 // sheet units: a sixth of a pixel on a phone
	var list [][]place
	var run []place
	var skipped *place
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
	for k := range p.course.Positions {
		v := p.value(l, k)
		if v == nil {
			finish()
			continue
		}
		at := p.on(p.course.Positions[k].At, *v)
		if len(run) > 0 && at.distance(run[len(run)-1]) < apart && !marked(k) {
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
			at := p.on(p.course.Positions[m.position].At, *p.value(&p.lines[i], m.position))
			if !p.area.holds(at) {
				// It ran away: the arrow stands where it left the plot.
				up := place{0, 1}
				if at.y < p.area.low.y {
					up.y = -1
				}
				at.y = math.Max(p.area.low.y, math.Min(p.area.high.y, at.y))
				p.scene.polygon(layerMarks, penSolid, headAt(at, up, headLong)...)
			} else {
				p.scene.circle(layerMarks, penSolid, at, dotSize)
				p.labels.keep(squareBox(at, dotSize))
			}
			p.tell(at, text{says: m.says, size: labelSize, bold: true, halo: true})
		}
	}
}

// tell writes a value beside its place: as near as there is room, with a leader
// where that is farther off.
func (p *plot) tell(at place, t text) {
	const (
		clear    = 4.0  // sheet units from the place to its words, at least
		led      = 16.0 // from so far on a leader tells whose value it is
		farthest = 60.0
		step     = 5.0
		farBias  = 0.6 // for each unit away
	)
	half := place{textWidth(t.says, t.size, t.bold) / 2, t.size * (textAscent + textDescent) / 2}
	reach := half.add(place{farthest, farthest})
	var ways []label
	for y := -reach.y; y <= reach.y; y += step {
		for x := -reach.x; x <= reach.x; x += step {
			// The nearest of the words.
			near := place{x - math.Max(-half.x, math.Min(half.x, x)), y - math.Max(-half.y, math.Min(half.y, y))}
			away := near.norm()
			if away < clear || away > farthest {
				continue
			}
			l := textLabel(centered(t, at.add(place{x, y})), float64(farBias*away))
			if away > led {
				// From outside the dot's own room, a square.
				l.leader = []place{at.along(near.unit(), 1.5*dotSize), at.along(near.unit(), away-1)}
			}
			ways = append(ways, l)
		}
	}
	p.labels.put(ways...)
}

// planted marks the on-center points by flags on the axis, as the diagram does
// on its arcs.
func (p *plot) planted() {
	for _, f := range p.flags {
		top, foot := p.upright(p.across(f.At))
		p.line(layerMarks, penBeyond, top, foot)
		way, tip := place{1, 0}, foot.along(place{0, -1}, flagPole)
		if foot.x+24 > p.area.high.x {
			way.x = -1
		}
		p.line(layerMarks, penThin, foot, tip)
		p.scene.polygon(layerMarks, penSolid, tip, tip.add(place{0, 7}).along(way, 9), tip.add(place{0, 9}))
		p.scene.circle(layerMarks, penSolid, foot, 1.8)
		p.labels.keep(squareBox(tip.add(place{0, 5}).along(way, 4.5), 5))
		t := text{says: f.mark, size: smallSize, bold: true, halo: true}
		p.labels.putAround(tip.add(place{0, 4}), 14, textWidth(t.says, t.size, true), func(middle place) label {
			return textLabel(centered(t, middle), 0)
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
		lines := wrap(l.name, endLabelMost, smallSize, false)
		if len(lines) > rows {
			lines = []string{shorten(l.name, endLabelMost, smallSize, false)}
		}
		for _, line := range lines {
			e.wide = math.Max(e.wide, textWidth(line, smallSize, false))
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
		at   place
		high float64
	}
	var list []end
	for i := range p.lines {
		at := place{p.across(p.sweep.High), (p.area.low.y + p.area.high.y) / 2}
		for k := range p.course.Positions {
			if v := p.value(&p.lines[i], k); v != nil {
				at = p.on(p.course.Positions[k].At, *v)
			}
		}
		at.y = math.Max(p.area.low.y, math.Min(p.area.high.y, at.y))
		list = append(list, end{i, at, float64(row*float64(len(e.lines[i]))) + 2})
	}
	slices.SortStableFunc(list, func(a, b end) int {
		switch {
		case a.at.y < b.at.y-better:
			return -1
		case a.at.y > b.at.y+better:
			return 1
		}
		return 0
	})
	var wanted, highs []float64
	for _, l := range list {
		wanted, highs = append(wanted, l.at.y), append(highs, l.high)
	}
	for n, y := range apart(wanted, highs, p.area.low.y-6, p.area.high.y+6) {
		l := list[n]
		x := p.area.high.x + endLabelLead
		sign := place{x - symbolSize - 5, y}
		p.scene.line(layerEnds, penLeader, l.at, place{p.area.high.x + 2, y}, sign)
		p.symbol(l.line, sign)
		top := y - float64(row*float64(len(e.lines[l.line])))/2
		for k, says := range e.lines[l.line] {
			p.scene.write(text{says: says, at: place{x, top + float64(row*(float64(k)+0.8))}, size: smallSize})
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
