package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/solve"
)

// turned returns where a direction of a part, as drawn, now points.
func turned(st *solve.Pose, part *linkage.Part, direction vec) vec {
	return st.Place(part, direction).Sub(st.Place(part, vec{}))
}

// tiltOf is the misalignment by its definition: the angle by which the rod
// stands out of square to that end's bolt.
func tiltOf(st *solve.Pose, rod *linkage.Rod, end linkage.PointRef) float64 {
	if end.Rod != nil {
		return 0 // on a rod of a plane run at its own height
	}
	bolt := end.Part.Axis
	if b := end.Get().Bolt; b != nil {
		bolt = *b
	}
	u := st.Point(rod.To).Sub(st.Point(rod.From)).Unit()
	return deg(math.Asin(math.Min(1, math.Abs(u.Dot(turned(st, end.Part, bolt))))))
}

// TestMisalignmentByDefinition: the most over the travel is the most of the
// samples, for every rod of runs in space.
func TestMisalignmentByDefinition(t *testing.T) {
	for name, d := range specimens() {
		_, s := sweepOf(t, d.text())
		for _, r := range s.Rods {
			if r.Rod.From.Rod != nil || r.Rod.To.Rod != nil {
				continue
			}
			from, to := 0.0, 0.0
			const steps = 400
			for i := range steps + 1 {
				st := solveAt(t, s, math.Min(s.High, s.Low+(s.High-s.Low)*float64(i)/steps))
				from, to = math.Max(from, tiltOf(st, r.Rod, r.Rod.From)), math.Max(to, tiltOf(st, r.Rod, r.Rod.To))
			}
			for end, c := range map[string][2]float64{"from": {from, r.TiltFrom}, "to": {to, r.TiltTo}} {
				about := fmt.Sprintf("%s: %s, %s", name, r.Rod.Name, end)
				assert.GreaterOrEqual(t, c[1], c[0]-1e-6, about) // asin at 0 takes the root of rounding
				near(t, c[0], c[1], 0.02, about)
			}
		}
	}
}

// TestRodAngleOfAHinge: for a hinge it is |u . (k x r)| / |r|, k the axis and r
// square from it to the point.
func TestRodAngleOfAHinge(t *testing.T) {
	for seed := uint64(1); seed <= 20; seed++ {
		about := fmt.Sprintf("seed %d", seed)
		rng := rand.New(rand.NewPCG(seed, 21))
		d := manyLoops[4].draw(rng) // in space, one rod
		for m := newModel(d, "lever"); m.stiffness(0, make([]float64, m.n)) < 3*stiffEnough; m = newModel(d, "lever") {
			d = manyLoops[4].draw(rng)
		}
		run, s := sweepOf(t, d.with(control("lever", -30, 30)).text())
		rocker, rod := partNamed(t, run, "rocker"), run.Rods[0]
		k := rocker.Axis
		least := math.Inf(1)
		const steps = 400
		for i := range steps + 1 {
			st := solveAt(t, s, math.Min(s.High, s.Low+(s.High-s.Low)*float64(i)/steps))
			p := st.Point(rod.To)
			u := p.Sub(st.Point(rod.From)).Unit()
			r := p.Sub(rocker.Pivot)
			r = r.Sub(k.Scale(k.Dot(r)))
			least = math.Min(least, deg(math.Asin(math.Min(1, math.Abs(u.Dot(k.Cross(r)))/r.Norm()))))
		}
		angle := s.Rods[0].Angle
		assert.Equal(t, "rocker", angle.Part, about)
		assert.LessOrEqual(t, angle.Least, least+1e-9, about)
		near(t, least, angle.Least, 0.05, about)
	}
}

// rodAngle is the rod angle by its definition, in a run that is one block: the
// rod is taken away, the rest is left one freedom, v is the velocity in it of
// one end relative to the other, and the angle is that whose sine is |u.v|/|v|.
func (m *model) rodAngle(rod int, hand float64, x []float64) float64 {
	scale := m.scales()
	u := make([]float64, m.n)
	for i := range u {
		u[i] = x[i] / scale[i]
	}
	unscaled := func(u []float64) []float64 {
		z := make([]float64, m.n)
		for i := range z {
			z[i] = u[i] * scale[i]
		}
		return z
	}
	central := &fd.JacobianSettings{Formula: fd.Central}
	// Unknown by unknown, the null motion of the other rods.
	others := mat.NewDense(m.equations(), m.n, nil)
	lengths := make([]float64, len(m.d.bars))
	fd.Jacobian(others, func(y, u []float64) {
		m.off(y, lengths, m.hand(hand), unscaled(u))
		y[rod] = 0
	}, u, central)
	var svd mat.SVD
	svd.Factorize(others, mat.SVDFull)
	var v mat.Dense
	svd.VTo(&v)
	// The least singular value comes last.
	null := mat.Col(nil, m.n-1, &v)
	r := m.d.bars[rod]
	apart := mat.NewDense(3, m.n, nil)
	fd.Jacobian(apart, func(y, u []float64) {
		z := unscaled(u)
		w := m.end(r.to, m.hand(hand), z).Sub(m.end(r.from, m.hand(hand), z))
		y[0], y[1], y[2] = w.X, w.Y, w.Z
	}, u, central)
	var w mat.VecDense
	w.MulVec(apart, mat.NewVecDense(m.n, null))
	velocity := at3(w.AtVec(0), w.AtVec(1), w.AtVec(2))
	direction := m.end(r.to, m.hand(hand), x).Sub(m.end(r.from, m.hand(hand), x)).Unit()
	return deg(math.Asin(math.Min(1, math.Abs(direction.Dot(velocity))/velocity.Norm())))
}

