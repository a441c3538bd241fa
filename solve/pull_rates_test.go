package solve

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// drawnUp is a run with a pair, as text, and by how much its cables are taken up.
type drawnUp struct {
	text  string
	taken [2]float64
}

// randomPair is a pair between a lever and a bellcrank, or a slide that it pulls
// up and down, in conduits or open, with arms of different lengths, and its conduits
// held on a part that moves where it rides.
func randomPair(r *rand.Rand, open, slides, rides bool, slack float64) drawnUp {
	some := func(of, spread float64) float64 { return of + spread*(2*r.Float64()-1) }
	held := "frame"
	if rides {
		held = "carriage"
	}
	driven := fmt.Sprintf("part \"crank\" {\n pivot = [1000, 0]\n points = { up = [%v, %v], down = [%v, %v] }\n}\n",
		some(1000, 15), some(60, 20), some(1000, 15), some(-60, 20))
	if slides {
		driven = fmt.Sprintf("part \"crank\" {\n slide = [0.2, 1, 0]\n points = { up = [%v, %v], down = [%v, %v] }\n}\n",
			some(1000, 5), some(60, 20), some(1000, 5), some(-60, 20))
	}
	text := fmt.Sprintf(`run "pair" {
  units = "mm"
}
fixed "frame" {
  points = { up = [%v, %v], down = [%v, %v], aft = [%v, %v, %v], low = [%v, %v], far = [400, -300] }
}
part "lever" {
  pivot  = [0, 0]
  points = { up = [0, %v], down = [%v, %v], eye = [0, -70] }
}
part "carriage" {
  pivot  = [690, 0]
  points = { aft = [%v, %v], low = [%v, %v], eye = [690, -140] }
}
rod "drag" {
  from = lever.eye
  to   = carriage.eye
}
%s
control "hand" {
  of   = lever
  from = -40
  to   = 40
}
output "out" {
  of = crank%s
}
`, some(300, 30), some(60, 20), some(300, 30), some(-60, 20), some(700, 30), some(60, 20), some(0, 20), some(700, 30), some(-60, 20),
		some(60, 20), some(0, 10), some(-60, 20),
		some(700, 30), some(60, 20), some(700, 30), some(-60, 20), driven,
		map[bool]string{true: ".up\n  along = [1, 3]"}[slides])
	d := drawnUp{taken: [2]float64{some(0, 1) - slack, some(0, 1) - slack}}
	k := [2]float64{some(40, 20), some(40, 20)}
	if open {
		text += fmt.Sprintf(`cable "a" {
  from = lever
  to = crank
  radius = [%v, %v]
  winds = ["up", "down"]
  stiffness = %v
}
cable "b" {
  from = lever
  to = crank
  radius = [%v, %v]
  winds = ["down", "up"]
  stiffness = %v
}
`, some(60, 5), some(55, 5), k[0], some(60, 5), some(55, 5), k[1])
	} else {
		mouths := [2]string{held + ".aft", held + ".low"}
		if slides {
			mouths = [2]string{"frame.above", "frame.below"}
		}
		text += fmt.Sprintf(`cable "a" {
  from = lever.up
  to = crank.up
  conduit = [frame.up, %s]
  stiffness = %v
}
cable "b" {
  from = lever.down
  to = crank.down
  conduit = [frame.down, %s]
  stiffness = %v
}
`, mouths[0], k[0], mouths[1], k[1])
	}
	d.text = text + fmt.Sprintf("pair \"pull\" {\n cables = [a, b]\n pretension = %v\n}\n", some(100, 30))
	if slides {
		d.text = strings.Replace(d.text, "far = [400, -300]", fmt.Sprintf("far = [400, -300], above = [%v, %v, 30], below = [%v, %v]", some(1000, 40), some(300, 20), some(1000, 40), some(-300, 20)), 1)
	}
	return d
}

// pulled compiles a run with a pair, its cables taken up.
func pulled(t testing.TB, d drawnUp) *Mechanism {
	t.Helper()
	m := compiled(t, d.text)
	for i, c := range m.run.Cables {
		c.Taken = d.taken[i]
	}
	m, err := Compile(m.run)
	require.NoError(t, err, "%s", d.text)
	return m
}

