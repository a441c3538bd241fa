package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
)

// chain is a plane run of parts that turn, each driven by a rod from the one
// before: what its parts read is known in closed form, without a solver.
type chain struct {
	pivots []vec
	in     []vec // where a rod drives the part; that of the first is not used
	out    []vec // where the part drives the next; that of the last is not used
	rods   []float64
	given  bool // the rods' lengths stand in the file; else they are as drawn
	arms   bool // holes are told from the pivot, and go with it
}

const chainTurn = 25 // how far the first part turns to either side, degrees

// newChain draws a chain at random whose rods stand well to the arms.
func newChain(rng *rand.Rand) chain {
	for {
		parts := 2 + rng.IntN(3)
		c := chain{given: rng.IntN(3) > 0, arms: rng.IntN(3) == 0}
		place := at(0, 0)
		for i := range parts {
			c.pivots = append(c.pivots, place)
			c.in = append(c.in, place.Add(polar(30+50*rng.Float64(), 360*rng.Float64())))
			c.out = append(c.out, place.Add(polar(30+50*rng.Float64(), 360*rng.Float64())))
			place = place.Add(polar(90+120*rng.Float64(), 360*rng.Float64()))
			if i > 0 {
				c.rods = append(c.rods, distance(c.out[i-1], c.in[i]))
			}
		}
		well := true
		for x := -chainTurn; x <= chainTurn; x++ {
			_, least, ok := c.turns(c, float64(x))
			well = well && ok && least > 25
		}
		if well {
			return c
		}
	}
}

// turns returns how far each part has turned where the first is turned by x, and
// the least angle between a rod and the arm that it drives; false where it
// doesn't close. The side of each joint is that of the run as drawn.
func (c chain) turns(drawn chain, x float64) (turned []float64, least float64, ok bool) {
	turned, least = []float64{x}, 90.0
	for i, rod := range c.rods {
		from := c.pivots[i].Add(rotated(c.out[i].Sub(c.pivots[i]), turned[i]))
		arm := distance(c.pivots[i+1], c.in[i+1])
		side := 1.0
		if cross(drawn.out[i], drawn.pivots[i+1], drawn.in[i+1]) < 0 {
			side = -1
		}
		// The joint is rod away from one and arm from the other.
		line := c.pivots[i+1].Sub(from)
		long := line.Norm()
		along := (long*long + rod*rod - arm*arm) / (2 * long)
		high := rod*rod - along*along
		if high <= 0 {
			return nil, 0, false
		}
		u := line.Scale(1 / long)
		joint := from.Add(u.Scale(along)).Add(square(u).Scale(side * math.Sqrt(high)))
		turn := heading(c.pivots[i+1], joint) - heading(c.pivots[i+1], c.in[i+1])
		turned = append(turned, turnTo(turn, 0))
		between := math.Abs(deg(math.Asin(cross(from, joint, c.pivots[i+1]) / (rod * arm))))
		least = math.Min(least, between)
	}
	return turned, least, true
}

func rotated(v vec, degrees float64) vec { return rotate(v, vec{Z: 1}, degrees) }

// cross is twice the area of a triangle, more than 0 anticlockwise.
func cross(a, b, c vec) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}

func chainPart(i int) string { return string(rune('a' + i)) }

// text is the file.
func (c chain) text() string {
	var b strings.Builder
	fmt.Fprintln(&b, "run \"chain\" {\n  units = \"mm\"\n}")
	last := len(c.pivots) - 1
	for i, pivot := range c.pivots {
		word, from := "points", vec{}
		if c.arms {
			word, from = "arms", pivot
		}
		var holes []string
		if i > 0 {
			holes = append(holes, "in = "+write(c.in[i].Sub(from)))
		}
		if i < last {
			holes = append(holes, "out = "+write(c.out[i].Sub(from)))
		}
		fmt.Fprintf(&b, "part %q {\n  pivot = %s\n  %s = { %s }\n}\n", chainPart(i), write(pivot), word, strings.Join(holes, ", "))
	}
	for i, rod := range c.rods {
		fmt.Fprintf(&b, "rod \"r%d\" {\n  from = %s.out\n  to = %s.in\n", i, chainPart(i), chainPart(i+1))
		if c.given {
			fmt.Fprintf(&b, "  length = %s\n", num(rod))
		}
		fmt.Fprintln(&b, "}")
	}
	fmt.Fprintf(&b, "control \"hand\" {\n  of = a\n  from = -%d\n  to = %d\n}\n", chainTurn, chainTurn)
	return b.String()
}

// culprits are the dimensions of a chain, each with what sets it off by some
// length.
func (c chain) culprits() (names []string, off []func(by float64) chain) {
	add := func(name string, change func(c *chain, by float64)) {
		names = append(names, name)
		off = append(off, func(by float64) chain {
			made := c
			made.pivots = append([]vec(nil), c.pivots...)
			made.in, made.out = append([]vec(nil), c.in...), append([]vec(nil), c.out...)
			made.rods = append([]float64(nil), c.rods...)
			change(&made, by)
			if !c.given {
				for i := range made.rods {
					if name != fmt.Sprintf("r%d.length", i) {
						made.rods[i] = distance(made.out[i], made.in[i+1])
					}
				}
			}
			return made
		})
	}
	for i := range c.rods {
		add(fmt.Sprintf("r%d.length", i), func(c *chain, by float64) { c.rods[i] += by })
	}
	for axis, way := range []vec{{X: 1}, {Y: 1}} {
		letter := ".x"
		if axis == 1 {
			letter = ".y"
		}
		for i := range c.pivots {
			add(chainPart(i)+".pivot"+letter, func(c *chain, by float64) {
				c.pivots[i] = c.pivots[i].Add(way.Scale(by))
				if c.arms {
					c.in[i], c.out[i] = c.in[i].Add(way.Scale(by)), c.out[i].Add(way.Scale(by))
				}
			})
			if i > 0 {
				add(chainPart(i)+".in"+letter, func(c *chain, by float64) { c.in[i] = c.in[i].Add(way.Scale(by)) })
			}
			if i < len(c.pivots)-1 {
				add(chainPart(i)+".out"+letter, func(c *chain, by float64) { c.out[i] = c.out[i].Add(way.Scale(by)) })
			}
		}
	}
	return names, off
}
