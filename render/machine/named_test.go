package machine

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// told writes something for machines in one line.
func told(t *testing.T, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	return string(text)
}

// Every figure stands under its own name: of figures that all differ none may stand under
// another's.
func TestFiguresOfSecondPathsAndCables(t *testing.T) {
	s := sample.Levers().Sweeps[0]
	s.Rods[0].SecondPath = &solve.SecondPathFit{NeedsLeast: 1, NeedsMost: 2, Misfit: 3, At: sample.Is(4), BestLength: 5}
	assert.JSONEq(t, `{"needs_least": 1, "needs_most": 2, "misfit": 3, "at": 4, "best_length": 5}`, told(t, sweepOf(&linkage.Run{}, s).Rods[0].SecondPath))
	assert.Nil(t, sweepOf(&linkage.Run{}, s).Rods[0].Angle)

	core := &linkage.Cable{Name: "core"}
	s.Cables = []solve.CableTravel{{Cable: core, Unit: "N", Neutral: sample.Is(1), Least: sample.Is(2), Most: sample.Is(3), At: sample.Is(4), Slack: [][2]float64{{5, 6}}}}
	assert.JSONEq(t, `[{"name": "core", "unit": "N", "neutral": 1, "least": 2, "most": 3, "at": 4, "slack": [{"from": 5, "to": 6}]}]`, told(t, cablesOf(s)))

	open, lower := &linkage.Cable{Name: "open"}, &linkage.Cable{Name: "lower"}
	ends := [2]*linkage.CableEnd{{Cable: open, Side: "from", Engaged: 20, Least: 13}, {Cable: lower, Side: "to"}}
	open.Ends = ends[:1]
	run := &linkage.Run{Cables: []*linkage.Cable{open}, Pairs: []*linkage.Pair{{Name: "tail"}, {Name: "lost"}}}
	pair := &linkage.Pair{Name: "tail", Cables: [2]*linkage.Cable{open, lower}}
	assert.JSONEq(t, `[
  {"pair": "tail", "part": "quadrant", "tension": {"open": 100, "lower": 90}, "turns": {"open.from": 1.5, "lower.to": -2.5}},
  {"pair": "lost", "part": null, "tension": {}, "turns": null}]`,
		told(t, centeringsOf(run, []*solve.Centering{{Pair: pair, Part: &linkage.Part{Name: "quadrant"}, Tension: [2]float64{100, 90}, Ends: ends, Turns: [2]float64{1.5, -2.5}}, nil})))
	set := setCablesOf(run)
	assert.Equal(t, []setEndJSON{{"from", 20, 7}}, set[0].CableEnds)
}

func TestFiguresOfAFailure(t *testing.T) {
	run := sample.FailRun()
	yes, no := true, false
	roll := run.Controls[0]
	f := sample.FailuresWith(run, solve.Failure{
		Element: solve.Element{Stop: &linkage.Stop{Name: "low"}}, How: solve.Parted,
		Controls: []solve.ControlLeft{
			{Control: roll, Unit: "deg", Locked: &no, Filed: [2]float64{1, 2}, Left: [2]float64{3, 4}},
			{Control: roll, Unit: "deg", Locked: &yes, Filed: [2]float64{1, 2}, Left: [2]float64{3, 4}},
			{Control: roll, Unit: "deg", Locked: &no, Gone: true, Filed: [2]float64{1, 2}},
			{Control: roll, Unit: "deg", Filed: [2]float64{1, 2}},
		},
		Reaches: []solve.Reach{
			{Control: roll, Name: "tilt", Unit: "deg", Output: run.Outputs[0], Follows: true, Filed: [2]float64{1, 2}, Left: [2]float64{3, 4}, Share: 0.5},
			{Control: roll, Name: "crank", Unit: "deg", Part: run.Parts[3], Reversed: true},
		},
		Loose:  []solve.LoosePart{{Part: run.Parts[3], Unit: "deg", Low: sample.Is(1), High: sample.Is(2), Ends: [2]solve.End{{Cause: solve.ByLimit}, {Cause: solve.ByLimit}}}},
		OneWay: []solve.OneWay{{Cable: &linkage.Cable{Name: "left"}, Part: run.Parts[3], Control: roll, Side: "plus", Filed: 3, Left: 1, Unit: "N/mm"}},
	})
	c := failCaseOf(f, &f.Cases[0])
	require.Len(t, c.Controls, 4)
	assert.Equal(t, &[2]float64{3, 4}, c.Controls[0].Left)
	for _, left := range c.Controls[1:] {
		assert.Nil(t, left.Left, "locked, gone, or not to be told")
	}
	assert.JSONEq(t, `{"control": "roll", "name": "tilt", "unit": "deg", "follows": true, "filed": [1, 2], "left": [3, 4], "share": 0.5, "reversed": false}`, told(t, c.Reaches[0]))
	assert.Equal(t, []string{"tilt"}, c.Follows)
	assert.Equal(t, 1.0, *c.Ranges[0].Low)
	assert.Equal(t, 2.0, *c.Ranges[0].High)
	assert.True(t, c.Ranges[0].Told)
	assert.JSONEq(t, `[{"cable": "left", "part": "crank", "control": "roll", "side": "plus", "filed": 3, "stiffness": 1, "unit": "N/mm"}]`, told(t, c.OneWay))
}

