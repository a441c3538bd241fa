package solve

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"

	"fullfree/linkage"
)

// Searched is what was searched, in numbers.
type Searched struct {
	// Poses is how many different poses the settings make: of all that can be
	// set within the thread that there is, in steps that can be made. Settings that
	// leave every rod and stop alike are one.
	Poses float64
	// Checked is how many of them were checked, and Whole says that these were
	// all: then there is no better setting.
	Checked int
	Whole   bool
	// Pins says that only lengths were searched at which the bolts slide in with
	// the rig pins in.
	Pins bool
	// Around is for how many steps to either side of the best pose all were
	// checked, every rod and stop on its own; where it is 0, one and two rods or
	// stops at a time by one step. It is 0 where Whole.
	Around int
	// Any are the ends that can be turned to any part of a turn, or in steps too
	// fine to try all: they were tried by AnyStep, and around the best of these
	// more finely.
	Any []RigAny
}

// RigAny is an end or stop that was not tried in all of its steps.
type RigAny struct {
	End  *linkage.RodEnd // exactly one of End and Stop is set
	Stop *linkage.Stop
	Step float64 // by which it was tried: turns, or the stop's unit
}

// String says what was searched, and what not.
func (s Searched) String() string {
	text := fmt.Sprintf("%d of %.6g poses that the settings within the thread make", s.Checked, s.Poses)
	if s.Pins {
		text += ", with the rods at the lengths that the rig pins ask for"
	}
	switch {
	case s.Whole && len(s.Any) == 0:
		text += ": all of them, so there is no better setting"
	case s.Whole:
		text += ": all of them"
	case s.Around > 0:
		text += fmt.Sprintf(": around the continuous optimum and the settings as filed, all within %s of the best; not those farther off", steps(s.Around))
	default:
		text += ": around the continuous optimum and the settings as filed, one and two changes at a time of one step; not the others"
	}
	for _, a := range s.Any {
		if a.End != nil {
			text += fmt.Sprintf("; %s was tried every %.4g turn, and more finely about the best only", a.End, a.Step)
			continue
		}
		text += fmt.Sprintf("; the stop %q was tried every %.4g, and more finely about the best only", a.Stop.Name, a.Step)
	}
	return text
}

func steps(n int) string {
	if n == 1 {
		return "one step"
	}
	return fmt.Sprintf("%d steps", n)
}

// rigPose is a pose that was checked. Several settings may make it.
type rigPose struct {
	choices []rigChoice // by axis
	place   []int       // the choice of each axis in the grid; nil: it lies between
	closes  bool
	holds   bool   // it meets everything
	missed  []bool // what it doesn't meet: requirements, then rods with pins, then ends
	unmet   int    // how many of these can only hold or not
	reserve float64
	judged  bool // it has a reserve
}

// better reports whether a pose is to be preferred, turns aside.
func (p *rigPose) better(than *rigPose) bool {
	if c := p.compareClass(than); c != 0 {
		return c < 0
	}
	return p.reserve > than.reserve+gainedReserve
}

// gainedReserve is a difference of reserves that is worth going on for.
const gainedReserve = 1e-9

// compareClass puts first what closes, then what meets everything, then what
// misses least of what can only hold or not.
func (p *rigPose) compareClass(q *rigPose) int {
	order := func(a, b bool) int {
		switch {
		case a == b:
			return 0
		case a:
			return -1
		}
		return 1
	}
	if c := order(p.closes, q.closes); c != 0 {
		return c
	}
	if c := order(p.holds, q.holds); c != 0 {
		return c
	}
	return p.unmet - q.unmet
}

// rigSearch checks poses and keeps what came out.
type rigSearch struct {
	*rigGrid
	budget   int
	progress func(checked, most int)
	known    map[string]*rigPose
	poses    []*rigPose // in the order in which they were checked
	checked  int        // times that a run was checked, the continuous search included
	searched Searched
}

func newRigSearch(g *rigGrid, budget int, progress func(checked, most int)) *rigSearch {
	return &rigSearch{rigGrid: g, budget: budget, progress: progress, known: make(map[string]*rigPose)}
}

