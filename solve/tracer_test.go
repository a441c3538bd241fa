package solve_test

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
)

// tracer follows a drawing along its own curve, knowing nothing but the raw
// distances of its rods: the control's position and every unknown at once, in
// steps that are short against how the curve bends, with gonum's singular value
// decomposition for the tangent. It is slow and sure where the curve is regular.
type tracer struct {
	m       *model
	lengths []float64
	scale   []float64 // of the unknowns, then of the control
}

const (
	// traceStep is the longest step, in radians and sizes of the drawing.
	traceStep = 0.02
	// traceTurn is the cosine of the most that the tangent may turn in a step.
	traceTurn = 0.998
	// traceRegular is the least singular value with which a place is regular: below
	// it two curves may cross, and the tracer is no judge.
	traceRegular = 3e-3
	// traceDigits is how well the rods are closed, in sizes of the drawing.
	traceDigits = 1e-12
)

// fivePoints is the central difference of the fourth order (Abramowitz and Stegun,
// Handbook of Mathematical Functions, 25.3.6, from memory).
var fivePoints = fd.Formula{
	Stencil:    []fd.Point{{Loc: -2, Coeff: 1.0 / 12}, {Loc: -1, Coeff: -8.0 / 12}, {Loc: 1, Coeff: 8.0 / 12}, {Loc: 2, Coeff: -1.0 / 12}},
	Derivative: 1,
	Step:       5e-4,
}

// place is a place of the curve, in units that compare, control last.
type place struct {
	y, tangent []float64
}

func newTracer(m *model) *tracer {
	tr := &tracer{m: m, scale: append(m.scales(), 1)}
	if m.d.bodies[m.control].slide != nil {
		tr.scale[m.n] = m.size
	}
	for _, r := range m.d.bars {
		tr.lengths = append(tr.lengths, m.length(r))
	}
	return tr
}

// open returns by how much each rod is too long, in sizes of the drawing.
func (tr *tracer) open(e, y []float64) {
	x := make([]float64, tr.m.n)
	for i := range x {
		x[i] = y[i] * tr.scale[i]
	}
	hand := y[tr.m.n] * tr.scale[tr.m.n]
	tr.m.off(e, tr.lengths, hand, x)
}

func (tr *tracer) jacobian(y []float64) *mat.Dense {
	j := mat.NewDense(tr.m.equations(), len(y), nil)
	fd.Jacobian(j, tr.open, y, &fd.JacobianSettings{Formula: fivePoints, Step: 5e-4})
	return j
}

// tangent returns the direction of the curve, on from the last one, and the least
// singular value of the others.
func (tr *tracer) tangent(y, last []float64) (t []float64, least float64, ok bool) {
	var svd mat.SVD
	if !svd.Factorize(tr.jacobian(y), mat.SVDFull) {
		return nil, 0, false
	}
	values := svd.Values(nil)
	var v mat.Dense
	svd.VTo(&v)
	t = mat.Col(nil, len(y)-1, &v)
	along := 0.0
	for i := range t {
		along += t[i] * last[i]
	}
	if along < 0 {
		for i := range t {
			t[i] = -t[i]
		}
	}
	return t, slices.Min(values), true
}

// correct closes the rods from y, square to the tangent.
func (tr *tracer) correct(y, tangent []float64) bool {
	n := len(y)
	start := slices.Clone(y)
	e := make([]float64, n-1)
	last := math.Inf(1)
	for range 30 {
		tr.open(e, y)
		worst := 0.0
		for _, v := range e {
			worst = math.Max(worst, math.Abs(v))
		}
		if math.IsNaN(worst) {
			return false
		}
		if worst < traceDigits/100 || worst < traceDigits && worst >= last/2 {
			return true
		}
		last = worst
		square := mat.NewDense(n, n, nil)
		square.Slice(0, n-1, 0, n).(*mat.Dense).Copy(tr.jacobian(y))
		square.SetRow(n-1, tangent)
		off := 0.0
		for i := range y {
			off += (y[i] - start[i]) * tangent[i]
		}
		var change mat.VecDense
		if change.SolveVec(square, mat.NewVecDense(n, append(slices.Clone(e), off))) != nil {
			return false
		}
		for i := range y {
			y[i] -= change.AtVec(i)
		}
	}
	return false
}

