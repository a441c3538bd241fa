package tolerance

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"fullfree/solve"
)

const (
	// slopeShare is how far derivatives are taken to either side, as a share of the
	// half-width: what is left out goes with its square.
	slopeShare = 0.02
	// confidence is that of the interval of a share.
	confidence = 0.95
	// leastBlame is the least share of a variance that is told.
	leastBlame = 1e-6
)

// findSlopes finds how every worst figure goes with everything that may be out.
func (s *search) findSlopes() error {
	r := s.newRoom()
	known := map[string]threads{}
	n := len(s.answer.Outcomes)
	s.slopes, s.around = make([][]float64, n), make([]float64, n)
	for i := range s.slopes {
		s.slopes[i] = make([]float64, len(s.variables))
	}
	at := func(variable int, out float64) ([]solve.Figure, error) {
		clear(r.drawn)
		if variable >= 0 {
			r.drawn[variable] = out
		}
		list := make([]solve.Figure, n)
		if err := s.make(r, smoothly, -1); err != nil {
			return nil, err
		}
		_, err := s.judge(r, false, known, list)
		return list, err
	}
	middle, err := at(-1, 0)
	if err != nil {
		return err
	}
	for i, f := range middle {
		s.around[i] = f.Worst
	}
	for k := range s.variables {
		step := float64(slopeShare * s.variables[k].By)
		if step == 0 {
			continue
		}
		low, err := at(k, -step)
		if err != nil {
			return err
		}
		high, err := at(k, step)
		if err != nil {
			return err
		}
		for i := range low {
			switch {
			case low[i].Has && high[i].Has:
				s.slopes[i][k] = (high[i].Worst - low[i].Worst) / (2 * step)
			case middle[i].Has && high[i].Has:
				s.slopes[i][k] = (high[i].Worst - middle[i].Worst) / step
			case middle[i].Has && low[i].Has:
				s.slopes[i][k] = (middle[i].Worst - low[i].Worst) / step
			}
		}
	}
	return nil
}

// conclude fills in the answer from what was counted.
func (s *search) conclude(t *tally) {
	a := s.answer
	a.Builds, a.Open, a.Everywhere, a.Missed = t.done, t.open, t.everywhere, t.missed
	for i := range a.Outcomes {
		o := &a.Outcomes[i]
		o.Builds, o.Holds, o.Untold = t.done, t.holds[i], t.untold[i]
		o.Share = float64(o.Holds) / float64(o.Builds)
		o.Low, o.High = Interval(o.Holds, o.Builds)
		if len(t.worst[i]) == 0 {
			continue
		}
		o.Worst = s.worstOf(o, t.worst[i], t.number[i])
		o.Blame = s.blame(t, i)
		o.Linear = linear(t, i)
		sorted := t.worst[i]
		slices.Sort(sorted)
		o.Percentiles = &[3]float64{percentile(sorted, 0.05), percentile(sorted, 0.5), percentile(sorted, 0.95)}
	}
}

// Interval is where a share lies, with a confidence of 95 percent, of which so many of a
// number of builds are known: that of Clopper and Pearson.
func Interval(holds, of int) (low, high float64) {
	low, high = 0, 1
	if of <= 0 {
		return low, high
	}
	const tail = (1 - confidence) / 2
	if holds > 0 {
		low = distuv.Beta{Alpha: float64(holds), Beta: float64(of - holds + 1)}.Quantile(tail)
	}
	if holds < of {
		high = distuv.Beta{Alpha: float64(holds + 1), Beta: float64(of - holds)}.Quantile(1 - tail)
	}
	return low, high
}

// percentile is that of sorted values, between two of them in proportion.
func percentile(sorted []float64, share float64) float64 {
	at := float64(share * float64(len(sorted)-1))
	i := int(at)
	if i+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + float64((at-float64(i))*(sorted[i+1]-sorted[i]))
}

// worstOf is the build in which a figure is worst, the first of several.
func (s *search) worstOf(o *Outcome, worst []float64, number []int32) *WorstBuild {
	sign, at := worseBy(o.Requirement.Kind), 0
	for i, v := range worst {
		if sign*v > sign*worst[at] {
			at = i
		}
	}
	r := s.newRoom()
	s.draw(int(number[at]), r)
	if s.make(r, bySteps, -1) != nil {
		return nil
	}
	return &WorstBuild{Value: worst[at], Number: int(number[at]), Build: s.valuesOf(r)}
}

// valuesOf is what a build measures, as a Setting would make it.
func (s *search) valuesOf(r *room) (list []Value) {
	run, err := s.run.With(r.build.Edits(s.run)...)
	if err != nil {
		return nil
	}
	built := run.Dimensions()
	for _, v := range s.variables {
		if v.dimension >= 0 {
			list = append(list, Value{v.Name, built[v.dimension].Value()})
		} else {
			list = append(list, Value{v.Name, run.Stops[v.stop].At})
		}
	}
	return list
}

// blame is how much of a variance each dimension makes, by the derivatives: of what is
// rigged by what the builds show to be left, of the rest by how it is drawn.
func (s *search) blame(t *tally, outcome int) (list []Blame) {
	whole := 0.0
	shares := make([]float64, len(s.variables))
	for k := range s.variables {
		v := &s.variables[k]
		variance := float64(v.madeBy*v.madeBy) / 3
		if s.options.Bell {
			variance = float64(v.madeBy*v.madeBy) / 4
		}
		if n := float64(t.done); v.Rigged || !math.IsInf(v.low, 0) || !math.IsInf(v.high, 0) {
			mean := t.left[k] / n
			variance = math.Max(0, t.leftSquares[k]/n-float64(mean*mean))
		}
		by := s.slopes[outcome][k]
		shares[k] = float64(by * by * variance)
		whole += shares[k]
	}
	if whole == 0 {
		return nil
	}
	for k, share := range shares {
		if share/whole >= leastBlame {
			list = append(list, Blame{s.variables[k].Name, share / whole})
		}
	}
	slices.SortStableFunc(list, func(a, b Blame) int {
		switch {
		case a.Share > b.Share:
			return -1
		case a.Share < b.Share:
			return 1
		}
		return 0
	})
	return list
}

// linear is the share of a variance that the derivatives explain; nil where it is none.
func linear(t *tally, outcome int) *float64 {
	worst := t.worst[outcome]
	n := float64(len(worst))
	mean := 0.0
	for _, v := range worst {
		mean += v
	}
	mean /= n
	whole := 0.0
	for _, v := range worst {
		whole += float64((v - mean) * (v - mean))
	}
	if !(whole > n*noVariance*math.Max(1, mean*mean)) {
		return nil
	}
	off := t.off[outcome] / n
	left := t.offSquares[outcome] - float64(n*off*off)
	v := math.Max(0, math.Min(1, 1-left/whole))
	return &v
}

// noVariance is the variance, in squares of the unit, below which a figure is the same in all
// builds: rounding.
const noVariance = 1e-20
