package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// cyclicHead is the rotor head with where the plate is held, and which way its cyclic is to
// work on blade a. The plate's nose is lowered by minus, the hand that does so is plate.nose.
func cyclicHead(t testing.TB, held, over string, within float64) string {
	text := replaceOnce(t, rotorText(t), "held  = [0, -9, 7]", "held  = "+held)
	text = replaceOnce(t, text, `points = { center = [0, 100, 0] }
}
part "ring"`, `points = { center = [0, 100, 0], nose = [90, 100, 0] }
}
part "ring"`)
	return text + fmt.Sprintf(`require "cyclic-sense" "blade a" {
  of      = pitch-a
  when    = [plate.nose, "down"]
  %s
  within  = %v
  control = cyclic
}
`, over, within)
}

func cyclicSense(t testing.TB, text string) (*solve.Mechanism, *solve.Result, *solve.Judgement) {
	t.Helper()
	m, err := solve.Compile(read(t, text))
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(r))
	for i := range r.Requirements {
		if r.Requirements[i].Requirement.Kind == linkage.CyclicSense {
			return m, r, &r.Requirements[i]
		}
	}
	require.Fail(t, "it isn't judged")
	return nil, nil, nil
}

// leastOfHead is where the blade has its least pitch by the plate alone, degrees from over
// the tail with the rotation, by sums over 720 places of the formula of one hinge (geometry).
// The blade is drawn over the nose.
func leastOfHead(sleeve, plate float64) float64 {
	const n = 720
	cosine, sine := 0.0, 0.0
	for k := range n {
		x := 360 * float64(k) / n
		sin, cos := math.Sincos(x * math.Pi / 180)
		by := headPitch(sleeve, plate, x) - headPitch(sleeve, 0, x)
		cosine += by * cos
		sine += by * sin
	}
	return math.Mod(math.Atan2(-sine, -cosine)*180/math.Pi+180+360, 360)
}

func TestHuntWhereAHandTakesPitchOff(t *testing.T) {
	hunt.Each(t, 3, func(t *testing.T, random *rand.Rand) {
		plate := 2 + 5*random.Float64()
		if random.IntN(2) == 0 {
			plate = -plate
		}
		wants := math.Floor(360 * random.Float64())
		_, r, j := cyclicSense(t, strings.ReplaceAll(cyclicHead(t, fmt.Sprintf("[0, %v]", plate), fmt.Sprintf("least-over = %v", wants), 60), "held = [0, -8, 12]", "held = [3]"))
		least := leastOfHead(3, plate)
		to := wants
		if plate > 0 { // the nose goes up
			to += 180
		}
		off := math.Abs(math.Remainder(least-to, 360))
		require.NotNil(t, j.Worst)
		assert.InDelta(t, off, *j.Worst, 1e-6, "plate %v, wanted %v", plate, wants)
		assert.InDelta(t, 0, math.Remainder(least-j.Reaches, 360), 1e-6)
		assert.Equal(t, off <= 60, j.Verdict == solve.Holds)
		assert.Equal(t, plate > 0, j.End == "back")
		assert.Contains(t, r.CyclicNotJudged, solve.CyclicWay{Control: r.Run.Controls[2], Output: r.Run.Outputs[1]}, "of the other blade nobody asked")
		assert.NotContains(t, r.CyclicNotJudged, solve.CyclicWay{Control: r.Run.Controls[2], Output: r.Run.Outputs[0]})
	})
}

// Of a small tilt the pitch goes as the height of the hole in the ring, which is lowest where
// the hole comes over the low side of the plate: as much before the nose as the hole is ahead
// of the blade (geometry). What a tilt leaves of that goes with its square, the two ends'
// mean taken; three tilts tell the limit.
func TestLeastPitchLiesAheadByTheHorn(t *testing.T) {
	at := func(tilt float64) float64 {
		sum := 0.0
		for _, plate := range []float64{-tilt, tilt} {
			_, _, j := cyclicSense(t, strings.ReplaceAll(cyclicHead(t, fmt.Sprintf("[0, %v]", plate), "least-over = 140", 60), "held = [0, -8, 12]", "held = [0]"))
			require.NotNil(t, j.Worst)
			sum += 140 + math.Remainder(j.Reaches-140, 180)
		}
		return sum / 2
	}
	coarse, middle, fine := at(2), at(1), at(0.5)
	once, again := (4*middle-coarse)/3, (4*fine-middle)/3
	ahead := math.Atan2(50, 60) * 180 / math.Pi
	assert.InDelta(t, 180-ahead, (16*again-once)/15, 1e-6)
	assert.InDelta(t, 180-ahead, fine, 0.05)
}

