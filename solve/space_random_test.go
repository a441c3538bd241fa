package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// spaceRun is a random run of parts of every kind, each driven by a point of one before it.
type spaceRun struct {
	random *rand.Rand
	parts  strings.Builder
	frame  []vec    // points of the airframe
	tips   []string // points that move
	at     []vec    // where they are drawn
	n      int
}

// unit is a random direction.
func (r *spaceRun) unit() vec { return astray(r.random, vec{}, 1).Unit() }

// fixed is a new point of the airframe.
func (r *spaceRun) fixed(at vec) string {
	r.frame = append(r.frame, at)
	return fmt.Sprintf("frame.f%d", len(r.frame)-1)
}

// rod joins two points.
func (r *spaceRun) rod(a, b string) {
	r.n++
	fmt.Fprintf(&r.parts, "rod \"r%d\" {\n  from = %s\n  to = %s\n}\n", r.n, a, b)
}

func (r *spaceRun) joint(a, b string) {
	r.n++
	fmt.Fprintf(&r.parts, "joint \"j%d\" {\n  of = [%s, %s]\n}\n", r.n, a, b)
}

// part adds a part with points t0, t1 and so on; what it may move is written in motion.
func (r *spaceRun) part(motion string, points ...vec) (name string) {
	r.n++
	name = fmt.Sprintf("p%d", r.n)
	fmt.Fprintf(&r.parts, "part \"%s\" {\n  %s\n  points = {\n", name, motion)
	for i, p := range points {
		fmt.Fprintf(&r.parts, "    t%d = %s\n", i, placed(p))
	}
	r.parts.WriteString("  }\n}\n")
	return name
}

// tip makes a point of a part one that may drive.
func (r *spaceRun) tip(part string, i int, at vec) {
	r.tips = append(r.tips, fmt.Sprintf("%s.t%d", part, i))
	r.at = append(r.at, at)
}

// add adds a part, or some, of a random kind, driven by a random point.
func (r *spaceRun) add() {
	i := r.random.IntN(len(r.tips))
	tip, at := r.tips[i], r.at[i]
	near := func(size float64) vec { return astray(r.random, at, size) }
	away := func() vec { return at.Add(r.unit().Scale(80 + 60*r.random.Float64())) }
	switch kind := r.random.IntN(8); kind {
	case 0: // a hinge and a rod
		p := away()
		end := p.Add(r.unit().Scale(50))
		own := r.part(fmt.Sprintf("pivot = %s\n  axis = %s", placed(p), placed(r.unit())), end)
		r.rod(tip, own+".t0")
		r.tip(own, 0, end)
	case 1: // a part in space that is joined to the point and to a hinge, and spins idly
		p := away()
		end := p.Add(r.unit().Scale(50))
		own := r.part(fmt.Sprintf("pivot = %s\n  axis = %s", placed(p), placed(r.unit())), end)
		link := r.part("floats = \"space\"", at, end)
		r.joint(tip, link+".t0")
		r.joint(link+".t1", own+".t0")
		r.tip(own, 0, end)
	case 2: // one held by a joint and three rods
		a, b, c := near(60), near(60), near(60)
		own := r.part("floats = \"space\"", at, a, b, c)
		r.joint(tip, own+".t0")
		for k, v := range []vec{a, b, c} {
			r.rod(r.fixed(astray(r.random, v, 60)), fmt.Sprintf("%s.t%d", own, k+1))
		}
		r.tip(own, 1, a)
	case 3: // one on a ball of the airframe, with the rod that drives it and two more
		p := away()
		a, b, c := astray(r.random, p, 50), astray(r.random, p, 50), astray(r.random, p, 50)
		own := r.part("ball = "+placed(p), a, b, c)
		r.rod(tip, own+".t0")
		r.rod(r.fixed(astray(r.random, b, 60)), own+".t1")
		r.rod(r.fixed(astray(r.random, c, 60)), own+".t2")
		r.tip(own, 0, a)
	case 4: // one on a ball that the point carries, held by three rods
		a, b, c := near(50), near(50), near(50)
		own := r.part("ball = "+tip+"\n  square-to = "+placed(r.unit()), a, b, c)
		for k, v := range []vec{a, b, c} {
			r.rod(r.fixed(astray(r.random, v, 60)), fmt.Sprintf("%s.t%d", own, k))
		}
		r.tip(own, 1, b)
	case 5: // a hinge that the point carries, and a rod
		end := near(50)
		own := r.part("pivot = "+tip+"\n  axis = "+placed(r.unit()), end)
		r.rod(r.fixed(astray(r.random, end, 70)), own+".t0")
		r.tip(own, 0, end)
	case 6: // a sleeve and two rods
		p := away()
		a, b := astray(r.random, p, 50), astray(r.random, p, 50)
		own := r.part(fmt.Sprintf("pivot = %s\n  axis = %s\n  slides = true", placed(p), placed(r.unit())), a, b)
		r.rod(tip, own+".t0")
		r.rod(r.fixed(astray(r.random, b, 60)), own+".t1")
		r.tip(own, 0, a)
	default: // a slide that is joined by a rod
		p := away()
		own := r.part("slide = "+placed(r.unit()), p)
		r.rod(tip, own+".t0")
		r.tip(own, 0, p)
	}
}

