package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// anySpace draws parts of any kind, held by rods and joints between whatever points, mostly too
// few or too many, and often on one line, in one plane or in one place, as drawings have it.
func anySpace(random *rand.Rand) drawing {
	// Places lie on a coarse grid, so that many coincide.
	place := func() vec {
		v := at3(float64(random.IntN(4)*40), float64(random.IntN(4)*40), 0)
		if random.IntN(3) > 0 {
			v.Z = float64(random.IntN(3)*40 - 40)
		}
		return v
	}
	way := func() *vec {
		return ref([]vec{at(1, 0), at(0, 1), at3(0, 0, 1), at(1, 2)}[random.IntN(4)])
	}
	var d drawing
	points := map[string]vec{}
	var names []string
	add := func(b *body, point string, at vec) {
		b.points = append(b.points, spot{point, at})
		points[b.name+"."+point] = at
		names = append(names, b.name+"."+point)
	}
	air := body{name: "air", fixed: true}
	for i := range 5 {
		add(&air, fmt.Sprintf("p%d", i), place())
	}
	d.bodies = append(d.bodies, air)
	freedoms := -1
	for i := range 2 + random.IntN(4) {
		b := body{name: fmt.Sprintf("m%d", i)}
		kind := random.IntN(6)
		if i == 0 {
			kind = random.IntN(2)
		}
		if kind != 1 {
			b.axis = way()
		}
		switch {
		case kind == 1:
			b.slide = way()
		case kind == 4:
			b.roams = true
		case i > 0 && kind != 5 && random.IntN(2) == 0:
			b.on = names[random.IntN(len(names))]
		default:
			b.pivot = ref(place())
		}
		b.ball, b.sleeve = kind == 2 || kind == 3, kind == 5
		freedoms += b.unknowns()
		for k := range 3 {
			at := place()
			if random.IntN(3) == 0 {
				at = points[names[random.IntN(len(names))]]
			}
			add(&b, fmt.Sprintf("p%d", k), at)
		}
		d.bodies = append(d.bodies, b)
	}
	// As many equations as freedoms, more or less.
	for k := 0; freedoms > random.IntN(3)-1 && k < 30; k++ {
		one, other := names[random.IntN(len(names))], names[random.IntN(len(names))]
		if one[:3] == other[:3] {
			continue // of one part
		}
		if distance(points[one], points[other]) == 0 {
			d.pins = append(d.pins, [2]string{one, other})
			freedoms -= 3
			continue
		}
		r := bar{name: fmt.Sprintf("r%d", k), from: one, to: other}
		if random.IntN(5) == 0 {
			r.length = distance(points[one], points[other]) + random.NormFloat64()
		}
		d.bars = append(d.bars, r)
		freedoms--
	}
	last := d.bodies[len(d.bodies)-1]
	return d.with(control("m0", -30, 30), fmt.Sprintf("output \"out\" {\n  of = %s.p%d\n  along = %s\n}\n", last.name, random.IntN(3), write(*way())),
		"require \"over-center\" { least = 2 }\n", "require \"rod-angle\" { least = 20 }\n")
}

// differences are those of the model's equations by its unknowns, in sizes of the drawing.
func (m *model) differences(hand float64, x []float64) *mat.Dense {
	jacobian := mat.NewDense(m.equations(), m.n, nil)
	lengths := make([]float64, len(m.d.bars))
	scale := m.scales()
	u := make([]float64, m.n)
	for i := range u {
		u[i] = x[i] / scale[i]
	}
	fd.Jacobian(jacobian, func(y, u []float64) { m.off(y, lengths, hand, m.unscaled(u)) }, u, &fd.JacobianSettings{Formula: fivePoints, Step: 5e-4})
	return jacobian
}

// unscaled are unknowns from what compares.
func (m *model) unscaled(u []float64) []float64 {
	z := slices.Clone(u)
	for i, k := range m.scales() {
		z[i] *= k
	}
	return z
}

// noRate is the singular value below which the differences of equations tell none.
const noRate = 1e-7

