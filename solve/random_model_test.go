package solve_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// model closes a drawing without the solver: the turns and travels of all
// moving parts are whatever makes the rods' lengths right, found by a general
// minimizer on the raw distances, from a start near by. It knows nothing of
// blocks, branches or singular places.
type model struct {
	d       drawing
	index   map[string]int // bodies by name
	offset  []int          // of each body in the unknowns; -1: none
	n       int
	control int     // body
	size    float64 // of the drawing
}

func newModel(d drawing, controlled string) *model {
	m := &model{d: d, index: map[string]int{}, control: -1}
	for i, b := range d.bodies {
		m.index[b.name] = i
		m.offset = append(m.offset, -1)
		for _, p := range b.points {
			m.size = math.Max(m.size, p.at.Norm())
		}
		switch {
		case b.name == controlled:
			m.control = i
		case b.fixed:
		default:
			m.offset[i] = m.n
			m.n += b.unknowns()
		}
	}
	return m
}

// unknowns are how many numbers say where a body stands: of what tilts any way a rotation vector,
// after a shift where it is loose in space.
func (b *body) unknowns() int {
	switch {
	case b.roams:
		return 6
	case b.ball, b.pivot == nil && b.slide == nil && b.on == "":
		return 3
	case b.sleeve:
		return 2 // its slide and its turn
	}
	return 1
}

// turnBy turns v by a rotation vector.
func turnBy(v vec, by []float64) vec {
	k := at3(by[0], by[1], by[2])
	if angle := k.Norm(); angle > 0 {
		return rotate(v, k.Scale(1/angle), deg(angle))
	}
	return v
}

// point returns where a point as drawn is named.
func (m *model) drawn(name string) (owner int, at vec) {
	part, point, _ := strings.Cut(name, ".")
	owner = m.index[part]
	for _, p := range m.d.bodies[owner].points {
		if p.name == point {
			return owner, p.at
		}
	}
	panic("test: no point " + name)
}

// place returns where a place of a body, as drawn, is: hand is the control,
// radians or a length, x the unknowns.
func (m *model) place(owner int, p vec, hand float64, x []float64) vec {
	b := m.d.bodies[owner]
	if b.fixed {
		return p
	}
	u := hand
	if owner != m.control {
		u = x[m.offset[owner]]
	}
	carrier, pivot := -1, vec{}
	if b.pivot != nil {
		pivot = *b.pivot
	}
	if b.on != "" {
		carrier, pivot = m.drawn(b.on)
	}
	switch {
	case b.roams:
		o := m.offset[owner]
		about := b.points[0].at
		p = about.Add(turnBy(p.Sub(about), x[o+3:])).Add(at3(x[o], x[o+1], x[o+2]))
	case b.ball:
		p = pivot.Add(turnBy(p.Sub(pivot), x[m.offset[owner]:]))
	case b.sleeve:
		axis := b.axis.Unit()
		p = pivot.Add(rotate(p.Sub(pivot), axis, deg(x[m.offset[owner]+1]))).Add(axis.Scale(u))
	case b.slide != nil:
		p = p.Add(b.slide.Unit().Scale(u))
	case b.pivot != nil || b.on != "":
		axis := at3(0, 0, 1)
		if b.axis != nil {
			axis = b.axis.Unit()
		}
		p = pivot.Add(rotate(p.Sub(pivot), axis, deg(u)))
	default:
		o := m.offset[owner]
		about := b.points[0].at
		p = about.Add(rotate(p.Sub(about), at3(0, 0, 1), deg(x[o+2]))).Add(at(x[o], x[o+1]))
	}
	if carrier >= 0 {
		return m.place(carrier, p, hand, x)
	}
	return p
}

// end returns where a rod's end is: a point of a body, or of another rod.
func (m *model) end(name string, hand float64, x []float64) vec {
	owner, point, _ := strings.Cut(name, ".")
	for _, r := range m.d.bars {
		if r.name != owner {
			continue
		}
		i := slices.IndexFunc(r.points, func(s spot) bool { return s.name == point })
		_, from := m.drawn(r.from)
		_, to := m.drawn(r.to)
		u := to.Sub(from).Unit()
		v := r.points[i].at.Sub(from)
		a, b := m.end(r.from, hand, x), m.end(r.to, hand, x)
		w := b.Sub(a).Unit()
		return a.Add(w.Scale(v.Dot(u))).Add(square(w).Scale(v.Dot(square(u))))
	}
	i, p := m.drawn(name)
	return m.place(i, p, hand, x)
}

// length returns a rod's set length.
func (m *model) length(r bar) float64 {
	if r.length != 0 {
		return r.length
	}
	zero := make([]float64, m.n)
	return distance(m.end(r.from, 0, zero), m.end(r.to, 0, zero))
}

// equations are how many there are: each rod one, each joint three.
func (m *model) equations() int { return len(m.d.bars) + 3*len(m.d.pins) }

// off fills in by how much each rod is too long, and how far apart the points of each joint are, in
// sizes of the drawing.
func (m *model) off(e, lengths []float64, hand float64, x []float64) {
	for i, r := range m.d.bars {
		e[i] = (distance(m.end(r.from, hand, x), m.end(r.to, hand, x)) - lengths[i]) / m.size
	}
	for i, p := range m.d.pins {
		apart := m.end(p[0], hand, x).Sub(m.end(p[1], hand, x)).Scale(1 / m.size)
		copy(e[len(m.d.bars)+3*i:], []float64{apart.X, apart.Y, apart.Z})
	}
}

