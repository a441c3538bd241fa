package solve

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stickWords is a stick that stands on its pivot at the origin, seen from the left with
// the nose to the left, so that plus, anticlockwise as drawn, takes its grip to the left:
// forward. Of the control and of the output it says what is asked.
func stickWords(t testing.TB, control, output, rest string) *Result {
	t.Helper()
	text := fmt.Sprintf(`
run "Stick" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
part "stick" {
  pivot  = [0, 0]
  points = { grip = [0, 400], horn = [0, -60] }
}
part "left-lever" {
  pivot  = [300, 0]
  points = { in = [300, -60], tip = [300, 80], te = [380, 0] }
}
rod "link" {
  from = stick.horn
  to   = left-lever.in
}
control "fore-aft" {
  of   = stick
  from = -30
  to   = 30
  %s
}
output "disk" {
  of = left-lever
  %s
}
require "stops" {}
%s
`, control, output, rest)
	return checkedText(t, text)
}

func checkedText(t testing.TB, text string) *Result {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "f.hcl", Text: []byte(text)})
	require.NoError(t, err)
	m, err := Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	return result
}

// What is read of the words, and how it goes with a grip that plus takes straight forward
// at neutral (a turn of a point above its pivot).
func TestControlLabels(t *testing.T) {
	for _, c := range []struct {
		says  string
		worst float64 // the cosine; 0: not judged
	}{
		{`plus = "forward"`, 1}, {`plus = "aft"`, -1}, {`minus = "aft"`, 1}, {`minus = "forward"`, -1},
		{`plus = "stick forward"`, 1}, {`plus = "Pushed forwards"`, 1}, {`minus = "sticks back"`, 1}, {`plus = "lever rearward"`, -1},
		{`plus = "fwd"`, 1}, {`minus = "pulled back"`, 1},
		{"plus = \"forward\"\n minus = \"forward\"", -1}, {"plus = \"aft\"\n minus = \"up\"", -1},
		{`plus = "up"`, 0}, {`plus = "left"`, 0}, // square to the way it goes
		{`plus = "nose down"`, 0}, {`plus = "tail up"`, 0}, {`plus = "trailing edge up"`, 0}, {`plus = "closed"`, 0}, {`plus = "towards the nose"`, 0},
		{`plus = "forward, nose down"`, 0},
		{`plus = "left stick forward"`, 0},                          // the stick's own name has no left in it
		{"plus = \"left pedal forward\"\n grip = left-lever.in", 0}, // goes aft and is on the left lever: see below
	} {
		r := stickWords(t, c.says, "", "")
		if strings.Contains(c.says, "grip") {
			c.worst = -1
		}
		if c.worst == 0 {
			assert.Empty(t, r.Labels, c.says)
			assert.Equal(t, []string{"fore-aft", "disk"}, namesOf(r.NotJudged), c.says)
			continue
		}
		require.Len(t, r.Labels, 1, c.says)
		assert.InDelta(t, c.worst, *r.Labels[0].Worst, 1e-12, c.says)
		assert.Equal(t, c.worst > 0, r.Labels[0].Verdict == Holds, c.says)
		assert.Equal(t, c.worst < 0, len(r.Contradicted()) > 0, c.says)
		assert.Equal(t, []string{"disk"}, namesOf(r.NotJudged), c.says)
		assert.Equal(t, FallsShort, r.Verdict, "no stop ends it, whatever the words")
	}
}

func namesOf(list []linkage.Subject) (names []string) {
	for _, s := range list {
		names = append(names, s.Name())
	}
	return names
}

