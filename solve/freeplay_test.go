package solve

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// playedLevers is one rod between two levers on the airframe, with stops.
const playedLevers = `
run "Two levers" {
  units = "mm"
}
tolerance {
  joint-play = 0.1
}
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 60], grip = [0, 200] }
}
part "crank" {
  pivot  = [200, 0]
  points = { eye = [190, 80], tip = [200, -120] }
}
rod "link" {
  from   = lever.eye
  to     = crank.eye
  length = 195
}
control "hand" {
  of   = lever
  from = -30
  to   = 30
}
output "goes" {
  of      = crank
  seen-at = crank.tip
}
stop "aft" {
  of = lever
  at = -25
}
stop "fore" {
  of = lever
  at = 20
}
`

// playedRuns are small runs, each joint of which can be shifted by itself.
var playedRuns = map[string]string{
	"levers": playedLevers,
	"chain": `
run "Three levers and a plunger" {
  units = "mm"
}
tolerance {
  joint-play = 0.08
}
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 60] }
  joint-play = 0.2
}
part "crank" {
  pivot  = [200, 0]
  points = { eye = [190, 80], low = [240, -50] }
}
part "plunger" {
  slide  = [1, 0.3]
  points = { eye = [420, -60] }
}
rod "link" {
  from   = lever.eye
  to     = crank.eye
  length = 195
  joint-play = 0.05
  end "to" {
    thread     = "M6x1"
    engaged    = 12
    joint-play = 0.11
  }
}
rod "push" {
  from   = crank.low
  to     = plunger.eye
  length = 181
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
output "turns" { of = crank }
output "goes" { of = plunger }
output "lifts" {
  of    = crank.low
  along = [0, 1]
}
`,
	"beam": `
run "A floating beam" {
  units = "mm"
}
tolerance {
  joint-play = 0.005 # it rocks by 14 degrees a millimeter, so what is of second order shows
}
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 60] }
}
part "arm" {
  pivot  = [150, -20]
  points = { eye = [150, 50] }
}
part "idler" {
  pivot  = [80, 160]
  points = { eye = [80, 130] }
}
part "beam" {
  points = { a = [60, 70], b = [100, 60], c = [80, 110] }
}
rod "one" {
  from   = lever.eye
  to     = beam.a
  length = 60.9
}
rod "two" {
  from   = beam.b
  to     = arm.eye
  length = 51
}
rod "three" {
  from   = beam.c
  to     = idler.eye
  length = 20.1
}
rod "four" {
  from   = lever.eye
  to     = idler.eye
  length = 106
}
control "hand" {
  of   = lever
  from = -4
  to   = 4
}
control "trim" {
  of   = arm
  from = -4
  to   = 4
}
output "beam-turn" { of = beam }
`,
	"carried": `
run "A stick on a shaft, in space" {
  units = "mm"
}
tolerance {
  joint-play = 0.1
}
part "shaft" {
  pivot  = [0, 0]
  axis   = [1, 0, 0]
  points = { hub = [0, 0, 40], horn = [30, 60, 0] }
}
part "stick" {
  pivot  = shaft.hub
  axis   = [0, 0, 1]
  points = { low = [10, -70, 40], grip = [0, 300, 40] }
}
part "crank" {
  pivot  = [160, -60, 20]
  axis   = [0, 0.2, 1]
  points = { eye = [150, 0, 25], out = [220, -50, 20] }
}
part "aileron" {
  pivot  = [30, 20, 200]
  axis   = [1, 0, 0]
  points = { horn = [40, 80, 200] }
}
rod "pitch" {
  from   = stick.low
  to     = crank.eye
  length = 157.5
}
rod "roll" {
  from   = shaft.horn
  to     = aileron.horn
  length = 201.4
}
control "roll-stick" {
  of   = shaft
  from = -10
  to   = 10
}
control "pitch-stick" {
  of   = stick
  from = -10
  to   = 10
}
output "elevator" { of = crank }
output "ailerons" { of = aileron }
`,
	"cable": `
run "A push-pull core" {
  units = "mm"
}
tolerance {
  joint-play = 0.1
}
fixed "frame" {
  points = { near = [-50, 70], far = [150, 80] }
}
part "lever" {
  pivot  = [0, 0]
  points = { eye = [10, 60] }
}
part "crank" {
  pivot  = [200, 0]
  points = { eye = [195, 70] }
}
cable "core" {
  from    = lever.eye
  to      = crank.eye
  conduit = [frame.near, frame.far]
  core    = 106.5
  pushes  = true
}
control "hand" {
  of   = lever
  from = -10
  to   = 10
}
output "goes" { of = crank }
`,
	"hung": `
run "A rod hung on a rod" {
  units = "mm"
}
tolerance {
  joint-play = 0.1
}
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 60] }
}
part "crank" {
  pivot  = [200, 0]
  points = { eye = [190, 80] }
}
part "far" {
  pivot  = [150, -90]
  points = { eye = [110, -60] }
}
rod "link" {
  from   = lever.eye
  to     = crank.eye
  length = 191
  points = { bracket = [90, 50] }
}
rod "drop" {
  from   = link.bracket
  to     = far.eye
  length = 112
}
control "hand" {
  of   = lever
  from = -10
  to   = 10
}
output "goes" { of = far }
`,
}

