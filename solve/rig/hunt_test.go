package rig_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// randomRig is pedals with a few ends that can be turned, a stop that can be moved
// in some, and requirements that some setting meets or none. within is what rig
// pins allow.
func randomRig(random *rand.Rand) (text string, within map[string]float64) {
	ends := func(most int) string {
		var text strings.Builder
		for _, side := range []string{"from", "to"}[:most] {
			engaged, step := 12.0, 0.5
			if random.IntN(6) == 0 {
				engaged = 8.6 // already out too far
			}
			if random.IntN(4) == 0 {
				step = 1
			}
			furthest := 10.5 + 0.5*float64(random.IntN(6))
			least := 10.0 + 0.5*float64(random.IntN(2))
			if furthest = max(furthest, least+step); engaged == 12 {
				furthest = max(furthest, 12)
			}
			fmt.Fprintf(&text, "  end %q {\n    thread = \"M6x1\"\n    engaged = %g\n    least = %g\n    most = %g\n    step = %g\n  }\n", side, engaged, least, furthest, step)
		}
		return text.String()
	}
	var more strings.Builder
	fmt.Fprintf(&more, "require \"opposite\" {\n  of = [left, right]\n  within = %g\n}\n", 0.3+2*random.Float64())
	fmt.Fprintf(&more, "require \"rod-angle\" { least = %g }\n", 35+25*random.Float64())
	moves := random.IntN(2) == 0
	if moves {
		fmt.Fprintf(&more, "require \"travel\" {\n  of = right\n  low = %g\n  high = %g\n  within = %g\n}\n", -24.5+3*random.Float64(), 23+3*random.Float64(), 0.3+1.5*random.Float64())
	}
	if random.IntN(3) == 0 {
		more.WriteString("require \"engagement\" {}\n")
	}
	if random.IntN(3) == 0 {
		allow := 0.2 + 0.6*random.Float64()
		within = map[string]float64{"left-link": allow}
		for _, part := range []string{"left", "rocker"} {
			fmt.Fprintf(&more, "pin %q {\n  of = %s\n  within = %g\n}\n", part+"-pin", part, allow)
		}
	}
	right := ""
	if random.IntN(3) > 0 {
		right = ends(1)
	}
	text = fmt.Sprintf(rigPedals, ends(1+random.IntN(2)), right, more.String())
	text = strings.Replace(text, "295.4", num(296.1+float64(random.IntN(9)-4)*0.5+0.2*random.Float64()), 1)
	if random.IntN(2) == 0 {
		text = strings.Replace(text, "296.7", num(296.1+float64(random.IntN(5)-2)*0.5), 1)
	}
	if moves {
		text = strings.Replace(text, "  at = 24\n", "  at = 24\n  adjust = [23, 25]\n  step = 0.5\n", 1)
	}
	return text, within
}

// TestHuntRig sets random pedals in every way there is, each as a file of its own,
// and compares what is told with the best of all by the definition; then lets a
// search that can check few only tell nothing that all of them show to be false.
func TestHuntRig(t *testing.T) {
	hunt.Each(t, 1, func(t *testing.T, random *rand.Rand) {
		text, within := randomRig(random)
		defer func() {
			if t.Failed() {
				t.Log(text)
			}
		}()
		m, err := solve.Compile(read(t, text))
		require.NoError(t, err)
		found, err := rig.Search(m, nil)
		require.NoError(t, err, "%s", text)
		require.True(t, found.Searched.Whole)
		b := bruteOf(t, text, within)
		b.agree(found)
		for range 3 {
			part, checked, err := rig.RigChecked(m, 1+random.IntN(len(b.all)))
			require.NoError(t, err)
			b.agreePart(part)
			b.agreeSearched(part, checked)
		}
	})
}
