package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// gradientSteps are by how much the tests change a number to find a derivative,
// shares of the run's size: differences of the fourth order. Where what both tell
// disagrees, the differences are no judge.
var gradientSteps = [2]float64{2e-3, 1e-3}

// gradientAgrees is by how much a gradient may miss what rebuilt runs tell, as a
// share of the largest derivative of that quantity or of itself.
const gradientAgrees = 1e-6

// drawnRun is a run's file, with how far its cables are taken up.
type drawnRun struct {
	text  string
	taken []float64
}

func (d drawnRun) read(set ...linkage.Setting) (*linkage.Run, error) {
	run, err := linkage.Read(&linkage.Source{Name: "random.hcl", Text: []byte(d.text)}, set...)
	if err == nil {
		for i, v := range d.taken {
			run.Cables[i].Taken = v
		}
	}
	return run, err
}

// sweeps sweeps the run of the file with a number set: of all sweeps the one given,
// or every one where that is negative. nil where it is refused.
func (d drawnRun) sweeps(sweep *solve.Sweep, set ...linkage.Setting) (run *linkage.Run, list []*solve.Sweep) {
	run, err := d.read(set...)
	if err != nil {
		return nil, nil
	}
	m, err := solve.Compile(run)
	if err != nil {
		return nil, nil
	}
	if sweep != nil {
		var held []solve.Held
		for _, h := range sweep.Held {
			held = append(held, solve.Held{Control: run.Controls[h.Control.Index], At: h.At})
		}
		w, err := m.Sweep(run.Controls[sweep.Control.Index], held)
		if err != nil {
			return nil, nil
		}
		return run, []*solve.Sweep{w}
	}
	result, err := m.Check()
	if err != nil {
		return nil, nil
	}
	return run, result.Sweeps
}

// by is how the value of a series at x changes with a number, from runs read
// again; false where these are no judge.
func (d drawnRun) by(name string, value, size float64, sweep *solve.Sweep, series int, x float64) (slope float64, ok bool) {
	at := func(by float64) float64 {
		_, list := d.sweeps(sweep, linkage.Setting{Dimension: name, Value: strconv.FormatFloat(value+by, 'f', -1, 64)})
		if len(list) == 0 {
			return math.NaN()
		}
		if now := list[0].Series(); len(now) != len(sweep.Series()) || now[series].Name != sweep.Series()[series].Name {
			return math.NaN() // a pair went slack somewhere, or no more
		}
		p, ok := list[0].Sample(x)
		if !ok || p.Values[series] == nil {
			return math.NaN()
		}
		return *p.Values[series]
	}
	var told [2]float64
	for i, share := range gradientSteps {
		h := share * size
		told[i] = (8*(at(h)-at(-h)) - (at(2*h) - at(-2*h))) / (12 * h)
	}
	return told[1], math.Abs(told[0]-told[1]) <= 0.3*gradientAgrees*(math.Abs(told[1])+1e-3/size)
}

// compareGradients holds the gradients of some series at some places against runs
// read again with some of the numbers a little off, and returns how many were
// compared.
func compareGradients(t *testing.T, random *rand.Rand, d drawnRun, places, numbers int) (compared int) {
	run, list := d.sweeps(nil)
	if run == nil || len(list) == 0 {
		return 0
	}
	for range places {
		w := list[random.IntN(len(list))]
		series := w.Series()
		if len(series) == 0 {
			continue
		}
		i := random.IntN(len(series))
		low, high := w.Explored[0], w.Explored[1]
		x := low + (0.1+0.8*random.Float64())*(high-low)
		g, ok := w.Gradient(x, series[i])
		if !ok {
			continue
		}
		all := numbersOf(run, g)
		most := 1e-6
		for _, k := range all {
			require.False(t, math.IsNaN(k.got) || math.IsInf(k.got, 0))
			most = math.Max(most, math.Abs(k.got))
		}
		for range numbers {
			k := all[random.IntN(len(all))]
			want, ok := d.by(k.name, k.value, k.size, w, i, x)
			if !ok {
				continue
			}
			require.InDelta(t, want, k.got, gradientAgrees*math.Max(most, math.Abs(want)), "%s %s %s at %v by %s\n%s", series[i].Kind, series[i].Name, series[i].End, x, k.name, d.text)
			compared++
		}
	}
	return compared
}