// search checks the whole grid where that can be done; else what lies around
// the continuous optimum and the settings as filed. Then it goes on between.
func (s *rigSearch) search() {
	s.searched.Poses = s.size()
	if s.size() > float64(s.budget) {
		s.keepToPins()
		s.searched.Pins = s.size() < s.searched.Poses
	}
	for i := range s.axes {
		for _, v := range s.axes[i].variables {
			if v.stride > 1 && v.low < v.high {
				s.searched.Any = append(s.searched.Any, RigAny{v.end, v.stop, v.figure(v.stride)})
			}
		}
	}
	// Half is kept for the search between where there is one.
	most := s.budget
	if len(s.searched.Any) > 0 {
		most /= 2
	}
	if s.size() <= float64(most) {
		s.box(make([]int, len(s.axes)), math.MaxInt, most)
		s.searched.Whole = true
	} else {
		s.searchAround(most)
	}
	s.searched.Checked = len(s.poses)
	s.refine()
}

// spent reports whether no more may be checked.
func (s *rigSearch) spent(most int) bool { return s.checked >= most }

// at checks the pose at a place of the grid, once.
func (s *rigSearch) at(place []int) *rigPose {
	choices := make([]rigChoice, len(place))
	for i, k := range place {
		choices[i] = s.axes[i].choices[k]
	}
	p := s.check(choices)
	p.place = slices.Clone(place)
	return p
}

// check checks the run in a pose, once.
func (s *rigSearch) check(choices []rigChoice) *rigPose {
	var key []byte
	for i := range choices {
		key = fmt.Appendf(key, "%d,", int64(math.Round(choices[i].change/(contactNoise*s.m.size))))
	}
	if p := s.known[string(key)]; p != nil {
		return p
	}
	p := &rigPose{choices: choices}
	undo := s.settingOf(choices).Apply(s.m.run)
	result := s.result()
	undo()
	s.judge(p, result, func(i int) float64 { return choices[i].change })
	s.known[string(key)] = p
	s.poses = append(s.poses, p)
	return p
}

// settingOf is a pose by the best way to each of its choices.
func (s *rigSearch) settingOf(choices []rigChoice) *RigSetting {
	steps := make([][]int, len(choices))
	for i := range choices {
		steps[i] = choices[i].ways[0].steps
	}
	return s.setting(steps)
}

// setting is what is turned and moved, by the steps of each axis's variables.
func (g *rigGrid) setting(steps [][]int) *RigSetting {
	set := &RigSetting{}
	for i := range g.axes {
		for j := range g.axes[i].variables {
			v, k := &g.axes[i].variables[j], steps[i][j]
			switch {
			case k == 0:
			case v.end != nil:
				set.Turns = append(set.Turns, RigTurn{v.end, v.figure(k)})
			default:
				set.Stops = append(set.Stops, RigStop{v.stop, v.stop.At + v.figure(k)})
			}
		}
	}
	return set
}

// result checks the run as it is set now; nil where it can't be set so.
func (s *rigSearch) result() *Result {
	s.checked++
	if s.progress != nil {
		s.progress(s.checked, s.budget)
	}
	for _, rod := range s.m.run.Rods {
		if !(rod.Length > 0) {
			return nil
		}
	}
	n, err := Compile(s.m.run)
	if err != nil || !slices.Equal(n.stopSide, s.m.stopSide) { // a stop has gone to the other side of neutral
		return nil
	}
	result, err := n.Check()
	if err != nil {
		return nil
	}
	return result
}

// judge tells how a pose fares; change is that of each axis.
func (s *rigSearch) judge(p *rigPose, result *Result, change func(axis int) float64) {
	if result == nil {
		return
	}
	p.closes = true
	miss := func(missed, onlyHolds bool) {
		p.missed = append(p.missed, missed)
		if missed && onlyHolds {
			p.unmet++
		}
	}
	for i := range result.Requirements {
		j := &result.Requirements[i]
		miss(j.Verdict != Holds, j.Reserve() == nil)
	}
	for i := range s.axes {
		if a := &s.axes[i]; a.pinned != nil {
			miss(s.misses(a.pinned, change(i)), true)
		}
	}
	for range s.pins {
		miss(true, true)
	}
	for range s.outside {
		miss(true, true)
	}
	p.holds = !slices.Contains(p.missed, true)
	if least := result.Reserve(); least != nil {
		p.reserve, p.judged = *least, true
	}
}

