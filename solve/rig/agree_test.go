package rig_test

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
	"fullfree/solve/rig"
)

// agree requires that a rig tells what all settings show.
func (b *rigBrute) agree(found *rig.Answer) {
	t := b.t
	holds := slices.DeleteFunc(slices.Clone(b.all), func(o option) bool { return o.failed+o.unkept > 0 })
	all := b.all
	if len(holds) > 0 {
		all = holds
	}
	want := b.ranked(all, 5)
	require.Len(t, found.Settings, len(want), found.Searched.String())
	require.Equal(t, len(holds) > 0, found.Found, "%s", told(&found.Settings[0]))
	for i, w := range want {
		got := found.Settings[i]
		require.Equal(t, b.told(w), told(&got), "place %d", i+1)
		require.Equal(t, w.failed+w.unkept == 0, got.Verdict == solve.Holds)
		moved := 0.0
		for _, d := range got.Displaced {
			require.Greater(t, math.Abs(d.At), 0.05)
			require.LessOrEqual(t, math.Abs(d.Was), 0.05)
			moved += math.Abs(d.At - d.Was)
		}
		require.InDelta(t, w.moved, moved, 0.1*float64(len(b.run.Parts)), "told but for what nobody sees")
		if got.Reserve == nil {
			require.Equal(t, math.Inf(1), w.least)
			continue
		}
		require.InDelta(t, w.least, *got.Reserve, 1e-9)
	}
	if !found.Found {
		return
	}
	best := want[0]
	most := keep(holds, 0, func(o option) float64 { return -o.reserve })[0].reserve
	require.Equal(t, most > best.reserve+1e-3, found.Most != nil)
	if found.Most != nil {
		require.InDelta(t, most, *found.Most.Reserve, 1e-3)
	}
	fewest := keep(holds, 0, func(o option) float64 { return float64(o.ends()) })[0].ends()
	require.Equal(t, fewest < best.ends(), found.Fewest != nil)
	if found.Fewest != nil {
		require.Len(t, found.Fewest.Turns, fewest)
		require.Equal(t, solve.Holds, found.Fewest.Verdict)
	}
}

// agreePart requires that a search of a part tells nothing that all settings show to
// be false.
func (b *rigBrute) agreePart(found *rig.Answer) {
	t := b.t
	best := b.of(&found.Settings[0])
	searched := found.Searched
	for _, o := range b.all {
		claimed := b.told(o) == b.told(b.filed) || searched.Whole && !searched.Pins || searched.Pins && o.unkept == 0 && searched.Whole || searched.Few >= b.axes(o) && !searched.Pins
		if !claimed || o.failed > best.failed {
			continue
		}
		require.GreaterOrEqual(t, o.failed, best.failed, "%s is better than %s: %s", b.told(o), b.told(best), searched)
		if o.unkept > best.unkept {
			continue
		}
		require.GreaterOrEqual(t, o.unkept, best.unkept)
		if require.GreaterOrEqual(t, o.most, best.most-1e-3-1e-9); best.most == 0 {
			require.GreaterOrEqual(t, best.reserve, o.reserve/2-1e-3, "%s is better than %s: %s", b.told(o), b.told(best), searched)
		}
	}
	require.LessOrEqual(t, best.failed, b.filed.failed, "what is told as closest fails more than the file")
}

// agreeSearched requires that everything was checked of which that is told. The first
// of checked is what the search went around.
func (b *rigBrute) agreeSearched(found *rig.Answer, checked [][]float64) {
	changes := func(o option) (list []float64) {
		for i, r := range b.run.Rods {
			if len(r.Ends) > 0 {
				list = append(list, o.lengths[i])
			}
		}
		return append(list, o.at-b.stop.At)[:len(checked[0])]
	}
	key := func(changes []float64) (key string) {
		for _, c := range changes {
			key += fmt.Sprintf("%.5f ", c+0) // no -0
		}
		return strings.ReplaceAll(key, "-0.00000 ", "0.00000 ")
	}
	done := map[string]bool{}
	for _, c := range checked {
		done[key(c)] = true
	}
	values := make([][]float64, len(checked[0]))
	for _, o := range b.all {
		for i, c := range changes(o) {
			values[i] = append(values[i], math.Round(c*1e5)/1e5)
		}
	}
	for i := range values {
		slices.Sort(values[i])
		values[i] = slices.Compact(values[i])
	}
	steps := func(i int, a, b float64) int {
		from, _ := slices.BinarySearch(values[i], a-1e-4)
		to, _ := slices.BinarySearch(values[i], b-1e-4)
		return max(from-to, to-from)
	}
	for _, o := range b.all {
		moved, off := 0, 0
		list := changes(o)
		for i, c := range list {
			if c != 0 {
				moved++
			}
			off = max(off, steps(i, c, checked[0][i]))
		}
		searched := found.Searched
		claimed := searched.Whole && !searched.Pins || searched.Whole && o.unkept == 0 ||
			!searched.Pins && (moved <= searched.Few || searched.Around > 0 && off <= searched.Around)
		if claimed {
			require.True(b.t, done[key(list)], "%s wasn't checked: %s", b.told(o), searched)
		}
	}
}
