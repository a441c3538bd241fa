package render

import (
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

func TestBandSays(t *testing.T) {
	yes, no := true, false
	for _, c := range []struct {
		verdict solve.Verdict
		band    float64
		sure    *bool
		want    string
	}{
		{solve.Holds, 0.42, &no, "Holds, but not surely: with every hole out by up to about 1 mm this moves by about 0.4°."},
		{solve.Holds, 0.42, &yes, "Surely so: with every hole out by up to about 1 mm this moves by about 0.4°."},
		{solve.FallsShort, 0.42, &no, "Falls short, but not surely: with every hole out by up to about 1 mm this moves by about 0.4°."},
		{solve.FallsShort, 0.042, &yes, "Surely short: with every hole out by up to about 1 mm this moves by about 0.04°."},
		{solve.CannotTell, 3, &no, "Not to be told surely: with every hole out by up to about 1 mm this moves by about 3.0°."},
		{solve.Holds, 0, &yes, "Surely so: with every hole out by up to about 1 mm this hardly moves."},
	} {
		r := sample.WithHolding(sample.Levers(), c.verdict)
		r.Run.Uncertain = 1
		r.Requirements[0].Band, r.Requirements[0].Sure = &c.band, c.sure
		assert.Equal(t, c.want, BandSays(r, &r.Requirements[0]))
		assert.NotContains(t, strings.ToLower(reported(t, r)), "safe")
		assert.Equal(t, 1, strings.Count(strings.Join(strings.Fields(reported(t, r)), " "), "and stops count as exact"))
	}
	r := sample.WithHolding(sample.Levers(), solve.Holds)
	assert.Empty(t, BandSays(r, &r.Requirements[0]))
	r.Requirements[0].Band, r.Requirements[0].Sure = sample.Is(0), &yes
	assert.Empty(t, BandSays(r, &r.Requirements[0]), "uncertain = 0")
	assert.NotContains(t, reported(t, r), "exact in")
}

// Where there is no telling it is said why.
func TestBandThatCannotBeTold(t *testing.T) {
	r := sample.WithHolding(sample.Levers(), solve.Holds)
	r.Run.Uncertain = 1
	for why, want := range map[solve.NoBand]string{
		solve.BandTold:        "",
		solve.BandChangePoint: "How surely can't be told: the travel ends at a change point, which a hole a little out does away with.",
		solve.BandOnCenter:    "How surely can't be told: it is worst just short of where a part is on center.",
		solve.BandSlackCable:  "How surely can't be told: it hangs on where a cable goes slack.",
		solve.BandNotMet:      "How surely can't be told: nothing was met as far as was looked.",
	} {
		r.Requirements[0].NoBand = why
		assert.Equal(t, want, BandSays(r, &r.Requirements[0]))
	}
}

func TestUnsureOnesAreNamedAboveAll(t *testing.T) {
	yes, no := true, false
	r := sample.WithHolding(sample.Levers(), solve.Holds, solve.Holds, solve.FallsShort)
	r.Run.Uncertain = 1
	for i, sure := range []*bool{&no, &yes, &no} {
		r.Requirements[i].Band, r.Requirements[i].Sure = sample.Is(0.4), sure
		r.Requirements[i].Requirement.Name = []string{"a", "b", "c"}[i]
	}
	assert.Equal(t, `Not surely in 1: rod-angle "a".`, strings.Split(reported(t, r), "\n")[2])
}

// With a survey the bands are for what it leaves.
func TestBandOfASurvey(t *testing.T) {
	no := false
	r := sample.WithHolding(sample.Levers(), solve.Holds)
	r.Survey = sample.Surveyed()
	r.Requirements[0].Band, r.Requirements[0].Sure = sample.Is(0.4), &no
	assert.Equal(t, "Holds, but not surely: with the holes out by what the survey leaves, up to about 1.2 mm, this moves by about 0.4°.", BandSays(r, &r.Requirements[0]))
	said := strings.Join(strings.Fields(reported(t, r)), " ")
	assert.Contains(t, said, "Drawing: adjusted by the survey, 3 measurements, largest correction 5.0 mm (crank.horn).")
	assert.Contains(t, said, "exactly as the survey adjusts the drawing")
	assert.NotContains(t, said, "exactly as drawn")
}

func TestBandInInches(t *testing.T) {
	no := false
	r := sample.WithHolding(sample.Levers(), solve.Holds)
	r.Run.Units, r.Run.Uncertain = linkage.Inches, 0.04
	r.Requirements[0].Band, r.Requirements[0].Sure, r.Requirements[0].Unit = sample.Is(0.07), &no, "in"
	assert.Equal(t, "Holds, but not surely: with every hole out by up to about 0.04 in this moves by about 0.07 in.", BandSays(r, &r.Requirements[0]))
}
