package solve_test

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// TestFailRandomLoops compares what is left with the file without what is gone, as
// for the demos, for runs of many shapes and dimensions.
func TestFailRandomLoops(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 1))
	compared := 0
	for _, shape := range manyLoops {
		for range 3 {
			text := gauged(shape.draw(rng)).with(control("lever", -20, 20)).text()
			run, err := linkage.Read(&linkage.Source{Name: "random.hcl", Text: []byte(text)})
			if err != nil {
				continue
			}
			m, err := solve.Compile(run)
			if err != nil {
				continue
			}
			f, err := m.Failures(nil)
			require.NoError(t, err, text)
			allFinite(t, reflect.ValueOf(f.Cases), "cases")
			for i := range f.Cases {
				c := &f.Cases[i]
				if c.How == solve.Parted && c.Element.Rod != nil {
					require.Empty(t, c.Trouble, text)
					againstTheRest(t, f.Run, c, cutNamed(text, "rod", c.Element.Rod.Name))
					compared++
				}
			}
		}
	}
	require.Greater(t, compared, 30)
}

// TestFailAnyTopology: whatever is read and closes has its cases, all of them
// told, without a figure that isn't one.
func TestFailAnyTopology(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 2))
	closed := 0
	for range 3000 {
		choices := make([]byte, 40)
		for i := range choices {
			choices[i] = byte(rng.Uint32())
		}
		text := topology(choices)
		run, err := linkage.Read(&linkage.Source{Name: "any.hcl", Text: []byte(text)})
		if err != nil {
			continue
		}
		m, err := solve.Compile(run)
		if err != nil {
			continue
		}
		f, err := m.Failures(nil)
		require.NoError(t, err, text)
		allFinite(t, reflect.ValueOf(f.Cases), "cases")
		closed++
		for i := range f.Cases {
			c := &f.Cases[i]
			doubtful := slices.ContainsFunc(c.Controls, func(k solve.ControlLeft) bool { return k.Locked == nil })
			if c.Severity == solve.NotKnown {
				require.True(t, doubtful || c.Trouble != "", "it says why: %s\n%s", elementOf(c.Element), text)
			} else {
				require.True(t, c.Severity == solve.Dangerous || !doubtful && c.Trouble == "", "%s\n%s", elementOf(c.Element), text)
			}
		}
		if closed == 40 {
			return
		}
	}
	require.Greater(t, closed, 30)
}
