package linkage

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
)

// randomSpace writes a run of parts that move in space in every way there is, each carried
// by one before it or on the airframe, joined in a chain and mirrored in x.
func randomSpace(random *rand.Rand) string {
	number := func() float64 { return float64(random.IntN(2001)-1000) / 8 }
	vector := func() string { return fmt.Sprintf("[%g, %g, %g]", 200+number(), number(), 1+number()) }
	var b strings.Builder
	add := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	add("run \"Random\" {\n  units = \"mm\"\n  forward = [0, 0, -1]\n  up = [0, 1, 0]\n  symmetry = \"x\"\n}")
	add("part \"p0\" {\n  pivot = [0, 0, 0]\n  axis = [0, 0, 1]\n  points = { a = %s, b = %s }\n}", vector(), vector())
	add("part \"m0\" { mirror = p0 }")
	n := 2 + random.IntN(5)
	for i := 1; i <= n; i++ {
		name := fmt.Sprintf("p%d", i)
		place := vector()
		if random.IntN(2) == 0 {
			place = fmt.Sprintf("p%d.a", random.IntN(i))
		}
		table := "arms"
		add("part %q {", name)
		switch random.IntN(5) {
		case 0:
			add("  ball = %s", place)
			if random.IntN(2) == 0 {
				add("  square-to = %s", vector())
			}
		case 1:
			table = "points"
			add("  floats = \"space\"")
		case 2:
			add("  pivot = %s\n  axis = %s\n  slides = true", place, vector())
		case 3:
			add("  pivot = %s\n  axis = %s", place, vector())
		default:
			table = "points"
			add("  slide = %s", vector())
		}
		add("  %s = { a = %s, b = %s }\n}", table, vector(), vector())
		add("part \"m%d\" { mirror = %s }", i, name)
		add("joint \"j%d\" {\n  of = [p%d.b, %s.a]\n}\njoint \"k%d\" { mirror = j%d }", i, i-1, name, i, i)
		add("output \"o%d\" {\n  of = %s", i, name)
		if text := b.String(); strings.Contains(text[strings.LastIndex(text, "part \""+name):], "ball =") || strings.Contains(text[strings.LastIndex(text, "part \""+name):], "floats =") {
			add("  tilts = %s", []string{`"left"`, `"down"`, "[1, 2, 3]"}[random.IntN(3)])
		}
		add("}\noutput \"q%d\" { mirror = o%d }", i, i)
	}
	add("control \"hand\" {\n  of = p0\n}")
	return b.String()
}

// TestHuntSpaceIsReadAlike reads random runs in space: each is the same run where it is
// built, where its mirror images are written out, and where nothing is edited.
func TestHuntSpaceIsReadAlike(t *testing.T) {
	hunt.Each(t, 60, func(t *testing.T, random *rand.Rand) {
		text := randomSpace(random)
		run, err := Read(&Source{Name: "random.hcl", Text: []byte(text)})
		if err != nil { // by chance drawn square to what its tilt is read towards
			require.ErrorContains(t, err, "tilts neither", text)
			return
		}
		require.NoError(t, run.Validate())
		built, err := rebuilt(run).Run()
		require.NoError(t, err, text)
		requireSameRun(t, run, built)
		out, err := WrittenOut(&Source{Name: "random.hcl", Text: []byte(text)})
		require.NoError(t, err, text)
		plain, err := Read(&Source{Name: "random.hcl", Text: out})
		require.NoError(t, err, string(out))
		for i, j := range run.Joints {
			assert.Equal(t, j.Gap, plain.Joints[i].Gap)
			if i%2 == 1 {
				assert.InDelta(t, run.Joints[i-1].Gap, j.Gap, 1e-9, "the image of a gap is as wide")
			}
		}
		same, err := run.With()
		require.NoError(t, err)
		requireSameRun(t, run, same)
	})
}
