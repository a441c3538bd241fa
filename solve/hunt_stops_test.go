package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// What stops a control, what does past a slack cable, and by how much a stop is
// missed is judged here by brute force: a lever drives a crank by a rod or by the core
// of a lone cable, whose end lies on two circles; small steps and bisection do the
// rest.

// nub is metal seen end on, of the lever, the crank or the airframe.
type nub struct {
	part   string
	at     vec
	radius float64
}

// bruteStop is a stop by number, of the lever or the crank, or two nubs that touch.
type bruteStop struct {
	name, of string
	at       float64
	a, b     nub
}

func (s bruteStop) on(part string) bool { return s.of == part || s.a.part == part || s.b.part == part }

// brute is a lever and a crank, and what joins them.
type brute struct {
	cable            bool
	lever, crank     vec // pivots
	arm, end         vec // where it is joined
	near, far        vec // where the conduit is held
	from, to         float64
	stops            []bruteStop
	sign, r2, length float64
	pulling          float64
}

func swung(p, pivot vec, degrees float64) vec {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	v := p.Sub(pivot)
	return pivot.Add(vec{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y})
}

// circle returns the middle and radius of the circle on which the crank's end lies
// with the lever turned to x.
func (b *brute) circle(x float64) (middle vec, radius float64) {
	arm := swung(b.arm, b.lever, x)
	if b.cable {
		return b.far, b.length - distance(arm, b.near)
	}
	return arm, b.length
}

// settle takes from the drawing what doesn't change.
func (b *brute) settle() {
	b.r2 = distance(b.end, b.crank)
	b.length = distance(b.arm, b.end)
	if b.cable {
		b.length = distance(b.arm, b.near) + distance(b.end, b.far)
	}
	b.sign = 1
	middle, _ := b.circle(0)
	if middle.Sub(b.crank).Cross(b.end.Sub(b.crank)).Z < 0 {
		b.sign = -1
	}
	// The turn of the crank that takes its end from the conduit: against the pull.
	b.pulling = math.Copysign(1, vec{Z: 1}.Cross(b.end.Sub(b.crank)).Dot(b.end.Sub(b.far)))
}

// crankAt is the crank's turn, as near as can be to about; what the two circles lack
// to meet is negative reach.
func (b *brute) crankAt(x, about float64) (degrees, reach float64) {
	middle, radius := b.circle(x)
	d := middle.Sub(b.crank)
	apart := d.Norm()
	cos := (apart*apart + b.r2*b.r2 - radius*radius) / (2 * apart * b.r2)
	reach = 1 - math.Abs(cos)
	if radius <= 0 {
		reach = -1
	}
	angle := math.Atan2(d.Y, d.X) + b.sign*math.Acos(math.Max(-1, math.Min(1, cos)))
	drawn := b.end.Sub(b.crank)
	degrees = (angle - math.Atan2(drawn.Y, drawn.X)) * 180 / math.Pi
	return degrees - 360*math.Round((degrees-about)/360), reach
}

// gapOf is what a stop is short of biting.
func (b *brute) gapOf(s bruteStop, lever, crank float64) float64 {
	switch s.of {
	case "lever":
		return math.Copysign(1, s.at) * (s.at - lever)
	case "crank":
		return math.Copysign(1, s.at) * (s.at - crank)
	}
	place := func(k nub) vec {
		switch k.part {
		case "lever":
			return swung(k.at, b.lever, lever)
		case "crank":
			return swung(k.at, b.crank, crank)
		}
		return k.at
	}
	return distance(place(s.a), place(s.b)) - s.a.radius - s.b.radius
}

const bruteStep = 0.04 // degrees

// bisected is where a value that is above 0 at a and not at b goes through 0.
func bisected(a, b float64, f func(x float64) float64) float64 {
	for range 60 {
		if mid := (a + b) / 2; f(mid) > 0 {
			a = mid
		} else {
			b = mid
		}
	}
	return (a + b) / 2
}

// bruteSide is what brute force finds on one side.
type bruteSide struct {
	bites   []float64 // NaN: nowhere
	least   []float64 // the least gap seen once it closes; infinite: it never does
	toggle  float64   // NaN: none
	centers []float64 // dead centers
	close   bool      // something is too near to call by these steps
}

