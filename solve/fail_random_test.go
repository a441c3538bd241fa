package solve_test

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// failuresIfAny tells what is left when each element goes; nil where the text can't
// be read or the run doesn't close.
func failuresIfAny(t *testing.T, text string) *solve.Failures {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "random.hcl", Text: []byte(text)})
	if err != nil {
		return nil
	}
	m, err := solve.Compile(run)
	if err != nil {
		return nil
	}
	f, err := m.Failures(nil)
	require.NoError(t, err, text)
	allFinite(t, reflect.ValueOf(f.Cases), "cases")
	return f
}

// TestHuntFailLoops compares what is left with the file without what is gone, as
// for the demos, for runs of many shapes and dimensions.
func TestHuntFailLoops(t *testing.T) {
	compared := 0
	hunt.Each(t, 1, func(t *testing.T, rng *rand.Rand) {
		for _, shape := range manyLoops {
			text := gauged(shape.draw(rng)).with(control("lever", -20, 20)).text()
			f := failuresIfAny(t, text)
			if f == nil {
				continue
			}
			for i := range f.Cases {
				c := &f.Cases[i]
				if c.How == solve.Parted && c.Element.Rod != nil {
					require.Nil(t, c.Trouble, text)
					againstTheRest(t, f.Run, c, cutNamed(text, "rod", c.Element.Rod.Name))
					compared++
				}
			}
		}
	})
	require.Greater(t, compared, 10)
}

// TestHuntFailStops compares what is left without each stop and rod, of runs that
// go on center one way or another beyond their stops, with a check of the file
// without it: whether it can go over center, and where.
func TestHuntFailStops(t *testing.T) {
	counted, beyond := 0, 0
	hunt.Each(t, 1, func(t *testing.T, rng *rand.Rand) {
		for _, shape := range manyLoops {
			reach := 30 + 100*rng.Float64()
			text := gauged(shape.draw(rng)).with(control("lever", -reach, reach)).text() +
				"stop \"down\" {\n  of = lever\n  at = -12\n}\nstop \"up\" {\n  of = lever\n  at = 12\n}\n"
			f := failuresIfAny(t, text)
			if f == nil {
				continue
			}
			for i := range f.Cases {
				c := &f.Cases[i]
				if c.How != solve.Parted || c.Trouble != nil || c.Element.Pivot != nil {
					continue
				}
				kind, name := "rod", ""
				switch {
				case c.Element.Rod != nil:
					name = c.Element.Rod.Name
				case c.Element.Joint != nil:
					kind, name = "joint", c.Element.Joint.Name
				default:
					kind, name = "stop", c.Element.Stop.Name
				}
				againstTheRest(t, f.Run, c, cutNamed(text, kind, name))
				for _, k := range c.OnCenter {
					if k.Beyond {
						beyond++
					} else {
						counted++
					}
				}
			}
		}
	})
	require.Positive(t, counted)
	require.Positive(t, beyond)
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
		f := failuresIfAny(t, text)
		if f == nil {
			continue
		}
		closed++
		for i := range f.Cases {
			c := &f.Cases[i]
			doubtful := slices.ContainsFunc(c.Controls, func(k solve.ControlLeft) bool { return k.Locked == nil })
			if c.Severity == solve.NotKnown {
				require.True(t, doubtful || c.Trouble != nil || c.OverCenter == nil, "it says why: %s\n%s", elementOf(c.Element), text)
			} else {
				require.True(t, c.Severity == solve.Dangerous || !doubtful && c.Trouble == nil, "%s\n%s", elementOf(c.Element), text)
			}
		}
		if closed == 40 {
			return
		}
	}
	require.Greater(t, closed, 30)
}
