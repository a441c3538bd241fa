package recheck

import (
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/linkage/hunt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// demoTexts are all demos.
func demoTexts(t testing.TB) map[string]string {
	t.Helper()
	texts := map[string]string{}
	for _, kind := range append(demo.Kinds(), demo.More()...) {
		text, ok := demo.File(kind)
		require.True(t, ok)
		texts[kind] = string(text)
	}
	head, err := os.ReadFile("../../testdata/space/head.hcl")
	require.NoError(t, err)
	texts["head"] = string(head)
	return texts
}

// differing are the names of the dimensions in which two runs differ.
func differing(old, now *linkage.Run) (names []string) {
	before := map[string]Value{}
	for _, d := range dimensionsOf(old) {
		before[d.name] = d.value
	}
	for _, d := range dimensionsOf(now) {
		if was, ok := before[d.name]; !ok || !was.same(d.value) {
			names = append(names, d.name)
		}
		delete(before, d.name)
	}
	for name := range before {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// Every dimension of a run has a name of its own, whatever it is called.
func TestNamesAreTheirOwn(t *testing.T) {
	for kind, text := range demoTexts(t) {
		seen := map[string]bool{}
		for _, d := range dimensionsOf(runOf(t, text)) {
			assert.False(t, seen[d.name], "%s: %s", kind, d.name)
			assert.NotContains(t, d.name, " #", kind)
			seen[d.name] = true
		}
	}
}

var (
	// figureIn finds the numbers of a line without its comment.
	figureIn = regexp.MustCompile(`(^|[^\w.-])(\d+(?:\.\d+)?)`)
	quoted   = regexp.MustCompile(`"[^"]*"`)
	// opens finds which block a line opens.
	opens = regexp.MustCompile(`^(\w[\w-]*)`)
	// direction finds an attribute whose numbers tell a direction, however long.
	direction = regexp.MustCompile(`^\s*(forward|up|right|axis|slide|along|bolts|tilts|square-to)\s*=`)
)

// isDirection reports whether the numbers of the last of some lines tell a direction.
func isDirection(lines []string) bool {
	last := lines[len(lines)-1]
	for _, line := range slices.Backward(lines[:len(lines)-1]) {
		code := strings.TrimSpace(line)
		if strings.HasPrefix(code, "}") || strings.HasSuffix(code, "{") {
			return direction.MatchString(last) || strings.HasPrefix(code, "bolts")
		}
	}
	return direction.MatchString(last)
}

// isDrawing reports whether the last of some lines of a file says how the run is drawn:
// what was taped, gauged and measured doesn't, nor what may vary in a search.
func isDrawing(lines []string) bool {
	block := ""
	for _, line := range lines {
		if m := opens.FindStringSubmatch(line); m != nil {
			block = m[1]
		}
	}
	return !slices.Contains([]string{"taped", "gauged", "measured", "vary"}, block)
}

// TestHuntEveryNumberCounts changes any number of any demo, which must show in some
// dimension: a change that isn't known voids nothing. What was taped, gauged and measured
// shows in the coordinates that a survey adjusts, and in diagnose.
func TestHuntEveryNumberCounts(t *testing.T) {
	texts := demoTexts(t)
	var kinds []string
	for kind := range texts {
		kinds = append(kinds, kind)
	}
	slices.Sort(kinds)
	hunt.Each(t, 300, func(t *testing.T, random *rand.Rand) {
		kind := kinds[random.IntN(len(kinds))]
		lines := strings.Split(texts[kind], "\n")
		k := random.IntN(len(lines))
		code, comment, _ := strings.Cut(lines[k], "#")
		bare := quoted.ReplaceAllStringFunc(code, func(s string) string { return strings.Repeat("x", len(s)) })
		found := figureIn.FindAllStringSubmatchIndex(bare, -1)
		if len(found) == 0 || isDirection(lines[:k+1]) || !isDrawing(lines[:k+1]) {
			return
		}
		at := found[random.IntN(len(found))]
		was, err := strconv.ParseFloat(code[at[4]:at[5]], 64)
		require.NoError(t, err)
		now := strconv.FormatFloat(was*1.01+0.01, 'f', -1, 64)
		lines[k] = code[:at[4]] + now + code[at[5]:] + "#" + comment
		run, err := linkage.Read(&linkage.Source{Name: kind, Text: []byte(strings.Join(lines, "\n"))})
		if err != nil {
			return // that number can't be another
		}
		assert.NotEmpty(t, differing(runOf(t, texts[kind]), run), "%s, line %d: %s", kind, k+1, lines[k])
	})
}

// What --set changes is told by the name that --set has for it.
func TestNamesAreThoseOfSettings(t *testing.T) {
	for kind, text := range demoTexts(t) {
		run := runOf(t, text)
		names := map[string]bool{}
		for _, d := range dimensionsOf(run) {
			names[d.name] = true
		}
		for _, d := range run.Dimensions() {
			assert.True(t, names[d.String()], "%s: %s", kind, d)
		}
		for _, name := range run.Named {
			assert.True(t, names[name], "%s: %s", kind, name)
		}
		for _, s := range run.Stops {
			assert.Equal(t, s.Of != nil, names[s.Name+".at"], kind)
		}
		for _, p := range run.Pairs {
			assert.True(t, names[p.Name+".pretension"], kind)
		}
	}
}

// Attributes that are no numbers count as well.
func TestWordsCount(t *testing.T) {
	text := demoTexts(t)["pedals-unequal"]
	for _, c := range []struct{ old, now, changed string }{
		{`plus  = "left pedal forward"`, `plus  = "left pedal ahead"`, "pedals.plus"},
		{`hand    = "left"`, `hand    = "right"`, "left-link.to.hand"},
		{`craft   = "rotorcraft"`, `craft   = "airplane"`, "run.craft"},
		{`forward = [-1, 0]`, `forward = [1, 0]`, "run.forward"},
	} {
		got := differing(runOf(t, text), runOf(t, changedText(t, text, c.old, c.now)))
		assert.Contains(t, got, c.changed, fmt.Sprint(c))
	}
}

// What moves in space, what makes points one and what a rotor is count too.
func TestWhatIsInSpaceCounts(t *testing.T) {
	text := demoTexts(t)["head"]
	for _, c := range []struct{ old, now, changed string }{
		{`of = [upper-link.tip, lower-link.tip]`, "of = [lower-link.tip, upper-link.tip]", "scissors.of"},
		{"  of = [upper-link.tip", "  joint-play = 0.1\n  of = [upper-link.tip", "scissors.joint-play"},
		{`"anticlockwise from above"`, `"clockwise from above"`, "rotor.turns"},
		{`tilts = "forward"`, `tilts = "aft"`, "fore-and-aft.tilts"},
		{`  leading-edge = blade-a.le`, `  leading-edge = blade-a.horn`, "pitch-a.leading-edge"},
		{`  ball = sleeve.center`, "  square-to = [0, 1, 0.1]\n  ball = sleeve.center", "swashplate.square-to"},
		{`most = 12`, `most = 11`, `cyclic-pitch "a".most`},
		{`most-over = 280`, `most-over = 100`, `cyclic-sense "a".most-over`},
		{`[pitch-lever.top, "aft"]`, `[pitch-lever.top, "forward"]`, `cyclic-sense "a".when`},
		{`within    = 15`, `within    = 20`, `cyclic-sense "a".within`},
		{`high   = 10`, `high   = 11`, `collective-pitch "a".high`},
		{"  slide  = [0, 1]", "  pivot = [0, 0]\n  axis = [0, 1, 0]\n  slides = true", "sleeve.motion"},
	} {
		got := differing(runOf(t, text), runOf(t, changedText(t, text, c.old, c.now)))
		assert.Contains(t, got, c.changed, fmt.Sprint(c))
	}
	var names []string
	for _, j := range Joints(runOf(t, text), "Rotor head") {
		names = append(names, j.Name)
	}
	assert.Contains(t, names, "swashplate.pivot")
	assert.Contains(t, names, "scissors.joint")
	both := moving(runOf(t, text).Joints[0])
	assert.Equal(t, []string{"upper-link", "lower-link"}, []string{both[0].Name, both[1].Name})
}

// asLeftOut are attributes that in some demo say what would be so without them, so that
// to leave them out changes nothing; view and date are words for people, and exact shows
// in what a survey makes of the coordinates.
var asLeftOut = []string{"view", "date", "exact", "seen-at", "grip", "least", "at", "length"}

// TestHuntEveryAttributeCounts leaves out any line of any demo with an attribute that need
// not be there, which must show in some dimension.
func TestHuntEveryAttributeCounts(t *testing.T) {
	texts := demoTexts(t)
	var kinds []string
	for kind := range texts {
		kinds = append(kinds, kind)
	}
	slices.Sort(kinds)
	hunt.Each(t, 200, func(t *testing.T, random *rand.Rand) {
		kind := kinds[random.IntN(len(kinds))]
		lines := strings.Split(texts[kind], "\n")
		k := random.IntN(len(lines))
		attribute, _, ok := strings.Cut(strings.TrimSpace(lines[k]), " ")
		if !ok || !strings.Contains(lines[k], "=") || strings.HasPrefix(attribute, "#") || slices.Contains(asLeftOut, attribute) || !isDrawing(lines[:k+1]) {
			return
		}
		run, err := linkage.Read(&linkage.Source{Name: kind, Text: []byte(strings.Join(slices.Delete(slices.Clone(lines), k, k+1), "\n"))})
		if err == nil {
			assert.NotEmpty(t, differing(runOf(t, texts[kind]), run), "%s, line %d: %s", kind, k+1, lines[k])
		}
	})
}
