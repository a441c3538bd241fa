package num

import "slices"

// Incidence says which unknowns each equation has: equation i has unknowns
// in[i] of an Incidence in, ascending.
type Incidence [][]int

// Matching pairs equations with unknowns; -1 is unpaired.
type Matching struct {
	UnknownOf  []int // by equation
	EquationOf []int // by unknown
}

// Match finds a matching of the greatest size of equations with unknowns numbered from 0
// to one less than unknowns (augmenting paths; see Duff,
// "On algorithms for obtaining a maximum transversal", ACM TOMS 7, 1981, from
// memory).
func Match(in Incidence, unknowns int) Matching {
	m := Matching{make([]int, len(in)), make([]int, unknowns)}
	for i := range m.UnknownOf {
		m.UnknownOf[i] = -1
	}
	for j := range m.EquationOf {
		m.EquationOf[j] = -1
	}
	seen := make([]int, unknowns) // the round in which an unknown was looked at
	var augment func(equation, round int) bool
	augment = func(equation, round int) bool {
		for _, u := range in[equation] { // a free unknown first: cheap, and most often there
			if m.EquationOf[u] < 0 {
				m.EquationOf[u], m.UnknownOf[equation] = equation, u
				return true
			}
		}
		for _, u := range in[equation] {
			if seen[u] == round {
				continue
			}
			seen[u] = round
			if augment(m.EquationOf[u], round) {
				m.EquationOf[u], m.UnknownOf[equation] = equation, u
				return true
			}
		}
		return false
	}
	for i := range in {
		augment(i, i+1)
	}
	return m
}

// Loose returns the unknowns that too few equations hold: those left over and
// all that could be left over in their place (the under-determined part of
// Dulmage and Mendelsohn's decomposition), ascending.
func (m Matching) Loose(in Incidence) []int {
	holders := make(Incidence, len(m.EquationOf)) // equations by unknown
	for i, us := range in {
		for _, u := range us {
			holders[u] = append(holders[u], i)
		}
	}
	return spread(m.EquationOf, func(u int, visit func(int)) {
		for _, i := range holders[u] {
			if v := m.UnknownOf[i]; v >= 0 {
				visit(v)
			}
		}
	})
}

// Excess returns the equations that share too few unknowns: those left over
// and all that could be left over in their place, ascending.
func (m Matching) Excess(in Incidence) []int {
	return spread(m.UnknownOf, func(i int, visit func(int)) {
		for _, u := range in[i] {
			if k := m.EquationOf[u]; k >= 0 {
				visit(k)
			}
		}
	})
}

// spread returns every node reached from the nodes whose partner is -1.
func spread(partner []int, neighbors func(node int, visit func(int))) []int {
	seen := make([]bool, len(partner))
	var queue []int
	visit := func(n int) {
		if !seen[n] {
			seen[n] = true
			queue = append(queue, n)
		}
	}
	for n, p := range partner {
		if p < 0 {
			visit(n)
		}
	}
	for at := 0; at < len(queue); at++ {
		neighbors(queue[at], visit)
	}
	slices.Sort(queue)
	return queue
}

// Blocks orders a perfect matching into the smallest sets of unknowns that can
// be solved one after another (strongly connected components, Tarjan 1972),
// each ascending. Which of those comes first that don't need each other is settled by
// the unknowns' numbers, so the same run gets the same blocks.
func (m Matching) Blocks(in Incidence) [][]int {
	n := len(m.EquationOf)
	var (
		order [][]int
		index = make([]int, n) // 0: not visited
		low   = make([]int, n)
		stack []int
		on    = make([]bool, n)
		next  = 1
		visit func(u int)
	)
	visit = func(u int) {
		index[u], low[u] = next, next
		next++
		stack = append(stack, u)
		on[u] = true
		for _, v := range in[m.EquationOf[u]] {
			if index[v] == 0 {
				visit(v)
				low[u] = min(low[u], low[v])
			} else if on[v] {
				low[u] = min(low[u], index[v])
			}
		}
		if low[u] != index[u] {
			return
		}
		at := len(stack) - 1
		for stack[at] != u {
			at--
		}
		block := slices.Clone(stack[at:])
		stack = stack[:at]
		for _, v := range block {
			on[v] = false
		}
		slices.Sort(block)
		order = append(order, block)
	}
	for u := range n {
		if index[u] == 0 {
			visit(u)
		}
	}
	return order
}
