package render

import (
	"fmt"
	"math"

	"fullfree/render/figure"
	"fullfree/solve"
)

// plot is a chart laid out on a sheet of its own.
type plot struct {
	*chart
	scene       scene
	area        window  // of the curves, on the sheet
	low, high   float64 // the control at its left and right edge
	least, most float64 // the values at its lower and upper edge
	labels      *placer
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
	penGrid    = pen{width: 0.5, dash: "0.7 4"} // leads from a tick across the plot
	penHatched = pen{ink: "none", fill: hatchFill}
)

// plot lays the chart out; alone, as a picture of its own, with what its flags
// stand for below it.
func (c *chart) plot(alone bool) *plot {
	p := &plot{chart: c}
	p.scene.width = sheetWidth
	if alone {
		p.scene.width = plotAlone
	}
	inner := p.scene.width - 2*sheetMargin
	p.low, p.high = plotRange(c.sweep)
	p.least, p.most = c.valueRange()
	values := ticks(p.least, p.most, valuesMost)
	ends := c.endLabels()

	y := sheetMargin
	write := func(says string, size float64, bold bool) {
		for _, line := range wrap(says, inner, size, bold) {
			y += float64(size * lineHeight)
			p.scene.write(text{says: line, at: place{sheetMargin, y}, size: size, bold: bold})
		}
	}
	write(c.title, headSize, true)
	write(c.axis, smallSize, false)

	p.area.low.x, p.area.high.x = sheetMargin+ticksWide(values), p.scene.width-sheetMargin-ends.wide
	y = p.endWords(y)
	p.area.low.y, p.area.high.y = y, y+plotTall
	p.labels = newPlacer(&p.scene, p.area.low, p.area.high)

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
	p.scene.height = y + sheetMargin
	return p
}

// across and up return where a position of the control and a value lie on the
// sheet; on is both.
func (p *plot) across(at float64) float64 {
	return p.area.low.x + float64((p.area.high.x-p.area.low.x)*((at-p.low)/(p.high-p.low)))
}

func (p *plot) up(v float64) float64 {
	return p.area.high.y - float64((p.area.high.y-p.area.low.y)*((v-p.least)/(p.most-p.least)))
}

func (p *plot) on(at, v float64) place { return place{p.across(at), p.up(v)} }

// ticksWide is the room for the figures of an axis of values.
func ticksWide(list []tick) float64 {
	wide := 0.0
	for _, t := range list {
		wide = math.Max(wide, textWidth(t.says, smallSize, false))
	}
	return wide + tickLong + 4
}

// level and upright are lines across the plot.
func (p *plot) level(y float64) (from, to place) {
	return place{p.area.low.x, y}, place{p.area.high.x, y}
}

func (p *plot) upright(x float64) (from, to place) {
	return place{x, p.area.low.y}, place{x, p.area.high.y}
}

// line draws a line that labels keep off.
func (p *plot) line(l layer, pn pen, through ...place) {
	p.scene.line(l, pn, through...)
	p.labels.avoid(pn, through...)
}

// grid draws the axes with their ticks.
func (p *plot) grid(values []tick) {
	p.scene.polygon(layerFixed, penRule, p.area.corners()...)
	for _, t := range values {
		from, to := p.level(p.up(t.at))
		p.scene.line(layerFixed, penGrid, from, to)
		p.scene.line(layerFixed, penRule, from, place{from.x - tickLong, from.y})
		p.scene.write(text{says: t.says, at: place{from.x - tickLong - 3, from.y + smallSize*0.35}, anchor: anchorEnd, size: smallSize})
	}
	if p.least < 0 && p.most > 0 {
		from, to := p.level(p.up(0))
		p.line(layerFixed, penLeader, from, to)
	}
	for _, t := range p.positionTicks() {
		top, foot := p.upright(p.across(t.at))
		p.scene.line(layerFixed, penGrid, top, foot)
		p.scene.line(layerFixed, penRule, foot, place{foot.x, foot.y + tickLong})
		p.scene.write(text{says: t.says, at: place{foot.x, p.tickLine()}, anchor: anchorMiddle, size: smallSize})
	}
	if p.low < 0 && p.high > 0 {
		top, foot := p.upright(p.across(0))
		p.line(layerCenters, penCenter, top, foot)
	}
}

func (p *plot) tickLine() float64 {
	return p.area.high.y + tickLong + 2 + float64(smallSize*textAscent)
}

// positionTicks are the ticks of the control.
func (p *plot) positionTicks() []tick {
	return ticks(p.low, p.high, int((p.area.high.x-p.area.low.x)/tickRoom)+1)
}

