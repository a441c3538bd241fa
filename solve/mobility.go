// Layer: compile.

package solve

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/solve/internal/num"
)

const (
	// rankSine is the ratio to the largest below which a singular value counts
	// as zero: that of the sine below which a rod stands on center.
	rankSine = criticalSine
	// nullShare is the share of the largest component below which a component
	// of a null vector is rounding.
	nullShare = 1e-6
	// mostForRank is the largest group of unknowns or rods for which null
	// vectors are formed; beyond it a group is named as a whole.
	mostForRank = 300
)

// tellMobility adds a fault for every group of parts that too few rods hold
// and of rods that close the same loop.
func (m *Mechanism) tellMobility(e equations, pairs num.Matching, faults *linkage.Faults) {
	count := m.countOf(e)
	st := m.newState()
	loose := pairs.Loose(e.of)
	if len(loose) > 0 {
		m.tellLoose(&st, e, loose, count, faults)
	}
	if excess := pairs.Excess(e.of); len(excess) > 0 {
		m.tellExcess(&st, e, excess, m.unreachedOf(e, loose), count, faults)
	}
}

// countOf tells in how many ways the parts can move and how many of these are held, to stand
// behind what is said; empty where as many are held as there are, since then it is no help.
// What parts keep by themselves counts with their freedoms: a part on a ball has three.
func (m *Mechanism) countOf(e equations) string {
	kept, taking := 0, "the rods"
	for _, i := range e.constraints {
		if m.constraints[i].keep != nil {
			kept++
		}
		if m.constraints[i].pin != nil {
			taking = "the rods and joints"
		}
	}
	ways, held := len(m.freedoms)-kept, len(e.constraints)-kept
	if ways == held+len(m.inputs) {
		return ""
	}
	return fmt.Sprintf(" (counted over the whole run, the parts can move in %d ways, and %s hold %d of them, the controls %d)", ways, taking, held, len(m.inputs))
}

// tellLoose names the parts that can move with the controls held.
func (m *Mechanism) tellLoose(st *state, e equations, loose []int, count string, faults *linkage.Faults) {
	var rows, columns []int
	for _, u := range loose {
		columns = append(columns, e.unknowns[u])
	}
	for i, us := range e.of {
		if slices.ContainsFunc(us, func(u int) bool { _, ok := slices.BinarySearch(loose, u); return ok }) {
			rows = append(rows, e.constraints[i])
		}
	}
	_, moving := m.nullShares(st, rows, columns)
	var parts []*linkage.Part
	for j, f := range columns {
		if p := m.bodies[m.freedoms[f].body].part; moving[j] && !slices.Contains(parts, p) {
			parts = append(parts, p)
		}
	}
	if m.tellLooseTurn(st, rows, columns, parts, count, faults) {
		return
	}
	hint := "a rod or a control is missing"
	if len(rows) == 0 {
		hint = "no rod reaches it: join it by a rod, or make it a control"
		if len(parts) > 1 {
			hint = "no rod reaches them: join them by rods, or make them controls"
		}
	}
	var floating []*linkage.Part
	alone := "rods"
	if len(m.run.Joints) > 0 || slices.ContainsFunc(parts, (*linkage.Part).Spatial) {
		alone = "rods and joints"
	}
	for _, p := range parts {
		if isLoose(p) {
			floating = append(floating, p)
		}
	}
	if len(floating) == 1 {
		hint += fmt.Sprintf("; %q has no pivot, so %s alone must hold it: give it one if it turns on the airframe", floating[0].Name, alone)
	} else if len(floating) > 1 {
		hint += fmt.Sprintf("; %s have no pivot, so %s alone must hold them: give them pivots if they turn on the airframe", list(partNames(floating)), alone)
	}
	faults.Add(parts[0].Span, "%s left loose with the controls held: %s%s", isAre(partNames(parts)), hint, count)
}

// tellLooseTurn adds the fault where the only motion left turns a part on a ball, loose in
// space or on a sleeve, and reports whether it is so.
func (m *Mechanism) tellLooseTurn(st *state, rows, columns []int, parts []*linkage.Part, count string, faults *linkage.Faults) bool {
	if len(rows) != len(columns)-1 {
		return false
	}
	p, says, missing := m.turnLeft(st, rows, columns, parts)
	if p == nil {
		return false
	}
	who := strconv.Quote(p.Name)
	if len(parts) == 1 {
		who = "it"
	}
	faults.Add(p.Span, "%s left loose with the controls held: %s %s: %s is missing%s", isAre(partNames(parts)), who, says, missing, count)
	return true
}

// turnLeft returns the first of the parts on a ball, loose in space or on a sleeve that turns in the
// motion which constraints hold least of all, how, and what is missing; nil where none does.
func (m *Mechanism) turnLeft(st *state, rows, columns []int, parts []*linkage.Part) (p *linkage.Part, says, missing string) {
	if len(columns) > mostForRank {
		return nil, "", ""
	}
	by := []float64{1}
	if len(rows) > 0 {
		var svd mat.SVD
		if !svd.Factorize(m.matrixOf(st, rows, columns), mat.SVDFull) {
			return nil, "", ""
		}
		var v mat.Dense
		svd.VTo(&v)
		by = mat.Col(nil, len(columns)-1, &v)
	}
	for j, f := range columns {
		by[j] /= m.inLengths(f)
	}
	for _, p := range parts {
		if !p.Spatial() && p.Motion != linkage.TurnsAndSlides {
			continue
		}
		if says, missing := m.looseTurn(st, p, columns, by); says != "" {
			return p, says, missing
		}
	}
	return nil, "", ""
}

