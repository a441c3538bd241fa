package calls

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve"
)

// pose is where the controls of a setting stand, one of them being moved.
type pose struct {
	moves *linkage.Control
	sweep *solve.Sweep // of what moves, the others where they stand
	at    []float64    // by control
}

// stand puts the controls where they are asked to be, each no further than its
// travel: the one that moves with the others where they stand, and these, where
// they can't all stand so, one after another as far as they go.
func (t *tried) poseAt(moves *linkage.Control, at []float64) (*pose, error) {
	s := &pose{moves: moves, at: append([]float64(nil), at...)}
	var err error
	if s.sweep, err = t.sweep(moves, s.others(t.in.Run)); err != nil {
		if err := t.bringBack(s); err != nil {
			return nil, err
		}
		if s.sweep, err = t.sweep(moves, s.others(t.in.Run)); err != nil {
			return nil, err
		}
	}
	s.at[moves.Index] = within(s.sweep, at[moves.Index])
	return s, nil
}

// others is where the controls stand that don't move.
func (s *pose) others(run *linkage.Run) (held []solve.Held) {
	for _, c := range run.Controls {
		if c != s.moves {
			held = append(held, solve.Held{Control: c, At: s.at[c.Index]})
		}
	}
	return held
}

// bringBack takes what doesn't move to where it gets from neutral, one control
// after another in the file's order, as solve holds them.
func (t *tried) bringBack(s *pose) error {
	for i, h := range s.others(t.in.Run) {
		held := s.others(t.in.Run)
		for k := range held[i:] {
			held[i+k].At = 0
		}
		held[i] = solve.Held{Control: s.moves}
		sweep, err := t.sweep(h.Control, held)
		if err != nil {
			return err
		}
		s.at[h.Control.Index] = reachable(sweep, h.At)
	}
	return nil
}

// within takes a position to the travel.
func within(s *solve.Sweep, x float64) float64 { return math.Max(s.Low, math.Min(s.High, x)) }

// ShyOf is how far short of an end that is no stop a control is held, as a share
// of the travel: at a toggle itself nothing stands.
const ShyOf = 1e-4

// standable is within, but a little short of an end where a part is on center.
func reachable(s *solve.Sweep, x float64) float64 {
	low, high := s.Low, s.High
	shy := float64(ShyOf * (high - low))
	if c := s.Ends[0].Cause; c == solve.ByToggle || c == solve.ByChangePoint {
		low += shy
	}
	if c := s.Ends[1].Cause; c == solve.ByToggle || c == solve.ByChangePoint {
		high -= shy
	}
	return math.Max(low, math.Min(high, x))
}

// travels are the sweeps of every control with the others where they stand; nil
// where these hinder it.
func (t *tried) travels(s *pose) (list []*solve.Sweep) {
	for _, c := range t.in.Run.Controls {
		if c == s.moves {
			list = append(list, s.sweep)
			continue
		}
		other := &pose{moves: c, at: s.at}
		sweep, err := t.sweep(c, other.others(t.in.Run))
		if err != nil {
			sweep = nil
		}
		list = append(list, sweep)
	}
	return list
}