func TestFiguresOfRodsAndSettings(t *testing.T) {
	rod := &linkage.Rod{Name: "link", Length: 200}
	end := &linkage.RodEnd{Rod: rod, Side: "to", Engaged: 20, Least: 13, Shank: sample.Is(32)}
	rod.Ends = []*linkage.RodEnd{end}
	run := &linkage.Run{Rods: []*linkage.Rod{rod}, Pins: []*linkage.Pin{{Name: "rig"}}}
	var out bytes.Buffer
	require.NoError(t, RodsJSON(&out, run, []solve.PinnedRod{{Rod: rod, Length: sample.Is(201)}}))
	var list struct{ Rods []json.RawMessage }
	require.NoError(t, json.Unmarshal(out.Bytes(), &list))
	assert.JSONEq(t, `{"name": "link", "length": 200, "rod_ends": [{"side": "to", "engaged": 20, "spare": 7, "exposed": 12}], "pinned": [{"pin": "rig", "length": 201}]}`, string(list.Rods[0]))

	most := &rig.Setting{
		Turns: []rig.Turn{{End: end, Turns: -1.5}}, Stops: []rig.Stop{{Stop: &linkage.Stop{Name: "low"}, At: -12}}, Reserve: sample.Is(0.4),
		Displaced: []solve.Displaced{{NeutralPose: solve.NeutralPose{Name: "crank", Unit: "deg", At: 1}, Was: 2}},
	}
	out.Reset()
	require.NoError(t, RigJSON(&out, "f", &rig.Answer{Most: most, Fewest: &rig.Setting{}}))
	var found struct {
		Most   json.RawMessage `json:"most_reserve"`
		Fewest json.RawMessage `json:"fewest_ends"`
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &found))
	assert.JSONEq(t, `{"turns": {"link.to": -1.5}, "stops": {"low": -12}, "reserve": 0.4, "neutral": [{"name": "crank", "unit": "deg", "at": 1, "filed": 2}], "neutral_moved": []}`, string(found.Most))
	assert.JSONEq(t, `{"turns": {}, "stops": {}, "reserve": null, "neutral": [], "neutral_moved": []}`, string(found.Fewest))
}

func TestWhatWasCutShortIsNamed(t *testing.T) {
	r := sample.Levers()
	short, whole := *r.Sweeps[0], *r.Sweeps[0]
	short.CutShort, short.Index = true, 1
	whole.Index = 0
	r.Sweeps = []*solve.Sweep{&whole, &short}
	assert.JSONEq(t, `{"sweeps": 0, "cut_short": [1], "bands": false}`, told(t, leftOutOf(r)))
	short.CutShort = false
	assert.Nil(t, leftOutOf(r))
}