// TestRatesOfPairs compares every rate that a pair has with differences of the
// poses beside it, taut and slack.
func TestRatesOfPairs(t *testing.T) {
	const seed = 1
	r := rand.New(rand.NewPCG(seed, seed))
	poses := [2]int{}
	for n := range 60 {
		open, slides := n%3 == 0, n%3 == 1
		slack := 0.0
		if n%2 == 1 {
			slack = 6
		}
		d := randomPair(r, open, slides, n%3 == 2 && n%4 < 2, slack)
		m := pulled(t, d)
		p := m.newPath(m.run.Controls[0])
		p.addSines()
		tension := [2]int{p.addTension(0, 0), p.addTension(0, 1)}
		free := p.addFree(0)
		f := m.pulls[0].freedom
		for x := -18.0; x <= 18; x += 3.1 {
			const h = 1e-3
			var s [3]*sample
			closes, guess := true, m.neutral.q
			for at := 0.0; closes && math.Abs(at) < math.Abs(x)-1; at += math.Copysign(1, x) {
				closes = p.solve(at, guess) == allClosed
				guess = slices.Clone(p.st.q)
			}
			for i, at := range []float64{x - h, x, x + h} {
				if closes = closes && p.solve(at, guess) == allClosed; closes {
					s[i] = p.take(at)
				}
			}
			if !closes || s[0].slack[0] != s[2].slack[0] {
				continue
			}
			poses[map[bool]int{true: 1}[s[1].slack[0]]]++
			about := func(what string) string {
				return fmt.Sprintf("%s: seed %d, run %d at %v:\n%s", what, seed, n, x, d.text)
			}
			slope := (s[2].q[f] - s[0].q[f]) / (2 * h)
			bend := (s[2].d[f] - s[0].d[f]) / (2 * h)
			size := m.sizeOf(f)
			require.InDelta(t, slope/size, s[1].d[f]/size, 1e-8, about("rate"))
			require.InDelta(t, bend/size, s[1].dd[f]/size, 1e-8, about("second rate"))
			for _, probe := range []int{m.pulls[0].constraint, p.sumOf(0), tension[0], tension[1], free} {
				rate := (s[2].v[probe] - s[0].v[probe]) / (2 * h)
				require.InDelta(t, rate, s[1].dv[probe], 1e-6*math.Max(1, math.Abs(rate)), about(fmt.Sprint("probe ", probe)))
			}
		}
	}
	require.Greater(t, poses[0], 100, "taut")
	require.Greater(t, poses[1], 100, "slack")
}

// inLoop and openInLoop are runs in which a cable that acts alone closes a loop together
// with rods: a conduit cable with both ends in the loop, and an open one.
const inLoop = `run "loop" {
  units = "mm"
}
fixed "frame" {
  points = { a = [0, 200], b = [250, 260], in = [150, -60], out = [420, 20] }
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [0, 80], eye = [40, -60] }
}
part "beam" {
  points = { a = [100, 90], b = [240, 110], c = [330, 130] }
}
rod "drives" {
  from = lever.pin
  to   = beam.a
}
rod "holds" {
  from = beam.b
  to   = frame.b
}
cable "core" {
  from    = lever.eye
  to      = beam.c
  conduit = [frame.in, frame.out]
  pushes  = true
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
`

const openInLoop = `run "loop" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [0, 80] }
}
part "left" {
  pivot  = [200, 0]
  points = { pin = [260, 10] }
}
part "right" {
  pivot  = [420, 0]
  points = { pin = [470, 15] }
}
part "beam" {
  points = { a = [100, 90], b = [265, 180], c = [465, 170] }
}
rod "drives" {
  from = lever.pin
  to   = beam.a
}
rod "one" {
  from = beam.b
  to   = left.pin
}
rod "two" {
  from = beam.c
  to   = right.pin
}
fixed "frame" {
  points = { far = [110, 250] }
}
rod "three" {
  from = beam.a
  to   = frame.far
}
cable "round" {
  from   = left
  to     = right
  radius = [30, 36]
  winds  = ["up", "up"]
  spring = "plus"
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
`

// TestRatesOfCablesInLoops compares the rates of blocks with cables in them with
// differences.
func TestRatesOfCablesInLoops(t *testing.T) {
	run, err := linkage.Read(&linkage.Source{Name: "loop.hcl", Text: []byte(openInLoop)})
	require.NoError(t, err)
	_, err = Compile(run)
	require.ErrorContains(t, err, `the cable "round", which only pulls, closes a loop with others`)
	run.Cables[0].Spring = "" // so that what its rates are can be seen
	open, err := Compile(run)
	require.NoError(t, err)
	for _, m := range []*Mechanism{compiled(t, inLoop), open} {
		p := m.newPath(m.run.Controls[0])
		p.addSines()
		guess := m.neutral.q
		for x := 0.0; x < 15; x += 0.7 {
			const h = 1e-3
			var s [3]*sample
			for i, at := range []float64{x - h, x, x + h} {
				require.Equal(t, allClosed, p.solve(at, guess))
				s[i] = p.take(at)
			}
			guess = s[2].q
			for f := range s[1].q {
				size := m.sizeOf(f)
				slope := (s[2].q[f] - s[0].q[f]) / (2 * h) / size
				require.InDelta(t, slope, s[1].d[f]/size, 1e-8+1e-5*math.Abs(slope), "%v", x)
				bend := (s[2].d[f] - s[0].d[f]) / (2 * h) / size
				require.InDelta(t, bend, s[1].dd[f]/size, 1e-8+1e-4*math.Abs(bend), "%v", x)
			}
			for probe := range m.constraints {
				rate := (s[2].v[probe] - s[0].v[probe]) / (2 * h)
				require.InDelta(t, rate, s[1].dv[probe], 1e-7+1e-4*math.Abs(rate), "%s at %v", m.constraints[probe].name(), x)
			}
		}
	}
}
