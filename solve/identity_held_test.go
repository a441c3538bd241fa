package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// meet returns the crossing of two circles that is nearest to a place.
func meet(a vec, ra float64, b vec, rb float64, last vec) vec {
	d := distance(a, b)
	along := (d*d + ra*ra - rb*rb) / (2 * d)
	h := math.Sqrt(ra*ra - along*along)
	u := b.Sub(a).Unit()
	foot := a.Add(u.Scale(along))
	p, q := foot.Add(square(u).Scale(h)), foot.Sub(square(u).Scale(h))
	if distance(p, last) < distance(q, last) {
		return p
	}
	return q
}

// The mixer: a lever "mix" carried by the collective's hub, pushed at one end
// by the cyclic, pushing the arm with the other. All by hand below.
var mixer = struct{ cyclic, pin, collective, hub, in, out, arm, end vec }{
	cyclic: at(0, 0), pin: at(0, 60),
	collective: at(60, -40), hub: at(110, -10),
	in: at(105, 55), out: at(120, -70),
	arm: at(220, -10), end: at(225, -75),
}

func mixerDrawing(more ...string) drawing {
	m := mixer
	return drawing{
		bodies: []body{
			hinge("cyclic", m.cyclic, spot{"pin", m.pin}),
			hinge("collective", m.collective, spot{"hub", m.hub}),
			{name: "mix", on: "collective.hub", points: []spot{{"in", m.in}, {"out", m.out}}},
			hinge("arm", m.arm, spot{"end", m.end}),
		},
		bars: []bar{{name: "push", from: "cyclic.pin", to: "mix.in"}, {name: "pull", from: "mix.out", to: "arm.end"}},
		rest: []string{
			"control \"pitch\" {\n  of = cyclic\n  from = -15\n  to = 15\n}\n",
			"control \"lift\" {\n  of = collective\n  from = -10\n  to = 14\n  held = [-8, 0, 12]\n}\n",
			"output \"blade\" {\n  of = arm\n}\n",
		},
	}.with(more...)
}

// mixerAt returns the turns of mix, against the drawing, and of the arm.
func mixerAt(pitch, lift float64) (mix, arm float64) {
	m, z := mixer, at3(0, 0, 1)
	in, end := m.in, m.end
	const steps = 50 // in small steps, so that the nearest crossing is the right one
	for i := range steps + 1 {
		k := float64(i) / steps
		pin := rotate(m.pin, z, k*pitch)
		hub := m.collective.Add(rotate(m.hub.Sub(m.collective), z, k*lift))
		in = meet(hub, distance(m.hub, m.in), pin, distance(m.pin, m.in), in)
		mix = turnTo(heading(hub, in)-heading(m.hub, m.in), mix)
		out := hub.Add(rotate(m.out.Sub(m.hub), z, mix))
		end = meet(m.arm, distance(m.arm, m.end), out, distance(m.out, m.end), end)
		arm = turnTo(heading(m.arm, end)-heading(m.arm, m.end), arm)
	}
	return mix, arm
}

// TestHeldSettings: each control is swept at every combination of the others'.
func TestHeldSettings(t *testing.T) {
	result := check(t, mixerDrawing().text())
	require.Len(t, result.Sweeps, 4)
	for i, c := range []struct {
		control, held string
		at            float64
	}{{"pitch", "lift", -8}, {"pitch", "lift", 0}, {"pitch", "lift", 12}, {"lift", "pitch", 0}} {
		s := result.Sweeps[i]
		assert.Equal(t, c.control, s.Control.Name)
		require.Len(t, s.Held, 1)
		assert.Equal(t, c.held, s.Held[0].Control.Name)
		assert.Equal(t, c.at, s.Held[0].At)
		for k := range 9 {
			x := s.Low + (s.High-s.Low)*float64(k)/8
			pitch, lift := x, c.at
			if c.control == "lift" {
				pitch, lift = c.at, x
			}
			mix, arm := mixerAt(pitch, lift)
			st := solveAt(t, s, x)
			about := fmt.Sprintf("%s at %v, %s at %v", c.control, x, c.held, c.at)
			near(t, mix, st.Travel(partNamed(t, result.Run, "mix")), 1e-10, about)
			near(t, arm, st.Travel(partNamed(t, result.Run, "arm")), 1e-10, about)
		}
		_, neutral := mixerAt(0, map[string]float64{"pitch": c.at, "lift": 0}[c.control])
		near(t, neutral, partOf(t, s, "arm").Neutral, 1e-10, "the arm stands off its drawn position while the lever is held off")
	}
}

