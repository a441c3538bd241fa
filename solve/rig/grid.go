package rig

import (
	"cmp"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
)

// rigVariable is one thing that can be set: a rod end, a barrel, or a stop. Its
// figure counts steps from the file's: turns out, or a stop's degrees or length.
type rigVariable struct {
	end  *linkage.RodEnd // of a barrel the first; nil for a stop
	stop *linkage.Stop
	step float64 // turns, degrees or run units
	// stride is how many steps are taken at once in the grid; where it isn't 1
	// the search goes on between.
	stride    int
	low, high int // steps, multiples of stride except where there is none between the limits
}

// rigChoice is a length of a rod, or a place of a stop, in the grid.
type rigChoice struct {
	change float64  // of the length, or of the stop's number
	ways   []rigWay // how it is set, best first
}

// rigWay is one way to set a rod's ends.
type rigWay struct {
	steps []int // of the axis's variables
	ends  int   // how many are turned
	turns int64 // sum of |turns|, millionths
	spare int64 // least spare thread of the rod, billionths of the run's size
}

// rigAxis is a rod or a stop: the run moves by what all its variables add up
// to.
type rigAxis struct {
	variables []rigVariable
	choices   []rigChoice      // by change
	pinned    *solve.PinnedRod // what the rod must measure with the pins in; nil: anything
}

// rigGrid is all settings that are searched step by step.
type rigGrid struct {
	m      *solve.Mechanism
	extent float64 // of the run, run units
	axes   []rigAxis
	// pins are the lengths that rods without an axis miss, which no setting
	// mends.
	pins []*solve.PinnedRod
	// outside are ends that no step brings between their limits.
	outside []*linkage.RodEnd
	// away are ends that are filed beyond their limits, and that a step brings
	// between them.
	away []*linkage.RodEnd
	// nuts are those of conduits that don't keep to their thread, which no setting
	// mends, where no "engagement" tells.
	nuts []*linkage.CableEnd
}

const (
	// anyStep is the finest part of a turn that is searched of an end that can
	// be turned to any: a tenth of a degree, far less than can be set by hand.
	anyStep = 1.0 / 4096
	// anyStride is how many of these the grid takes at once: half a turn.
	anyStride = 2048
	// mostValues is how many figures of one variable the grid has at most, or one
	// more.
	mostValues = 200
	// mostWays is how many ways to set rods with two ends the grid has at most, of
	// all such rods together: what fits in some tens of megabytes.
	mostWays = 200_000
	// fewestValues is how many figures an end has even so.
	fewestValues = 8
	// mostCount bounds the steps from the file's figure, so that they can be
	// counted.
	mostCount = 1 << 30
)

func newRigGrid(m *solve.Mechanism, rig *Answer) *rigGrid {
	g := &rigGrid{m: m, extent: m.Run().Size()}
	pinned := m.Pinned()
	both := 0
	for _, rod := range m.Run().Rods {
		if len(rod.Ends) == 2 && !rod.Barrel() {
			both++
		}
	}
	for _, rod := range m.Run().Rods {
		axis := rigAxis{}
		if p := &pinned[rod.Index]; p.Length != nil && len(p.Pins) > 0 {
			axis.pinned = p
		}
		ends := rod.Ends
		switch {
		case !rod.Barrel():
		case math.Abs(ends[0].PerTurn()) <= solve.StepNoise*ends[0].Thread.Pitch:
			ends = nil // the same hand and pitch: turning it moves nothing
		default:
			ends = ends[:1]
		}
		most := mostValues
		if len(ends) == 2 {
			most = max(fewestValues, min(most, int(math.Sqrt(mostWays/float64(both)))-1))
		}
		for _, e := range ends {
			axis.variables = append(axis.variables, g.endVariable(e, rig, most))
		}
		if len(ends) == 0 {
			if axis.pinned != nil && g.misses(axis.pinned, 0) {
				g.pins = append(g.pins, axis.pinned)
			}
			continue
		}
		g.choose(&axis)
		g.axes = append(g.axes, axis)
	}
	travel := m.Run().Requires(linkage.Travel)
	for _, s := range m.Run().Stops {
		switch {
		case s.Adjust == nil:
		case !travel:
			rig.StopsLeft = append(rig.StopsLeft, s)
		default:
			v := rigVariable{stop: s, step: s.Step, stride: 1}
			v.limit(s.Adjust[0]-s.At, s.Adjust[1]-s.At, mostValues)
			axis := rigAxis{variables: []rigVariable{v}}
			g.choose(&axis)
			g.axes = append(g.axes, axis)
		}
	}
	rig.Outside = g.outside
	for _, j := range solve.UnfitSettings(m.Run()) {
		if j.Cable == nil || j.OfThread() && m.Run().Requires(linkage.Engagement) {
			continue
		}
		if nut := j.Cable.End(j.End); !slices.Contains(g.nuts, nut) {
			g.nuts = append(g.nuts, nut)
		}
	}
	return g
}

