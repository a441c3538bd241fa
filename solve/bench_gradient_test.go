package solve

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// gradientBench times a pose, and all derivatives of the angle of the last part by
// one backward pass.
func gradientBench(b *testing.B, name, text string) {
	m := compiled(b, text)
	st := m.newState()
	st.take(&m.neutral)
	s := m.steps[len(m.steps)-1]
	k := m.freedomMeasure(s.unknowns[len(s.unknowns)-1])
	of := k.seed(nil)
	l := m.newLinear(newSlots(m.run))
	sums := m.newSums(l.slots)
	b.Run(name, func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			l.at(&st)
			require.True(b, l.gradient(sums, func(l *linear) { of(l, 1) }))
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N), "ns/gradient")
	})
	b.Run(name+"/pose", func(b *testing.B) { // what it is compared with
		for i := 0; b.Loop(); i++ {
			m.setFreedom(&st, m.inputs[0], chainSwing*math.Sin(2*math.Pi*float64(i%posesPerRun)/posesPerRun))
			if m.solve(&st) != allClosed {
				b.Fatal("the run doesn't close")
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N), "ns/pose")
	})
}

// BenchmarkGradient finds all derivatives of one figure of a pose.
func BenchmarkGradient(b *testing.B) {
	for _, stages := range stageCounts {
		gradientBench(b, fmt.Sprintf("stages=%d", stages), chainText(stages))
	}
	gradientBench(b, "space", spaceText)
	gradientBench(b, "block6", blockText)
}
