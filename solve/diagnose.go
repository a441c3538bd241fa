package solve

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"fullfree/linkage"
)

// Diagnosis is which dimension explains the readings taken after rigging.
//
// Where any rigging has a date, those of the latest date are diagnosed, and
// all with a date make the trend; where none has, all are diagnosed. Readings
// count as independent, with the standard deviation within/2. Metal and stops
// count as exact. While one control is read the others stand at neutral, which
// is where rig pins hold them; their held settings have no part in it.
type Diagnosis struct {
	Riggings []*linkage.Rigging // those diagnosed
	LeftOut  []*linkage.Rigging // those without a date where others have one
	// Residuals0 are the readings less those of the run as drawn and set, by
	// rigging; SumOfSquares0 is their sum of squares, each by its standard
	// deviation, RMS0 their root mean square in the readings' own units.
	Residuals0          [][]float64
	SumOfSquares0, RMS0 float64
	// Fits says that SumOfSquares0 is no more than chance makes it in 95 of 100
	// such sets of readings of a run as drawn and set (chi-square), so that
	// nothing asks for an explanation.
	Fits bool

	// Candidates are the dimensions that the readings tell of, best first. One
	// whose best value is where the readings don't change with it (a turning point)
	// is left out: that is an extreme, not an estimate.
	Candidates []Candidate
	TellsApart *Extra // nil where group 1 is one candidate, or no reading is fine enough to tell
	Trend      []TrendPoint
	Joint      Joint
}

// Candidate is one dimension by itself as the explanation: its value of least
// squares, found from the nominal one.
type Candidate struct {
	Dimension string             // as in a Setting; the zero of a rigging's gauge is its "NAME.zero"
	Dim       *linkage.Dimension // nil for a zero
	Zero      *linkage.Rigging   // the rigging of a zero, else nil
	Unit      string
	Nominal   float64 // 0 for a zero
	// Estimate is the value that explains the readings best; of a zero, what the
	// gauge shows too much. Where the best value is one with which the run
	// doesn't close, it is the last on the way there that does.
	Estimate float64
	// SE is the standard error of Estimate, from the readings' within alone.
	SE           float64
	RMS          float64 // root mean square of Residuals, in the readings' own units
	SumOfSquares float64 // of Residuals, each by its standard deviation
	// Group is 1 for all that explain the readings as well as the best as far as
	// these can tell, 2 for the best of the rest and those like it, and so on.
	Group     int
	Residuals [][]float64 // readings less what this explains, by rigging
}

// Extra is a further reading: the one about which the candidates of group 1
// differ most.
type Extra struct {
	Control *linkage.Control
	Of      linkage.Subject
	Unit    string
	At      float64 // of the control
	Differs float64 // from the least of what they predict to the most
	Within  float64 // to how much such a reading reads either way
	Assumed bool    // no rigging tells how much that is
}

// TrendPoint is a candidate of group 1 as the readings of one date have it.
type TrendPoint struct {
	Dimension, Date string
	Estimate, SE    float64
}

const (
	// chiSquare1 is the sum of squares by which a candidate must be worse to be
	// told apart: the 95 % point of chi-square with one degree of freedom.
	chiSquare1 = 3.84
	// fitsShare is the share of chance's sums of squares up to which readings
	// fit.
	fitsShare = 0.95
	// sameSum is the difference of two sums of squares that is rounding.
	sameSum = 1e-9
)

// diagnoser builds one Diagnosis.
type diagnoser struct {
	m      *Mechanism
	sweeps []*sweeper       // by control; nil where not swept
	faults []*linkage.Fault // by control, of one that can't be
	d      *Diagnosis
}

// Diagnose finds which dimension of the run, changed by itself, explains the
// readings taken after rigging. The error is *linkage.Faults.
func (m *Mechanism) Diagnose() (*Diagnosis, error) {
	faults := &linkage.Faults{Source: m.run.Source}
	controls := len(m.run.Controls)
	g := &diagnoser{m: m, sweeps: make([]*sweeper, controls), faults: make([]*linkage.Fault, controls), d: &Diagnosis{}}
	dates := g.choose()
	if g.checkReadings(len(dates), faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	r := g.newReadings(g.d.Riggings)
	g.asDrawn(r)
	list := g.candidates(r)
	g.rank(list)
	g.d.TellsApart = g.tellsApart()
	g.d.Joint = g.joint(r, list)
	g.trend(dates)
	return g.d, nil
}

// choose finds which riggings are diagnosed, and returns the dates, ascending.
func (g *diagnoser) choose() (dates []string) {
	for _, r := range g.m.run.Riggings {
		if r.Date != "" {
			dates = append(dates, r.Date)
		}
	}
	slices.Sort(dates)
	dates = slices.Compact(dates)
	for _, r := range g.m.run.Riggings {
		switch {
		case len(dates) == 0 || r.Date == dates[len(dates)-1]:
			g.d.Riggings = append(g.d.Riggings, r)
		case r.Date == "":
			g.d.LeftOut = append(g.d.LeftOut, r)
		}
	}
	return dates
}

// asDrawn tells how the run as drawn and set fits the readings.
func (g *diagnoser) asDrawn(r *readings) {
	d := g.d
	d.Residuals0, d.RMS0 = r.residuals(r.drawn)
	d.SumOfSquares0 = r.sum(r.drawn)
	d.Fits = d.SumOfSquares0 <= mostByChance(len(r.read))
}

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
	return c.SumOfSquares <= mostByChance(max(1, readings-1)) // one reading is met exactly
}