// misses reports whether a rod, lengthened by change, misses the length that it
// has with the pins in.
func (g *rigGrid) misses(p *solve.PinnedRod, change float64) bool {
	return g.missesAt(p, p.Rod.Length+change)
}

// missesAt reports whether a rod so long does.
func (g *rigGrid) missesAt(p *solve.PinnedRod, length float64) bool {
	return math.Abs(length-*p.Length) > p.Within()+float64(solve.ContactNoise*g.extent)
}

// endVariable is a rod end, or a barrel by its first end, within the thread
// that there is, with most figures in the grid or so.
func (g *rigGrid) endVariable(e *linkage.RodEnd, rig *Answer, most int) rigVariable {
	v := rigVariable{end: e, step: e.Step, stride: 1}
	if e.Step == 0 {
		v.step, v.stride = anyStep, anyStride
	}
	for _, k := range e.Rod.Ends {
		if (k == e || e.Rod.Barrel()) && k.Most == nil {
			rig.NoMost = append(rig.NoMost, k)
		}
	}
	low, high := solve.TurnRange(e, furthestIn)
	switch ok := v.limit(low, high, most); {
	case !ok:
		g.outside = append(g.outside, e)
	case v.low > 0 || v.high < 0:
		g.away = append(g.away, e)
	}
	return v
}

// limit sets the range of a variable, from low to high in its own unit, and by how
// many steps it is taken so that the grid has most of its figures or so. Where no
// step lies between, it gets the one that comes nearest, and ok is false.
func (v *rigVariable) limit(low, high float64, most int) (ok bool) {
	count := func(x float64) int { return int(math.Max(-mostCount, math.Min(mostCount, x))) }
	v.low = count(math.Ceil(low/v.step - solve.StepNoise))
	v.high = count(math.Floor(high/v.step + solve.StepNoise))
	if v.low > v.high {
		middle := count(math.Round((low/v.step + high/v.step) / 2))
		v.low, v.high = middle, middle
		return false
	}
	v.stride = max(v.stride, (v.high-v.low+most-1)/most)
	return true
}

// values are the variable's figures in the grid: the file's and multiples of
// stride from it; where none of these is within its range, its ends.
func (v *rigVariable) values() (list []int) {
	first := v.low
	if r := first % v.stride; r > 0 {
		first += v.stride - r
	} else {
		first -= r
	}
	for k := first; k <= v.high; k += v.stride {
		list = append(list, k)
	}
	if len(list) == 0 {
		list = slices.Compact([]int{v.low, v.high})
	}
	return list
}

// within reports whether all variables of an axis are within their ranges.
func (a *rigAxis) within(steps []int) bool {
	for i, k := range steps {
		if k < a.variables[i].low || k > a.variables[i].high {
			return false
		}
	}
	return true
}

// figure is k steps in the variable's own unit: turns, or a stop's.
func (v *rigVariable) figure(k int) float64 { return float64(float64(k) * v.step) }

// choose lists the choices of an axis.
func (g *rigGrid) choose(a *rigAxis) {
	var ways []rigWay
	steps := make([]int, len(a.variables))
	var each func(i int)
	each = func(i int) {
		if i == len(steps) {
			ways = append(ways, g.way(a, slices.Clone(steps)))
			return
		}
		list := a.variables[i].values()
		if k, ok := a.meetsPins(i, steps); ok && !slices.Contains(list, k) {
			list = append(list, k)
		}
		for _, k := range list {
			steps[i] = k
			each(i + 1)
		}
	}
	each(0)
	slices.SortStableFunc(ways, func(x, y rigWay) int { return cmp.Compare(a.change(x.steps), a.change(y.steps)) })
	for _, w := range ways {
		change := a.change(w.steps)
		if n := len(a.choices); n == 0 || change-a.choices[n-1].change > solve.ContactNoise*g.extent {
			a.choices = append(a.choices, rigChoice{change: change})
		}
		c := &a.choices[len(a.choices)-1]
		c.ways = append(c.ways, w)
	}
	for i := range a.choices {
		a.choices[i].ways = g.prune(a.variables, a.choices[i].ways)
	}
}

