package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

const (
	// builds is how many builds an answer is held against.
	builds = 80
	// surelyFails is the share of the builds in which an answer told as sure may be
	// wrong: 3 % for each of the two places at most on which it rests (a normal error
	// passes two standard deviations to one side in 2.3 %).
	surelyFails = 0.06
	// builtOut is what every coordinate and set length of the random runs is out by, two
	// standard deviations, of drawings about 100 wide.
	builtOut = 0.3
)

// asking is a requirement of a random run, and how its limit is written.
type asking struct {
	block, limit string
	worse        float64 // +1: larger is worse
}

// askedOf draws requirements of a run of a lever and some other parts.
func askedOf(random *rand.Rand, d drawing) (list []asking) {
	var moving []string
	for _, b := range d.bodies {
		if !b.fixed && b.name != "lever" && b.slide == nil {
			moving = append(moving, b.name)
		}
	}
	part := func() string { return moving[random.IntN(len(moving))] }
	if len(moving) > 0 {
		list = append(list,
			asking{fmt.Sprintf("require \"opposite\" {\n  of = [lever, %s]\n", part()), "within", 1},
			asking{fmt.Sprintf("require \"together\" {\n  of = [lever, %s]\n", part()), "within", 1},
			asking{fmt.Sprintf("require \"steady\" {\n  of = %s\n  control = hand\n", part()), "within", 1},
			asking{fmt.Sprintf("require \"travel\" {\n  of = %s\n  low = %v\n  high = %v\n", part(), -10*random.Float64(), 10*random.Float64()), "within", 1},
		)
	}
	return append(list, asking{"require \"over-center\" {\n", "least", -1}, asking{"require \"rod-angle\" {\n", "least", -1})
}

// TestHuntSurely builds random runs with every coordinate and set length out by what it
// may be, and holds what is told as sure against them.
func TestHuntSurely(t *testing.T) {
	sure, tried := 0, 0
	hunt.Each(t, 2, func(t *testing.T, random *rand.Rand) {
		s, all := surelySo(t, random)
		sure, tried = sure+s, tried+all
	})
	t.Logf("%d of %d were told as sure", sure, tried)
}

// TestSurelyWhereTheTravelEndsEarlier has runs of which many builds end before they
// come to where a figure is worst as drawn: at a toggle just before a stop, and just
// before a toggle that shifts much farther than what it moves.
func TestSurelyWhereTheTravelEndsEarlier(t *testing.T) {
	for _, run := range []uint64{5, 71} {
		surelySo(t, rand.New(rand.NewPCG(1, run)))
	}
}

// surelySo draws a run and holds what is told of it as sure against builds of it. It
// returns how many of its requirements were told as sure, of how many.
func surelySo(t *testing.T, random *rand.Rand) (sure, tried int) {
	var d drawing
	if random.IntN(3) == 0 {
		d = manyLoops[random.IntN(len(manyLoops))].draw(random)
	} else {
		d = randomNet(random)
	}
	to := 3 + 20*random.Float64()
	stops := fmt.Sprintf("stop \"low\" {\n  of = lever\n  at = %v\n}\nstop \"high\" {\n  of = lever\n  at = %v\n}\n", -(2 + 20*random.Float64()), to)
	body := d.with(control("lever", -30, 30), stops).text()
	body = strings.Replace(body, "units = \"mm\"\n", fmt.Sprintf("units = \"mm\"\n  uncertain = %v\n", builtOut), 1)
	asked := askedOf(random, d)
	write := func(limits []float64) string {
		text := body
		for i, a := range asked {
			text += fmt.Sprintf("%s  %s = %v\n}\n", a.block, a.limit, limits[i])
		}
		return text
	}
	limits := make([]float64, len(asked))
	for i := range limits {
		limits[i] = 1
	}
	first := bandedOf(t, write(limits))
	if first == nil {
		return 0, 0
	}
	for i, j := range first.Requirements {
		if j.Band == nil {
			continue
		}
		away := (0.8 + 0.5*random.Float64()) * *j.Band
		if random.IntN(3) == 0 {
			away = -away
		}
		limits[i] = *j.Worst + asked[i].worse*away
		if limits[i] <= 0 {
			limits[i] = 1e-3
		}
	}
	text := write(limits)
	now := bandedOf(t, text)
	if now == nil {
		return 0, 0
	}
	failed := make([]int, len(asked))
	made := 0
	for range builds {
		b := buildOf(random, text, now.Run, builtOut)
		if b == nil {
			continue
		}
		made++
		for i := range failed {
			if b.Requirements[i].Verdict != now.Requirements[i].Verdict {
				failed[i]++
			}
		}
	}
	if made < builds/2 {
		return 0, 0
	}
	for i, j := range now.Requirements {
		tried++
		if j.Sure == nil || !*j.Sure {
			continue
		}
		sure++
		most := surelyFails*float64(made) + 3*math.Sqrt(surelyFails*float64(made))
		require.LessOrEqual(t, float64(failed[i]), most, "%s: %d of %d builds, worst %v, limit %v, band %v\n%s", j.Requirement.Kind, failed[i], made, *j.Worst, j.Limit, *j.Band, text)
	}
	return sure, tried
}

