package render

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/render/internal/sample"
	"fullfree/solve"
)

func answersText(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../testdata/answers/" + name + ".hcl")
	require.NoError(t, err)
	return string(text)
}

// A tail that would touch just past on center is told so wherever stops are: by how
// much it misses, and how far the control would still have to go.
func TestStopMissedByAHairIsToldEverywhere(t *testing.T) {
	text := answersText(t, "t2-throttle")
	words := `The stop "tail-stop" would touch 0.3° after on center: on center at -61.6° (toggle) it is 0.20 mm short.`
	said := flat(reported(t, sample.Checked(t, "x", text)))
	assert.Contains(t, said, "on center ends it at -61.6° (toggle). "+words, "stops")
	assert.Contains(t, said, "a pull the closing way opens it. "+words, "the end")
	short := "0.20 mm short on center, at -61.6°; it would take 0.3° more"
	page := strings.Join(strings.Fields(bookPage(t, bookOf(t, "x", text))), " ")
	assert.Contains(t, page, "nowhere: "+short, "the book")
	step := stepStops(sample.Checked(t, "x", text))
	var cells []string
	for _, row := range step.Table.Rows {
		for _, cell := range row {
			cells = append(cells, cell.Says)
		}
	}
	assert.Contains(t, cells, "missed: tail-stop "+short, "the table of stops")
	told := sweepOf(sample.Checked(t, "x", text).Sweeps[3])
	miss := told.Stops[0].Miss
	require.NotNil(t, miss)
	assert.Equal(t, "toggle", *miss.OnCenter)
	assert.True(t, miss.Near)
	assert.Nil(t, told.Stops[0].At)
	assert.InDelta(t, 0.2, miss.Gap, 0.01)
	assert.InDelta(t, 0.285, *miss.After, 0.001)
}

// A stop of the grip's own behind the slack of the cable holds it, and is told to.
func TestLaterStopBehindTheSlackHolds(t *testing.T) {
	r := sample.Checked(t, "x", answersText(t, "t3-throttle"))
	said := flat(reported(t, r))
	assert.Contains(t, said, "HOLDS: all 6 requirements, stop to stop.")
	assert.Contains(t, said, `A stop ends the travel on each side. Past "idle" the cable throttle-cable goes slack, and the stop "grip-closed" holds throttle.`)
	assert.Contains(t, said, `goes slack. throttle goes on alone, and the stop "grip-closed" holds it at 44.0°.`)
	end := endOf(r.Sweeps[3].Ends[1])
	require.NotNil(t, end.Slack)
	assert.Equal(t, "throttle-cable", end.Slack.Cable)
	assert.True(t, end.Slack.Holds)
	assert.Equal(t, "grip-closed", *end.Slack.Past.By)
	assert.Equal(t, 44.0, end.Slack.Past.At)
	open := sample.Checked(t, "x", answersText(t, "t2-throttle"))
	assert.Contains(t, flat(reported(t, open)), "nothing in the file stops it before 108.1°; there the cable comes taut again and pulls carb back off the stop.")
	assert.Equal(t, solve.ByCable, open.Sweeps[3].Ends[1].Past.Cause)
}

// Every way in which a stop is missed has its sentence.
func TestMissSays(t *testing.T) {
	s := sample.Checked(t, "x", answersText(t, "t2-throttle")).Sweeps[3]
	at, after := 20.0, 0.2
	metal := &s.Stops[0]
	dead := &solve.Critical{Kind: solve.DeadCenter, At: 19.8}
	for _, c := range []struct {
		bite solve.StopBite
		says string
	}{
		{solve.StopBite{Stop: metal.Stop, Miss: &solve.StopMiss{Gap: 0.17, Unit: "mm", At: 12, Near: true}},
			`The stop "tail-stop" is missed by 0.17 mm, nearest with throttle at 12.0° (closed).`},
		{solve.StopBite{Stop: metal.Stop, Miss: &solve.StopMiss{Gap: 0.17, Unit: "mm", At: 19.8, OnCenter: dead, Near: true}},
			`The stop "tail-stop" is not met: on center at 19.8° (dead center) it is 0.17 mm short.`},
		{solve.StopBite{Stop: metal.Stop, At: &at, Miss: &solve.StopMiss{Gap: 0.17, Unit: "mm", At: 19.8, OnCenter: dead, After: &after, Near: true, Late: true}},
			`The stop "tail-stop" touches 0.2° after on center: on center at 19.8° (dead center) it is 0.17 mm short.`},
		{solve.StopBite{Stop: s.Stops[1].Stop, At: &at, Miss: &solve.StopMiss{Gap: 0.25, Unit: "deg", At: 19.8, OnCenter: dead, After: &after, Near: true, Late: true}},
			`The stop "idle" bites 0.2° after on center: on center at 19.8° (dead center) it is 0.25° short.`},
	} {
		assert.Equal(t, c.says, missSays(s, &c.bite))
		assert.True(t, missTold(s, &c.bite))
	}
	assert.False(t, missTold(s, &solve.StopBite{Stop: metal.Stop, Miss: &solve.StopMiss{Gap: 40, Unit: "mm"}}), "that is no near miss")
}
