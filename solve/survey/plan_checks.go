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
		best, most := -1, 0
		for i := range p.all {
			if p.all[i].taken || !p.all[i].tapes {
				continue
			}
			if n := p.newlyChecked(cofactors, p.all[i]); n > most || n == most && n > 0 && p.all[i].tier < p.all[best].tier {
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
		add(c.row)
	}
	var factored mat.Cholesky
	var inverse mat.SymDense
	if !factored.Factorize(normal) || factored.InverseTo(&inverse) != nil {
		return nil, false
	}
	return &inverse, true
}

// newlyChecked returns how many of the chosen distances aren't checked yet and
// would be with one more.
func (p *planner) newlyChecked(cofactors *mat.SymDense, more candidate) int {
	var spread mat.VecDense
	spread.MulVec(cofactors, mat.NewVecDense(p.width, more.row))
	own := mat.Dot(mat.NewVecDense(p.width, more.row), &spread)
	n := 0
	for _, c := range p.chosen {
		row := mat.NewVecDense(p.width, c.row)
		redundancy := 1 - mat.Inner(row, cofactors, row)
		if redundancy >= wellChecked {
			continue
		}
		// The normal matrix grows by one row: Sherman and Morrison's formula.
		shared := mat.Dot(row, &spread)
		if redundancy+shared*shared/(1+own) >= wellChecked {
			n++
		}
	}
	return n
}
