package find

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage/hunt"
)

// A linear program against all corners of its bounds, each solved by gonum/mat; many of
// the bounds go through the same corner.
func TestHuntMaximizeAgainstEveryCorner(t *testing.T) {
	hunt.Each(t, 200, func(t *testing.T, random *rand.Rand) {
		n, m := 1+random.IntN(3), 1+random.IntN(6)
		var a [][]float64
		var b []float64
		for range m {
			row := make([]float64, n)
			for k := range row {
				row[k] = math.Round(4*random.NormFloat64()) / 2
			}
			a, b = append(a, row), append(b, math.Round(4*random.Float64())/2)
		}
		for k := range n { // so that there is a largest
			row := make([]float64, n)
			row[k] = 1
			a, b = append(a, row), append(b, 1+random.Float64())
		}
		c := make([]float64, n)
		for k := range c {
			c[k] = random.NormFloat64()
		}
		value := func(x []float64) (sum float64) {
			for k := range x {
				sum += c[k] * x[k]
			}
			return sum
		}
		var planes [][]float64
		var at []float64
		for i := range a {
			planes, at = append(planes, append([]float64(nil), a[i]...)), append(at, b[i])
		}
		for k := range n {
			row := make([]float64, n)
			row[k] = -1
			planes, at = append(planes, row), append(at, 0)
		}
		within := func(x []float64) bool {
			for i, row := range planes {
				sum := 0.0
				for k := range x {
					sum += row[k] * x[k]
				}
				if sum > at[i]+1e-9 {
					return false
				}
			}
			return true
		}
		best := math.Inf(-1)
		chosen := make([]int, n)
		var each func(k, from int)
		each = func(k, from int) {
			if k < n {
				for i := from; i < len(planes); i++ {
					chosen[k] = i
					each(k+1, i+1)
				}
				return
			}
			matrix, right := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
			for k, i := range chosen {
				matrix.SetRow(k, planes[i])
				right.SetVec(k, at[i])
			}
			var x mat.VecDense
			if math.Abs(mat.Det(matrix)) < 1e-9 || x.SolveVec(matrix, right) != nil {
				return
			}
			if corner := x.RawVector().Data; within(corner) {
				best = math.Max(best, value(corner))
			}
		}
		each(0, 0)
		gains := append([]float64(nil), c...)
		x := maximize(a, append([]float64(nil), b...), gains)
		assert.True(t, within(x), "%v", x)
		assert.InDelta(t, best, value(x), 1e-8)
	})
}
