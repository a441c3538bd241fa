package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"fullfree/linkage/hunt"
)

// lineCell is the eight-bar cell of straightLineCell with any long and short bars
// and any driver, turned and moved anyhow. Its tracing point keeps to a line that
// is square to the line through both fixed centers: an output "off" reads how far
// it strays from it, and needs no reading elsewhere, for it is 0 as drawn.
func lineCell(random *rand.Rand) (d drawing, ok bool) {
	long := 3 + 4*random.Float64()
	short := long * (0.3 + 0.5*random.Float64())
	crank := (long - short) * (0.55 + 2*random.Float64())
	at0 := 20 + 120*random.Float64()
	p := at(crank, 0).Add(polar(crank, at0))
	r := p.Norm()
	if r < long-short+0.05 || r > long+short-0.05 {
		return d, false
	}
	u := p.Scale(1 / r)
	power := long*long - short*short
	q := u.Scale(power / r)
	along := (r + power/r) / 2
	off := square(u).Scale(math.Sqrt(long*long - along*along))
	d = drawing{
		bodies: []body{
			hinge("lever", at(crank, 0), spot{"p", p}),
			hinge("upper", at(0, 0), spot{"b", u.Scale(along).Add(off)}),
			hinge("lower", at(0, 0), spot{"d", u.Scale(along).Sub(off)}),
			{name: "short", on: "upper.b", points: []spot{{"q", q}}},
		},
		bars: []bar{
			{name: "upper-link", from: "upper.b", to: "lever.p"},
			{name: "lower-link", from: "lower.d", to: "lever.p"},
			{name: "last-link", from: "lower.d", to: "short.q"},
		},
	}
	turned, moved := 360*random.Float64(), at(200*random.Float64(), 200*random.Float64())
	d = d.moved(motion{place: func(v vec) vec { return rotate(v, at3(0, 0, 1), turned).Add(moved) }})
	return d.with(fmt.Sprintf("output \"off\" {\n  of = short.q\n  along = %s\n}\n", write(polar(1, turned)))).scaled(anySize(random)), true
}

// onLine is how far off the exact line the tracing point may be told, as a share of
// the drawing's size: beside a fold it hangs on the small difference of two places.
const onLine = 1e-8

// TestHuntStraightLine: the tracing point keeps to the line over the whole travel,
// and where it ends too: where the cell folds, its own rods tell no more where the
// point is (elementary, as TestOutsideStraightLineCell).
func TestHuntStraightLine(t *testing.T) {
	ends := 0
	hunt.Each(t, 100, func(t *testing.T, random *rand.Rand) {
		d, ok := lineCell(random)
		if !ok {
			return
		}
		text := d.with(control("lever", -170, 170)).text()
		_, s := sweepOf(t, text)
		size := newModel(d, "lever").size
		off := outputOf(t, s, "off")
		for i, v := range []float64{off.Least, off.Most, off.AtLow, off.AtHigh} {
			nearf(t, 0, v/size, onLine, "least, most, at the low end, at the high end: number %d; ends %v\n%s", i+1, s.Ends, text)
		}
		for _, end := range s.Ends {
			if end.Cause != "explored" {
				ends++
			}
		}
	})
	t.Logf("%d ends on center", ends)
}
