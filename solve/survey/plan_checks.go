package survey

import "gonum.org/v1/gonum/mat"

// checks takes further distances until every one of the chosen is checked by
// others, as far as that can be done: each time the one that newly checks most.
// A measurement's redundancy number is the share of a slip in it by which it
// then disagrees with the others (geodetic adjustment; 0: not at all).
func (p *planner) checks() []candidate {
	cofactors, ok := p.cofactors()
	if !ok {
		return nil
	}
	var added []candidate
	for {
		unchecked := p.unchecked(cofactors)
		best, most := -1, 0
		for i := range p.all {
			if p.all[i].taken || !p.all[i].tapes {
				continue
			}
			if n := newlyChecked(cofactors, unchecked, p.all[i].row); n > most || n == most && n > 0 && p.all[i].tier < p.all[best].tier {
				best, most = i, n
			}
		}
		if best < 0 {
			return added
		}
		p.all[best].taken = true
		p.chosen = append(p.chosen, p.all[best])
		added = append(added, p.all[best])
		cofactors, _ = p.cofactors()
	}
}

// cofactors returns the inverse of the normal matrix of the chosen distances,
// with the free motions held; false where they don't determine everything.
func (p *planner) cofactors() (*mat.SymDense, bool) {
	if p.width == 0 || len(p.basis) < p.width {
		return nil, false
	}
	normal := mat.NewSymDense(p.width, nil)
	add := func(row []float64) {
		normal.SymRankOne(normal, 1, mat.NewVecDense(p.width, row))
	}
	for _, row := range p.free {
		add(row)
	}
	for _, c := range p.chosen {
		add(p.whole(c.row))
	}
	var factored mat.Cholesky
	var inverse mat.SymDense
	if !factored.Factorize(normal) || factored.InverseTo(&inverse) != nil {
		return nil, false
	}
	return &inverse, true
}

// uncheckedRow is a chosen distance that the others hardly check.
type uncheckedRow struct {
	row        []entry
	redundancy float64
}

// unchecked are the chosen distances that aren't checked yet.
func (p *planner) unchecked(cofactors *mat.SymDense) (list []uncheckedRow) {
	for _, c := range p.chosen {
		if redundancy := 1 - between(c.row, cofactors, c.row); redundancy < wellChecked {
			list = append(list, uncheckedRow{c.row, redundancy})
		}
	}
	return list
}

// between is a row times a matrix times another row.
func between(a []entry, m *mat.SymDense, b []entry) (sum float64) {
	for _, x := range a {
		for _, y := range b {
			sum += float64(x.is * m.At(x.at, y.at) * y.is)
		}
	}
	return sum
}

// newlyChecked returns how many of the distances that aren't checked yet would be with one
// more. The normal matrix grows by its row: Sherman and Morrison's formula.
func newlyChecked(cofactors *mat.SymDense, unchecked []uncheckedRow, more []entry) (n int) {
	own := between(more, cofactors, more)
	for _, c := range unchecked {
		shared := between(c.row, cofactors, more)
		if c.redundancy+shared*shared/(1+own) >= wellChecked {
			n++
		}
	}
	return n
}
