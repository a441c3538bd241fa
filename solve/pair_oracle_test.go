package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

func TestPairOracle(t *testing.T) {
	seed := uint64(11)
	count := 60
	if v := os.Getenv("SEED"); v != "" {
		n, _ := strconv.Atoi(v)
		seed = uint64(n)
	}
	if v := os.Getenv("COUNT"); v != "" {
		count, _ = strconv.Atoi(v)
	}
	done, slackSeen, tautSeen, ends := 0, 0, 0, map[string]int{}
	refused := map[string]int{}
	for n := 0; done < count && n < 40*count; n++ {
		r := rand.New(rand.NewPCG(seed, uint64(n)))
		text, taken := spatialPair(r)
		run, err := linkage.Read(&linkage.Source{Name: "x.hcl", Text: []byte(text)})
		if err != nil {
			refused["read "+cutLine(err.Error())]++
			continue
		}
		for i, c := range run.Cables {
			c.Taken = taken[i]
		}
		m, err := solve.Compile(run)
		if err != nil {
			e := err.Error()
			if i := strings.Index(e, ": "); i > 0 {
				e = e[i:]
			}
			refused["compile "+e[:min(70, len(e))]]++
			continue
		}
		res, err := m.Check()
		require.NoError(t, err, text)
		done++
		s := res.Sweeps[0]
		o := &pairOracle{t: t, run: run, s: s}
		o.start()
		for _, dir := range []float64{1, -1} {
			end := s.High
			cause := s.Ends[1].Cause
			if dir < 0 {
				end = s.Low
				cause = s.Ends[0].Cause
			}
			ends[fmt.Sprint(cause)]++
			q := o.q0
			const step = 0.1
			ok := true
			for i := 0; ; i++ {
				x := dir * step * float64(i)
				if math.Abs(x) > math.Abs(end)-0.02 {
					break
				}
				st, there := s.At(x)
				if !there {
					t.Errorf("seed %d n %d: not at %v\n%s", seed, n, x, text)
					break
				}
				o.st = st
				got := o.own(st)
				var slack bool
				var free float64
				q, slack, free, ok = o.settle(q)
				if !ok {
					t.Errorf("seed %d n %d x %v: oracle finds no balance, tool goes on to %v (got %v, q %v)\n%s taken %v", seed, n, x, end, got, q, text, taken)
					break
				}
				tol := 2e-6
				if math.Abs(x) > math.Abs(end)-0.5 {
					tol = 2e-4
				}
				if math.Abs(q-got) > tol*o.size() {
					t.Errorf("seed %d n %d x %v (end %v %v): tool %v oracle %v slack %v free %v\n%s taken %v", seed, n, x, end, cause, got, q, slack, free, text, taken)
					break
				}
				pos, _ := s.Position(x)
				for i, k := range s.Series() {
					if k.Kind == solve.SeriesFree {
						v := *pos.Values[i]
						if k.Unit == "deg" {
							v = rad(v)
						}
						if math.Abs(v-free) > 4e-6*o.size() {
							t.Errorf("seed %d n %d x %v: free %v oracle %v\n%s taken %v", seed, n, x, v, free, text, taken)
						}
					}
					if k.Kind == solve.SeriesTension {
						c := k.Cable
						want := math.Max(0, c.Stiffness*o.e(c.Index, q))
						if math.Abs(want-*pos.Values[i]) > 1e-3*c.Stiffness {
							t.Errorf("seed %d n %d x %v: tension %s %v oracle %v\n%s", seed, n, x, c.Name, *pos.Values[i], want, text)
						}
					}
				}
				if slack {
					slackSeen++
				} else {
					tautSeen++
				}
			}
			if ok && cause == solve.ByToggle || cause == solve.ByChangePoint {
				// the end: is it one?
				if st, there := s.At(end); there {
					o.st = st
					q = o.own(st)
					qa, _, _, oka := o.settle(q)
					k := o.stiffShare(qa)
					who := ""
					for _, c := range s.Critical {
						if c.At == end {
							who += fmt.Sprintf(" %v of %s by rod %v cable %v", c.Kind, c.Part.Name, c.Rod != nil, c.Cable != nil)
						}
					}
					if !strings.Contains(who, "cable true") {
						continue
					}
					l := o.lines(qa)
					if k > 0 && math.Min(math.Abs(l[0]), math.Abs(l[1])) < 1e-5*o.size()/100*60 {
						continue
					}
					if _, sl, fr, _ := o.settle(q); sl {
						a, b := o.lines(qa-fr/2), o.lines(qa+fr/2)
						if m := math.Min(math.Min(math.Abs(a[0]), math.Abs(a[1])), math.Min(math.Abs(b[0]), math.Abs(b[1]))); m < 0.02*60 {
							continue
						}
						t.Logf("EDGES free %v lines %v %v", fr, a, b)
					}
					t.Logf("WHO %s taken %v", who, taken)
					t.Logf("seed %d n %d end %v cause %v ok %v q %v settled %v stiffness share %v e %v %v, lines %v", seed, n, end, cause, oka, q, qa, k, o.e(0, qa), o.e(1, qa), o.lines(q))
				}
			}
			if (dir > 0 && s.Ends[1].Cause == solve.ByLimit || dir < 0 && s.Ends[0].Cause == solve.ByLimit) && s.Lost {
				t.Logf("seed %d n %d LOST ends %v %v taken %v", seed, n, s.Low, s.High, taken)
			}
		}
	}
	t.Logf("done %d slack %d taut %d ends %v\n", done, slackSeen, tautSeen, ends)
	for k, v := range refused {
		t.Log(v, k)
	}
}

