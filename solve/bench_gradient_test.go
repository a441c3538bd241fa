package solve

import (
	"fmt"
	"math"
	"os"
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

// chainAsked is what BenchmarkCheckChain requires of a chain: of its last arm, and of
// all rods.
const chainAsked = `stop "low" {
  of = arm-0
  at = -5
}
stop "high" {
  of = arm-0
  at = 5
}
require "travel" {
  of     = arm-%[1]d
  low    = -5
  high   = 5
  within = 5
}
require "sense" {
  of    = [arm-0, arm-%[1]d]
  turns = "same"
}
require "rod-angle" {
  least = 40
}
require "stops" {
}
`

// BenchmarkCheckChain judges a chain of four-bars with its bands.
func BenchmarkCheckChain(b *testing.B) {
	for _, stages := range stageCounts {
		b.Run(fmt.Sprintf("stages=%d", stages), func(b *testing.B) {
			m := compiled(b, chainText(stages)+fmt.Sprintf(chainAsked, stages))
			for b.Loop() {
				result, err := m.Check()
				require.NoError(b, err)
				m.AddBands(result, nil)
				require.NotNil(b, result.Requirements[0].Band)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(stages), "ns/stage")
		})
	}
}

// BenchmarkBands adds the bands of a demo.
func BenchmarkBands(b *testing.B) {
	for _, name := range []string{"pedals", "mixer", "sticks"} {
		b.Run(name, func(b *testing.B) {
			text, err := os.ReadFile("../demo/" + name + ".hcl")
			require.NoError(b, err)
			m := compiled(b, string(text))
			result, err := m.Check()
			require.NoError(b, err)
			for b.Loop() {
				m.AddBands(result, nil)
			}
		})
	}
}
