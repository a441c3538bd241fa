// Layer: verdict.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// CyclicWay is a control that tilts the disk, and the output of a blade that it does so to.
type CyclicWay struct {
	Control *linkage.Control
	Output  *linkage.Output
}

// findCyclic lists of which controls that move the cyclic pitch of a blade more than its
// mean it wasn't judged where around the turn they do: those that are held away from neutral
// while the rotor turns. AddRotor looks at the others.
func (m *Mechanism) findCyclic(result *Result, sweeps []*sweeper) {
	var turns []*sweeper
	for _, s := range sweeps {
		if !m.lean && s.sweep.TurnsRotor() {
			turns = append(turns, s)
		}
	}
	if len(turns) == 0 {
		return
	}
	for _, c := range m.run.Controls {
		pairs := newTwins(turns, c)
		for _, o := range m.run.Outputs {
			if _, ok := BladeOf(m.run, o); ok && o.Part != nil && o.Angular() && pairs.cyclic(turns, o) {
				result.leaveCyclic(c, o)
			}
		}
	}
}

// cyclic reports whether the control moves the harmonic of a blade, and more than its mean.
func (t *twins) cyclic(turns []*sweeper, o *linkage.Output) bool {
	mean, harmonic := 0.0, 0.0
	for _, s := range turns {
		from := t.neutral(s)
		if from == nil {
			continue
		}
		if a, b := s.sweep.Outputs[o.Index].Cycle, from.sweep.Outputs[o.Index].Cycle; a != nil && b != nil {
			mean = math.Max(mean, math.Abs(a.Mean-b.Mean))
			harmonic = math.Max(harmonic, elementary.Hypot(a.Cosine-b.Cosine, a.Sine-b.Sine))
		}
	}
	return harmonic >= LeastAmplitude && harmonic > mean
}

// leaveCyclic takes in a control that moves the cyclic pitch of a blade, unless where it does
// so was judged.
func (r *Result) leaveCyclic(c *linkage.Control, o *linkage.Output) {
	for i := range r.Requirements {
		if j := &r.Requirements[i]; j.Requirement.Kind == linkage.CyclicSense && j.Verdict != CannotTell && j.Requirement.Control == c && j.Requirement.Of[0].Output.Part == o.Part {
			return
		}
	}
	if k := (CyclicWay{c, o}); !slices.Contains(r.CyclicNotJudged, k) {
		r.CyclicNotJudged = append(r.CyclicNotJudged, k)
	}
}
