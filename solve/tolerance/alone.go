package tolerance

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/internal/parallel"
)

const (
	// aloneReach is how many half-widths out a dimension is looked at by itself: farther, it
	// is another part.
	aloneReach = 20
	// aloneFirst is how far out it is looked at first, in half-widths, and aloneGrowth how
	// much farther each time: what fails and holds again between two of these is passed over.
	aloneFirst  = 0.125
	aloneGrowth = 1.25
	// aloneHalvings is how often the place is halved then: to less than a millionth of how
	// far out it is.
	aloneHalvings = 24
)

// findAlone finds how far each dimension may be out by itself.
func (s *search) findAlone() {
	list := make([]Alone, len(s.variables))
	whole := make([]bool, len(list))
	parallel.Each(len(list), func(i int) {
		if s.options.Stop != nil && s.options.Stop() {
			return
		}
		list[i], whole[i] = s.alone(i)
	})
	for i := range list {
		if whole[i] {
			s.answer.Alone = append(s.answer.Alone, list[i])
		}
	}
}

// alone is that of one dimension.
func (s *search) alone(i int) (a Alone, ok bool) {
	v := &s.variables[i]
	by := v.By
	if by == 0 {
		by = v.madeBy
	}
	if by == 0 {
		return a, false
	}
	a = Alone{Dimension: v.Name, Unit: v.Unit, By: v.By, Looked: float64(aloneReach * by)}
	r := s.newRoom()
	known := map[string]threads{}
	list := make([]solve.Figure, len(s.answer.Outcomes))
	sound := make([]bool, len(list)) // what holds without anything out
	judge := func(out float64) (closes, ok bool) {
		clear(r.drawn)
		r.drawn[i] = out
		if s.make(r, bySteps, i) != nil {
			return false, false
		}
		closes, err := s.judge(r, false, known, list)
		return closes, err == nil
	}
	if _, ok = judge(0); !ok {
		return a, false
	}
	for k := range list {
		sound[k] = list[k].Verdict == solve.Holds
	}
	// fails is what fails so far out, nil for nothing; open that it can't be assembled.
	fails := func(out float64) (failed *linkage.Requirement, open bool) {
		closes, ok := judge(out)
		if !ok || !closes {
			return nil, true
		}
		for k := range list {
			if sound[k] && list[k].Verdict != solve.Holds {
				return s.answer.Outcomes[k].Requirement, false
			}
		}
		return nil, false
	}
	for _, sign := range []float64{-1, 1} {
		most := a.Looked
		if bound := math.Abs(map[bool]float64{true: v.high, false: v.low}[sign > 0]); bound < most {
			most = bound
		}
		held := 0.0
		for out := float64(aloneFirst * by); held < most; out = float64(out * aloneGrowth) {
			out = math.Min(out, most)
			failed, open := fails(float64(sign * out))
			if failed == nil && !open {
				held = out
				continue
			}
			for range aloneHalvings {
				middle := held + 0.5*(out-held)
				if f, o := fails(float64(sign * middle)); f != nil || o {
					out, failed, open = middle, f, o
				} else {
					held = middle
				}
			}
			far := held
			if sign < 0 {
				a.Minus, a.MinusFails, a.MinusOpen = &far, failed, open
			} else {
				a.Plus, a.PlusFails, a.PlusOpen = &far, failed, open
			}
			break
		}
	}
	return a, true
}
