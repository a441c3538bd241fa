// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
)

// The pitch of a blade is judged around the whole turn of its rotor, at every combination
// of the other controls' held settings: the collective pitch is the mean of what the output
// reads, plus with the leading edge up, and the cyclic pitch the amplitude of its first
// harmonic.

// pitchIn is the cycle of a requirement's output in a sweep, and the sign by which the
// pitch is told of it; why says what is in the way where there is none.
func (s *sweeper) pitchIn(i int, r *linkage.Requirement) (k *Cycle, sign float64, why Why) {
	o := r.Of[0].Output
	sign = 1
	if r.Kind != linkage.CyclicPitch {
		if sign = PitchSign(s.m.run, o); sign == 0 {
			return nil, 0, NoLeadingEdge
		}
	}
	if !s.sweep.GoesRound() {
		return nil, 0, NoFullTurn
	}
	if s.m.lean {
		j := s.probeOf(i)
		k = s.cycles([]int{j.probe}, []linkage.Unit{j.unit})[0]
	} else {
		k = s.sweep.Outputs[s.m.run.Output(o).Index].Cycle
	}
	if k == nil {
		return nil, 0, NoCycle
	}
	return k, sign, Plain
}

// pitchOf is the figure of a requirement that a cycle has.
func pitchOf(r *linkage.Requirement, k *Cycle, sign float64) float64 {
	if r.Kind == linkage.CyclicPitch {
		return k.Amplitude
	}
	return float64(sign * k.Mean)
}

// pitchConcerns reports whether a requirement is judged in a sweep: where it names a
// control that is not the one that goes round, all the others are to stand as near to neutral
// as they are held.
func (s *sweeper) pitchConcerns(r *linkage.Requirement) bool {
	if r.Control == nil || r.Control == s.sweep.Control {
		return true
	}
	for _, h := range s.sweep.Held {
		if h.Control == r.Control {
			continue
		}
		for _, at := range h.Control.Held {
			if math.Abs(at) < math.Abs(h.At) {
				return false
			}
		}
	}
	return true
}

// judgePitch judges how far the pitch of a blade goes over all settings.
func (m *Mechanism) judgePitch(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Unit = m.subjectMeasure(r.Of[0]).unit
	why, looked := NoFullTurn, false
	var least, most *Cycle
	var low, high float64
	var at [2]int
	for _, s := range about {
		if !s.pitchConcerns(r) {
			continue
		}
		k, sign, reason := s.pitchIn(i, r)
		if k == nil {
			why, looked = reason, true
			continue
		}
		v := pitchOf(r, k, sign)
		if least == nil || v < low {
			least, low, at[0] = k, v, s.sweep.Index
		}
		if most == nil || v > high {
			most, high, at[1] = k, v, s.sweep.Index
		}
	}
	if least == nil {
		j.Verdict, j.Why = CannotTell, why
		return j
	}
	if r.Most != nil {
		j.worse(high, nil, at[1], 1)
		j.End, j.Reaches = "high", high
		j.decide(*r.Most, 1)
	} else {
		j.worse(missedBy(low, r.Low), nil, at[0], 1)
		j.End, j.Reaches = "low", low
		if j.worse(missedBy(high, r.High), nil, at[1], 1) {
			j.End, j.Reaches = "high", high
		}
		j.decide(r.Within, 1)
	}
	if looked && j.Verdict == Holds { // of some settings there is no telling
		j.Verdict, j.Why = CannotTell, why
	}
	return j
}

// yetToReach reports whether a pitch falls short since it doesn't reach a figure in any sweep
// made: one that was left out may be where it does.
func (j *Judgement) yetToReach() bool {
	r := j.Requirement
	if !isPitch(r.Kind) || r.Kind == linkage.CyclicSense || r.Most != nil || j.Worst == nil {
		return false
	}
	return j.End == "low" && j.Reaches > r.Low || j.End == "high" && j.Reaches < r.High
}

// missedBy is by how much a figure misses what is wanted, by size.
func missedBy(v, wants float64) float64 {
	if v < wants {
		return wants - v
	}
	return v - wants
}