// musts are what poses are judged by, in the order of rigPose.missed.
func (s *rigSearch) musts() (list []Must) {
	for _, r := range s.m.run.Requirements {
		list = append(list, Must{Requirement: r})
	}
	for i := range s.axes {
		if p := s.axes[i].pinned; p != nil {
			list = append(list, Must{Pinned: p})
		}
	}
	for _, p := range s.pins {
		list = append(list, Must{Pinned: p})
	}
	for _, e := range s.outside {
		list = append(list, Must{End: e})
	}
	return list
}

// box checks all places within some steps of a center, every axis on its own,
// and returns the best of them; whole says that the budget lasted.
func (s *rigSearch) box(center []int, within, most int) (best *rigPose, whole bool) {
	place := make([]int, len(center))
	whole = true
	var each func(i int)
	each = func(i int) {
		if i == len(place) {
			if p := s.at(place); best == nil || p.better(best) {
				best = p
			}
			return
		}
		low, high := s.near(i, center[i], within)
		for k := low; k <= high; k++ {
			if s.spent(most) {
				whole = false
				return
			}
			place[i] = k
			each(i + 1)
		}
	}
	each(0)
	return best, whole
}

// near is the range of an axis within some steps of a place.
func (s *rigSearch) near(i, center, within int) (low, high int) {
	last := len(s.axes[i].choices) - 1
	if within > last {
		return 0, last
	}
	return max(0, center-within), min(last, center+within)
}

// boxSize is how many places a box has.
func (s *rigSearch) boxSize(center []int, within int) float64 {
	n := 1.0
	for i := range s.axes {
		low, high := s.near(i, center[i], within)
		n *= float64(high - low + 1)
	}
	return n
}

// searchAround goes from the settings as filed and from the continuous optimum
// to the best of their neighbors as long as that is better, and then searches
// as far around the best as the budget lasts. Last it looks for fewer turns.
func (s *rigSearch) searchAround(most int) {
	best := s.climb(s.at(s.asFiled()), most/4)
	if p := s.climb(s.at(s.continuous(most/4)), most/2); p.better(best) {
		best = p
	}
	for within := 1; s.boxSize(best.place, within) <= float64(most); {
		p, whole := s.box(best.place, within, most)
		switch {
		case p != nil && p.better(best):
			best, within, s.searched.Around = p, 1, 0
			continue
		case !whole:
		case s.boxSize(best.place, within) == s.size():
			s.searched.Whole, s.searched.Around = true, 0
		default:
			s.searched.Around = within
			within++
			continue
		}
		break
	}
	s.relax(best, best.reserve-sameReserve)
}

// asFiled is the place nearest to the file's.
func (s *rigSearch) asFiled() []int { return s.nearest(make([]float64, len(s.axes))) }

// nearest is the place nearest to a change of each axis.
func (s *rigSearch) nearest(changes []float64) []int {
	place := make([]int, len(s.axes))
	for i := range s.axes {
		for k, c := range s.axes[i].choices {
			if math.Abs(c.change-changes[i]) < math.Abs(s.axes[i].choices[place[i]].change-changes[i]) {
				place[i] = k
			}
		}
	}
	return place
}

// climb goes to the best of the neighbors, one or two axes by a step each, as
// long as that is better.
func (s *rigSearch) climb(from *rigPose, most int) *rigPose {
	for {
		best := from
		s.neighbors(from.place, func(place []int) {
			if p := s.at(place); !s.spent(most) && p.better(best) {
				best = p
			}
		}, most)
		if best == from {
			return from
		}
		from = best
	}
}

