package demo_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"
)

// rooted finds where a function that grows is nothing, by halving.
func rooted(low, high float64, f func(float64) float64) float64 {
	for range 100 {
		if middle := (low + high) / 2; f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// levelPitch is the pitch of a blade of the rotor demo, degrees, with the swashplate level
// and the collective's lever at an angle, degrees: two rods in a plane, from the figures of
// the drawing.
func levelPitch(lever float64) float64 {
	sin, cos := math.Sincos(lever * math.Pi / 180)
	outX, outY := -130+100*cos, -220+100*sin
	rise := outY + math.Sqrt(120*120-(outX+30)*(outX+30)) + 100
	return 5 + 180/math.Pi*rooted(-0.6, 0.6, func(pitch float64) float64 {
		up, in := 250+120*math.Sin(pitch)-rise, 120-120*math.Cos(pitch)
		return math.Sqrt(up*up+in*in) - 250
	})
}

func TestRotorPitchesAsTheFormulaSays(t *testing.T) {
	run := read(t, text(t, "rotor"))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddRotor(r))
	rotor := r.Rotor
	require.NotNil(t, rotor)
	require.Equal(t, "collective", rotor.Collective.Name)
	require.Len(t, rotor.Blades, 2)

	// The cranks let the swashplate lean by up to a quarter of a degree as the sleeve rises,
	// to and fro by as much around the turn; on the mean that is a quarter of a hundredth.
	for i, lever := range []float64{-7.2, 0, 7.2} {
		for b := range rotor.Blades {
			cell := rotor.Blades[b].Cell(i, -1, 0)
			require.NotNil(t, cell)
			assert.InDelta(t, levelPitch(lever), cell.Mean, 0.01)
		}
	}

	// Plate and horn are as long, so a tilt comes out as that much cyclic pitch; the horn is
	// a quarter of a turn ahead, so forward stick, which lowers the front, takes it off on the
	// right: at 90 degrees, as the rotor turns that way.
	stick := slices.IndexFunc(rotor.Sticks, func(s solve.Stick) bool { return s.Control.Name == "fore-and-aft" })
	require.GreaterOrEqual(t, stick, 0)
	assert.Equal(t, [2]linkage.Direction{linkage.Aft, linkage.Forward}, rotor.Sticks[stick].Toward)
	for b := range rotor.Blades {
		at, by := rotor.LeastWith(&rotor.Blades[b], stick, 1)
		require.NotNil(t, at)
		assert.InDelta(t, 90, *at, 1)
		assert.InDelta(t, 8, by, 0.1)
	}
	differ, ok := rotor.Differ()
	assert.True(t, ok)
	assert.Less(t, differ, 0.3, "one is drawn as the other, half a turn on")
}

// The blade's link put on the other arm of the rotating plate, or on a horn behind: the pitch goes
// as far as ever, and the wrong way round.
func TestRotorWithALinkOnTheOtherHornFallsShort(t *testing.T) {
	check := func(text string) (short []string) {
		m, err := solve.Compile(read(t, text))
		require.NoError(t, err)
		r, err := m.Check()
		require.NoError(t, err)
		require.NoError(t, m.AddRotor(r))
		assert.Empty(t, r.CyclicNotJudged)
		for _, j := range r.Requirements {
			if j.Requirement.Kind == linkage.CyclicSense && j.Verdict == solve.FallsShort {
				assert.InDelta(t, 180, *j.Worst, 2, j.Requirement.Name)
				short = append(short, j.Requirement.Name)
			}
		}
		return short
	}
	rotor := text(t, "rotor")
	assert.Empty(t, check(rotor))
	a, b := "from         = rotating-plate.a\n", "from         = rotating-plate.b\n"
	assert.Equal(t, []string{"forward, b", "right, b"}, check(strings.Replace(rotor, b, a, 1)))
	assert.Equal(t, []string{"forward, a", "forward, b", "right, a", "right, b"}, check(strings.NewReplacer(a, b, b, a).Replace(rotor)))
	behind := strings.Replace(rotor, "horn = [60, 0, 120]", "horn = [60, 0, -120]", 1)
	require.NotEqual(t, rotor, behind)
	assert.Equal(t, []string{"forward, a", "right, a"}, check(behind))
}

// Of a rotor every case is looked at, if only with the other controls at neutral.
func TestRotorHasRoomForEveryFailure(t *testing.T) {
	text, ok := demo.File("rotor")
	require.True(t, ok)
	run, err := linkage.Read(&linkage.Source{Name: "rotor.hcl", Text: text})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	f, err := m.Failures(nil)
	require.NoError(t, err)
	assert.Zero(t, f.LeftOut)
	assert.True(t, f.AtNeutral)
	for i := range f.Cases {
		assert.NotEqual(t, solve.NotKnown, f.Cases[i].Severity, "%v", f.Cases[i].Element)
	}
}
