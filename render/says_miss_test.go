package render

import (
	"testing"

	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

// A stop of the grip's own behind the slack of the cable holds it, and is told to.
func TestLaterStopBehindTheSlackHolds(t *testing.T) {
	r := sample.Checked(t, "x", sample.AnswersText(t, "t3-throttle"))
	said := sample.Flat(reported(t, r))
	assert.Contains(t, said, "HOLDS: all 6 requirements, stop to stop.")
	assert.Contains(t, said, `A stop ends the travel on each side. Past "idle" the cable throttle-cable goes slack, and the stop "grip-closed" holds throttle.`)
	assert.Contains(t, said, `goes slack. throttle goes on alone, and the stop "grip-closed" holds it at 44.0°.`)
	open := sample.Checked(t, "x", sample.AnswersText(t, "t2-throttle"))
	assert.Contains(t, sample.Flat(reported(t, open)), "nothing in the file stops it before 108.1°; there the cable comes taut again and pulls carb back off the stop.")
	assert.Equal(t, solve.ByCable, open.Sweeps[3].Ends[1].Past.Cause)
}

// Every way in which a stop is missed has its sentence.
func TestMissSays(t *testing.T) {
	s := sample.Checked(t, "x", sample.AnswersText(t, "t2-throttle")).Sweeps[3]
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