// The stick and the lever are a parallelogram: as the grip goes forward, the lever turns
// anticlockwise, and its te, aft of its pivot, goes down... that is, x grows to aft and a
// place at +x turns up.
func TestOutputLabels(t *testing.T) {
	for says, worst := range map[string]float64{
		`plus = "up"`: 1, `plus = "trailing edge up"`: 1, `minus = "trailing edge up"`: -1, `plus = "down"`: -1,
		`plus = "trailing edge aft"`: 0, `plus = "disk up"`: 0, `plus = "nose up"`: 0,
		"plus = \"forward\"\n seen-at = left-lever.tip": 1, "plus = \"aft\"\n seen-at = left-lever.tip": -1,
		"plus = \"left grip forward\"\n seen-at = left-lever.tip": 1, "plus = \"right grip forward\"\n seen-at = left-lever.tip": 0,
	} {
		r := stickWords(t, "", says, "")
		if worst == 0 {
			assert.Empty(t, r.Labels, says)
			continue
		}
		require.Len(t, r.Labels, 1, says)
		assert.InDelta(t, worst, *r.Labels[0].Worst, 1e-9, says)
		assert.Equal(t, []string{"fore-aft"}, namesOf(r.NotJudged), says)
	}
}

// A reading along a direction goes along that direction, whatever moves it.
func TestOutputAlongADirection(t *testing.T) {
	for says, worst := range map[string]float64{`"up"`: 0, `"forward"`: -1, `"aft"`: 1} {
		r := checkedText(t, strings.Replace(stickText, "WORDS", "along = [1, 0]\n plus = "+says, 1))
		if worst == 0 {
			assert.Empty(t, r.Labels, says)
			continue
		}
		require.Len(t, r.Labels, 1)
		assert.Equal(t, worst, *r.Labels[0].Worst, says)
	}
}

const stickText = `
run "Stick" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
part "stick" {
  pivot  = [0, 0]
  points = { top = [0, 400], horn = [0, -60] }
}
control "fore-aft" {
  of   = stick
  from = -30
  to   = 30
}
output "horn" {
  of = stick.horn
  WORDS
}
`

// Both the start and the whole way must be clear: a place that starts off straight up, and
// whose way to the end of the travel, 150 degrees on, goes more forward than up, is judged
// neither way (a turn, by hand: from (100, 0) to (100 cos 150, 100 sin 150) is the way
// (-186.6, 50), whose cosine with up is 0.26).
func TestLabelNeedsBothStartAndWay(t *testing.T) {
	text := strings.NewReplacer("top = [0, 400]", "grip = [100, 0]", "to   = 30", "to   = 150\n plus = \"up\"", "WORDS", "along = [1, 0]").Replace(stickText)
	assert.Empty(t, checkedText(t, text).Labels)
	text = strings.Replace(text, "to   = 150", "to   = 60", 1) // the way then is (-50, 86.6): cosine 0.866
	require.Len(t, checkedText(t, text).Labels, 1)
	assert.InDelta(t, 1, *checkedText(t, text).Labels[0].Worst, 1e-12)

	// And of a place that starts off the other way.
	text = strings.Replace(text, `"up"`, `"down"`, 1)
	assert.InDelta(t, -1, *checkedText(t, text).Labels[0].Worst, 1e-12)
	assert.Empty(t, checkedText(t, strings.Replace(text, "to   = 60", "to   = 150", 1)).Labels)
}

// What slides goes along its slide as it is drawn, whatever moves it, plus along it and
// minus against it; so does the reading of a place along a direction.
func TestLabelsOfBothSides(t *testing.T) {
	slide := `
run "Push" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
part "rod" {
  slide  = [-1, 0]
  points = { end = [0, 0] }
}
control "push" {
  of   = rod
  from = -10
  to   = 10
  CONTROL
}
output "tail" {
  of = rod
  OUTPUT
}
`
	for says, worst := range map[string]float64{
		`plus = "forward"`: 1, `plus = "aft"`: -1, `minus = "aft"`: 1, `minus = "forward"`: -1,
		"plus = \"forward\"\n minus = \"aft\"": 1, "plus = \"forward\"\n minus = \"forward\"": -1,
	} {
		for _, text := range []string{
			strings.NewReplacer("CONTROL", says, "OUTPUT", "").Replace(slide),
			strings.NewReplacer("CONTROL", "", "OUTPUT", says).Replace(slide),
			strings.Replace(stickText, "WORDS", "along = [-1, 0]\n"+says, 1),
		} {
			labels := checkedText(t, text).Labels
			require.Len(t, labels, 1, says)
			assert.InDelta(t, worst, *labels[0].Worst, 1e-12, says)
		}
	}
}