// One rod between two levers has four joints, each of which lets the rod's length go by
// half its play either way: the driven lever rocks by 4 p / |dL/dturn| from one end to the
// other, its rod's length by its turn (elementary: what the length goes by, over its rate).
func TestFreePlayOfTwoLevers(t *testing.T) {
	m := compiled(t, playedLevers)
	result, err := m.Check()
	require.NoError(t, err)
	hand, goes := result.Sweeps[0].FreePlay[0], result.Sweeps[0].FreePlay[1]
	require.Equal(t, "hand", hand.Of.Name())
	require.Equal(t, "goes", goes.Of.Name())

	// The neutral pose by itself: the crank turned until the rod is as long as it is set.
	eye := func(pivotX, x, y, turn float64) (float64, float64) {
		sin, cos := elementary.Sincos(turn)
		return pivotX + float64(cos*(x-pivotX)) - float64(sin*y), float64(sin*(x-pivotX)) + float64(cos*y)
	}
	length := func(hand, crank float64) float64 {
		ax, ay := eye(0, 0, 60, hand)
		bx, by := eye(200, 190, 80, crank)
		return math.Hypot(bx-ax, by-ay)
	}
	const h = 1e-6
	stands := 0.0
	for range 20 {
		stands -= (length(0, stands) - 195) * 2 * h / (length(0, stands+h) - length(0, stands-h))
	}
	byCrank := (length(0, stands+h) - length(0, stands-h)) / (2 * h)
	byHand := (length(h, stands) - length(-h, stands)) / (2 * h)
	const play = 0.1
	assert.InEpsilon(t, 4*play/math.Abs(byCrank)/degree, *goes.AtNeutral, 1e-8)
	assert.InEpsilon(t, 4*play/math.Abs(byHand)/degree, *hand.AtNeutral, 1e-8)
	assert.InEpsilon(t, 0.5, *goes.RSS / *goes.Most, 1e-9, "four alike: half in root sum of squares")
	assert.InEpsilon(t, *goes.Most*degree*120, *goes.AtPoint, 1e-9)
	assert.InEpsilon(t, *hand.Most*degree*200, *hand.AtPoint, 1e-9)
	assert.Same(t, result.Run.Outputs[0], hand.HeldBy)
	require.Len(t, goes.Joints, 4)
	for _, j := range goes.Joints {
		assert.InEpsilon(t, *goes.Most/4, j.By, 1e-9, j.String())
	}
	require.NotNil(t, goes.At)
	for i := range 200 { // nowhere is it more
		x := result.Sweeps[0].Low + (result.Sweeps[0].High-result.Sweeps[0].Low)*float64(i)/199
		r := &rocker{g: result.Sweeps[0].of.gradients(newJointSlots(m.run))}
		r.room = m.newSums(r.g.slots)
		k := m.outputMeasure(m.run.Outputs[0])
		r.seeds = []seed{k.seed(nil)}
		assert.LessOrEqual(t, r.ofOutput(0, x).whole, *goes.Most*(1+1e-9))
	}
}

