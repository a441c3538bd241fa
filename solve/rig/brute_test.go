package rig_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// option is a setting as the tests search it: each end and each stop on its own.
type option struct {
	turns          []float64 // of the ends in the file's order
	at             float64   // of the stop "forward"
	lengths        []float64 // by which the rods are longer
	failed, unkept int
	most, sum      float64 // shares by which requirements are missed: the largest, and all
	reserve        float64 // the least of those that hold; 0: none has one
	least          float64 // of all that have one
	moved          float64 // at neutral, of what stands right as filed; degrees
}

func (o option) sumOfTurns() (sum float64) {
	for _, t := range o.turns {
		sum += math.Abs(t)
	}
	return sum
}

func (o option) ends() (count int) {
	for _, t := range o.turns {
		if t != 0 {
			count++
		}
	}
	return count
}

func (o option) spare(ends []*linkage.RodEnd) float64 {
	least := math.Inf(1)
	for i, e := range ends {
		least = math.Min(least, e.Spare()-o.turns[i]*e.Thread.Pitch)
	}
	return least
}

// before puts the better of two first that tie in everything else: the definition
// again, in other words.
func (o option) before(p option, ends []*linkage.RodEnd, at float64) bool {
	const same = 1e-9
	if d := o.sumOfTurns() - p.sumOfTurns(); math.Abs(d) > same {
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

// rigBrute is all settings of a file, each checked as a file that is set so.
type rigBrute struct {
	t      *testing.T
	run    *linkage.Run
	ends   []*linkage.RodEnd
	stop   *linkage.Stop
	within map[string]float64 // how far a rod may be off its drawn length
	all    []option           // of what closes, the run as filed included
	filed  option
}

// bruteOf checks all settings of pedals. within is how far the rig pins let rods
// be off their drawn length, nothing for those that may have any.
func bruteOf(t *testing.T, text string, within map[string]float64) *rigBrute {
	b := &rigBrute{t: t, run: read(t, text), within: within}
	for _, r := range b.run.Rods {
		b.ends = append(b.ends, r.Ends...)
	}
	b.stop = b.run.Stops[1]
	ats := []float64{b.stop.At}
	travel := slices.ContainsFunc(b.run.Requirements, func(r *linkage.Requirement) bool { return r.Kind == linkage.Travel })
	if b.stop.Adjust != nil && travel {
		ats = nil
		for at := b.stop.Adjust[0]; at <= b.stop.Adjust[1]+1e-9; at += b.stop.Step {
			ats = append(ats, at)
		}
	}
	engagement := slices.ContainsFunc(b.run.Requirements, func(r *linkage.Requirement) bool { return r.Kind == linkage.Engagement })
	still := b.standing(check(t, text))
	fares := map[string]*option{}
	turns := make([]float64, len(b.ends))
	outside := 0 // ends
	add := func(at float64) (option, bool) {
		o := option{turns: slices.Clone(turns), at: at, lengths: make([]float64, len(b.run.Rods))}
		for k, e := range b.ends {
			o.lengths[e.Rod.Index] += turns[k] * e.Thread.Pitch
		}
		var settings []linkage.Setting
		for i, r := range b.run.Rods {
			o.lengths[i] = math.Round(o.lengths[i]*1e6) / 1e6
			settings = append(settings, set(r.Name+".length", r.Length+o.lengths[i]))
		}
		settings = append(settings, set("forward.at", at))
		key := fmt.Sprint(settings)
		if _, known := fares[key]; !known {
			fares[key] = b.fare(text, settings, still)
		}
		fare := fares[key]
		if fare == nil {
			return o, false
		}
		o.failed, o.most, o.sum, o.reserve, o.least, o.moved = fare.failed, fare.most, fare.sum, fare.reserve, fare.least, fare.moved
		for i, r := range b.run.Rods {
			if may, ok := within[r.Name]; ok && math.Abs(r.Length+o.lengths[i]-r.Drawn) > may+1e-6 {
				o.unkept++
			}
		}
		o.unkept += outside
		if outside > 0 && engagement {
			o.failed, o.most, o.sum = o.failed+1, math.Max(o.most, 1), o.sum+1
		}
		b.all = append(b.all, o)
		return o, true
	}
	for _, e := range b.ends {
		if e.Engaged < e.Least-1e-9 || e.Engaged > *e.Most+1e-9 {
			outside++
		}
	}
	var ok bool
	b.filed, ok = add(b.stop.At)
	require.True(t, ok)
	if outside == 0 {
		b.all = nil // it comes again
	}
	outside = 0
	var each func(i int)
	each = func(i int) {
		if i == len(b.ends) {
			for _, at := range ats {
				add(at)
			}
			return
		}
		e := b.ends[i]
		for k := -100; k <= 100; k++ {
			turns[i] = float64(k) * e.Step
			if in := e.Engaged - turns[i]*e.Thread.Pitch; in >= e.Least-1e-9 && in <= *e.Most+1e-9 {
				each(i + 1)
			}
		}
		turns[i] = 0
	}
	each(0)
	return b
}

// standing is where parts stand at neutral.
func (b *rigBrute) standing(r *solve.Result) (list []float64) {
	for _, p := range r.Sweeps[0].Parts {
		list = append(list, p.Neutral)
	}
	return list
}

// fare tells how a setting fares; nil where it doesn't close.
func (b *rigBrute) fare(text string, settings []linkage.Setting, still []float64) *option {
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)}, settings...)
	if err != nil {
		return nil
	}
	m, err := solve.Compile(run)
	if err != nil {
		return nil
	}
	r, err := m.Check()
	if err != nil {
		return nil
	}
	o := &option{reserve: math.Inf(1), least: math.Inf(1)}
	for _, j := range r.Requirements {
		share := 0.0
		switch j.Requirement.Kind {
		case linkage.Opposite, linkage.Travel, linkage.Steady:
			share = (j.Limit - *j.Worst) / j.Limit
		case linkage.RodAngle:
			share = (*j.Worst - j.Limit) / j.Limit
		case linkage.Stops:
			if j.Verdict != solve.Holds {
				o.failed, o.most, o.sum = o.failed+1, math.Max(o.most, 1), o.sum+1
			}
			continue
		case linkage.Engagement:
			continue // the lengths alone are set here
		default:
			require.Fail(b.t, "a kind that the test doesn't know", j.Requirement.Kind)
		}
		if o.least = math.Min(o.least, share); j.Verdict == solve.Holds {
			o.reserve = math.Min(o.reserve, share)
			continue
		}
		o.failed++
		o.most, o.sum = math.Max(o.most, -share), o.sum-share
	}
	if math.IsInf(o.reserve, 1) {
		o.reserve = 0
	}
	for i, at := range b.standing(r) {
		if math.Abs(still[i]) <= 0.05 {
			o.moved += math.Abs(at - still[i])
		}
	}
	return o
}

