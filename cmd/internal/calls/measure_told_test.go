package calls_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/outline"
)

// Once all is tied the run can be tried: a check that isn't taped is asked for in the form and
// is no blank in the text, which could not be read with one.
func TestMeasureWritesNoBlankOnceAllIsTied(t *testing.T) {
	ours := asking{Outline: flapLever()}
	tied := 0
	for range 40 {
		a := ask(t, "measure", ours)
		require.Empty(t, a.Faults)
		run, err := linkage.Read(&linkage.Source{Name: a.File, Text: []byte(a.Text)})
		require.NoError(t, err)
		open := len(ours.Taped) == 0
		for _, p := range a.Places {
			open = open || p.Open
		}
		assert.Equal(t, open, len(run.Blanks()) > 0, a.Headline)
		if len(a.Entries) == len(ours.Taped) {
			break
		}
		if !open {
			tied++
			assert.Empty(t, a.Entries[0].Is, "and is asked for")
		}
		e := a.Entries[0]
		ours.Text = a.Text
		ours.Taped = append(ours.Taped, outline.Entry{Kind: linkage.MeasurementKind(e.Kind), From: e.From, To: e.To, Is: fmt.Sprintf("%.1f", truly(e.Kind, e.From, e.To))})
	}
	assert.Positive(t, tied)
}

// What each line would help is a share of one whole: all together take away no more than all.
func TestMeasureTellsHelpOfOneWhole(t *testing.T) {
	a := ask(t, "measure", asking{Outline: flapLever()})
	const all = 100 // percent
	sum, told := 0, 0
	for _, e := range a.Entries {
		var share int
		if _, err := fmt.Sscanf(e.Help, "takes %d%% off", &share); err == nil {
			sum, told = sum+share, told+1
		}
	}
	assert.Greater(t, told, 3)
	assert.LessOrEqual(t, sum, all+told/2, "each is rounded")
}

// Whoever fills in the form has named a place "airframe.shaft", and is told of no other name:
// that the file has it in a block of its own is nothing to them.
func TestMeasureNamesPlacesAsTheForm(t *testing.T) {
	ours := asking{Outline: flapLever()}
	a := ask(t, "measure", ours)
	assert.Equal(t, "NOTHING IS TAPED YET.", a.Headline)
	for _, to := range []string{"lever.hand", "lever.horn", "airframe.hinge", "flap.horn", "flap.tip"} {
		ours.Taped = append(ours.Taped, outline.Entry{Kind: linkage.Taped, From: "airframe.shaft", To: to, Is: fmt.Sprintf("%.1f", truly("taped", "airframe.shaft", to))})
	}
	for _, line := range [][2]string{{"lever.hand", "lever.horn"}, {"airframe.hinge", "flap.horn"}, {"airframe.hinge", "flap.tip"}, {"flap.horn", "flap.tip"}, {"lever.horn", "flap.horn"}, {"airframe.hinge", "lever.hand"}, {"airframe.hinge", "lever.horn"}, {"lever.hand", "flap.tip"}} {
		ours.Taped = append(ours.Taped, outline.Entry{Kind: linkage.Taped, From: line[0], To: line[1], Is: fmt.Sprintf("%.1f", truly("taped", line[0], line[1]))})
	}
	for i := range ours.Taped { // each in turn slips by 25 mm, so that each way of telling it has its turn
		slipped := ours
		slipped.Taped = append([]outline.Entry{}, ours.Taped...)
		e := &slipped.Taped[i]
		e.Is = fmt.Sprintf("%.1f", truly("taped", e.From, e.To)+25)
		a := ask(t, "measure", slipped)
		said := a.Headline + " " + strings.Join(a.Says, " ")
		assert.NotContains(t, said, "datum.")
		assert.NotContains(t, said, e.To+`" (`, "it is named after its ends already")
	}
}
