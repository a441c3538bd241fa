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

// rssr is a crank and a rocker on hinges that lie anyhow in space, with a coupler on ball
// joints between them.
type rssr struct {
	pivot, axis, pin [2]vec // of the crank and of the rocker
}

// randomRSSR is one about 100 wide.
func randomRSSR(random *rand.Rand) (r rssr) {
	some := func(size float64) vec {
		return at3(random.NormFloat64(), random.NormFloat64(), random.NormFloat64()).Scale(size)
	}
	r.pivot = [2]vec{some(10), at3(120, 0, 0).Add(some(20))}
	for i := range r.axis {
		r.axis[i] = some(1).Unit()
		arm := r.axis[i].Cross(some(1)).Unit()
		r.pin[i] = r.pivot[i].Add(arm.Scale(30 + 50*random.Float64())).Add(r.axis[i].Scale(20 * random.NormFloat64()))
	}
	return r
}

func (r rssr) length() float64 { return distance(r.pin[0], r.pin[1]) }

// crankPin is where it is with the crank turned, and its rate for each radian.
func (r rssr) crankPin(x float64) (at, rate vec) {
	at = r.pivot[0].Add(rotate(r.pin[0].Sub(r.pivot[0]), r.axis[0], x))
	return at, r.axis[0].Cross(at.Sub(r.pivot[0]))
}

func (r rssr) rockerPin(y float64) vec {
	return r.pivot[1].Add(rotate(r.pin[1].Sub(r.pivot[1]), r.axis[1], y))
}

// closing are e, f, g of e cos y + f sin y + g = 0, by which the coupler has its length
// with the rocker turned by y.
func (r rssr) closing(x float64) (e, f, g float64) {
	a, _ := r.crankPin(x)
	arm := r.pin[1].Sub(r.pivot[1])
	along := r.axis[1].Scale(arm.Dot(r.axis[1]))
	out := arm.Sub(along)
	w := a.Sub(r.pivot[1]).Sub(along)
	e, f = -2*w.Dot(out), -2*w.Dot(r.axis[1].Cross(out))
	return e, f, w.Dot(w) + out.Dot(out) - r.length()*r.length()
}

// rocker is its turn by the half angle: t = tan(y/2) of (g-e) t^2 + 2 f t + g + e = 0 (textbook, from
// memory), here by two arguments, so that half a turn is no exception. hand says which root.
func (r rssr) rocker(x, hand float64) (y float64, ok bool) {
	e, f, g := r.closing(x)
	root := e*e + f*f - g*g
	if root < 0 {
		return 0, false
	}
	return deg(2 * math.Atan2(-f+hand*math.Sqrt(root), g-e)), true
}

// hand is the root at which it is drawn.
func (r rssr) hand() float64 {
	plus, _ := r.rocker(0, 1)
	minus, _ := r.rocker(0, -1)
	if math.Abs(math.Remainder(plus, 360)) < math.Abs(math.Remainder(minus, 360)) {
		return 1
	}
	return -1
}

// reach is 0 where it is at an end of its travel, and above it inside.
func (r rssr) reach(x float64) float64 {
	e, f, g := r.closing(x)
	return (math.Hypot(e, f) - math.Abs(g)) / (r.length() * r.length())
}

// halts is 0 where the rocker halts: the crank's pin goes square to the coupler.
func (r rssr) halts(x, hand float64) float64 {
	y, ok := r.rocker(x, hand)
	if !ok {
		return math.NaN()
	}
	a, rate := r.crankPin(x)
	return a.Sub(r.rockerPin(y)).Dot(rate) / (r.length() * rate.Norm())
}

// zeros are those of a function between two places, from steps of a tenth of a degree on.
func zerosOf(f func(x float64) float64, low, high float64) (list []float64) {
	const step = 0.1
	for x := low; x < high; x += step {
		a, b := x, math.Min(high, x+step)
		fa, fb := f(a), f(b)
		if !(fa*fb <= 0) {
			continue
		}
		for range 60 {
			middle := (a + b) / 2
			if fm := f(middle); fa*fm > 0 {
				a, fa = middle, fm
			} else {
				b = middle
			}
		}
		list = append(list, (a+b)/2)
	}
	return list
}

