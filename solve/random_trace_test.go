package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

const (
	// foldPlace is how closely, degrees, the tracer finds where a control turns
	// back: its derivatives are differences.
	foldPlace = 1e-6
	// foldPose is how closely it finds the pose there, sizes of the drawing: the
	// root of the former.
	foldPose = 2e-4
	// tracedPose is the same where the curve is regular.
	tracedPose = 1e-6
)

// TestHuntBranches: every pose is reached continuously from the drawn one, the
// travel ends in a toggle where the curve folds and nowhere else, and the pose
// told there is the one on the curve. The tracer, which knows the rods' distances
// alone, is the judge.
func TestHuntBranches(t *testing.T) {
	judged, folds := 0, 0
	hunt.Each(t, 30, func(t *testing.T, random *rand.Rand) {
		var d drawing
		if kind := random.IntN(len(manyLoops) + 7); kind < len(manyLoops) {
			d = manyLoops[kind].draw(random)
		} else {
			d = randomNet(random)
		}
		d = d.scaled(anySize(random))
		low, high := -5-75*random.Float64(), 5+75*random.Float64()
		text := d.with(control("lever", low, high)).text()
		run, m := compiled(text)
		if m == nil {
			return // it doesn't close as set
		}
		s, err := m.Sweep(run.Controls[0], nil)
		require.NoError(t, err)
		tr := newTracer(newModel(d, "lever"))
		origin, ok := s.At(0)
		require.True(t, ok)
		start, ok := tr.m.step(0, tr.m.fromPose(origin, run))
		if !ok {
			return
		}
		for side, limit := range []float64{low, high} {
			out := tr.trace(start, limit)
			judged++
			if out.folds {
				folds++
			}
			assertTraced(t, tr, out, run, s, side, text)
		}
	})
	t.Logf("%d sides judged, %d of them end in a fold", judged, folds)
}

// TestHuntDeadCenters: wherever the tracer sees a hinge or slide on the airframe, or
// an output, turn back, a dead center is told there; and what one tells of turns
// back there.
func TestHuntDeadCenters(t *testing.T) {
	seen, told := 0, 0
	hunt.Each(t, 30, func(t *testing.T, random *rand.Rand) {
		var d drawing
		if kind := random.IntN(len(manyLoops) + 14); kind < len(manyLoops) {
			d = manyLoops[kind].draw(random)
		} else {
			d = randomNet(random)
		}
		b := d.bodies[random.IntN(len(d.bodies))]
		for b.fixed || b.name == "lever" && random.IntN(4) > 0 {
			b = d.bodies[random.IntN(len(d.bodies))]
		}
		watched := b.name + "." + b.points[random.IntN(len(b.points))].name
		along := polar(1, 360*random.Float64())
		d = d.with(fmt.Sprintf("output \"tip\" {\n  of = %s\n  along = %s\n}\n", watched, write(along)))
		low, high := -5-75*random.Float64(), 5+75*random.Float64()
		text := d.with(control("lever", low, high)).text()
		run, m := compiled(text)
		if m == nil {
			return // it doesn't close as set
		}
		s, err := m.Sweep(run.Controls[0], nil)
		require.NoError(t, err)
		tr := newTracer(newModel(d, "lever"))
		origin, ok := s.At(0)
		require.True(t, ok)
		start, ok := tr.m.step(0, tr.m.fromPose(origin, run))
		if !ok {
			return
		}
		// rates are how fast what may turn back moves with the control, by name.
		rates := func(p place) map[string]float64 {
			n := tr.m.n
			out := make(map[string]float64)
			for i, b := range d.bodies {
				if o := tr.m.offset[i]; o >= 0 && b.on == "" && (b.pivot != nil || b.slide != nil) && b.unknowns() == 1 {
					out[b.name] = p.tangent[o] / p.tangent[n]
				}
			}
			const by = 1e-6
			reading := func(by float64) float64 {
				q := place{y: slices.Clone(p.y)}
				for i := range q.y {
					q.y[i] += by * p.tangent[i]
				}
				return tr.m.end(watched, q.y[n]*tr.scale[n], tr.unknowns(q)).Dot(along) / tr.m.size
			}
			out["tip"] = (reading(by) - reading(-by)) / (2 * by) / p.tangent[n]
			return out
		}
		for _, limit := range []float64{low, high} {
			out := tr.trace(start, limit)
			regular := out.places
			if out.folds && len(regular) > 0 {
				regular = regular[:len(regular)-1]
			}
			for i := 1; i < len(regular); i++ {
				before, after := rates(regular[i-1]), rates(regular[i])
				from, to := tr.hand(regular[i-1]), tr.hand(regular[i])
				here := func(c solve.Critical) bool {
					return c.Kind == solve.DeadCenter && c.At >= math.Min(from, to)-foldPlace && c.At <= math.Max(from, to)+foldPlace
				}
				for name := range before {
					if before[name]*after[name] >= 0 || math.Min(math.Abs(before[name]), math.Abs(after[name])) < surelyMoves {
						continue
					}
					seen++
					require.True(t, slices.ContainsFunc(s.Critical, here), "%s turns back between %v and %v: %v\n%s", name, from, to, s.Critical, text)
				}
				for _, c := range s.Critical {
					b, known := before[c.Name()]
					if !here(c) || !known || c.At < math.Min(from, to)+foldPlace || c.At > math.Max(from, to)-foldPlace {
						continue
					}
					told++
					require.True(t, b*after[c.Name()] < 0 || math.Min(math.Abs(b), math.Abs(after[c.Name()])) < surelyMoves,
						"%s is told to turn back at %v, and goes by %v and %v\n%s", c.Name(), c.At, b, after[c.Name()], text)
				}
			}
		}
	})
	t.Logf("%d turns back seen, %d told ones held against them", seen, told)
}

