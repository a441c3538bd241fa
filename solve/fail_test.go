package solve_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// failuresOf tells what is left of a run when each element goes.
func failuresOf(t testing.TB, text string) *solve.Failures {
	t.Helper()
	m, err := solve.Compile(read(t, text))
	require.NoError(t, err, "%s", text)
	f, err := m.Failures(nil)
	require.NoError(t, err, "%s", text)
	allFinite(t.(*testing.T), reflect.ValueOf(f.Cases), "cases")
	return f
}

// failuresKnown are those of texts that several tests ask for; none changes them.
var failuresKnown = map[string]*solve.Failures{}

// failuresOnce is failuresOf, computed once for each text.
func failuresOnce(t testing.TB, text string) *solve.Failures {
	t.Helper()
	if failuresKnown[text] == nil {
		failuresKnown[text] = failuresOf(t, text)
	}
	return failuresKnown[text]
}

// elementOf names an element as the issue does.
func elementOf(e solve.Element) string {
	switch {
	case e.Rod != nil && e.End != "":
		return "rod end " + e.Rod.Name + "." + e.End
	case e.Rod != nil:
		return "rod " + e.Rod.Name
	case e.Cable != nil:
		return "cable " + e.Cable.Name
	case e.Joint != nil:
		return "joint " + e.Joint.Name
	case e.Pivot != nil:
		return "pivot of " + e.Pivot.Name
	case e.Stop != nil:
		return "stop " + e.Stop.Name
	}
	return "part " + e.Part.Name
}

func caseOf(t testing.TB, f *solve.Failures, element string, how solve.How) *solve.Failure {
	t.Helper()
	for i := range f.Cases {
		if c := &f.Cases[i]; elementOf(c.Element) == element && c.How == how {
			return c
		}
	}
	require.FailNow(t, "no such case", "%s %s", element, how)
	return nil
}

func looseNames(c *solve.Failure) (names []string) {
	for _, l := range c.Loose {
		names = append(names, l.Part.Name)
	}
	return names
}

func reachOf(t testing.TB, c *solve.Failure, control, name string) solve.Reach {
	t.Helper()
	for _, r := range c.Reaches {
		if r.Control.Name == control && r.Name == name {
			return r
		}
	}
	require.FailNow(t, "nothing of that name followed", "%s with %s", name, control)
	return solve.Reach{}
}

// bars are two levers of 60, upright on pivots 200 apart, joined at their tops
// by a rod of 200: they turn as one from -90 to 90, where all is in line. rest
// is added to the file.
func bars(rest ...string) string {
	return `run "Bars" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { top = [0, 60], low = [0, -60], mid = [0, 30] }
}
part "crank" {
  pivot  = [200, 0]
  points = { top = [200, 60], low = [200, -60] }
}
rod "link" {
  from = lever.top
  to   = crank.top
}
control "hand" {
  of   = lever
  from = -40
  to   = 40
}
output "tail" {
  of = crank
}
stop "low" {
  of = lever
  at = -24
}
stop "high" {
  of = lever
  at = 24
}
` + strings.Join(rest, "")
}

func second(from, to, more string) string {
	return "rod \"second\" {\n  from = " + from + "\n  to = " + to + "\n  second-path = true\n" + more + "}\n"
}

