package solve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/linkage"
	"fullfree/solve"
)

// theAircraft is the demo of an aircraft, checked, with bands: once, and no test changes it.
var theAircraft *solve.Result

func wholeAircraft(t *testing.T) *solve.Result {
	t.Helper()
	if theAircraft == nil {
		theAircraft = checkedAll(t, joinedIn(t, "../demo/aircraft"))
	}
	return theAircraft
}

// What is told of one run points at itself: its requirements are those of its run, whoever's
// control they are judged under, and that control is the one that its sweeps move. Of
// settings of the aircraft that are alike to the run one is told, and those that end
// otherwise are told apart.
func TestOnlyOfARunPointsAtItself(t *testing.T) {
	whole := wholeAircraft(t)
	for _, only := range whole.Runs() {
		assert.Len(t, only.Run.Requirements, len(only.Requirements))
		for i, j := range only.Requirements {
			assert.Same(t, only.Run.Requirements[i], j.Requirement)
			if c := j.Requirement.Control; c != nil {
				assert.Contains(t, only.Run.Controls, c)
				if k := j.Requirement.Kind; k != linkage.CollectivePitch && k != linkage.CyclicPitch && k != linkage.CyclicSense { // these are judged as the rotor turns
					assert.Same(t, c, only.Sweeps[j.Sweep].Control)
				}
			}
		}
		type setting struct {
			control *linkage.Control
			held    string
		}
		seen := map[setting]bool{}
		for i, s := range only.Sweeps {
			assert.Equal(t, i, s.Index)
			assert.Contains(t, only.Run.Controls, s.Control)
			key := setting{control: s.Control}
			for _, h := range s.Settings() {
				key.held += h.Control.Name + string(rune(h.At+1000))
			}
			assert.False(t, seen[key], "two sweeps of %s look alike", s.Control.Name)
			seen[key] = true
		}
	}
	grip := 0
	for _, s := range whole.Runs()[3].Sweeps {
		if s.Control.Name == "collective.throttle" {
			grip++
		}
	}
	assert.Equal(t, 3, grip, "the grip goes alike wherever the sticks stand: it is told at three settings of the lever")
}