// rank is that of the differences as drawn.
func (m *model) rank() (rank int) {
	var svd mat.SVD
	if m.n == 0 || m.equations() == 0 || !svd.Factorize(m.differences(0, make([]float64, m.n)), mat.SVDNone) {
		return 0
	}
	for _, v := range svd.Values(nil) {
		if v > noRate {
			rank++
		}
	}
	return rank
}

// looseMoves returns how fast a point can move with the control held, where the rods and joints of a model
// leave motions, at most, by the null space of their differences; sizes of the drawing a radian or size.
func (m *model) looseMoves(name string, hand float64, x []float64) (most float64) {
	scale := m.scales()
	u := make([]float64, m.n)
	for i := range u {
		u[i] = x[i] / scale[i]
	}
	moves := mat.NewDense(3, m.n, nil)
	fd.Jacobian(moves, func(y, u []float64) {
		p := m.end(name, hand, m.unscaled(u)).Scale(1 / m.size)
		y[0], y[1], y[2] = p.X, p.Y, p.Z
	}, u, &fd.JacobianSettings{Formula: fivePoints, Step: 5e-4})
	jacobian := m.differences(hand, x)
	var svd mat.SVD
	if !svd.Factorize(jacobian, mat.SVDFull) {
		return 0
	}
	var v mat.Dense
	svd.VTo(&v)
	values := svd.Values(nil)
	for k := range m.n {
		if k < len(values) && values[k] > noRate {
			continue
		}
		var w mat.VecDense
		w.MulVec(moves, v.ColView(k))
		most = math.Max(most, mat.Norm(&w, 2))
	}
	return most
}

// TestHuntAnySpace: whatever stands in a file of parts in space, it is refused in words or answered
// with finite figures; where it is answered rods and joints hold, and nothing that is left loose
// moves the output.
func TestHuntAnySpace(t *testing.T) {
	answered := 0
	hunt.Each(t, 125, func(t *testing.T, random *rand.Rand) {
		d := anySpace(random)
		text := d.text()
		run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)})
		if err != nil {
			return
		}
		m, err := solve.Compile(run)
		if err != nil {
			require.NotContains(t, err.Error(), "NaN", text)
			// What is told loose or too many is so.
			free := newModel(d, "m0")
			if strings.Contains(err.Error(), "with the controls held") {
				require.Less(t, free.rank(), free.n, "%v\n%s", err, text)
			}
			if regexp.MustCompile("close the same loop|hold the same twice|joins what can't move").MatchString(err.Error()) {
				require.Less(t, free.rank(), free.equations(), "%v\n%s", err, text)
			}
			if strings.Contains(err.Error(), "as drawn though the count is right") {
				require.Less(t, free.rank(), free.n, "%v\n%s", err, text)
			}
			return
		}
		point := run.Outputs[0].Point
		free := newModel(d, "m0")
		result, err := m.Check()
		require.NoError(t, err, text)
		allFinite(t, reflect.ValueOf(result.Requirements), text)
		answered++
		for _, sweep := range result.Sweeps {
			allFinite(t, reflect.ValueOf(sweep.Parts), text)
			allFinite(t, reflect.ValueOf(sweep.Outputs), text)
			allFinite(t, reflect.ValueOf(sweep.Critical), text)
			for k := range 9 {
				x := sweep.Explored[0] + (sweep.Explored[1]-sweep.Explored[0])*float64(k)/8
				pose := solveAt(t, sweep, math.Min(x, sweep.Explored[1]))
				if k == 4 && free.n > 0 { // the output is held
					require.Less(t, free.looseMoves(point.String(), free.hand(sweep.Explored[0]+(sweep.Explored[1]-sweep.Explored[0])*0.5), free.fromPose(pose, run)), 1e-6, text)
				}
				for _, r := range run.Rods {
					near(t, r.Length, distance(pose.Point(r.From), pose.Point(r.To)), 1e-12*run.Size(), text)
				}
				for _, j := range run.Joints {
					near(t, 0, distance(pose.Point(j.Of[0]), pose.Point(j.Of[1])), 1e-12*run.Size(), text)
				}
			}
		}
	})
	t.Logf("%d answered", answered)
}