// TestFailBars: every element of a run that can be reckoned by hand.
func TestFailBars(t *testing.T) {
	f := failuresOf(t, bars("stop \"far-low\" {\n  of = crank\n  at = -50\n}\nstop \"far-high\" {\n  of = crank\n  at = 30\n}\n"))
	require.Len(t, f.Cases, 1+2+4+2+2)
	require.Empty(t, f.OnCenter)
	require.Empty(t, f.Shared)
	for _, c := range f.Cases {
		require.Nil(t, c.Trouble, elementOf(c.Element))
		require.NotNil(t, c.OverCenter, elementOf(c.Element))
	}

	link := caseOf(t, f, "rod link", solve.Parted)
	require.Equal(t, solve.Lost, link.Severity)
	require.Equal(t, []string{"hand", "tail"}, link.Lost)
	require.Equal(t, []string{"crank"}, looseNames(link))
	require.Equal(t, solve.Ranged, link.Loose[0].Why)
	nearAt(t, -50, link.Loose[0].Low, 0, "as the stop's number")
	nearAt(t, 30, link.Loose[0].High, 0, "as the stop's number")
	require.Equal(t, "far-low", link.Loose[0].Ends[0].Stop.Name)
	require.False(t, *link.OverCenter)
	require.Equal(t, [2]float64{-24, 24}, link.Controls[0].Left)
	require.False(t, reachOf(t, link, "hand", "crank").Follows)
	require.True(t, reachOf(t, link, "hand", "lever").Follows)

	bolt := caseOf(t, f, "pivot of crank", solve.Parted)
	require.Equal(t, solve.Lost, bolt.Severity)
	require.Equal(t, solve.Unbolted, bolt.Loose[0].Why)
	require.Nil(t, bolt.Loose[0].Low)
	own := caseOf(t, f, "pivot of lever", solve.Parted)
	require.True(t, own.Controls[0].Gone)
	require.Equal(t, []string{"lever", "crank"}, looseNames(own))
	nearAt(t, 30, own.Loose[1].High, 0, "the crank keeps its stops")

	high := caseOf(t, f, "stop high", solve.Parted)
	require.Equal(t, solve.NoEffect, high.Severity, "the crank's own stop is there")
	near(t, 30, high.Controls[0].Left[1], exact, "to it")
	require.Equal(t, "far-high", high.Controls[0].Ends[1].Stop.Name)
	near(t, 30, reachOf(t, high, "hand", "tail").Left[1], exact, "what follows")
	low := caseOf(t, f, "stop low", solve.Parted)
	require.Equal(t, solve.NoEffect, low.Severity)
	require.Equal(t, [2]float64{-40, 24}, low.Controls[0].Left, "no farther than is explored")
	require.Equal(t, solve.NoEffect, caseOf(t, f, "stop far-low", solve.Parted).Severity)

	for _, name := range []string{"part lever", "part crank", "rod end link.from", "rod end link.to"} {
		c := caseOf(t, f, name, solve.Seized)
		require.Equal(t, solve.Dangerous, c.Severity, name)
		require.True(t, *c.Controls[0].Locked, name)
		nearf(t, 24, c.Controls[0].Would, 1e-9, "%s: the levers turn by 24 and the link not at all", name)
		require.EqualValues(t, "deg", c.Controls[0].WouldUnit)
		require.Equal(t, []string{"hand", "tail"}, c.Lost, name)
		require.Nil(t, c.TakesAll, "there is one part under a hand")
	}
}

// TestFailRunsOverCenter: without its stop the parallelogram goes on to where it
// is flat, at 90, where its travel then ends on center, whether the file explores as
// far or not: nothing is in the way to it.
func TestFailRunsOverCenter(t *testing.T) {
	for _, explored := range []struct {
		to     string
		beyond bool
	}{{"40", true}, {"120", false}} {
		text := replaceOnce(t, bars(), "to   = 40", "to   = "+explored.to)
		c := caseOf(t, failuresOf(t, text), "stop high", solve.Parted)
		require.True(t, *c.OverCenter)
		require.Equal(t, solve.Dangerous, c.Severity)
		require.Len(t, c.OnCenter, 1)
		require.Equal(t, explored.beyond, c.OnCenter[0].Beyond)
		require.Equal(t, solve.ChangePoint, c.OnCenter[0].Kind)
		near(t, 90, c.OnCenter[0].At, 1e-6, "flat")
		require.Equal(t, "crank", c.OnCenter[0].Part.Name)
	}
	stopped := replaceOnce(t, bars(), "at = -24", "at = -30") + "stop \"behind\" {\n  of = crank\n  at = 60\n}\n"
	c := caseOf(t, failuresOf(t, stopped), "stop high", solve.Parted)
	require.Empty(t, c.OnCenter, "another stop lies beyond what is explored, before it is flat")
	require.Equal(t, [2]float64{-30, 40}, c.Controls[0].Left)
}

