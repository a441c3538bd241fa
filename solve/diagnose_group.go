// Layer: questions.

package solve

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"fullfree/solve/internal/num"
)

const (
	// groupShare is the share of sets of readings, at least, in which what is truly
	// off, if it is one candidate, is in group 1: a culprit named alone is to be
	// wrong once in a thousand at most.
	groupShare = 0.999
	// fitsShare is the share of chance's sums of squares up to which readings
	// fit.
	fitsShare = 0.95
	// sameSum is the difference of two sums of squares that is rounding.
	sameSum = 1e-9
)

// apart is the sum of squares by which a candidate must be worse than the best
// for the readings to tell the two apart, so surely that what is truly off
// stays with the best in groupShare of all sets of readings.
//
// With errors of standard deviation 1 a reading, and candidates whose predictions
// are lines through those of the run as drawn, what is truly off predicts the
// readings but for their errors e. Any other candidate goes along a line that
// differs from it by one direction v, of length 1 and square to it, and is better
// by no more than (v e)^2. That is chi-square with one degree of freedom, for each
// of the others; the largest of them exceeds a point no more often than all of them
// together do (Bonferroni's inequality). Nor does it exceed the square of what e has
// in the space of all v: chi-square with as many degrees of freedom as that has
// dimensions, one less than readings or candidates (as in Scheffe's comparisons).
// The lesser of the two holds.
func apart(readings, candidates int) float64 {
	others := max(1, candidates-1)
	each := distuv.ChiSquared{K: 1}.Quantile(1 - (1-groupShare)/float64(others))
	all := distuv.ChiSquared{K: float64(max(1, min(readings, candidates)-1))}.Quantile(groupShare)
	return math.Min(each, all)
}

// mostByChance is the sum of squares with some degrees of freedom up to which
// readings fit.
func mostByChance(free int) float64 {
	return distuv.ChiSquared{K: float64(free)}.Quantile(fitsShare)
}

// Explains reports whether a candidate brings the readings to within what they
// read to: whether some value of it leaves each within, or its SumOfSquares is no
// more than chance makes it in 95 of 100 such sets of readings of a run that has
// this value (chi-square, one degree of freedom less than there are readings, as
// one number was fitted to them). Even the best candidate need not.
func (d *Diagnosis) Explains(c *Candidate) bool {
	readings := 0
	for _, r := range d.Riggings {
		readings += len(r.Readings)
	}
	return c.AllWithin || c.SumOfSquares <= mostByChance(max(1, readings-1)) // one reading is met exactly
}

// Likeliest is the candidate that is clearly likelier than every other (its sum of
// squares is less by the 95 % point of chi-square with one degree of freedom); nil
// where there is none. It may share group 1 with others, and be wrong then.
func (d *Diagnosis) Likeliest() *Candidate {
	var best *Candidate
	next := math.Inf(1)
	for i := range d.Candidates {
		switch c := &d.Candidates[i]; {
		case best == nil:
			best = c // they are sorted, within a group
		default:
			next = math.Min(next, c.SumOfSquares)
		}
	}
	if best == nil || next <= best.SumOfSquares+num.ChiSquare {
		return nil
	}
	return best
}

// rank sorts the candidates, best first, and groups those that the readings can't
// tell apart. Of equals the first in the file comes first.
func (g *diagnoser) rank(r *readings, list []suspect) {
	order := sorted(list)
	if len(order) == 0 {
		return
	}
	apart := apart(len(r.read), len(order))
	within := order[0].SumOfSquares + apart
	var first, rest []suspect
	for _, s := range order {
		s.AllWithin = g.leavesAllWithin(r, &s)
		switch {
		case s.SumOfSquares <= within || g.d.Explains(&s.Candidate):
			if !s.told {
				s.SE = g.spread(r, *s.Dim, s.fitted.trial)
			}
			first = append(first, s)
		case s.told: // else it is an extreme that explains nothing, and no estimate
			rest = append(rest, s)
		}
	}
	group, best := 1, math.Inf(-1)
	for _, s := range first {
		s.Group = group
		g.d.Candidates = append(g.d.Candidates, s.Candidate)
	}
	for _, s := range rest {
		if s.SumOfSquares > best+apart {
			group, best = group+1, s.SumOfSquares
		}
		s.Group = group
		g.d.Candidates = append(g.d.Candidates, s.Candidate)
	}
	g.d.NoneToo = g.d.SumOfSquares0 <= within
}

// sorted returns candidates by their sums of squares; of equals the first in the
// file comes first.
func sorted(list []suspect) []suspect {
	type ranked struct {
		suspect
		place, tied int
	}
	order := make([]ranked, len(list))
	for i, s := range list {
		order[i] = ranked{suspect: s, place: i}
	}
	slices.SortStableFunc(order, func(a, b ranked) int { return cmp.Compare(a.SumOfSquares, b.SumOfSquares) })
	for i := 1; i < len(order); i++ {
		before, c := &order[i-1], &order[i]
		c.tied = before.tied
		if c.SumOfSquares-before.SumOfSquares > sameSum*math.Max(1, c.SumOfSquares) {
			c.tied++
		}
	}
	slices.SortFunc(order, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.tied, b.tied), cmp.Compare(a.place, b.place))
	})
	for i, s := range order {
		list[i] = s.suspect
	}
	return list
}

// likely returns the candidates of group 1.
func (g *diagnoser) likely() []Candidate {
	all := g.d.Candidates
	if i := slices.IndexFunc(all, func(c Candidate) bool { return c.Group != 1 }); i >= 0 {
		return all[:i]
	}
	return all
}
