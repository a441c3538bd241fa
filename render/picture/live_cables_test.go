package picture

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// riding is a push-pull cable whose conduit one moving part holds at its end.
const riding = `
run "Riding" {
  units = "mm"
}
fixed "frame" {
  points = { near = [60, 60] }
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [0, 60] }
}
part "carriage" {
  pivot  = [400, -100]
  points = { bracket = [360, 60] }
}
part "crank" {
  pivot  = [420, 0]
  points = { pin = [420, 60] }
}
cable "push" {
  from    = lever.pin
  to      = crank.pin
  conduit = [frame.near, carriage.bracket]
  pushes  = true
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
control "trim" {
  of   = carriage
  from = -20
  to   = 20
}
`

// cabled are runs with cables.
func cabled(t *testing.T) map[string]*solve.Result {
	all := map[string]*solve.Result{"slack": checkedOnce(t, "slack.hcl", sample.SlackRun), "riding": checkedOnce(t, "riding.hcl", riding)}
	for _, kind := range []string{"lift-cables", "throttle-cable", "pedals-cable"} {
		all[kind] = checkedOnce(t, kind+".hcl", sample.DemoText(t, kind))
	}
	return all
}

// Cores run from hole to conduit wherever the control stands, conduits keep to
// what holds them, and quadrants turn under their cables.
func TestLiveCablesFollow(t *testing.T) {
	const within = 0.02 // sheet units: what is written, twice
	for name, result := range cabled(t) {
		for _, sweep := range result.Sweeps {
			drawn := followersOf(t, livelyAt(t, result, sweep, LiveOptions{}))
			for _, x := range somewhere(sweep) {
				pose, ok := sweep.At(x)
				require.True(t, ok)
				p, ok := sweep.Sample(x)
				require.True(t, ok)
				// has reports whether something is drawn through just these places.
				has := func(near func(on []paper.Place, m follower) bool) bool {
					for _, m := range drawn {
						if m.name != "path" {
							continue
						}
						var on []paper.Place
						for _, k := range m.mounts {
							on = append(on, m.on(placeOf(k, p.Frames)))
						}
						if near(on, m) {
							return true
						}
					}
					return false
				}
				for _, c := range result.Run.Cables {
					if c.Open() {
						rimsFollow(t, pose, c, has)
						continue
					}
					for _, leg := range c.Legs() {
						assert.True(t, has(func(on []paper.Place, m follower) bool {
							return len(on) == 2 && on[0].Distance(m.on(pose.Point(leg[0]))) < within && on[1].Distance(m.on(pose.Point(leg[1]))) < within
						}), "%s: core of %s at %v", name, c.Name, x)
					}
					if c.Conduit[0].Part.Motion != linkage.Fixed || c.Conduit[1].Part.Motion != linkage.Fixed {
						assert.True(t, has(func(on []paper.Place, m follower) bool {
							n := len(on) - 1
							return n > 3 && on[0].Distance(m.on(pose.Point(c.Conduit[0]))) < within && on[n].Distance(m.on(pose.Point(c.Conduit[1]))) < within
						}), "%s: conduit of %s at %v", name, c.Name, x)
					}
				}
			}
		}
	}
}

// rimsFollow asserts that where an open cable leaves a quadrant there is rim, which
// has turned with it.
func rimsFollow(t *testing.T, pose *solve.Pose, c *linkage.Cable, has func(func([]paper.Place, follower) bool) bool) {
	t.Helper()
	leaves, ok := tangentOf(c)
	require.True(t, ok)
	for i, part := range c.Quadrants {
		assert.True(t, has(func(on []paper.Place, m follower) bool {
			if len(on) < 10 {
				return false
			}
			at, pivot := m.on(leaves.at[i]), m.on(part.Pivot)
			least := math.Inf(1)
			for k, p := range on {
				least = math.Min(least, p.Distance(at))
				if math.Abs(p.Distance(pivot)-at.Distance(pivot)) > 0.02 || p.Distance(m.on(pose.Place(part, m.mounts[k].At))) > 0.02 {
					return false
				}
			}
			return least <= at.Distance(pivot)*rimStep*math.Pi/180
		}), "%s of %s", part.Name, c.Name)
	}
}

