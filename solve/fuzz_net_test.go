package solve_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// netDeadline is how long a net of a few blocks may take to be checked, with its bands,
// on a machine that is busy with other things.
const netDeadline = 30 * time.Second

// net writes a random net: bars that float on three rods, with levers and parts carried
// by them, every group coupled so that it has to be solved at once.
func net(random *rand.Rand) string {
	var b strings.Builder
	b.WriteString("run \"net\" {\n units = \"mm\"\n}\npart \"a\" {\n pivot = [0, 0]\n points = { k = [50, 40] }\n}\n")
	spread := 20 + 200*random.Float64()
	at := func(x, y float64) string {
		return fmt.Sprintf("[%.6g, %.6g]", x+spread*random.NormFloat64(), y+spread*random.NormFloat64())
	}
	from := "a.k"
	groups := 1 + random.IntN(3)
	for g := range groups {
		x := 400 * float64(g+1)
		fmt.Fprintf(&b, "fixed \"w%d\" {\n points = { g = %s, i = %s }\n}\n", g, at(x, -200), at(x+100, -200))
		fmt.Fprintf(&b, "part \"f%d\" {\n points = { h = %s, k = %s, j = %s }\n}\n", g, at(x, 100), at(x+60, 140), at(x+70, 60))
		fmt.Fprintf(&b, "part \"d%d\" {\n pivot = %s\n points = { h = %s, k = %s }\n}\n", g, at(x+200, 150), at(x+160, 100), at(x+220, 60))
		fmt.Fprintf(&b, "part \"e%d\" {\n pivot = %s\n points = { h = %s, k = %s, u = %s }\n}\n", g, at(x+220, -50), at(x+180, 20), at(x+260, 20), at(x+300, 50))
		rods := [][2]string{{from, "f.h"}, {"f.k", "d.h"}, {"f.j", "e.h"}, {"d.k", "e.k"}, {"f.h", "w.g"}}
		from = fmt.Sprintf("e%d.u", g)
		if random.IntN(2) == 0 { // and a part that the lever carries
			fmt.Fprintf(&b, "part \"v%d\" {\n pivot = e%d.u\n points = { h = %s, k = %s }\n}\n", g, g, at(x+350, 0), at(x+380, 60))
			rods = append(rods, [2]string{"v.h", "w.i"})
			from = fmt.Sprintf("v%d.k", g)
		}
		for i, r := range rods {
			name := func(s string) string {
				if part, point, _ := strings.Cut(s, "."); len(part) == 1 && part != "a" {
					return fmt.Sprintf("%s%d.%s", part, g, point)
				}
				return s
			}
			fmt.Fprintf(&b, "rod \"r%d-%d\" {\n from = %s\n to = %s\n}\n", g, i, name(r[0]), name(r[1]))
		}
	}
	fmt.Fprintf(&b, "control \"c\" {\n of = a\n from = %.3g\n to = %.3g\n}\noutput \"o\" {\n of = e%d\n}\n", -1-60*random.Float64(), 1+60*random.Float64(), groups-1)
	b.WriteString("require \"sense\" {\n of = [c, o]\n turns = \"same\"\n}\nrequire \"rod-angle\" { least = 5 }\nrequire \"over-center\" { least = 5 }\n")
	b.WriteString("require \"steady\" {\n of = o\n within = 1\n control = c\n}\nrequire \"together\" {\n of = [a, e0]\n within = 1\n}\n")
	return b.String()
}

// judgeNet checks a net and holds it to the deadline.
func judgeNet(t *testing.T, text string) {
	began := time.Now()
	run, err := linkage.Read(&linkage.Source{Name: "net.hcl", Text: []byte(text)})
	require.NoError(t, err, "%s", text)
	m, err := solve.Compile(run)
	if err != nil {
		return // it doesn't close as drawn, or is loose
	}
	if result, err := m.Check(); err == nil {
		m.AddBands(result, nil)
	}
	require.Less(t, time.Since(began), netDeadline, "%s", text)
}

func TestHuntNet(t *testing.T) {
	hunt.Each(t, 5, func(t *testing.T, random *rand.Rand) { judgeNet(t, net(random)) })
}

// FuzzNet judges nets of floating and coupled blocks, each by its seed.
func FuzzNet(f *testing.F) {
	f.Add(uint64(1))
	f.Add(uint64(7))
	f.Fuzz(func(t *testing.T, seed uint64) { judgeNet(t, net(rand.New(rand.NewPCG(seed, 0)))) })
}
