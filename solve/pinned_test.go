package solve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// pin adds a rig pin to a run.
func pin(run *linkage.Run, part *linkage.Part, at, within float64) *linkage.Pin {
	p := &linkage.Pin{Name: "pin-" + part.Name, Index: len(run.Pins), Of: part, At: at, Within: within}
	run.Pins = append(run.Pins, p)
	return p
}

// pinnedOf returns what a rod measures with the pins in.
func pinnedOf(t testing.TB, run *linkage.Run, rod string) solve.PinnedRod {
	t.Helper()
	m, err := solve.Compile(run)
	require.NoError(t, err)
	list := m.Pinned()
	require.Len(t, list, len(run.Rods))
	for i, r := range list {
		require.Same(t, run.Rods[i], r.Rod)
		if r.Rod.Name == rod {
			return r
		}
	}
	require.FailNow(t, "no such rod", rod)
	return solve.PinnedRod{}
}

// pinnedText has a lever and a rocker, heights that differ, a rod that leads from
// the airframe to a part that the lever carries, and a twist grip on it.
const pinnedText = `run "pinned" {
  units = "mm"
}
fixed "airframe" {
  points = { lug = [40, -60, 5] }
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [0, 100], head = [80, 0] }
}
part "rocker" {
  pivot  = [200, 0]
  points = { pin = [200, 100, 30] }
}
part "mixer" {
  pivot  = lever.head
  points = { low = [80, -60, 10] }
}
part "grip" {
  pivot  = lever.head
  points = { horn = [120, 10] }
}
part "slider" {
  slide  = [3, 4]
  points = { eye = [120, 90] }
}
rod "link" {
  from   = lever.pin
  to     = rocker.pin
  length = 203
}
rod "anchor" {
  from = airframe.lug
  to   = mixer.low
}
rod "push" {
  from = grip.horn
  to   = slider.eye
}
control "hand" {
  of = lever
  from = -10
  to = 10
}
control "twist" {
  of = grip
  from = -10
  to = 10
}
`

// TestPinned compares with the points turned about their pivots by hand.
func TestPinned(t *testing.T) {
	run := read(t, pinnedText)
	part := func(name string) *linkage.Part { return partNamed(t, run, name) }
	lever := pin(run, part("lever"), 4, 0.1)
	require.Nil(t, pinnedOf(t, run, "link").Length, "the rocker has no pin")
	require.Equal(t, []*linkage.Pin{lever}, pinnedOf(t, run, "link").Pins)

	rocker := pin(run, part("rocker"), -7, 0.05)
	about := func(pivot, p vec, degrees float64) vec {
		return pivot.Add(rotate(p.Sub(pivot), at3(0, 0, 1), degrees))
	}
	link := pinnedOf(t, run, "link")
	require.Equal(t, []*linkage.Pin{lever, rocker}, link.Pins)
	require.Equal(t, 0.05, link.Within(), "the closer of the two")
	want := distance(about(at(0, 0), at(0, 100), 4), about(at(200, 0), at3(200, 100, 30), -7))
	nearAt(t, want, link.Length, exact, "link, the heights counted")

	// The mixer's pin is against the drawing, as a stop on it would be; the
	// grip's against the lever.
	pin(run, part("mixer"), 2, 0.1)
	pin(run, part("grip"), 3, 0.1)
	pin(run, part("slider"), 5, 0.1)
	head := about(at(0, 0), at(80, 0), 4)
	low := head.Add(rotate(at3(0, -60, 10), at3(0, 0, 1), 2))
	nearAt(t, distance(at3(40, -60, 5), low), pinnedOf(t, run, "anchor").Length, exact, "anchor")
	horn := head.Add(rotate(at(40, 10), at3(0, 0, 1), 4+3))
	push := pinnedOf(t, run, "push")
	nearAt(t, distance(horn, at(123, 94)), push.Length, exact, "push")
	require.Len(t, push.Pins, 3, "the lever's counts: it carries the grip")

	run.Pins = run.Pins[1:]
	for i, p := range run.Pins {
		p.Index = i
	}
	require.Nil(t, pinnedOf(t, run, "anchor").Length, "what carries the mixer has no pin")
	require.Nil(t, pinnedOf(t, run, "push").Length, "what carries the grip has no pin")
	require.Len(t, pinnedOf(t, run, "anchor").Pins, 1)
}

// TestPinnedRodOnARod: a rod that hangs on another is measured where both ends
// of that one stand; how either is set doesn't matter.
func TestPinnedRodOnARod(t *testing.T) {
	run := read(t, hungText)
	pin(run, partNamed(t, run, "tail"), 3, 0.1)
	pin(run, partNamed(t, run, "lever"), 0, 0.1)
	require.Nil(t, pinnedOf(t, run, "hanger").Length)
	pin(run, partNamed(t, run, "rocker"), -6, 0.1)
	hanger := pinnedOf(t, run, "hanger")
	require.NotNil(t, hanger.Length)
	require.Len(t, hanger.Pins, 3)

	from := at(10, 60)
	drawn := at(190, 80).Sub(from)
	now := at(200, 10).Add(rotate(at(-10, 70), at3(0, 0, 1), -6)).Sub(from)
	swing := deg(math.Atan2(now.Y, now.X) - math.Atan2(drawn.Y, drawn.X))
	bracket := from.Add(rotate(at(100, 30), at3(0, 0, 1), swing))
	tail := at(120, 200).Add(rotate(at(40, -10), at3(0, 0, 1), 3))
	near(t, distance(tail, bracket), *hanger.Length, exact, "hanger")

	again := read(t, hungText, set("link.length", 186), set("hanger.length", 110))
	for _, p := range run.Pins {
		pin(again, partNamed(t, again, p.Of.Name), p.At, p.Within)
	}
	near(t, *hanger.Length, *pinnedOf(t, again, "hanger").Length, 0, "set otherwise")
}

// TestPinsWhereARunStands: with every part pinned where it stands in some pose of
// every demo, each rod measures what it is set to.
func TestPinsWhereARunStands(t *testing.T) {
	for _, name := range demoNames(t) {
		t.Run(name, func(t *testing.T) {
			run := read(t, demoText(t, name))
			m, err := solve.Compile(run)
			require.NoError(t, err)
			w, err := m.Sweep(run.Controls[0], nil)
			require.NoError(t, err)
			at := 0.6 * w.High
			st := solveAt(t, w, at)
			run.Pins = nil
			for _, p := range run.Parts {
				if p.Motion == linkage.Fixed {
					continue
				}
				travel := st.Travel(p)
				if p == run.Controls[0].Of { // a control is pinned as it is told
					travel = at
				}
				for _, held := range w.Held {
					if p == held.Control.Of {
						travel = held.At
					}
				}
				pin(run, p, travel, 0.1)
			}
			floats := func(r linkage.PointRef) bool {
				for p := r.Part; p != nil; p = p.Carrier.Part {
					if p.Motion == linkage.Floats || p.Spatial() {
						return true
					}
					if p.Carrier == nil {
						break
					}
				}
				return false
			}
			for _, rod := range run.Rods {
				pinned := pinnedOf(t, run, rod.Name)
				switch {
				case floats(rod.From) || floats(rod.To):
					require.Nil(t, pinned.Length, "one pin doesn't hold a part that floats")
				case rod.SecondPath: // its set length is not what places the parts
					require.NotNil(t, pinned.Length)
				default:
					nearAt(t, rod.Length, pinned.Length, 1e-11*run.Size(), rod.Name)
				}
			}
		})
	}
}