func (r rssr) file(coupler string) string {
	v := strings.NewReplacer(
		"PIVOT1", write(r.pivot[0]), "PIVOT2", write(r.pivot[1]), "AXIS1", write(r.axis[0]), "AXIS2", write(r.axis[1]),
		"PIN1", write(r.pin[0]), "PIN2", write(r.pin[1]), "ASIDE", write(between(r.pin[0], r.pin[1], 0.4).Add(at3(3, 4, 5))))
	return v.Replace(`run "crank and rocker" {
  units = "mm"
}
part "crank" {
  pivot  = PIVOT1
  axis   = AXIS1
  points = { pin = PIN1 }
}
part "rocker" {
  pivot  = PIVOT2
  axis   = AXIS2
  points = { pin = PIN2 }
}
` + coupler + `
control "hand" {
  of   = crank
  from = -180
  to   = 180
}
output "angle" {
  of = rocker
}
`)
}

// rssrCouplers are ways to write one: a rod, a part joined at both ends, which may spin as a
// rod does, and a part on a ball at one end and joined at the other.
var rssrCouplers = map[string]string{
	"rod":    "rod \"coupler\" {\n  from = crank.pin\n  to = rocker.pin\n}\n",
	"joints": "part \"coupler\" {\n  floats = \"space\"\n  points = { a = PIN1, b = PIN2, aside = ASIDE }\n}\njoint \"ja\" {\n  of = [crank.pin, coupler.a]\n}\njoint \"jb\" {\n  of = [coupler.b, rocker.pin]\n}\n",
	"ball":   "part \"coupler\" {\n  ball = crank.pin\n  points = { b = PIN2, aside = ASIDE }\n}\njoint \"jb\" {\n  of = [rocker.pin, coupler.b]\n}\n",
}

func TestHuntRSSR(t *testing.T) {
	hunt.Each(t, 4, func(t *testing.T, random *rand.Rand) {
		r := randomRSSR(random)
		hand := r.hand()
		if math.Abs(r.reach(0)) < 1e-2 {
			return // drawn on center
		}
		for name, coupler := range rssrCouplers {
			run, sweep := sweepOf(t, r.file(coupler))
			about := fmt.Sprintf("%s %+v", name, r)
			require.False(t, sweep.Lost, about)
			low, high := -180.0, 180.0
			kinds := [2]solve.Cause{solve.ByLimit, solve.ByLimit}
			for _, x := range zerosOf(r.reach, -180, 180) {
				if x < 0 && x > low {
					low, kinds[0] = x, solve.ByToggle
				}
				if x > 0 && x < high {
					high, kinds[1] = x, solve.ByToggle
				}
			}
			near(t, low, sweep.Low, 1e-9, about)
			near(t, high, sweep.High, 1e-9, about)
			require.Equal(t, kinds, [2]solve.Cause{sweep.Ends[0].Cause, sweep.Ends[1].Cause}, about)
			var dead []float64
			for _, c := range sweep.Critical {
				if c.Kind == solve.DeadCenter {
					dead = append(dead, c.At)
				}
			}
			inside := func(x float64) bool { return x > low+0.01 && x < high-0.01 }
			want := zerosOf(func(x float64) float64 { return r.halts(x, hand) }, low+1e-6, high-1e-6)
			require.Len(t, dead, len(want), about)
			for i := range want {
				if inside(want[i]) {
					near(t, want[i], dead[i], 1e-8, about)
				}
			}
			last := 0.0
			for x := 0.0; x < high-0.01; x += 0.5 {
				y, ok := r.rocker(x, hand)
				require.True(t, ok, about)
				y = turnTo(y, last) // as it goes on past half a turn
				last = y
				pose := solveAt(t, sweep, x)
				near(t, y, pose.Reading(run.Outputs[0]), 1e-9/math.Max(1e-3, r.reach(x)), about)
				a, b := pose.Point(pointNamed(t, run, "crank.pin")), pose.Point(pointNamed(t, run, "rocker.pin"))
				near(t, r.length(), distance(a, b), 1e-12*run.Size(), about)
			}
		}
	})
}
