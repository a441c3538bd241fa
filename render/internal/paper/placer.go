package paper

import (
	"math"
	"slices"
)

// barrier is a line that labels had better not lie on.
type barrier struct {
	from, to Place
	half     float64 // of its width
	weight   float64
}

// box returns the room of a wide line.
func (b barrier) box() Box {
	way := b.from.To(b.to)
	if way == (Place{}) {
		way = Place{1, 0}
	}
	return Box{Middle: b.from.Add(b.to).Scale(0.5), Way: way, Long: b.from.Distance(b.to)/2 + b.half, High: b.half}
}

// Placer puts labels on an area of a sheet so that none lies on another, and
// as few as possible on lines.
//
// What is there is looked up by squares of the sheet, so that a large run
// doesn't compare every label with every line.
type Placer struct {
	scene     *Scene
	low, high Place // the area
	Boxes     []Box
	Closed    []Window // where no label goes, but a leader may begin
	Open      []Window // a label lies whole in one of these, if there are any
	barriers  []barrier
	columns   int // of squares
	rows      int
	boxesIn   [][]int // by square
	linesIn   [][]int
	seen      []int // by barrier: the query that met it last
	query     int
	// least is the smallest label that found no room anywhere: larger ones
	// needn't look.
	least float64
}

const (
	cellSize = 24 // sheet units of a square, about the size of a label
	// leaderBend is what a leader's crossing of another label costs; above
	// all else, since it would strike that label through.
	leaderBend = 200
	// leaderThrough is what its way through closed ground costs.
	leaderThrough = 20
	// leaderCross is what a leader pays to cross a line, for each unit of its
	// weight.
	leaderCross = 3
	// leaderInside is what it pays for each unit of its way inside a bar, as
	// against crossing a line.
	leaderInside = 0.3
	// ClearlyBetter is by how much a place must be better to be taken instead of an
	// earlier one; more than rounding, so that ties fall the same everywhere.
	ClearlyBetter = 1e-6
)

// NewPlacer returns a placer of labels for an area of a scene.
func NewPlacer(s *Scene, low, high Place) *Placer {
	p := &Placer{scene: s, low: low, high: high, least: math.Inf(1)}
	p.columns, p.rows = squares(low.X, high.X), squares(low.Y, high.Y)
	p.boxesIn, p.linesIn = make([][]int, p.columns*p.rows), make([][]int, p.columns*p.rows)
	return p
}

// squares returns how many squares it takes from low to high.
func squares(low, high float64) int {
	const most = 1000 // the last ones hold all that is beyond
	return 1 + squareOf(high, low, most)
}

// squareOf returns in which square from low on a value is, of so many; what is
// outside belongs to the first or the last.
func squareOf(v, low float64, count int) int {
	k := (v - low) / cellSize
	switch {
	case k >= float64(count):
		return count - 1
	case k > 0:
		return int(k)
	}
	return 0
}

// cells calls do for every square that a rectangle touches.
func (p *Placer) cells(low, high Place, do func(square int)) {
	left, right, top, bottom := p.squaresOf(low, high)
	for x := left; x <= right; x++ {
		for y := top; y <= bottom; y++ {
			do(x*p.rows + y)
		}
	}
}

// squaresOf are the columns and rows of squares that a rectangle touches.
func (p *Placer) squaresOf(low, high Place) (left, right, top, bottom int) {
	left, right = squareOf(low.X, p.low.X, p.columns), squareOf(high.X, p.low.X, p.columns)
	top, bottom = squareOf(low.Y, p.low.Y, p.rows), squareOf(high.Y, p.low.Y, p.rows)
	return left, right, top, bottom
}

// Avoid tells the placer of a line.
func (p *Placer) Avoid(line Pen, through ...Place) {
	if line.Weight == 0 {
		return
	}
	half := line.Width / 2
	for i := 1; i < len(through); i++ {
		a, b := through[i-1], through[i]
		index := len(p.barriers)
		p.barriers = append(p.barriers, barrier{a, b, half, line.Weight})
		p.seen = append(p.seen, 0)
		low, high := Place{min(a.X, b.X) - half, min(a.Y, b.Y) - half}, Place{max(a.X, b.X) + half, max(a.Y, b.Y) + half}
		p.cells(low, high, func(c int) { p.linesIn[c] = append(p.linesIn[c], index) })
	}
}

// Keep tells the placer of room that is taken.
func (p *Placer) Keep(b Box) {
	index := len(p.Boxes)
	p.Boxes = append(p.Boxes, b)
	low, high := b.Bounds()
	p.cells(low, high, func(c int) { p.boxesIn[c] = append(p.boxesIn[c], index) })
}

// Free reports whether b lies in the area and on no label.
func (p *Placer) Free(b Box) bool {
	b = b.Grown(labelGap)
	low, high := b.Bounds()
	if low.X < p.low.X || low.Y < p.low.Y || high.X > p.high.X || high.Y > p.high.Y {
		return false
	}
	for _, w := range p.Closed {
		if w.Meets(Window{low, high}) {
			return false
		}
	}
	if len(p.Open) > 0 && !slices.ContainsFunc(p.Open, b.Inside) {
		return false
	}
	left, right, top, bottom := p.squaresOf(low, high)
	for x := left; x <= right; x++ {
		for y := top; y <= bottom; y++ {
			for _, i := range p.boxesIn[x*p.rows+y] {
				if b.Overlaps(p.Boxes[i]) {
					return false
				}
			}
		}
	}
	return true
}