// TestSurelyOfAnswers holds what is told as sure of some files against builds of them.
// In the one a stop that bites after the first is hit by a rod whose slope is
// steeper; the other is symmetrical, and as drawn its worst is 0 everywhere.
func TestSurelyOfAnswers(t *testing.T) {
	for _, c := range []struct {
		name  string
		out   float64
		doubt []int // requirements that are not to be told as sure
	}{{"sure-but-other-end", 1, nil}, {"surely-false", 0.04, []int{0}}} {
		t.Run(c.name, func(t *testing.T) {
			text, err := os.ReadFile("../testdata/answers/" + c.name + ".hcl")
			require.NoError(t, err)
			random := rand.New(rand.NewPCG(5, 8))
			now := bandedOf(t, string(text))
			require.NotNil(t, now)
			const made = 200
			failed := make([]int, len(now.Requirements))
			for range made {
				b := buildOf(random, string(text), now.Run, c.out)
				require.NotNil(t, b)
				for i := range failed {
					if b.Requirements[i].Verdict != now.Requirements[i].Verdict {
						failed[i]++
					}
				}
			}
			for i, j := range now.Requirements {
				t.Logf("%s fails in %d of %d, sure %v", j.Requirement.Kind, failed[i], made, j.Sure != nil && *j.Sure)
				if j.Sure != nil && *j.Sure {
					most := surelyFails*made + 3*math.Sqrt(surelyFails*made)
					require.LessOrEqual(t, float64(failed[i]), most, "%s", j.Requirement.Kind)
				}
			}
			for _, i := range c.doubt {
				require.False(t, *now.Requirements[i].Sure)
			}
		})
	}
}

// bandedOf judges a run with bands; nil where it can't be.
func bandedOf(t *testing.T, text string, set ...linkage.Setting) *solve.Result {
	run, err := linkage.Read(&linkage.Source{Name: "random.hcl", Text: []byte(text)}, set...)
	if err != nil {
		return nil
	}
	m, err := solve.Compile(run)
	if err != nil {
		return nil
	}
	result, err := m.Check()
	if err != nil {
		return nil
	}
	m.AddBands(result, nil)
	for _, j := range result.Requirements {
		if j.Band != nil {
			require.False(t, math.IsNaN(*j.Band) || math.IsInf(*j.Band, 0), "%s\n%s", j.Requirement.Kind, text)
		}
	}
	return result
}

// buildOf judges a run built with every coordinate and set length out at random; nil
// where it can't be built.
func buildOf(random *rand.Rand, text string, run *linkage.Run, out float64) *solve.Result {
	var set []linkage.Setting
	for _, d := range run.Dimensions() {
		if d.IsLength() && !d.Given() || run.Plane && !d.IsLength() && d.Axis == 2 {
			continue
		}
		value := d.Value() + out/2*random.NormFloat64()
		set = append(set, linkage.Setting{Dimension: d.String(), Value: strconv.FormatFloat(value, 'f', -1, 64)})
	}
	built, err := linkage.Read(&linkage.Source{Name: "random.hcl", Text: []byte(text)}, set...)
	if err != nil {
		return nil
	}
	m, err := solve.Compile(built)
	if err != nil {
		return nil
	}
	result, err := m.Check()
	if err != nil {
		return nil
	}
	return result
}
