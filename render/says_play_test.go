package render

import (
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

// rocked are the levers with what their joints let rock.
func rocked() *solve.Result {
	r := sample.Levers()
	s := r.Sweeps[0]
	joints := []solve.JointShare{{PlayJoint: solve.PlayJoint{Part: r.Run.Parts[1]}, By: 0.08}, {PlayJoint: solve.PlayJoint{Rod: r.Run.Rods[0], End: "from"}, By: 0.07}}
	s.FreePlay = []solve.FreePlay{
		{Of: linkage.Subject{Control: r.Run.Controls[0]}, Unit: "deg", AtNeutral: sample.Is(0.384), Most: sample.Is(0.446), At: sample.Is(-24), RSS: sample.Is(0.223), HeldBy: r.Run.Outputs[0], Joints: joints},
		{Of: linkage.Subject{Output: r.Run.Outputs[0]}, Unit: "deg", AtNeutral: sample.Is(0.288), Joints: joints},
	}
	return r
}

func TestSaysFreePlay(t *testing.T) {
	r := rocked()
	req := linkage.Requirement{Kind: linkage.FreePlay, Of: []linkage.Subject{{Control: r.Run.Controls[0]}}}
	assert.Equal(t, "hand rocks by up to 0.45°, what it moves held, most with hand at -24.0° (lever aft). 0.5° allowed, in hand 0.05°; most of it: crank.pivot 0.08° and link.from 0.07°.",
		judged(r, req, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(0.446), At: sample.Is(-24), Limit: 0.5, Unit: "deg"}))
	assert.Equal(t, "hand rocks by up to 0.45°, what it moves held, most with hand at -24.0° (lever aft). 0.445° allowed, missed by 0.001°; most of it: crank.pivot 0.08° and link.from 0.07°.",
		judged(r, req, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(0.446), At: sample.Is(-24), Limit: 0.445, Unit: "deg"}))
	of := linkage.Requirement{Kind: linkage.FreePlay, Of: []linkage.Subject{{Output: r.Run.Outputs[0]}}}
	assert.Equal(t, "How far tail can be rocked can't be told: it moves no output, or in the travel the run is on center, where a figure by slopes means nothing.",
		judged(r, of, solve.Judgement{Why: solve.PlayUntold, Limit: 0.5, Unit: "deg"}))
}

func TestReportFreePlay(t *testing.T) {
	r := rocked()
	p := &page{}
	reportFreePlay(p, r)
	assert.Equal(t, `
FREE PLAY, from one end of the rock to the other, all joints together
  hand, tail held: 0.38° at neutral; most 0.45°, with hand at -24.0°
    (lever aft); 0.22° in root sum of squares
    most of it: crank.pivot 0.08° and link.from 0.07°
  tail, hand held: 0.29° at neutral; where most can't be told, since in
    the travel the run is on center, or an output halts
    most of it: crank.pivot 0.08° and link.from 0.07°
  Bare play: nothing bends, and nothing is pressed to one side. A
    reading taken by pulling has flex in it. Surfaces and tabs have the
    designer's own limits (flutter); none is offered here.
`, p.String())
	none := &page{}
	reportFreePlay(none, sample.Levers())
	assert.Empty(t, strings.TrimSpace(none.String()))
}
