package survey

import (
	"gonum.org/v1/gonum/mat"

	"fullfree/solve/internal/num"
)

// wholeTurns returns the axes, through an exact place, about which the whole
// drawing can turn with every exact place where it is and no gauge noticing:
// of length 1, square to each other; none where no place is exact, as the datum
// holds the direction then.
func (n *surveyNet) wholeTurns() []vec {
	center := n.firstExact()
	if center < 0 || len(n.x) == 0 {
		return nil
	}
	turns := n.freeTurns()
	var rows [][]float64
	apart := false // some place that isn't exact would move
	for i, p := range n.places {
		arm := n.between(center, i, n.x)
		if n.seen(arm) <= drawnTogether*n.size {
			continue
		}
		if apart = apart || p.first >= 0; p.first >= 0 {
			continue
		}
		for axis := range n.axes {
			row := make([]float64, len(turns))
			for j, t := range turns {
				move := t.Cross(arm.Unit())
				row[j] = *component(&move, axis)
			}
			rows = append(rows, row)
		}
	}
	if !apart {
		return nil
	}
	_, still := num.NullSpace(rows, len(turns), rankShare)
	return combine(turns, still)
}

// firstExact is the first exact place; -1 where none is.
func (n *surveyNet) firstExact() int {
	for i, p := range n.places {
		if p.first < 0 {
			return i
		}
	}
	return -1
}

// keptFromTurning is the loose space with the whole drawing kept from turning.
// Which place is held square to its line from the exact ones makes a difference
// where it is loose itself: that which leaves the fewest coordinates
// undetermined is, of several the first in the file's order.
func (n *surveyNet) keptFromTurning(loose looseSpace, turns []vec) looseSpace {
	if len(turns) == 0 {
		return loose
	}
	kept := looseSpace{mat.NewSymDense(loose.SymmetricDim(), nil)}
	kept.CopySym(loose.SymDense)
	center := n.firstExact()
	for len(turns) > 0 {
		var best line
		var moves []float64 // of the place held, for each turn
		most := -1
		for i, p := range n.places {
			arm := n.between(center, i, n.x)
			if p.first < 0 || n.seen(arm) <= drawnTogether*n.size {
				continue
			}
			for _, t := range turns {
				move := t.Cross(arm.Unit())
				if move.Norm() <= looseShare {
					continue
				}
				l := line{ends: []surveyEnd{{p.first, 1}}, axes: n.axes, slope: move.Unit()}
				if count := kept.settles(&l); count > most {
					best, most, moves = l, count, nil
					for _, t := range turns {
						moves = append(moves, t.Cross(arm.Unit()).Dot(l.slope))
					}
				}
			}
		}
		if most < 0 { // all on the axis of what turns
			break
		}
		kept.hold(&best)
		_, still := num.NullSpace([][]float64{moves}, len(turns), rankShare)
		turns = combine(turns, still)
	}
	return kept
}

// hold takes from the space what a row notices.
func (space looseSpace) hold(row *line) {
	if column, twice, ok := space.part(row); ok {
		space.SymRankOne(space.SymDense, -1/twice, mat.NewVecDense(len(column), column))
	}
}
