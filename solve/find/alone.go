package find

import (
	"cmp"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// Single is one dimension that by itself, all else as filed, makes everything hold.
type Single struct {
	Number  linkage.Number
	Value   float64
	Reserve *float64
}

const (
	// reachShare is how far a place, a length or metal is taken from as filed, as a share of
	// the run's size, and reachTurned a stop of a turning part, degrees.
	reachShare, reachTurned = 0.3, 45.0
	// reachSteps are how many places to either side are looked at, each farther by reachRatio
	// than the one before.
	reachSteps, reachRatio = 12, 1.6
	// mostSingles is how many are told.
	mostSingles = 8
	// aloneWork is the share of the work of one answer that these may take.
	aloneWork = 1.0
	// matters is the slope of a reserve, per whole reach, below which a dimension doesn't
	// matter to it.
	matters = 1e-6
)

// Alone finds the dimensions of a run each of which by itself makes everything hold, with
// the most in reserve that it gives, nearest to as filed first: places, metal, stops, named
// dimensions, and the lengths of rods that have no ends to turn. What is written with a
// named dimension is left to that. The error is that of Mechanism.Check.
func Alone(m *solve.Mechanism, drawn *survey.Survey) (list []Single, err error) {
	if m.Run() == nil {
		return nil, errNoMechanism
	}
	filed, err := m.Check()
	if err != nil {
		return nil, err
	}
	slopes, err := m.Slopes(filed)
	if err != nil {
		return nil, err
	}
	spent := 0.0
	for _, n := range m.Run().Numbers() {
		if spent > float64(aloneWork*solve.MostWork()) {
			break
		}
		reach, ok := reachOf(m.Run(), n)
		if !ok || !mayMend(m.Run(), n, reach, filed, slopes) {
			continue
		}
		single, work := alone(m, n, reach, drawn)
		if spent += work; single != nil {
			list = append(list, *single)
		}
	}
	near := func(s Single) float64 {
		reach, _ := reachOf(m.Run(), s.Number)
		return math.Abs(s.Value-s.Number.Value()) / reach
	}
	slices.SortStableFunc(list, func(a, b Single) int { return cmp.Compare(near(a), near(b)) })
	return list[:min(len(list), mostSingles)], nil
}

// reachOf is how far a number is taken to either side; ok is false of one that isn't
// looked at.
func reachOf(run *linkage.Run, n linkage.Number) (reach float64, ok bool) {
	if n.Unit() != run.Units && n.Unit() != linkage.Degrees || len(run.WrittenWith(n)) > 0 {
		return 0, false // what cables give and are drawn up to
	}
	if d := n.Dimension(); d != nil && d.IsLength() && (d.Cable != nil || len(d.Rod.Ends) > 0) {
		return 0, false // which ends are turned for
	}
	if n.Unit() == linkage.Degrees {
		return reachTurned, true
	}
	return float64(reachShare * run.Size()), true
}

// mayMend reports whether a number moves every requirement that falls short, as far as
// slopes tell.
func mayMend(run *linkage.Run, n linkage.Number, reach float64, filed *solve.Result, slopes []*solve.Gradient) bool {
	for i := range filed.Requirements {
		j := &filed.Requirements[i]
		if j.Verdict == solve.Holds || slopes[i] == nil {
			continue
		}
		by, ok := slopes[i].Of(run, n)
		if per := j.ReservePerWorst(); ok && per != 0 && math.Abs(by*per*reach) < matters {
			return false
		}
	}
	return true
}

// alone seeks the value of one number.
func alone(m *solve.Mechanism, n linkage.Number, reach float64, drawn *survey.Survey) (*Single, float64) {
	v := &linkage.Vary{Of: n.String(), Numbers: []linkage.Number{n}, Low: n.Value() - reach, High: n.Value() + reach}
	if n.IsLength() {
		v.Low = math.Max(v.Low, n.Value()/reachSteps)
	}
	if stop := n.Stop(); stop != nil && stop.Side == "" { // it keeps to its side
		if stop.At > 0 {
			v.Low = math.Max(v.Low, stop.At/reachSteps)
		} else {
			v.High = math.Min(v.High, stop.At/reachSteps)
		}
	}
	if !(v.Low < v.High) {
		return nil, 0
	}
	s := newSearch(m, []*linkage.Vary{v}, Options{Survey: drawn})
	s.filed = &trial{}
	s.trials = []*trial{s.filed}
	var list [][]float64
	for by := reach; len(list) < 2*reachSteps; by /= reachRatio {
		for _, to := range []float64{n.Value() - by, n.Value() + by} {
			list = append(list, []float64{math.Max(v.Low, math.Min(v.High, to))})
		}
	}
	trials := slices.DeleteFunc(s.judge(list, false), func(t *trial) bool { return t == nil || !t.closes })
	slices.SortStableFunc(trials, s.betterMerit)
	for _, t := range trials[:min(len(trials), 2)] { // the best place on either side, mostly
		s.improve(t, -1, []int{0})
	}
	best := s.next(-1, nil)
	if best == nil || !best.meets() || !s.settled(best, -1) || !best.meets() {
		return nil, s.work
	}
	set, err := s.setting(best)
	if err != nil || set.Verdict != solve.Holds {
		return nil, s.work
	}
	return &Single{n, set.Values[0].Is[0], set.Reserve}, s.work
}