// setNumber is one number of a file with what a gradient has of it. size is that to
// which changes of it are small.
type setNumber struct {
	name             string
	value, size, got float64
}

// numbersOf lists the numbers of a run that can be set.
func numbersOf(run *linkage.Run, g *solve.Gradient) (list []setNumber) {
	for i, d := range run.Dimensions() {
		list = append(list, setNumber{d.String(), d.Value(), run.Size(), g.Dimensions[i]})
	}
	for i, s := range run.Stops {
		if s.Of != nil {
			list = append(list, setNumber{s.Name + ".at", s.At, math.Abs(s.At) + 1, g.Stops[i]})
		}
	}
	for _, p := range run.Pairs {
		list = append(list, setNumber{p.Name + ".pretension", p.Pretension, p.Pretension, g.Pretension[p.Index]})
		for _, c := range p.Cables {
			list = append(list, setNumber{c.Name + ".stiffness", c.Stiffness, c.Stiffness, g.Stiffness[c.Index]})
		}
	}
	return list
}

// TestHuntGradientsOfDemos holds gradients in every demo against the demo read again.
func TestHuntGradientsOfDemos(t *testing.T) {
	for _, name := range demoNames(t) {
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(3, 1))
			require.Positive(t, compareGradients(t, random, drawnRun{text: demoText(t, name)}, 1+hunt.Rounds(), 1))
		})
	}
}

// TestHuntGradient holds gradients of random runs of every kind of block against
// the same runs read again.
func TestHuntGradient(t *testing.T) {
	compared := 0
	hunt.Each(t, 8, func(t *testing.T, random *rand.Rand) {
		d := drawnRun{}
		switch kind := random.IntN(len(manyLoops) + 4); {
		case kind < len(manyLoops):
			d.text = manyLoops[kind].draw(random).with(control("lever", -30, 30)).text()
		case kind < len(manyLoops)+2:
			d.text = randomNet(random).with(control("lever", -30, 30)).text()
		default:
			text, taken := spatialPair(random)
			d.text, d.taken = text, taken[:]
		}
		compared += compareGradients(t, random, d, 2, 2)
	})
	t.Logf("%d compared", compared)
}

// TestGradientOfAFourBar holds the gradient of a rocker's angle by all four lengths
// against values worked out outside (own values for the linkage d, a, b, c = 100,
// 40, 120, 80, crank at 40 degrees, unpublished).
func TestGradientOfAFourBar(t *testing.T) {
	const d, a, b, c = 100, 40, 120, 80
	pin := polar(a, 40)
	rocker := rockerOf(pin, at(d, 0), b, c)
	text := fmt.Sprintf(`run "four-bar" {
  units = "mm"
}
part "crank" {
  pivot = [0, 0]
  points = { pin = [%v, %v] }
}
part "rocker" {
  pivot = [%v, 0]
  arms = { pin = [%v, %v] }
}
rod "coupler" {
  from = crank.pin
  to = rocker.pin
  length = %v
}
control "hand" {
  of = crank
  from = -10
  to = 10
}
`, pin.X, pin.Y, d, rocker.X-d, rocker.Y, b)
	run, list := drawnRun{text: text}.sweeps(nil)
	require.Len(t, list, 1)
	g, ok := list[0].Gradient(0, list[0].Series()[1])
	require.True(t, ok)
	by := make(map[string]float64)
	for i, k := range run.Dimensions() {
		by[k.String()] = g.Dimensions[i]
	}
	along := func(part string, v vec) float64 {
		u := v.Unit()
		return u.X*by[part+".pin.x"] + u.Y*by[part+".pin.y"]
	}
	const known = 1e-6
	require.InDelta(t, 1.1154640, by["rocker.pivot.x"], known)
	require.InDelta(t, -1.1196936, along("crank", pin), known)
	require.InDelta(t, -1.1893185, by["coupler.length"], known)
	require.InDelta(t, 0.9494947, along("rocker", rocker.Sub(at(d, 0))), known)
}

// rockerOf is the place of the pin of a rocker above its crank.
func rockerOf(pin, pivot vec, b, c float64) vec {
	w := pin.Sub(pivot)
	r := w.Norm()
	along := (c*c - b*b + r*r) / (2 * r)
	across := math.Sqrt(c*c - along*along)
	u := w.Unit()
	return pivot.Add(u.Scale(along)).Add(at(u.Y, -u.X).Scale(across))
}
