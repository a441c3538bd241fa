package solve_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// woundPair is two quadrants of 60 joined by two cables of 40 N per mm drawn up
// to 120 N: what a turns one way b turns the other. tail hangs on b by a rod that
// keeps it parallel.
const woundPair = `run "Quadrants" {
  units = "mm"
}
part "a" {
  pivot = [0, 0]
}
part "b" {
  pivot  = [900, 0]
  points = { horn = [900, 80] }
}
part "rudder" {
  pivot  = [1200, 0]
  points = { horn = [1200, 80] }
}
rod "tail-rod" {
  from = b.horn
  to   = rudder.horn
}
cable "left" {
  from      = a
  to        = b
  radius    = [60, 60]
  winds     = ["up", "up"]
  stiffness = 40
}
cable "right" {
  from      = a
  to        = b
  radius    = [60, 60]
  winds     = ["down", "down"]
  stiffness = 40
}
pair "both" {
  cables     = [left, right]
  pretension = 120
}
control "pedals" {
  of   = a
  from = -50
  to   = 50
}
output "tail" {
  of = rudder
}
stop "a-low" {
  of = a
  at = -20
}
stop "a-high" {
  of = a
  at = 20
}
stop "b-low" {
  of = b
  at = -30
}
stop "b-high" {
  of = b
  at = 35
}
`

// TestFailQuadrants: a cable left of a pair pulls one way, from where it lies
// unloaded, 3 mm short on 60: what closed forms say.
func TestFailQuadrants(t *testing.T) {
	f := failuresOf(t, woundPair)
	slack := deg(120.0 / 40 / 60)
	for _, k := range []struct {
		gone, left, side string
		way              float64 // b goes so as the cable pulls
		stop             float64
	}{{"right", "left", "plus", -1, -30}, {"left", "right", "minus", 1, 35}} {
		c := caseOf(t, f, "cable "+k.gone, solve.Parted)
		require.Empty(t, c.Trouble)
		require.Equal(t, solve.Reduced, c.Severity, k.gone)
		require.Empty(t, c.Lost)
		require.False(t, *c.OverCenter)
		require.Equal(t, [2]float64{-20, 20}, c.Controls[0].Left)

		require.Len(t, c.OneWay, 1)
		one := c.OneWay[0]
		require.Equal(t, k.left, one.Cable.Name)
		require.Equal(t, "b", one.Part.Name)
		require.Equal(t, k.side, one.Side)
		require.EqualValues(t, "N mm/deg", one.Unit)
		near(t, rad(2*40*60*60), one.Filed, 1e-9, "both by their arms squared")
		near(t, rad(40*60*60), one.Left, 1e-9, "one")

		// It is drawn back by the slack, and from there pulled by what a turns.
		least, most := k.way*slack, k.way*(slack+20)
		if least > most {
			least, most = most, least
		}
		for _, name := range []string{"b", "rudder", "tail"} {
			r := reachOf(t, c, "pedals", name)
			require.True(t, r.Follows, name)
			nearf(t, least, r.Left[0], 1e-9, "%s without %s", name, k.gone)
			nearf(t, most, r.Left[1], 1e-9, "%s without %s", name, k.gone)
			nearf(t, (20-slack)/40, r.Share, 1e-9, "%s: half of it, less the slack", name)
		}

		require.Equal(t, []string{"b", "rudder"}, looseNames(c))
		for i, l := range c.Loose {
			require.Equal(t, solve.Ranged, l.Why)
			ends := []*float64{l.Low, l.High}
			own, other := 1, 0
			if k.way > 0 {
				own, other = 0, 1
			}
			require.Equal(t, k.left, l.Taut[own].Name)
			require.Nil(t, l.Taut[other])
			nearAtf(t, k.way*slack, ends[own], 1e-9, "%d where the cable comes taut", i)
			nearAtf(t, k.stop, ends[other], 1e-9, "%d to the stop", i)
			require.NotNil(t, l.Ends[other].Stop)
		}
	}
	for _, c := range f.Cases {
		require.False(t, c.Element.Cable != nil && c.How == solve.Seized, "an open cable is in no conduit")
	}
	bolt := caseOf(t, f, "pivot of b", solve.Parted)
	require.Equal(t, solve.Lost, bolt.Severity)
	require.Equal(t, []string{"b", "rudder"}, looseNames(bolt))
	require.Empty(t, bolt.OneWay)
	rod := caseOf(t, f, "rod tail-rod", solve.Parted)
	require.Equal(t, []string{"pedals", "tail"}, rod.Lost)
	require.Equal(t, []string{"rudder"}, looseNames(rod))
	require.Equal(t, solve.Dangerous, caseOf(t, f, "part b", solve.Seized).Severity)
}

// TestFailOneWayOverCenter: on the side on which the cable doesn't pull, what
// stopped the run through it stops it no more.
func TestFailOneWayOverCenter(t *testing.T) {
	text := replaceOnce(t, woundPair, "stop \"a-low\" {\n  of = a\n  at = -20\n}\n", "")
	f := failuresOf(t, text)
	filed := caseOf(t, f, "cable right", solve.Parted).Controls[0]
	require.InDelta(t, -35, filed.Filed[0], 1e-9, "b's own stop")
	require.Equal(t, [2]float64{-50, 20}, filed.Left)
}

