package render

import (
	"errors"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reported is the report of a result, after checking that it fits its page.
func reported(t *testing.T, r *solve.Result) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, Report(&b, "levers.hcl", r, ReportOptions{}))
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), tableWidth, line)
		assert.Equal(t, strings.TrimRight(line, " "), line, "spaces at the end of a line")
	}
	assert.NotContains(t, b.String(), "\x1b")
	return b.String()
}

func TestReport(t *testing.T) {
	got := reported(t, sample.WithHolding(sample.Levers(), solve.Holds))
	assert.Equal(t, `Levers
HOLDS: the one requirement, stop to stop.

REQUIRED
  holds  rod-angle
         Flattest, at 62.1°, stand link and the arm of crank that it
         drives, with hand at -24.0° (lever aft). 30° wanted, 32.1° in
         hand.

HAND: moves lever from -24.0° to 24.0°, stop to stop
  low end, -24.0°, lever aft
    The stop "aft" ends it at -24.0°. Without it nothing else was met,
    looking to -35.0°.
  high end, 24.0°, lever forward
    The stop "bolt" ends it at 24.0°; 1 mm worn off it lets it go 0.9°
    further. Without it the stop "far" would bite 2.5° later, at 26.5°.
    On center comes 7.2° after the end, at 31.2° (toggle). There link is
    in line with the arm of crank that it drives: crank locks up and is
    driven no further; thrown past that point, a pull back (lever aft)
    drives it further on.
  on center
    at 31.2°, 7.2° in hand: crank locks up, by the rod link (toggle)

  part moves       neutral  low end  high end  least  most
  lever       deg      0.0    -24.0      24.0  -24.0  24.0
  crank       deg      0.1    -23.6      24.3  -23.6  24.3

  output reads       neutral  low end  high end  least  most
  tail          deg      0.1    -23.6      24.3  -23.6  24.3
  tail: plus is nose left; moves 1.00 degrees a degree at neutral, 0.900
    to 1.10 over the travel (ratio)

  rod, hole to hole     mm  drawn  flattest     to  tilt
  link               184.0  183.7     62.1°  crank  2.0°
  (flattest: the least angle between a rod and the arm that it drives,
  its transmission angle; tilt: the most that a rod end stands out of
  square to its bolt, its misalignment)

AS READ
  (holes from what their part turns on: distance, and angle from level,
  anticlockwise; of a part without a pivot where they are on the
  drawing)
  lever turns on the airframe at [0.0, 0.0]
    horn 60.0 mm at -90.0°
  crank turns on the airframe at [183.7, 0.0]
    horn 60.0 mm at -90.0°

WHAT THIS ANSWER IS
  Covered: from hand (lever) to tail (crank), as drawn in levers.hcl;
    nothing beyond.
  Assumed: rigid parts, exactly as drawn, rods at the lengths given, no
    play.
  Not checked, because the file doesn't require it: which way things
    move (sense) and the room between metal (clearance).
  Never checked here: play, flex, friction, wear, loads, clearance to
    anything not in the file, and the parts as they were made.
  It is arithmetic on a drawing and approves nothing: the designer's
    instructions, the local rules and a licensed inspector do. The last
    check is made on the aircraft, at the blade or surface, pins out, by
    a second person.
`, got)
}

// What a run gives cause for and doesn't require is named, each kind of it.
func TestNotCheckedNamesEveryKind(t *testing.T) {
	text := regexp.MustCompile(`(?s)\nrequire .*`).ReplaceAllString(sample.DemoText(t, "pedals-dual"), "\n")
	r := sample.Checked(t, "dual.hcl", text)
	require.Contains(t, r.NotChecked, linkage.Engagement)
	require.Contains(t, r.NotChecked, linkage.SecondPath)
	said := notChecked(r)
	for _, kind := range r.NotChecked {
		assert.Contains(t, said, "("+string(kind)+")")
	}
	assert.NotRegexp(t, `, ,| and $|^ and`, said)
}

