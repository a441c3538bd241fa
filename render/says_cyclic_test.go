package render

import (
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

func TestSaysCyclicSense(t *testing.T) {
	r := sample.Rotor(t)
	var q linkage.Requirement
	for _, k := range r.Run.Requirements {
		if k.Kind == linkage.CyclicSense {
			q = *k
			break
		}
	}
	says := func(j solve.Judgement) string {
		j.Limit, j.Unit, j.Requirement = q.Within, "deg", &q
		return Says(r, &j)
	}
	assert.Equal(t,
		"With pitch-lever.in forward pitch-a has its least pitch over the right, and with it aft over the left, to within 2.5° of rotor turn, worst with fore-and-aft at neutral, side-to-side at neutral and azimuth at 45.0°. 10° allowed, 7.5° in hand.",
		says(solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(2.5), Reaches: 92.5, By: 8, End: "there"}))
	assert.Equal(t,
		"With pitch-lever.in forward pitch-a has its least pitch over the left (azimuth 271.0°); it is to be over the right: 179.0° of rotor turn off with fore-and-aft at neutral, side-to-side at neutral and azimuth at 45.0°. 10° allowed, missed by 169.0°. That is the wrong way round: look whether its pitch link is on the right horn, and whether the swashplate tilts the right way.",
		says(solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(179), Reaches: 271, By: 8, End: "there"}))
	assert.Equal(t,
		"With pitch-lever.in aft pitch-a has its least pitch between the nose and the left (azimuth 230.0°); it is to be over the left: 40.0° of rotor turn off with fore-and-aft at neutral, side-to-side at neutral and azimuth at 45.0°. 10° allowed, missed by 30.0°.",
		says(solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(40), Reaches: 230, By: 8, End: "back"}))
	q.Over = &linkage.Over{Most: true, Azimuth: 292.5}
	assert.Equal(t,
		"With pitch-lever.in forward pitch-a has its most pitch over the nose; it is to be over the left (azimuth 292.5°): 112.5° of rotor turn off with fore-and-aft at neutral, side-to-side at neutral and azimuth at 45.0°. 10° allowed, missed by 102.5°.",
		says(solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(112.5), Reaches: 0, By: 8, End: "there"}))
	for why, words := range map[solve.Why]string{
		solve.NoFullTurn:      "It can't be judged: the pitch of pitch-a is told over a full turn of the rotor, and nothing goes all the way round in this run, or it is stopped before.",
		solve.NoBlade:         "It can't be judged: the rotor's hub doesn't carry what pitch-a is of, or it points nowhere out from the mast, so there is no telling where the blade is.",
		solve.HeldAtOnePlace:  "It can't be judged: while the rotor turns, fore-and-aft is held at neutral only. Hold it at both ends too, neutral first: held = [0, -9, 9] in its control.",
		solve.NeverAlong:      "It can't be judged: fore-and-aft moves pitch-lever.in hardly forward or aft, so which end is meant isn't known: name a place and a way that it goes.",
		solve.TooLittleCyclic: "It can't be judged: fore-and-aft moves the cyclic pitch of pitch-a by as little as 0.1° to either side; only from 0.2° on is it told where pitch is least.",
	} {
		assert.Equal(t, words, says(solve.Judgement{Why: why, By: 0.05}))
	}
}

func TestSaysWhichCyclicWasNotJudged(t *testing.T) {
	r := sample.Rotor(t)
	assert.Empty(t, CyclicNotJudgedSays(r))
	assert.NotContains(t, Headline(r), "not judged")
	own := *r
	own.CyclicNotJudged = []solve.CyclicWay{{Control: r.Run.Controls[1], Output: r.Run.Outputs[2]}, {Control: r.Run.Controls[1], Output: r.Run.Outputs[3]}, {Control: r.Run.Controls[2], Output: r.Run.Outputs[3]}}
	assert.Contains(t, Headline(&own), "Which way the cyclic works was not judged: fore-and-aft (pitch-a, pitch-b), side-to-side (pitch-b).")
}
