package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/render/figure"
	"fullfree/solve"
)

// halfTurn is what a pitch link is told by: the least that an end with a clevis can be
// turned, and what riggers count in (common practice, no source).
const halfTurn = 0.5

// firstAround is the first sweep in which something comes round again with the control; nil
// where there is none.
func firstAround(r *solve.Result) *solve.Sweep {
	for _, s := range r.Sweeps {
		if slices.ContainsFunc(s.Outputs, func(o solve.OutputTravel) bool { return o.Cycle != nil }) {
			return s
		}
	}
	return nil
}

// aroundSays tells, of the first sweep around a turn alone, what half a turn of each end makes of the mean around a full turn of the
// control, of a blade its collective pitch.
func aroundSays(r *solve.Result, s *solve.Sweep, effects []endEffect) (list []string) {
	if s != firstAround(r) {
		return nil
	}
	for k, o := range s.Outputs {
		what := figure.Clean(o.Output.Name) + ", in the mean around the turn"
		sign := 1.0
		if pitch := solve.PitchSign(r.Run, o.Output); pitch != 0 {
			what, sign = "collective pitch of "+figure.Clean(o.Output.Name), pitch
		}
		told := map[string]bool{}
		for _, e := range effects {
			around := e.of(len(s.Parts) + k).Around
			if around == nil || math.Abs(*around) < figure.LeastUsable {
				continue
			}
			by := float64(sign * halfTurn * *around)
			way := "more"
			if by < 0 {
				way = "less"
			}
			size := figure.WithUnit(figure.Decimal(math.Abs(by), figure.UsualDecimals(o.Unit)+1), o.Unit)
			rod, _, _ := strings.Cut(e.name, ".")
			words := fmt.Sprintf("Half a turn of %s out, at either end, makes %s %s %s.", rod, size, way, what)
			if !told[words] {
				told[words] = true
				list = append(list, words)
			}
		}
	}
	return list
}