// randomSpace is the text of such a run.
func randomSpace(random *rand.Rand) string {
	r := &spaceRun{random: random}
	end := vec{X: 10, Y: 60, Z: 5}
	lever := r.part("pivot = [0, 0, 0]\n  axis = "+placed(r.unit()), end)
	r.tip(lever, 0, end)
	for range 1 + random.IntN(4) {
		r.add()
	}
	var b strings.Builder
	b.WriteString("run \"random\" {\n  units = \"mm\"\n}\n")
	if len(r.frame) > 0 {
		b.WriteString("fixed \"frame\" {\n  points = {\n")
		for i, p := range r.frame {
			fmt.Fprintf(&b, "    f%d = %s\n", i, placed(p))
		}
		b.WriteString("  }\n}\n")
	}
	fmt.Fprintf(&b, "%scontrol \"lever\" {\n  of = %s\n  from = -30\n  to = 30\n}\noutput \"out\" {\n  of = %s\n  along = %s\n}\n", r.parts.String(), lever, r.tips[len(r.tips)-1], placed(r.unit()))
	return b.String()
}

// TestHuntSpaceKinds solves random runs of parts of every kind: rods and joints hold, every figure is a number, and
// gradients agree with those of runs read again.
func TestHuntSpaceKinds(t *testing.T) {
	swept, compared := 0, 0
	hunt.Each(t, 10, func(t *testing.T, random *rand.Rand) {
		text := randomSpace(random)
		run := read(t, text)
		m, err := solve.Compile(run)
		if err != nil {
			return // it stands on center, or nearly
		}
		result, err := m.Check()
		require.NoError(t, err, text)
		w := result.Sweeps[0]
		require.False(t, w.Lost, text)
		swept++
		for share := 0.0; share <= 1; share += 0.125 {
			x := w.Low + share*(w.High-w.Low)
			pose, ok := w.At(x)
			require.True(t, ok, text)
			exactly := 1e-12 * run.Size()
			if share == 0 || share == 1 {
				exactly = 1e-9 * run.Size() // on center its place is a limit
			}
			for _, rod := range run.Rods {
				require.InDelta(t, rod.Length, pose.Point(rod.To).Sub(pose.Point(rod.From)).Norm(), exactly, "%s at %v\n%s", rod.Name, x, text)
			}
			for _, j := range run.Joints {
				require.Less(t, pose.Point(j.Of[0]).Sub(pose.Point(j.Of[1])).Norm(), exactly, "%s at %v\n%s", j.Name, x, text)
			}
			sample, ok := w.Sample(x)
			require.True(t, ok)
			for i, v := range sample.Values {
				require.False(t, v != nil && (math.IsNaN(*v) || math.IsInf(*v, 0)), "value %d at %v\n%s", i, x, text)
			}
		}
		compared += compareGradients(t, random, drawnRun{text: text}, 1, 1)
	})
	t.Logf("%d swept, %d compared", swept, compared)
}
