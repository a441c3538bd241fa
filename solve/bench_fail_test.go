package solve

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// leversText writes levers in a row, each driven by a rod from the one before, the
// first by a control and the last read by an output.
func leversText(levers int) string {
	var b strings.Builder
	b.WriteString("run \"levers\" {\n units = \"mm\"\n}\n")
	for i := range levers {
		x, y := 100*i, 6*(i%2)
		fmt.Fprintf(&b, "part \"lever-%d\" {\n pivot = [%d, %d]\n points = { low = [%d, %d], high = [%d, %d] }\n}\n", i, x, y, x+2, 60, x, 60-12*(i%2))
		if i > 0 {
			fmt.Fprintf(&b, "rod \"rod-%d\" {\n from = lever-%d.high\n to = lever-%d.low\n}\n", i, i-1, i)
		}
	}
	fmt.Fprintf(&b, `control "hand" {
  of   = lever-0
  from = -20
  to   = 20
}
stop "aft" {
  of = lever-0
  at = -15
}
stop "fore" {
  of = lever-0
  at = 15
}
output "surface" {
  of = lever-%d
}
`, levers-1)
	return b.String()
}

// BenchmarkFailures takes everything of a row of levers away in turn.
func BenchmarkFailures(b *testing.B) {
	for _, levers := range []int{10, 100} {
		b.Run(fmt.Sprintf("levers=%d", levers), func(b *testing.B) {
			m := compiled(b, leversText(levers))
			for b.Loop() {
				f, err := m.Failures(nil)
				require.NoError(b, err)
				require.Zero(b, f.LeftOut)
			}
		})
	}
}