// near calls do for every line whose squares a rectangle touches, once, until it wants no
// more.
func (p *Placer) near(low, high Place, do func(*barrier) (more bool)) {
	p.query++
	left, right, top, bottom := p.squaresOf(low, high)
	for x := left; x <= right; x++ {
		for y := top; y <= bottom; y++ {
			for _, i := range p.linesIn[x*p.rows+y] {
				if p.seen[i] == p.query {
					continue
				}
				p.seen[i] = p.query
				if !do(&p.barriers[i]) {
					return
				}
			}
		}
	}
}

// Cost returns how bad a free label is where it is. What is worse than most
// needn't be told exactly.
func (p *Placer) Cost(l Label, most float64) float64 {
	const touch = 4 // what touching a line costs however little of it, as if so long
	cost := l.Bias
	low, high := l.Box.Bounds()
	p.near(low, high, func(b *barrier) bool {
		if in := l.Box.Grown(b.half).Crossing(b.from, b.to); in > 0 {
			cost += float64(b.weight * (touch + in))
		}
		return cost <= most
	})
	if len(l.Leader) == 2 && cost <= most {
		from, to := l.Leader[0], l.Leader[1]
		low, high := Place{min(from.X, to.X), min(from.Y, to.Y)}, Place{max(from.X, to.X), max(from.Y, to.Y)}
		p.near(low, high, func(b *barrier) bool {
			if b.half > BarLeast/2 {
				if in := b.box().Crossing(from, to); in > 0 {
					cost += float64(b.weight * (leaderCross + float64(in*leaderInside)))
				}
			} else if crossed(from, to, b.from, b.to) {
				cost += float64(b.weight * leaderCross)
			}
			return cost <= most
		})
		for _, w := range p.Closed {
			if _, _, through := w.cut(from, to); through && !w.Holds(from) {
				cost += leaderThrough
			}
		}
		var met []int
		p.cells(low, high, func(c int) {
			for _, i := range p.boxesIn[c] {
				if p.Boxes[i].Crossing(from, to) > 0 && !slices.Contains(met, i) {
					met = append(met, i)
					cost += leaderBend
				}
			}
		})
	}
	return cost
}

// Covers returns how much of the lines at least so heavy lies in b.
func (p *Placer) Covers(b Box, least float64) float64 {
	sum := 0.0
	low, high := b.Bounds()
	p.near(low, high, func(line *barrier) bool {
		if line.weight >= least {
			sum += b.Grown(line.half).Crossing(line.from, line.to)
		}
		return true
	})
	return sum
}

// crossed reports whether two lines cross between their ends.
func crossed(a, b, c, d Place) bool {
	side := func(p, q, r Place) float64 { return q.Sub(p).Square().Dot(r.Sub(p)) }
	return float64(side(a, b, c)*side(a, b, d)) < 0 && float64(side(c, d, a)*side(c, d, b)) < 0
}

// Put places the best of some ways that is free, and reports whether there
// was one. Labels that lie the same go to the first.
func (p *Placer) Put(ways ...Label) bool { return p.PutBelow(math.Inf(1), ways...) }

// PutBelow does the same, unless even the best costs as much as most.
func (p *Placer) PutBelow(most float64, ways ...Label) bool {
	c := choice{least: most}
	for _, way := range ways {
		p.consider(way, &c)
	}
	return p.takeBest(&c)
}

// choice is the best of the ways looked at, if one is free and costs less than least was to
// begin with.
type choice struct {
	best  Label
	least float64
	found bool
}

// consider takes one more way into a choice.
func (p *Placer) consider(way Label, c *choice) {
	if way.Bias >= c.least || !p.Free(way.Box) {
		return
	}
	if cost := p.Cost(way, c.least); cost < c.least-ClearlyBetter {
		*c = choice{way, cost, true}
	}
}

// takeBest puts what was chosen on the sheet, and reports whether anything was.
func (p *Placer) takeBest(c *choice) bool {
	if c.found {
		p.take(c.best)
	}
	return c.found
}

// take puts a label on the sheet as it is.
func (p *Placer) take(l Label) {
	p.Keep(l.Box)
	p.Avoid(PenLeader, l.Leader...)
	p.scene.Put(l)
}

// PutAround places a label at the best of some preferred ways and of places
// around anchor, from near to far: at returns the label with its middle at a
// place. It reports whether there was room.
func (p *Placer) PutAround(anchor Place, near, size float64, at func(middle Place) Label, preferred ...Label) bool {
	const (
		directions = 24
		step       = 9.0  // sheet units from one ring of places to the next
		enough     = 12.0 // rings that are compared before the first with room is taken
		aroundBias = 3.0  // what a place among no preferred ones costs
		farBias    = 0.1  // and each unit away
	)
	if size >= p.least {
		return p.Put(preferred...)
	}
	reach := p.low.Distance(p.high)
	c := choice{least: math.Inf(1)}
	for _, way := range preferred {
		p.consider(way, &c)
	}
	for ring := 0.0; near+float64(ring*step) < reach; ring++ {
		away := near + float64(ring*step)
		for d := range directions {
			l := at(anchor.Along(Polar(float64(d)*360/directions), away))
			l.Bias += aroundBias + float64(away*farBias)
			p.consider(l, &c)
		}
		if ring >= enough && c.found {
			break
		}
	}
	if p.takeBest(&c) {
		return true
	}
	p.least = size
	return false
}
