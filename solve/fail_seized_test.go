package solve_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// TestFailSeizedAgainstWhatMoves: a control is locked by what would have to turn
// or slide in its own bearing anywhere in its travel, as the places of three
// points drawn on it and on its carrier show; and by a rod end where the rod's
// direction changes as seen from what it is bolted to.
func TestFailSeizedAgainstWhatMoves(t *testing.T) {
	texts := []string{woundPair, conduitPair}
	for _, name := range demoNames(t) {
		texts = append(texts, plain(demoText(t, name)))
	}
	for _, text := range texts {
		f := failuresOnce(t, text)
		run := f.Run
		name := run.Name
		m, err := solve.Compile(run)
		require.NoError(t, err)
		for i, control := range run.Controls {
			w, err := m.Sweep(control, othersAtNeutral(run, control))
			require.NoError(t, err)
			neutral := solveAt(t, w, 0)
			var poses []*solve.Pose
			for k := range 121 {
				poses = append(poses, solveAt(t, w, w.Low+(w.High-w.Low)*float64(k)/120))
			}
			for _, c := range f.Cases {
				if c.How != solve.Seized {
					continue
				}
				most := 0.0
				for _, st := range poses {
					most = math.Max(most, movedOwn(neutral, st, c.Element))
				}
				locked := c.Controls[i].Locked
				require.NotNil(t, locked)
				require.Equal(t, most > 1e-6, *locked, "%s: %s by %s", name, control.Name, elementOf(c.Element))
			}
		}
	}
}

// movedOwn is how far, radians or units, what seizes moves against what it turns
// or slides on, from one position to another.
func movedOwn(neutral, st *solve.Pose, e solve.Element) float64 {
	if e.Part != nil {
		on := (*linkage.Part)(nil)
		if e.Part.Carrier != nil {
			on = e.Part.Carrier.Part
		}
		most := 0.0
		for _, p := range []vec{e.Part.Pivot.Add(at3(1, 0, 0)), e.Part.Pivot.Add(at3(0, 1, 0)), e.Part.Pivot.Add(at3(0, 0, 1))} {
			most = math.Max(most, seenFrom(st, on, st.Place(e.Part, p)).Sub(seenFrom(neutral, on, neutral.Place(e.Part, p))).Norm())
		}
		return most
	}
	if e.Cable != nil {
		var moved [2]float64
		for i, held := range []*linkage.PointRef{e.Cable.From, e.Cable.To} {
			out := func(st *solve.Pose) float64 { return st.Point(*held).Sub(st.Point(e.Cable.Conduit[i])).Norm() }
			moved[i] = out(st) - out(neutral)
		}
		return math.Max(0, math.Min(moved[0], -moved[1])) + math.Max(0, math.Min(-moved[0], moved[1]))
	}
	end := e.Rod.From
	if e.End == "to" {
		end = e.Rod.To
	}
	if end.Part == nil {
		return math.Inf(1) // hangs on a rod: not asked here
	}
	way := func(st *solve.Pose) vec {
		return seenFrom(st, end.Part, st.Point(e.Rod.To)).Sub(seenFrom(st, end.Part, st.Point(e.Rod.From))).Unit()
	}
	return way(st).Sub(way(neutral)).Norm()
}

// seenFrom is a place as seen from a part, by three points of it.
func seenFrom(st *solve.Pose, part *linkage.Part, p vec) vec {
	if part == nil || part.Motion == linkage.Fixed {
		return p
	}
	origin := st.Place(part, vec{})
	x, y, z := st.Place(part, at3(1, 0, 0)).Sub(origin), st.Place(part, at3(0, 1, 0)).Sub(origin), st.Place(part, at3(0, 0, 1)).Sub(origin)
	d := p.Sub(origin)
	return vec{X: d.Dot(x), Y: d.Dot(y), Z: d.Dot(z)}
}

// TestFailSeizedFixedByText: a run in which the seized part is drawn as fixed
// can't be moved: the rods to it are one too many, whichever part it is.
func TestFailSeizedFixedByText(t *testing.T) {
	text := bars()
	for _, rod := range []string{"lever.low", "crank.low"} {
		held := text + "fixed \"frame\" {\n  points = { pin = [100, -90] }\n}\nrod \"lock\" {\n  from = frame.pin\n  to = " + rod + "\n}\n"
		require.Contains(t, refusal(t, held), "lock", "a rod to the airframe locks the control")
		part, _, _ := strings.Cut(rod, ".")
		require.True(t, *caseOf(t, failuresOf(t, text), "part "+part, solve.Seized).Controls[0].Locked)
	}
}