// step goes one length along the curve. ok is false where that doesn't surely
// stay on it.
func (tr *tracer) step(from place, length float64) (to place, least float64, ok bool) {
	y := slices.Clone(from.y)
	for i := range y {
		y[i] += length * from.tangent[i]
	}
	if !tr.correct(y, from.tangent) {
		return place{}, 0, false
	}
	t, least, ok := tr.tangent(y, from.tangent)
	if !ok {
		return place{}, 0, false
	}
	turned, miss := 0.0, 0.0
	for i := range y {
		turned += t[i] * from.tangent[i]
		d := y[i] - from.y[i] - length/2*(t[i]+from.tangent[i])
		miss += d * d
	}
	return place{y, t}, least, turned > traceTurn && math.Sqrt(miss) < 0.01*length
}

// traced is what following one side gave.
type traced struct {
	places []place // outward, the drawn one first
	// folds says that the last place is where the control turns back; else it was
	// followed to the limit.
	folds bool
	// lost says that the tracer is no judge beyond the last place.
	lost bool
}

// trace follows the curve from the control at 0 to limit (degrees or a length), or
// to where the control turns back. start are the unknowns there.
func (tr *tracer) trace(start []float64, limit float64) (out traced) {
	n := tr.m.n
	end := tr.m.hand(limit) / tr.scale[n]
	dir := math.Copysign(1, limit)
	at := place{y: make([]float64, n+1)}
	for i := range start {
		at.y[i] = start[i] / tr.scale[i]
	}
	outward := make([]float64, n+1)
	outward[n] = dir
	if !tr.correct(at.y, outward) {
		return traced{lost: true}
	}
	t, least, ok := tr.tangent(at.y, outward)
	if !ok || least < traceRegular || math.Abs(t[n]) < 1e-6 {
		return traced{lost: true}
	}
	at.tangent = t
	out.places = append(out.places, at)
	length := traceStep / 8
	for range 20000 {
		next, least, ok := tr.step(at, length)
		if !ok {
			if length /= 2; length < 1e-7 {
				out.lost = true
				return out
			}
			continue
		}
		if least < traceRegular {
			out.lost = true
			return out
		}
		if next.tangent[n]*dir < 0 {
			lo, hi := 0.0, length
			for range 60 {
				mid := lo + (hi-lo)/2
				if mid == lo || mid == hi {
					break
				}
				k, _, ok := tr.step(at, mid)
				if !ok {
					out.lost = true
					return out
				}
				if k.tangent[n]*dir < 0 {
					hi = mid
				} else {
					lo = mid
				}
				next = k
			}
			out.places, out.folds = append(out.places, next), true
			if (next.y[n]-end)*dir > 0 {
				out.places, out.folds = out.places[:len(out.places)-1], false
			}
			return out
		}
		if (next.y[n]-end)*dir >= 0 {
			return out
		}
		out.places = append(out.places, next)
		at = next
		length = math.Min(2*length, traceStep)
	}
	out.lost = true
	return out
}

// hand is the control's position at a place, degrees or a length.
func (tr *tracer) hand(p place) float64 {
	h := p.y[tr.m.n] * tr.scale[tr.m.n]
	if tr.m.d.bodies[tr.m.control].slide == nil {
		return deg(h)
	}
	return h
}

// unknowns are the model's at a place.
func (tr *tracer) unknowns(p place) []float64 {
	x := make([]float64, tr.m.n)
	for i := range x {
		x[i] = p.y[i] * tr.scale[i]
	}
	return x
}
