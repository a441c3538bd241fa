package render

import (
	"math"
	"slices"
)

// box is the room that a label takes: a rectangle, turned with its text.
type box struct {
	middle place
	way    place // along the text, length 1
	long   float64
	high   float64 // half sizes
}

// labelGap keeps labels apart: so much of the sheet stays free between two.
const labelGap = 1.5

// textBox returns the room of a line of text, on the wide side.
func textBox(t text) box {
	width := textWidth(t.says, t.size, t.bold)
	shift := width / 2
	switch t.anchor {
	case anchorMiddle:
		shift = 0
	case anchorEnd:
		shift = -width / 2
	}
	way := polar(-t.angle)
	rise := float64(float64((textAscent-textDescent)/2) * t.size)
	return box{
		middle: t.at.along(way, shift).along(way.square(), -rise),
		way:    way,
		long:   width / 2,
		high:   float64(float64((textAscent+textDescent)/2) * t.size),
	}
}

// squareBox returns the room of something as high as wide.
func squareBox(middle place, half float64) box {
	return box{middle: middle, way: place{1, 0}, long: half, high: half}
}

// grown returns b larger by k on every side.
func (b box) grown(k float64) box {
	b.long, b.high = b.long+k, b.high+k
	return b
}

// bounds returns the upright rectangle about b.
func (b box) bounds() (low, high place) {
	x := float64(math.Abs(b.way.x)*b.long) + float64(math.Abs(b.way.y)*b.high)
	y := float64(math.Abs(b.way.y)*b.long) + float64(math.Abs(b.way.x)*b.high)
	return place{b.middle.x - x, b.middle.y - y}, place{b.middle.x + x, b.middle.y + y}
}

// overlaps reports whether two boxes share any room (separating axes: two
// rectangles are apart if they are apart along a side of one of them).
func (b box) overlaps(c box) bool {
	apart := func(axis place) bool {
		reach := func(d box) float64 {
			return float64(math.Abs(d.way.dot(axis))*d.long) + float64(math.Abs(d.way.square().dot(axis))*d.high)
		}
		return math.Abs(c.middle.sub(b.middle).dot(axis)) >= reach(b)+reach(c)
	}
	return !apart(b.way) && !apart(b.way.square()) && !apart(c.way) && !apart(c.way.square())
}

// crossing returns how much of the line from p to q lies in b.
func (b box) crossing(p, q place) float64 {
	from, to := 0.0, 1.0
	start, run := p.sub(b.middle), q.sub(p)
	axis, half := b.way, b.long
	for range 2 {
		s, r := start.dot(axis), run.dot(axis)
		switch {
		case r != 0:
			in, out := (-half-s)/r, (half-s)/r
			if in > out {
				in, out = out, in
			}
			from, to = math.Max(from, in), math.Min(to, out)
			if from >= to {
				return 0
			}
		case math.Abs(s) >= half:
			return 0
		}
		axis, half = b.way.square(), b.high
	}
	return math.Max((to-from)*p.distance(q), pointCrossing)
}

// pointCrossing is how long, in sheet units, a line seen end on counts as.
const pointCrossing = 0.1

// label is one way of putting a label on the sheet.
type label struct {
	box    box
	texts  []text
	shapes []shape // its balloon
	leader []place // two places, or none
	bias   float64 // how much worse than others it is by itself
}

// textLabel returns a label of one line of text.
func textLabel(t text, bias float64) label {
	return label{box: textBox(t), texts: []text{t}, bias: bias}
}

// moved returns the label elsewhere.
func (l label) moved(by place) label {
	var other scene
	at := scene{texts: l.texts}
	at.add(layerMarks, l.shapes...)
	other.take(&at, by)
	l.box.middle = l.box.middle.add(by)
	l.texts, l.shapes = other.texts, other.shapes[layerMarks]
	return l
}