// march walks one side. Frozen is the crank's turn where it stays, else NaN.
func (b *brute) march(start, limit, frozen float64) (r bruteSide) {
	dir := math.Copysign(1, limit-start)
	r.toggle = math.NaN()
	about := 0.0
	if math.IsNaN(frozen) {
		for x := 0.0; math.Abs(x) < math.Abs(start); x += dir * bruteStep {
			about, _ = b.crankAt(x, about)
		}
	}
	crank := func(x float64) float64 {
		if !math.IsNaN(frozen) {
			return frozen
		}
		v, _ := b.crankAt(x, about)
		return v
	}
	gaps := func(x float64) (list []float64) {
		c := crank(x)
		for _, s := range b.stops {
			list = append(list, b.gapOf(s, x, c))
		}
		return list
	}
	for range b.stops {
		r.bites, r.least = append(r.bites, math.NaN()), append(r.least, math.Inf(1))
	}
	before, rate := gaps(start), 0.0
	turning := make([]float64, len(b.stops))
	for i := 1.0; ; i++ {
		x, last := start+dir*bruteStep*i, start+dir*bruteStep*(i-1)
		if (limit-x)*dir < 0 {
			x = limit
		}
		if math.IsNaN(frozen) {
			if _, reach := b.crankAt(x, about); reach < 0 {
				r.toggle = bisected(last, x, func(x float64) float64 { _, reach := b.crankAt(x, about); return reach })
				x = r.toggle
			}
		}
		was := crank(last)
		now := gaps(x)
		for k := range now {
			moved := now[k] - before[k]
			if math.IsNaN(r.bites[k]) {
				if turning[k] < 0 && moved > 0 && math.Abs(now[k]) < 1e-3 { // it may just graze
					r.close = true
				}
				if now[k] <= 0 && before[k] > 0 {
					r.bites[k] = bisected(last, x, func(x float64) float64 { return b.gapOf(b.stops[k], x, crank(x)) })
				} else if moved < -1e-9 {
					r.least[k] = math.Min(r.least[k], now[k])
				}
			}
			turning[k] = moved
		}
		before = now
		if math.IsNaN(frozen) {
			v := crank(x)
			if moved := v - was; moved*rate < 0 && math.IsNaN(r.toggle) {
				r.centers = append(r.centers, x)
			}
			if moved := v - was; moved != 0 {
				rate = moved
			}
			about = v
		}
		if x == limit || !math.IsNaN(r.toggle) {
			return r
		}
	}
}

// draw draws a random run; nil where it doesn't join at neutral.
func drawBrute(random *rand.Rand) *brute {
	around := func(c vec, least, most float64) vec {
		sin, cos := math.Sincos(2 * math.Pi * random.Float64())
		r := least + (most-least)*random.Float64()
		return c.Add(vec{X: r * cos, Y: r * sin})
	}
	b := &brute{cable: random.IntN(3) > 0, crank: vec{X: 200 + 100*random.Float64(), Y: 100 * random.Float64()}}
	b.from, b.to = -60-100*random.Float64(), 60+100*random.Float64()
	b.arm, b.end = around(b.lever, 30, 60), around(b.crank, 30, 60)
	b.near, b.far = around(b.lever, 80, 150), around(b.crank, 80, 150)
	b.settle()
	nubs := func(part string, c vec, least, most float64) nub {
		at := around(c, least, most)
		return nub{part, at, 2 + 6*random.Float64()}
	}
	for i := range 3 + random.IntN(4) {
		s := bruteStop{name: fmt.Sprintf("s%d", i)}
		at := math.Copysign(5+60*random.Float64(), random.Float64()-0.5)
		switch random.IntN(5) {
		case 0:
			s.of, s.at = "lever", at
		case 1:
			s.of, s.at = "crank", at/2
		case 2:
			s.a, s.b = nubs("lever", b.lever, 40, 90), nubs("frame", b.lever, 40, 90)
		case 3:
			s.a, s.b = nubs("crank", b.crank, 40, 90), nubs("frame", b.crank, 40, 90)
		case 4:
			s.a, s.b = nubs("lever", b.lever, 80, 200), nubs("crank", b.crank, 80, 200)
		}
		if b.gapOf(s, 0, 0) > 1 {
			b.stops = append(b.stops, s)
		}
	}
	return b
}

