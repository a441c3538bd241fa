// Layer: values.

package solve

import (
	"math"

	"fullfree/linkage"
)

// Reserve is how much of its limit a requirement has left, negative where it
// falls short by that share; nil for one that can only hold or not.
//
// Where a figure is beyond what a rod itself allows, that counts as the limit: of a
// second path its play, of a tilt what the rod end allows.
func (j *Judgement) Reserve() *float64 {
	if j.Worst == nil {
		return nil
	}
	if !(j.Limit > 0) {
		return j.reserveBeyond()
	}
	v := (j.Limit - *j.Worst) / j.Limit
	switch j.Requirement.Kind {
	case linkage.OverCenter:
		if j.NoneFound {
			return nil
		}
		v = -v
	case linkage.RodAngle, linkage.Clearance, linkage.Order, linkage.Taut:
		v = -v
	case linkage.Engagement, linkage.AsSet, linkage.Sense, linkage.Stops:
		return nil
	}
	return finiteShare(v)
}

// finiteShare is a share, or nil of a limit next to nothing.
func finiteShare(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	return &v
}

// reserveBeyond is Reserve where the limit is nothing; nil where there is nothing that
// the figure is beyond.
func (j *Judgement) reserveBeyond() *float64 {
	of := j.beyond()
	if !(of > 0) {
		return nil
	}
	if j.Requirement.Kind == linkage.SecondPath {
		return finiteShare((of - j.Reaches) / of)
	}
	return finiteShare(-*j.Worst / of)
}

// Reserve is the least reserve of the requirements; nil where none has one.
func (r *Result) Reserve() (least *float64) {
	for i := range r.Requirements {
		if v := r.Requirements[i].Reserve(); v != nil && (least == nil || *v < *least) {
			least = v
		}
	}
	return least
}

// MissedShare is by what share of its limit a requirement falls short: 0 where it
// holds. Where the limit is nothing, it is counted by what the figure is beyond: of
// a second path its play, of a rod end's tilt what that end allows. What can only
// hold or not, or has no such measure, counts whole.
func (j *Judgement) MissedShare() float64 {
	if j.Verdict == Holds {
		return 0
	}
	if v := j.Reserve(); v != nil {
		return math.Max(0, -*v)
	}
	return 1
}

// beyond is what the figure of a requirement is beyond, where its limit is nothing;
// 0 where there is no such.
func (j *Judgement) beyond() float64 {
	if j.Rod == nil {
		return 0
	}
	switch j.Requirement.Kind {
	case linkage.SecondPath:
		return j.Rod.Play
	case linkage.Misalignment:
		if j.Rod.Misalignment != nil {
			return *j.Rod.Misalignment
		}
	}
	return 0
}

// OfThread reports whether what is unfit is what "engagement" is about: too little
// thread in an end, or more than it takes.
func (j *Judgement) OfThread() bool {
	return j.Why == ComesOut || j.Why == ThreadShort || j.Why == BottomsOut
}
