package picture

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/render/internal/sample"
)

func TestTicksAreRound(t *testing.T) {
	says := func(list []tick) (words []string) {
		for _, tk := range list {
			words = append(words, tk.says)
		}
		return words
	}
	assert.Equal(t, []string{"0", "2", "4", "6", "8", "10"}, says(ticks(0, 10, 7)))
	assert.Equal(t, []string{"-0.4", "-0.2", "0.0", "0.2", "0.4"}, says(ticks(-0.54, 0.54, 7)))
	assert.Equal(t, []string{"0.1", "0.2", "0.3"}, says(ticks(0.1, 0.3, 4)), "both limits, though 3 * 0.1 is more than 0.3")
	assert.Equal(t, []string{"-20", "0", "20"}, says(ticks(-35, 38, 5)))
	assert.Equal(t, []string{"307.4", "307.6", "307.8", "308.0"}, says(ticks(307.38, 308.02, 5)))
	assert.Empty(t, ticks(1, 1, 7))
	assert.Empty(t, ticks(math.NaN(), 1, 7))

	const seed = 9
	random := rand.New(rand.NewPCG(seed, 2))
	for range 2000 {
		size := math.Pow(10, 12*random.Float64()-6)
		low := size * (2*random.Float64() - 1)
		high := low + size*(0.01+random.Float64())
		most := 3 + random.IntN(8)
		list := ticks(low, high, most)
		require.LessOrEqual(t, len(list), most)
		require.GreaterOrEqual(t, len(list), max(1, most/3), "%v to %v in %d (seed %d)", low, high, most, seed)
		for i, tk := range list {
			require.InDelta(t, tk.at, readNumber(t, tk.says), 0, "the figure is the tick, not rounded")
			require.True(t, tk.at >= low-1e-8*size && tk.at <= high+1e-8*size)
			if i == 0 {
				continue
			}
			step := tk.at - list[i-1].at
			first := step / math.Pow(10, math.Floor(math.Log10(step)+1e-9))
			require.InDelta(t, 0, math.Min(math.Min(math.Abs(first-1), math.Abs(first-2)), math.Abs(first-5)), 1e-6, "step %v", step)
		}
	}
}

func TestNamesAreMovedApart(t *testing.T) {
	alike := func(n int) (list []float64) {
		for range n {
			list = append(list, 10)
		}
		return list
	}
	assert.Equal(t, []float64{20, 60}, apart([]float64{20, 60}, alike(2), 0, 100), "what has room stays")
	assert.Equal(t, []float64{45, 55}, apart([]float64{50, 50}, alike(2), 0, 100), "half each")
	assert.Equal(t, []float64{5, 15, 80}, apart([]float64{0, 0, 80}, alike(3), 0, 100), "not over the edge")
	assert.Equal(t, []float64{85, 95}, apart([]float64{99, 99}, alike(2), 0, 100))

	const seed = 3
	random := rand.New(rand.NewPCG(seed, 4))
	for range 500 {
		n := 1 + random.IntN(6)
		wanted, highs := make([]float64, n), make([]float64, n)
		for i := range wanted {
			highs[i] = 8 + 20*random.Float64()
			wanted[i] = 200 * random.Float64()
			if i > 0 {
				wanted[i] = math.Max(wanted[i], wanted[i-1])
			}
		}
		edge := 0.0
		for i, y := range apart(wanted, highs, 0, 200) {
			require.GreaterOrEqual(t, y-highs[i]/2, edge-1e-9, "seed %d", seed)
			edge = y + highs[i]/2
		}
		require.LessOrEqual(t, edge, 200+1e-9)
	}
}

// Which way the control goes is told whole: in a narrow plot on two lines.
func TestChartAxisTellsBothSidesWhole(t *testing.T) {
	result := sample.Checked(t, demo.Dual+".hcl", sample.DemoText(t, demo.Dual))
	for _, c := range result.Run.Controls { // too long for one line where the zero is near an end
		c.Plus, c.Minus = "left pedals forward", "right pedals forward"
	}
	sheet, err := newChartSheet(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	lines := map[bool]int{}
	for i := range sheet.charts {
		at := map[string]float64{}
		for _, text := range sheet.charts[i].plot(true).scene.Texts {
			at[text.Says] = text.At.Y
		}
		right, left := at["right pedals forward"], at["left pedals forward"]
		require.NotZero(t, right, sheet.charts[i].title)
		require.NotZero(t, left, sheet.charts[i].title)
		lines[right == left]++
	}
	assert.Len(t, lines, 2, "where there is room on one line: %v", lines)
}

// What the axis is stands there whole, in every plot of every demo.
func TestChartAxisIsToldWhole(t *testing.T) {
	for _, kind := range demo.Kinds() {
		result := sample.Checked(t, kind+".hcl", sample.DemoText(t, kind))
		for _, sweep := range telling(result) {
			for _, c := range result.Run.Controls { // too long for one line where the zero is near an end
				c.Plus, c.Minus = "left pedals forward", "right pedals forward"
			}
			sheet, err := newChartSheet(result, sweep, DiagramOptions{})
			require.NoError(t, err)
			for i := range sheet.charts {
				var words []string
				for _, text := range sheet.charts[i].plot(true).scene.Texts {
					words = append(words, text.Says)
				}
				assert.Contains(t, strings.Join(words, " "), fmt.Sprintf("%s (%s), ", sweep.Control.Name, sweep.Control.Of.Name))
				assert.Contains(t, strings.Join(words, " "), " from neutral", sheet.charts[i].title)
			}
		}
	}
}
