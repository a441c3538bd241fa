package picture

import (
	"fmt"
	"math"

	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// plot is a chart laid out on a sheet of its own.
type plot struct {
	*chart
	scene       paper.Scene
	area        paper.Window // of the curves, on the sheet
	low, high   float64      // the control at its left and right edge
	least, most float64      // the values at its lower and upper edge
	labels      *paper.Placer
	unsaid      []string // limits that found no room beside their lines
}

// The parts of a plot, in sheet units.
const (
	plotTall   = 190.0
	tickLong   = 4.0
	tickRoom   = 64.0  // from one tick of the control to the next, at least
	valuesMost = 7     // ticks of the values
	plotAlone  = 420.0 // width of a chart that is a picture of its own: to be read on a phone
)

var (
	penGrid    = paper.Pen{Width: 0.5, Dash: "0.7 4"} // leads from a tick across the plot
	penHatched = paper.Pen{Ink: "none", Fill: paper.HatchFill}
)

// plot lays the chart out; alone, as a picture of its own, with what its flags
// stand for below it.
func (c *chart) plot(alone bool) *plot {
	if alone {
		return c.plotWide(plotAlone, true)
	}
	return c.plotWide(sheetWidth, false)
}

// plotWide is plot, so wide.
func (c *chart) plotWide(width float64, alone bool) *plot { return c.plotSized(width, plotTall, alone) }

// plotSized is plot, so wide, its curves so high.
func (c *chart) plotSized(width, tall float64, alone bool) *plot {
	p := &plot{chart: c}
	p.scene.Width = width
	inner := p.scene.Width - 2*sheetMargin
	p.low, p.high = plotRange(c.sweep)
	p.least, p.most = c.valueRange()
	values := ticks(p.least, p.most, valuesMost)
	ends := c.endLabels()

	y := sheetMargin
	write := func(says string, size float64, bold bool) {
		for _, line := range paper.Wrap(says, inner, size, bold) {
			y += float64(size * lineHeight)
			p.scene.Text(paper.Text{Says: line, At: paper.At(sheetMargin, y), Size: size, Bold: bold})
		}
	}
	write(c.title, headSize, true)
	write(c.axis, smallSize, false)

	p.area.Low.X, p.area.High.X = sheetMargin+ticksWide(values), p.scene.Width-sheetMargin-ends.wide
	y = p.endWords(y)
	p.area.Low.Y, p.area.High.Y = y, y+tall
	p.labels = paper.NewPlacer(&p.scene, p.area.Low, p.area.High)

	p.grid(values)
	p.ends()
	p.limited()
	for i := range c.lines {
		p.curve(i)
	}
	p.nameAtEnds(ends)
	p.planted()
	p.marked()
	p.asked()
	y = p.axisWords()
	if alone {
		for _, f := range c.flags {
			write(f.mark+": "+onCenterSays(c.sweep, f.Critical)+".", smallSize, false)
		}
	}
	if len(p.unsaid) > 0 {
		write("Marked: "+figure.List(p.unsaid)+".", smallSize, false)
	}
	write(c.note, smallSize, false)
	p.scene.Height = y + sheetMargin
	return p
}

// across and up return where a position of the control and a value lie on the
// sheet; on is both.
func (p *plot) across(at float64) float64 {
	return p.area.Low.X + float64((p.area.High.X-p.area.Low.X)*((at-p.low)/(p.high-p.low)))
}

func (p *plot) up(v float64) float64 {
	return p.area.High.Y - float64((p.area.High.Y-p.area.Low.Y)*((v-p.least)/(p.most-p.least)))
}

func (p *plot) on(at, v float64) paper.Place { return paper.At(p.across(at), p.up(v)) }

// ticksWide is the room for the figures of an axis of values.
func ticksWide(list []tick) float64 {
	wide := 0.0
	for _, t := range list {
		wide = math.Max(wide, paper.TextWidth(t.says, smallSize, false))
	}
	return wide + tickLong + 4
}

// level and upright are lines across the plot.
func (p *plot) level(y float64) (from, to paper.Place) {
	return paper.At(p.area.Low.X, y), paper.At(p.area.High.X, y)
}

func (p *plot) upright(x float64) (from, to paper.Place) {
	return paper.At(x, p.area.Low.Y), paper.At(x, p.area.High.Y)
}

// line draws a line that labels keep off.
func (p *plot) line(l paper.Layer, pn paper.Pen, through ...paper.Place) {
	p.scene.Line(l, pn, through...)
	p.labels.Avoid(pn, through...)
}

// grid draws the axes with their ticks.
func (p *plot) grid(values []tick) {
	p.scene.Polygon(paper.LayerFixed, paper.PenRule, p.area.Corners()...)
	for _, t := range values {
		from, to := p.level(p.up(t.at))
		p.scene.Line(paper.LayerFixed, penGrid, from, to)
		p.scene.Line(paper.LayerFixed, paper.PenRule, from, paper.At(from.X-tickLong, from.Y))
		p.scene.Text(paper.Text{Says: t.says, At: paper.At(from.X-tickLong-3, from.Y+smallSize*0.35), Anchor: paper.AnchorEnd, Size: smallSize})
	}
	if p.least < 0 && p.most > 0 {
		from, to := p.level(p.up(0))
		p.line(paper.LayerFixed, paper.PenLeader, from, to)
	}
	for _, t := range p.positionTicks() {
		top, foot := p.upright(p.across(t.at))
		p.scene.Line(paper.LayerFixed, penGrid, top, foot)
		p.scene.Line(paper.LayerFixed, paper.PenRule, foot, paper.At(foot.X, foot.Y+tickLong))
		p.scene.Text(paper.Text{Says: t.says, At: paper.At(foot.X, p.tickLine()), Anchor: paper.AnchorMiddle, Size: smallSize})
	}
	if p.low < 0 && p.high > 0 {
		top, foot := p.upright(p.across(0))
		p.line(paper.LayerCenters, paper.PenCenter, top, foot)
	}
}

func (p *plot) tickLine() float64 {
	return p.area.High.Y + tickLong + 2 + float64(smallSize*paper.TextAscent)
}

// positionTicks are the ticks of the control.
func (p *plot) positionTicks() []tick {
	return ticks(p.low, p.high, int((p.area.High.X-p.area.Low.X)/tickRoom)+1)
}

// endWords writes over the plot what ends the travel on each side, and returns
// where that ends.
func (p *plot) endWords(y float64) float64 {
	const linesMost = 3
	wide := (p.area.High.X-p.area.Low.X)/2 - viewGap
	var each [2][]string
	rows := 0
	for i, end := range p.sweep.Ends {
		lines := paper.Wrap(figure.Quantity(end.At, p.sweep.Unit)+" "+render.EndOf(p.sweep, i), wide, smallSize, false)
		each[i] = lines[:min(len(lines), linesMost)]
		rows = max(rows, len(each[i]))
	}
	for i, lines := range each {
		t := paper.Text{At: paper.At(p.area.Low.X, 0), Size: smallSize}
		if i == 1 {
			t.At.X, t.Anchor = p.area.High.X, paper.AnchorEnd
		}
		for k, line := range lines {
			t.Says, t.At.Y = line, y+float64(smallSize*lineHeight*float64(rows-len(lines)+k+1))
			p.scene.Text(t)
		}
	}
	return y + float64(smallSize*lineHeight*float64(rows)) + 5
}

// ends draws where the travel ends: a stop with its metal hatched, what locks
// in a thick line, and where nothing was met dashes.
func (p *plot) ends() {
	for i, end := range p.sweep.Ends {
		top, foot := p.upright(p.across(end.At))
		switch end.Cause {
		case solve.ByStop:
			p.hatched(top, foot, paper.At(float64(2*i-1), 0))
			p.line(paper.LayerEnds, paper.PenThick, top, foot)
		case solve.ByLimit:
			p.line(paper.LayerEnds, paper.PenBetween, top, foot)
		default:
			p.line(paper.LayerEnds, paper.PenThick, top, foot)
		}
	}
}

// limited draws what is asked for: a level with hatching where it falls short,
// or the edges of a band.
func (p *plot) limited() {
	const apart = 3.0 // of the edges of a band, to be worth drawing
	for _, l := range p.limits {
		from, to := p.level(p.up(l.at))
		if l.side != 0 {
			p.hatched(from, to, paper.At(0, float64(-l.side)))
		}
		p.line(paper.LayerEnds, paper.PenThin, from, to)
		if p.up(l.at-l.within)-p.up(l.at) < apart {
			continue
		}
		for _, edge := range []float64{l.at - l.within, l.at + l.within} {
			from, to := p.level(p.up(edge))
			p.line(paper.LayerEnds, paper.PenBeyond, from, to)
		}
	}
}

// hatched draws hatching behind a line, as far as the plot goes.
func (p *plot) hatched(from, to, behind paper.Place) {
	const deep = 6.0
	band := []paper.Place{from, to, to.Along(behind, deep), from.Along(behind, deep)}
	if band = p.area.Polygon(band); len(band) == 0 {
		return
	}
	p.scene.Polygon(paper.LayerFixed, penHatched, band...)
	p.labels.Avoid(paper.Pen{Width: deep, Weight: paper.PenThin.Weight}, from.Along(behind, deep/2), to.Along(behind, deep/2))
}

// asked writes beside each limit what it asks for.
func (p *plot) asked() {
	const clear, deep, places = 4.0, 6.0, 12
	for _, l := range p.limits {
		if l.says == "" {
			continue
		}
		t := paper.Text{Says: paper.Shorten(l.says, p.area.High.X-p.area.Low.X-40, smallSize, false), Size: smallSize, Halo: true}
		wide := paper.TextWidth(t.Says, t.Size, false)
		var ways []paper.Label
		for n := range places {
			t.At.X = p.area.Low.X + 24 + float64((p.area.High.X-p.area.Low.X-48-wide)*float64(n)/(places-1))
			for _, edge := range []float64{l.at - l.within, l.at + l.within} {
				over, under := clear, clear
				if l.side > 0 {
					over += deep
				}
				if l.side < 0 {
					under += deep
				}
				y := p.up(edge)
				for _, at := range []float64{y - over - float64(paper.TextDescent*smallSize)/2, y + under + float64(paper.TextAscent*smallSize)} {
					t.At.Y = at
					ways = append(ways, paper.TextLabel(t, float64(float64(n)*0.2)))
				}
			}
		}
		if !p.labels.Put(ways...) {
			p.unsaid = append(p.unsaid, l.says)
		}
	}
}

// axisWords writes under the plot which way the control goes and what it is, and
// returns where that ends.
func (p *plot) axisWords() float64 {
	y := p.tickLine()
	low, high := p.area.Low.X, p.area.High.X
	minus, plus := p.sweep.Control.Minus, p.sweep.Control.Plus
	if minus != "" || plus != "" {
		const head = headLong + 4
		y += float64(smallSize * lineHeight)
		wide := high - low - 2*head
		// Side by side where there is room for that, else one below the other.
		apart := minus != "" && plus != "" && paper.TextWidth(minus, smallSize, false)+paper.TextWidth(plus, smallSize, false) > wide-2*head
		side := func(says string, edge, way float64, anchor string) {
			p.scene.Polygon(paper.LayerMarks, paper.PenSolid, headAt(paper.At(edge, y-smallSize*0.3), paper.At(way, 0), headLong)...)
			p.scene.Text(paper.Text{Says: paper.Shorten(says, wide, smallSize, false), At: paper.At(edge-float64(way*head), y), Anchor: anchor, Size: smallSize})
		}
		if minus != "" {
			side(minus, low, -1, "")
		}
		if apart {
			y += float64(smallSize * lineHeight)
		}
		if plus != "" {
			side(plus, high, 1, paper.AnchorEnd)
		}
	}
	says := fmt.Sprintf("%s (%s), %s from neutral", p.sweep.Control.Name, p.sweep.Control.Of.Name, unitAxis(p.sweep.Unit))
	for _, line := range paper.Wrap(says, high-low, smallSize, false) {
		y += float64(smallSize * lineHeight)
		p.scene.Text(paper.Text{Says: line, At: paper.At((low+high)/2, y), Anchor: paper.AnchorMiddle, Size: smallSize})
	}
	return y
}
