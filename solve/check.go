// Layer: verdict.

package solve

import (
	"slices"
	"sync/atomic"

	"fullfree/linkage"
	"fullfree/solve/internal/parallel"
)

// checkable are the kinds that every report lists as not checked where the run
// doesn't require them.
var checkable = []linkage.Kind{
	linkage.Sense, linkage.Travel, linkage.Stops, linkage.OverCenter,
	linkage.RodAngle, linkage.Misalignment, linkage.Clearance,
}

// Check sweeps every control at every combination of the others' held
// settings, several at once, as far as there is work for it, and judges the requirements.
// The error is *linkage.Faults, or ErrStopped.
func (m *Mechanism) Check() (*Result, error) {
	if !m.compiled() {
		return nil, errNoMechanism
	}
	faults := &linkage.Faults{Source: m.run.Source}
	turns := m.inTurn()
	poses := 0.0
	for _, t := range turns {
		poses += m.stepsOf(t.control)
	}
	work := m.newWork(poses)
	alone := m.heldAlone()
	for i, fault := range m.holdAlone(work) {
		if fault != nil && !m.atEnds(alone[i].Control) {
			faults.List = append(faults.List, *fault)
		}
	}
	if m.Stopped() {
		return nil, ErrStopped
	}
	m.refuseUnmoved(faults)
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	left, stopped := m.sweepInTurn(turns, work)
	if stopped {
		return nil, ErrStopped
	}
	slices.SortStableFunc(turns, func(a, b *turnOf) int { return a.control.Index - b.control.Index })
	var sweeps []*sweeper
	skipped := 0
	for _, c := range m.run.Controls {
		all, made := m.combinations(c)
		skipped += all - made
	}
	for _, t := range turns {
		switch {
		case t.fault != nil && m.heldAtEnds(t):
			skipped++
		case t.fault != nil:
			faults.List = append(faults.List, *t.fault)
		}
		if t.swept != nil {
			t.swept.sweep.Index = len(sweeps)
			sweeps = append(sweeps, t.swept)
		}
	}
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	result := m.judge(sweeps, left)
	result.SweepsSkipped = skipped
	return result, nil
}

// heldAloneShare is the share of the work in which every held setting is tried by
// itself, before anything is swept.
const heldAloneShare = 0.25

// turnOf is one sweep to be made, and what came of it: neither where it was left out.
type turnOf struct {
	control     *linkage.Control
	combination int // of the others' held settings
	swept       *sweeper
	fault       *linkage.Fault
}

// inTurn lists every sweep: of each control with the others at the first of their held
// settings, then of each at the second combination, and so on, so that what is left
// out at the end is the least.
func (m *Mechanism) inTurn() (turns []*turnOf) {
	for k, more := 0, true; more; k++ {
		more = false
		for _, c := range m.run.Controls {
			if _, n := m.combinations(c); k < n {
				turns = append(turns, &turnOf{control: c, combination: k})
				more = more || k+1 < n
			}
		}
	}
	return turns
}

func (m *Mechanism) tell(what string, done, of int) {
	if m.Progress != nil {
		m.Progress(what, done, of)
	}
}

// holdAlone brings every held setting by itself, as far as there is work for it, and
// returns the faults of those that can't be, nil for the others. What is left is told
// where it is swept, if it is.
func (m *Mechanism) holdAlone(whole *work) []*linkage.Fault {
	alone := m.heldAlone()
	faults, at := make([]*linkage.Fault, len(alone)), make([][]float64, len(alone))
	brought := make(map[Held][]float64)
	n := whole.inTurn(m, len(alone), float64(heldAloneShare*whole.most), func(i int, own *work) {
		at[i], faults[i] = m.hold(alone[i:i+1], own)
	}, func(i int) {
		if at[i] != nil {
			brought[alone[i]] = at[i]
		}
	})
	whole.brought = brought
	return faults[:n]
}