// shifted builds a run with the center of each joint off by a vector: what joins at a rod's
// end along the rod, a part's own joint with all that it has.
func shifted(t *testing.T, m *Mechanism, list []joint, off []vec) *Mechanism {
	t.Helper()
	o := &offsets{slots: newSlots(m.run)}
	o.by = make([]float64, o.slots.count)
	move := func(slot int, by vec) {
		o.by[slot] += by.X
		o.by[slot+1] += by.Y
		o.by[slot+2] += by.Z
	}
	var shift func(p *linkage.Part, by vec)
	shift = func(p *linkage.Part, by vec) {
		for k := range p.Points {
			move(o.slots.points[p.Index]+3*k, by)
		}
		for _, q := range m.run.Parts { // what it carries goes along
			if q.Carrier != nil && q.Carrier.Part == p {
				shift(q, by)
			}
		}
	}
	for i, j := range list {
		switch {
		case j.Rod != nil && len(j.Rod.Points) > 0: // its end off in any direction
			at := j.Rod.From
			if j.End == "to" {
				at = j.Rod.To
			}
			move(o.slots.of(at), off[i])
		case j.Cable != nil:
			o.by[o.slots.cores[j.Cable.Index]] += off[i].X
		case j.Rod != nil:
			o.by[o.slots.lengths[j.Rod.Index]] += off[i].X
		default:
			if pivot := o.slots.pivots[j.Part.Index]; pivot >= 0 {
				move(pivot, off[i])
			}
			shift(j.Part, off[i])
		}
	}
	// A rod's own points are drawn, and keep their place on it as its ends are shifted.
	for _, r := range m.run.Rods {
		from, to := o.at(o.slots.of(r.From)), o.at(o.slots.of(r.To))
		was := r.To.Get().At.Sub(r.From.Get().At)
		now := was.Add(to).Sub(from)
		turn := elementary.Atan2(was.Cross(now).Z, was.Dot(now))
		sin, cos := elementary.Sincos(turn)
		for k, q := range r.Points {
			d := q.At.Sub(r.From.Get().At)
			turned := vec{X: cos*d.X - sin*d.Y, Y: sin*d.X + cos*d.Y}
			move(o.slots.own[r.Index]+3*k, turned.Sub(d).Add(from))
		}
	}
	n, ok := m.built(m.run, o)
	require.True(t, ok)
	return n
}

// reads is how far an output has gone from where it is drawn, with controls at places.
func reads(t *testing.T, n *Mechanism, o *linkage.Output, like *path, x float64) float64 {
	t.Helper()
	p := n.newPath(n.run.Controls[like.control.Index])
	copy(p.held, like.held)
	require.Equal(t, allClosed, p.solve(x, n.neutral.q))
	k := n.outputMeasure(o)
	if k.terms == nil { // told of the place that is drawn, which a shift doesn't move
		k.point.at = n.endAt(*o.Point).at
		return k.along.Dot(p.st.place(k.point))
	}
	return k.value(p)
}