// mostByChance is the sum of squares with some degrees of freedom up to which
// readings fit.
func mostByChance(free int) float64 {
	return distuv.ChiSquared{K: float64(free)}.Quantile(fitsShare)
}

// suspect is a candidate with what its fit leaves to work with.
type suspect struct {
	Candidate
	start  int       // where its block stands in the file
	slopes []float64 // of every prediction by it, at its nominal value
}

// candidates fits every dimension that the readings depend on, in the file's
// order.
func (g *diagnoser) candidates(r *readings) (list []suspect) {
	for _, dim := range g.m.run.Dimensions() {
		slopes, ok := g.matters(r, dim)
		if !ok {
			continue
		}
		f, ok := g.fit(r, dim)
		if !ok {
			continue
		}
		c := Candidate{Dimension: dim.String(), Dim: &dim, Unit: g.m.lengthUnit(), Nominal: dim.Value(), Estimate: f.value, SE: f.se}
		list = append(list, suspect{Candidate: r.fill(c, f.predicted), start: dim.Block().Start, slopes: slopes})
	}
	for i := range r.blocks {
		b := &r.blocks[i]
		c := Candidate{Dimension: b.rigging.Name + ".zero", Zero: b.rigging, Unit: g.m.subjectMeasure(b.rigging.Of).unit}
		var predicted []float64
		c.Estimate, c.SE, predicted = r.fitZero(func(of *linkage.Rigging) bool { return of == b.rigging })
		slopes := make([]float64, len(r.read))
		for k := b.first; k < b.first+len(b.rigging.Readings); k++ {
			slopes[k] = 1
		}
		list = append(list, suspect{Candidate: r.fill(c, predicted), start: b.rigging.Span.Start, slopes: slopes})
	}
	slices.SortStableFunc(list, func(a, b suspect) int { return cmp.Compare(a.start, b.start) })
	return list
}

// fill completes a candidate from what it predicts.
func (r *readings) fill(c Candidate, predicted []float64) Candidate {
	c.Residuals, c.RMS = r.residuals(predicted)
	c.SumOfSquares = r.sum(predicted)
	return c
}

// rank sorts the candidates, best first, and groups those that the readings
// can't tell apart. Of equals the first in the file comes first.
func (g *diagnoser) rank(list []suspect) {
	type ranked struct {
		Candidate
		place, tied int
	}
	order := make([]ranked, len(list))
	for i, s := range list {
		order[i] = ranked{Candidate: s.Candidate, place: i}
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
	group, best := 0, math.Inf(-1)
	for _, c := range order {
		if c.SumOfSquares > best+chiSquare1 {
			group, best = group+1, c.SumOfSquares
		}
		c.Group = group
		g.d.Candidates = append(g.d.Candidates, c.Candidate)
	}
}

// likely returns the candidates of group 1.
func (g *diagnoser) likely() []Candidate {
	all := g.d.Candidates
	if i := slices.IndexFunc(all, func(c Candidate) bool { return c.Group != 1 }); i >= 0 {
		return all[:i]
	}
	return all
}

// trend fits each candidate of group 1 to the readings of each date by
// themselves. A zero is that of all gauges that read the same; what the
// readings of a date don't depend on has no point there.
func (g *diagnoser) trend(dates []string) {
	if len(dates) < 2 {
		return
	}
	var at []*readings
	for _, date := range dates {
		var of []*linkage.Rigging
		for _, r := range g.m.run.Riggings {
			if r.Date == date {
				of = append(of, r)
			}
		}
		at = append(at, g.newReadings(of))
	}
	for _, c := range g.likely() {
		for i, date := range dates {
			point := TrendPoint{Dimension: c.Dimension, Date: date}
			switch r := at[i]; {
			case c.Zero != nil:
				same := func(r *linkage.Rigging) bool { return sameGauge(r.Of, c.Zero.Of) }
				if !slices.ContainsFunc(r.blocks, func(b block) bool { return same(b.rigging) }) {
					continue
				}
				point.Estimate, point.SE, _ = r.fitZero(same)
			default:
				if _, ok := g.matters(r, *c.Dim); !ok {
					continue
				}
				f, ok := g.fit(r, *c.Dim)
				if !ok {
					continue
				}
				point.Estimate, point.SE = f.value, f.se
			}
			g.d.Trend = append(g.d.Trend, point)
		}
	}
}
