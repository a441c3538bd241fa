// Layer: questions.

package solve

import (
	"cmp"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/parallel"
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
	// such sets of readings of a run as drawn and set (chi-square), or that every
	// reading is within what it reads to, so that nothing asks for an explanation.
	Fits bool
	// NoneToo says that the run as drawn and set is as near to the readings as what
	// is in group 1: chance may make such readings where nothing is off.
	NoneToo bool

	// Candidates are the dimensions that the readings tell of, by group, best first
	// in each. One whose best value is where the readings don't change with it (a
	// turning point) is left out, unless it is in group 1: that is an extreme, not an
	// estimate.
	Candidates []Candidate
	TellsApart *Extra // nil where group 1 is one candidate, or no reading is fine enough to tell
	Trend      []TrendPoint
	Joint      Joint
}

// Candidate is one dimension by itself as the explanation: its value of least
// squares, sought about the nominal one.
type Candidate struct {
	Dimension string             // as in a Setting; the zero of a rigging's gauge is its "NAME.zero"
	Dim       *linkage.Dimension // nil for a zero
	Zero      *linkage.Rigging   // the rigging of a zero, else nil
	Unit      linkage.Unit
	Nominal   float64 // 0 for a zero
	// Estimate is the value that explains the readings best; of a zero, what the
	// gauge shows too much. Where the best value is one with which the run
	// doesn't close, it is the last on the way there that does.
	Estimate float64
	// SE is the standard error of Estimate, from the readings' within alone. At a
	// turning point it is by how much Estimate may be out before SumOfSquares is 1
	// more, no more than half the run's size.
	SE           float64
	RMS          float64 // root mean square of Residuals, in the readings' own units
	SumOfSquares float64 // of Residuals, each by its standard deviation
	// AllWithin says that some value, which need not be Estimate, leaves every
	// reading within what it reads to.
	AllWithin bool
	// Group is 1 for all that the readings don't rule out against the best: those
	// whose SumOfSquares is larger by no more than chance makes it, so that what is
	// truly off, if it is one candidate, is there in 999 of 1000 sets of readings;
	// those with AllWithin; and those that explain the readings (Diagnosis.Explains).
	// It is 2 for the best of the rest and those that chance may make as good, and so
	// on.
	Group     int
	Residuals [][]float64 // readings less what this explains, by rigging
}

// Extra is a further reading: the one that tells most of the candidates of group 1
// apart.
type Extra struct {
	Control *linkage.Control
	Of      linkage.Subject
	Unit    linkage.Unit
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
	if !m.compiled() {
		return nil, errNoMechanism
	}
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
	g.d.Joint = g.joint(r, list)
	g.rank(r, list)
	g.d.TellsApart = g.tellsApart(r)
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
	d.Fits = d.SumOfSquares0 <= mostByChance(len(r.read)) || r.farthest(r.drawn, make([]float64, len(r.read)), 0) <= 1+withinTie
}

// suspect is a candidate with what its fit leaves to work with.
type suspect struct {
	Candidate
	fitted
	start int // where its block stands in the file
}

// candidates fits every dimension that the readings depend on, in the file's
// order.
func (g *diagnoser) candidates(r *readings) (list []suspect) {
	dimensions := g.m.run.Dimensions()
	fits := make([]*fitted, len(dimensions))
	parallel.Each(len(dimensions), func(i int) {
		if f, ok := g.fit(r, dimensions[i]); ok {
			fits[i] = &f
		}
	})
	for i, dim := range dimensions {
		if fits[i] == nil {
			continue
		}
		f := *fits[i]
		c := Candidate{Dimension: dim.String(), Dim: &dim, Unit: g.m.lengthUnit(dim.In()), Nominal: dim.Value(), Estimate: f.value, SE: f.se}
		list = append(list, suspect{r.fill(c, f.at.values), f, dim.Block().Start})
	}
	for i := range r.blocks {
		b := &r.blocks[i]
		c := Candidate{Dimension: b.rigging.Name + ".zero", Zero: b.rigging, Unit: g.m.subjectMeasure(b.rigging.Of).unit}
		f := fitted{told: true}
		var predicted []float64
		f.value, f.se, predicted = r.fitZero(func(of *linkage.Rigging) bool { return of == b.rigging })
		f.at, f.sum = &forecast{predicted, r.poses}, r.sum(predicted)
		c.Estimate, c.SE = f.value, f.se
		f.slopes = make([]float64, len(r.read))
		for k := b.first; k < b.first+len(b.rigging.Readings); k++ {
			f.slopes[k] = 1
		}
		list = append(list, suspect{r.fill(c, predicted), f, b.rigging.Span.Start})
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