// neighbors tells the places one step off on one or two axes.
func (s *rigSearch) neighbors(center []int, tell func(place []int), most int) {
	place := slices.Clone(center)
	move := func(i, by int, then func()) {
		k := center[i] + by
		if k < 0 || k >= len(s.axes[i].choices) || s.spent(most) {
			return
		}
		place[i] = k
		then()
		place[i] = center[i]
	}
	for i := range center {
		for _, by := range []int{1, -1} {
			move(i, by, func() {
				tell(place)
				for j := i + 1; j < len(center); j++ {
					move(j, 1, func() { tell(place) })
					move(j, -1, func() { tell(place) })
				}
			})
		}
	}
}

// relax goes to neighbors that take fewer turns as long as they keep a reserve.
func (s *rigSearch) relax(from *rigPose, reserve float64) {
	for {
		best := from
		s.neighbors(from.place, func(place []int) {
			if s.turnsAt(place) >= turnsOf(best.choices) {
				return
			}
			if p := s.at(place); p.compareClass(from) == 0 && p.reserve >= reserve {
				best = p
			}
		}, s.budget)
		if best == from {
			return
		}
		from = best
	}
}

func (s *rigSearch) turnsAt(place []int) (sum int64) {
	for i, k := range place {
		sum += s.axes[i].choices[k].ways[0].turns
	}
	return sum
}

func turnsOf(choices []rigChoice) (sum int64) {
	for i := range choices {
		sum += choices[i].ways[0].turns
	}
	return sum
}

const (
	// openPenalty is what a run that doesn't close counts for: more than any
	// reserve worth telling apart.
	openPenalty = 1e6
	// unmetPenalty is what each thing counts for that can only hold or not.
	unmetPenalty = 10
)

// continuous finds where the reserve would be largest if everything could be
// set to any figure, and returns the place nearest to it. Its unit is a step of
// each axis.
func (s *rigSearch) continuous(most int) []int {
	n := len(s.axes)
	unit := make([]float64, n)
	for i := range s.axes {
		c := s.axes[i].choices
		unit[i] = 1
		if len(c) > 1 {
			unit[i] = (c[len(c)-1].change - c[0].change) / float64(len(c)-1)
		}
	}
	changes := make([]float64, n)
	cost := func(x []float64) float64 {
		outside := 0.0
		for i := range x {
			c := s.axes[i].choices
			low, high := c[0].change/unit[i], c[len(c)-1].change/unit[i]
			inside := math.Max(low, math.Min(high, x[i]))
			outside += math.Abs(x[i] - inside)
			changes[i] = inside * unit[i]
		}
		return s.cost(changes) + outside
	}
	start := make([]float64, n)
	result, err := optimize.Minimize(optimize.Problem{Func: cost}, start,
		&optimize.Settings{FuncEvaluations: max(most-s.checked, 4*n), Converger: &optimize.FunctionConverge{Absolute: sameReserve, Iterations: 20 * n}},
		&optimize.NelderMead{SimplexSize: 2})
	if result == nil || err != nil && result.X == nil {
		return s.asFiled()
	}
	cost(result.X) // for the changes within the limits
	return s.nearest(changes)
}

// cost checks the run with every axis changed by any figure, thread aside.
func (s *rigSearch) cost(changes []float64) float64 {
	run := s.m.run
	var undone []func()
	for i := range s.axes {
		v := s.axes[i].variables[0]
		if v.end != nil {
			undone = append(undone, run.Set(linkage.Dimension{Rod: v.end.Rod, Point: -1}, v.end.Rod.Length+changes[i]))
			continue
		}
		was := v.stop.At
		v.stop.At += changes[i]
		undone = append(undone, func() { v.stop.At = was })
	}
	result := s.result()
	for i := len(undone) - 1; i >= 0; i-- {
		undone[i]()
	}
	p := &rigPose{}
	s.judge(p, result, func(i int) float64 { return changes[i] })
	if !p.closes {
		return openPenalty
	}
	return float64(unmetPenalty*float64(p.unmet)) - p.reserve
}
