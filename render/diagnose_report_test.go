package render

import (
	"strings"
	"testing"
	"unicode/utf8"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func diagnoseReport(t *testing.T, run *linkage.Run, d *solve.Diagnosis) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, DiagnoseReport(&b, "levers.hcl", run, nil, d))
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), pageWidth, line)
		assert.Equal(t, strings.TrimRight(line, " "), line)
	}
	return b.String()
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

func TestDiagnoseReport(t *testing.T) {
	run, d := sample.Diagnosed()
	assert.Equal(t, `Levers
CAN'T BE TOLD APART: it may be either of 2 things, neither clearly
  likelier.

WHAT EXPLAINS THEM
  As drawn and set, the run leaves 2 of 2 readings further off than they
    read to.
  These readings can't tell apart: link.length and the zero of the gauge
    ("first rigging.zero"). Any one of them, off by what is told below,
    may be what is off.
  So turn no rod yet: what is right may be set wrong by it.
  A reading that would: crank with hand at 24.0°, to 0.4° or better.
    There they differ by up to 1.4°.

  explanation              drawn  would be     ±  leaves  group
  link.length          mm  184.0     185.1  0.12    0.05      1
`, diagnoseReport(t, run, d)[:strings.Index(diagnoseReport(t, run, d), "  first rigging.zero")])
}

// Nothing is turned into "set this rod" while anything else explains as well.
func TestOneExplanation(t *testing.T) {
	run, d := sample.Diagnosed()
	d.Candidates, d.TellsApart = append(d.Candidates[:1:1], d.Candidates[2]), nil
	got := oneLine(diagnoseReport(t, run, d))
	assert.Contains(t, got, "ONE THING EXPLAINS IT: link.length.")
	assert.Contains(t, got, "The rod link would be 185.1 mm, give or take 0.12 mm, hole to hole, 1.1 mm longer than the 184.0 mm it is given; that leaves all 2 readings within what they read to.")
	assert.Contains(t, got, "Measure the rod hole to hole; if it is so, set it")
	assert.NotContains(t, got, "turn no rod")

	run, d = sample.Diagnosed()
	d.Candidates, d.TellsApart = d.Candidates[1:2], nil
	got = oneLine(diagnoseReport(t, run, d))
	assert.Contains(t, got, `ONE THING EXPLAINS IT: the zero of the gauge ("first rigging.zero").`)
	assert.Contains(t, got, "Set the gauge to zero anew and read again, before anything is turned.")

	run, d = sample.Diagnosed()
	d.Candidates, d.TellsApart = d.Candidates[2:], nil
	d.Candidates[0].Group, d.Candidates[0].SumOfSquares = 1, 40
	got = oneLine(diagnoseReport(t, run, d))
	assert.Contains(t, got, "NOTHING HERE EXPLAINS ALL OF THEM: the nearest is crank.horn.y.")
	assert.Contains(t, got, "leaves 2 of 2 readings further off")
	assert.Contains(t, got, "So turn nothing for it.")
	assert.NotContains(t, got, "if it is so")
}

// A group of which none explains the readings isn't told as one that does.
func TestNoneOfAGroupExplains(t *testing.T) {
	run, d := sample.Diagnosed()
	for i := range d.Candidates[:2] {
		d.Candidates[i].SumOfSquares, d.Candidates[i].Residuals = 40, [][]float64{{0.9, -0.9}}
	}
	got := oneLine(diagnoseReport(t, run, d))
	assert.Contains(t, got, "NOTHING HERE EXPLAINS ALL OF THEM: the nearest are 2 things that can't be told apart.")
	assert.Contains(t, got, `The nearest, which these readings can't tell apart: link.length and the zero of the gauge ("first rigging.zero"). The first of them leaves 2 of 2 readings further off than they read to.`)
	assert.NotContains(t, got, "may be what is off")
	assert.NotContains(t, got, "A reading that would")
	// 3.84 is the 95 % point of chi-square with the one degree of freedom that two
	// readings leave.
	d.Candidates[0].SumOfSquares = 3.85
	assert.False(t, d.Explains(&d.Candidates[0]))
	d.Candidates[0].SumOfSquares = 3.83
	assert.True(t, d.Explains(&d.Candidates[0]))
}

// One of a group is told as the likeliest where the readings say so, by 3.84 in
// the sums of squares (chi-square, one degree of freedom, 95 %), and never as the
// only one.
func TestTheLikeliest(t *testing.T) {
	run, d := sample.Diagnosed()
	d.Candidates[0].SumOfSquares, d.Candidates[1].SumOfSquares, d.Candidates[2].SumOfSquares = 0.1, 3.93, 40
	assert.Contains(t, oneLine(diagnoseReport(t, run, d)), "it may be either of 2 things, neither clearly likelier.")
	d.Candidates[1].SumOfSquares = 3.95
	got := oneLine(diagnoseReport(t, run, d))
	assert.Contains(t, got, "CAN'T BE TOLD APART: it may be either of 2 things; link.length is the likeliest.")
	assert.Contains(t, got, "may be what is off. The likeliest is link.length, but not surely. So turn no rod yet")
	assert.NotContains(t, got, "ONE THING")
	for i := range d.Candidates {
		d.Candidates[i].Group = 1
	}
	got = oneLine(diagnoseReport(t, run, d))
	assert.Contains(t, got, "it may be any of 3 things; link.length is the likeliest.")
	assert.Contains(t, got, "The reading that tells most of them apart: crank with hand at")
}