// surelyMoves is the rate, sizes of the drawing a radian, above which the tracer's
// rates surely have their sign.
const surelyMoves = 1e-6

// compiled is a text as a mechanism; nil where it is refused.
func compiled(text string) (*linkage.Run, *solve.Mechanism) {
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)})
	if err != nil {
		return nil, nil
	}
	m, err := solve.Compile(run)
	if err != nil {
		return nil, nil
	}
	return run, m
}

// fromStand are the unknowns of a position that the solver tells.
func (m *model) fromPose(st *solve.Pose, run *linkage.Run) []float64 {
	x := make([]float64, m.n)
	for _, p := range run.Parts {
		i, ok := m.index[p.Name]
		if !ok || m.offset[i] < 0 {
			continue
		}
		b, o := m.d.bodies[i], m.offset[i]
		switch {
		case b.roams:
			first := b.points[0].at
			shift := st.Place(p, first).Sub(first)
			copy(x[o:], []float64{shift.X, shift.Y, shift.Z})
			copy(x[o+3:], rotationOf(st, p))
		case b.ball:
			copy(x[o:], rotationOf(st, p))
		case b.sleeve:
			turned := rotationOf(st, p)
			x[o] = st.Place(p, *b.pivot).Sub(*b.pivot).Dot(b.axis.Unit())
			x[o+1] = at3(turned[0], turned[1], turned[2]).Dot(b.axis.Unit())
		case b.slide != nil:
			x[o] = st.Travel(p)
		case b.pivot != nil:
			x[o] = rad(st.Travel(p))
		case b.on != "":
			axis := at3(0, 0, 1)
			if b.axis != nil {
				axis = b.axis.Unit()
			}
			turned := rotationOf(st, p) // any turn from the carrier's that brings the point there
			x[o] = at3(turned[0], turned[1], turned[2]).Dot(axis)
		default:
			first := b.points[0].at
			now := st.Place(p, first)
			x[o], x[o+1], x[o+2] = now.X-first.X, now.Y-first.Y, rad(st.Travel(p))
		}
	}
	return x
}

// rotationOf is the rotation vector of a part against what carries it.
func rotationOf(st *solve.Pose, p *linkage.Part) []float64 {
	turned := func(p *linkage.Part) (columns [3]vec) {
		for i, u := range []vec{at(1, 0), at(0, 1), at3(0, 0, 1)} {
			columns[i] = st.Place(p, u).Sub(st.Place(p, vec{}))
		}
		return columns
	}
	r := turned(p)
	if p.Carrier != nil && p.Carrier.Part.Motion != linkage.Fixed {
		c := turned(p.Carrier.Part)
		for i, u := range r {
			r[i] = at3(c[0].Dot(u), c[1].Dot(u), c[2].Dot(u))
		}
	}
	// The antisymmetric part is the axis times the sine, the trace 1 + 2 cosines.
	k := at3(r[1].Z-r[2].Y, r[2].X-r[0].Z, r[0].Y-r[1].X).Scale(0.5)
	angle := math.Atan2(k.Norm(), (r[0].X+r[1].Y+r[2].Z-1)/2)
	if k.Norm() > 0 {
		k = k.Scale(angle / k.Norm())
	}
	return []float64{k.X, k.Y, k.Z}
}

func assertTraced(t *testing.T, tr *tracer, out traced, run *linkage.Run, s *solve.Sweep, side int, text string) {
	t.Helper()
	end := s.Explored[side]
	if len(out.places) == 0 {
		return
	}
	last := tr.hand(out.places[len(out.places)-1])
	if out.folds {
		near(t, last, end, foldPlace*math.Max(1, math.Abs(last)), "where it folds\n"+text)
		assert.Equal(t, solve.ByToggle, s.Ends[side].Cause, "a fold\n%s", text)
		comparePlace(t, tr, out.places[len(out.places)-1], run, s, end, foldPose, text)
	} else {
		assert.False(t, math.Abs(end) < math.Abs(last)-foldPlace, "it goes on to %v, explored %v (lost %v)\n%s", last, s.Explored, s.Lost, text)
	}
	for i := 1; i < len(out.places)-1; i += 1 + len(out.places)/12 {
		if x := tr.hand(out.places[i]); math.Abs(x) < math.Abs(end) {
			comparePlace(t, tr, out.places[i], run, s, x, tracedPose/math.Min(1, math.Abs(out.places[i].tangent[tr.m.n])), text)
		}
	}
}

// comparePlace compares the place of every point.
func comparePlace(t *testing.T, tr *tracer, p place, run *linkage.Run, s *solve.Sweep, x, tolerance float64, text string) {
	t.Helper()
	st, ok := s.At(x)
	if !assert.True(t, ok, "it closes at %v, explored %v\n%s", x, s.Explored, text) {
		return
	}
	hand, unknowns := p.y[tr.m.n]*tr.scale[tr.m.n], tr.unknowns(p)
	for _, part := range run.Parts {
		i, ok := tr.m.index[part.Name]
		if !ok {
			continue
		}
		for _, spot := range tr.m.d.bodies[i].points {
			got, want := st.Place(part, spot.at), tr.m.place(i, spot.at, hand, unknowns)
			if off := distance(got, want) / tr.m.size; !assert.LessOrEqual(t, off, tolerance, fmt.Sprintf("%s.%s at %v: %v, traced %v\n%s", part.Name, spot.name, x, got, want, text)) {
				return
			}
		}
	}
}