func TestHeadline(t *testing.T) {
	for _, c := range []struct {
		verdicts []solve.Verdict
		want     string
	}{
		{nil, "NOTHING WAS REQUIRED, so there is no verdict."},
		{[]solve.Verdict{solve.Holds}, "HOLDS: the one requirement, stop to stop."},
		{[]solve.Verdict{solve.Holds, solve.Holds}, "HOLDS: all 2 requirements, stop to stop."},
		{[]solve.Verdict{solve.FallsShort, solve.Holds}, "FALLS SHORT in 1 of 2 requirements: rod-angle."},
		{[]solve.Verdict{solve.FallsShort}, "FALLS SHORT in 1 of 1 requirement: rod-angle."},
		{[]solve.Verdict{solve.FallsShort, solve.CannotTell}, "FALLS SHORT in 1 of 2 requirements: rod-angle. Can't be judged: rod-angle."},
		{[]solve.Verdict{solve.CannotTell, solve.Holds}, "CAN'T BE JUDGED in 1 of 2 requirements: rod-angle."},
	} {
		assert.Equal(t, c.want, Headline(sample.WithHolding(sample.Levers(), c.verdicts...)))
	}
}

func TestReportTellsSettingsThatEndAlikeOnce(t *testing.T) {
	r := sample.Levers()
	pitch := &linkage.Control{Name: "pitch", Index: 1, Of: r.Run.Parts[1]}
	first := r.Sweeps[0]
	first.Held = []solve.Held{{Control: pitch, At: -8}}
	for i, at := range []float64{0, 12} {
		s := *first
		s.Index, s.Held = i+1, []solve.Held{{Control: pitch, At: at}}
		r.Sweeps = append(r.Sweeps, &s)
	}
	last := r.Sweeps[2]
	last.Ends[0].At, last.Low = -20, -20
	last.Parts = []solve.PartTravel{last.Parts[0], last.Parts[1]}
	last.Parts[1].Least, last.Parts[1].Most = -30, 20
	got := reported(t, r)
	assert.Contains(t, got, "HAND: moves lever from -24.0° to 24.0°, stop to stop, at 3 settings of\n  pitch\n")
	assert.Contains(t, got, "  With pitch at -8.0° and neutral:\n  low end, -24.0°")
	assert.Contains(t, got, "  With pitch at 12.0°:\n  low end, -20.0°")
	assert.Equal(t, 2, strings.Count(got, "high end, 24.0°"))
	assert.Contains(t, got, "\nALL TOGETHER: 3 sweeps\n")
	assert.Contains(t, got, "crank       deg  -30.0  24.3", "least and most of all three")
}

// With two other controls a setting is told by both, and many are cut short.
func TestReportOfManySettings(t *testing.T) {
	r := sample.Levers()
	first := *r.Sweeps[0]
	pitch := &linkage.Control{Name: "pitch", Index: 1, Of: r.Run.Parts[1]}
	ram := &linkage.Control{Name: "ram", Index: 2, Of: &linkage.Part{Motion: linkage.Slides}}
	r.Sweeps = nil
	for i := range 11 {
		s := first
		s.Index, s.Held = i, []solve.Held{{Control: pitch, At: float64(i)}, {Control: ram, At: -5}}
		if i != 1 { // the first two end alike
			s.Ends[0].At -= float64(i)
		}
		r.Sweeps = append(r.Sweeps, &s)
	}
	got := reported(t, r)
	assert.Contains(t, got, "at 11 settings of\n  pitch and ram\n  With pitch at neutral and ram at -5.0 mm; pitch at 1.0° and ram at\n    -5.0 mm:\n")
	assert.Contains(t, got, "  And 2 more that end differently: see the results for machines\n    (--json).\n")
	assert.Equal(t, MostSettings, strings.Count(got, "high end, 24.0°"))
}

