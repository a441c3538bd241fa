package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// TestHuntPairsInSpaceStandWhereTheEnergyIsLeast follows pairs of many shapes (turning
// or sliding about any axis, conduits held on parts that move, cables far too
// long) by the energy in their cables alone, and where one ends on center while
// both hang loose it asks that a cable is in line just as it comes taut.
func TestHuntPairsInSpaceStandWhereTheEnergyIsLeast(t *testing.T) {
	const seed = 11
	runs, slack, taut, lost := 0, 0, 0, 0
	for n := uint64(0); runs < 10*hunt.Rounds(); n++ {
		r := rand.New(rand.NewPCG(seed, n))
		text, taken := spatialPair(r)
		run, err := linkage.Read(&linkage.Source{Name: "random.hcl", Text: []byte(text)})
		if err != nil {
			continue // such as one that would be stretched too far
		}
		for i, c := range run.Cables {
			c.Taken = taken[i]
		}
		m, err := solve.Compile(run)
		if err != nil {
			continue // such as cables that pull the same way
		}
		result, err := m.Check()
		require.NoError(t, err, text)
		runs++
		s := result.Sweeps[0]
		if s.Lost {
			lost++
		}
		o := newPairEnergy(t, run, s)
		for side, end := range []float64{s.Low, s.High} {
			q := o.own(solveAt(t, s, 0))
			const step = 0.5
			for i := 0.0; i*step < math.Abs(end)-0.02; i++ {
				x := math.Copysign(i*step, end)
				about := fmt.Sprintf("seed %d, run %d, at %v of %v, taken %v:\n%s", seed, n, x, end, taken, text)
				o.st = solveAt(t, s, x)
				at, loose, free, ok := o.settle(q)
				require.True(t, ok, about)
				tolerance := 2e-6 * o.size
				if math.Abs(x) > math.Abs(end)-0.5 { // on center both go as a root
					tolerance *= 100
				}
				near(t, at, o.own(o.st), tolerance, about)
				o.compare(s, x, at, free, about)
				if q = at; loose {
					slack++
				} else {
					taut++
				}
			}
			o.st = solveAt(t, s, end)
			if s.Ends[side].Cause == solve.ByToggle && o.blamesCable(s, end) {
				o.onCenter(s, end, fmt.Sprintf("seed %d, run %d, end %v:\n%s", seed, n, end, text))
			}
		}
	}
	require.Greater(t, slack, 20*runs)
	require.Greater(t, taut, 100*runs)
	require.LessOrEqual(t, lost, runs/10, "it says so where it can't follow; that is seldom")
}

// pairEnergy tells where the part "driven" of a pair stands by the energy in the
// cables, everything else as a sweep has it.
type pairEnergy struct {
	t    testing.TB
	run  *linkage.Run
	st   *solve.Pose
	part *linkage.Part
	free []float64 // unloaded lengths
	size float64   // 1 for a turn, 100 for a slide
	// still are points that stand as in stillAs, wherever the part is.
	still   map[linkage.PointRef]linkage.Vec
	stillAs *solve.Pose
}

func newPairEnergy(t testing.TB, run *linkage.Run, s *solve.Sweep) *pairEnergy {
	o := &pairEnergy{t: t, run: run, part: partNamed(t, run, "driven"), size: 1}
	if o.part.Motion == linkage.Slides {
		o.size = 100
	}
	for i, c := range run.Cables {
		o.free = append(o.free, o.path(i, 0)-c.Pair.Pretension/c.Stiffness-c.Taken)
	}
	o.st = solveAt(t, s, 0)
	return o
}

// own is where the part stands, radians or lengths.
func (o *pairEnergy) own(st *solve.Pose) float64 {
	v := st.Travel(o.part)
	if o.part.Motion == linkage.Slides {
		return v
	}
	return rad(v)
}

// point is where a point is with the part at q; before there is a stand, as drawn.
func (o *pairEnergy) point(r linkage.PointRef, q float64) linkage.Vec {
	p := r.Get().At
	switch {
	case r.Part == o.part && o.part.Motion == linkage.Slides:
		return p.Add(o.part.Slide.Unit().Scale(q))
	case r.Part == o.part:
		axis, w := o.part.Axis.Unit(), p.Sub(o.part.Pivot)
		s, c := math.Sincos(q)
		return o.part.Pivot.Add(w.Scale(c)).Add(axis.Cross(w).Scale(s)).Add(axis.Scale(axis.Dot(w) * (1 - c)))
	case o.st == nil:
		return p
	}
	if o.stillAs != o.st {
		o.stillAs, o.still = o.st, map[linkage.PointRef]linkage.Vec{}
	}
	if at, ok := o.still[r]; ok {
		return at
	}
	o.still[r] = o.st.Point(r)
	return o.still[r]
}

