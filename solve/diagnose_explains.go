package solve

import "gonum.org/v1/gonum/stat/distuv"

// Explains reports whether a candidate brings the readings to within what they
// read to: whether its SumOfSquares is no more than chance makes it in 95 of 100
// such sets of readings of a run that has this value (chi-square, one degree of
// freedom less than there are readings, as one number was fitted to them). Even
// the best candidate need not.
func (d *Diagnosis) Explains(c *Candidate) bool {
	readings := 0
	for _, r := range d.Riggings {
		readings += len(r.Readings)
	}
	free := max(1, readings-1) // one reading is met exactly
	return c.SumOfSquares <= distuv.ChiSquared{K: float64(free)}.Quantile(fitsShare)
}