// TestRodAngleOfALoop: in larger blocks, by the definition.
func TestRodAngleOfALoop(t *testing.T) {
	for kind, c := range manyLoops {
		for seed := uint64(1); seed <= 5; seed++ {
			rng := rand.New(rand.NewPCG(seed, uint64(400+kind)))
			d := c.draw(rng)
			m := newModel(d, "lever")
			for ; m.stiffness(0, make([]float64, m.n)) < 3*stiffEnough; m = newModel(d, "lever") {
				d = c.draw(rng)
			}
			const little = 1e-6
			_, s := sweepOf(t, d.with(control("lever", -little, little)).text())
			x := make([]float64, m.n)
			for i, r := range s.Rods {
				near(t, m.rodAngle(i, 0, x), r.Angle.Least, 1e-4, fmt.Sprintf("%s, seed %d: %s", c.name, seed, r.Rod.Name))
			}
		}
	}
}

// TestFloatingTravel: that of the mean of its points, and its turn.
func TestFloatingTravel(t *testing.T) {
	for kind, c := range manyLoops[:2] {
		rng := rand.New(rand.NewPCG(5, uint64(500+kind)))
		d := c.draw(rng)
		for m := newModel(d, "lever"); m.stiffness(0, make([]float64, m.n)) < 3*stiffEnough; m = newModel(d, "lever") {
			d = c.draw(rng)
		}
		run, s := sweepOf(t, d.with(control("lever", -8, 8)).text())
		beam := partNamed(t, run, "beam")
		mean := func(st *solve.Pose) (drawn, now vec) {
			for i, p := range beam.Points {
				drawn = drawn.Add(p.At.Scale(1 / float64(len(beam.Points))))
				now = now.Add(st.Point(linkage.PointRef{Part: beam, Point: i}).Scale(1 / float64(len(beam.Points))))
			}
			return drawn, now
		}
		st := solveAt(t, s, s.High)
		drawn, now := mean(st)
		near(t, now.X-drawn.X, partOf(t, s, "beam.x").AtHigh, 1e-10, "x")
		near(t, now.Y-drawn.Y, partOf(t, s, "beam.y").AtHigh, 1e-10, "y")
		assert.EqualValues(t, "mm", partOf(t, s, "beam.x").Unit)
		a, b := linkage.PointRef{Part: beam, Point: 0}, linkage.PointRef{Part: beam, Point: 1}
		turn := turnTo(heading(st.Point(a), st.Point(b))-heading(beam.Points[0].At, beam.Points[1].At), 0)
		near(t, turn, partOf(t, s, "beam.turn").AtHigh, 1e-10, "turn")
		near(t, turn, st.Travel(beam), 1e-10, "where one part is asked for, its turn is meant")
		assert.EqualValues(t, "deg", partOf(t, s, "beam.turn").Unit)
	}
}

// TestTurnsBeyondHalf: a drag link's far arm goes all the way round with its
// crank, and its travel counts on.
func TestTurnsBeyondHalf(t *testing.T) {
	f := fourBar{ground: 30, crank: 80, coupler: 70, rocker: 75}
	_, s := sweepOf(t, f.draw(50, 1).with(control("crank", -720, 720)).text())
	rocker := partOf(t, s, "rocker")
	near(t, 720, rocker.AtHigh, 1e-9, "twice round")
	near(t, -720, rocker.AtLow, 1e-9, "twice round")
	assert.Empty(t, ofParts(s.Critical))
	assert.Equal(t, [2]float64{-720, 720}, s.Explored)
	_, rows := tableOf(t, s, 144)
	for _, row := range rows {
		_, now := f.angles(50 + row[0])
		_, drawn := f.angles(50)
		near(t, 0, turnTo(now-drawn-row[1], 0), 1e-9, "on the way")
		assert.InDelta(t, row[0], row[1], 100, "it never falls a turn behind")
	}
}

// TestManyTurns: a crank-rocker's dead centers come again every turn.
func TestManyTurns(t *testing.T) {
	_, s := sweepOf(t, crankRocker.draw(40, 1).with(control("crank", -720, 720)).text())
	var found []float64
	for _, c := range ofParts(s.Critical) {
		found = append(found, c.At)
	}
	var want []float64
	for turn := -3; turn <= 3; turn++ {
		for _, crank := range []float64{24.146847996502, 231.31781254651} {
			if x := crank - 40 + 360*float64(turn); math.Abs(x) <= 720 {
				want = append(want, x)
			}
		}
	}
	slices.Sort(want)
	require.Len(t, found, len(want))
	for i := range want {
		near(t, want[i], found[i], 1440e-9, "dead center")
	}
}
