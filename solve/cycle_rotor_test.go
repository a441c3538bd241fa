package solve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// headPitch is the pitch of blade a of the rotor head at an azimuth of its control, by
// bisection and a formula of one hinge: independent of the solver.
func headPitch(sleeve, plate, azimuth float64) float64 {
	const degree = math.Pi / 180
	lean, turned := plate*degree, azimuth*degree
	about := func(v vec, axis vec, by float64) vec { // Rodrigues
		return v.Scale(math.Cos(by)).Add(axis.Cross(v).Scale(math.Sin(by))).Add(axis.Scale(axis.Dot(v) * (1 - math.Cos(by))))
	}
	up, right := vec{Y: 1}, vec{Z: 1}
	center := vec{Y: 100 + sleeve}
	ring := func(p vec, by float64) vec { // a place of the ring from its middle
		return center.Add(about(about(p, up, by), right, lean))
	}
	drive := about(vec{X: -40, Y: 100, Z: 70}, up, turned)
	gap := func(by float64) float64 { return ring(vec{X: 40, Z: 70}, by).Sub(drive).Norm() - 80 }
	low, high := turned-0.5, turned+0.5
	for range 200 {
		middle := (low + high) / 2
		if gap(middle)*gap(low) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	hole := ring(vec{X: 60, Z: -50}, (low+high)/2)
	pivot := about(vec{X: 60}, up, turned).Add(vec{Y: 300})
	span := about(vec{X: 1}, up, turned)
	ahead := about(vec{Z: -50}, up, turned)
	// |pivot + cos b ahead + sin b (span x ahead) - hole| = 200
	w := pivot.Sub(hole)
	a, b := 2*ahead.Dot(w), 2*span.Cross(ahead).Dot(w)
	c := 200*200 - w.Dot(w) - 50*50
	t := math.Atan2(b, a)
	s := math.Acos(c / math.Hypot(a, b))
	first, second := t+s, t-s
	norm := func(x float64) float64 { return math.Remainder(x, 2*math.Pi) }
	if math.Abs(norm(first)) < math.Abs(norm(second)) {
		return norm(first)/degree + 5
	}
	return norm(second)/degree + 5
}

// The cycle of a blade against sums over 720 places of the formula.
func TestCyclesOfABlade(t *testing.T) {
	m, err := solve.Compile(rotorRun(t, rotorHead))
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	seen := 0
	for _, w := range result.Sweeps {
		if w.Control.Name != "azimuth" {
			assert.Nil(t, w.Outputs[0].Cycle)
			continue
		}
		seen++
		const n = 720
		mean, cosine, sine := 0.0, 0.0, 0.0
		at := func(x float64) float64 { return headPitch(w.Held[0].At, w.Held[1].At, x) }
		for k := range n {
			x := 360 * float64(k) / n
			sin, cos := math.Sincos(x * math.Pi / 180)
			mean += at(x) / n
			cosine += 2 * at(x) * cos / n
			sine += 2 * at(x) * sin / n
		}
		c := w.Outputs[0].Cycle
		require.NotNil(t, c)
		assert.InDelta(t, mean, c.Mean, 1e-9)
		assert.InDelta(t, cosine, c.Cosine, 1e-9)
		assert.InDelta(t, sine, c.Sine, 1e-9)
		most := 0.0
		for k := range 4 * n {
			x := 360 * float64(k) / (4 * n)
			sin, cos := math.Sincos(x * math.Pi / 180)
			most = math.Max(most, math.Abs(at(x)-mean-cosine*cos-sine*sin))
		}
		assert.InDelta(t, most, c.Residue, 1e-5*most+1e-9)
		assert.GreaterOrEqual(t, c.Residue, most-1e-9)
	}
	assert.Equal(t, 9, seen)
}

func pitchRequirement(run *linkage.Run, kind linkage.Kind, output int) *linkage.Requirement {
	return &linkage.Requirement{Kind: kind, Of: []linkage.Subject{{Output: run.Outputs[output]}}}
}

// checkPitch checks the rotor head with one requirement of the first blade, and bands.
func checkPitch(t *testing.T, text string, kind linkage.Kind, fill func(q *linkage.Requirement, run *linkage.Run), set ...linkage.Setting) (*solve.Mechanism, *solve.Result) {
	t.Helper()
	m, result := judgePitch(t, text, kind, fill, set...)
	require.NoError(t, m.AddBands(result))
	return m, result
}

// judgePitch checks the rotor head with one requirement of the first blade.
func judgePitch(t *testing.T, text string, kind linkage.Kind, fill func(q *linkage.Requirement, run *linkage.Run), set ...linkage.Setting) (*solve.Mechanism, *solve.Result) {
	t.Helper()
	run := read(t, text, set...)
	addRotor(t, run)
	q := pitchRequirement(run, kind, 0)
	fill(q, run)
	run.Requirements = append(run.Requirements, q)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	return m, result
}

// pitchRange is the least and the most of something of the first blade's cycles.
func pitchRange(r *solve.Result, of func(w *solve.Sweep, c *solve.Cycle) float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, w := range r.Sweeps {
		if c := w.Outputs[0].Cycle; c != nil {
			low, high = math.Min(low, of(w, c)), math.Max(high, of(w, c))
		}
	}
	return low, high
}

func TestCollectivePitchIsJudged(t *testing.T) {
	of := func(low, high, within float64) func(q *linkage.Requirement, run *linkage.Run) {
		return func(q *linkage.Requirement, _ *linkage.Run) { q.Low, q.High, q.Within = low, high, within }
	}
	_, r := checkPitch(t, rotorHead, linkage.CollectivePitch, of(-4.4, 19, 0.3))
	low, high := pitchRange(r, func(_ *solve.Sweep, c *solve.Cycle) float64 { return c.Mean })
	j := r.Requirements[0]
	assert.Equal(t, solve.Holds, j.Verdict)
	assert.InDelta(t, math.Max(math.Abs(low+4.4), math.Abs(high-19)), *j.Worst, 1e-12)
	require.NotNil(t, j.Band)
	require.NotNil(t, j.Sure)

	_, r = checkPitch(t, rotorHead, linkage.CollectivePitch, of(-4.4, 19, 0.2))
	j = r.Requirements[0]
	assert.Equal(t, solve.FallsShort, j.Verdict)
	assert.Equal(t, "high", j.End)
	assert.InDelta(t, high, j.Reaches, 1e-12)

	most := func(most float64) func(q *linkage.Requirement, run *linkage.Run) {
		return func(q *linkage.Requirement, _ *linkage.Run) { q.Most = &most }
	}
	_, r = checkPitch(t, rotorHead, linkage.CollectivePitch, most(19.3))
	assert.Equal(t, solve.Holds, r.Requirements[0].Verdict)
	_, r = checkPitch(t, rotorHead, linkage.CollectivePitch, most(19.2))
	assert.Equal(t, solve.FallsShort, r.Requirements[0].Verdict)
}

func TestCyclicPitchIsJudged(t *testing.T) {
	of := func(low, high, within float64) func(q *linkage.Requirement, run *linkage.Run) {
		return func(q *linkage.Requirement, run *linkage.Run) {
			q.Low, q.High, q.Within = low, high, within
			q.Control = run.Controls[2] // of the cyclic alone
		}
	}
	_, r := checkPitch(t, rotorHead, linkage.CyclicPitch, of(0, 14, 0.1))
	j := r.Requirements[0]
	assert.Equal(t, solve.Holds, j.Verdict)
	high := 0.0
	for _, w := range r.Sweeps {
		if c := w.Outputs[0].Cycle; c != nil && w.Held[0].At == 0 {
			high = math.Max(high, c.Amplitude)
		}
	}
	assert.InDelta(t, high-14, *j.Worst, 1e-12)
	_, r = checkPitch(t, rotorHead, linkage.CyclicPitch, of(0, 14, 0.05))
	assert.Equal(t, solve.FallsShort, r.Requirements[0].Verdict)
	_, r = checkPitch(t, rotorHead, linkage.CyclicPitch, of(0.2, 14, 0.1))
	j = r.Requirements[0]
	assert.Equal(t, solve.FallsShort, j.Verdict)
	assert.Equal(t, "low", j.End)
}

func TestPitchThatCannotBeJudged(t *testing.T) {
	fill := func(q *linkage.Requirement, run *linkage.Run) {
		q.High, q.Within = 20, 30
		run.Outputs[0].LeadingEdge = nil
	}
	_, r := checkPitch(t, rotorHead, linkage.CollectivePitch, fill)
	assert.Equal(t, solve.CannotTell, r.Requirements[0].Verdict)
	assert.Equal(t, solve.NoLeadingEdge, r.Requirements[0].Why)
	_, r = checkPitch(t, rotorHead, linkage.CyclicPitch, fill)
	assert.Equal(t, solve.Holds, r.Requirements[0].Verdict, "the size of a harmonic has no sign")

	stopped := rotorHead + "stop \"brake\" {\n  of = hub\n  at = 100\n}\n"
	_, r = checkPitch(t, stopped, linkage.CyclicPitch, fill)
	assert.Equal(t, solve.CannotTell, r.Requirements[0].Verdict)
	assert.Equal(t, solve.NoFullTurn, r.Requirements[0].Why)

	// The other way round, plus is leading edge down.
	_, r = checkPitch(t, rotorHead, linkage.CollectivePitch, func(q *linkage.Requirement, run *linkage.Run) {
		q.Low, q.High, q.Within = -19, 4.4, 0.3
		edge := run.Outputs[0].LeadingEdge
		edge.Part.Points = append(edge.Part.Points, linkage.Point{Name: "behind", At: vec{X: 60, Y: 300, Z: 50}})
		edge.Point = len(edge.Part.Points) - 1
	})
	assert.Equal(t, solve.Holds, r.Requirements[0].Verdict)
}

// The slopes of both kinds against differences of whole checks.
func TestSlopesOfPitch(t *testing.T) {
	for _, k := range []struct {
		kind linkage.Kind
		most bool
	}{{linkage.CollectivePitch, false}, {linkage.CyclicPitch, false}, {linkage.CyclicPitch, true}, {linkage.CollectivePitch, true}} {
		fill := func(q *linkage.Requirement, run *linkage.Run) {
			q.Low, q.High, q.Within = 1, 17, 0.1
			if most := 12.0; k.most {
				q.Most = &most
			}
		}
		m, r := checkPitch(t, rotorHead, k.kind, fill)
		slopes, err := m.Slopes(r)
		require.NoError(t, err)
		require.NotNil(t, slopes[0], "%v", k)
		for _, d := range []struct {
			name string
			at   float64
		}{{"link-a.length", 200}, {"ring.a.x", 60}, {"ring.a.y", 100}, {"blade-a.horn.z", -50}, {"drive-link.length", 80}, {"hub.pivot.x", 0}} {
			const h = 1e-4
			worst := func(by float64) float64 {
				_, r := judgePitch(t, rotorHead, k.kind, fill, set(d.name, d.at+by))
				return *r.Requirements[0].Worst
			}
			want := (worst(h) - worst(-h)) / (2 * h)
			number, ok := m.Run().Number(d.name)
			require.True(t, ok, d.name)
			got, ok := slopes[0].Of(m.Run(), number)
			require.True(t, ok)
			assert.InDelta(t, want, got, 1e-5*(1+math.Abs(want)), "%v %s", k, d.name)
		}
	}
}

func TestAzimuths(t *testing.T) {
	run := rotorRun(t, rotorHead)
	a, ok := solve.BladeOf(run, run.Outputs[0])
	require.True(t, ok)
	assert.InDelta(t, 180, a.At(0), 1e-9, "over the nose")
	assert.InDelta(t, 270, a.At(90), 1e-9, "on to the left")
	assert.InDelta(t, -90, a.Control(90), 1e-9, "over the right")
	assert.Equal(t, 1.0, a.Pitch)
	b, ok := solve.BladeOf(run, run.Outputs[1])
	require.True(t, ok)
	assert.InDelta(t, 0, math.Remainder(b.At(0), 360), 1e-9, "over the tail")
	assert.InDelta(t, 90, b.At(90), 1e-9, "on to the right")
	run.Rotor.Clockwise = true
	b, ok = solve.BladeOf(run, run.Outputs[1])
	require.True(t, ok)
	assert.InDelta(t, 270, b.At(90), 1e-9, "the right is behind the nose")
	run.Forward = nil
	_, ok = solve.BladeOf(run, run.Outputs[1])
	assert.False(t, ok)
}
