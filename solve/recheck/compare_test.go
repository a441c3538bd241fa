package recheck

import (
	"math"
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The far slide reads what the grip does and what the rod is longer, so a rod longer by
// 0.1 mm moves what it reads at both ends by a tenth of the 1 mm that is allowed, which may
// be left, and one longer by 0.11 mm by more. At neutral nothing is allowed it.
func TestATenthOfWhatIsAllowed(t *testing.T) {
	low, high, neutral := "grip-travel: far-reads, low", "grip-travel: far-reads, high", "grip-travel: far-reads, neutral"
	c := compared(t, signed(t), pairText(t, "tenth"))
	assert.Equal(t, []string{"push.length"}, c.changed())
	assert.Subset(t, c.stands(), []string{low, high, "link"})
	assert.Contains(t, c.redone(Moved), neutral)
	assert.NotContains(t, c.redone(Moved), low)

	c = compared(t, signed(t), pairText(t, "beyond"))
	assert.Subset(t, c.redone(Moved), []string{low, high, neutral})
	for _, r := range c.Redo {
		if r.Says == low {
			assert.InDelta(t, 0.11, r.By, 1e-9)
			assert.Equal(t, 1.0, r.Allowed)
			assert.InDelta(t, -20, r.Was.Value, 1e-9)
		}
	}
	assert.Equal(t, []string{"push", "push at grip.eye", "push at far.eye"}, c.redone(Touched))

	// Small steps add up, since the signed version is what is compared with.
	c = compared(t, pairText(t, "tenth"), pairText(t, "beyond"))
	assert.Contains(t, c.stands(), low, "0.01 mm from the last one alone")
}

// What is allowed is the less of what both versions allow.
func TestTheStricterVersionCounts(t *testing.T) {
	strict := changedText(t, pairText(t, "tenth"), "within  = 1", "within  = 0.5")
	assert.Contains(t, compared(t, signed(t), strict).redone(Moved), "grip-travel: far-reads, low")
	assert.Contains(t, compared(t, strict, signed(t)).redone(Moved), "grip-travel: far-reads, low")
}

// A rod that was opened and closed again at the same length moves nothing, and voids both
// its joints, its length and its control, but nothing of the other control.
func TestOpenedAndClosedAtTheSameLength(t *testing.T) {
	c := compared(t, signed(t), signed(t), "push.from")
	assert.False(t, c.Same())
	assert.Empty(t, c.Changes)
	assert.Equal(t, []string{"push", "push at grip.eye", "push at far.eye"}, c.redone(Touched))
	assert.Equal(t, []string{"grip-travel", "Counted out"}, c.redone(Reached))
	assert.Empty(t, c.redone(Moved))
	assert.Contains(t, c.stands(), "grip-travel: far-reads, low")
	assert.NotContains(t, c.stands(), "push")
	for _, r := range c.Redo {
		require.Len(t, r.Opened, 1)
		assert.Equal(t, "push.from", r.Opened[0].Name)
		assert.Equal(t, "Push rod and lever", r.Opened[0].Run)
	}

	c = compared(t, signed(t), signed(t), "lever.pivot")
	assert.Equal(t, []string{"lever"}, c.redone(Touched))
	assert.Equal(t, []string{"lever-travel", "Counted out"}, c.redone(Reached))
}

// Nothing changed voids nothing; what is measured stands.
func TestNothingChanged(t *testing.T) {
	c := compared(t, signed(t), "# A comment more.\n"+signed(t))
	assert.True(t, c.Same())
	assert.Empty(t, c.Redo)
	assert.Len(t, c.Unmoved, 2+4*3)
	for _, r := range c.Requirements {
		assert.False(t, r.Changed())
	}
	for _, e := range c.Ends {
		assert.False(t, e.Changed())
	}
	for _, s := range c.Neutral {
		assert.False(t, s.Changed())
	}
}

// A renamed rod goes, and another comes: nothing is guessed.
func TestRenamed(t *testing.T) {
	c := compared(t, signed(t), pairText(t, "renamed"))
	var came, went []string
	for _, d := range c.Changes {
		switch {
		case d.Old == nil:
			came = append(came, d.Dimension)
		case d.New == nil:
			went = append(went, d.Dimension)
		}
	}
	assert.Len(t, c.Changes, len(came)+len(went))
	assert.Equal(t, []string{"push-rod.from", "push-rod.to", "push-rod.length"}, came)
	assert.Equal(t, []string{"push.from", "push.to", "push.length"}, went)
	assert.Equal(t, []string{"push-rod", "push-rod at grip.eye", "push-rod at far.eye"}, c.redone(Touched))
	assert.Equal(t, []string{"grip-travel", "Counted out"}, c.redone(Reached))
}

// A rod without a length follows its holes, which is told: (200 + 3) mm; and the arms of a
// pivot go with it, which is not told of each.
func TestWhatFollows(t *testing.T) {
	c := compared(t, signed(t), pairText(t, "follows"))
	require.Equal(t, []string{"crank.horn.x", "link.length"}, c.changed())
	assert.Equal(t, 203.0, c.Changes[1].New.Number)
	assert.Equal(t, []string{"link", "link at lever.horn", "link at crank.horn"}, c.redone(Touched))

	c = compared(t, signed(t), changedText(t, signed(t), "pivot = [200, 300]", "pivot = [201, 300]"))
	assert.Equal(t, []string{"crank.pivot.x", "link.length"}, c.changed())
	assert.Equal(t, []string{"link", "crank", "link at lever.horn", "link at crank.horn"}, c.redone(Touched))
}

// One thing in inches and in millimeters is one thing, but for its units, which is told.
func TestOtherUnits(t *testing.T) {
	c := compared(t, signed(t), pairText(t, "inches"))
	assert.Equal(t, []string{"run.units"}, c.changed())
	assert.Empty(t, c.redone(Moved))
	for _, r := range c.Requirements {
		assert.False(t, r.Changed(), r.Title)
	}
	for _, s := range c.Neutral {
		assert.False(t, s.Changed(), s.Part)
	}
	assert.Contains(t, compared(t, pairText(t, "beyond"), pairText(t, "inches")).redone(Moved), "grip-travel: far-reads, low")
}

// What is required, how a control is held and where a stop bites belong to their own
// control; what is of the whole run, and what no control can be told of, to each.
func TestWhichControlIsReached(t *testing.T) {
	for _, c := range []struct {
		old, now string
		reached  []string
	}{
		{"low     = -20", "low     = -21", []string{"grip-travel"}},
		{"at = 20", "at = 21", []string{"grip-travel"}},
		{"  from = -30", "  from = -31", []string{"lever-travel"}},
		{`output "crank-turns" { of = crank }`, `output "crank-turns" {
  of    = crank
  reads = 1
}`, []string{"lever-travel"}},
		{`units   = "mm"`, "units   = \"mm\"\n  craft   = \"airplane\"", []string{"grip-travel", "lever-travel"}},
		{`part "grip" {`, "fixed \"frame\" {\n  points = { mark = [5, 5] }\n}\npart \"grip\" {", []string{"grip-travel", "lever-travel"}},
	} {
		got := compared(t, signed(t), changedText(t, signed(t), c.old, c.now)).redone(Reached)
		assert.Equal(t, append(c.reached, "Counted out"), got, c.now)
	}
}

// Two rods in one hole share its bolt: who opens the one opens the other's joint there, and
// not the other's far one.
func TestOneBolt(t *testing.T) {
	both := changedText(t, signed(t), `part "crank" {`, `part "horn" {
  pivot = [-200, 300]
  arms  = { horn = [0, 50] }
}
rod "twin" {
  from = lever.horn
  to   = horn.horn
}
part "crank" {`)
	c := compared(t, both, both, "link.to")
	assert.Equal(t, []string{"link", "twin at lever.horn", "link at lever.horn", "link at crank.horn"}, c.redone(Touched))
}

// A stop that went takes the end that it made; what makes an end is told before and now.
func TestEnds(t *testing.T) {
	c := compared(t, signed(t), changedText(t, signed(t), `stop "out" {
  of = grip
  at = 20
}
`, ""))
	require.Len(t, c.Ends, 4)
	out := c.Ends[1]
	assert.True(t, out.Changed())
	assert.Equal(t, "out", By(out.Old))
	assert.Equal(t, solve.ByLimit, out.New.Cause)
	assert.InDelta(t, 40, out.New.At, 1e-9)
	assert.False(t, c.Ends[0].Changed())
	stops := c.Requirements[1]
	assert.True(t, stops.Changed())
	assert.Equal(t, solve.FallsShort, stops.New.Verdict)
}

// What isn't there is an error, never a panic.
func TestNoPanic(t *testing.T) {
	whole := versionOf(t, signed(t))
	for _, v := range []Version{{}, {Result: &solve.Result{}}, {Result: &solve.Result{Run: &linkage.Run{}}}} {
		_, err := Compare(v, whole, nil)
		assert.Error(t, err)
		_, err = Compare(whole, v, nil)
		assert.Error(t, err)
	}
	for _, v := range []Version{
		{Result: &solve.Result{Run: whole.Result.Run, Sweeps: []*solve.Sweep{nil}}},
		{Result: &solve.Result{Run: whole.Result.Run, Requirements: make([]solve.Judgement, 1)}},
	} {
		_, err := Compare(whole, v, nil)
		assert.Error(t, err)
	}
	odd := whole
	odd.Lines = []Line{
		{}, {Step: StepJoints, About: (*linkage.Rod)(nil)}, {Step: StepDrawUp, About: (*linkage.Cable)(nil)}, {Step: StepFull, About: &linkage.Control{}},
		{Step: StepTravels, Figure: &Figure{Value: math.NaN()}}, {Step: StepRods, About: &linkage.Rod{}}, {Step: StepFull, About: &linkage.Cable{}},
	}
	odds, err := Compare(odd, odd, []Joint{{}})
	require.NoError(t, err)
	assert.Empty(t, odds.Unmoved, "what is no number has not stood still")
	assert.NotPanics(t, func() {
		_, _, _ = Ends{}.Changed(), Stands{}.Changed(), Required{}.Changed()
		_, _ = By(nil), (&Comparison{}).Same()
	})
	assert.Nil(t, Joints(nil, ""))
	assert.Nil(t, PitchSetters(nil))
	c, err := Compare(whole, whole, []Joint{{Name: "of nothing"}})
	require.NoError(t, err)
	assert.Equal(t, []string{"grip-travel", "lever-travel", "Counted out"}, c.redone(Reached))
}

// Of runs that share no part, rod or cable nothing can be told.
func TestNothingInCommon(t *testing.T) {
	_, err := Compare(versionOf(t, signed(t)), versionOf(t, `run "Other" { units = "mm" }
part "stick" { pivot = [0, 0] }
control "roll" { of = stick }
`), nil)
	assert.ErrorIs(t, err, ErrNothingInCommon)
}

// A named dimension shows in what is written with it, and belongs to that control alone;
// one that nothing is written with belongs to every control.
func TestNamedDimensions(t *testing.T) {
	text := changedText(t, signed(t), "length = 200", "length = bench.rod") + `
dims "bench" {
  rod   = 200
  spare = 7
}
`
	c := compared(t, text, changedText(t, text, "rod   = 200", "rod   = 201"))
	assert.Equal(t, []string{"bench.rod", "push.length"}, c.changed())
	assert.Equal(t, []string{"grip-travel", "Counted out"}, c.redone(Reached))
	c = compared(t, text, changedText(t, text, "spare = 7", "spare = 8"))
	assert.Equal(t, []string{"bench.spare"}, c.changed())
	assert.Equal(t, []string{"grip-travel", "lever-travel", "Counted out"}, c.redone(Reached))
}

// A line names few of what it follows from, and that there is more.
func TestFewCausesAreKept(t *testing.T) {
	c := compared(t, signed(t), changedText(t, signed(t), "  length = 200\n", "  length = 201\n  diameter = 8\n  misalignment = 10\n  points = { mid = [100, 1] }\n"))
	assert.Greater(t, len(c.Changes), 4)
	for _, r := range c.Redo {
		if r.Why == Touched {
			assert.Len(t, r.Causes, mostKept)
			assert.True(t, r.More)
		}
	}
}