// barrier is a line that labels had better not lie on.
type barrier struct {
	from, to place
	half     float64 // of its width
	weight   float64
}

// box returns the room of a wide line.
func (b barrier) box() box {
	way := b.from.to(b.to)
	if way == (place{}) {
		way = place{1, 0}
	}
	return box{middle: b.from.add(b.to).scale(0.5), way: way, long: b.from.distance(b.to)/2 + b.half, high: b.half}
}

// placer puts labels on an area of a sheet so that none lies on another, and
// as few as possible on lines.
//
// What is there is looked up by squares of the sheet, so that a large run
// doesn't compare every label with every line.
type placer struct {
	scene     *scene
	low, high place // the area
	boxes     []box
	closed    []window // where no label goes, but a leader may begin
	open      []window // a label lies whole in one of these, if there are any
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
	// better is by how much a place must be better to be taken instead of an
	// earlier one; more than rounding, so that ties fall the same everywhere.
	better = 1e-6
)

func newPlacer(s *scene, low, high place) *placer {
	p := &placer{scene: s, low: low, high: high, least: math.Inf(1)}
	p.columns, p.rows = squares(low.x, high.x), squares(low.y, high.y)
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
func (p *placer) cells(low, high place, do func(square int)) {
	left, right := squareOf(low.x, p.low.x, p.columns), squareOf(high.x, p.low.x, p.columns)
	top, bottom := squareOf(low.y, p.low.y, p.rows), squareOf(high.y, p.low.y, p.rows)
	for x := left; x <= right; x++ {
		for y := top; y <= bottom; y++ {
			do(x*p.rows + y)
		}
	}
}

// avoid tells the placer of a line.
func (p *placer) avoid(line pen, through ...place) {
	if line.weight == 0 {
		return
	}
	half := line.width / 2
	for i := 1; i < len(through); i++ {
		a, b := through[i-1], through[i]
		index := len(p.barriers)
		p.barriers = append(p.barriers, barrier{a, b, half, line.weight})
		p.seen = append(p.seen, 0)
		low, high := place{math.Min(a.x, b.x) - half, math.Min(a.y, b.y) - half}, place{math.Max(a.x, b.x) + half, math.Max(a.y, b.y) + half}
		p.cells(low, high, func(c int) { p.linesIn[c] = append(p.linesIn[c], index) })
	}
}

// keep tells the placer of room that is taken.
func (p *placer) keep(b box) {
	index := len(p.boxes)
	p.boxes = append(p.boxes, b)
	low, high := b.bounds()
	p.cells(low, high, func(c int) { p.boxesIn[c] = append(p.boxesIn[c], index) })
}

// free reports whether b lies in the area and on no label.
func (p *placer) free(b box) bool {
	b = b.grown(labelGap)
	low, high := b.bounds()
	if low.x < p.low.x || low.y < p.low.y || high.x > p.high.x || high.y > p.high.y {
		return false
	}
	for _, w := range p.closed {
		if w.meets(window{low, high}) {
			return false
		}
	}
	if len(p.open) > 0 && !slices.ContainsFunc(p.open, b.inside) {
		return false
	}
	free := true
	p.cells(low, high, func(c int) {
		for _, i := range p.boxesIn[c] {
			free = free && !b.overlaps(p.boxes[i])
		}
	})
	return free
}

// near calls do for every line whose squares a rectangle touches, once.
func (p *placer) near(low, high place, do func(barrier)) {
	p.query++
	p.cells(low, high, func(c int) {
		for _, i := range p.linesIn[c] {
			if p.seen[i] != p.query {
				p.seen[i] = p.query
				do(p.barriers[i])
			}
		}
	})
}

// cost returns how bad a free label is where it is. What is worse than most
// needn't be told exactly.
func (p *placer) cost(l label, most float64) float64 {
	const touch = 4 // what touching a line costs however little of it, as if so long
	cost := l.bias
	low, high := l.box.bounds()
	p.near(low, high, func(b barrier) {
		if cost > most {
			return
		}
		if in := l.box.grown(b.half).crossing(b.from, b.to); in > 0 {
			cost += float64(b.weight * (touch + in))
		}
	})
	if len(l.leader) == 2 && cost <= most {
		from, to := l.leader[0], l.leader[1]
		low, high := place{math.Min(from.x, to.x), math.Min(from.y, to.y)}, place{math.Max(from.x, to.x), math.Max(from.y, to.y)}
		p.near(low, high, func(b barrier) {
			if b.half > barLeast/2 {
				if in := b.box().crossing(from, to); in > 0 {
					cost += float64(b.weight * (leaderCross + float64(in*leaderInside)))
				}
			} else if crossed(from, to, b.from, b.to) {
				cost += float64(b.weight * leaderCross)
			}
		})
		for _, w := range p.closed {
			if _, _, through := w.cut(from, to); through && !w.holds(from) {
				cost += leaderThrough
			}
		}
		met := map[int]bool{}
		p.cells(low, high, func(c int) {
			for _, i := range p.boxesIn[c] {
				if !met[i] && p.boxes[i].crossing(from, to) > 0 {
					met[i] = true
					cost += leaderBend
				}
			}
		})
	}
	return cost
}

// covers returns how much of the lines at least so heavy lies in b.
func (p *placer) covers(b box, least float64) float64 {
	sum := 0.0
	low, high := b.bounds()
	p.near(low, high, func(line barrier) {
		if line.weight >= least {
			sum += b.grown(line.half).crossing(line.from, line.to)
		}
	})
	return sum
}

// crossed reports whether two lines cross between their ends.
func crossed(a, b, c, d place) bool {
	side := func(p, q, r place) float64 { return q.sub(p).square().dot(r.sub(p)) }
	return float64(side(a, b, c)*side(a, b, d)) < 0 && float64(side(c, d, a)*side(c, d, b)) < 0
}

// put places the best of some ways that is free, and reports whether there
// was one. Labels that lie the same go to the first.
func (p *placer) put(ways ...label) bool { return p.putBelow(math.Inf(1), ways...) }

// putBelow does the same, unless even the best costs as much as most.
func (p *placer) putBelow(most float64, ways ...label) bool {
	best, least := -1, most
	for i, way := range ways {
		if way.bias >= least || !p.free(way.box) {
			continue
		}
		if cost := p.cost(way, least); cost < least-better {
			best, least = i, cost
		}
	}
	if best < 0 {
		return false
	}
	p.take(ways[best])
	return true
}

// take puts a label on the sheet as it is.
func (p *placer) take(l label) {
	p.keep(l.box)
	p.avoid(penLeader, l.leader...)
	p.scene.put(l)
}

// putAround places a label at the best of some preferred ways and of places
// around anchor, from near to far: at returns the label with its middle at a
// place. It reports whether there was room.
func (p *placer) putAround(anchor place, near, size float64, at func(middle place) label, preferred ...label) bool {
	const (
		directions = 24
		step       = 9.0  // sheet units from one ring of places to the next
		enough     = 12.0 // rings that are compared before the first with room is taken
		aroundBias = 3.0  // what a place among no preferred ones costs
		farBias    = 0.1  // and each unit away
	)
	if size >= p.least {
		return p.put(preferred...)
	}
	reach := p.low.distance(p.high)
	ways := preferred
	for ring := 0.0; near+float64(ring*step) < reach; ring++ {
		away := near + float64(ring*step)
		for d := range directions {
			l := at(anchor.along(polar(float64(d)*360/directions), away))
			l.bias += aroundBias + float64(away*farBias)
			ways = append(ways, l)
		}
		if ring >= enough {
			if p.put(ways...) {
				return true
			}
			ways = nil
		}
	}
	if p.put(ways...) {
		return true
	}
	p.least = size
	return false
}