// TestSweepAlone: a sweep asked for stands at the first of held unless told.
func TestSweepAlone(t *testing.T) {
	run := read(t, mixerDrawing().text())
	m, err := solve.Compile(run)
	require.NoError(t, err)
	pitch, lift := run.Controls[0], run.Controls[1]
	for _, c := range []struct {
		held []solve.Held
		at   float64
	}{{nil, -8}, {[]solve.Held{{Control: lift, At: 5.5}}, 5.5}} {
		s, err := m.Sweep(pitch, c.held)
		require.NoError(t, err)
		require.Len(t, s.Held, 1)
		assert.Equal(t, c.at, s.Held[0].At)
		_, arm := mixerAt(10, c.at)
		near(t, arm, solveAt(t, s, 10).Travel(partNamed(t, run, "arm")), 1e-10, "arm")
	}
	columns, rows := func() ([]solve.Column, [][]float64) {
		s, err := m.Sweep(lift, nil)
		require.NoError(t, err)
		return tableOf(t, s, 4)
	}()
	var names []string
	for _, c := range columns {
		names = append(names, c.Name)
	}
	assert.Equal(t, []string{"collective", "cyclic", "mix", "arm", "blade"}, names, "the swept control's part first")
	assert.Len(t, rows, 5)
	assert.Equal(t, -10.0, rows[0][0])
	assert.Equal(t, 14.0, rows[4][0])
}

// TestRequirementsOverSeveralSweeps: the worst is over all of them, or over
// one control's.
func TestRequirementsOverSeveralSweeps(t *testing.T) {
	least := math.Inf(1) // of the arm's travel, pitch swept at every held lift
	at, held := 0.0, 0.0
	for _, lift := range []float64{-8, 0, 12} {
		for _, pitch := range []float64{-15, 15} {
			if _, arm := mixerAt(pitch, lift); arm < least {
				least, at, held = arm, pitch, lift
			}
		}
	}
	result := check(t, mixerDrawing(
		demand("travel", "of = blade\n  low = 0\n  high = 0\n  within = 90\n  control = pitch"),
		demand("steady", "of = cyclic\n  within = 0\n  control = lift"),
		demand("steady", "of = collective\n  within = 0\n  control = pitch"),
	).text())
	most := math.Inf(-1)
	for _, lift := range []float64{-8, 0, 12} {
		for _, pitch := range []float64{-15, 15} {
			_, arm := mixerAt(pitch, lift)
			most = math.Max(most, arm)
		}
	}
	j := result.Requirements[0]
	nearAt(t, math.Max(math.Abs(least), math.Abs(most)), j.Worst, 1e-9, "over all held settings")
	if math.Abs(least) > math.Abs(most) {
		nearAt(t, at, j.At, 1e-9, "where")
		assert.Equal(t, held, result.Sweeps[j.Sweep].Held[0].At)
	}
	assert.Equal(t, solve.Holds, j.Verdict)
	for _, j := range result.Requirements[1:] {
		assert.Equal(t, solve.Holds, j.Verdict, "controls leave each other alone")
		nearAt(t, 0, j.Worst, 0, "exactly")
	}
}