// An output's words are about the control that moves it most: of a mixer's arm whose tip
// the one control takes 100 sin 20 up at plus, and the other, on a crank a fifth as
// long, down, whichever stands first in the file.
func TestOutputLabelsGoByWhatMovesItMost(t *testing.T) {
	const parts = `
run "Two" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
part "base" {
  pivot  = [0, 0]
  points = { pin = [80, 0] }
}
part "tab" {
  pivot  = base.pin
  points = { te = [100, 0] }
}
output "surface" {
  of    = tab.te
  along = [0, 1]
  plus  = "up"
}
`
	control := func(of string) string {
		return fmt.Sprintf("control \"turns-%s\" {\n of = %s\n from = -20\n to = 20\n}\n", of, of)
	}
	for _, order := range [][]string{{"base", "tab"}, {"tab", "base"}} {
		r := checkedText(t, parts+control(order[0])+control(order[1]))
		require.Len(t, r.Labels, 1)
		j := r.Labels[0]
		assert.Equal(t, "turns-base", r.Sweeps[j.Sweep].Control.Name, "the tip goes 100 sin 20 by the base and 20 sin 20 by the tab alone")
		assert.InDelta(t, 1, *j.Worst, 1e-12)
	}
}

// The axis points at the viewer of the drawing, and plus turns anticlockwise for them. Seen
// from the left, where they stand, it is the same, from the right the other way.
func TestTwist(t *testing.T) {
	for says, worst := range map[string]float64{
		"seen-from = \"left\"\n turns = \"counterclockwise\"": 1, "seen-from = \"left\"\n turns = \"anticlockwise\"": 1,
		"seen-from = \"left\"\n turns = \"clockwise\"": -1, "seen-from = \"right\"\n turns = \"clockwise\"": 1,
		"seen-from = \"up\"\n turns = \"clockwise\"": 0,
	} {
		r := stickWords(t, says+"\nplus = \"opens\"", "", "")
		if worst == 0 {
			assert.Empty(t, r.Labels, says)
			continue
		}
		require.Len(t, r.Labels, 1, says)
		assert.InDelta(t, worst, *r.Labels[0].Worst, 1e-12, says)
		assert.Equal(t, "turns", r.Labels[0].End)
	}
	// A grip on a lever that reaches forward from its pivot: the little finger is aft of
	// the thumb, and sees a positive turn about an axis that points forward, away from it,
	// go clockwise.
	for says, worst := range map[string]float64{
		"seen-from = \"the little finger\"\n turns = \"clockwise\"": 1, "seen-from = \"the thumb\"\n turns = \"clockwise\"": -1,
	} {
		r := checkedText(t, strings.Replace(`
run "Lever" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
part "lever" {
  pivot  = [0, 0]
  points = { hand = [-400, 0] }
}
part "twist" {
  pivot = lever.hand
  axis  = [-1, 0, 0]
}
control "lift" {
  of   = lever
  from = -5
  to   = 20
}
control "throttle" {
  of   = twist
  from = -5
  to   = 60
  WORDS
}
`, "WORDS", says, 1))
		require.Len(t, r.Labels, 1, says)
		assert.InDelta(t, worst, *r.Labels[0].Worst, 1e-12, says)
	}
}

// Runs that people drew backwards, and were told hold.
func TestDrawnBackwards(t *testing.T) {
	for name, contradicted := range map[string][]string{
		"reversed-holds": {"right", "left"}, "s2-reversed-words": {"fore-aft"}, "word-reversed": nil,
	} {
		text, err := os.ReadFile(filepath.Join("..", "testdata", "words", name+".hcl"))
		require.NoError(t, err)
		r := checkedText(t, string(text))
		var names []string
		for _, j := range r.Contradicted() {
			names = append(names, j.Requirement.Name)
		}
		assert.Equal(t, contradicted, names, name)
		assert.Equal(t, contradicted != nil, r.Verdict == FallsShort, name)
		if contradicted == nil {
			assert.Equal(t, []string{"flap-lever", "flaps"}, namesOf(r.NotJudged), name)
		}
	}
}

