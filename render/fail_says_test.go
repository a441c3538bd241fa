package render

import (
	"bytes"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFailSays(t *testing.T) {
	run := sample.FailRun()
	for name, c := range sample.FailCases(run) {
		f := sample.FailuresWith(run, c.Failure)
		said := FailSays(f, &f.Cases[0])
		for _, words := range c.Says {
			assert.Contains(t, said, words, name)
		}
		assert.Equal(t, c.Short, failInShort(f, &f.Cases[0]), name)
	}
}

// A name too long for its column has a line of its own, and every line fits.
func TestFailTableOfLongNames(t *testing.T) {
	run := sample.FailRun()
	long := strings.Repeat("very-long-", 9) + "name"
	run.Rods[0].Name = long
	no := false
	f := sample.FailuresWith(run, solve.Failure{Element: solve.Element{Rod: run.Rods[0]}, How: solve.Parted, Severity: solve.Lost, OverCenter: &no, Lost: []string{long, "tilt"}})
	var out bytes.Buffer
	require.NoError(t, FailReport(&out, "file.hcl", nil, f))
	for line := range strings.Lines(out.String()) {
		assert.LessOrEqual(t, len([]rune(line)), pageWidth+1, line)
	}
	assert.Contains(t, strings.ReplaceAll(out.String(), "\n", ""), "very-long-very-long-")
}

// What a cable alone still does is told both ways, with the words of the file.
func TestFailSaysOneWay(t *testing.T) {
	run := sample.FailRun()
	no, low, high := false, -30.0, 2.9
	pair := &linkage.Cable{Name: "left"}
	f := sample.FailuresWith(run, solve.Failure{
		Element: solve.Element{Cable: &linkage.Cable{Name: "right"}}, How: solve.Parted, Severity: solve.Reduced, OverCenter: &no,
		OneWay: []solve.OneWay{{Cable: pair, Part: run.Parts[3], Control: run.Controls[0], Side: "minus", Filed: 5026.6, Left: 2513.3, Unit: "N mm/deg"}},
		Loose:  []solve.LoosePart{{Part: run.Parts[3], Unit: "deg", Low: &low, High: &high, Ends: [2]solve.End{{Stop: &linkage.Stop{Name: "low"}}}, Taut: [2]*linkage.Cable{nil, pair}}},
	})
	said := FailSays(f, &f.Cases[0])
	assert.Contains(t, said, "Cable left is left alone: it pulls crank as roll goes minus; as that goes plus (left) the cable hangs slack, and nothing brings crank along.")
	assert.Contains(t, said, "2513 N mm a degree against being moved off it (5027 N mm a degree with both), and with nothing the other way")
	assert.Contains(t, said, `crank from -30.0° (stop "low") to 2.9° (cable left comes taut)`)
}

// With the part behind cables seized, the control still gives as far as those that
// only pull let it; a core that pushes is as rigid as a rod.
func TestFailSaysWhatCablesGive(t *testing.T) {
	run := sample.FailRun()
	no, yes := false, true
	f := sample.FailuresWith(run, solve.Failure{
		Element: solve.Element{Part: run.Parts[3]}, How: solve.Seized, Severity: solve.Dangerous, OverCenter: &no,
		Controls: []solve.ControlLeft{{Control: run.Controls[0], Locked: &yes, Would: 12, WouldUnit: "deg"}},
	})
	gives := "as far as they stretch or hang slack"
	assert.NotContains(t, FailSays(f, &f.Cases[0]), gives)
	run.Cables = []*linkage.Cable{{Name: "core", Pushes: true}}
	assert.NotContains(t, FailSays(f, &f.Cases[0]), gives)
	run.Cables = append(run.Cables, &linkage.Cable{Name: "left"})
	assert.Contains(t, FailSays(f, &f.Cases[0]), gives)
	assert.EqualValues(t, "in-lbf a degree", figure.RatioUnit("lbf in/deg"))
	assert.Equal(t, "77.9 in-lbf a degree", stiffness(77.93, "lbf in/deg"))
	assert.Equal(t, "156 lbf an inch", stiffness(155.8, "lbf/in"))
}
