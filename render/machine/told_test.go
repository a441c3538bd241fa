package machine

import (
	"bytes"
	"encoding/json"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/internal/sample"
	"fullfree/solve"
	"fullfree/solve/survey"
)

func TestBandForMachines(t *testing.T) {
	no := false
	r := sample.WithHolding(sample.Levers(), solve.Holds)
	r.Requirements[0].Band, r.Requirements[0].Sure = sample.Is(0.4), &no
	var b, flat bytes.Buffer
	require.NoError(t, CheckJSON(&b, "f", r))
	require.NoError(t, json.Compact(&flat, b.Bytes()))
	assert.Contains(t, flat.String(), `"unit":"deg","band":0.4,"sure":false,"says":`)
}

func TestSurveyJSON(t *testing.T) {
	s := sample.Surveyed()
	s.Undetermined = []string{"crank.pivot.y"}
	var b bytes.Buffer
	require.NoError(t, SurveyJSON(&b, s))
	assert.JSONEq(t, `{
  "schema": "fullfree.survey/1",
  "points": [
    {"name": "lever.horn", "x": 0, "y": -60, "z": 12, "sx": 0, "sy": 0, "sz": null},
    {"name": "crank.horn", "x": 187, "y": -56, "z": 0, "sx": 0.25, "sy": 0.6, "sz": null}],
  "measurements": [
    {"name": "link", "is": 184, "adjusted": 183.8, "residual": 0.2, "misclosure": 0.4, "standardized": 0.566, "doubtful": false},
    {"name": "level", "is": 0.5, "adjusted": 0.5, "residual": 0, "misclosure": null, "standardized": null, "doubtful": false},
    {"name": "diagonal", "is": 193.5, "adjusted": 193.9, "residual": -0.4, "misclosure": -1.6, "standardized": -1.6, "doubtful": false}],
  "undetermined": ["crank.pivot.y"], "next": "tape lever.horn to crank.pivot", "degrees_of_freedom": 1}`, b.String())

	s.Points[1].PlaneOnly, s.Points[1].Sigma.Z = false, 0.7
	s.Measurements, s.Undetermined, s.Next = nil, nil, survey.Suggestion{}
	b.Reset()
	require.NoError(t, SurveyJSON(&b, s))
	var flat bytes.Buffer
	require.NoError(t, json.Compact(&flat, b.Bytes()))
	assert.Contains(t, flat.String(), `"sz":0.7`)
	assert.Contains(t, flat.String(), `"measurements":[],"undetermined":[],"next":null`)
}

func TestDiagnoseJSON(t *testing.T) {
	_, d := sample.Diagnosed()
	d.Trend = []solve.TrendPoint{{Dimension: "link.length", Date: "2026-05-01", Estimate: 184.02, SE: 0.1}}
	d.Candidates = d.Candidates[:1]
	var b bytes.Buffer
	require.NoError(t, DiagnoseJSON(&b, d))
	assert.JSONEq(t, `{"schema": "fullfree.diagnose/1",
  "candidates": [{"dimension": "link.length", "nominal": 184, "estimate": 185.1, "se": 0.06, "rms": 0.05, "group": 1, "turns": {}}],
  "tells_apart": {"control": "hand", "of": "crank", "at": 24},
  "trend": [{"dimension": "link.length", "date": "2026-05-01", "estimate": 184.02, "se": 0.1}]}`, b.String())
	b.Reset()
	require.NoError(t, DiagnoseJSON(&b, &solve.Diagnosis{}))
	assert.JSONEq(t, `{"schema": "fullfree.diagnose/1", "candidates": [], "tells_apart": null, "trend": []}`, b.String())
}

// broken is a writer that has no room.
type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestJSONHandsOnTheWritersError(t *testing.T) {
	assert.EqualError(t, CheckJSON(broken{}, "f", sample.Levers()), "no room")
	assert.EqualError(t, SweepJSON(broken{}, nil, nil), "no room")
	assert.EqualError(t, SweepCSV(broken{}, nil, nil), "no room")
}

