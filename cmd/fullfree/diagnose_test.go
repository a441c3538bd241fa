package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// linked is bars, of which the rod is to be a millimeter longer than drawn:
// cosines of a parallelogram's crank then tell where it stands.
const linked = barsHold + `
measured "first rigging" {
  of       = tail
  readings = [[-20, -19.1], [0, 0.95], [20, 21.1]]
  within   = 0.2
}
`

func TestDiagnoseCantTellApart(t *testing.T) {
	got := fullfree(linked, "diagnose", "-")
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Empty(t, got.err)
	assert.Contains(t, got.out, "CAN'T BE TOLD APART: ")
	said := oneLine(got.out)
	assert.Contains(t, said, "As drawn and set, the run leaves 3 of 3 readings further off than they read to.")
	assert.Contains(t, said, "These readings can't tell apart: ")
	assert.Contains(t, said, "So turn no rod yet")
	assert.Contains(t, said, "Covered: 3 readings")
}

func TestDiagnoseFits(t *testing.T) {
	got := fullfree(barsHold+`
measured "first rigging" {
  of       = tail
  readings = [[-20, -19.9], [0, 0.1], [20, 20]]
  within   = 0.4
}
`, "diagnose", "-")
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, oneLine(got.out), "AS DRAWN: the readings fit the run as drawn and set. Nothing asks for an explanation.")
	assert.Contains(t, oneLine(got.out), "So leave it as it is")
	assert.NotContains(t, got.out, "turn no rod")
}

func TestDiagnoseForMachines(t *testing.T) {
	got := fullfree(linked, "diagnose", "-", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	var all map[string]any
	require.NoError(t, json.Unmarshal([]byte(got.out), &all))
	assert.ElementsMatch(t, []string{"schema", "candidates", "tells_apart", "trend"}, keys(all))
	assert.Equal(t, "fullfree.diagnose/1", all["schema"])
	assert.Equal(t, []any{}, all["trend"], "no dates")
	dimensions := map[string]map[string]any{}
	for _, c := range all["candidates"].([]any) {
		c := c.(map[string]any)
		assert.ElementsMatch(t, []string{"dimension", "nominal", "estimate", "se", "rms", "group", "turns"}, keys(c))
		assert.Equal(t, map[string]any{}, c["turns"])
		dimensions[c["dimension"].(string)] = c
	}
	// A millimeter along a level rod turns an upright arm of 60 by asin(1/60).
	link := dimensions["link.length"]
	require.NotNil(t, link)
	assert.Equal(t, 200.0, link["nominal"])
	assert.InDelta(t, 201, link["estimate"], 0.2)
	assert.EqualValues(t, 1, link["group"])
	assert.Contains(t, dimensions, "first rigging.zero")
}

func TestDiagnoseWithoutReadings(t *testing.T) {
	for _, args := range [][]string{{"diagnose", "-"}, {"diagnose", "-", "--json"}} {
		got := fullfree(barsHold, args...)
		assert.Equal(t, exitFailed, got.status)
		assert.Empty(t, got.out)
		assert.Contains(t, got.err, "measured")
	}
}

func TestDiagnoseTellsTheTrend(t *testing.T) {
	got := fullfree(taped(t), "diagnose", "-")
	require.Equal(t, exitOK, got.status, got.err)
	assert.Regexp(t, `(?s)SINCE THEN.*left-link\.length +mm +2026-05-01 .*left-link\.length +mm +2026-08-14 `, got.out)
	assert.Contains(t, oneLine(got.out), "Drawing: adjusted by the survey, 14 measurements,")
}