// What is told by derivatives is what really solved builds come to at their extremes: all
// joints off as far as they may be, each in the direction that matters most, which is
// looked for among many.
func TestFreePlayAgainstSolvedCorners(t *testing.T) {
	const directions = 48
	// agrees is by how much the two may differ: the directions tried miss the best by up to
	// 3.75 degrees, the cosine of which is 0.998; the rest is of second order in the play.
	const agrees = 4e-3
	for name, text := range playedRuns {
		t.Run(name, func(t *testing.T) {
			m := compiled(t, text)
			result, err := m.Check()
			require.NoError(t, err)
			list := newJointSlots(m.run).joints.list
			for _, w := range result.Sweeps {
				for _, f := range w.FreePlay {
					o := f.Of.Output
					if o == nil {
						continue
					}
					require.NotNil(t, f.AtNeutral)
					if *f.AtNeutral < 1e-9 {
						continue
					}
					p := w.of.p
					drawn := reads(t, m, o, p, 0)
					ends := [2][]vec{make([]vec, len(list)), make([]vec, len(list))}
					for i, j := range list {
						tries := []vec{{X: j.half}, {X: -j.half}}
						if j.Part != nil || j.Rod != nil && len(j.Rod.Points) > 0 {
							tries = nil
							along := j.along
							if j.Rod != nil {
								along = zAxis
							}
							u := perpendicular(vec{X: 0.3, Y: 0.7, Z: 0.2}, along).Unit()
							v := along.Cross(u)
							for k := range directions {
								sin, cos := elementary.Sincos(2 * math.Pi * float64(k) / directions)
								tries = append(tries, u.Scale(j.half*cos).Add(v.Scale(j.half*sin)))
							}
						}
						least, most := math.Inf(1), math.Inf(-1)
						for _, by := range tries {
							off := make([]vec, len(list))
							off[i] = by
							now := reads(t, shifted(t, m, list, off), o, p, 0) - drawn
							if now < least {
								least, ends[0][i] = now, by
							}
							if now > most {
								most, ends[1][i] = now, by
							}
						}
					}
					low, high := reads(t, shifted(t, m, list, ends[0]), o, p, 0), reads(t, shifted(t, m, list, ends[1]), o, p, 0)
					assert.InEpsilon(t, high-low, *f.AtNeutral, agrees, "%s in the sweep of %s", o.Name, w.Control.Name)
				}
			}
		})
	}
}

// No build with its joints off in any direction rocks an output beyond what is told, nor
// the hand with the output held.
func TestRandomJointsRockNoFurther(t *testing.T) {
	m := compiled(t, playedRuns["chain"])
	result, err := m.Check()
	require.NoError(t, err)
	w := result.Sweeps[0]
	list := newJointSlots(m.run).joints.list
	random := rand.New(rand.NewPCG(7, 11))
	turns, goes := m.run.Outputs[0], m.run.Outputs[1]
	rocks := map[string]float64{}
	for _, f := range w.FreePlay {
		rocks[f.Of.Name()] = *f.AtNeutral
	}
	drawn := map[*linkage.Output]float64{}
	for _, o := range []*linkage.Output{turns, goes} {
		drawn[o] = reads(t, m, o, w.of.p, 0)
	}
	const h = 1e-4
	rate := map[*linkage.Output]float64{}
	for o := range drawn {
		rate[o] = (reads(t, m, o, w.of.p, h) - reads(t, m, o, w.of.p, -h)) / (2 * h)
	}
	most := map[string]float64{}
	for range 3000 {
		off := make([]vec, len(list))
		for i, j := range list {
			sin, cos := elementary.Sincos(2 * math.Pi * random.Float64())
			by := vec{X: j.half * cos, Y: j.half * sin}
			if j.Rod != nil {
				by = vec{X: math.Copysign(j.half, cos)}
			}
			if j.along != (vec{}) && m.bodies[m.partBody[j.Part.Index]].kind == sliding {
				by = perpendicular(by, j.along)
			}
			off[i] = by
		}
		n := shifted(t, m, list, off)
		least := math.Inf(1)
		for o := range drawn {
			away := 2 * math.Abs(reads(t, n, o, w.of.p, 0)-drawn[o])
			most[o.Name] = math.Max(most[o.Name], away)
			least = math.Min(least, away/math.Abs(rate[o]))
		}
		most["hand"] = math.Max(most["hand"], least)
	}
	for name, got := range most {
		assert.LessOrEqual(t, got, rocks[name]*1.003, "%s", name)
		assert.Greater(t, got, rocks[name]*0.6, "%s: builds come near it", name)
	}
}
