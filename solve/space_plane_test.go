package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// inSpace writes a plane drawing with other means that hold it in its plane: a hinge becomes a
// ball and a joint on what was its axis; a part that floats a part on a ball on a slide on
// a slide; a rod with nothing on it, where bars says so, a part that is joined at both ends.
// The control's part stays as it is.
func (d drawing) inSpace(controlled string, bars func(i int) bool) drawing {
	out := drawing{units: d.units, rest: d.rest}
	posts := body{name: "posts", fixed: true}
	var tables []body
	out.bodies = slices.Clone(d.bodies)
	for i := range out.bodies {
		out.bodies[i].points = slices.Clone(out.bodies[i].points)
	}
	find := func(name string) *body {
		owner, _, _ := strings.Cut(name, ".")
		return &out.bodies[slices.IndexFunc(out.bodies, func(b body) bool { return b.name == owner })]
	}
	for i := range out.bodies {
		b := &out.bodies[i]
		if b.fixed || b.name == controlled || b.slide != nil {
			continue
		}
		var center vec
		holder, post := &posts, "posts"
		switch {
		case b.pivot != nil:
			center = *b.pivot
		case b.on != "":
			holder = find(b.on)
			post = holder.name
			for _, p := range holder.points {
				if holder.name+"."+p.name == b.on {
					center = p.at
				}
			}
		default:
			center = b.points[0].at.Add(at(7, -4)) // no rod ends on a ball's own middle
			along, across := b.name+"-x", b.name+"-y"
			tables = append(tables, body{name: along, slide: ref(at(1, 0)), points: []spot{{"seat", center}}},
				body{name: across, on: along + ".seat", slide: ref(at(0, 1)), points: []spot{{"seat", center}, {"over-" + b.name, center.Add(at3(0, 0, 40))}}})
			b.on, holder, post = across+".seat", nil, across
		}
		over := spot{"over-" + b.name, center.Add(at3(0, 0, 40))}
		if holder != nil {
			holder.points = append(holder.points, over)
		}
		b.ball, b.axis = true, ref(at3(0, 0, 1))
		b.points = append(b.points, over)
		out.pins = append(out.pins, [2]string{b.name + "." + over.name, post + "." + over.name})
	}
	for i, r := range d.bars {
		if !bars(i) || r.length != 0 || len(r.points) > 0 {
			out.bars = append(out.bars, r)
			continue
		}
		b := body{name: r.name, roams: true}
		for k, end := range []string{r.from, r.to} {
			owner := find(end)
			for _, p := range owner.points {
				if owner.name+"."+p.name == end {
					b.points = append(b.points, spot{[]string{"a", "b"}[k], p.at})
				}
			}
			out.pins = append(out.pins, [2]string{end, b.name + "." + []string{"a", "b"}[k]})
		}
		tables = append(tables, b)
	}
	out.bodies = append(append(out.bodies, tables...), posts)
	return out
}

