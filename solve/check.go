package solve

import (
	"slices"

	"fullfree/linkage"
)

// checkable are the kinds that every report lists as not checked where the run
// doesn't require them.
var checkable = []linkage.Kind{
	linkage.Sense, linkage.Travel, linkage.Stops, linkage.OverCenter,
	linkage.RodAngle, linkage.Misalignment, linkage.Clearance,
}

// Check sweeps every control at every combination of the others' held
// settings and judges the requirements. The error is *linkage.Faults, or ErrStopped.
func (m *Mechanism) Check() (*Result, error) {
	if !m.compiled() {
		return nil, errNoMechanism
	}
	faults := &linkage.Faults{Source: m.run.Source}
	var sweeps []*sweeper
	for _, alone := range m.heldAlone() {
		if _, fault := m.hold([]Held{alone}); fault != nil {
			faults.List = append(faults.List, *fault)
		}
	}
	if m.Stopped() {
		return nil, ErrStopped
	}
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	for _, c := range m.run.Controls {
		for _, held := range m.combinations(c) {
			s, fault := m.sweepOne(c, held)
			if m.Stopped() {
				return nil, ErrStopped
			}
			if fault != nil {
				faults.List = append(faults.List, *fault)
				continue
			}
			s.sweep.Index = len(sweeps)
			sweeps = append(sweeps, s)
		}
	}
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	return m.judge(sweeps), nil
}

// heldAlone lists every held setting of every control by itself.
func (m *Mechanism) heldAlone() (list []Held) {
	if len(m.run.Controls) < 2 {
		return nil // its held setting is not asked for
	}
	for _, c := range m.run.Controls {
		for _, at := range c.Held {
			list = append(list, Held{c, at})
		}
	}
	return list
}

// checkableHere are the kinds that this run gives cause for besides.
func (m *Mechanism) checkableHere() (kinds []linkage.Kind) {
	if len(threadedEnds(m.run)) > 0 {
		kinds = append(kinds, linkage.Engagement)
	}
	if slices.ContainsFunc(m.run.Rods, func(r *linkage.Rod) bool { return r.SecondPath }) {
		kinds = append(kinds, linkage.SecondPath)
	}
	if len(m.run.Pairs) > 0 {
		kinds = append(kinds, linkage.Taut)
	}
	return kinds
}

func (m *Mechanism) judge(sweeps []*sweeper) *Result {
	result := &Result{Run: m.run, Verdict: Holds}
	for _, s := range sweeps {
		result.Sweeps = append(result.Sweeps, s.sweep)
	}
	for i, r := range m.run.Requirements {
		var about []*sweeper
		for _, s := range sweeps {
			if s.concerns(r) {
				about = append(about, s)
			}
		}
		j := m.judgeOne(i, r, about)
		j.Requirement = r
		if j.Verdict == Holds && slices.ContainsFunc(about, func(s *sweeper) bool { return s.sweep.Lost }) {
			j.Verdict, j.Why = CannotTell, LostTrack
		}
		result.Requirements = append(result.Requirements, j)
		if j.Verdict == FallsShort || j.Verdict == CannotTell && result.Verdict == Holds {
			result.Verdict = j.Verdict
		}
	}
	if len(result.Requirements) == 0 {
		result.Verdict = CannotTell
	}
	for _, k := range slices.Concat(checkable, m.checkableHere()) {
		if !slices.ContainsFunc(m.run.Requirements, func(r *linkage.Requirement) bool { return r.Kind == k }) {
			result.NotChecked = append(result.NotChecked, k)
		}
	}
	return result
}
