package calls_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/linkage/outline"
)

// flapLever is a run of one's own, its places sketched out by some centimeters; flapTruth is
// where they are.
func flapLever() *outline.Outline {
	return &outline.Outline{
		Title: "Flap lever", Units: linkage.Millimeters, View: outline.FromRight,
		Airframe: []outline.Place{{Name: "shaft", X: "0", Y: "0"}, {Name: "hinge", X: "-580", Y: "60"}},
		Parts: []outline.Part{
			{Name: "lever", Kind: outline.Turns, On: "airframe.shaft", Holes: []outline.Place{{Name: "hand", X: "100", Y: "240"}, {Name: "horn", X: "-30", Y: "-60"}}},
			{Name: "flap", Kind: outline.Turns, On: "airframe.hinge", Holes: []outline.Place{{Name: "horn", X: "-600", Y: "-30"}, {Name: "tip", X: "-850", Y: "30"}}},
		},
		Rods:    []outline.Rod{{Name: "push-rod", From: "lever.horn", To: "flap.horn"}},
		Control: outline.Control{Of: "lever", Plus: "pulled back", Low: "0", High: "46"},
		Output:  outline.Output{Of: "flap", Plus: "down", Low: "0", High: "38"},
		Sense:   outline.Sense{Place: "lever.hand", Goes: linkage.Aft, Then: "flap.tip", Is: linkage.Down},
	}
}

var flapTruth = map[string][2]float64{
	"airframe.shaft": {0, 0}, "airframe.hinge": {-600, 40}, "lever.hand": {90, 260}, "lever.horn": {-17.1, -46.98},
	"flap.horn": {-615.53, -17.96}, "flap.tip": {-880, 20},
}

type answered struct {
	Faults  []outline.Fault
	Text    string
	File    string
	Entries []struct {
		Kind, From, To, Is, Within, Letters, Says, Help string
		Check                                           bool
	}
	Places []struct {
		Name, Letter, X, Y, Within string
		Open                       bool
	}
	Mark, Headline, Sketch string
	Says, Left             []string
}

func ask(t *testing.T, call string, body any) (a answered) {
	t.Helper()
	text, err := json.Marshal(body)
	require.NoError(t, err)
	answer := calls.NewDesk().Answer(call, text)
	require.Equal(t, calls.Done, answer.Status, string(answer.Body))
	require.NoError(t, json.Unmarshal(answer.Body, &a), string(answer.Body))
	return a
}

func quote(t *testing.T, text string) string {
	t.Helper()
	quoted, err := json.Marshal(text)
	require.NoError(t, err)
	return string(quoted)
}

type asking struct {
	Outline *outline.Outline `json:"outline"`
	Text    string           `json:"text"`
	Taped   []outline.Entry  `json:"taped"`
	Skip    []outline.Entry  `json:"skip"`
	Page    bool             `json:"page"`
}

// truly is what a faultless tape or level reads.
func truly(kind, from, to string) float64 {
	a, b := flapTruth[from], flapTruth[to]
	if kind == "gauged" {
		return math.Atan2(b[1]-a[1], b[0]-a[0]) * 180 / math.Pi
	}
	return math.Hypot(b[0]-a[0], b[1]-a[1])
}

// Whoever fills in what is asked, most helpful first, comes from a sketch to a run that is
// judged.
func TestMeasureFromASketchToARun(t *testing.T) {
	ours := asking{Outline: flapLever()}
	for step := 0; ; step++ {
		require.Less(t, step, 40)
		a := ask(t, "measure", ours)
		require.Empty(t, a.Faults)
		require.Empty(t, a.Left)
		if step == 0 {
			assert.Equal(t, "open", a.Mark)
			assert.Equal(t, "flap-lever.hcl", a.File)
			assert.Equal(t, "exact", a.Places[0].Within)
		}
		next := -1
		for i, e := range a.Entries {
			if e.Is == "" {
				next = i
				break
			}
		}
		if next < 0 {
			assert.Equal(t, "holds", a.Mark, a.Headline)
			assert.Contains(t, a.Headline, "AGREE")
			for _, p := range a.Places {
				want := flapTruth[p.Name]
				var x, y float64
				fmt.Sscan(p.X, &x)
				fmt.Sscan(p.Y, &y)
				assert.InDelta(t, want[0], x, 1, p.Name)
				assert.InDelta(t, want[1], y, 1, p.Name)
			}
			run, err := linkage.Read(&linkage.Source{Name: a.File, Text: []byte(a.Text)})
			require.NoError(t, err)
			assert.Empty(t, run.Blanks())
			return
		}
		e := a.Entries[next]
		assert.NotEmpty(t, e.Help)
		ours.Text = a.Text
		ours.Taped = append(ours.Taped, outline.Entry{Kind: linkage.MeasurementKind(e.Kind), From: e.From, To: e.To, Is: fmt.Sprintf("%.1f", truly(e.Kind, e.From, e.To))})
	}
}