// tellExcess names the rods that hold what others hold already.
func (m *Mechanism) tellExcess(st *state, e equations, excess []int, unreached []*linkage.Part, count string, faults *linkage.Faults) {
	var columns []int
	for _, i := range excess {
		for _, u := range e.of[i] {
			columns = append(columns, e.unknowns[u])
		}
	}
	slices.Sort(columns)
	columns = slices.Compact(columns)
	rows := make([]int, len(excess))
	for k, i := range excess {
		rows[k] = e.constraints[i]
	}
	sharing, _ := m.nullShares(st, rows, columns)
	var rods []*constraint
	for k, i := range rows {
		if sharing[k] && m.constraints[i].keep == nil {
			rods = append(rods, &m.constraints[i])
		}
	}
	if len(rods) == 0 {
		for _, i := range rows {
			if m.constraints[i].keep == nil {
				rods = append(rods, &m.constraints[i])
			}
		}
	}
	at := rods[0].span()
	single := !slices.ContainsFunc(rods, func(l *constraint) bool { return l != rods[0] && (l.pin == nil || l.pinned() != rods[0].pinned()) })
	missed := m.missedPlace(rods)
	spare := m.spareControls()
	doubled := doubledIn(rods)
	if doubled.certain(unreached) || doubled != nil && len(spare) < 2 {
		faults.Add(doubled.b.Span, "%s%s", doubled.says(unreached, doubled.othersThan(rods)), count)
		return
	}
	switch {
	case len(spare) > 1 && slices.ContainsFunc(rods, (*constraint).endsInSpace):
		// One part may go with many controls there: what is too many may as well be a second anti-rotation link.
		faults.Add(at, "%s hold the same twice: take one of them away, or one of the controls %s%s", ofConstraints(rods), list(spare), count)
	case len(spare) > 1:
		faults.Add(at, "each of the controls %s moves what the other moves already, through %s: one control is enough%s",
			list(spare), ofConstraints(rods), count)
	case single:
		faults.Add(at, "%s joins what can't move apart or is held already: take it away%s%s", ofConstraints(rods), missed, count)
	case !slices.ContainsFunc(rods, func(l *constraint) bool { return l.rod != nil }):
		faults.Add(at, "%s close the same loop: take one of them away%s%s", ofConstraints(rods), missed, count)
	default:
		faults.Add(at, "%s close the same loop: take one of them away, or say second-path = true in one that only goes along%s", ofConstraints(rods), count)
	}
}

// spareControls names the controls without any one of which everything would be
// held as it should: more than one of them is one too many.
func (m *Mechanism) spareControls() (names []string) {
	if len(m.run.Controls) < 2 {
		return nil
	}
	for _, c := range m.run.Controls {
		e := m.incidence(c.Index)
		pairs := num.Match(e.of, len(e.unknowns))
		if len(pairs.Loose(e.of)) == 0 && len(pairs.Excess(e.of)) == 0 {
			names = append(names, c.Name)
		}
	}
	return names
}

// nullShares returns which rows have a share in a left null vector of the
// constraints' matrix as drawn, and which columns in a right one; all of them where
// the matrix is too large or its rank is full in that direction.
func (m *Mechanism) nullShares(st *state, rows, columns []int) (left, right []bool) {
	left, right = slices.Repeat([]bool{true}, len(rows)), slices.Repeat([]bool{true}, len(columns))
	if len(rows) == 0 || len(columns) == 0 || max(len(rows), len(columns)) > mostForRank {
		return left, right
	}
	var svd mat.SVD
	if !svd.Factorize(m.matrixOf(st, rows, columns), mat.SVDFull) {
		return left, right
	}
	values := svd.Values(nil)
	rank := 0
	for _, v := range values {
		if v > rankSine*values[0] {
			rank++
		}
	}
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	return shares(&u, rank, left), shares(&v, rank, right)
}

// shares reports which rows of the columns from rank on are not all zero.
func shares(vectors *mat.Dense, rank int, all []bool) []bool {
	_, n := vectors.Dims()
	if rank == n {
		return all
	}
	norm := make([]float64, len(all))
	largest := 0.0
	for i := range all {
		for k := rank; k < n; k++ {
			norm[i] = elementary.Hypot(norm[i], vectors.At(i, k))
		}
		largest = math.Max(largest, norm[i])
	}
	for i := range all {
		all[i] = norm[i] > nullShare*largest
	}
	return all
}

// matrixOf returns how the length of each constraint changes for each unit of each
// freedom, a turn measured by the run's size.
func (m *Mechanism) matrixOf(st *state, constraints, freedoms []int) *mat.Dense {
	a := mat.NewDense(len(constraints), len(freedoms), nil)
	for i, k := range constraints {
		l := &m.constraints[k]
		for j, f := range freedoms {
			v := m.drawnSlope(st, l, f)
			a.Set(i, j, v/m.inLengths(f))
		}
	}
	return a
}