// keep keeps the options of the least figure, or to within some more.
func keep(list []option, within float64, figure func(o option) float64) (kept []option) {
	least := math.Inf(1)
	for _, o := range list {
		least = math.Min(least, figure(o))
	}
	for _, o := range list {
		if figure(o) <= least+within {
			kept = append(kept, o)
		}
	}
	return kept
}

// ranked takes the best settings out of those given, one after another, by the
// definition of the best left: asked of all settings at once, each end on its own.
func (b *rigBrute) ranked(all []option, count int) (best []option) {
	left := slices.Clone(all)
	for len(best) < count && len(left) > 0 {
		list := keep(left, 0, func(o option) float64 { return float64(o.failed) })
		list = keep(list, 0, func(o option) float64 { return float64(o.unkept) })
		list = keep(list, 1e-3, func(o option) float64 { return o.most })
		list = keep(list, 1e-3, func(o option) float64 { return o.sum })
		largest := 0.0
		for _, o := range list {
			largest = math.Max(largest, o.reserve)
		}
		list = keep(list, math.Max(1e-3, largest/2), func(o option) float64 { return -o.reserve })
		list = keep(list, 0, func(o option) float64 { return math.Max(1, float64(o.ends())) })
		list = keep(list, 1e-3, func(o option) float64 { return -o.reserve })
		list = keep(list, 0, func(o option) float64 { return float64(o.ends()) })
		list = keep(list, 0.05, func(o option) float64 { return o.moved })
		first := list[0]
		for _, o := range list[1:] {
			if o.before(first, b.ends, b.stop.At) {
				first = o
			}
		}
		best = append(best, first)
		k := slices.IndexFunc(left, func(o option) bool { return slices.Equal(o.turns, first.turns) && o.at == first.at })
		left = slices.Delete(left, k, k+1)
	}
	return best
}

// told writes an option as told does.
func (b *rigBrute) told(o option) string {
	s := &rig.Setting{}
	for i, e := range b.ends {
		if o.turns[i] != 0 {
			s.Turns = append(s.Turns, rig.Turn{End: e, Turns: o.turns[i]})
		}
	}
	if o.at != b.stop.At {
		s.Stops = append(s.Stops, rig.Stop{Stop: b.stop, At: o.at})
	}
	return told(s)
}

// of finds the option that is told so.
func (b *rigBrute) of(s *rig.Setting) option {
	k := slices.IndexFunc(b.all, func(o option) bool { return b.told(o) == told(s) })
	require.GreaterOrEqual(b.t, k, 0, told(s))
	return b.all[k]
}

// axes is how many rods and stops an option sets otherwise than the file.
func (b *rigBrute) axes(o option) (count int) {
	for _, change := range append(slices.Clone(o.lengths), o.at-b.stop.At) {
		if change != 0 {
			count++
		}
	}
	return count
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
			_, found := rigOf(t, text)
			require.True(t, found.Found)
			require.True(t, found.Searched.Whole)
			require.Len(t, found.Settings, 5)
			bruteOf(t, text, nil).agree(found)
		})
	}
}
