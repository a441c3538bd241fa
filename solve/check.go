package solve

import (
	"slices"
	"sync/atomic"

	"fullfree/linkage"
)

// checkable are the kinds that every report lists as not checked where the run
// doesn't require them.
var checkable = []linkage.Kind{
	linkage.Sense, linkage.Travel, linkage.Stops, linkage.OverCenter,
	linkage.RodAngle, linkage.Misalignment, linkage.Clearance,
}

// Check sweeps every control at every combination of the others' held
// settings, several at once, and judges the requirements. The error is *linkage.Faults,
// or ErrStopped.
func (m *Mechanism) Check() (*Result, error) {
	faults := &linkage.Faults{Source: m.run.Source}
	var sweeps []*sweeper
	alone := m.heldAlone()
	reached := make([]*linkage.Fault, len(alone))
	each(len(alone), func(i int) { _, reached[i] = m.hold(alone[i : i+1]) })
	for _, fault := range reached {
		if fault != nil {
			faults.List = append(faults.List, *fault)
		}
	}
	if m.Stopped() {
		return nil, ErrStopped
	}
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	turns := m.inTurn()
	var stopped atomic.Bool
	each(len(turns), func(i int) {
		if t := &turns[i]; !stopped.Load() {
			if t.swept, t.fault = m.sweepOne(t.control, t.held); m.Stopped() {
				stopped.Store(true)
			}
		}
	})
	if stopped.Load() {
		return nil, ErrStopped
	}
	for _, t := range turns {
		if t.fault != nil {
			faults.List = append(faults.List, *t.fault)
			continue
		}
		t.swept.sweep.Index = len(sweeps)
		sweeps = append(sweeps, t.swept)
	}
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	return m.judge(sweeps), nil
}

// turnOf is one sweep to be made, and what came of it.
type turnOf struct {
	control *linkage.Control
	held    []Held
	swept   *sweeper
	fault   *linkage.Fault
}

// inTurn lists every sweep: of each control with the others at each combination of their
// held settings.
func (m *Mechanism) inTurn() (turns []turnOf) {
	for _, c := range m.run.Controls {
		for _, held := range m.combinations(c) {
			turns = append(turns, turnOf{control: c, held: held})
		}
	}
	return turns
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