func (o *pairEnergy) path(i int, q float64) (sum float64) {
	for _, leg := range o.run.Cables[i].Legs() {
		sum += o.point(leg[0], q).Sub(o.point(leg[1], q)).Norm()
	}
	return sum
}

// stretch is how much longer than unloaded a cable is.
func (o *pairEnergy) stretch(i int, q float64) float64 { return o.path(i, q) - o.free[i] }

// slope is how a cable's length goes with the part.
func (o *pairEnergy) slope(i int, q float64) float64 {
	h := 1e-5 * o.size
	return (o.path(i, q+h) - o.path(i, q-h)) / (2 * h)
}

func (o *pairEnergy) loose(q float64) bool { return o.stretch(0, q) <= 0 && o.stretch(1, q) <= 0 }

// pull is the slope of the energy.
func (o *pairEnergy) pull(q float64) (sum float64) {
	for i, c := range o.run.Cables {
		if e := o.stretch(i, q); e > 0 {
			sum += c.Stiffness * e * o.slope(i, q)
		}
	}
	return sum
}

// settle goes downhill from q: to the least energy, or into the middle of where
// there is none.
func (o *pairEnergy) settle(q float64) (at float64, loose bool, free float64, ok bool) {
	fine := 0.0005 * o.size
	between := func(in, out float64, same func(q float64) bool) (last, first float64) {
		for range 45 { // of fine, to rounding
			if mid := in + (out-in)/2; same(mid) {
				in = mid
			} else {
				out = mid
			}
		}
		return in, out
	}
	from := o.pull(q)
	step := -math.Copysign(fine, from)
	for range 300 {
		if o.loose(q) {
			low, high := q, q
			for ; o.loose(low) && q-low < 4*o.size; low -= fine {
			}
			for ; o.loose(high) && high-q < 4*o.size; high += fine {
			}
			low, _ = between(low+fine, low, o.loose)
			high, _ = between(high-fine, high, o.loose)
			return low + (high-low)/2, true, high - low, true
		}
		next := q + step
		if !o.loose(next) && o.pull(next)*from <= 0 {
			last, first := between(q, next, func(q float64) bool { return !o.loose(q) && o.pull(q)*from > 0 })
			if !o.loose(first) {
				return last, false, 0, true
			}
			q = first
			continue
		}
		q = next
	}
	return q, false, 0, false
}

// compare holds the tensions and the free turn at x against those of the energy.
func (o *pairEnergy) compare(s *solve.Sweep, x, q, free float64, about string) {
	at, ok := s.Sample(x)
	require.True(o.t, ok, about)
	for i, k := range s.Series() {
		switch {
		case k.Kind == solve.SeriesFree && k.Unit == "deg":
			nearAt(o.t, deg(free), at.Values[i], 3e-4, about)
		case k.Kind == solve.SeriesFree:
			nearAt(o.t, free, at.Values[i], 5e-4, about)
		case k.Kind == solve.SeriesTension:
			nearAt(o.t, math.Max(0, k.Cable.Stiffness*o.stretch(k.Cable.Index, q)), at.Values[i], 1e-3*k.Cable.Stiffness, about)
		}
	}
}

// blamesCable reports whether a travel that ends at x is said to end by a cable.
func (o *pairEnergy) blamesCable(s *solve.Sweep, x float64) bool {
	for _, c := range s.Critical {
		if c.At == x && c.Cable != nil {
			return true
		}
	}
	return false
}

// onCenter asks that where both cables hang loose one is in line just where it
// comes taut: else the part floats on.
func (o *pairEnergy) onCenter(s *solve.Sweep, x float64, about string) {
	at, ok := s.Sample(x)
	require.True(o.t, ok, about)
	for i, k := range s.Series() {
		if k.Kind != solve.SeriesFree || *at.Values[i] == 0 {
			continue
		}
		half := *at.Values[i] / 2
		if k.Unit == "deg" {
			half = rad(half)
		}
		least := math.Inf(1)
		for _, q := range []float64{o.own(o.st) - half, o.own(o.st) + half} {
			for i := range o.run.Cables {
				if math.Abs(o.stretch(i, q)) < 1e-4 {
					least = math.Min(least, math.Abs(o.slope(i, q))*o.size)
				}
			}
		}
		require.Less(o.t, least, 0.5, about) // of arms of 30 to 90
	}
}

