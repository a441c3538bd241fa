package survey

import (
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

const (
	// rankShare is the singular value, as a share of the largest, from which
	// rows of unit size are independent: a hundred times what the settling of
	// the coordinates leaves in them.
	rankShare = 1e-7
	// looseShare is the part in a null vector of length 1 from which a
	// coordinate is undetermined.
	looseShare = 1e-6
)

// looseSpace is the space of changes of the unknowns that no measurement
// notices, beyond moving the drawing as a whole: the projection onto it, N N' of
// its orthonormal vectors N. On the diagonal stand the squares of what each
// unknown has part in it.
type looseSpace struct{ *mat.SymDense }

// has reports whether an unknown is undetermined.
func (space looseSpace) has(u int) bool { return space.At(u, u) > looseShare*looseShare }

// lines returns the measurements as rows without their weights, those of
// directions as lengths square to the line: the unit of every row is 1.
func (n *surveyNet) lines() [][]float64 {
	rows := make([][]float64, len(n.sightings))
	for i := range n.sightings {
		g := &n.sightings[i]
		slope := n.slope(g, n.x)
		if g.measured.Kind == linkage.Gauged {
			slope = slope.Unit()
		}
		rows[i] = n.row(g.from, g.to, slope)
	}
	return rows
}

// rank is the rank of the measurements.
func (n *surveyNet) rank() int {
	rank, _ := num.NullSpace(n.lines(), len(n.x), rankShare)
	return rank
}

// looseSpace finds what neither the measurements nor the datum ties.
func (n *surveyNet) looseSpace() looseSpace {
	l := looseSpace{&mat.SymDense{}}
	if len(n.x) == 0 {
		return l
	}
	l.ReuseAsSym(len(n.x))
	_, null := num.NullSpace(append(n.lines(), n.datum()...), len(n.x), rankShare)
	for _, v := range null {
		l.SymRankOne(l.SymDense, 1, mat.NewVecDense(len(v), v))
	}
	return l
}

// datum returns rows for what holds the drawing as a whole: nothing where some
// places are exact. Else it is held by its first fixed point; without one, by
// its first pivot, or its first point. Where no gauge would notice if all of it
// turned about that, the next fixed point or pivot in the file's order (after
// the last the first) that is drawn elsewhere is held square to the line between
// them, as it would move: in space then another one too, until the drawing can't
// turn.
func (n *surveyNet) datum() [][]float64 {
	if len(n.x) < n.axes*len(n.places) || len(n.places) == 0 {
		return nil
	}
	first := n.holds()
	var rows [][]float64
	for _, axis := range []vec{{X: 1}, {Y: 1}, {Z: 1}}[:n.axes] {
		rows = append(rows, n.alone(first, axis))
	}
	turns := n.freeTurns()
	for step := 1; step < len(n.places) && len(turns) > 0; step++ {
		next := (first + step) % len(n.places)
		if p := n.places[next]; p.ref.Point >= 0 && p.ref.Part.Motion != linkage.Fixed ||
			n.seen(n.between(first, next, n.drawn)) <= drawnTogether*n.size {
			continue
		}
		arm := n.between(first, next, n.x).Unit()
		var moves [3][]float64 // of the place, a column for each turn
		var held []vec
		for _, t := range turns {
			move := t.Cross(arm)
			for axis := range moves {
				moves[axis] = append(moves[axis], *component(&move, axis))
			}
			for _, h := range held {
				move = move.Sub(h.Scale(h.Dot(move)))
			}
			if move.Norm() > looseShare {
				held = append(held, move.Unit())
			}
		}
		for _, h := range held {
			rows = append(rows, n.alone(next, h))
		}
		_, still := num.NullSpace(moves[:], len(turns), rankShare)
		turns = combine(turns, still)
	}
	return rows
}

// alone is the row that holds one place in a direction.
func (n *surveyNet) alone(place int, along vec) []float64 {
	row := make([]float64, len(n.x))
	for axis := range n.axes {
		row[n.places[place].first+axis] = *component(&along, axis)
	}
	return row
}

// holds is the place that holds a drawing of which no place is exact.
func (n *surveyNet) holds() int {
	pivot := -1
	for i, p := range n.places {
		switch {
		case p.ref.Part.Motion == linkage.Fixed:
			return i
		case p.ref.Point < 0 && pivot < 0:
			pivot = i
		}
	}
	return max(0, pivot)
}

// freeTurns returns the axes about which the whole drawing can turn without a
// gauge noticing: of length 1, square to each other. Tapes never notice.
func (n *surveyNet) freeTurns() []vec {
	axes := []vec{vec{Z: 1}, {X: 1}, {Y: 1}}
	if n.axes == 2 {
		axes = axes[:1]
	}
	var rows [][]float64
	for i := range n.sightings {
		g := &n.sightings[i]
		if g.measured.Kind != linkage.Gauged {
			continue
		}
		row := make([]float64, len(axes))
		for j, axis := range axes {
			row[j] = n.slope(g, n.x).Dot(axis.Cross(n.between(g.from, g.to, n.x)))
		}
		rows = append(rows, row)
	}
	_, free := num.NullSpace(rows, len(axes), rankShare)
	return combine(axes, free)
}

// combine returns the sums of vectors times each row of shares.
func combine(vectors []vec, shares [][]float64) (sums []vec) {
	for _, row := range shares {
		var sum vec
		for i, v := range vectors {
			sum = sum.Add(v.Scale(row[i]))
		}
		sums = append(sums, sum)
	}
	return sums
}