// endWords writes over the plot what ends the travel on each side, and returns
// where that ends.
func (p *plot) endWords(y float64) float64 {
	const linesMost = 3
	wide := (p.area.high.x-p.area.low.x)/2 - viewGap
	var each [2][]string
	rows := 0
	for i, end := range p.sweep.Ends {
		lines := wrap(figure.Quantity(end.At, p.sweep.Unit)+" "+endWords(end), wide, smallSize, false)
		each[i] = lines[:min(len(lines), linesMost)]
		rows = max(rows, len(each[i]))
	}
	for i, lines := range each {
		t := text{at: place{p.area.low.x, 0}, size: smallSize}
		if i == 1 {
			t.at.x, t.anchor = p.area.high.x, anchorEnd
		}
		for k, line := range lines {
			t.says, t.at.y = line, y+float64(smallSize*lineHeight*float64(rows-len(lines)+k+1))
			p.scene.write(t)
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
			p.hatched(top, foot, place{float64(2*i - 1), 0})
			p.line(layerEnds, penThick, top, foot)
		case solve.ByLimit:
			p.line(layerEnds, penBetween, top, foot)
		default:
			p.line(layerEnds, penThick, top, foot)
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
			p.hatched(from, to, place{0, float64(-l.side)})
		}
		p.line(layerEnds, penThin, from, to)
		if p.up(l.at-l.within)-p.up(l.at) < apart {
			continue
		}
		for _, edge := range []float64{l.at - l.within, l.at + l.within} {
			from, to := p.level(p.up(edge))
			p.line(layerEnds, penBeyond, from, to)
		}
	}
}

// hatched draws hatching behind a line, as far as the plot goes.
func (p *plot) hatched(from, to, behind place) {
	const deep = 6.0
	band := []place{from, to, to.along(behind, deep), from.along(behind, deep)}
	if band = p.area.polygon(band); len(band) == 0 {
		return
	}
	p.scene.polygon(layerFixed, penHatched, band...)
	p.labels.avoid(pen{width: deep, weight: penThin.weight}, from.along(behind, deep/2), to.along(behind, deep/2))
}

// asked writes beside each limit what it asks for.
func (p *plot) asked() {
	const clear, deep, places = 4.0, 6.0, 12
	for _, l := range p.limits {
		if l.says == "" {
			continue
		}
		t := text{says: shorten(l.says, p.area.high.x-p.area.low.x-40, smallSize, false), size: smallSize, halo: true}
		wide := textWidth(t.says, t.size, false)
		var ways []label
		for n := range places {
			t.at.x = p.area.low.x + 24 + float64((p.area.high.x-p.area.low.x-48-wide)*float64(n)/(places-1))
			for _, edge := range []float64{l.at - l.within, l.at + l.within} {
				over, under := clear, clear
				if l.side > 0 {
					over += deep
				}
				if l.side < 0 {
					under += deep
				}
				y := p.up(edge)
				for _, at := range []float64{y - over - float64(textDescent*smallSize)/2, y + under + float64(textAscent*smallSize)} {
					t.at.y = at
					ways = append(ways, textLabel(t, float64(n)*0.2))
				}
			}
		}
		if !p.labels.put(ways...) {
			p.unsaid = append(p.unsaid, l.says)
		}
	}
}

// axisWords writes under the plot which way the control goes and what it is, and
// returns where that ends.
func (p *plot) axisWords() float64 {
	y := p.tickLine()
	low, high := p.area.low.x, p.area.high.x
	minus, plus := p.sweep.Control.Minus, p.sweep.Control.Plus
	if minus != "" || plus != "" {
		const head = headLong + 4
		y += float64(smallSize * lineHeight)
		wide := high - low - 2*head
		// Side by side where there is room for that, else one below the other.
		apart := minus != "" && plus != "" && textWidth(minus, smallSize, false)+textWidth(plus, smallSize, false) > wide-2*head
		side := func(says string, edge, way float64, anchor string) {
			p.scene.polygon(layerMarks, penSolid, headAt(place{edge, y - smallSize*0.3}, place{way, 0}, headLong)...)
			p.scene.write(text{says: shorten(says, wide, smallSize, false), at: place{edge - way*head, y}, anchor: anchor, size: smallSize})
		}
		if minus != "" {
			side(minus, low, -1, "")
		}
		if apart {
			y += float64(smallSize * lineHeight)
		}
		if plus != "" {
			side(plus, high, 1, anchorEnd)
		}
	}
	says := fmt.Sprintf("%s (%s), %s from neutral", p.sweep.Control.Name, p.sweep.Control.Of.Name, unitAxis(p.sweep.Unit))
	for _, line := range wrap(says, high-low, smallSize, false) {
		y += float64(smallSize * lineHeight)
		p.scene.write(text{says: line, at: place{(low + high) / 2, y}, anchor: anchorMiddle, size: smallSize})
	}
	return y
}
