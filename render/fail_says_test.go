package render

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// failRun is what the cases below are about: two controls, an output of each.
func failRun() *linkage.Run {
	run := &linkage.Run{Name: "Run", Units: linkage.Millimeters}
	for i, name := range []string{"stick", "far-stick", "lever", "crank"} {
		run.Parts = append(run.Parts, &linkage.Part{Name: name, Index: i, Motion: linkage.Turns})
	}
	run.Controls = []*linkage.Control{{Name: "roll", Of: run.Parts[0], Plus: "left"}, {Name: "lift", Of: run.Parts[2], Index: 1}}
	run.Outputs = []*linkage.Output{{Name: "tilt", Part: run.Parts[3]}}
	run.Rods = []*linkage.Rod{{Name: "link", From: linkage.PointRef{Part: run.Parts[0]}, To: linkage.PointRef{Part: run.Parts[3]}}}
	return run
}

func failuresWith(run *linkage.Run, c solve.Failure) *solve.Failures {
	return &solve.Failures{
		Run: run, Cases: []solve.Failure{c},
		Hands: [][]*linkage.Part{{run.Parts[0], run.Parts[1]}, {run.Parts[2]}},
	}
}

func TestFailSays(t *testing.T) {
	run := failRun()
	yes, no := true, false
	left := func(locked *bool, would float64) []solve.ControlLeft {
		return []solve.ControlLeft{
			{Control: run.Controls[0], Unit: "deg", Locked: locked, Would: would, WouldUnit: "deg"},
			{Control: run.Controls[1], Unit: "deg", Locked: &no},
		}
	}
	tilt := solve.Reach{Control: run.Controls[0], Name: "tilt", Unit: "deg", Output: run.Outputs[0], Own: true, Filed: [2]float64{-20, 20}, Left: [2]float64{-20, 19.9}, Follows: true, Share: 0.9975}
	backwards := tilt
	backwards.Reversed = true
	for name, c := range map[string]struct {
		failure solve.Failure
		says    []string
		short   string
	}{
		"nothing to tell": {
			solve.Failure{Element: solve.Element{Stop: &linkage.Stop{Name: "low"}}, How: solve.Parted, Trouble: "as it is left, it doesn't close"},
			[]string{"Can't be told: as it is left, it doesn't close."}, "can't be told",
		},
		"only beyond what is explored": {
			solve.Failure{
				Element: solve.Element{Stop: &linkage.Stop{Name: "low"}}, How: solve.Parted, Severity: solve.Dangerous, Controls: left(&no, 0), OverCenter: &yes,
				OnCenter: []solve.OnCenter{{Control: run.Controls[0], Critical: solve.Critical{Kind: solve.Toggle, At: 90, Part: run.Parts[3]}, Beyond: true}},
			},
			[]string{"roll can now run on center at 90.0° (left): crank locks up there (toggle). That is beyond what the file explores; nothing in the file is in the way to it."},
			"roll can go over center beyond what is explored, nothing in the way",
		},
		"over center where it is explored": {
			solve.Failure{
				Element: solve.Element{Stop: &linkage.Stop{Name: "low"}}, How: solve.Parted, Severity: solve.Dangerous, Controls: left(&no, 0), OverCenter: &yes,
				OnCenter: []solve.OnCenter{{Control: run.Controls[0], Critical: solve.Critical{Kind: solve.DeadCenter, At: 30, Part: run.Parts[3]}}},
			},
			[]string{"roll can now run on center at 30.0° (left): crank halts and reverses there (dead center)."},
			"roll can go over center",
		},
		"a jam": {
			solve.Failure{Element: solve.Element{Part: run.Parts[3]}, How: solve.Seized, Severity: solve.Dangerous, Controls: left(&yes, 12), Takes: run.Parts[:2], TakesAll: &no, OverCenter: &no},
			[]string{"Locks roll: it would have to turn by up to 12.0°. One jam takes both: stick and far-stick."}, "jams roll",
		},
		"a jam of one seat": {
			solve.Failure{Element: solve.Element{Part: run.Parts[3]}, How: solve.Seized, Severity: solve.Dangerous, Controls: left(&yes, 12), Takes: run.Parts[:1], TakesAll: &no, OverCenter: &no},
			[]string{"One jam takes stick, and not the others."}, "jams roll",
		},
		"hardly a jam": {
			solve.Failure{Element: solve.Element{Rod: run.Rods[0], End: "to"}, How: solve.Seized, Severity: solve.Dangerous, Controls: left(&yes, 0.03), OverCenter: &no},
			[]string{"the rod would have to turn by up to 0.030° against crank", "play and flex"}, "jams roll",
		},
		"no telling whether it jams": {
			solve.Failure{Element: solve.Element{Part: run.Parts[3]}, How: solve.Seized, Controls: left(nil, 1e-8), OverCenter: &no},
			[]string{"Whether roll is locked can't be told"}, "can't be told",
		},
		"backwards": {
			solve.Failure{Element: solve.Element{Rod: run.Rods[0]}, How: solve.Parted, Severity: solve.Dangerous, Controls: left(&no, 0), Reaches: []solve.Reach{backwards}, OverCenter: &no},
			[]string{"Reversed: tilt.", "tilt from -20.0° to 19.9° (as filed -20.0° to 20.0°: 99.8% of it)"}, "reverses tilt",
		},
		"a little less": {
			solve.Failure{Element: solve.Element{Rod: run.Rods[0]}, How: solve.Parted, Severity: solve.Reduced, Controls: left(&no, 0), Reaches: []solve.Reach{tilt}, OverCenter: &no},
			[]string{"99.8% of it"}, "tilt reaches 99.8%",
		},
	} {
		f := failuresWith(run, c.failure)
		said := failSays(f, &f.Cases[0])
		for _, words := range c.says {
			assert.Contains(t, said, words, name)
		}
		assert.Equal(t, c.short, failInShort(f, &f.Cases[0]), name)

		var out bytes.Buffer
		require.NoError(t, FailJSON(&out, f))
		var told struct{ Cases []map[string]any }
		require.NoError(t, json.Unmarshal(out.Bytes(), &told))
		assert.Equal(t, c.failure.Severity == solve.NotKnown, told.Cases[0]["severity"] == nil, name)
		assert.Equal(t, c.failure.OverCenter == nil, told.Cases[0]["over_center"] == nil, name)
		assert.Equal(t, said, told.Cases[0]["says"], name)
		for _, key := range []string{"loose", "follows", "lost", "controls", "reaches", "ranges", "one_way"} {
			assert.NotNil(t, told.Cases[0][key], "%s: %s is a list", name, key)
		}
	}
}