func TestMeasureTellsWhatIsWrongAtItsField(t *testing.T) {
	ours := asking{Outline: flapLever()}
	ours.Outline.Parts[0].Holes[0].X = "9o"
	ours.Taped = []outline.Entry{{Kind: linkage.Taped, From: "airframe.shaft", To: "lever.horn", Is: "1,250"}, {Kind: linkage.Taped, From: "airframe.shaft", To: "lever.hand", Is: "-5"}}
	a := ask(t, "measure", ours)
	var at []string
	for _, f := range a.Faults {
		at = append(at, f.At)
	}
	assert.ElementsMatch(t, []string{"parts.0.holes.0.x", "taped.0.is", "taped.1.is"}, at)
	assert.Empty(t, a.Text)
}

// What can't be reached is not asked for, and what is the user's own in the text stays.
func TestMeasureKeepsWhatIsTheUsersOwn(t *testing.T) {
	ours := asking{Outline: flapLever(), Page: true}
	first := ask(t, "measure", ours)
	assert.Contains(t, first.Sketch, "<svg")
	gone := first.Entries[1]
	ours.Skip = []outline.Entry{{Kind: linkage.MeasurementKind(gone.Kind), From: gone.From, To: gone.To}}
	ours.Text = first.Text + "\nrequire \"misalignment\" { most = 10 }\n"
	ours.Taped = []outline.Entry{{Kind: linkage.Taped, From: "lever.horn", To: "airframe.shaft", Is: "50 ½"}}
	a := ask(t, "measure", ours)
	require.Empty(t, a.Faults)
	assert.True(t, strings.HasSuffix(a.Text, "\nrequire \"misalignment\" { most = 10 }\n"))
	assert.Contains(t, a.Text, "is     = 50 + 1/2")
	for _, e := range a.Entries {
		assert.False(t, e.Kind == gone.Kind && e.From == gone.From && e.To == gone.To)
	}
	last := a.Entries[len(a.Entries)-1]
	assert.Equal(t, "50 ½", last.Is, "what is filled in stands last, as it was typed")

	var again struct {
		Outline *outline.Outline
		Taped   []outline.Entry
		Why     string
	}
	answer := calls.NewDesk().Answer("outline", []byte(`{"text":`+quote(t, a.Text)+`}`))
	require.NoError(t, json.Unmarshal(answer.Body, &again))
	assert.Empty(t, again.Why)
	require.NotNil(t, again.Outline)
	ours.Outline.Datum = "shaft" // the first, which the file says
	assert.Equal(t, ours.Outline, again.Outline)
	assert.Len(t, again.Taped, len(a.Entries))
	ours.Text = strings.Replace(ours.Text, "most = 10", "most = ten", 1)
	broken := ask(t, "measure", ours)
	require.Len(t, broken.Faults, 1)
	assert.Contains(t, broken.Faults[0].Says, "in the part that is yours")
}

// A file that the form didn't write is filled in where it is blank, and is changed nowhere else.
func TestMeasureFillsInAnyFile(t *testing.T) {
	text := "# mine\nrun \"x\" {\n  units = \"in\"\n  sketch = 1\n}\nfixed \"f\" {\n  exact = true\n  points = { a = [0, 0] }\n}\npart \"p\" {\n  pivot = f.a\n  points = { h = [5, 5], k = [-3, 2] }\n}\ncontrol \"c\" {\n  of = p\n}\ntaped \"one\" {\n  from = f.a\n  to = p.h\n  is = blank # tape\n  within = 0.1\n}\ntaped \"two\" {\n  from = p.k\n  to = f.a\n  is = 3 + 1/2\n  within = 0.1\n}\n"
	a := ask(t, "measure", asking{Text: text, Taped: []outline.Entry{{Kind: linkage.Taped, From: "p.h", To: "f.a", Is: "7 1/8"}}})
	require.Empty(t, a.Faults)
	assert.Equal(t, strings.Replace(text, "is = blank", "is = 7 + 1/8", 1), a.Text)
	require.Len(t, a.Entries, 2)
	assert.Equal(t, "3 + 1/2", a.Entries[1].Is)
	assert.Equal(t, "open", a.Mark)
	a = ask(t, "measure", asking{Text: "nonsense {"})
	assert.NotEmpty(t, a.Faults)
}

