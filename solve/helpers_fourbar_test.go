package solve_test

import (
	"fmt"
	"math"
)

// fourBar is a four-bar linkage: pivots at (0, 0) and (ground, 0), angles
// anticlockwise from the line from the one to the other, degrees.
type fourBar struct {
	ground, crank, coupler, rocker float64
	crossed                        bool
}

// joint returns where coupler and rocker meet: a crossing of two circles, to
// the left of the line from the crank's pin to the far pivot in the open
// assembly, to the right in the crossed one. false: it doesn't close.
func (f fourBar) joint(crank float64) (vec, bool) {
	pin := polar(f.crank, crank)
	to := at(f.ground, 0).Sub(pin)
	r := to.Norm()
	along := (r*r + f.coupler*f.coupler - f.rocker*f.rocker) / (2 * r)
	off := f.coupler*f.coupler - along*along
	if off < 0 {
		return vec{}, false
	}
	h := math.Sqrt(off)
	if f.crossed {
		h = -h
	}
	u := to.Scale(1 / r)
	return pin.Add(u.Scale(along)).Add(square(u).Scale(h)), true
}

// angles returns the directions of coupler and rocker.
func (f fourBar) angles(crank float64) (coupler, rocker float64) {
	j, _ := f.joint(crank)
	return heading(polar(f.crank, crank), j), heading(at(f.ground, 0), j)
}

// mu returns the acute angle between coupler and rocker.
func (f fourBar) mu(crank float64) float64 {
	coupler, rocker := f.angles(crank)
	m := math.Mod(math.Abs(rocker-coupler), 180)
	return math.Min(m, 180-m)
}

// rates returns d(coupler)/d(crank) and d(rocker)/d(crank): the loop's
// equation differentiated.
func (f fourBar) rates(crank float64) (coupler, rocker float64) {
	t3, t4 := f.angles(crank)
	s := math.Sin(rad(t4 - t3))
	return -f.crank * math.Sin(rad(t4-crank)) / (f.coupler * s), f.crank * math.Sin(rad(crank-t3)) / (f.rocker * s)
}

// draw returns the linkage drawn with its crank at an angle. The rod's point
// "trace" is on the coupler's line, reach times its length from the crank's
// pin; the outputs "trace-x" and "trace-y" read its coordinates.
func (f fourBar) draw(crank, reach float64) drawing {
	pin := polar(f.crank, crank)
	joint, ok := f.joint(crank)
	if !ok {
		panic(fmt.Sprintf("test: %+v doesn't close at %v", f, crank))
	}
	trace := between(pin, joint, reach)
	return drawing{
		bodies: []body{
			hinge("crank", at(0, 0), spot{"pin", pin}),
			hinge("rocker", at(f.ground, 0), spot{"pin", joint}),
		},
		bars: []bar{{name: "coupler", from: "crank.pin", to: "rocker.pin", points: []spot{{"trace", trace}}}},
		rest: []string{
			"output \"rocker-turn\" {\n  of = rocker\n}\n",
			fmt.Sprintf("output \"trace-x\" {\n  of = coupler.trace\n  along = [1, 0]\n  reads = %s\n}\n", num(trace.X)),
			fmt.Sprintf("output \"trace-y\" {\n  of = coupler.trace\n  along = [0, 1]\n  reads = %s\n}\n", num(trace.Y)),
		},
	}
}

// control returns the block of the control "hand".
func control(of string, from, to float64) string {
	return fmt.Sprintf("control \"hand\" {\n  of = %s\n  from = %s\n  to = %s\n}\n", of, num(from), num(to))
}

// demand returns a requirement's block.
func demand(kind string, attributes string) string {
	return fmt.Sprintf("require %q {\n  %s\n}\n", kind, attributes)
}
