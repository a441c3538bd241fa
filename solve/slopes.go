// Layer: questions.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// Slopes returns how the worst of every requirement goes with every number of the run,
// in the order of Result.Requirements: all numbers at once, by one backward pass for each
// place on which a figure rests. The worst goes on being judged over the whole travel,
// whose ends go with the numbers too. nil where there is no telling: of what has no
// figure, or one that hangs on nothing drawn, and where the run is on center there.
// ByControl is nothing. The error is of a result that isn't this mechanism's.
func (m *Mechanism) Slopes(result *Result) (list []*Gradient, err error) {
	if err := m.made(result); err != nil {
		return nil, err
	}
	b := m.newBands(result.reading(), nil)
	for i := range result.Requirements {
		j := &result.Requirements[i]
		list = append(list, nil)
		t := b.of(j)
		if t == nil || t.slope == nil {
			continue
		}
		sums := b.m.newSums(b.slots)
		sums.addScaled(t.slope, t.per)
		list[i] = toldBy(m.run, b.slots, sums)
	}
	return list, nil
}

// ReservePerWorst is by how much Reserve goes for each unit of Worst; 0 where it has
// none.
func (j *Judgement) ReservePerWorst() float64 {
	switch {
	case j.Reserve() == nil:
		return 0
	case j.Limit > 0:
		return -worseBy(j.Requirement.Kind) / j.Limit
	}
	return -1 / j.beyond()
}

// Of is the derivative by a number of the run, as a Setting of it would change it, with
// what is mirrored from it; false of one that only its file tells what hangs on it.
func (g *Gradient) Of(run *linkage.Run, n linkage.Number) (by float64, ok bool) {
	if by, ok = g.of(run, n); !ok {
		return 0, false
	}
	images, signs := n.Images()
	for i, image := range images {
		also, ok := g.of(run, image)
		if !ok {
			return 0, false
		}
		by += float64(signs[i] * also)
	}
	return by, true
}

func (g *Gradient) of(run *linkage.Run, n linkage.Number) (by float64, ok bool) {
	if g == nil || run == nil {
		return 0, false
	}
	part, feature, place, axis := n.Metal()
	switch {
	case n.Rereads():
		return 0, false
	case n.Dimension() != nil:
		d, ok := run.Dimension(*n.Dimension())
		if !ok {
			return 0, false
		}
		i := slices.Index(run.Dimensions(), d)
		return at(g.Dimensions, i)
	case n.Stop() != nil:
		if s := run.Stop(n.Stop()); s != nil {
			return at(g.Stops, s.Index)
		}
	case n.DiameterOf() != nil:
		if r := run.Rod(n.DiameterOf()); r != nil {
			return at(g.Diameters, r.Index)
		}
	case part != nil:
		p := run.Part(part)
		if p == nil || p.Index >= len(g.Metal) || feature >= len(g.Metal[p.Index]) || place >= len(g.Metal[p.Index][feature].Through) {
			return 0, false
		}
		metal := &g.Metal[p.Index][feature]
		if place < 0 {
			if p.Features[feature].Shape == linkage.Edge {
				return metal.Radius / 2, true // the number is how thick it is
			}
			return metal.Radius, true
		}
		by := metal.Through[place]
		return [...]float64{by.X, by.Y, by.Z}[axis], true
	}
	return 0, false
}

// OfLength is the derivative by the length of a rod, hole to hole; 0 of a rod that the run
// hasn't got.
func (g *Gradient) OfLength(run *linkage.Run, rod *linkage.Rod) float64 {
	own := run.Rod(rod)
	if g == nil || own == nil {
		return 0
	}
	by, _ := at(g.Dimensions, slices.Index(run.Dimensions(), linkage.Dimension{Rod: own, Point: -1}))
	return by
}

// at is one of some derivatives; false where it isn't there, as of another run's.
func at(list []float64, i int) (by float64, ok bool) {
	if i < 0 || i >= len(list) {
		return 0, false
	}
	return list[i], true
}
