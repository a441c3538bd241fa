package solve_test

import (
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// Past a stop on what a lone cable moves, on its spring's side, the cable hangs slack
// and the control goes on. What holds it then, and what doesn't, is reckoned here by
// hand: open cables turn what they drive in proportion, and a conduit's core is as
// long as two sides of a triangle tell.

func answersText(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("../testdata/answers/" + name + ".hcl")
	require.NoError(t, err)
	return string(text)
}

func checkedRun(t testing.TB, text string) *solve.Result {
	t.Helper()
	m, err := solve.Compile(read(t, text))
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	return r
}

func verdictOf(t testing.TB, r *solve.Result, kind linkage.Kind) solve.Verdict {
	t.Helper()
	for _, j := range r.Requirements {
		if j.Requirement.Kind == kind {
			return j.Verdict
		}
	}
	t.Fatalf("%s isn't required", kind)
	return 0
}

func bitesOf(s *solve.Sweep, stop string) (list []solve.StopBite) {
	for _, b := range s.Stops {
		if b.Stop.Name == stop {
			list = append(list, b)
		}
	}
	return list
}

// TestEngineStopFirstAndTheGripHeld: the engine's stop bites first, the cable goes
// slack, and the grip's own stop holds the grip: then `order` and `stops` both hold.
func TestEngineStopFirstAndTheGripHeld(t *testing.T) {
	r := checkedRun(t, answersText(t, "t3-throttle"))
	require.Equal(t, solve.Holds, verdictOf(t, r, linkage.Stops))
	require.Equal(t, solve.Holds, verdictOf(t, r, linkage.Order))
	require.Equal(t, solve.Holds, verdictOf(t, r, linkage.OverCenter))
	for _, s := range r.Sweeps {
		if s.Control.Name != "throttle" {
			continue
		}
		e := s.Ends[1]
		require.Equal(t, "idle", e.Stop.Name)
		require.Equal(t, "throttle-cable", e.Slack.Name)
		require.Equal(t, "grip-closed", e.Past.Stop.Name)
		require.Equal(t, 44.0, e.Past.At)
		require.Equal(t, s.High, e.At, "the travel ends where the butterfly's does")
	}
	for _, j := range r.Requirements {
		if j.Requirement.Kind == linkage.Order {
			near(t, 44-r.Sweeps[j.Sweep].High, *j.Worst, 1e-9, "the travel between the two")
		}
	}
}

// TestTailMissesTheTube: on center ends the travel just before the tail touches. The
// gap left there and the turn left to it are brute force's: the tail turned about the
// grip's axis, and the least distance of its middle line to the tube's, by ternary
// search.
func TestTailMissesTheTube(t *testing.T) {
	r := checkedRun(t, answersText(t, "t2-throttle"))
	require.Equal(t, solve.FallsShort, verdictOf(t, r, linkage.Stops))
	axis := vec{X: -0.9397, Y: 0.342}.Unit()
	pivot := vec{X: -47, Y: 17.1, Z: 300}
	tube := [2]vec{{X: -26.5, Y: -43.6, Z: 300}, {X: -101.7, Y: -16.2, Z: 300}}
	gap := func(degrees float64) float64 {
		var tail []vec
		for _, p := range []vec{{X: -44.4, Y: 24.2, Z: 313}, {X: -42.3, Y: 30, Z: 337.6}, {X: -53.8, Y: -1.5, Z: 354.5}} {
			v := p.Sub(pivot)
			sin, cos := math.Sincos(degrees * math.Pi / 180)
			tail = append(tail, pivot.Add(v.Scale(cos)).Add(axis.Cross(v).Scale(sin)).Add(axis.Scale(axis.Dot(v)*(1-cos))))
		}
		least := math.Inf(1)
		for i := range 2 {
			low, high := 0.0, 1.0
			far := func(k float64) float64 { return toSegment(between(tail[i], tail[i+1], k), tube[0], tube[1]) }
			for range 200 {
				a, b := low+(high-low)/3, high-(high-low)/3
				if far(a) < far(b) {
					high = b
				} else {
					low = a
				}
			}
			least = math.Min(least, far(low))
		}
		return least - 3 - 8 // half of either diameter
	}
	seen := false
	for _, s := range r.Sweeps {
		if s.Control.Name != "throttle" {
			continue
		}
		seen = true
		require.Equal(t, solve.ByToggle, s.Ends[0].Cause)
		b := bitesOf(s, "tail-stop")
		require.Len(t, b, 1)
		require.Nil(t, b[0].At)
		miss := b[0].Miss
		require.True(t, miss.Near)
		require.Equal(t, solve.Toggle, miss.OnCenter.Kind)
		near(t, s.Low, miss.At, 0, "on center")
		near(t, gap(s.Low), miss.Gap, 1e-7, "what is left there")
		near(t, 0, gap(s.Low-*miss.After), 1e-7, "where it would touch")
		require.Greater(t, *miss.After, 0.0)
		require.Equal(t, solve.ByCable, s.Ends[1].Past.Cause, "nothing holds the grip")
	}
	require.True(t, seen)
}

// wound is a grip that turns a lever by an open cable half as far, and that another
// as far as itself by another, each with a spring to its plus side; more is added.
func wound(more string) string {
	return `run "x" {
  units = "mm"
}
part "grip" {
  pivot = [0, 0]
  points = { tip = [0, 100] }
}
part "lever" {
  pivot = [500, 0]
  points = { tip = [500, 100] }
}
part "carb" {
  pivot = [1000, 0]
  points = { tip = [1000, 100] }
}
cable "first" {
  from = grip
  to = lever
  radius = [30, 60]
  winds = ["up", "down"]
  stiffness = 100
  spring = "minus"
}
cable "second" {
  from = lever
  to = carb
  radius = [60, 60]
  winds = ["up", "down"]
  stiffness = 100
  spring = "minus"
}
control "throttle" {
  of = grip
  from = -100
  to = 100
}
stop "open" {
  of = grip
  at = 90
}
require "stops" {}
` + more
}

func stopAt(name, of string, at float64) string {
	return fmt.Sprintf("stop %q {\n  of = %s\n  at = %v\n}\n", name, of, at)
}

// TestSlackOneAfterAnother: a cable goes slack at its own part's stop, the next one
// nearer to the hand at the next, and the hand's own stop holds it.
func TestSlackOneAfterAnother(t *testing.T) {
	r := checkedRun(t, wound(stopAt("idle", "carb", -10)+stopAt("half", "lever", -20)+stopAt("own", "grip", -60)))
	require.Equal(t, solve.Holds, verdictOf(t, r, linkage.Stops))
	e := r.Sweeps[0].Ends[0]
	near(t, -20, e.At, 1e-9, "half as far")
	require.Equal(t, "second", e.Slack.Name)
	require.Equal(t, "half", e.Past.Stop.Name)
	near(t, -40, e.Past.At, 1e-9, "half as far")
	require.Equal(t, "first", e.Past.Slack.Name)
	require.Equal(t, "own", e.Past.Past.Stop.Name)
	require.Equal(t, -60.0, e.Past.Past.At)
	require.Nil(t, e.Past.Past.Slack)
	require.True(t, e.HoldsControl())

	for _, open := range []string{stopAt("idle", "carb", -10), stopAt("idle", "carb", -10) + stopAt("half", "lever", -20)} {
		r = checkedRun(t, wound(open))
		require.Equal(t, solve.FallsShort, verdictOf(t, r, linkage.Stops), open)
		last := lastOf(r.Sweeps[0].Ends[0])
		require.Equal(t, solve.ByLimit, last.Cause)
		require.Equal(t, -100.0, last.At)
	}
	r = checkedRun(t, wound(stopAt("idle", "carb", -10)+stopAt("own", "grip", -20)))
	require.Equal(t, solve.Holds, verdictOf(t, r, linkage.Stops), "both at one place")
	pulled := checkedRun(t, wound(stopAt("low", "grip", -50)+stopAt("full", "carb", 20)))
	require.Nil(t, pulled.Sweeps[0].Ends[1].Slack, "the cable pulls against it")
	require.Equal(t, solve.Holds, verdictOf(t, pulled, linkage.Stops))
}

// TestSlackComesTautAgain: the core is shortest where the grip's arm points at the
// conduit, 30 degrees on; so it is as long again as at the stop as far past that as
// the stop lies before it. A stop of the grip's own holds it before that, and comes
// too late after.
func TestSlackComesTautAgain(t *testing.T) {
	text := func(more string) string {
		at := func(angle float64) string {
			sin, cos := math.Sincos(angle * math.Pi / 180)
			return fmt.Sprintf("[%v, %v]", 100*cos, 100*sin)
		}
		return `run "x" {
  units = "mm"
}
fixed "frame" {
  points = { near = ` + at(30) + `, far = [500, 0] }
}
part "grip" {
  pivot = [0, 0]
  points = { arm = [40, 0] }
}
part "carb" {
  pivot = [600, -40]
  points = { arm = [600, 0] }
}
cable "core" {
  from = grip.arm
  to = carb.arm
  conduit = [frame.near, frame.far]
  spring = "minus"
}
control "throttle" {
  of = grip
  from = -20
  to = 160
}
stop "open" {
  of = grip
  at = -10
}
stop "idle" {
  of = carb
  at = -2
}
require "stops" {}
require "over-center" {
  least = 5
}
` + more
	}
	r := checkedRun(t, text(""))
	s := r.Sweeps[0]
	e := s.Ends[1]
	require.Equal(t, "idle", e.Stop.Name)
	require.Equal(t, solve.ByCable, e.Past.Cause)
	near(t, 60-e.At, e.Past.At, 1e-6, "as far past 30 as the stop lies before it")
	require.Equal(t, solve.FallsShort, verdictOf(t, r, linkage.Stops))
	for at, holds := range map[float64]solve.Verdict{25: solve.Holds, 40: solve.Holds, 58: solve.FallsShort} {
		r := checkedRun(t, text(stopAt("own", "grip", at)))
		require.Equal(t, holds, verdictOf(t, r, linkage.Stops), "%v, taut at %v", at, e.Past.At)
		require.Equal(t, e.At, r.Sweeps[0].Ends[1].At)
	}
	failed := failuresOf(t, text(stopAt("own", "grip", 25)))
	own := caseOf(t, failed, "stop own", solve.Parted)
	require.Equal(t, solve.Dangerous, own.Severity, "the grip goes over center: what comes next")
	near(t, 30, own.OnCenter[0].At, 1e-6, "where the arm points at the conduit")
	require.Equal(t, solve.DeadCenter, own.OnCenter[0].Kind)
}

// TestOnCenterWhileSlack: the grip drives a lever by a rod of its own, and that the
// carburetor by a cable. The rod comes in line past the idle stop: before the grip's
// own stop that ends it, and after it the margin counts from there.
func TestOnCenterWhileSlack(t *testing.T) {
	text := func(own, to float64) string {
		return `run "x" {
  units = "mm"
}
part "grip" {
  pivot = [0, 0]
  points = { arm = [0, 60] }
}
part "lever" {
  pivot = [150, 0]
  points = { arm = [150, 100] }
}
part "carb" {
  pivot = [600, 0]
  points = { tip = [600, 50] }
}
rod "link" {
  from = grip.arm
  to = lever.arm
}
cable "core" {
  from = lever
  to = carb
  radius = [50, 50]
  winds = ["up", "down"]
  stiffness = 100
  spring = "minus"
}
control "throttle" {
  of = grip
  from = ` + fmt.Sprint(-to) + `
  to = 30
}
stop "open" {
  of = grip
  at = 20
}
stop "idle" {
  of = carb
  at = -10
}
require "stops" {}
require "over-center" {
  least = 5
}
` + stopAt("own", "grip", own)
	}
	// The rod's own first place in line on the minus side, as the grip drives it with
	// no cable nor stop: from the run itself without them.
	free := checkedRun(t, text(-29, 170))
	s := free.Sweeps[0]
	var center *solve.Critical
	for i := range s.Critical {
		if c := &s.Critical[i]; c.At < 0 && c.Rod != nil && (center == nil || c.At > center.At) {
			center = c
		}
	}
	require.NotNil(t, center)
	require.Less(t, center.At, s.Low)
	at := center.At
	near(t, -29-at, center.Margin, 1e-9, "from where the grip is held")
	require.Equal(t, solve.Holds, verdictOf(t, free, linkage.Stops))
	inside := checkedRun(t, text(at-1, 170))
	switch center.Kind {
	case solve.DeadCenter:
		require.Equal(t, solve.FallsShort, verdictOf(t, inside, linkage.OverCenter))
	default:
		require.Equal(t, solve.FallsShort, verdictOf(t, inside, linkage.Stops))
		require.Equal(t, center.Kind, solve.CriticalKind(lastOf(inside.Sweeps[0].Ends[0]).Cause))
	}
}

// TestStopOnTheCarrierStandsBehindTheCable: a tab that a stick carries is trimmed by a
// cable, and stopped against the stick: that stop stays with the tab wherever the stick
// is held, so it holds the tab and not the trim lever.
func TestStopOnTheCarrierStandsBehindTheCable(t *testing.T) {
	text := func(more string) string {
		return `run "x" {
  units = "mm"
}
fixed "frame" {
  points = { near = [-100, 40] }
}
part "trim" {
  pivot = [-200, 0]
  points = { arm = [-200, 40] }
}
part "stick" {
  pivot = [0, 0]
  points = { hinge = [200, 0], mouth = [100, 40] }
  round "horn" {
    at = [230, -20]
    radius = 3
  }
}
part "tab" {
  pivot = stick.hinge
  points = { arm = [200, 40] }
  round "lug" {
    at = [236, 0]
    radius = 3
  }
}
cable "core" {
  from = trim.arm
  to = tab.arm
  conduit = [frame.near, stick.mouth]
  spring = "SPRING"
}
control "trim-lever" {
  of = trim
  from = -60
  to = 60
  held = [-10, 0, 10]
}
control "stick-grip" {
  of = stick
  from = -30
  to = 30
  held = [-15, 0, 15]
}
stop "against" {
  touch = [tab.lug, stick.horn]
}
stop "high" {
  of = trim
  at = 30
}
stop "fore" {
  of = stick
  at = 15
}
stop "aft" {
  of = stick
  at = -15
}
require "stops" {}
` + more
	}
	try := func(more string) *solve.Result {
		m, err := solve.Compile(read(t, replaceOnce(t, text(more), "SPRING", "plus")))
		if err != nil {
			m, err = solve.Compile(read(t, replaceOnce(t, text(more), "SPRING", "minus")))
		}
		require.NoError(t, err)
		r, err := m.Check()
		require.NoError(t, err)
		return r
	}
	for _, own := range []bool{false, true} {
		more := ""
		if own {
			more = stopAt("own", "trim", -45)
		}
		r := try(more)
		seen := 0
		for _, s := range r.Sweeps {
			for _, e := range s.Ends {
				if e.Stop == nil || e.Stop.Name != "against" {
					require.True(t, e.HoldsControl() || e.Cause == solve.ByLimit)
					require.Nil(t, e.Slack)
					continue
				}
				seen++
				require.Equal(t, "trim-lever", s.Control.Name, "the stick carries both")
				require.NotNil(t, e.Slack)
				require.NotNil(t, e.Past)
				require.Equal(t, own, e.HoldsControl())
			}
		}
		require.Equal(t, 3, seen, "wherever the stick is held")
		require.Equal(t, own, verdictOf(t, r, linkage.Stops) == solve.Holds)
	}
}