// A sense by places is the ratio of two velocities, each along its own word. On one stick
// a place at radius 60 below the pivot goes aft by 60/400 of what the grip goes forward, at
// every turn of it (two points of one turning part, opposite to each other).
func TestSenseByPlaces(t *testing.T) {
	sense := func(when, goes, then, to string) *Judgement {
		r := stickWords(t, "", "", fmt.Sprintf("require \"sense\" {\n when = [%s, %q]\n then = [%s, %q]\n}\n", when, goes, then, to))
		return &r.Requirements[1]
	}
	for _, c := range []struct {
		when, goes, then, to string
		worst                float64
	}{
		{"stick.grip", "forward", "stick.horn", "aft", 0.15}, {"stick.grip", "forward", "stick.horn", "forward", -0.15},
		{"stick.grip", "aft", "left-lever.in", "forward", 0.15}, {"stick.grip", "forward", "left-lever.tip", "forward", 0.2},
	} {
		j := sense(c.when, c.goes, c.then, c.to)
		assert.InDelta(t, c.worst, *j.Worst, 1e-9, "%+v", c)
		assert.EqualValues(t, "mm/mm", j.Unit)
		assert.Equal(t, c.worst > 0, j.Verdict == Holds)
		assert.Empty(t, j.Aside)
	}
	// The grip goes up or down by the sine of its turn: less than a tenth of its speed
	// within asin(0.1) of neutral, where it is left out. Beyond, left-lever.te goes up by
	// 80 cos x where the grip goes up by -400 sin x.
	j := sense("stick.grip", "up", "left-lever.te", "up")
	require.Len(t, j.Aside, 1)
	edge := math.Asin(0.1) / degree
	assert.InDelta(t, -edge, j.Aside[0].From, 1e-6)
	assert.InDelta(t, edge, j.Aside[0].To, 1e-6)
	assert.InDelta(t, -80*math.Sqrt(0.99)/(400*0.1), *j.Worst, 1e-6)
	assert.Equal(t, FallsShort, j.Verdict)

	// Nothing goes left or right here.
	j = sense("stick.grip", "left", "left-lever.te", "up")
	assert.Equal(t, NeverAlong, j.Why)
	assert.Equal(t, CannotTell, j.Verdict)
}

// A sense by places judges which way the control goes, and what the other place is on.
func TestSenseByPlacesTies(t *testing.T) {
	r := stickWords(t, "", "", "require \"sense\" {\n when = [stick.grip, \"forward\"]\n then = [left-lever.tip, \"forward\"]\n}\n")
	assert.Empty(t, r.NotJudged)
	r = stickWords(t, "", "", "require \"sense\" {\n when = [stick.grip, \"left\"]\n then = [left-lever.tip, \"forward\"]\n}\n")
	assert.Equal(t, []string{"fore-aft", "disk"}, namesOf(r.NotJudged), "what can't be judged ties nothing")
	r = stickWords(t, "", "", "require \"sense\" {\n of = [fore-aft, disk]\n turns = \"same\"\n}\n")
	assert.Equal(t, []string{"fore-aft", "disk"}, namesOf(r.NotJudged), "signs of rotation are no way that a hand goes")
}

// A place that no control moves can't begin a sense.
func TestSenseOfAPlaceThatNothingMoves(t *testing.T) {
	text := strings.Replace(stickText, "WORDS", "along = [1, 0]", 1) + `
part "spare" {
  pivot  = [900, 0]
  points = { eye = [900, 50], far = [960, 50] }
}
part "other" {
  pivot  = [1200, 0]
  points = { eye = [1200, 50] }
}
rod "spare-link" {
  from = spare.eye
  to   = other.eye
}
control "second" {
  of   = other
  from = -10
  to   = 10
}
require "sense" {
  when    = [spare.far, "up"]
  then    = [stick.horn, "aft"]
  control = fore-aft
}
`
	run, err := linkage.Read(&linkage.Source{Name: "f.hcl", Text: []byte(text)})
	require.NoError(t, err)
	m, err := Compile(run)
	require.NoError(t, err)
	_, err = m.Check()
	assert.ErrorContains(t, err, `the control "fore-aft" doesn't move spare.far at neutral`)
}
