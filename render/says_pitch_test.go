package render

import (
	"bytes"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

func TestSaysPitch(t *testing.T) {
	r := sample.Levers()
	of := []linkage.Subject{{Output: r.Run.Outputs[0]}}
	travel := linkage.Requirement{Kind: linkage.CollectivePitch, Of: of, Low: -2, High: 12, Within: 0.5}
	assert.Equal(t,
		"tail has both its figures to within 0.3°: at its most 12.3° of collective pitch where 12° is wanted. 0.5° allowed, 0.2° in hand.",
		judged(r, travel, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(0.3), Reaches: 12.3, End: "high", Limit: 0.5, Unit: "deg"}))
	assert.Equal(t,
		"tail is 0.8° beyond its figure: at its least -2.8° of collective pitch where -2° is wanted. 0.5° allowed, missed by 0.3°.",
		judged(r, travel, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(0.8), Reaches: -2.8, End: "low", Limit: 0.5, Unit: "deg"}))
	assert.Equal(t,
		"tail is 0.8° short of its figure: at its most 11.2° of collective pitch where 12° is wanted. 0.5° allowed, missed by 0.3°.",
		judged(r, travel, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(0.8), Reaches: 11.2, End: "high", Limit: 0.5, Unit: "deg"}))
	most := linkage.Requirement{Kind: linkage.CyclicPitch, Of: of, Most: sample.Is(8)}
	assert.Equal(t,
		"tail has at most 7.4° of cyclic pitch. 8° allowed, 0.6° in hand.",
		judged(r, most, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(7.4), Reaches: 7.4, End: "high", Limit: 8, Unit: "deg"}))
	assert.Equal(t,
		"tail has at most 8.2° of cyclic pitch. 8° allowed, missed by 0.2°.",
		judged(r, most, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(8.2), Reaches: 8.2, End: "high", Limit: 8, Unit: "deg"}))
	for why, words := range map[solve.Why]string{
		solve.NoFullTurn:    "It can't be judged: the cyclic pitch of tail is told over a full turn of the rotor, and nothing goes all the way round in this run, or it is stopped before.",
		solve.NoCycle:       "It can't be judged: tail doesn't come round again with the rotor, or not smoothly.",
		solve.NoLeadingEdge: "It can't be judged: pitch counts plus with the leading edge up, and the file doesn't say which edge of tail leads: write leading-edge in its output, and see that the run says where up is.",
	} {
		assert.Equal(t, words, judged(r, most, solve.Judgement{Why: why, Limit: 8, Unit: "deg"}))
	}
}

// A rotor of which the figures are known: least pitch as the sticks tell.
func TestWhereABladeIs(t *testing.T) {
	r := &solve.Rotor{Rotor: &linkage.Rotor{}}
	for azimuth, words := range map[float64]string{
		0: "over the tail", 20: "over the tail", 350: "over the tail", 45: "between the tail and the right", 90: "over the right",
		140: "between the right and the nose", 225: "between the nose and the left", 315: "between the left and the tail",
	} {
		assert.Equal(t, words, overWords(r, azimuth))
	}
	r.Rotor.Clockwise = true
	assert.Equal(t, "over the left", overWords(r, 90), "it comes over the left first")
	assert.Equal(t, "between the nose and the right", overWords(r, 225))
}

func TestARotorInWords(t *testing.T) {
	r := sample.Rotor(t)
	words := RotorSays(r)
	assert.Contains(t, words, "Stick forward gives least pitch with the blade over the right, 89.5° of rotor turn before the nose.")
	assert.Contains(t, words, NotModeled)
	var short, full bytes.Buffer
	assert.NoError(t, ShortReport(&short, "rotor.hcl", r, ReportOptions{}))
	assert.Contains(t, short.String(), "goes all the way round: nothing is to stop it")
	assert.NotContains(t, short.String(), "azimuth held")
	assert.NoError(t, Report(&full, "rotor.hcl", r, ReportOptions{}))
	for _, said := range []string{"low, stick forward", "high, stick left", "ROTOR, anticlockwise seen from above: pitch plus is leading edge up"} {
		assert.Contains(t, full.String(), said)
	}
	assert.Nil(t, RotorSays(sample.Levers()))
}
