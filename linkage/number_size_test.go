package linkage

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A number that is too large by little is written with the digits that show it:
// never as the limit itself.
func TestTooLargeByLittle(t *testing.T) {
	for text, says := range map[string]string{
		"1000000.001":       "1000000.001 is too large: sizes go to 1 000 000",
		"-1000000.001":      "-1000000.001 is too large: sizes go to 1 000 000",
		"1000000 + 1/2":     "1000000.5 is too large: sizes go to 1 000 000",
		"1000000.000000001": "1000000.000000001 is too large: sizes go to 1 000 000",
		"1000001":           "1000001 is too large: sizes go to 1 000 000",
		"2e6":               "2e+06 is too large: sizes go to 1 000 000",
		"1e99*1e99":         "1e+198 is too large: sizes go to 1 000 000",
	} {
		list := faults(t, strings.Replace(bench, "reads = 4.5", "reads = "+text, 1))
		require.Len(t, list, 1, text)
		assert.Equal(t, says, list[0].Says, text)
	}
}