// TestFailSeizedLeavesTheOther: of two controls that move nothing of each other's
// a seizure locks one.
func TestFailSeizedLeavesTheOther(t *testing.T) {
	text := bars("part \"other\" {\n  pivot = [0, 300]\n  points = { a = [0, 340] }\n}\npart \"idle\" {\n  pivot = [200, 300]\n  points = { a = [200, 340] }\n}\nrod \"tie\" {\n  from = other.a\n  to = idle.a\n}\ncontrol \"spare\" {\n  of = other\n  from = -20\n  to = 20\n}\n")
	f := failuresOf(t, text)
	for name, want := range map[string][]bool{
		"rod end tie.from": {false, true}, "part idle": {false, true},
		"rod end link.to": {true, false}, "part crank": {true, false},
	} {
		c := caseOf(t, f, name, solve.Seized)
		for i, locked := range want {
			require.Equal(t, locked, *c.Controls[i].Locked, "%s: %d", name, i)
		}
		require.False(t, *c.TakesAll)
	}
}

// TestFailSeizedCoreStretchedAlong: a control that carries both conduits of a pair
// along draws both cables up, the stiffer one harder, so that what they hold gives
// way by the difference: that stretches the cores and hardly takes them through
// their conduits, so one that seizes doesn't lock it. It locks the control whose
// lever draws them, and both where the cables are rigid.
func TestFailSeizedCoreStretchedAlong(t *testing.T) {
	for _, k := range []struct {
		stiffness string
		off       float64 // of what is held, by equal arms of 60
	}{{"40", 0}, {"41", 5.0 / 81}} {
		text := strings.Replace(carriedAlong, "stiffness = 40", "stiffness = "+k.stiffness, 1)
		run := read(t, text)
		m, err := solve.Compile(run)
		require.NoError(t, err)
		w, err := m.Sweep(run.Controls[0], []solve.Held{{Control: run.Controls[1], At: 0}})
		require.NoError(t, err)
		require.InDelta(t, k.off, rad(math.Abs(partOf(t, w, "engine").AtHigh))*60, 1e-3, "by the difference of the two")
		f := failuresOf(t, text)
		for _, name := range []string{"upper", "lower"} {
			c := caseOf(t, f, "cable "+name, solve.Seized)
			require.NotNil(t, c.Controls[0].Locked)
			require.False(t, *c.Controls[0].Locked, "%s: the carriage", name)
			require.True(t, *c.Controls[1].Locked, "%s: the lever", name)
			require.Equal(t, solve.Dangerous, c.Severity)
		}
	}
	single := cutNamed(cutNamed(carriedAlong, "cable", "lower"), "pair", "both")
	single = strings.Replace(single, "stiffness = 40", "pushes = true", 1)
	c := caseOf(t, failuresOf(t, single), "cable upper", solve.Seized)
	require.True(t, *c.Controls[0].Locked, "a rigid core goes through as far as its conduit is carried")
	near(t, 5, c.Controls[0].Would, 1e-9, "as far as that")
}

// carriedAlong is a lever and what two cables from it hold, their conduits held on
// a carriage at the lever, which another control slides by 5 along both cores.
const carriedAlong = `run "Carried along" {
  units = "mm"
}
fixed "frame" {
  points = { upper = [640, 60], lower = [640, -60] }
}
part "carriage" {
  slide  = [1, 0]
  points = { upper = [80, 60], lower = [80, -60] }
}
part "lever" {
  pivot  = [0, 0]
  points = { upper = [0, 60], lower = [0, -60] }
}
part "engine" {
  pivot  = [760, 0]
  points = { upper = [760, 60], lower = [760, -60] }
}
cable "upper" {
  from      = lever.upper
  to        = engine.upper
  conduit   = [carriage.upper, frame.upper]
  stiffness = 40
}
cable "lower" {
  from      = lever.lower
  to        = engine.lower
  conduit   = [carriage.lower, frame.lower]
  stiffness = 40
}
pair "both" {
  cables     = [upper, lower]
  pretension = 400
}
control "slide" {
  of   = carriage
  from = -5
  to   = 5
}
control "throttle" {
  of   = lever
  from = -20
  to   = 20
}
output "speed" {
  of = engine
}
`