// A plane run and the same written with balls, joints and parts in space move alike, and
// what is told of them is the same: ends, places on center, readings, ratios, how flat rods get.
func TestHuntPlaneInSpace(t *testing.T) {
	judged, rods := 0, 0
	hunt.Each(t, 8, func(t *testing.T, random *rand.Rand) {
		d := randomNet(random)
		if kind := random.IntN(6); kind == 0 {
			d = manyLoops[kind].draw(random)
		}
		for _, b := range d.bodies {
			if b.fixed {
				continue
			}
			for i, along := range []string{"[1, 0]", "[0.3, 1]"} {
				d = d.with(fmt.Sprintf("output \"of-%s-%d\" {\n  of = %s.%s\n  along = %s\n}\n", b.name, i, b.name, b.points[i%len(b.points)].name, along))
			}
		}
		d = d.with(control("lever", -30, 25), demand("over-center", "least = 3"), demand("rod-angle", "least = 30"))
		text := d.text()
		run, m := compiled(text)
		if m == nil {
			return // it doesn't close as set
		}
		bars := random.IntN(2) // of how many rods of three parts are made
		written := d.inSpace("lever", func(i int) bool { return random.IntN(3) < bars })
		other := read(t, written.text())
		if other.Plane {
			return // nothing but slides
		}
		n, err := solve.Compile(other)
		require.NoError(t, err, written.text())
		one, err := m.Check()
		require.NoError(t, err)
		two, err := n.Check()
		require.NoError(t, err, written.text())
		a, b := one.Sweeps[0], two.Sweeps[0]
		size := run.Size()
		judged++
		require.Equal(t, a.Lost, b.Lost, written.text())
		if a.Lost {
			return
		}
		own := len(other.Parts) == len(run.Parts)+1 // else what more there is may turn back by itself, too
		for i := range a.Ends {
			require.Equal(t, a.Ends[i].Cause, b.Ends[i].Cause, written.text())
			near(t, a.Ends[i].At, b.Ends[i].At, 1e-9, written.text())
			if own {
				near(t, a.Explored[i], b.Explored[i], 1e-9, written.text())
			}
		}
		// At a toggle everything goes by the root of what its place is out by.
		toggles := a.Ends[0].Cause != solve.ByLimit || a.Ends[1].Cause != solve.ByLimit
		within := 1e-9
		if toggles {
			within = 1e-5
		}
		// What is on center in the plane is so in space; what more there is, is of the slides or bars that
		// the plane drawing hasn't got.
		left := slices.Clone(b.Critical)
		for _, c := range a.Critical {
			i := slices.IndexFunc(left, func(l solve.Critical) bool {
				return l.Kind == c.Kind && (l.Output == nil) == (c.Output == nil) && math.Abs(l.At-c.At) < 1e-8
			})
			require.GreaterOrEqual(t, i, 0, "%v at %v is missing\n%s", c.Kind, c.At, written.text())
			left = slices.Delete(left, i, i+1)
		}
		for _, c := range left {
			slide := c.Output == nil && (strings.HasSuffix(c.Part.Name, "-x") || strings.HasSuffix(c.Part.Name, "-y"))
			require.True(t, c.Kind == solve.DeadCenter && (slide || bars > 0), "%v at %v is too many\n%s", c.Kind, c.At, written.text())
		}
		for x := a.Low; x <= a.High; x += (a.High - a.Low) / 7 {
			p, q := solveAt(t, a, x), solveAt(t, b, x)
			for i := range run.Outputs {
				near(t, p.Reading(run.Outputs[i]), q.Reading(other.Outputs[i]), within*size, written.text())
			}
		}
		for i := range a.Outputs {
			o, w := &a.Outputs[i], &b.Outputs[i]
			near(t, o.Least, w.Least, within*size, o.Output.Name+written.text())
			near(t, o.Most, w.Most, within*size, o.Output.Name+written.text())
			nearAt(t, *o.Ratio.Neutral, w.Ratio.Neutral, 1e-9*size, o.Output.Name+written.text())
			if !toggles {
				nearAt(t, *o.Ratio.Most, w.Ratio.Most, 1e-8*size, o.Output.Name+written.text())
				require.Equal(t, len(o.Ratio.Reverses), len(w.Ratio.Reverses), written.text())
			}
		}
		for i := range b.Rods {
			r := rodOf(t, a, b.Rods[i].Rod.Name)
			rods++
			near(t, r.Angle.Least, b.Rods[i].Angle.Least, 1e2*within, r.Rod.Name+written.text())
			near(t, r.TiltFrom, b.Rods[i].TiltFrom, 1e-6, r.Rod.Name+written.text())
		}
		if !own {
			return
		}
		require.Equal(t, one.Requirements[0].Verdict, two.Requirements[0].Verdict, written.text())
		nearAt(t, *one.Requirements[0].Worst, two.Requirements[0].Worst, 1e-8, written.text())
	})
	t.Logf("%d runs, %d rods", judged, rods)
}

// A rod that is written as a part goes as far as it as a rod would, from wherever it is drawn: its
// idle turn about itself is nothing that is ever on center.
func TestIdleBarIsNeverOnCenter(t *testing.T) {
	f := fourBar{ground: 70, crank: 65, coupler: 30, rocker: 60}
	for crank := 26.0; crank < 82; crank += 4 {
		d := f.draw(crank, 1)
		d.rest = []string{control("crank", -90, 90), "output \"aside\" {\n  of = crank.pin\n  along = [1, 0]\n}\n"}
		_, want := sweepOf(t, d.text())
		pin, joint := d.bodies[0].points[0].at, d.bodies[1].points[0].at
		over := spot{"over", pin.Add(at3(0, 0, 20))}
		d.bodies[0].points = append(d.bodies[0].points, over)
		d.bodies[1] = body{name: "bar", roams: true, points: []spot{{"a", joint}, {"b", at(f.ground, 0)}}}
		d.bodies = append(d.bodies, body{name: "arm", on: "crank.pin", ball: true, axis: ref(at3(0, 0, 1)), points: []spot{{"tip", joint}, over}},
			body{name: "post", fixed: true, points: []spot{{"eye", at(f.ground, 0)}}})
		d.bars, d.pins = nil, [][2]string{{"arm.over", "crank.over"}, {"arm.tip", "bar.a"}, {"bar.b", "post.eye"}}
		run, sweep := sweepOf(t, d.text())
		for i := range sweep.Ends {
			require.Equal(t, want.Ends[i].Cause, sweep.Ends[i].Cause, "drawn at %v", crank)
			near(t, want.Ends[i].At, sweep.Ends[i].At, 1e-9, "end")
		}
		for x := sweep.Low + 1; x < sweep.High-1; x += (sweep.High - sweep.Low) / 20 {
			tip, ok := f.joint(crank + x)
			require.True(t, ok)
			near(t, 0, distance(tip, solveAt(t, sweep, x).Point(pointNamed(t, run, "arm.tip"))), exact, "the tip")
		}
	}
}
