package photo

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"fullfree/solve/photo/sample"
)

func TestExplore2(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	const draws = 100
	type draw func() sample.Camera
	normal := random.NormFloat64
	fromPrior := func(c sample.Camera) sample.Camera {
		c.Yaw, c.Pitch, c.Roll = 6*normal(), 6*normal(), 2.5*normal()
		c.Lens = 30 * math.Exp(.5*normal())
		c.Away = 1500 * math.Exp(.7*normal())
		c.Barrel = .005 * normal()
		c.AsideX, c.AsideY = .01*c.Width*normal(), .01*c.Width*normal()
		return c
	}
	fixed := func(tilt, away, lens, barrel float64) draw {
		return func() sample.Camera {
			c := sample.Phone(away)
			toward := 2 * math.Pi * random.Float64()
			c.Yaw, c.Pitch = tilt*math.Cos(toward), tilt*math.Sin(toward)
			c.Roll, c.Lens, c.Barrel = 2.5*normal(), lens, barrel
			return c
		}
	}
	run := func(name string, d draw, tapes, levels int, depthSize float64, told, away bool) {
		in, all, bad, tsum := 0, 0, 0, 0
		largest, shape := 0.0, 0.0
		errs2 := 0.0
		for range draws {
			c := d()
			// a run that fills 60 % of the photo's height at most, 1 m at most
			size := math.Min(500, 0.42*c.Height/c.Scale())
			p := Photo{Width: c.Width, Height: c.Height, Unit: 1}
			var xs [][3]float64
			for range 9 {
				x := [3]float64{size * (2*random.Float64() - 1) * 1.2, size * (2*random.Float64() - 1), 0}
				if depthSize > 0 {
					x[2] = min(depthSize, 0.2*c.Away) * float64(random.IntN(3)-1)
				}
				if !told {
					x[2] = 25 * normal()
				}
				xs = append(xs, x)
				px, py := c.See(x[0], x[1], x[2])
				s := p.pickSigma()
				pick := Pick{X: px + s*normal(), Y: py + s*normal(), DepthKnown: told}
				if told {
					pick.Depth = x[2] + 2.5*normal()
				}
				if pick.X < 0 || pick.Y < 0 || pick.X > p.Width || pick.Y > p.Height {
					bad++
					pick.X = min(max(pick.X, 0), p.Width)
					pick.Y = min(max(pick.Y, 0), p.Height)
				}
				p.Picks = append(p.Picks, pick)
			}
			for len(p.Tapes) < tapes {
				i, j := random.IntN(9), random.IntN(9)
				a, b := xs[i], xs[j]
				is := math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
				if i == j || is < size*.7 {
					continue
				}
				p.Tapes = append(p.Tapes, Distance{i, j, is + normal(), 2})
			}
			for range levels {
				i, j := 0, 1
				a, b := xs[i], xs[j]
				p.Levels = append(p.Levels, Level{i, j, math.Atan2(b[1]-a[1], b[0]-a[0])*180/math.Pi + .25*normal(), .5})
			}
			if away {
				p.Away = c.Away * (1 + .05*normal())
			}
			f, err := Adjust(p)
			if err != nil {
				fmt.Println(name, err)
				if err.(*Error).Reason == Unsettled {
				newNetwork(&p, p.usual()).debug()
				}
				continue
			}
			largest += f.Largest / draws
			shape += f.LargestShape / draws
			if f.TiltTold {
				tsum++
			}
			for i, q := range f.Places {
				if i == 0 {
					continue
				}
				ex, ey := (q.X-(xs[i][0]-xs[0][0]))/q.SigmaX, (q.Y-(xs[i][1]-xs[0][1]))/q.SigmaY
				all += 2
				if math.Abs(ex) <= 2 {
					in++
				}
				if math.Abs(ey) <= 2 {
					in++
				}
				errs2 += ex*ex + ey*ey
			}
		}
		fmt.Printf("%-34s tapes %d levels %d told %-5v away %-5v: within %5.1f %%  rms %.2f  largest %5.1f shape %5.1f tilt told %3d outside %d\n", name, tapes, levels, told, away, 100*float64(in)/float64(all), math.Sqrt(errs2/float64(all)), largest, shape, tsum, bad)
	}
	for _, k := range []int{1, 2, 4, 8} {
		for _, told := range []bool{true, false} {
			run("prior", func() sample.Camera { return fromPrior(sample.Phone(1)) }, k, k%2, 100, told, k == 4)
		}
	}
	for _, tilt := range []float64{0, 3, 8, 12} {
		for _, al := range [][2]float64{{700, 24}, {2000, 26}, {2000, 52}, {4000, 75}} {
			for _, k := range []int{2, 4} {
				run(fmt.Sprintf("tilt %g away %g lens %g", tilt, al[0], al[1]), fixed(tilt, al[0], al[1], .005), k, 1, 100, true, false)
				run(fmt.Sprintf("tilt %g away %g lens %g", tilt, al[0], al[1]), fixed(tilt, al[0], al[1], .005), k, 1, 100, true, true)
			}
			run(fmt.Sprintf("tilt %g away %g lens %g", tilt, al[0], al[1]), fixed(tilt, al[0], al[1], .01), 2, 0, 0, true, false)
			run(fmt.Sprintf("tilt %g away %g lens %g", tilt, al[0], al[1]), fixed(tilt, al[0], al[1], .005), 3, 1, 100, false, false)
		}
	}
}
