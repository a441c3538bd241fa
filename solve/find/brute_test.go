package find

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// randomLevers is a run of two levers and a rod with limits about what it does, and what
// varies in it: a hole among some, an arm by steps, and the rod.
func randomLevers(random *rand.Rand, many bool) string {
	between := func(low, high float64) float64 { return math.Round(8*(low+(high-low)*random.Float64())) / 8 }
	x := between(120, 220)
	text := fmt.Sprintf(`run "Levers" { units = "mm" }
part "lever" {
  pivot  = [0, 0]
  points = { hole = [%g, 60] }
}
part "arm" {
  pivot = [%g, %g]
  arms  = { pin = [%g, %g] }
}
rod "link" {
  from = lever.hole
  to   = arm.pin
}
control "hand" {
  of   = lever
  from = -40
  to   = 40
}
stop "aft" {
  of = lever
  at = -25
}
stop "forward" {
  of = lever
  at = 25
}
require "together" {
  of     = [lever, arm]
  within = %g
}
require "travel" {
  of     = arm
  low    = %g
  high   = %g
  within = %g
}
require "rod-angle" { least = %g }
require "over-center" { least = 10 }
`, between(-10, 10), x, between(-20, 20), between(-15, 15), between(40, 80), between(1, 8), between(-32, -18), between(18, 32), between(1, 9), between(30, 60))
	var among []string
	for range 2 + random.IntN(4) {
		among = append(among, fmt.Sprintf("[%g, %g]", between(-15, 15), between(45, 75)))
	}
	steps := 2 + random.IntN(3)
	if many {
		steps = 70
	}
	text += fmt.Sprintf("vary \"hole\" {\n  of    = lever.hole\n  among = [%s]\n}\n", strings.Join(among, ", "))
	text += fmt.Sprintf("vary \"pin\" {\n  of   = arm.pin.x\n  low  = %g\n  high = %g\n  step = %g\n}\n", x-14, x-14+28.0/float64(steps)*float64(steps), 28.0/float64(steps))
	return text
}

// brute judges every combination of what varies as a file that is set so; the run as filed
// is the first.
func brute(t *testing.T, run *linkage.Run) (all []fare) {
	judge := func(set []linkage.Setting) {
		run, err := linkage.Read(run.Source, set...)
		require.NoError(t, err)
		m, err := solve.Compile(run)
		if err != nil {
			return
		}
		result, err := m.Check()
		if err != nil {
			return
		}
		f := fare{reserve: capReserve}
		for i := range result.Requirements {
			j := &result.Requirements[i]
			if j.Verdict != solve.Holds {
				f.failed++
				f.most, f.sum = math.Max(f.most, j.MissedShare()), f.sum+j.MissedShare()
			} else if v := j.Reserve(); v != nil {
				f.reserve = math.Min(f.reserve, *v)
			}
		}
		all = append(all, f)
	}
	judge(nil)
	text := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	hole, pin := run.Varies[0], run.Varies[1]
	for _, at := range hole.Among {
		for k := 0.0; pin.Low+k*pin.Step <= pin.High+1e-9; k++ {
			judge([]linkage.Setting{{Dimension: "lever.hole.x", Value: text(at[0])}, {Dimension: "lever.hole.y", Value: text(at[1])}, {Dimension: "arm.pin.x", Value: text(pin.Low + k*pin.Step)}})
		}
	}
	return all
}

// What is told is what trying every combination one after another comes to.
func TestHuntFindAgainstBruteForce(t *testing.T) {
	hunt.Each(t, 12, func(t *testing.T, random *rand.Rand) {
		text := randomLevers(random, random.IntN(6) == 0)
		run, err := linkage.Read(&linkage.Source{Name: "levers.hcl", Text: []byte(text)})
		require.NoError(t, err, text)
		m, err := solve.Compile(run)
		if err != nil {
			return // as filed it doesn't close
		}
		if _, err := m.Check(); err != nil {
			return
		}
		found, err := Search(m, Options{})
		require.NoError(t, err, text)
		all := brute(t, run)
		best := all[0]
		for _, f := range all {
			if compareFares(f, best) < 0 {
				best = f
			}
		}
		s := &found.Settings[0]
		told := fare{reserve: capReserve}
		for i := range s.Check.Requirements {
			j := &s.Check.Requirements[i]
			if j.Verdict != solve.Holds {
				told.failed++
				told.most, told.sum = math.Max(told.most, j.MissedShare()), told.sum+j.MissedShare()
			} else if v := j.Reserve(); v != nil {
				told.reserve = math.Min(told.reserve, *v)
			}
		}
		assert.Equal(t, best.failed == 0, found.Found, text)
		assert.Equal(t, best.failed, told.failed, text)
		assert.LessOrEqual(t, told.failed, all[0].failed, "never in more than as filed: %s", text)
		assert.InDelta(t, best.most, told.most, sameReserve+1e-9, text)
		if best.failed == 0 {
			assert.InDelta(t, best.reserve, told.reserve, sameReserve+1e-9, text)
		}
		assert.True(t, found.Searched.Complete)
		combinations := 1.0
		for i := range run.Varies {
			a := newAxis(run.Varies[i])
			combinations *= float64(a.count)
		}
		assert.Equal(t, combinations, found.Searched.Combinations)
		assert.InDelta(t, combinations, found.Searched.Settings, 1, "the run as filed besides, where it is none of them")
		again, err := Search(m, Options{})
		require.NoError(t, err)
		for i := range found.Settings {
			assert.Equal(t, valuesOf(&found.Settings[i]), valuesOf(&again.Settings[i]), "the same every time")
		}
	})
}

// What is written into the file is what was judged.
func TestHuntFoundHoldsAsAFile(t *testing.T) {
	hunt.Each(t, 6, func(t *testing.T, random *rand.Rand) {
		text := strings.Replace(randomLevers(random, false), "  step = ", "  # step = ", 1)
		run, err := linkage.Read(&linkage.Source{Name: "levers.hcl", Text: []byte(text)})
		require.NoError(t, err, text)
		m, err := solve.Compile(run)
		if err != nil {
			return
		}
		found, err := Search(m, Options{})
		require.NoError(t, err, text)
		for i := range found.Settings {
			s := &found.Settings[i]
			var set []linkage.Setting
			for _, v := range s.Values {
				for k, n := range v.Vary.Numbers {
					set = append(set, linkage.Setting{Dimension: n.String(), Value: strconv.FormatFloat(v.Is[k], 'g', -1, 64)})
				}
			}
			again, err := linkage.Read(run.Source, set...)
			require.NoError(t, err)
			m, err := solve.Compile(again)
			require.NoError(t, err)
			result, err := m.Check()
			require.NoError(t, err)
			for k := range result.Requirements {
				a, b := &result.Requirements[k], &s.Check.Requirements[k]
				assert.Equal(t, a.Verdict, b.Verdict, text)
				if a.Worst != nil {
					assert.InDelta(t, *a.Worst, *b.Worst, 1e-9*math.Max(1, math.Abs(*a.Worst)), text)
				}
			}
			assert.Equal(t, s.Verdict == solve.Holds, found.Found, text)
		}
	})
}
