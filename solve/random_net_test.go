package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// netGrower grows a random plane run from a lever: each piece hangs on points that
// are there already, so that the whole has the lever's one freedom.
type netGrower struct {
	drawing
	random *rand.Rand
	free   []string // points to hang something on
	where  map[string]vec
	rods   int
	frame  int // index of the airframe in bodies
}

// randomNet draws a lever and one to three pieces behind it, about 100 wide,
// each of a random kind: rockers, guides, carried arms, beams on three rods,
// and beams held by rockers that are joined, which only close together.
func randomNet(random *rand.Rand) drawing {
	n := &netGrower{random: random, where: make(map[string]vec)}
	n.add(hinge("lever", at(0, 0), n.spots(at(0, 0), 60, "a", "b")...))
	n.add(body{name: "air", fixed: true})
	n.frame = 1
	for i := range 1 + random.IntN(3) {
		name := fmt.Sprintf("p%d", i)
		switch random.IntN(5) {
		case 0:
			n.rocker(name)
		case 1:
			n.guide(name)
		case 2:
			n.carried(name)
		case 3:
			n.beam(name)
		default:
			n.joined(name)
		}
	}
	return n.drawing
}

func (n *netGrower) add(b body) {
	n.bodies = append(n.bodies, b)
	for _, s := range b.points {
		n.free = append(n.free, b.name+"."+s.name)
		n.where[b.name+"."+s.name] = s.at
	}
}

// near returns a place about r from p in any direction.
func (n *netGrower) near(p vec, r float64) vec {
	return p.Add(polar(r*(0.4+0.8*n.random.Float64()), 360*n.random.Float64()))
}

func (n *netGrower) spots(about vec, r float64, names ...string) (list []spot) {
	for _, name := range names {
		list = append(list, spot{name, n.near(about, r)})
	}
	return list
}

// from takes a point that is there already.
func (n *netGrower) from() (name string, where vec) {
	name = n.free[n.random.IntN(len(n.free))]
	return name, n.where[name]
}

// anchor adds a point of the airframe about r from p.
func (n *netGrower) anchor(p vec, r float64) string {
	air := &n.bodies[n.frame]
	name := fmt.Sprintf("g%d", len(air.points))
	air.points = append(air.points, spot{name, n.near(p, r)})
	n.where["air."+name] = air.points[len(air.points)-1].at
	return "air." + name
}

// rod joins two points; one in four is set a little off its drawn length.
func (n *netGrower) rod(from, to string) {
	r := bar{name: fmt.Sprintf("r%d", n.rods), from: from, to: to}
	n.rods++
	if n.random.IntN(4) == 0 {
		r.length = distance(n.where[from], n.where[to]) * (1 + 0.03*n.random.NormFloat64())
	}
	n.bars = append(n.bars, r)
}

func (n *netGrower) rocker(name string) {
	from, p := n.from()
	pivot := n.near(p, 110)
	n.add(hinge(name, pivot, n.spots(pivot, 60, "h", "k")...))
	n.rod(from, name+".h")
}

func (n *netGrower) guide(name string) {
	from, p := n.from()
	center := n.near(p, 100)
	n.add(body{name: name, slide: ref(polar(1, 360*n.random.Float64())), points: n.spots(center, 30, "h", "k")})
	n.rod(from, name+".h")
}

func (n *netGrower) carried(name string) {
	on, p := n.from()
	n.add(body{name: name, on: on, points: n.spots(p, 60, "h", "k")})
	n.rod(name+".h", n.anchor(n.where[name+".h"], 80))
}

func (n *netGrower) beam(name string) {
	from, p := n.from()
	n.add(body{name: name, points: n.spots(n.near(p, 90), 50, "h", "k", "j")})
	n.rod(from, name+".h")
	n.rod(name+".k", n.anchor(n.where[name+".k"], 90))
	n.rod(name+".j", n.anchor(n.where[name+".j"], 90))
}

func (n *netGrower) joined(name string) {
	from, p := n.from()
	n.add(body{name: name, points: n.spots(n.near(p, 90), 50, "h", "k", "j")})
	for i, side := range []string{"x", "y"} {
		point := name + []string{".k", ".j"}[i]
		pivot := n.near(n.where[point], 110)
		n.add(hinge(name+side, pivot, n.spots(pivot, 60, "h", "k")...))
		n.rod(point, name+side+".h")
	}
	n.rod(from, name+".h")
	n.rod(name+"x.k", name+"y.k")
	n.rod(name+".h", n.anchor(n.where[name+".h"], 80))
}

// scaled returns a drawing k times as large.
func (d drawing) scaled(k float64) drawing {
	d = d.moved(motion{place: func(p vec) vec { return p.Scale(k) }})
	for i := range d.bars {
		d.bars[i].length *= k
	}
	return d
}

// anySize is a size of a run from a few units to some ten thousand.
func anySize(random *rand.Rand) float64 { return math.Pow(10, 4*random.Float64()-2) }