// TestFailOnCenterAsFiled: a side of the travel that ends on center already isn't
// newly over center, whatever part ends it; the other side is judged by itself.
func TestFailOnCenterAsFiled(t *testing.T) {
	text := replaceOnce(t, bars(), "to   = 40", "to   = 120")
	text = replaceOnce(t, text, "stop \"high\" {\n  of = lever\n  at = 24\n}\n", "")
	f := failuresOf(t, text)
	require.Len(t, f.OnCenter, 1)
	require.Equal(t, "crank", f.OnCenter[0].Part.Name)
	c := caseOf(t, f, "rod link", solve.Parted)
	require.False(t, *c.OverCenter)
	require.Equal(t, solve.Lost, c.Severity)

	// A second crank behind, on a rod too short to go as far: without it the first
	// one ends the travel, on the same side.
	text = replaceOnce(t, text, "from = -40", "from = -120")
	chain := text + "part \"far\" {\n  pivot  = [400, 0]\n  points = { top = [400, 45] }\n}\nrod \"far-link\" {\n  from = crank.top\n  to   = far.top\n}\n"
	f = failuresOf(t, chain)
	require.Equal(t, "far", f.OnCenter[0].Part.Name)
	c = caseOf(t, f, "rod far-link", solve.Parted)
	require.Equal(t, solve.ByChangePoint, c.Controls[0].Ends[1].Cause)
	require.Equal(t, "crank", c.Controls[0].Ends[1].Part.Name, "another part")
	require.False(t, *c.OverCenter, "and the same side")
	c = caseOf(t, f, "stop low", solve.Parted)
	require.True(t, *c.OverCenter, "the other side")
	require.Len(t, c.OnCenter, 1)
	require.Less(t, c.OnCenter[0].At, -24.0)
	require.Equal(t, solve.Dangerous, c.Severity)
}

// TestFailSecondPath: a second path beside the first carries the crank as far,
// and by hand it then moves each way by the play over the arm; one on shorter
// arms carries it less far; one that is crossed carries it the other way.
func TestFailSecondPath(t *testing.T) {
	f := failuresOf(t, bars(second("lever.low", "crank.low", "  play = 0.5\n")))
	c := caseOf(t, f, "rod link", solve.Parted)
	require.Equal(t, solve.NoEffect, c.Severity)
	require.Empty(t, c.Lost)
	require.Empty(t, c.Loose)
	require.Len(t, c.Carried, 1)
	require.Equal(t, "second", c.Carried[0].Rod.Name)
	require.Equal(t, []string{"second"}, []string{c.Undoubled[0].Name})
	require.Len(t, c.Carried[0].Slack, 2)
	for _, s := range c.Carried[0].Slack {
		nearf(t, deg(0.5/60), s.Most, exact, "%s, by the play over the arm", s.Name)
	}
	r := reachOf(t, c, "hand", "tail")
	near(t, -24, r.Left[0], exact, "as far")
	near(t, 24, r.Left[1], exact, "as far")
	near(t, 1, r.Share, exact, "all of it")

	gone := caseOf(t, f, "rod second", solve.Parted)
	require.Equal(t, solve.NoEffect, gone.Severity)
	require.Empty(t, gone.Carried)
	require.Len(t, gone.Undoubled, 1)
	require.Equal(t, solve.Dangerous, caseOf(t, f, "rod end second.to", solve.Seized).Severity, "a second path jams it as the first does")
	require.Equal(t, []string{"tail"}, []string{f.Shared[0].To})
	require.Len(t, f.Shared[0].Parts, 2)
	require.Equal(t, []string{"tail"}, caseOf(t, f, "part crank", solve.Seized).Shares)

	half := caseOf(t, failuresOf(t, bars(second("lever.mid", "crank.low", ""))), "rod link", solve.Parted)
	require.Equal(t, solve.Dangerous, half.Severity)
	require.True(t, reachOf(t, half, "hand", "tail").Reversed, "from above its pivot to below: the other way")

	c = caseOf(t, failuresOf(t, bars(second("lever.mid", "crank.top", ""))), "rod link", solve.Parted)
	require.Equal(t, solve.Reduced, c.Severity)
	r = reachOf(t, c, "hand", "tail")
	require.False(t, r.Reversed)
	require.InDelta(t, 0.5, r.Share, 0.05, "arms of 30 and 60")
	require.Empty(t, c.Lost)
}

// TestFailPedalsDual: what the doubling of the demo is for, and where it is none.
func TestFailPedalsDual(t *testing.T) {
	f := failuresOf(t, demoText(t, "pedals-dual"))
	shared := map[string][]string{}
	for _, path := range f.Shared {
		for _, p := range path.Parts {
			shared[path.To] = append(shared[path.To], p.Name)
		}
	}
	require.Equal(t, map[string][]string{
		"right-tube": {"left-tube", "right-tube"},
		"tail-run":   {"left-tube", "rocker"},
	}, shared)
	for _, name := range []string{"left-link", "right-link", "far-left-link", "far-right-link"} {
		c := caseOf(t, f, "rod "+name, solve.Parted)
		require.Equal(t, solve.NoEffect, c.Severity, name)
		require.Empty(t, c.Lost, name)
		require.Empty(t, c.Loose, name)
		require.Equal(t, "far-right-link", c.Undoubled[0].Name, name)
		require.Equal(t, name != "far-right-link", len(c.Carried) == 1, name)
	}
	for _, c := range f.Cases {
		if c.How == solve.Seized {
			require.True(t, *c.TakesAll, "one jam takes both seats: %s", elementOf(c.Element))
			require.Equal(t, solve.Dangerous, c.Severity)
		}
	}
}