// Where chance may make the readings with nothing off at all, no cause is told,
// not even where one candidate is all there is.
func TestMayBeNothing(t *testing.T) {
	run, d := sample.Diagnosed()
	d.NoneToo = true
	got := oneLine(diagnoseReport(t, run, d))
	assert.Contains(t, got, "HARDLY OFF: it may be chance, or either of 2 things.")
	assert.Contains(t, got, "Read again, every reading twice, before a cause is looked for.")
	d.Candidates, d.TellsApart = d.Candidates[:1], nil
	got = oneLine(diagnoseReport(t, run, d))
	assert.Contains(t, got, "HARDLY OFF: it may be chance, or one thing.")
	assert.NotContains(t, got, "ONE THING")
	assert.NotContains(t, got, "if it is so")
}

// Of many candidates the first are named in the sentence; the table has all.
func TestManyCandidates(t *testing.T) {
	run, d := sample.Diagnosed()
	for range 20 {
		d.Candidates = append(d.Candidates, d.Candidates[0])
	}
	for i := range d.Candidates {
		d.Candidates[i].Group = 1
	}
	got := diagnoseReport(t, run, d)
	assert.Contains(t, oneLine(got), " and 17 more. Any one of them")
	assert.Equal(t, len(d.Candidates), strings.Count(got, " 1\n"))
}

func TestNoExplanation(t *testing.T) {
	run, d := sample.Diagnosed()
	d.Candidates, d.TellsApart = nil, nil
	assert.Contains(t, diagnoseReport(t, run, d), "NOTHING EXPLAINS IT")

	run, d = sample.Diagnosed()
	d.Fits, d.Residuals0 = true, [][]float64{{0.1, -0.1}}
	got := diagnoseReport(t, run, d)
	assert.Contains(t, got, "AS DRAWN: ")
	assert.NotContains(t, got, "turn no rod")

	run, d = sample.Diagnosed()
	d.TellsApart = nil
	assert.Contains(t, oneLine(diagnoseReport(t, run, d)), "No further reading would: all through the travel they do the same, or differ by too little for such a reading to tell.")
}

func TestDiagnoseTellsJointTrendAndWhatIsLeftOut(t *testing.T) {
	run, d := sample.Diagnosed()
	d.Joint = solve.Joint{Directions: 2, RMS: 0.04, Estimates: []solve.JointEstimate{
		{Dimension: "link.length", Unit: "mm", Nominal: 184, Estimate: 185, SE: 0.2},
		{Dimension: "crank.horn.y", Unit: "mm", Nominal: -60, Estimate: -60.01, SE: 0.5},
	}}
	d.Trend = []solve.TrendPoint{{Dimension: "link.length", Date: "2026-05-01", Estimate: 184.02, SE: 0.1}, {Dimension: "link.length", Date: "2026-08-14", Estimate: 185.1, SE: 0.06}}
	d.LeftOut = []*linkage.Rigging{{Name: "undated"}}
	got := diagnoseReport(t, run, d)
	said := oneLine(got)
	assert.Contains(t, said, "ALL AT ONCE: the readings tell 2 things")
	assert.Contains(t, said, "(1 other not worth telling:")
	assert.Contains(t, got, "  link.length  mm  2026-05-01     184.0  0.20\n")
	assert.Contains(t, got, "  link.length  mm  2026-08-14     185.1  0.12\n")
	assert.Contains(t, said, `"undated" has no date, and others have: it is left out.`)
}

// Where a core explains what was read, that is what to measure, and the nuts tell
// how far it is to be turned back.
func TestDiagnosisOfACore(t *testing.T) {
	cable := &linkage.Cable{Name: "pull"}
	cable.Ends = []*linkage.CableEnd{{Cable: cable, Side: "conduit-to", Thread: linkage.Thread{Pitch: 0.5}}}
	c := solve.Candidate{Dim: &linkage.Dimension{Cable: cable, Point: -1}, Nominal: 150, Estimate: 150.75}
	assert.Equal(t, "Measure the core outside the conduit at both ends, with no load on it; if it is so, set it to what it should be: pull.conduit-to 1.5 turns out.", remedySays(c))
	cable.Ends = nil
	assert.Equal(t, "Measure the core outside the conduit at both ends, with no load on it; if it is so, set it to what it should be.", remedySays(c))
	cable.Spring = "plus"
	assert.Equal(t, "; cables set as the file says, without friction or load, a spring keeping pull taut", cablesDrawnUp(&linkage.Run{Cables: []*linkage.Cable{cable}}))
	assert.Empty(t, cablesDrawnUp(&linkage.Run{}))
}