// Nothing that a page could send ends the program.
func TestMeasureRefusesWhatIsNoQuestion(t *testing.T) {
	for _, body := range []string{``, `{}`, `null`, `[]`, `{"outline":{}}`, `{"outline":{"parts":[{}],"rods":[{}],"airframe":[{}]},"taped":[{}]}`, `{"text":5}`, `{"x":1}`} {
		for _, call := range []string{"measure", "outline"} {
			answer := calls.NewDesk().Answer(call, []byte(body))
			assert.NotEqual(t, calls.Failed, answer.Status, "%s %s", call, body)
		}
	}
}

// What is to be taped doesn't hang on what moves it, and what can't be brought together can
// still be mended.
func TestMeasureBeforeItIsARun(t *testing.T) {
	ours := asking{Outline: flapLever()}
	ours.Outline.Control, ours.Outline.Output, ours.Outline.Sense = outline.Control{}, outline.Output{}, outline.Sense{}
	a := ask(t, "measure", ours)
	assert.Empty(t, a.Faults)
	assert.Empty(t, a.Text)
	assert.NotEmpty(t, a.Entries)
	assert.Contains(t, a.Left, "nothing is told yet of what a hand or foot moves")

	ours.Outline = flapLever()
	for _, to := range []string{"lever.hand", "lever.horn", "airframe.hinge", "flap.horn", "flap.tip"} {
		ours.Taped = append(ours.Taped, outline.Entry{Kind: linkage.Taped, From: "airframe.shaft", To: to, Is: "0.1", Within: "0.1"})
	}
	ours.Taped = append(ours.Taped, outline.Entry{Kind: linkage.Taped, From: "flap.tip", To: "flap.horn", Is: "9000", Within: "0.1"})
	a = ask(t, "measure", ours)
	assert.NotEmpty(t, a.Entries)
	assert.Equal(t, "short", a.Mark)
}

func TestMeasureOfFarTooMuch(t *testing.T) {
	o := flapLever()
	for i := range 200 {
		o.Parts[0].Holes = append(o.Parts[0].Holes, outline.Place{Name: fmt.Sprintf("h%d", i), X: fmt.Sprint(i), Y: "5"})
	}
	a := ask(t, "measure", asking{Outline: o})
	require.Len(t, a.Faults, 1)
	assert.Contains(t, a.Faults[0].Says, "206 places are more than can be measured at once (100)")
}

// BenchmarkMeasure is what a page waits for after each entry, of runs of so many places.
func BenchmarkMeasure(b *testing.B) {
	for _, parts := range []int{2, 6, 12} {
		o := flapLever()
		for i := range parts - 2 {
			x := 200 * i
			o.Airframe = append(o.Airframe, outline.Place{Name: fmt.Sprintf("a%d", i), X: fmt.Sprint(x), Y: fmt.Sprint(i * i % 97)})
			o.Parts = append(o.Parts, outline.Part{Name: fmt.Sprintf("p%d", i), Kind: outline.Turns, On: fmt.Sprintf("airframe.a%d", i), Holes: []outline.Place{
				{Name: "h", X: fmt.Sprint(x + 50), Y: fmt.Sprint(70 + i%13)}, {Name: "k", X: fmt.Sprint(x + 50), Y: fmt.Sprint(-70 - i%11)},
			}})
		}
		body, err := json.Marshal(asking{Outline: o})
		require.NoError(b, err)
		b.Run(fmt.Sprintf("places=%d", 3*parts), func(b *testing.B) {
			for b.Loop() {
				calls.NewDesk().Answer("measure", body)
			}
		})
	}
}
