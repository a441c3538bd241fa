package solve

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// rigPose is a pose that was checked. Several settings may make it.
type rigPose struct {
	choices []rigChoice // by axis
	place   []int       // the choice of each axis in the grid; nil: it lies between
	closes  bool
	holds   bool    // it meets everything
	enough  bool    // it meets the requirements, if not the pins and ends
	missed  []bool  // what it doesn't meet: requirements, then rods with pins, then ends
	unmet   int     // how many of these can only hold or not
	reserve float64 // 0 where no requirement has one
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
// meets the requirements, then what misses least of what can only hold or not.
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
	return cmp.Or(order(p.closes, q.closes), order(p.holds, q.holds), order(p.enough, q.enough), p.unmet-q.unmet)
}

// rigSearch checks poses and keeps what came out.
type rigSearch struct {
	*rigGrid
	budget   int
	worked   float64 // the work that the checks have taken
	progress func(checked, most int)
	known    map[string]*rigPose
	poses    []*rigPose // in the order in which they were checked
	checked  int        // times that a run was checked, the continuous search included
	searched Searched
}

func newRigSearch(g *rigGrid, budget int, progress func(checked, most int)) *rigSearch {
	return &rigSearch{rigGrid: g, budget: budget, progress: progress, known: make(map[string]*rigPose)}
}

// search checks the whole grid where that can be done; else what keeps to the
// pins, for nothing else can meet everything; and where that finds nothing, the
// whole again, so that it can tell what stands in the way.
func (s *rigSearch) search() {
	s.searched.Poses = s.size()
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
	if axes := s.keptToPins(); axes != nil && s.size() > float64(s.budget) {
		all := s.axes
		s.axes, s.searched.Pins = axes, true
		s.searchGrid(most)
		s.axes = all
		if !slices.ContainsFunc(s.poses, func(p *rigPose) bool { return p.holds }) {
			s.searched.Pins, s.searched.Whole, s.searched.Around = false, false, 0
			s.budget += most / 2
			s.searchGrid(most + most/2)
		}
	} else {
		s.searchGrid(most)
	}
	s.searched.Checked = len(s.poses)
	s.refine()
}

// searchGrid checks the whole of the axes as they are, where that can be done
// before most have been checked; else what lies around the continuous optimum
// and the settings as filed.
func (s *rigSearch) searchGrid(most int) {
	if s.size() <= float64(most-s.checked) {
		_, s.searched.Whole = s.box(make([]int, len(s.axes)), math.MaxInt, most)
		return
	}
	s.searchAround(most)
}

// spent reports whether no more may be checked.
func (s *rigSearch) spent(most int) bool { return s.checked >= most || s.worked > rigWork*mostWork }

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
	n.tally = &s.worked
	s.worked += compilePoses * n.workOfPose()
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
	p.enough = !slices.Contains(p.missed, true)
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
		p.reserve = *least
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
