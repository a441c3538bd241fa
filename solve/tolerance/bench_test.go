package tolerance_test

import (
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve/tolerance"
)

// BenchmarkTolerance draws and judges builds on one processor, each with its ends, extremes
// and margins located, the sample that is looked at in every step and the limits of each
// dimension alone included.
func BenchmarkTolerance(b *testing.B) {
	for name, text := range map[string]string{
		"pedals":         demo(b, "pedals") + halfWidths,
		"pedals-rigged":  demo(b, "pedals-tolerance"),
		"sticks":         demo(b, "sticks") + halfWidths,
		"throttle-cable": demo(b, "throttle-cable") + halfWidths,
	} {
		b.Run(name, func(b *testing.B) {
			m := compiled(b, text)
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
			builds := tolerance.DefaultBuilds
			switch name {
			case "sticks": // nine sweeps each
				builds /= 5
			case "throttle-cable": // each compiled anew
				builds /= 200
			}
			for b.Loop() {
				_, err := tolerance.Run(m, tolerance.Options{Builds: builds, Seed: 1})
				require.NoError(b, err)
			}
			b.ReportMetric(float64(builds)*float64(b.N)/b.Elapsed().Seconds(), "builds/s")
		})
	}
}
