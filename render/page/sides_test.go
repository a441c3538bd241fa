package page

import (
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Which word an output's end has goes by its reading at neutral, not by its sign.
func TestSenseGoesByNeutral(t *testing.T) {
	o := solve.OutputTravel{Output: &linkage.Output{Name: "tail", Plus: "nose left", Minus: "nose right"}, Unit: "deg", Extent: solve.Extent{Neutral: 10, AtLow: 5, AtHigh: 15}}
	assert.Equal(t, "nose right (gauge down, to 5.0°)", senseSays(o, 0))
	assert.Equal(t, "nose left (gauge up, to 15.0°)", senseSays(o, 1))
	o.Neutral, o.AtLow, o.AtHigh = -10, -5, -15
	assert.Equal(t, "nose left (gauge up, to -5.0°)", senseSays(o, 0))
	assert.Equal(t, "nose right (gauge down, to -15.0°)", senseSays(o, 1))
}

func TestPlayIsFeltAtSecondPaths(t *testing.T) {
	run := sample.Levers().Run
	says := func() (list []string) {
		for _, p := range playedAt(run) {
			list = append(list, p.says)
		}
		return list
	}
	assert.Equal(t, []string{"tail"}, says())
	run.Rods = append(run.Rods, &linkage.Rod{Name: "spare", SecondPath: true, Play: 0.5})
	assert.Equal(t, []string{"tail", "spare (second path; the file says 0.50 mm each way)"}, says())
	run.Outputs = nil
	assert.Equal(t, []string{"spare (second path; the file says 0.50 mm each way)", "last part of the run"}, says())
}

// A requirement about one control gives no figures to the sheet of another; and the part
// of a control that rides on another's is measured on that, so what is required of the
// part itself is no figure of the control.
func TestFiguresOfTheRightControl(t *testing.T) {
	r := sample.Levers()
	s, lever, hand := r.Sweeps[0], r.Run.Parts[0], r.Run.Controls[0]
	ofPart := &linkage.Requirement{Kind: linkage.Travel, Of: []linkage.Subject{{Part: lever}}, Low: -24, High: 24}
	ofControl := &linkage.Requirement{Kind: linkage.Travel, Of: []linkage.Subject{{Control: hand}}, Low: -20, High: 20}
	r.Run.Requirements = []*linkage.Requirement{ofPart, ofControl}
	assert.Same(t, ofPart, quantities(r, s)[0].travel)
	lever.Carrier = &linkage.PointRef{Part: r.Run.Parts[1]}
	assert.Same(t, ofControl, quantities(r, s)[0].travel)

	ofControl.Control = hand
	assert.Same(t, ofControl, quantities(r, s)[0].travel)
	ofControl.Control = &linkage.Control{Name: "other"}
	assert.Nil(t, quantities(r, s)[0].travel)
}

// What falls short comes before what holds, and what is worst in another sweep stands
// there.
func TestWorstPlacesOfASweep(t *testing.T) {
	r := sample.WithHolding(sample.Levers(), solve.Holds, solve.FallsShort, solve.CannotTell, solve.Holds)
	for i, at := range []float64{1, 2, 3, 2} {
		r.Requirements[i].At = &at
	}
	at := func() (list []float64) {
		for _, p := range worstPlaces(r, r.Sweeps[0]) {
			list = append(list, p.at)
		}
		return list
	}
	assert.Equal(t, []float64{2, 3, 1}, at())
	assert.Len(t, worstPlaces(r, r.Sweeps[0])[0].of, 2, "what is worst at one place stands there together")
	r.Requirements[1].Sweep, r.Requirements[3].Sweep = 1, 1
	assert.Equal(t, []float64{3, 1}, at())
}

// A book of a large run shows few travels: names beside n pieces take n times n for each.
func TestTravelsShown(t *testing.T) {
	r := sample.Levers()
	assert.Equal(t, mostTravels, travelsShown(r))
	r.Run.Parts = make([]*linkage.Part, 199) // and a rod
	assert.Equal(t, 6, travelsShown(r), "200 000 over 200 times 200, and one")
	r.Run.Parts = make([]*linkage.Part, 2000)
	assert.Equal(t, 1, travelsShown(r))
	require.Positive(t, mostPlaced)
}

// A control that was told already is told again in short.
func TestTravelsToldAgain(t *testing.T) {
	r := sample.Checked(t, "mixer.hcl", sample.DemoText(t, "mixer"))
	seen := map[*linkage.Control]bool{}
	for _, s := range r.Sweeps {
		again := seen[s.Control]
		seen[s.Control] = true
		b, err := bookTravelOf("r", r, s)
		require.NoError(t, err)
		assert.Equal(t, again, b.Again)
	}
	assert.Less(t, len(seen), len(r.Sweeps))
}