// A rim is drawn as far as its quadrant turns, and no further than all round.
func TestLiveRimsReachAsFarAsQuadrantsTurn(t *testing.T) {
	part := &linkage.Part{}
	spare := func(least, most float64) float64 {
		l := &live{diagram: &diagram{sweep: &solve.Sweep{Parts: []solve.PartTravel{{Part: part, Extent: solve.Extent{Least: least, Most: most}}}}}}
		return l.rimSpare(part)
	}
	assert.Equal(t, rimSpare, spare(-10, 12))
	assert.Equal(t, 55.0, spare(-48, 12))
	assert.Equal(t, 260.0, spare(-10, 1000))
}

// A cable is shown slack where it is, and tells the page by which figure.
func TestLiveCablesHangSlack(t *testing.T) {
	result := checkedOnce(t, "slack.hcl", sample.SlackRun)
	sweep := result.Sweeps[0]
	series := map[string]bool{}
	for i, s := range sweep.Series() {
		if s.Kind == solve.SeriesTension {
			series[strconv.Itoa(i)] = true
		}
	}
	require.Len(t, series, 2)
	moving := livelyAt(t, result, sweep, LiveOptions{})
	told := map[string]bool{}
	for _, m := range followersOf(t, moving) {
		if i, ok := m.attrs["data-tension"]; ok {
			told[i] = true
			assert.Empty(t, m.attrs["class"], "taut at neutral")
		}
	}
	assert.Equal(t, series, told)
	assert.Contains(t, moving, "Thick dashes: a cable")
	assert.Contains(t, moving, "Conduit, double line: path not drawn true.")

	at := livelyAt(t, result, sweep, LiveOptions{At: -30, Still: true})
	assert.Equal(t, 4, strings.Count(at, `class="slack"`), "two cores, each seen at both ends")
	assert.NotContains(t, at, "data-")
	assert.NotContains(t, livelyAt(t, result, sweep, LiveOptions{At: 1, Still: true}), `class="slack"`)

	lift := checkedOnce(t, "lift-cables.hcl", sample.DemoText(t, "lift-cables"))
	assert.NotContains(t, livelyAt(t, lift, lift.Sweeps[0], LiveOptions{}), "slack", "never")
	lone := checkedOnce(t, "throttle-cable.hcl", sample.DemoText(t, "throttle-cable"))
	assert.NotContains(t, livelyAt(t, lone, lone.Sweeps[0], LiveOptions{}), "data-tension", "it isn't known")
}

// Cables are named as rods are.
func TestLiveCablesAreNamed(t *testing.T) {
	for name, result := range cabled(t) {
		svg := livelyAt(t, result, result.Sweeps[0], LiveOptions{})
		for _, c := range result.Run.Cables {
			assert.Contains(t, svg, ">"+c.Name, name)
		}
	}
}

// A conduit gives way between what holds it and what of it stays.
func TestLiveConduitsGiveWay(t *testing.T) {
	result := checkedOnce(t, "riding.hcl", riding)
	l, err := newLive(result, result.Sweeps[0], LiveOptions{})
	require.NoError(t, err)
	ld := liveDrawing{&drawing{diagram: l.diagram, v: l.views[0], live: l}}
	path := ld.conduitMounts(result.Run.Cables[0])
	carriage := l.bodies.of(result.Run.Parts[2])
	assert.Equal(t, fixedBody, path[0].Body)
	assert.Equal(t, carriage, path[len(path)-1].Body)
	changes := 0
	for i := range path[1:] {
		if path[i+1].Body != path[i].Body {
			changes++
		}
	}
	assert.Equal(t, 1, changes, "at first what stays, then what rides")
}