func TestCyclicSenseIsJudged(t *testing.T) {
	const both = "[0, -9, 7]"
	_, r, j := cyclicSense(t, cyclicHead(t, both, "least-over = 140", 15))
	assert.Equal(t, solve.Holds, j.Verdict)
	require.NotNil(t, j.Band)
	assert.True(t, *j.Sure)
	assert.Greater(t, j.By, 10.0)
	assert.Equal(t, 15.0, j.Limit)
	worst := *j.Worst
	assert.NotContains(t, r.CyclicNotJudged, solve.CyclicWay{Control: r.Run.Controls[2], Output: r.Run.Outputs[0]})

	_, _, j = cyclicSense(t, cyclicHead(t, both, "most-over = 320", 15))
	assert.Equal(t, solve.Holds, j.Verdict, "the other half")
	assert.InDelta(t, worst, *j.Worst, 1e-9)

	_, _, j = cyclicSense(t, cyclicHead(t, both, `least-over = "left"`, 15))
	assert.Equal(t, solve.FallsShort, j.Verdict)
	assert.InDelta(t, 130, *j.Worst, 2)
	assert.True(t, *j.Sure)

	clockwise := strings.Replace(cyclicHead(t, both, `least-over = "right"`, 45), "anticlockwise", "clockwise", 1)
	_, _, j = cyclicSense(t, clockwise)
	assert.Equal(t, solve.FallsShort, j.Verdict, "it comes over the right last of all")
	assert.InDelta(t, 50, *j.Worst, 2, "270 wanted, 220 got")

	// The link on the other side of the ring.
	crossed := strings.NewReplacer("from = ring.a", "from = ring.b", "from = ring.b", "from = ring.a").Replace(cyclicHead(t, both, "least-over = 140", 15))
	_, _, j = cyclicSense(t, crossed)
	assert.Equal(t, solve.FallsShort, j.Verdict)
	assert.Greater(t, *j.Worst, 165.0)
}

func TestCyclicSenseThatCannotBeJudged(t *testing.T) {
	for _, c := range []struct {
		says, held, over string
		from, to         string
		why              solve.Why
	}{
		{says: "at neutral alone", held: "[0]", why: solve.HeldAtOnePlace},
		{says: "a tilt too small to read", held: "[0, -0.05]", why: solve.TooLittleCyclic},
		{says: "one end too small", held: "[0, -9, 0.05]", why: solve.TooLittleCyclic},
		{says: "square to the hand", held: "[0, -9, 7]", from: `"down"]`, to: `"right"]`, why: solve.NeverAlong},
		{says: "no leading edge", held: "[0, -9, 7]", from: "  leading-edge = blade-a.horn\n", why: solve.NoLeadingEdge},
		{says: "a brake", held: "[0, -9, 7]", from: "rotor {", to: "stop \"brake\" {\n  of = hub\n  at = 100\n}\nrotor {", why: solve.NoFullTurn},
	} {
		text := cyclicHead(t, c.held, "least-over = 140", 15)
		if c.from != "" {
			text = replaceOnce(t, text, c.from, c.to)
		}
		_, r, j := cyclicSense(t, text)
		assert.Equal(t, solve.CannotTell, j.Verdict, c.says)
		assert.Equal(t, c.why, j.Why, c.says)
		assert.Nil(t, j.Worst, c.says)
		if c.why == solve.TooLittleCyclic {
			assert.InDelta(t, 0.07, j.By, 0.03)
		}
		if c.held == "[0, -9, 7]" && c.why != solve.NoFullTurn {
			assert.NotEmpty(t, r.CyclicNotJudged, c.says)
		}
	}
	// What falls short at one end does so whatever the other is.
	_, _, j := cyclicSense(t, cyclicHead(t, "[0, -9, 0.05]", "least-over = 320", 15))
	assert.Equal(t, solve.FallsShort, j.Verdict)
}

// A control that nothing holds away from neutral is asked about all the same.
func TestACyclicThatNobodyAskedAbout(t *testing.T) {
	m, err := solve.Compile(read(t, strings.Replace(rotorText(t), "held  = [0, -9, 7]", "held  = [0]", 1)))
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	assert.Empty(t, r.CyclicNotJudged)
	require.NoError(t, m.AddRotor(r))
	var names []string
	for _, k := range r.CyclicNotJudged {
		names = append(names, k.Control.Name+" "+k.Output.Name)
	}
	assert.Equal(t, []string{"cyclic pitch-a", "cyclic pitch-b"}, names, "and the collective is no cyclic")
}

// The slopes against differences of whole checks.
func TestSlopesOfCyclicSense(t *testing.T) {
	text := cyclicHead(t, "[0, -9, 7]", "least-over = 120", 15)
	m, r, j := cyclicSense(t, text)
	slopes, err := m.Slopes(r)
	require.NoError(t, err)
	require.NotNil(t, slopes[j.Requirement.Index])
	for _, d := range []struct {
		name string
		at   float64
	}{{"link-a.length", 200}, {"ring.a.x", 60}, {"ring.a.y", 100}, {"ring.a.z", -50}, {"blade-a.horn.z", -50}, {"drive-link.length", 80}, {"hub.pivot.x", 0}} {
		const h = 1e-3
		worst := func(by float64) float64 {
			run := read(t, text, set(d.name, d.at+by))
			m, err := solve.Compile(run)
			require.NoError(t, err)
			r, err := m.Check()
			require.NoError(t, err)
			return *r.Requirements[j.Requirement.Index].Worst
		}
		want := (worst(h) - worst(-h)) / (2 * h)
		number, ok := m.Run().Number(d.name)
		require.True(t, ok, d.name)
		got, ok := slopes[j.Requirement.Index].Of(m.Run(), number)
		require.True(t, ok)
		assert.InDelta(t, want, got, 1e-4*(1+math.Abs(want)), d.name)
	}
}