func (b *brute) text() string {
	at := func(p vec) string { return fmt.Sprintf("[%.17g, %.17g]", p.X, p.Y) }
	features := map[string]string{}
	stops := ""
	for i, s := range b.stops {
		if s.of != "" {
			stops += stopAt(s.name, s.of, s.at)
			continue
		}
		var names []string
		for k, m := range []nub{s.a, s.b} {
			name := fmt.Sprintf("m%d-%d", i, k)
			features[m.part] += fmt.Sprintf("  round %q {\n    at = %s\n    radius = %.17g\n  }\n", name, at(m.at), m.radius)
			names = append(names, m.part+"."+name)
		}
		stops += fmt.Sprintf("stop %q {\n  touch = [%s]\n}\n", s.name, strings.Join(names, ", "))
	}
	join := "rod \"link\" {\n  from = lever.arm\n  to = crank.end\n}\n"
	if b.cable {
		spring := "plus"
		if b.pulling < 0 {
			spring = "minus"
		}
		join = "cable \"link\" {\n  from = lever.arm\n  to = crank.end\n  conduit = [frame.near, frame.far]\n  spring = \"" + spring + "\"\n}\n"
	}
	return "run \"x\" {\n  units = \"mm\"\n}\n" +
		"fixed \"frame\" {\n  points = { near = " + at(b.near) + ", far = " + at(b.far) + " }\n" + features["frame"] + "}\n" +
		"part \"lever\" {\n  pivot = " + at(b.lever) + "\n  points = { arm = " + at(b.arm) + " }\n" + features["lever"] + "}\n" +
		"part \"crank\" {\n  pivot = " + at(b.crank) + "\n  points = { end = " + at(b.end) + " }\n" + features["crank"] + "}\n" + join +
		fmt.Sprintf("control \"hand\" {\n  of = lever\n  from = %.17g\n  to = %.17g\n}\n", b.from, b.to) + stops
}

// TestHuntStops holds random runs against brute force.
func TestHuntStops(t *testing.T) {
	counts := map[string]int{}
	hunt.Each(t, 60, func(t *testing.T, random *rand.Rand) {
		b := drawBrute(random)
		text := b.text()
		run := read(t, text)
		m, err := solve.Compile(run)
		if err != nil {
			return // in line as drawn, say
		}
		s, err := m.Sweep(run.Controls[0], nil)
		require.NoError(t, err)
		if s.Lost {
			return
		}
		defer func() {
			if t.Failed() {
				t.Log(text)
			}
		}()
		var sides [2]bruteSide
		for i, limit := range []float64{b.from, b.to} {
			sides[i] = b.march(0, limit, math.NaN())
			if sides[i].close {
				return
			}
		}
		for i, limit := range []float64{b.from, b.to} {
			b.againstSide(t, s, i, limit, &sides[i], counts)
		}
		b.againstMisses(t, s, sides, counts)
	})
	t.Log(counts)
	for _, kind := range []string{"slack", "held past", "taut", "missed", "after on center", "locked", "would touch"} {
		require.Positive(t, counts[kind], kind)
	}
}

// againstSide compares where a side ends, and how the control itself does.
func (b *brute) againstSide(t *testing.T, s *solve.Sweep, i int, limit float64, r *bruteSide, counts map[string]int) {
	dir := float64(2*i - 1)
	first, at := -1, limit
	if !math.IsNaN(r.toggle) {
		at = r.toggle
	}
	for k, x := range r.bites {
		if !math.IsNaN(x) && (first < 0 || math.Abs(x) < math.Abs(at)) {
			first, at = k, x
		}
	}
	e := s.Ends[i]
	near(t, at, e.At, 1e-6, "where a side ends")
	if first < 0 {
		require.Nil(t, e.Stop)
		return
	}
	require.Equal(t, solve.ByStop, e.Cause)
	require.Equal(t, b.stops[first].name, e.Stop.Name)
	_, radius := b.circle(at)
	_, later := b.circle(at + dir*1e-4)
	acts := b.stops[first]
	if !b.cable || acts.on("lever") || later < radius {
		require.Nil(t, e.Slack)
		require.True(t, e.HoldsControl())
		return
	}
	counts["slack"]++
	require.NotNil(t, e.Slack)
	about := 0.0
	for x := 0.0; math.Abs(x) < math.Abs(at); x += dir * bruteStep {
		about, _ = b.crankAt(x, about)
	}
	frozen, _ := b.crankAt(at, about)
	on := b.march(at, limit, frozen)
	past, end, cause := -1, limit, solve.ByLimit
	for k, x := range on.bites {
		if !math.IsNaN(x) && b.stops[k].on("lever") && (past < 0 || math.Abs(x) < math.Abs(end)) {
			past, end, cause = k, x, solve.ByStop
		}
	}
	loose := func(x float64) float64 { _, now := b.circle(x); return now - radius }
	for x := at + dir*bruteStep; (end-x)*dir > 0; x += dir * bruteStep {
		if loose(x) < 0 {
			past, end, cause = -1, bisected(x-dir*bruteStep, x, loose), solve.ByCable
		}
	}
	if on.close || math.Abs(loose(end)) < 1e-3 && cause != solve.ByCable {
		return
	}
	require.NotNil(t, e.Past, "it can be told")
	require.Equal(t, cause, e.Past.Cause)
	near(t, end, e.Past.At, 1e-5, "where the control itself ends")
	require.Equal(t, past >= 0, e.HoldsControl())
	if past >= 0 {
		counts["held past"]++
		require.Equal(t, b.stops[past].name, e.Past.Stop.Name)
	}
	if cause == solve.ByCable {
		counts["taut"]++
	}
}