type pairOracle struct {
	t     *testing.T
	run   *linkage.Run
	s     *solve.Sweep
	st    *solve.Stand
	q0    float64
	part  *linkage.Part
	free0 [2]float64
}

func (o *pairOracle) start() {
	o.part = partNamed(o.t, o.run, "driven")
	for i, c := range o.run.Cables {
		o.free0[i] = o.path(i, 0, true) - c.Pair.Pretension/c.Stiffness - c.Taken
	}
	st, _ := o.s.At(0)
	o.st = st
	o.q0 = o.own(st)
}
func (o *pairOracle) own(st *solve.Stand) float64 {
	v := st.Travel(o.part)
	if o.part.Motion == linkage.Turns {
		return rad(v)
	}
	return v
}
func (o *pairOracle) size() float64 {
	if o.part.Motion == linkage.Turns {
		return 1
	}
	return 100
}
func (o *pairOracle) point(r linkage.PointRef, q float64, drawn bool) linkage.Vec {
	p := r.Get().At
	if r.Part == o.part {
		if o.part.Motion == linkage.Turns {
			a := o.part.Axis.Unit()
			w := p.Sub(o.part.Pivot)
			s, c := math.Sincos(q)
			// Rodrigues
			w = w.Scale(c).Add(a.Cross(w).Scale(s)).Add(a.Scale(a.Dot(w) * (1 - c)))
			return o.part.Pivot.Add(w)
		}
		return p.Add(o.part.Slide.Unit().Scale(q))
	}
	if drawn {
		return p
	}
	return o.st.Point(r)
}
func (o *pairOracle) path(i int, q float64, drawn bool) float64 {
	sum := 0.0
	for _, leg := range o.run.Cables[i].Legs() {
		sum += o.point(leg[0], q, drawn).Sub(o.point(leg[1], q, drawn)).Norm()
	}
	return sum
}
func (o *pairOracle) lines(q float64) (l [2]float64) {
	const h = 1e-6
	for i := range l {
		l[i] = (o.path(i, q+h*o.size(), false) - o.path(i, q-h*o.size(), false)) / (2 * h)
	}
	return l
}
func (o *pairOracle) e(i int, q float64) float64 { return o.path(i, q, false) - o.free0[i] }
func (o *pairOracle) grad(q float64) float64 {
	h := 1e-5 * o.size()
	sum := 0.0
	for i, c := range o.run.Cables {
		if e := o.e(i, q); e > 0 {
			sum += c.Stiffness * e * (o.path(i, q+h, false) - o.path(i, q-h, false)) / (2 * h)
		}
	}
	return sum
}
func (o *pairOracle) stiffShare(q float64) float64 {
	h := 1e-4 * o.size()
	f := func(q float64) (s float64) {
		for i, c := range o.run.Cables {
			s += c.Stiffness * o.e(i, q) * (o.path(i, q+1e-5*o.size(), false) - o.path(i, q-1e-5*o.size(), false)) / (2e-5 * o.size())
		}
		return
	}
	k := 0.0
	for i, c := range o.run.Cables {
		p := (o.path(i, q+h, false) - o.path(i, q-h, false)) / (2 * h)
		k += c.Stiffness * p * p
	}
	return (f(q+h) - f(q-h)) / (2 * h) / k
}

// settle follows the local minimum from q.
func (o *pairOracle) settle(q float64) (at float64, slack bool, free float64, ok bool) {
	loose := func(q float64) bool { return o.e(0, q) <= 0 && o.e(1, q) <= 0 }
	reach := 0.15 * o.size()
	// walk downhill
	fine := 0.0005 * o.size()
	edge := func(in, out float64) float64 {
		for range 60 {
			mid := in + (out-in)/2
			if loose(mid) {
				in = mid
			} else {
				out = mid
			}
		}
		return in
	}
	plateau := func(q float64) (float64, bool, float64, bool) {
		lo, hi := q, q
		for loose(lo) {
			lo -= fine
			if q-lo > 3*o.size() {
				return 0, true, 0, false
			}
		}
		for loose(hi) {
			hi += fine
			if hi-q > 3*o.size() {
				return 0, true, 0, false
			}
		}
		lo, hi = edge(lo+fine, lo), edge(hi-fine, hi)
		return (lo + hi) / 2, true, hi - lo, true
	}
	if loose(q) {
		return plateau(q)
	}
	g := o.grad(q)
	dir := -math.Copysign(1, g)
	a := q
	for math.Abs(a-q) < reach {
		b := a + dir*fine
		if loose(b) {
			return plateau(b)
		}
		if gb := o.grad(b); gb*g <= 0 {
			lo, hi := a, b
			for range 60 {
				mid := lo + (hi-lo)/2
				if loose(mid) {
					return plateau(mid)
				}
				if o.grad(mid)*g > 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			return lo, false, 0, true
		}
		a = b
	}
	return a, false, 0, false
}

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

func cutLine(e string) string {
	if i := strings.Index(e, ": "); i > 0 {
		e = e[i:]
	}
	return e[:min(90, len(e))]
}
