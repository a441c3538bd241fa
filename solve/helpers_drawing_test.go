package solve_test

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
)

type vec = linkage.Vec

// drawing is a run as data, so that a test can move it, scale it or mirror it
// before it is written as a file.
type drawing struct {
	units  string // "mm" where empty
	bodies []body
	bars   []bar
	pins   [][2]string // points that a joint makes one
	rest   []string    // controls, outputs, stops and requirements, as written in the file
}

// body is a part, or the airframe.
type body struct {
	name        string
	fixed       bool
	pivot       *vec
	on          string // the point of another part that carries it
	axis, slide *vec   // axis: [0, 0, 1] where nil
	points      []spot
	metal       []metal
	ball        bool // it tilts any way about its pivot
	roams       bool // it floats in space
	sleeve      bool // it slides along its axis too
}

type spot struct {
	name string
	at   vec
}

// metal is a feature: with one point a round of that radius, with more an edge
// that thick.
type metal struct {
	name    string
	through []vec
	width   float64
}

type bar struct {
	name, from, to   string
	length, diameter float64 // 0: left out
	points           []spot
}

func at(x, y float64) vec             { return vec{X: x, Y: y} }
func at3(x, y, z float64) vec         { return vec{X: x, Y: y, Z: z} }
func polar(r, degrees float64) vec    { return at(r*math.Cos(rad(degrees)), r*math.Sin(rad(degrees))) }
func ref[T any](v T) *T               { return &v }
func distance(a, b vec) float64       { return b.Sub(a).Norm() }
func heading(from, to vec) float64    { return deg(math.Atan2(to.Y-from.Y, to.X-from.X)) }
func between(a, b vec, k float64) vec { return a.Add(b.Sub(a).Scale(k)) }

// square returns v turned a quarter turn anticlockwise in the drawing.
func square(v vec) vec { return vec{X: -v.Y, Y: v.X, Z: v.Z} }

// hinge is a part on the airframe that turns, with points in order of name
// and place.
func hinge(name string, pivot vec, points ...spot) body {
	return body{name: name, pivot: &pivot, points: points}
}

// write returns v as written in a file.
func write(v vec) string {
	if v.Z == 0 {
		return fmt.Sprintf("[%s, %s]", num(v.X), num(v.Y))
	}
	return fmt.Sprintf("[%s, %s, %s]", num(v.X), num(v.Y), num(v.Z))
}

func writeAll(spots []spot) string {
	var b strings.Builder
	for _, s := range spots {
		fmt.Fprintf(&b, "    %s = %s\n", s.name, write(s.at))
	}
	return "  points = {\n" + b.String() + "  }\n"
}

// blocks returns the blocks of the file after its run block.
func (d drawing) blocks() []string {
	var out []string
	for _, p := range d.bodies {
		var b strings.Builder
		kind := "part"
		if p.fixed {
			kind = "fixed"
		}
		fmt.Fprintf(&b, "%s %q {\n", kind, p.name)
		place, axis := "pivot", "axis"
		if p.ball {
			place = "ball"
		}
		if p.ball || p.roams {
			axis = "square-to"
		}
		if p.pivot != nil {
			fmt.Fprintf(&b, "  %s = %s\n", place, write(*p.pivot))
		}
		if p.on != "" {
			fmt.Fprintf(&b, "  %s = %s\n", place, p.on)
		}
		if p.axis != nil {
			fmt.Fprintf(&b, "  %s = %s\n", axis, write(*p.axis))
		}
		if p.roams {
			b.WriteString("  floats = \"space\"\n")
		}
		if p.sleeve {
			b.WriteString("  slides = true\n")
		}
		if p.slide != nil {
			fmt.Fprintf(&b, "  slide = %s\n", write(*p.slide))
		}
		if len(p.points) > 0 {
			b.WriteString(writeAll(p.points))
		}
		for _, m := range p.metal {
			if len(m.through) == 1 {
				fmt.Fprintf(&b, "  round %q {\n    at = %s\n    radius = %s\n  }\n", m.name, write(m.through[0]), num(m.width))
				continue
			}
			var through []string
			for _, v := range m.through {
				through = append(through, write(v))
			}
			fmt.Fprintf(&b, "  edge %q {\n    through = [%s]\n    thick = %s\n  }\n", m.name, strings.Join(through, ", "), num(m.width))
		}
		b.WriteString("}\n")
		out = append(out, b.String())
	}
	for _, r := range d.bars {
		var b strings.Builder
		fmt.Fprintf(&b, "rod %q {\n  from = %s\n  to = %s\n", r.name, r.from, r.to)
		if r.length != 0 {
			fmt.Fprintf(&b, "  length = %s\n", num(r.length))
		}
		if r.diameter != 0 {
			fmt.Fprintf(&b, "  diameter = %s\n", num(r.diameter))
		}
		if len(r.points) > 0 {
			b.WriteString(writeAll(r.points))
		}
		b.WriteString("}\n")
		out = append(out, b.String())
	}
	for i, p := range d.pins {
		out = append(out, fmt.Sprintf("joint \"j%d\" {\n  of = [%s, %s]\n}\n", i, p[0], p[1]))
	}
	return append(out, d.rest...)
}

// text returns the file.
func (d drawing) text() string {
	units := d.units
	if units == "" {
		units = "mm"
	}
	return fmt.Sprintf("run \"test\" {\n  units = %q\n}\n", units) + strings.Join(d.blocks(), "")
}

// with returns the drawing with more blocks.
func (d drawing) with(rest ...string) drawing {
	d.rest = append(slices.Clone(d.rest), rest...)
	return d
}

// motion is what is done to a drawing as a whole. Any of the three may be nil:
// that kind of thing stays.
type motion struct {
	place func(vec) vec // points, pivots, features
	slide func(vec) vec // directions of guides
	axis  func(vec) vec // axes of hinges and bolts
}

// moved returns the drawing after a motion.
func (d drawing) moved(m motion) drawing {
	one := func(f func(vec) vec, v vec) vec {
		if f == nil {
			return v
		}
		return f(v)
	}
	spots := func(in []spot) []spot {
		out := slices.Clone(in)
		for i := range out {
			out[i].at = one(m.place, out[i].at)
		}
		return out
	}
	d.bodies = slices.Clone(d.bodies)
	for i := range d.bodies {
		p := &d.bodies[i]
		if p.pivot != nil {
			p.pivot = ref(one(m.place, *p.pivot))
		}
		if p.slide != nil {
			p.slide = ref(one(m.slide, *p.slide))
		}
		floats := !p.fixed && p.pivot == nil && p.on == "" && p.slide == nil && !p.roams
		if m.axis != nil && !floats { // of what doesn't turn it is the direction of its bolts
			axis := at3(0, 0, 1)
			if p.axis != nil {
				axis = *p.axis
			}
			p.axis = ref(m.axis(axis))
		}
		p.points = spots(p.points)
		p.metal = slices.Clone(p.metal)
		for j := range p.metal {
			p.metal[j].through = slices.Clone(p.metal[j].through)
			for k, v := range p.metal[j].through {
				p.metal[j].through[k] = one(m.place, v)
			}
		}
	}
	d.bars = slices.Clone(d.bars)
	for i := range d.bars {
		d.bars[i].points = spots(d.bars[i].points)
	}
	return d
}

// rotate returns v turned about an axis of length 1 (Rodrigues' formula).
func rotate(v, axis vec, degrees float64) vec {
	s, c := math.Sincos(rad(degrees))
	return v.Scale(c).Add(axis.Cross(v).Scale(s)).Add(axis.Scale(axis.Dot(v) * (1 - c)))
}
