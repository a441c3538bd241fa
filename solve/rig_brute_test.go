package solve_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// option is a setting as the tests search it: each end and each stop on its own.
type option struct {
	turns   []float64 // of the ends in the file's order
	at      float64   // of the stop "forward"
	reserve float64
	holds   bool
}

func (o option) sum() (sum float64) {
	for _, t := range o.turns {
		sum += math.Abs(t)
	}
	return sum
}

func (o option) spare(ends []*linkage.RodEnd) float64 {
	least := math.Inf(1)
	for i, e := range ends {
		least = math.Min(least, e.Spare()-o.turns[i]*e.Thread.Pitch)
	}
	return least
}

// before puts the better of two that tie in reserve first: the definition again,
// in other words.
func (o option) before(p option, ends []*linkage.RodEnd, at float64) bool {
	const same = 1e-9
	if d := o.sum() - p.sum(); math.Abs(d) > same {
		return d < 0
	}
	if d := o.spare(ends) - p.spare(ends); math.Abs(d) > same {
		return d > 0
	}
	if d := math.Abs(o.at-at) - math.Abs(p.at-at); math.Abs(d) > same {
		return d < 0
	}
	for i := range o.turns {
		if d := math.Abs(o.turns[i]) - math.Abs(p.turns[i]); d != 0 {
			return d > 0
		}
		if o.turns[i] != p.turns[i] {
			return o.turns[i] > p.turns[i]
		}
	}
	return o.at < p.at
}

// bruteForce lists all settings of a file, each checked as a file that is set so,
// and returns the best, by the definition of the best left.
func bruteForce(t *testing.T, text string, count int) []option {
	run := read(t, text)
	var ends []*linkage.RodEnd
	for _, r := range run.Rods {
		ends = append(ends, r.Ends...)
	}
	stop := run.Stops[1]
	ats := []float64{stop.At}
	if stop.Adjust != nil {
		ats = nil
		for at := stop.Adjust[0]; at <= stop.Adjust[1]+1e-9; at += stop.Step {
			ats = append(ats, at)
		}
	}
	results := map[string]*solve.Result{}
	var all []option
	turns := make([]float64, len(ends))
	var each func(i int)
	each = func(i int) {
		if i < len(ends) {
			e := ends[i]
			for k := -100; k <= 100; k++ {
				turns[i] = float64(k) * e.Step
				if in := e.Engaged - turns[i]*e.Thread.Pitch; in >= e.Least-1e-9 && in <= *e.Most+1e-9 {
					each(i + 1)
				}
			}
			return
		}
		for _, at := range ats {
			var settings []linkage.Setting
			lengths := map[*linkage.Rod]float64{}
			for k, e := range ends {
				lengths[e.Rod] += turns[k] * e.Thread.Pitch
			}
			for _, r := range run.Rods {
				if r.LengthGiven {
					settings = append(settings, set(r.Name+".length", r.Length+math.Round(lengths[r]*1e6)/1e6))
				}
			}
			settings = append(settings, set("forward.at", at))
			key := fmt.Sprint(settings)
			if results[key] == nil {
				results[key] = check(t, text, settings...)
			}
			o := option{turns: slices.Clone(turns), at: at, reserve: math.Inf(1), holds: results[key].Verdict == solve.Holds}
			for _, j := range results[key].Requirements {
				switch j.Requirement.Kind {
				case linkage.Opposite, linkage.Travel:
					o.reserve = math.Min(o.reserve, (j.Limit-*j.Worst)/j.Limit)
				case linkage.RodAngle:
					o.reserve = math.Min(o.reserve, (*j.Worst-j.Limit)/j.Limit)
				case linkage.Stops, linkage.Engagement:
				default:
					require.Fail(t, "a kind that the test doesn't know", j.Requirement.Kind)
				}
			}
			all = append(all, o)
		}
	}
	each(0)
	all = slices.DeleteFunc(all, func(o option) bool { return !o.holds })
	var best []option
	for len(best) < count && len(all) > 0 {
		most := slices.MaxFunc(all, func(a, b option) int {
			switch {
			case a.reserve < b.reserve:
				return -1
			case a.reserve > b.reserve:
				return 1
			}
			return 0
		}).reserve
		k := -1
		for i, o := range all {
			if o.reserve >= most-1e-3 && (k < 0 || o.before(all[k], ends, stop.At)) {
				k = i
			}
		}
		best = append(best, all[k])
		all = slices.Delete(all, k, k+1)
	}
	return best
}

func (o option) told(run *linkage.Run) string {
	s := &solve.RigSetting{}
	i := 0
	for _, r := range run.Rods {
		for _, e := range r.Ends {
			if o.turns[i] != 0 {
				s.Turns = append(s.Turns, solve.RigTurn{End: e, Turns: o.turns[i]})
			}
			i++
		}
	}
	if o.at != run.Stops[1].At {
		s.Stops = append(s.Stops, solve.RigStop{Stop: run.Stops[1], At: o.at})
	}
	return told(s)
}

func TestRigAgainstBruteForce(t *testing.T) {
	const travel = `
require "travel" "as far as asked" {
  of     = left
  low    = -24
  high   = 23.2
  within = 1
}
`
	adjustable := strings.NewReplacer("  at = 24\n", "  at = 24\n  adjust = [22, 25]\n  step = 0.5\n")
	short := []string{"most = 13"}
	files := map[string]string{
		"an end each":           fmt.Sprintf(rigPedals, rigEnd("from", "most = 15"), rigEnd("to", "most = 15"), opposite),
		"two ends, one finer":   fmt.Sprintf(rigPedals, rigEnd("from", short...)+rigEnd("to", short...), rigEnd("from", "most = 14", "step = 0.25"), opposite),
		"two ends a rod":        strings.Replace(fmt.Sprintf(rigPedals, rigEnd("from", short...)+rigEnd("to", "most = 12"), rigEnd("from", "most = 12.5")+rigEnd("to", short...), opposite), "295.4", "297.6", 1),
		"a stop and two ends":   adjustable.Replace(fmt.Sprintf(rigPedals, rigEnd("from", short...), rigEnd("to", short...), opposite+travel)),
		"threads of two kinds":  fmt.Sprintf(rigPedals, rigEnd("from", short...)+strings.Replace(rigEnd("to", short...), "M6x1", "M8x1.25", 1), "", opposite),
		"nothing has a reserve": fmt.Sprintf(rigPedals, rigEnd("from", short...), rigEnd("to", short...), `require "stops" {}`+"\n"+`require "engagement" {}`),
	}
	for name, text := range files {
		t.Run(name, func(t *testing.T) {
			run, rig := rigOf(t, text)
			want := bruteForce(t, text, 5)
			require.True(t, rig.Found)
			require.True(t, rig.Searched.Whole)
			require.Len(t, rig.Settings, 5)
			for i, w := range want {
				got := rig.Settings[i]
				require.Equal(t, w.told(run), told(&got), "place %d", i+1)
				if math.IsInf(w.reserve, 1) {
					require.Nil(t, got.Reserve)
					continue
				}
				require.InDelta(t, w.reserve, *got.Reserve, 1e-9)
			}
		})
	}
}
