package find

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The slopes of all reserves at once against those by judging beside the setting.
func TestPlanesBySlopesAndByDifferences(t *testing.T) {
	m := mechanism(t, demo(t, "pedals"), "rocker.upper.x=284..296", "rocker.tail.y=10..25", "left-pedal.horn.y=-64..-56", "right-link.length=294..299", "airframe.left-stop-bolt.x=-40..-36", "airframe.left-stop-bolt.radius=4..6")
	s := newSearch(m, m.Run().Varies, Options{})
	s.judgeFiled()
	ranges := s.ranges()
	require.Len(t, ranges, 6)
	at := s.near()
	for k, i := range ranges { // off what is symmetrical
		at[i] += float64(k+1) * 0.01 * s.axes[i].span()
	}
	from := s.judge([][]float64{at}, false)[0]
	require.True(t, from.closes)
	empty := func() (planes []plane) {
		for i, share := range from.shares {
			if !math.IsInf(share, 1) {
				planes = append(planes, plane{at: s.sharesOf(from, ranges), share: share, slope: make([]float64, len(ranges)), of: i})
			}
		}
		return planes
	}
	one := empty()
	require.True(t, s.slopes(from, ranges, one))
	other := s.differences(from, ranges, empty())
	require.Len(t, other, len(one))
	some := 0
	for i := range one {
		for k := range ranges {
			assert.InDelta(t, other[i].slope[k], one[i].slope[k], 1e-3*math.Max(1, math.Abs(one[i].slope[k])), "%s by %s", m.Run().Requirements[one[i].of].Kind, s.axes[ranges[k]].vary.Of)
			if math.Abs(one[i].slope[k]) > 1e-3 {
				some++
			}
		}
	}
	assert.Greater(t, some, 10)
}