// TestSteadyIsAboutOneControl: how far this control moves it, from where it
// stood with this control at neutral, whatever the held ones had done to it.
func TestSteadyIsAboutOneControl(t *testing.T) {
	j := check(t, mixerDrawing(demand("steady", "of = blade\n  within = 90\n  control = pitch")).text()).Requirements[0]
	want, at, held := 0.0, 0.0, 0.0
	for _, lift := range []float64{-8, 0, 12} {
		_, stood := mixerAt(0, lift)
		for _, pitch := range []float64{-15, 15} {
			if _, arm := mixerAt(pitch, lift); math.Abs(arm-stood) > want {
				want, at, held = math.Abs(arm-stood), pitch, lift
			}
		}
	}
	nearAt(t, want, j.Worst, 1e-9, "worst")
	nearAt(t, at, j.At, 1e-9, "where")
	assert.Equal(t, held, check(t, mixerDrawing().text()).Sweeps[j.Sweep].Held[0].At)
}

// TestControlOnAControl: measured against its carrier; only its row in the
// parts is told as any part's: against the drawing where the axes are parallel.
func TestControlOnAControl(t *testing.T) {
	for _, c := range []struct {
		axis    vec
		neutral float64
	}{{at3(0, 0, 1), 10}, {at3(0, 0, -1), -10}, {at3(1, 1, 0), 0}} {
		run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(drawing{
			bodies: []body{
				hinge("lever", at(0, 0), spot{"hand", at(100, 0)}),
				{name: "grip", on: "lever.hand", axis: &c.axis, points: []spot{{"lug", at3(100, 10, 5)}}},
			},
			rest: []string{
				"control \"lift\" {\n  of = lever\n  from = -20\n  to = 20\n  held = [10]\n}\n",
				"control \"twist\" {\n  of = grip\n  from = -30\n  to = 40\n}\n",
				"stop \"full\" {\n  of = grip\n  at = 35\n}\n",
			},
		}.text())})
		require.NoError(t, err)
		m, err := solve.Compile(run)
		require.NoError(t, err)
		result, err := m.Check()
		require.NoError(t, err)
		require.Len(t, result.Sweeps, 2)
		s := result.Sweeps[1]
		assert.Equal(t, "twist", s.Control.Name)
		assert.Equal(t, -30.0, s.Low)
		assert.Equal(t, 35.0, s.High, "a stop on a control is against its carrier too")
		grip := partOf(t, s, "grip")
		near(t, c.neutral, grip.Neutral, exact, "neutral")
		near(t, c.neutral-30, grip.AtLow, exact, "at the low end")
		near(t, c.neutral+35, grip.AtHigh, exact, "at the high end")
	}
}

// TestHeldBeyondReach: a held setting behind a stop, or beyond a toggle, names
// the control and what is in the way.
func TestHeldBeyondReach(t *testing.T) {
	told := refusal(t, mixerDrawing("stop \"gate\" {\n  of = collective\n  at = 11\n}\n").text())
	assert.Contains(t, told, "lift")
	assert.Contains(t, told, "gate")

	text := ladder(0, 1).with("control \"other\" {\n  of = side\n  from = -3\n  to = 30\n  held = [28]\n}\n").text()
	text = text + `
part "side" {
  pivot = [50, 0]
  points = { pin = [50, 10] }
}
part "tail" {
  pivot = [80, 0]
  points = { pin = [80, 5] }
}
rod "link" {
  from = side.pin
  to = tail.pin
}
`
	// The crank of 10 drives the arm of 5 until rod and arm lie in line.
	f := fourBar{ground: 30, crank: 10, coupler: math.Hypot(30, 5), rocker: 5}
	var lock float64
	for _, l := range f.locks() {
		if x := turnTo(l-90, 0); x > 0 && (lock == 0 || x < lock) {
			lock = x
		}
	}
	require.Less(t, lock, 28.0)
	told = refusal(t, text)
	assert.Contains(t, told, "other")
	assert.Contains(t, told, "tail")
}