// meetsPins is the step of the last variable, i, at which the rod measures what
// the pins ask for; ok is false where the grid tries all of its steps anyway, or
// none does.
func (a *rigAxis) meetsPins(i int, steps []int) (k int, ok bool) {
	v := &a.variables[i]
	if a.pinned == nil || v.stride == 1 || i < len(steps)-1 {
		return 0, false
	}
	steps[i] = 0
	needs := *a.pinned.Length - a.pinned.Rod.Length - a.change(steps)
	count := math.Round(needs / float64(v.step*v.end.PerTurn()))
	if count < float64(v.low) || count > float64(v.high) {
		return 0, false
	}
	return int(count), true
}

// change is by how much the steps lengthen the rod, or move the stop.
func (a *rigAxis) change(steps []int) (sum float64) {
	for i := range a.variables {
		v := &a.variables[i]
		if v.end == nil {
			return v.figure(steps[i])
		}
		sum += float64(v.figure(steps[i]) * v.end.PerTurn())
	}
	return sum
}

const (
	turnGrain  = 1e-6 // turns that count as equal
	spareGrain = 1e-9 // of the run's size: thread that counts as equal
)

// way tells what a way of setting an axis takes.
func (g *rigGrid) way(a *rigAxis, steps []int) rigWay {
	w := rigWay{steps: steps, spare: math.MaxInt64}
	for i := range a.variables {
		v := &a.variables[i]
		if v.end == nil {
			continue
		}
		turns := v.figure(steps[i])
		if steps[i] != 0 {
			w.ends++
		}
		w.turns += int64(math.Round(math.Abs(turns) / turnGrain))
		for _, k := range v.end.Rod.Ends {
			out := turns
			switch {
			case k == v.end:
			case !v.end.Rod.Barrel():
				continue
			case k.Left == v.end.Left:
				out = -turns
			}
			spare := k.Spare() - float64(out*k.Thread.Pitch)
			w.spare = min(w.spare, int64(math.Round(spare/(spareGrain*g.extent))))
		}
	}
	return w
}

// compareSteps puts the way first that turns more at what stands first in the
// file, and out rather than in.
func compareSteps(variables []rigVariable, a, b []int) int {
	for i := range variables {
		if variables[i].end == nil {
			continue
		}
		if c := cmp.Or(cmp.Compare(max(b[i], -b[i]), max(a[i], -a[i])), cmp.Compare(b[i], a[i])); c != 0 {
			return c
		}
	}
	return 0
}

// compareWays puts the better of two ways to the same pose first: the fewest ends,
// the fewest turns, the largest least spare thread, the file's order.
func compareWays(variables []rigVariable, a, b rigWay) int {
	return cmp.Or(a.ends-b.ends, cmp.Compare(a.turns, b.turns), cmp.Compare(b.spare, a.spare), compareSteps(variables, a.steps, b.steps))
}

// prune sorts ways to the same pose and leaves out those that can't be among the
// best mostSettings whatever the rest of the run is set to: so many are at least
// as good in everything.
func (g *rigGrid) prune(variables []rigVariable, ways []rigWay) (kept []rigWay) {
	slices.SortStableFunc(ways, func(a, b rigWay) int { return compareWays(variables, a, b) })
	for _, w := range ways {
		better := 0
		for _, k := range kept {
			if k.ends < w.ends || k.turns < w.turns || k.spare >= w.spare && compareSteps(variables, k.steps, w.steps) < 0 {
				better++
			}
		}
		if better < mostSettings {
			kept = append(kept, w)
		}
	}
	return kept
}

// size is how many poses the grid has; it may be beyond counting.
func (g *rigGrid) size() float64 {
	n := 1.0
	for i := range g.axes {
		n = float64(n * float64(len(g.axes[i].choices)))
	}
	return n
}

// atPins are the choices at which a rod doesn't miss the pins.
func (g *rigGrid) atPins(a *rigAxis) []rigChoice {
	if a.pinned == nil {
		return a.choices
	}
	return slices.DeleteFunc(slices.Clone(a.choices), func(c rigChoice) bool { return g.misses(a.pinned, c.change) })
}

// keptToPins are the axes without the lengths that miss the pins; nil where that
// leaves out nothing, or where some rod misses them whatever it is set to.
func (g *rigGrid) keptToPins() []rigAxis {
	if len(g.pins) > 0 {
		return nil
	}
	axes, fewer := slices.Clone(g.axes), false
	for i := range axes {
		a := &axes[i]
		all := len(a.choices)
		a.choices = g.atPins(a)
		if len(a.choices) == 0 {
			return nil
		}
		fewer = fewer || len(a.choices) < all
	}
	if !fewer {
		return nil
	}
	return axes
}