// A name too long for its column has a line of its own, and every line fits.
func TestFailTableOfLongNames(t *testing.T) {
	run := failRun()
	long := strings.Repeat("very-long-", 9) + "name"
	run.Rods[0].Name = long
	no := false
	f := failuresWith(run, solve.Failure{Element: solve.Element{Rod: run.Rods[0]}, How: solve.Parted, Severity: solve.Lost, OverCenter: &no, Lost: []string{long, "tilt"}})
	var out bytes.Buffer
	require.NoError(t, FailReport(&out, "file.hcl", nil, f))
	for line := range strings.Lines(out.String()) {
		assert.LessOrEqual(t, len([]rune(line)), pageWidth+1, line)
	}
	assert.Contains(t, strings.ReplaceAll(out.String(), "\n", ""), "very-long-very-long-")
}

// What a cable alone still does is told both ways, with the words of the file.
func TestFailSaysOneWay(t *testing.T) {
	run := failRun()
	no, low, high := false, -30.0, 2.9
	pair := &linkage.Cable{Name: "left"}
	f := failuresWith(run, solve.Failure{
		Element: solve.Element{Cable: &linkage.Cable{Name: "right"}}, How: solve.Parted, Severity: solve.Reduced, OverCenter: &no,
		OneWay: []solve.OneWay{{Cable: pair, Part: run.Parts[3], Control: run.Controls[0], Side: "minus", Filed: 5026.6, Left: 2513.3, Unit: "N mm/deg"}},
		Loose:  []solve.LoosePart{{Part: run.Parts[3], Unit: "deg", Low: &low, High: &high, Ends: [2]solve.End{{Stop: &linkage.Stop{Name: "low"}}}, Taut: [2]*linkage.Cable{nil, pair}}},
	})
	said := failSays(f, &f.Cases[0])
	assert.Contains(t, said, "Cable left is left alone: it pulls crank as roll goes minus; as that goes plus (left) the cable hangs slack, and nothing brings crank along.")
	assert.Contains(t, said, "2513 N mm a degree against being moved off it (5027 N mm a degree with both), and with nothing the other way")
	assert.Contains(t, said, `crank from -30.0° (stop "low") to 2.9° (cable left comes taut)`)
}

// With the part behind cables seized, the control still gives as far as those that
// only pull let it; a core that pushes is as rigid as a rod.
func TestFailSaysWhatCablesGive(t *testing.T) {
	run := failRun()
	no, yes := false, true
	f := failuresWith(run, solve.Failure{
		Element: solve.Element{Part: run.Parts[3]}, How: solve.Seized, Severity: solve.Dangerous, OverCenter: &no,
		Controls: []solve.ControlLeft{{Control: run.Controls[0], Locked: &yes, Would: 12, WouldUnit: "deg"}},
	})
	gives := "as far as they stretch or hang slack"
	assert.NotContains(t, failSays(f, &f.Cases[0]), gives)
	run.Cables = []*linkage.Cable{{Name: "core", Pushes: true}}
	assert.NotContains(t, failSays(f, &f.Cases[0]), gives)
	run.Cables = append(run.Cables, &linkage.Cable{Name: "left"})
	assert.Contains(t, failSays(f, &f.Cases[0]), gives)
	assert.Equal(t, "in-lbf a degree", figure.RatioUnit("lbf in/deg"))
	assert.Equal(t, "77.9 in-lbf a degree", stiffness(77.93, "lbf in/deg"))
	assert.Equal(t, "156 lbf an inch", stiffness(155.8, "lbf/in"))
}
