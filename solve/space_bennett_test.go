package solve_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// bennett is a loop of four hinges whose axes neither meet nor are parallel, and which moves
// all the same, where a sin(beta) = b sin(alpha): a, b are the lengths of its links in turn, alpha,
// beta the twists of their axes. By the count it is held twice too often (textbook, from memory).
type bennett struct{ a, alpha, b, beta float64 }

// frame is where a link stands: the origin and the directions of a frame of three.
type frame struct{ o, x, y, z vec }

func (f frame) out(length, twist float64) frame {
	g := frame{f.o.Add(f.x.Scale(length)), f.x, rotate(f.y, f.x, twist), rotate(f.z, f.x, twist)}
	return g
}

func (f frame) turned(angle float64) frame {
	return frame{f.o, rotate(f.x, f.z, angle), rotate(f.y, f.z, angle), f.z}
}

// second is the second hinge's angle for the first's.
func (b bennett) second(first float64) float64 {
	k := math.Sin(rad(b.beta+b.alpha)/2) / math.Sin(rad(b.beta-b.alpha)/2)
	return deg(2 * math.Atan(k/math.Tan(rad(first)/2)))
}

// axes are the four hinges as it stands at an angle of the first, and the first once more, reached
// round the loop.
func (b bennett) axes(first float64) (list [5]frame) {
	second := b.second(first)
	f := frame{vec{}, at(1, 0), at(0, 1), at3(0, 0, 1)}
	list[0] = f
	f = f.turned(first).out(b.a, b.alpha)
	list[1] = f
	f = f.turned(second).out(b.b, b.beta)
	list[2] = f
	f = f.turned(-first).out(b.a, b.alpha)
	list[3] = f
	list[4] = f.turned(-second).out(b.b, b.beta)
	return list
}

// file draws three moving links; joined holds the second to the third at their hinge.
func (b bennett) file(first float64, joined string) string {
	h := b.axes(first)
	p, q := h[2].o, h[2].o.Add(h[2].z.Scale(20))
	v := strings.NewReplacer("AXIS2", write(h[1].z), "PIVOT2", write(h[1].o), "AXIS4", write(h[3].z), "PIVOT4", write(h[3].o), "PP", write(p), "QQ", write(q),
		"FAR1", write(p.Add(at3(30, 5, -7))), "FAR2", write(p.Add(at3(-6, 40, 8))), "FAR3", write(p.Add(at3(4, -7, 35))),
		"FAR4", write(q.Add(at3(3, 33, -9))), "FAR5", write(q.Add(at3(-25, -5, 12))))
	return v.Replace(`run "four hinges" {
  units = "mm"
}
part "first" {
  pivot  = [0, 0, 0]
  axis   = [0, 0, 1]
  points = { hinge = PIVOT2 }
}
part "second" {
  pivot  = first.hinge
  axis   = AXIS2
  points = { p = PP, q = QQ }
}
part "third" {
  pivot  = PIVOT4
  axis   = AXIS4
  points = { p = PP, q = QQ, f1 = FAR1, f2 = FAR2, f3 = FAR3, f4 = FAR4, f5 = FAR5 }
}
` + joined + `
control "hand" {
  of   = first
  from = -40
  to   = 40
}
output "angle" {
  of = third
}
`)
}

const jointsAtHinge = "joint \"jp\" {\n  of = [second.p, third.p]\n}\njoint \"jq\" {\n  of = [second.q, third.q]\n}\n"

// Held twice too often by the count, it is refused, whether it would really move, or is
// off by hairs or by a lot.
func TestBennettRefused(t *testing.T) {
	exactly := bennett{100, 35, 100 * math.Sin(rad(60)) / math.Sin(rad(35)), 60}
	for _, first := range []float64{60, 100} {
		round := exactly.axes(first)[4]
		require.InDelta(t, 0, distance(round.o, vec{})+distance(round.z, at3(0, 0, 1)), 1e-12)
		for _, off := range []float64{0, 1e-12, 1e-9, 1e-6, 1e-3, 1} {
			b := exactly
			b.b += off
			for _, joined := range []string{
				jointsAtHinge,
				"joint \"jp\" {\n  of = [second.p, third.p]\n}\n",
				"joint \"jp\" {\n  of = [second.p, third.p]\n}\nrod \"r\" {\n  from = second.q\n  to = third.f5\n}\n",
			} {
				told := refusal(t, b.file(first, joined))
				require.Regexp(t, "close the same loop|joins what can't move apart or is held already", told, "off by %v", off)
				require.Contains(t, told, `"jp"`)
			}
			// The second link loose in space, with a joint at each of two places of both its hinges.
			text := strings.Replace(b.file(first, jointsAtHinge), "pivot  = first.hinge\n  axis   = ", "floats = \"space\"\n  square-to = ", 1)
			text = strings.Replace(text, "points = { p", "points = { h = "+write(b.axes(first)[1].o)+", p", 1)
			told := refusal(t, text+"joint \"jh\" {\n  of = [first.hinge, second.h]\n}\n")
			require.Contains(t, told, "close the same loop", "off by %v", off)
		}
	}
}

// Of the five rods that make a hinge two drive and three go along as second paths. Those fit
// all through the travel where it is exactly such a loop, and by the difference where it isn't.
func TestBennettSecondPaths(t *testing.T) {
	rods := func() string {
		var b strings.Builder
		for i, ends := range [][2]string{{"p", "f1"}, {"p", "f2"}, {"p", "f3"}, {"q", "f4"}, {"q", "f5"}} {
			fmt.Fprintf(&b, "rod \"r%d\" {\n  from = second.%s\n  to = third.%s\n", i, ends[0], ends[1])
			if i >= 2 {
				b.WriteString("  second-path = true\n")
			}
			b.WriteString("}\n")
		}
		return b.String()
	}()
	exactly := bennett{100, 35, 100 * math.Sin(rad(60)) / math.Sin(rad(35)), 60}
	for _, off := range []float64{0, 0.01, 3} {
		b := exactly
		b.b += off
		run, sweep := sweepOf(t, b.file(80, rods))
		worst := 0.0
		for _, r := range sweep.Rods {
			if r.SecondPath != nil {
				worst = math.Max(worst, r.SecondPath.Misfit)
			}
		}
		if off > 0 {
			require.Greater(t, worst, off/100)
			continue
		}
		require.Less(t, worst, 1e-9)
		require.Equal(t, [2]float64{-40, 40}, [2]float64{sweep.Low, sweep.High})
		// The opposite hinge turns by the second's angle, as drawn counted the other way.
		for x := -40.0; x <= 40; x += 5 {
			near(t, 0, math.Remainder(solveAt(t, sweep, x).Reading(run.Outputs[0])-(exactly.second(80+x)-exactly.second(80)), 360), 1e-8, "opposite hinge")
		}
	}
}
