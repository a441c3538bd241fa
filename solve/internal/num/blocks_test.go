package num

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/graph"
	"gonum.org/v1/gonum/graph/iterator"
	"gonum.org/v1/gonum/graph/simple"
	"gonum.org/v1/gonum/graph/topo"
)

// needs is a perfect matching as gonum sees it: an arrow from each unknown to those
// that its equation has too, in the order of their numbers.
type needs struct {
	in Incidence
	m  Matching
}

func (g needs) Node(id int64) graph.Node { return simple.Node(id) }

func (g needs) Nodes() graph.Nodes {
	list := make([]graph.Node, len(g.m.EquationOf))
	for i := range list {
		list[i] = simple.Node(i)
	}
	return iterator.NewOrderedNodes(list)
}

func (g needs) From(id int64) graph.Nodes {
	var list []graph.Node
	for _, u := range g.in[g.m.EquationOf[id]] {
		if int64(u) != id {
			list = append(list, simple.Node(u))
		}
	}
	return iterator.NewOrderedNodes(list)
}

func (g needs) HasEdgeFromTo(u, v int64) bool {
	return u != v && slices.Contains(g.in[g.m.EquationOf[u]], int(v))
}

func (g needs) HasEdgeBetween(u, v int64) bool { return g.HasEdgeFromTo(u, v) || g.HasEdgeFromTo(v, u) }

func (g needs) Edge(u, v int64) graph.Edge {
	if !g.HasEdgeFromTo(u, v) {
		return nil
	}
	return simple.Edge{F: simple.Node(u), T: simple.Node(v)}
}

func (g needs) To(id int64) graph.Nodes {
	var list []graph.Node
	for u := range g.m.EquationOf {
		if g.HasEdgeFromTo(int64(u), id) {
			list = append(list, simple.Node(u))
		}
	}
	return iterator.NewOrderedNodes(list)
}

// theirs are the blocks by gonum's Tarjan.
func (g needs) theirs() (list [][]int) {
	for _, component := range topo.TarjanSCC(g) {
		var block []int
		for _, node := range component {
			block = append(block, int(node.ID()))
		}
		slices.Sort(block)
		list = append(list, block)
	}
	return list
}

// TestBlocksAgreeWithGonum orders random equations, perfectly matched, beside gonum's
// topo.TarjanSCC: the same blocks, in the same order.
func TestBlocksAgreeWithGonum(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	for range 300 {
		n := 1 + random.IntN(30)
		in := make(Incidence, n)
		for i, u := range random.Perm(n) {
			in[i] = []int{u}
			for range random.IntN(4) {
				in[i] = append(in[i], random.IntN(n))
			}
			slices.Sort(in[i])
			in[i] = slices.Compact(in[i])
		}
		m := Match(in, n)
		require.NotContains(t, m.EquationOf, -1)
		require.Equal(t, needs{in, m}.theirs(), m.Blocks(in))
	}
}

// BenchmarkBlocks orders a chain of 1000 equations, each with the unknown before it.
func BenchmarkBlocks(b *testing.B) {
	in := Incidence{{0}}
	for i := 1; i < 1000; i++ {
		in = append(in, []int{i - 1, i})
	}
	m := Match(in, len(in))
	b.Run("own", func(b *testing.B) {
		for b.Loop() {
			m.Blocks(in)
		}
	})
	b.Run("gonum", func(b *testing.B) {
		for b.Loop() {
			needs{in, m}.theirs()
		}
	})
}
