package photo

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"fullfree/solve/photo/sample"
)

func TestExplore(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	c := sample.Phone(2000)
	c.Yaw, c.Pitch, c.Roll = 8, 3, 1
	xs := [][3]float64{{0, 0, 0}, {400, 30, 100}, {450, 350, 0}, {0, 330, -100}, {200, -250, 0}, {-400, -150, 0}, {-420, 280, 0}}
	p := Photo{Width: c.Width, Height: c.Height, Unit: 1}
	for _, x := range xs {
		px, py := c.See(x[0], x[1], x[2])
		s := p.pickSigma()
		p.Picks = append(p.Picks, Pick{X: px + s*random.NormFloat64(), Y: py + s*random.NormFloat64(), Depth: x[2], DepthKnown: true})
	}
	ends := [][2]int{{5, 1}, {4, 2}, {6, 2}, {5, 6}, {0, 3}}
	for k := 1; k <= len(ends); k++ {
		p.Tapes = nil
		for _, e := range ends[:k] {
			a, b := xs[e[0]], xs[e[1]]
			is := math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
			p.Tapes = append(p.Tapes, Distance{e[0], e[1], is, 2})
		}
		start := time.Now()
		f, err := Adjust(p)
		fmt.Println(k, err, time.Since(start))
		if err != nil {
			continue
		}
		fmt.Printf("tilt %.2f±%.2f told %v away %.0f±%.0f roll %.2f±%.2f largest %.2f shape %.2f\n", f.Tilt, f.TiltSigma, f.TiltTold, f.Away, f.AwaySigma, f.Roll, f.RollSigma, f.Largest, f.LargestShape)
		for i, q := range f.Places {
			fmt.Printf("   %7.1f %7.1f  off %6.2f %6.2f  sigma %5.2f %5.2f shape %.2f\n", q.X, q.Y, q.X-xs[i][0], q.Y-xs[i][1], q.SigmaX, q.SigmaY, q.Shape)
		}
		for _, c := range f.Tapes {
			fmt.Printf("   tape %+v\n", c)
		}
	}
}
