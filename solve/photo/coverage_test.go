package photo

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/linkage/hunt"
	"fullfree/solve/photo/sample"
)

// setup is what a builder does: from where the photo is taken, and what is measured.
type setup struct {
	name          string
	camera        func(random *rand.Rand) sample.Camera
	tapes, levels int
	depth         float64 // how far holes stand before or behind the plane
	told          bool    // whether their depths are told
	away          bool    // whether the camera's distance is told
}

// usually draws a camera as likely as the prior has it, of those that see as much as the
// smallest run: of less, depths that aren't told are as large as the run itself.
func usually(random *rand.Rand) sample.Camera {
	normal := random.NormFloat64
	for {
		c := sample.Phone(usualAway * math.Exp(awaySigma*normal()))
		c.Yaw, c.Pitch, c.Roll = tiltSigma*normal(), tiltSigma*normal(), rollSigma*normal()
		c.Lens, c.Barrel = usualLens*math.Exp(lensSigma*normal()), bendSigma*normal()
		c.AsideX, c.AsideY = axisSigma*c.Width*normal(), axisSigma*c.Width*normal()
		if high(c) >= smallest/2 {
			return c
		}
	}
}

// smallest is how high the smallest run is that is photographed, in millimeters.
const smallest = 300

// high is half of how high a run is that a camera photographs: so much that it sees all of
// it, and a meter at most.
func high(c sample.Camera) float64 { return min(500, 0.42*c.Height/c.Scale()) }

// from is a camera that is tilted by so much to any side, so far away, with such a lens.
func from(tilt, away, lens float64) func(*rand.Rand) sample.Camera {
	return func(random *rand.Rand) sample.Camera {
		c := sample.Phone(away)
		aim := 2 * math.Pi * random.Float64()
		c.Yaw, c.Pitch, c.Roll = tilt*math.Cos(aim), tilt*math.Sin(aim), rollSigma*random.NormFloat64()
		c.Lens, c.Barrel = lens, 0.005
		return c
	}
}

const coverageHoles = 9

// photograph draws a run of a meter at most that the camera sees all of, and photographs
// and measures it as a person does.
func (s *setup) photograph(random *rand.Rand) (Photo, []hole) {
	c := s.camera(random)
	high := high(c)
	var holes []hole
	for range coverageHoles {
		h := hole{1.2 * high * (2*random.Float64() - 1), high * (2*random.Float64() - 1), min(s.depth, 0.2*c.Away) * float64(random.IntN(3)-1)}
		if !s.told {
			h[2] = guessedDepth * random.NormFloat64()
		}
		holes = append(holes, h)
	}
	p := taken(c, holes)
	for i := range p.Picks {
		if !s.told {
			p.Picks[i].Depth, p.Picks[i].DepthKnown = 0, false
		}
	}
	for len(p.Tapes) < s.tapes {
		if a, b := random.IntN(coverageHoles), random.IntN(coverageHoles); a != b && holes[a].to(holes[b]) > 0.7*high {
			p.Tapes = append(p.Tapes, Distance{From: a, To: b, Is: holes[a].to(holes[b]), Within: 2})
		}
	}
	for range s.levels {
		a, b := random.IntN(coverageHoles), random.IntN(coverageHoles)
		if math.Hypot(holes[a][0]-holes[b][0], holes[a][1]-holes[b][1]) > high/4 {
			p.gauge(holes, a, b)
		}
	}
	if s.away {
		p.Away = c.Away
	}
	return shaken(p, random), holes
}

// setups are cameras as the prior has them, and those that a builder really uses where that
// is hard on the prior.
func setups() []setup {
	list := []setup{
		{"usual", usually, 1, 1, 100, true, false},
		{"usual", usually, 1, 1, 0, false, false},
		{"usual", usually, 2, 1, 100, true, false},
		{"usual", usually, 3, 0, 0, false, true},
		{"usual", usually, 4, 1, 100, true, true},
		{"usual", usually, 8, 1, 100, true, false},
		{"usual", usually, 8, 1, 0, false, false},
	}
	for _, tilt := range []float64{0, 3, 8, 12} {
		name := fmt.Sprintf("%g degrees from square", tilt)
		for _, at := range [][2]float64{{700, 24}, {2000, 26}, {2000, 52}, {4000, 75}} {
			camera := from(tilt, at[0], at[1])
			list = append(list,
				setup{name, camera, 2, 1, 100, true, true},
				setup{name, camera, 2, 0, 0, true, false},
				setup{name, camera, 4, 1, 100, true, false},
				setup{name, camera, 4, 1, 100, true, true},
				setup{name, camera, 3, 1, 0, false, false})
		}
	}
	return list
}

// counted is how many coordinates lay within two of their standard deviations.
type counted struct {
	within, of     int
	largest, shape float64 // sums over photos
	photos         int
}

func (c *counted) add(t *testing.T, s *setup, random *rand.Rand) {
	t.Helper()
	p, holes := s.photograph(random)
	found, err := Adjust(p)
	if !assert.NoError(t, err, "%s: %+v", s.name, p) {
		return
	}
	c.photos++
	c.largest += found.Largest
	c.shape += found.LargestShape
	for i, at := range found.Places[1:] {
		c.of += 2
		if math.Abs(at.X-(holes[i+1][0]-holes[0][0])) <= 2*at.SigmaX {
			c.within++
		}
		if math.Abs(at.Y-(holes[i+1][1]-holes[0][1])) <= 2*at.SigmaY {
			c.within++
		}
	}
}

func (c *counted) share() float64 { return float64(c.within) / float64(c.of) }

// True places lie within two standard deviations in 95 percent of photos, whatever the
// camera and whatever is measured: brute force. With -rounds 40 each setup by itself is
// counted well enough: the usual ones have 95 to 97 percent, the others 95 to 99.8.
func TestHuntCoverage(t *testing.T) {
	// enough is how many photos tell the share to within slack: sixteen coordinates of each,
	// that go together. least is what 95 may be by chance and by cameras of the prior's tail.
	const least, enough, slack, few = 0.95, 60, 0.03, 8
	list := setups()
	counts, groups := make([]counted, len(list)), map[string]*counted{}
	run := 0
	hunt.Each(t, few*len(list), func(t *testing.T, random *rand.Rand) {
		i := run % len(list)
		if groups[list[i].name] == nil {
			groups[list[i].name] = &counted{}
		}
		counts[i].add(t, &list[i], random)
		run++
	})
	var all counted
	for i, c := range counts {
		s := &list[i]
		if c.photos > 0 {
			t.Logf("%-24s tapes %d levels %d depths told %-5v distance told %-5v: %5.1f %% within, largest %4.1f mm, shape %4.1f mm",
				s.name, s.tapes, s.levels, s.told, s.away, 100*c.share(), c.largest/float64(c.photos), c.shape/float64(c.photos))
		}
		if c.photos >= 4*enough {
			assert.Greater(t, c.share(), least-slack/2, s.name)
		}
		for _, of := range []*counted{&all, groups[s.name]} {
			if of != nil {
				of.within, of.of, of.photos = of.within+c.within, of.of+c.of, of.photos+c.photos
			}
		}
	}
	for name, c := range groups {
		if c.photos >= enough {
			assert.Greater(t, c.share(), least-slack, name)
		}
	}
	if all.photos >= enough {
		assert.Greater(t, all.share(), least)
	}
}
