package solve_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve/survey"
)

// One hole is taped to five exact ones, and one tape slipped: that is the doubtful one,
// whichever way it slipped, and its misclosure is the slip, since the others tell the
// hole exactly (the sketch is too rough to have a part in it).
func TestTheSlipIsDoubtfulWhicheverWay(t *testing.T) {
	places := [][2]float64{{0, 0}, {700, 50}, {650, 520}, {-60, 430}, {310, -240}}
	for slipped := range places {
		for _, slip := range []float64{15, -15} {
			var points, tapes strings.Builder
			for i, at := range places {
				is := math.Hypot(at[0]-300, at[1]-200)
				if i == slipped {
					is += slip
				}
				fmt.Fprintf(&points, "  p%d = [%g, %g]\n", i, at[0], at[1])
				fmt.Fprintf(&tapes, "taped \"t%d\" {\n  from = frame.p%d\n  to = tab.hole\n  is = %.9f\n  within = 1\n}\n", i, i, is)
			}
			run := read(t, "run \"Net\" {\n  units = \"mm\"\n  sketch = 300\n}\nfixed \"frame\" {\n  exact = true\n  points = {\n"+points.String()+"  }\n}\n"+
				"fixed \"tab\" {\n  points = { hole = [305, 190] }\n}\npart \"lever\" {\n  pivot = frame.p0\n}\ncontrol \"hand\" {\n  of = lever\n}\n"+tapes.String())
			survey, err := survey.New(run)
			require.NoError(t, err)
			for i, m := range survey.Measurements {
				assert.Equal(t, i == slipped, m.Doubtful, "slip of %g of %d: %d", slip, slipped, i)
				if i == slipped {
					require.NotNil(t, m.Misclosure)
					assert.InDelta(t, slip, *m.Misclosure, 0.5, "bent by what the slip moves the hole")
				}
			}
		}
	}
}