// conduits are a crosshead and a lever, joined by two cables in conduits, and by
// a push-pull core to a third part.
func conduits(more string) string {
	return `run "Conduits" {
  units = "mm"
}
fixed "mast" {
  points = { up = [-300, 60], down = [-300, -60], far-up = [1300, 60], far-down = [1300, -60] }
}
part "crosshead" {
  pivot  = [0, 0]
  points = { up = [0, 60], down = [0, -60] }
}
part "lever" {
  pivot  = [1000, 0]
  points = { up = [1000, 60], down = [1000, -60] }
}
control "collective" {
  of   = crosshead
  from = -40
  to   = 40
}
output "lift" {
  of = lever
}
stop "low" {
  of = crosshead
  at = -20
}
stop "high" {
  of = crosshead
  at = 20
}
stop "lever-low" {
  of = lever
  at = -30
}
stop "lever-high" {
  of = lever
  at = 30
}
` + more
}

func conduit(name, more string) string {
	return fmt.Sprintf("cable %q {\n  from = crosshead.%s\n  to = lever.%s\n  conduit = [mast.%s, mast.far-%s]\n%s}\n", name, name, name, name, name, more)
}

// conduitPair is both of them drawn up against each other.
var conduitPair = conduits(conduit("up", "  stiffness = 38\n") + conduit("down", "  stiffness = 38\n") + "pair \"both\" {\n  cables = [up, down]\n  pretension = 76\n}\n")

// TestFailConduits: a conduit pair does the same, and a core that seizes locks
// both parts: it would have to go through its conduit.
func TestFailConduits(t *testing.T) {
	f := failuresOf(t, conduitPair)
	c := caseOf(t, f, "cable down", solve.Parted)
	require.Equal(t, solve.Reduced, c.Severity)
	require.Len(t, c.OneWay, 1)
	// Pulled, the core of "up" is drawn to the left at the crosshead, which turns
	// it clockwise off, and off its own conduit, to the right, at the lever.
	near(t, rad(2*38*60*60), c.OneWay[0].Filed, rad(2*38*60*60)*2e-2, "square to their arms")
	near(t, rad(38*60*60), c.OneWay[0].Left, rad(38*60*60)*2e-2, "square to its arm")
	r := reachOf(t, c, "collective", "lift")
	require.True(t, r.Follows)
	require.InDelta(t, 0.5, r.Share, 0.1)
	require.Len(t, c.Loose, 1)

	for _, name := range []string{"up", "down"} {
		c := caseOf(t, f, "cable "+name, solve.Seized)
		require.Equal(t, solve.Dangerous, c.Severity)
		require.True(t, *c.Controls[0].Locked)
		require.EqualValues(t, "mm", c.Controls[0].WouldUnit)
		require.InDelta(t, 60*0.342, c.Controls[0].Would, 1.5, "about 60 sin 20")
	}
}

// TestFailLoneCables: a push-pull core that parts leaves what it drives free
// between its stops; one with a spring leaves it to the spring.
func TestFailLoneCables(t *testing.T) {
	f := failuresOf(t, conduits(conduit("up", "  pushes = true\n")))
	c := caseOf(t, f, "cable up", solve.Parted)
	require.Equal(t, solve.Lost, c.Severity)
	require.Equal(t, []string{"collective", "lift"}, c.Lost)
	require.Empty(t, c.Loose[0].Spring)
	nearAt(t, -30, c.Loose[0].Low, 0, "its stop")
	nearAt(t, 30, c.Loose[0].High, 0, "its stop")

	side := "plus"
	text := conduits(conduit("up", "  spring = \"plus\"\n"))
	if _, err := solve.Compile(read(t, text)); err != nil {
		side = "minus"
		text = conduits(conduit("up", "  spring = \"minus\"\n"))
	}
	c = caseOf(t, failuresOf(t, text), "cable up", solve.Parted)
	require.Equal(t, solve.Lost, c.Severity)
	require.Equal(t, side, c.Loose[0].Spring)
}

// TestFailConduitOnAPart: where a part goes that holds one conduit of a pair,
// the other cable is left alone.
func TestFailConduitOnAPart(t *testing.T) {
	text := conduitPair +
		"part \"bracket\" {\n  pivot = [-400, 60]\n  points = { mouth = [-300, 60], arm = [-400, 100] }\n}\nrod \"stay\" {\n  from = bracket.arm\n  to = mast.down\n}\n"
	text = replaceOnce(t, text, "conduit = [mast.up,", "conduit = [bracket.mouth,")
	f := failuresOf(t, text)
	whole := caseOf(t, f, "cable up", solve.Parted)
	c := caseOf(t, f, "pivot of bracket", solve.Parted)
	require.Equal(t, whole.OneWay[0].Cable, c.OneWay[0].Cable)
	require.Equal(t, whole.OneWay[0].Side, c.OneWay[0].Side)
	require.Equal(t, whole.Severity, c.Severity)
	require.Equal(t, reachOf(t, whole, "collective", "lift").Left, reachOf(t, c, "collective", "lift").Left)
}