func TestCablesOnCenterForMachines(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, CheckJSON(&out, "x", sample.Checked(t, "x", sample.OverCable(t))))
	assert.Contains(t, out.String(), `"rod": "throttle-cable"`)
}

func TestTemperatureForMachines(t *testing.T) {
	run, err := linkage.Read(&linkage.Source{Name: "x", Text: []byte(sample.DemoText(t, "pedals-cable"))})
	require.NoError(t, err)
	run, err = solve.Temper(run, -25)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, CheckJSON(&out, "x", r))
	var told struct {
		Temperature *float64
		Sweeps      []struct {
			Cables []struct {
				Name                 string
				Unit                 string
				Neutral, Least, Most *float64
				At                   *float64
				Slack                []map[string]float64
			}
			Lost *struct {
				Part     string
				Unit     string
				Most, At float64
			} `json:"lost_motion"`
		}
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &told))
	assert.Equal(t, -25.0, *told.Temperature)
	require.Len(t, told.Sweeps[0].Cables, 2)
	left := told.Sweeps[0].Cables[0]
	assert.Equal(t, "tail-left N", left.Name+" "+left.Unit)
	assert.Equal(t, 0.0, *left.Least)
	assert.Equal(t, []map[string]float64{{"from": -24, "to": 24}}, left.Slack)
	require.NotNil(t, told.Sweeps[0].Lost)
	// What the cables are too long after their stretch is gone, twice, on a radius of 55.
	assert.InDelta(t, 2*(1.4969-220/157.59)/55*57.2958, told.Sweeps[0].Lost.Most, 2e-3)
	assert.Equal(t, "tail-quadrant", told.Sweeps[0].Lost.Part)
}

func TestStopMissedByAHairForMachines(t *testing.T) {
	text := sample.AnswersText(t, "t2-throttle")
	result := sample.Checked(t, "x", text)
	told := sweepOf(result.Run, result.Sweeps[3])
	miss := told.Stops[0].Miss
	require.NotNil(t, miss)
	assert.Equal(t, "toggle", *miss.OnCenter)
	assert.True(t, miss.Near)
	assert.Nil(t, told.Stops[0].At)
	assert.InDelta(t, 0.2, miss.Gap, 0.01)
	assert.InDelta(t, 0.285, *miss.After, 0.001)
}

func TestLaterStopForMachines(t *testing.T) {
	r := sample.Checked(t, "x", sample.AnswersText(t, "t3-throttle"))
	end := endOf(r.Sweeps[3].Ends[1])
	require.NotNil(t, end.Slack)
	assert.Equal(t, "throttle-cable", end.Slack.Cable)
	assert.True(t, end.Slack.Holds)
	assert.Equal(t, "grip-closed", *end.Slack.Past.By)
	assert.Equal(t, 44.0, end.Slack.Past.At)
}

func TestFailForMachines(t *testing.T) {
	run := sample.FailRun()
	for name, c := range sample.FailCases(run) {
		f := sample.FailuresWith(run, c.Failure)

		var out bytes.Buffer
		require.NoError(t, FailJSON(&out, f))
		var told struct{ Cases []map[string]any }
		require.NoError(t, json.Unmarshal(out.Bytes(), &told))
		assert.Equal(t, c.Failure.Severity == solve.NotKnown, told.Cases[0]["severity"] == nil, name)
		assert.Equal(t, c.Failure.OverCenter == nil, told.Cases[0]["over_center"] == nil, name)
		assert.Equal(t, render.FailSays(f, &f.Cases[0]), told.Cases[0]["says"], name)
		for _, key := range []string{"loose", "follows", "lost", "controls", "reaches", "ranges", "one_way"} {
			assert.NotNil(t, told.Cases[0][key], "%s: %s is a list", name, key)
		}
	}
}
