package picture

import (
	"strings"
	"testing"

	"fullfree/render/figure"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// titled returns the charts of a sweep by title.
func titled(result *solve.Result) map[string]chart {
	all := map[string]chart{}
	for _, c := range chartsIn(result, result.Sweeps[0]) {
		all[c.title] = c
	}
	return all
}

// The tension of both cables stands against what is asked of it, with where they
// hang slack; what floats then has a chart of its own.
func TestChartsOfCables(t *testing.T) {
	result := checkedOnce(t, "slack.hcl", sample.SlackRun)
	sweep := result.Sweeps[0]
	all := titled(result)
	tension, ok := all["Tension of the pair duo"]
	require.True(t, ok, "%v", all)
	require.Len(t, tension.lines, 2)
	assert.Equal(t, []string{"c-up", "c-down"}, []string{tension.lines[0].name, tension.lines[1].name})
	assert.Equal(t, []chartLimit{{says: "at least 10 N", at: 10, side: -1}}, tension.limits)
	assert.Equal(t, "Both hang slack with stick from -30.0° to -19.3° and from 19.3° to 30.0°.", tension.note)
	for i, c := range sweep.Cables {
		require.Len(t, c.Slack, 2)
		neutral := tension.positionAt(0)
		assert.InDelta(t, *c.Neutral, *tension.value(&tension.lines[i], neutral), 1e-9)
		for _, slack := range c.Slack {
			for _, x := range slack {
				k := tension.positionAt(x)
				require.GreaterOrEqual(t, k, 0, "where slack begins and ends is in the course")
				assert.InDelta(t, 0, *tension.value(&tension.lines[i], k), 1e-6)
			}
		}
		assert.Equal(t, "slack", tension.lines[i].marks[0].says)
	}
	free, ok := all["Free turn of horn, duo slack"]
	require.True(t, ok, "%v", all)
	require.Len(t, free.lines, 1)
	mark := free.lines[0].marks[0]
	assert.InDelta(t, sweep.LostMotion.Most, *free.value(&free.lines[0], mark.position), 1e-9)
	assert.InDelta(t, sweep.LostMotion.At, free.course.Samples[mark.position].At, 1e-9)
	assert.Equal(t, figure.Quantity(sweep.LostMotion.Most, "deg"), mark.says)

	lift := titled(checkedOnce(t, "lift-cables.hcl", sample.DemoText(t, "lift-cables")))
	assert.Empty(t, lift["Tension of the pair lift"].note)
	for title := range lift {
		assert.False(t, strings.HasPrefix(title, "Free"), "nothing floats")
	}
	for title := range titled(sample.Checked(t, "throttle-cable.hcl", sample.DemoText(t, "throttle-cable"))) {
		assert.NotContains(t, title, "Tension", "a lone cable's isn't known")
	}
}

// A slide floats by so much travel, not by a turn.
func TestFreeWords(t *testing.T) {
	result := checkedOnce(t, "lift-cables.hcl", sample.DemoText(t, "lift-cables"))
	assert.Equal(t, "free travel of crosshead, lift slack", freeWords(result.Sweeps[0], result.Run.Pairs[0]))
}