// TestFailTwoSecondPaths: of two that could take over one does; the other still
// only goes along.
func TestFailTwoSecondPaths(t *testing.T) {
	text := bars(second("lever.low", "crank.low", ""), strings.Replace(second("lever.mid", "crank.top", ""), "second", "third", 1))
	c := caseOf(t, failuresOf(t, text), "rod link", solve.Parted)
	require.Len(t, c.Carried, 1, "one is enough")
	require.Equal(t, "second", c.Carried[0].Rod.Name, "the first of the file")
	require.Empty(t, c.Carried[0].Slack)
}

// TestFailHands: a part that opposite ties to the control is under a foot: it is
// lost with its rod, though no output is.
func TestFailHands(t *testing.T) {
	f := failuresOf(t, demoText(t, "pedals"))
	c := caseOf(t, f, "rod right-link", solve.Parted)
	require.Equal(t, []string{"right-pedal"}, c.Lost)
	require.Equal(t, []string{"right-pedal"}, looseNames(c))
	require.True(t, reachOf(t, c, "pedals", "tail-run").Follows)
	require.Len(t, f.Hands, 1)
	require.Len(t, f.Hands[0], 2)
}

// TestFailTwoControls: what only one of two controls moves locks that one.
func TestFailTwoControls(t *testing.T) {
	f := failuresOf(t, demoText(t, "mixer"))
	locked := func(name string) (list []bool) {
		for _, k := range caseOf(t, f, name, solve.Seized).Controls {
			list = append(list, *k.Locked)
		}
		return list
	}
	require.Equal(t, []bool{true, false}, locked("part collective-arm"))
	require.Equal(t, []bool{false, true}, locked("part cyclic-lever"))
	require.Equal(t, []bool{true, true}, locked("part mixing-lever"))
	require.Equal(t, []bool{true, true}, locked("part ring"))
	c := caseOf(t, f, "part cyclic-lever", solve.Seized)
	require.Equal(t, []string{"cyclic", "tilt"}, c.Lost)
	require.True(t, reachOf(t, c, "collective", "height").Follows)
}

// TestFailOrder: worst first, then elements in the order of the file.
func TestFailOrder(t *testing.T) {
	for _, name := range demoNames(t) {
		f := failuresOnce(t, plain(demoText(t, name)))
		require.True(t, slices.IsSortedFunc(f.Cases, func(a, b solve.Failure) int { return int(a.Severity - b.Severity) }), name)
		rank := func(c *solve.Failure) []int {
			switch e := c.Element; {
			case e.Rod != nil && e.End == "":
				return []int{0, e.Rod.Index, 0}
			case e.Joint != nil:
				return []int{1, e.Joint.Index, 0}
			case e.Pivot != nil:
				return []int{2, e.Pivot.Index, 0}
			case e.Stop != nil:
				return []int{3, e.Stop.Index, 0}
			case e.Part != nil:
				return []int{4, e.Part.Index, 0}
			case e.Rod != nil:
				return []int{5, e.Rod.Index, -len(e.End)}
			}
			return []int{6}
		}
		for i := range f.Cases[1:] {
			a, b := &f.Cases[i], &f.Cases[i+1]
			if a.Severity == b.Severity && a.Element.Cable == nil && b.Element.Cable == nil {
				require.Negative(t, slices.Compare(rank(a), rank(b)), "%s: %s before %s", name, elementOf(a.Element), elementOf(b.Element))
			}
		}
	}
}

// TestFailLeavesTheRunAlone: nothing of the run is changed.
func TestFailLeavesTheRunAlone(t *testing.T) {
	text := demoText(t, "pedals-dual")
	run, again := read(t, text), read(t, text)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	calls := 0
	_, err = m.Failures(func(done, of int) {
		require.Equal(t, calls, done)
		require.Equal(t, 22, of)
		calls++
	})
	require.NoError(t, err)
	require.Equal(t, 22, calls)
	again.Source, run.Source = nil, nil
	require.True(t, reflect.DeepEqual(again, run))
}