// spatialPair writes a run of random shape and dimensions with a pair, and by how
// much its cables are taken up.
func spatialPair(r *rand.Rand) (string, [2]float64) {
	some := func(of, spread float64) float64 { return math.Round((of+spread*(2*r.Float64()-1))*100) / 100 }
	flat := r.IntN(3) == 0
	pt := func(x, y, z, spread float64) string {
		if flat {
			return fmt.Sprintf("[%v, %v]", some(x, spread), some(y, spread))
		}
		return fmt.Sprintf("[%v, %v, %v]", some(x, spread), some(y, spread), some(z, spread))
	}
	axis := func() string {
		if flat || r.IntN(3) == 0 {
			return ""
		}
		return fmt.Sprintf("  axis = [%v, %v, %v]\n", some(0, 0.4), some(0, 0.4), some(1, 0.3))
	}
	leverArm := some(60, 40)
	arm := some(60, 30)
	dx := []float64{1000, 400, 250}[r.IntN(3)]
	spread := []float64{5, 20, 40}[r.IntN(3)]
	var b strings.Builder
	b.WriteString("run \"x\" {\n  units = \"mm\"\n}\n")
	c1, c2 := dx*0.3, dx*0.7
	fmt.Fprintf(&b, "fixed \"frame\" {\n points = { u = %s, d = %s, ua = %s, da = %s }\n}\n", pt(c1, leverArm, 0, spread), pt(c1, -leverArm, 0, spread), pt(c2, arm, 0, spread), pt(c2, -arm, 0, spread))
	fmt.Fprintf(&b, "part \"lever\" {\n pivot = [0, 0]\n%s points = { u = %s, d = %s, r = %s, m = %s, n = %s }\n}\n", axis(), pt(0, leverArm, 0, spread), pt(0, -leverArm, 0, spread), pt(50, 50, 0, spread), pt(-20, -30, 0, 40), pt(20, 30, 0, 40))
	mid := r.IntN(2) == 0
	if mid {
		fmt.Fprintf(&b, "part \"mid\" {\n pivot = [%v, 0]\n%s points = { r = %s, u = %s, d = %s, m = %s, n = %s }\n}\nrod \"link\" {\n from = lever.r\n to = mid.r\n}\n", some(150, 20), axis(), pt(200, 50, 0, spread), pt(150, leverArm, 0, spread), pt(150, -leverArm, 0, spread), pt(170, 20, 0, 30), pt(130, -20, 0, 30))
	}
	motion := fmt.Sprintf("pivot = %s\n%s", fmt.Sprintf("[%v, 0]", dx), axis())
	slide := r.IntN(3) == 0
	var du, dd string
	if slide {
		// slides along x roughly: cables pull along +-x, one from behind
		motion = fmt.Sprintf("slide = %s", pt(0, 1, 0.1, 0.3))
		du, dd = pt(dx, 20, 0, spread/2), pt(dx, -20, 0, spread/2)
	} else {
		du, dd = pt(dx, arm, 0, spread), pt(dx, -arm, 0, spread)
	}
	fmt.Fprintf(&b, "part \"driven\" {\n %s\n points = { u = %s, d = %s, tip = %s }\n}\n", motion, du, dd, pt(dx+50, 10, 0, 20))
	from := "lever"
	if mid && r.IntN(2) == 0 {
		from = "mid"
	}
	hold := func(def string) string {
		switch r.IntN(6) {
		case 0:
			if mid {
				return "mid." + []string{"m", "n"}[r.IntN(2)]
			}
		case 1:
			if from != "lever" {
				return "lever." + []string{"m", "n"}[r.IntN(2)]
			}
		}
		return def
	}
	upEnd, downEnd := "frame.ua", "frame.da"
	upDrv, downDrv := "driven.u", "driven.d"
	// fork: conduit on the driven part and core on the frame
	if r.IntN(6) == 0 {
		upEnd, upDrv = upDrv, upEnd
	}
	conduitUp, conduitDn := hold("frame.u"), hold("frame.d")
	if strings.HasPrefix(conduitUp, from) {
		conduitUp = "frame.u"
	}
	if strings.HasPrefix(conduitDn, from) {
		conduitDn = "frame.d"
	}
	cab := func(name, a, c1, c2, d string) {
		k := some(40, 30)
		if r.IntN(5) == 0 {
			k = some(2, 1)
		}
		if r.IntN(2) == 0 {
			fmt.Fprintf(&b, "cable %q {\n from = %s\n to = %s\n conduit = [%s, %s]\n stiffness = %v\n}\n", name, a, d, c1, c2, k)
		} else {
			fmt.Fprintf(&b, "cable %q {\n from = %s\n to = %s\n conduit = [%s, %s]\n stiffness = %v\n}\n", name, d, a, c2, c1, k)
		}
	}
	cab("up", from+".u", conduitUp, upEnd, upDrv)
	cab("down", from+".d", conduitDn, downEnd, downDrv)
	fmt.Fprintf(&b, "pair \"pp\" {\n cables = [up, down]\n pretension = %v\n}\n", some(120, 100))
	lim := []float64{20, 40, 80, 170}[r.IntN(4)]
	fmt.Fprintf(&b, "control \"hand\" {\n of = lever\n from = %v\n to = %v\n}\noutput \"out\" {\n of = driven\n}\n", -lim, lim)
	slackTaken := []float64{0, 0, 3, 10, 40}[r.IntN(5)]
	return b.String(), [2]float64{some(0, 1) - slackTaken, some(0, 1) - slackTaken}
}
