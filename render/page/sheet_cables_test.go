package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/render/internal/sample"
)

// Cables come after the rods and before the pins are out; what a gauge reads,
// let go, comes after that.
func TestSheetOfCables(t *testing.T) {
	s := sheetFor(t, "lift-cables.hcl", sample.DemoText(t, "lift-cables"))
	var titles []string
	for _, step := range s.Steps[:10] {
		titles = append(titles, step.Title)
	}
	assert.Equal(t, []string{
		"The maker's procedure at hand", "Control locks found, and taken off", "Level the aircraft", "Back off the stops", "Rig pins in", "Fit the cables, slack", "Draw the cables up, and lock them",
		"ALL PINS OUT", "Cables, all pins out", "Set the stops: primary, then secondary",
	}, titles, "there is no rod to fit")
	assert.Equal(t, []string{
		"lift-up | core crosshead.up, lever.aft; conduit mast.up, frame.aft | 186.86 mm of core outside the conduit, unloaded | [ ] | [ ]",
		"lift-down | core crosshead.down, lever.fwd; conduit mast.down, frame.fwd | 186.86 mm of core outside the conduit, unloaded | [ ] | [ ]",
	}, s.step(t, "Fit the cables").rows(), "120 N over 38 N a mm less than the 190.02 mm drawn")
	up := s.step(t, "Draw the cables up")
	assert.Equal(t, "lift-up and lift-down, the pair lift: together, by turns, until a gauge reads 120 N in each with crosshead held as drawn.", up.Says[0])
	assert.Equal(t, []string{
		"lift-up.conduit-from | M6x1 | 14.00 mm in the nuts; least 9.00 mm (1.5 diameters, common practice, no source: the maker's figure rules) | ___ | [ ] | [ ]",
		"lift-down.conduit-from | M6x1 | 14.00 mm in the nuts; least 9.00 mm (1.5 diameters, common practice, no source: the maker's figure rules) | ___ | [ ] | [ ]",
	}, up.rows())
	assert.Empty(t, up.Sources)
	let := s.step(t, "Cables, all pins out")
	assert.Equal(t, []string{"lift-up | 120 N | ___ | [ ]", "lift-down | 120 N | ___ | [ ]"}, let.rows())
	assert.Contains(t, let.Blanks, "Temperature, °C")
	assert.Contains(t, s.step(t, "Every joint").rows(), "lift-up at crosshead.up | ___ | [ ] turns [ ] doesn't turn | ___ | [ ] new cotter pin [ ] safety wire | [ ] |  | [ ]")
}

// Open cables have turnbuckles, grooves and fairleads, with the rules for these,
// and the temperature at which they were drawn up.
func TestSheetOfOpenCables(t *testing.T) {
	s := sheetFor(t, "pedals-cable.hcl", sample.DemoText(t, "pedals-cable"))
	assert.Contains(t, s.step(t, "Fit the rods").rows()[0], "pitch-link | 140.00 mm")
	fit := s.step(t, "Fit the cables")
	assert.Equal(t, "tail-left | pedals at a radius of 60.0 mm, tail-quadrant at a radius of 55.0 mm | 3150.00 mm free, of 7x19 1/8 galvanized | [ ] | [ ]", fit.rows()[0])
	assert.Contains(t, fit.Says[1], "fairleads turn it by at most 3°")
	up := s.step(t, "Draw the cables up")
	assert.Equal(t, "tail-left, turnbuckle | at most 3 threads outside, both ends engaged equally | - | ___ | - | [ ]", up.rows()[0])
	assert.Contains(t, up.Sources[0], "at most 3 threads outside: FAA AC 43.13-1B, 7-179; both ends engaged equally: 7-166.")
	assert.Contains(t, up.Sources[0], "7-149")
	assert.Contains(t, s.step(t, "Cables, all pins out").Says[1], "Predicted for 15 °C")
}

// A lone cable's spring is connected; its tension isn't known.
func TestSheetOfALoneCable(t *testing.T) {
	s := sheetFor(t, "throttle-cable.hcl", sample.DemoText(t, "throttle-cable"))
	assert.True(t, strings.HasSuffix(s.step(t, "Fit the cables").rows()[0], "| [ ] connected; returns carburetor to its plus side"))
	assert.Equal(t, []string{"throttle-cable | alone: not known | ___ | [ ]"}, s.step(t, "Cables, all pins out").rows())
}

// What floats while its cables hang slack is rocked with the rest.
func TestSheetTellsWhatFloats(t *testing.T) {
	s := sheetFor(t, "slack.hcl", sample.SlackRun)
	rows := s.step(t, "Free play").rows()
	assert.Equal(t, "horn, its cables slack (predicted 2.1° at most, with stick at -29.1°) | ___ | ___", rows[len(rows)-1])
	loose := strings.Replace(sample.SlackRun, "pretension = 25", "pretension = 0.001", 1)
	assert.Contains(t, sheetFor(t, "loose.hcl", loose).step(t, "Cables, all pins out").rows()[0], "c-up | 0 N")
}