// againstMisses compares what is told of stops that don't bite, or past on center.
func (b *brute) againstMisses(t *testing.T, s *solve.Sweep, sides [2]bruteSide, counts map[string]int) {
	for k, stop := range b.stops {
		bitten := !math.IsNaN(sides[0].bites[k]) || !math.IsNaN(sides[1].bites[k])
		entries := bitesOf(s, stop.name)
		require.NotEmpty(t, entries)
		least := math.Min(sides[0].least[k], sides[1].least[k])
		for _, e := range entries {
			miss := e.Miss
			if e.At != nil {
				i := 0
				if *e.At > 0 {
					i = 1
				}
				if miss != nil && !miss.Late { // on the other side
					i = 1 - i
				}
				if s.Ends[0].Slack != nil || s.Ends[1].Slack != nil {
					continue // found past a slack cable, of which brute force above tells
				}
				if miss != nil && !miss.Late {
					counts["missed elsewhere"]++
					require.True(t, math.IsNaN(sides[i].bites[k]))
					require.Equal(t, [2]string{"low", "high"}[i], miss.Side)
					crank, _ := b.crankAt(miss.At, b.aboutAt(miss.At))
					near(t, b.gapOf(stop, miss.At, crank), miss.Gap, 1e-4, "what is left there")
					continue
				}
				near(t, sides[i].bites[k], *e.At, 1e-6, "where it bites")
				last := math.NaN()
				for _, c := range sides[i].centers {
					if math.Abs(c) < math.Abs(*e.At)-2*bruteStep {
						last = c
					}
				}
				if !math.IsNaN(last) {
					counts["after on center"]++
					require.NotNil(t, miss)
					near(t, last, miss.At, 2*bruteStep, "the dead center before it")
					near(t, math.Abs(*e.At-miss.At), *miss.After, 1e-9, "after it")
					crank, _ := b.crankAt(miss.At, b.aboutAt(miss.At))
					near(t, b.gapOf(stop, miss.At, crank), miss.Gap, 1e-6, "what is left there")
				}
				continue
			}
			if miss == nil {
				require.False(t, !bitten && !math.IsInf(least, 1) && s.Ends[0].Slack == nil && s.Ends[1].Slack == nil, "%s comes as near as %v", stop.name, least)
				continue
			}
			i := 0
			if miss.At > 0 {
				i = 1
			}
			counts["missed"]++
			crank, _ := b.crankAt(miss.At, b.aboutAt(miss.At))
			near(t, b.gapOf(stop, miss.At, crank), miss.Gap, 1e-4, "what is left there") // at a toggle the root of rounding
			require.LessOrEqual(t, miss.Gap, sides[i].least[k]+1e-4, "the least")
			if miss.OnCenter == nil {
				require.Nil(t, miss.After)
				continue
			}
			counts["locked"]++
			near(t, sides[i].toggle, miss.At, 1e-6, "on center")
			if stop.on("crank") {
				require.Nil(t, miss.After, "it hangs itself on what locks up")
				continue
			}
			limit := [2]float64{b.from, b.to}[i]
			on := b.march(miss.At, limit, 0) // the crank counts for nothing
			if on.close {
				continue
			}
			if x := on.bites[k]; !math.IsNaN(x) && !bitten {
				counts["would touch"]++
				require.NotNil(t, miss.After)
				near(t, math.Abs(x-miss.At), *miss.After, 1e-6, "how far past on center")
			} else if math.IsNaN(x) {
				require.Nil(t, miss.After)
			}
		}
	}
}

// aboutAt is the crank's turn near x, followed from neutral.
func (b *brute) aboutAt(x float64) (about float64) {
	dir := math.Copysign(1, x)
	for at := 0.0; math.Abs(at) < math.Abs(x); at += dir * bruteStep {
		about, _ = b.crankAt(at, about)
	}
	return about
}