// sweepInTurn makes the sweeps for which there is work, and returns the controls of
// those that are left out; stopped says that nobody waits for them any more.
func (m *Mechanism) sweepInTurn(turns []*turnOf, whole *work) (left []*linkage.Control, stopped bool) {
	var stop atomic.Bool
	m.tell("sweeps", 0, len(turns))
	n := whole.inTurn(m, len(turns), float64(lastStart*whole.most), func(i int, own *work) {
		t := turns[i]
		if stop.Load() {
			return
		}
		if t.swept, t.fault = m.sweepOne(t.control, m.combination(t.control, t.combination), own); m.Stopped() {
			stop.Store(true)
		}
	}, func(i int) {
		if s := turns[i].swept; s != nil {
			s.work = whole
		}
		if i+1 < len(turns) {
			m.tell("sweeps", i+1, len(turns))
		}
	})
	for i, t := range turns {
		if i >= n { // made ahead, if at all, of what there is work for
			t.swept, t.fault = nil, nil
		}
		if t.swept == nil && t.fault == nil {
			left = append(left, t.control)
		}
	}
	return left, stop.Load()
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

// checkableIn are the kinds that a run gives cause for besides.
func checkableIn(run *linkage.Run) (kinds []linkage.Kind) {
	if len(threadedEnds(run)) > 0 {
		kinds = append(kinds, linkage.Engagement)
	}
	if slices.ContainsFunc(run.Rods, func(r *linkage.Rod) bool { return r.SecondPath }) {
		kinds = append(kinds, linkage.SecondPath)
	}
	if len(run.Pairs) > 0 {
		kinds = append(kinds, linkage.Taut)
	}
	if run.HasPlay() {
		kinds = append(kinds, linkage.FreePlay)
	}
	return kinds
}

// judge judges the requirements over the sweeps made; left are the controls of those
// left out.
func (m *Mechanism) judge(sweeps []*sweeper, left []*linkage.Control) *Result {
	result := &Result{Run: m.run, SweepsLeftOut: len(left)}
	for _, s := range sweeps {
		result.Sweeps = append(result.Sweeps, s.sweep)
	}
	result.SecondPaths = m.secondPaths(result.Sweeps)
	parallel.Each(len(sweeps), func(i int) { sweeps[i].sweep.FreePlay = sweeps[i].freePlay() })
	for i := range m.run.Requirements {
		j := m.judgeRequirement(i, sweeps, left)
		result.Requirements = append(result.Requirements, j)
	}
	result.Labels = m.judgeLabels(sweeps)
	result.NotJudged = result.notJudged(sweeps)
	m.findCyclic(result, sweeps)
	result.Unfit = UnfitSettings(m.run)
	result.Verdict = verdictOf(result)
	for _, k := range slices.Concat(checkable, checkableIn(m.run)) {
		if !m.run.Requires(k) {
			result.NotChecked = append(result.NotChecked, k)
		}
	}
	return result
}

// judgeRequirement judges one requirement over the sweeps made; left are the controls of
// those left out.
func (m *Mechanism) judgeRequirement(i int, sweeps []*sweeper, left []*linkage.Control) Judgement {
	r := m.run.Requirements[i]
	var about []*sweeper
	for _, s := range sweeps {
		if m.concerns(s.sweep.Control, r) {
			about = append(about, s)
		}
	}
	j := m.judgeOne(i, r, about)
	j.Requirement = r
	if j.Verdict == Holds && slices.ContainsFunc(about, func(s *sweeper) bool { return s.sweep.Lost }) {
		j.Verdict, j.Why = CannotTell, LostTrack
	}
	if m.inOtherUnit(r, about) {
		j.Verdict, j.Why = CannotTell, HandsUnit
	}
	if (j.Verdict != FallsShort || j.yetToReach()) && needsSweeps(r) && m.leavesOut(r, about, left) {
		j.Verdict, j.Why = CannotTell, LeftOut
	}
	return j
}

// needsSweeps reports whether a requirement is judged over the travel.
func needsSweeps(r *linkage.Requirement) bool {
	return r.Kind != linkage.Engagement && r.Kind != linkage.Meets && r.Kind != linkage.Neutral
}

// leavesOut reports whether anything that a requirement is about was left out.
func (m *Mechanism) leavesOut(r *linkage.Requirement, about []*sweeper, left []*linkage.Control) bool {
	return slices.ContainsFunc(about, func(s *sweeper) bool { return s.sweep.CutShort }) ||
		slices.ContainsFunc(left, func(c *linkage.Control) bool { return m.concerns(c, r) })
}