// scales makes lengths and angles of about the same size: unknowns of slides
// and floating parts are in sizes of the drawing.
func (m *model) scales() []float64 {
	s := make([]float64, m.n)
	for i, o := range m.offset {
		b := m.d.bodies[i]
		switch {
		case o < 0:
		case b.roams:
			copy(s[o:], []float64{m.size, m.size, m.size, 1, 1, 1})
		case b.ball:
			copy(s[o:], []float64{1, 1, 1})
		case b.sleeve:
			s[o], s[o+1] = m.size, 1
		case b.slide != nil:
			s[o] = m.size
		case b.pivot == nil && b.on == "":
			s[o], s[o+1], s[o+2] = m.size, m.size, 1
		default:
			s[o] = 1
		}
	}
	return s
}

// modelDigits is how well the minimizer closes the rods, relative to the size
// of the drawing: its gradient is by differences.
const modelDigits = 1e-9

// step closes the drawing with the control at hand (radians or a length),
// starting at from. false: it does not close there, or the minimizer did not get to it.
func (m *model) step(hand float64, from []float64) ([]float64, bool) {
	scale := m.scales()
	x := make([]float64, m.n)
	lengths := make([]float64, len(m.d.bars))
	for i, r := range m.d.bars {
		lengths[i] = m.length(r)
	}
	off := make([]float64, m.equations())
	open := func(u []float64) (sum, worst float64) {
		for i := range u {
			x[i] = u[i] * scale[i]
		}
		m.off(off, lengths, hand, x)
		for _, e := range off {
			sum += e * e
			worst = math.Max(worst, math.Abs(e))
		}
		return sum, worst
	}
	f := func(u []float64) float64 { sum, _ := open(u); return sum }
	problem := optimize.Problem{
		Func: f,
		Grad: func(grad, u []float64) { fd.Gradient(grad, f, u, &fd.Settings{Formula: fd.Central}) },
	}
	start := make([]float64, m.n)
	for i := range start {
		start[i] = from[i] / scale[i]
	}
	// A stop at noise (an error) is where it can get; how well the rods close says how good that is.
	result, _ := optimize.Minimize(problem, start, &optimize.Settings{GradientThreshold: 1e-13, MajorIterations: 200}, &optimize.BFGS{})
	if result == nil {
		return nil, false
	}
	sum, worst := open(result.X)
	if math.IsNaN(sum) || worst > modelDigits {
		return nil, false
	}
	return slices.Clone(x), true
}

// hand returns a position of the control, degrees or a length, as the model
// takes it.
func (m *model) hand(x float64) float64 {
	if m.d.bodies[m.control].slide == nil {
		return rad(x)
	}
	return x
}

// leap is how much farther than the control, both in sizes of the drawing, any
// unknown may go in a step: a minimizer's first try may land in another
// assembly.
const leap = 20

// follow closes the drawing at each of the control's positions in turn, from
// the drawn position on, in small steps. It returns fewer where it no longer
// closes, or leaps.
func (m *model) follow(hands []float64) (out [][]float64) {
	const step = 0.5 // degrees, or units of length
	x, last := make([]float64, m.n), 0.0
	for _, h := range hands {
		steps := 1 + int(math.Abs(h-last)/step)
		for k := range steps {
			y, ok := m.step(m.hand(last+(h-last)*float64(k+1)/float64(steps)), x)
			if !ok {
				return out
			}
			reach := math.Abs(m.hand(h - last))
			if m.d.bodies[m.control].slide != nil {
				reach /= m.size
			}
			for i, scale := range m.scales() {
				if reach > 0 && math.Abs(y[i]-x[i])/scale > leap*reach/float64(steps) {
					return out
				}
			}
			x = y
		}
		last = h
		out = append(out, x)
	}
	return out
}

// stiffness returns the least singular value of the rods' lengths by the
// unknowns, both in sizes of the drawing: 0 at a toggle.
func (m *model) stiffness(hand float64, x []float64) float64 {
	if m.n == 0 {
		return math.Inf(1)
	}
	scale := m.scales()
	u := make([]float64, m.n)
	for i := range u {
		u[i] = x[i] / scale[i]
	}
	jacobian := mat.NewDense(m.equations(), m.n, nil)
	lengths := make([]float64, len(m.d.bars))
	fd.Jacobian(jacobian, func(y, u []float64) {
		z := make([]float64, m.n)
		for i := range z {
			z[i] = u[i] * scale[i]
		}
		m.off(y, lengths, m.hand(hand), z)
	}, u, &fd.JacobianSettings{Formula: fd.Central})
	var svd mat.SVD
	if !svd.Factorize(jacobian, mat.SVDNone) {
		return 0
	}
	return slices.Min(svd.Values(nil))
}

// compare compares every point of the drawing with the solver's.
func (m *model) compare(t *testing.T, place func(name string) vec, hand float64, x []float64, tolerance float64, about string) {
	t.Helper()
	for _, b := range m.d.bodies {
		for _, p := range b.points {
			name := b.name + "." + p.name
			got, want := place(name), m.end(name, m.hand(hand), x)
			require.InDelta(t, 0, distance(got, want), tolerance*m.size, fmt.Sprintf("%s: %s: %v, the minimizer %v", about, name, got, want))
		}
	}
}
