package machine

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCheckJSON(t *testing.T) {
	r := sample.WithHolding(sample.Levers(), solve.Holds)
	r.Requirements[0].Requirement.Name = `<"full"> & left`
	r.Sweeps[0].Held = []solve.Held{{Control: &linkage.Control{Name: "collective"}, At: -8}}
	var b bytes.Buffer
	require.NoError(t, CheckJSON(&b, "levers.hcl", r))
	assert.JSONEq(t, `{
  "schema": "fullfree.check/1", "file": "levers.hcl", "run": "Levers", "units": "mm", "holds": true,
  "requirements": [{"kind": "rod-angle", "name": "<\"full\"> & left", "holds": true, "worst": 62.1, "at": -24, "sweep": 0, "limit": 30, "unit": "deg", "band": null, "sure": null,
    "says": "Flattest, at 62.1°, stand link and the arm of crank that it drives, with hand at -24.0° (lever aft). 30° wanted, 32.1° in hand."}],
  "not_checked": ["sense", "clearance"], "not_judged": [], "assumed": [],
  "sweeps": [{
    "control": {"name": "hand", "part": "lever", "unit": "deg", "low": -24, "high": 24.04, "explored": [-35, 31.2]},
    "held": {"collective": -8},
    "ends": {"low": {"at": -24, "cause": "stop", "by": "aft", "wear": null}, "high": {"at": 24.04, "cause": "stop", "by": "bolt", "wear": 0.9}},
    "stops": [{"name": "aft", "at": -24, "bites": true}, {"name": "bolt", "at": 24.04, "bites": true}, {"name": "far", "at": 26.5, "bites": false}],
    "parts": [{"name": "lever", "unit": "deg", "neutral": 0, "at_low": -24, "at_high": 24.04, "least": -24, "most": 24.04},
              {"name": "crank", "unit": "deg", "neutral": 0.1, "at_low": -23.6, "at_high": 24.3, "least": -23.6, "most": 24.3}],
    "outputs": [{"name": "tail", "unit": "deg", "neutral": 0.1, "at_low": -23.6, "at_high": 24.3, "least": -23.6, "most": 24.3,
                 "ratio": {"unit": "deg/deg", "neutral": 1, "least": 0.9, "most": 1.1}}],
    "rods": [{"name": "link", "length": 184, "drawn": 183.7, "misalignment": {"from": 1, "to": 2}, "angle": {"least": 62.1, "at": -24, "part": "crank"}, "second_path": null}],
    "cables": [], "lost_motion": null,
    "critical": [{"kind": "toggle", "at": 31.2, "part": "crank", "rod": "link", "margin": 7.16}] }] }`, b.String())
	assert.Contains(t, b.String(), `"<\"full\"> & left"`, "names stay readable")

	// The keys stand in the contract's order.
	at := -1
	for _, key := range []string{"schema", "file", "run", "units", "holds", "requirements", "not_checked", "assumed", "sweeps"} {
		next := strings.Index(b.String(), "\n  \""+key+"\":")
		assert.Greater(t, next, at, key)
		at = next
	}
}

// Full precision: what is read back is what was written.
func TestCheckJSONIsExact(t *testing.T) {
	r := sample.Levers()
	r.Sweeps[0].Low = -math.Pi * 7
	var b bytes.Buffer
	require.NoError(t, CheckJSON(&b, "f", r))
	var back struct {
		Sweeps []struct{ Control struct{ Low float64 } }
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &back))
	assert.Equal(t, r.Sweeps[0].Low, back.Sweeps[0].Control.Low)
}

func TestCheckJSONNullsAndEmptyLists(t *testing.T) {
	r := sample.Levers()
	r.NotChecked = nil
	s := r.Sweeps[0]
	s.Ends[0] = solve.End{At: -35, Cause: solve.ByLimit}
	s.Ends[1] = solve.End{At: 31.2, Cause: solve.ByToggle, Part: s.Parts[1].Part}
	s.Stops, s.Outputs, s.Rods = []solve.StopBite{{Stop: r.Run.Stops[0]}}, nil, nil
	s.Critical = []solve.Critical{{Kind: solve.DeadCenter, Part: s.Parts[1].Part}}
	r.Requirements = []solve.Judgement{{Requirement: &linkage.Requirement{Kind: linkage.OverCenter}, NoneFound: true, Worst: sample.Is(9), Unit: "deg", Limit: 5, Verdict: solve.Holds}}
	var b bytes.Buffer
	require.NoError(t, CheckJSON(&b, "f", r))
	var flat bytes.Buffer
	require.NoError(t, json.Compact(&flat, b.Bytes()))
	for _, want := range []string{
		`"holds":null`, `"not_checked":[]`, `"held":{}`, `"outputs":[]`, `"rods":[]`, `"none_found":true`,
		`"low":{"at":-35,"cause":"explored","by":null,"wear":null}`,
		`"high":{"at":31.2,"cause":"toggle","by":"crank","wear":null}`,
		`"stops":[{"name":"aft","at":null,"bites":false}]`,
		`"critical":[{"kind":"dead-center","at":0,"part":"crank","rod":null,"margin":0}]`,
	} {
		assert.Contains(t, flat.String(), want)
	}
}

func TestSweepJSON(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, SweepJSON(&b, []solve.Column{{Name: "lever", Unit: "deg"}, {Name: "ram", Unit: "mm"}}, [][]float64{{0.1, 2}, {0.2, -3e-7}}))
	assert.JSONEq(t, `{"schema": "fullfree.sweep/1", "columns": [{"name": "lever", "unit": "deg"}, {"name": "ram", "unit": "mm"}], "rows": [[0.1, 2], [0.2, -3e-7]]}`, b.String())
	b.Reset()
	require.NoError(t, SweepJSON(&b, nil, nil))
	assert.JSONEq(t, `{"schema": "fullfree.sweep/1", "columns": [], "rows": []}`, b.String())
}

func TestNoFigureIsAnError(t *testing.T) {
	var b bytes.Buffer
	assert.Error(t, SweepJSON(&b, []solve.Column{{Name: "a"}}, [][]float64{{math.NaN()}}))
	assert.Empty(t, b.String(), "whole or not at all")
}

func TestSweepCSV(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, SweepCSV(&b, []solve.Column{{Name: "lever", Unit: "deg"}, {Name: "ram", Unit: "mm"}}, [][]float64{{1.0 / 3, 2}, {0.2, -3}}))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, [][]string{{"lever [deg]", "ram [mm]"}, {"0.3333333333333333", "2"}, {"0.2", "-3"}}, rows)
}
