// Layer: questions.

package solve

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
)

// Joint is what the readings say of all candidates together, where each is
// known beforehand to its typical error: half the run's Uncertain for lengths
// and coordinates, half of within for a zero. It shares out what the readings
// can't tell apart.
type Joint struct {
	// Directions is how many independent combinations of the candidates the
	// readings determine better than they are known beforehand: how many
	// singular values of the predictions' derivatives, by each reading's
	// standard deviation and each candidate's typical error, are above 1.
	Directions int
	// Estimates is empty where fewer than two directions are determined.
	Estimates []JointEstimate // in the file's order
	// Residuals are the readings less what the joint estimate explains, by
	// rigging, RMS their root mean square.
	Residuals [][]float64
	RMS       float64
}

// JointEstimate is one candidate of a joint estimate. What it is off counts
// from where the others put it: an arm goes with its pivot.
type JointEstimate struct {
	Dimension    string
	Dim          *linkage.Dimension // nil for a zero
	Zero         *linkage.Rigging
	Unit         linkage.Unit
	Nominal      float64
	Estimate, SE float64
	Prior        float64 // its standard deviation as known beforehand
}

const (
	// jointSteps bounds the steps of the joint estimate.
	jointSteps = 20
	// jointClose is the step, in typical errors, at which it has ended.
	jointClose = 1e-9
)

// joint estimates all candidates at once: the least of the sum of squares of
// readings and typical errors, stepwise with the derivatives as drawn. These
// are right to a few per cent for errors of a few per cent of an arm, which is
// less than is known of what was typical.
func (g *diagnoser) joint(r *readings, list []suspect) (j Joint) {
	list, prior := g.known(list)
	n := len(r.read)
	if len(list) == 0 {
		return j
	}
	// a has a row a reading and a column a candidate, both in standard
	// deviations.
	a := mat.NewDense(n, len(list), nil)
	for k, s := range list {
		for i, slope := range s.slopes {
			a.Set(i, k, slope*prior[k]/r.sigma[i])
		}
	}
	k := mat.NewSymDense(n, nil)
	k.SymOuterK(1, a)
	var eigen mat.EigenSym
	if !eigen.Factorize(k, false) {
		return j
	}
	for _, square := range eigen.Values(nil) {
		if square > 1 {
			j.Directions++
		}
	}
	for i := range n {
		k.SetSym(i, i, k.At(i, i)+1)
	}
	var chol mat.Cholesky
	if j.Directions < 2 || !chol.Factorize(k) {
		return j
	}
	off, f := g.jointFit(r, list, prior, a, &chol)
	j.Residuals, j.RMS = r.residuals(f.values)
	for k, s := range list {
		column := a.ColView(k)
		var solved mat.VecDense
		if chol.SolveVecTo(&solved, column) != nil {
			return Joint{Directions: j.Directions}
		}
		left := math.Max(0, 1-mat.Dot(column, &solved))
		j.Estimates = append(j.Estimates, JointEstimate{
			Dimension: s.Dimension, Dim: s.Dim, Zero: s.Zero, Unit: s.Unit, Nominal: s.Nominal,
			Estimate: s.Nominal + float64(prior[k]*off[k]), SE: float64(prior[k] * math.Sqrt(left)), Prior: prior[k],
		})
	}
	return j
}

// known returns the candidates that may be off and that the readings tell of, and
// their typical errors.
func (g *diagnoser) known(list []suspect) (some []suspect, prior []float64) {
	for _, s := range list {
		typical := g.m.run.Uncertain / 2
		if s.Dim != nil {
			typical = float64(typical * g.m.outOf(*s.Dim))
		}
		if s.Zero != nil {
			typical = s.Zero.Within / 2
		}
		if s.told && typical > 0 {
			some, prior = append(some, s), append(prior, typical)
		}
	}
	return some, prior
}

// jointFit returns by how many typical errors each candidate is off, and what
// is predicted then.
func (g *diagnoser) jointFit(r *readings, list []suspect, prior []float64, a *mat.Dense, chol *mat.Cholesky) (off []float64, f *forecast) {
	off, f = make([]float64, len(list)), r.asDrawn()
	worth := func(off []float64, f *forecast) float64 {
		sum := r.sum(f.values)
		for _, v := range off {
			sum += float64(v * v)
		}
		return sum
	}
	sum := worth(off, f)
	for range jointSteps {
		// The least squares of the run as it is here with its derivatives.
		wanted := mat.NewVecDense(len(r.read), nil)
		wanted.MulVec(a, mat.NewVecDense(len(off), off))
		for i, v := range f.values {
			wanted.SetVec(i, wanted.AtVec(i)+(r.read[i]-v)/r.sigma[i])
		}
		var solved, to mat.VecDense
		if chol.SolveVecTo(&solved, wanted) != nil {
			break
		}
		to.MulVec(a.T(), &solved)
		share, longest := 1.0, 0.0
		for k, v := range off {
			longest = math.Max(longest, math.Abs(to.AtVec(k)-v))
		}
		var next []float64
		var there *forecast
		for ; share*longest > jointClose; share /= 2 {
			next = make([]float64, len(off))
			for k, v := range off {
				next[k] = v + float64(share*(to.AtVec(k)-v))
			}
			if there = g.predictJoint(r, list, prior, next, f); there != nil && worth(next, there) < sum {
				break
			}
			there = nil
		}
		if there == nil {
			break
		}
		off, f, sum = next, there, worth(next, there)
	}
	return off, f
}

// predictJoint is what the readings would be with every candidate off; nil
// where the run doesn't close.
func (g *diagnoser) predictJoint(r *readings, list []suspect, prior, off []float64, near *forecast) *forecast {
	var edits []linkage.Edit
	for _, lengths := range []bool{false, true} { // a length left out follows its points
		for k, s := range list {
			if s.Dim != nil && s.Dim.IsLength() == lengths {
				edits = append(edits, linkage.Shift(*s.Dim, float64(prior[k]*off[k])))
			}
		}
	}
	n, ok := g.m.with(edits...)
	if !ok {
		return nil
	}
	f := r.forecast(n, near.poses)
	if f == nil {
		return nil
	}
	for k, s := range list {
		if s.Zero == nil {
			continue
		}
		for i, slope := range s.slopes {
			f.values[i] += float64(slope * prior[k] * off[k])
		}
	}
	return f
}