func TestReportWithoutStops(t *testing.T) {
	r := sample.Levers()
	s := r.Sweeps[0]
	s.Low, s.High, s.Ends = -35, 31.2, [2]solve.End{{At: -35, Cause: solve.ByLimit}, {At: 31.2, Cause: solve.ByToggle, Part: r.Run.Parts[1]}}
	s.Critical[0].Margin = 0
	got := reported(t, r)
	assert.Contains(t, got, "\nHAND: moves lever from -35.0° to 31.2°\n")
	assert.Contains(t, got, "    No stop and no on-center point was met, looking to -35.0°.\n")
	assert.Contains(t, got, "    No stop comes first: it goes on center at 31.2° (toggle). There link\n    is in line")
	assert.Contains(t, got, "at 31.2°, nothing in hand: crank locks up")
}

func TestReportInInches(t *testing.T) {
	r := sample.Levers()
	r.Run.Units = linkage.Inches
	r.Sweeps[0].Rods[0].Length, r.Run.Rods[0].Drawn = 7.25, 7.234375
	r.Sweeps[0].Ends[1].Wear = sample.Is(25.4 * 0.9)
	got := reported(t, r)
	assert.Contains(t, got, "  rod, hole to hole             in  drawn  flattest     to  tilt\n  link               7.250 (7 1/4)  7.234     62.1°  crank  2.0°\n")
	assert.Contains(t, strings.Join(strings.Fields(got), " "), "1/64 in worn off it lets it go 0.4° further")
}

func TestReportWithoutAnyThing(t *testing.T) {
	r := sample.Levers()
	r.Sweeps[0].Critical, r.Sweeps[0].Rods, r.Sweeps[0].Outputs = nil, nil, nil
	r.Run.Outputs, r.NotChecked = nil, nil
	got := reported(t, r)
	assert.Contains(t, got, "NOTHING WAS REQUIRED")
	assert.Contains(t, got, "on center: nowhere from -35.0° to 31.2°")
	assert.Contains(t, got, "to the parts told above")
	assert.NotContains(t, got, "doesn't require it")
}

func TestReportSurvivesHostileNames(t *testing.T) {
	r := sample.WithHolding(sample.Levers(), solve.FallsShort)
	r.Run.Name = "\x1b]0;owned\a" + strings.Repeat("long", 100) + "\u202e\xff"
	r.Run.Controls[0].Plus = "a\nb\x00"
	r.Run.Outputs[0].Plus = "\x1b[2J"
	r.Requirements[0].Requirement.Name = "\x9b1m" + strings.Repeat("w ", 200)
	r.Run.Parts[1].Name = strings.Repeat("part-", 30)
	r.Sweeps[0].Parts[1].Name = r.Run.Parts[1].Name
	got := reported(t, r)
	for _, c := range []string{"\x1b", "\a", "\u202e", "\x9b", "\x00", "\xff"} {
		assert.NotContains(t, got, c)
	}
}

func TestReportKeepsFiguresTogether(t *testing.T) {
	p := &page{}
	p.text("", "", strings.Repeat("word ", 13)+"at 7 1/4 in, or 184.0 mm. "+strings.Repeat("x", 44)+" 12 mm")
	assert.Equal(t, strings.TrimSpace(strings.Repeat("word ", 13))+" at\n7 1/4 in, or 184.0 mm. "+strings.Repeat("x", 44)+"\n12 mm\n", p.String())
}

// A title as long as a file may be is told: quadratic time would end in the time limit of
// the tests.
func TestReportOfALongTitle(t *testing.T) {
	r := sample.WithHolding(sample.Levers(), solve.FallsShort)
	r.Run.Name = strings.Repeat("x", 1<<20)
	r.Requirements[0].Requirement.Name = strings.Repeat("7 1/4 ", 1<<17)
	assert.Greater(t, len(reported(t, r)), 1<<20)
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestResultsHandOnTheWritersError(t *testing.T) {
	r := sample.Levers()
	assert.EqualError(t, Report(brokenWriter{}, "f", r, ReportOptions{}), "no room")
	assert.EqualError(t, SweepTable(brokenWriter{}, r.Run, nil, r.Sweeps[0], []solve.Column{{Name: "a"}}, nil), "no room")
}
