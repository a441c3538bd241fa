package rig

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"fullfree/linkage"
	"fullfree/solve"
)

// rigPose is a pose that was checked. Several settings may make it.
type rigPose struct {
	choices []rigChoice // by axis
	closes  bool
	missed  []bool // what it doesn't meet: requirements, then rods with pins, then ends, then nuts
	failed  int    // requirements that it doesn't meet
	unkept  int    // pins and ends that it doesn't keep to
	rigFare
	least float64 // the least reserve of all requirements, what fails too; 0 where none has one
	bare  int     // of what it misses, how much can only hold or not
	moved float64 // see movedFrom
}

// rigFare is how far a pose is from what its requirements ask for.
type rigFare struct {
	most    float64 // the largest share by which one that fails misses its limit
	sum     float64 // the shares of all that fail
	reserve float64 // the least reserve of those that hold; 0 where none has one
}

// holds reports whether a pose meets everything.
func (p *rigPose) holds() bool { return p.closes && p.failed == 0 && p.unkept == 0 }

// better reports whether a pose is to be preferred before it is asked what it
// takes: it has less missed, or more in reserve.
func (p *rigPose) better(than *rigPose) bool {
	if c := p.compareClass(than); c != 0 {
		return c < 0
	}
	for _, gain := range []float64{than.most - p.most, than.sum - p.sum, p.reserve - than.reserve} {
		if math.Abs(gain) > gainedReserve {
			return gain > 0
		}
	}
	return false
}

// noWorse reports whether a pose misses as little as another, and as little of it,
// with at least some reserve.
func (p *rigPose) noWorse(than *rigPose, reserve float64) bool {
	return p.compareClass(than) == 0 && p.most <= than.most+sameReserve && p.sum <= than.sum+sameReserve && p.reserve >= reserve
}

// gainedReserve is a difference of reserves that is worth going on for.
const gainedReserve = 1e-9

// compareClass puts first what closes, then what fails in the fewest
// requirements, then what doesn't keep to the fewest pins and ends.
func (p *rigPose) compareClass(q *rigPose) int {
	if p.closes != q.closes {
		if p.closes {
			return -1
		}
		return 1
	}
	return cmp.Or(p.failed-q.failed, p.unkept-q.unkept)
}

// rigSearch checks poses and keeps what came out.
type rigSearch struct {
	*rigGrid
	budget   int
	progress func(checked, most int)
	known    map[string]*rigPose
	ahead    rigAhead
	poses    []*rigPose          // in the order in which they were checked
	filed    *rigPose            // the run as filed
	was      []solve.NeutralPose // where it stands at neutral
	best     *rigPose            // of all poses, by better
	checked  int                 // times that a run was checked, the continuous search included
	work     float64             // that this took, and the settings
	mayWork  float64             // that the search may take
	settings map[string]*Setting // that were checked to be told, by their steps
	searched Searched
}

// newRigSearch checks the run as filed, which is always among what is ranked.
// budget is how many times a run may be checked; where it is 0 the work of that
// check tells.
func newRigSearch(g *rigGrid, budget int, progress func(checked, most int)) *rigSearch {
	s := &rigSearch{rigGrid: g, budget: max(1, budget), progress: progress, known: make(map[string]*rigPose), ahead: make(rigAhead), was: g.m.NeutralPoses(),
		mayWork: math.Inf(1), settings: make(map[string]*Setting)}
	if budget == 0 {
		s.budget = mostChecks
	}
	s.filed = s.checkFiled()
	if budget == 0 {
		s.mayWork = float64((1 - toldWork) * rigWork * solve.MostWork())
		s.budget = int(math.Max(1, math.Min(mostChecks, s.mayWork/s.work)))
	}
	return s
}

// search checks the whole grid where that can be done. Before that it checks what
// keeps to the pins, for nothing else can meet everything: only where none of
// that does is the rest of use, to tell what stands in the way.
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
	if axes := s.keptToPins(); axes != nil {
		all := s.axes
		s.axes, s.searched.Pins = axes, true
		s.searchGrid(0, most)
		s.axes = all
		if !s.best.holds() {
			s.searched = Searched{Poses: s.searched.Poses, Any: s.searched.Any}
			s.budget += most / 2
			s.searchGrid(len(s.known), most+most/2)
		}
	} else {
		s.searchGrid(len(s.known), most)
	}
	s.searched.Checked = len(s.poses)
	s.refine()
}

// searchGrid checks the whole of the axes as they are, of which some are known,
// where that can be done before most have been checked; else what moves few of
// them, and what lies around the best that is come to.
func (s *rigSearch) searchGrid(known, most int) {
	if s.size() <= float64(known+most-s.checked) {
		s.searched.Whole = s.box(make([]int, len(s.axes)), math.MaxInt, most)
		return
	}
	s.searchAround(most)
}

// spent reports whether no more may be checked.
func (s *rigSearch) spent(most int) bool { return s.checked >= most || s.work >= s.mayWork }

// choicesAt are the choices of a place of the grid.
func (s *rigSearch) choicesAt(place []int) []rigChoice {
	choices := make([]rigChoice, len(place))
	for i, k := range place {
		choices[i] = s.axes[i].choices[k]
	}
	return choices
}

// at checks the pose at a place of the grid, once.
func (s *rigSearch) at(place []int) *rigPose { return s.check(s.choicesAt(place)) }

// atWithin is at where most allows it, or the pose is known; it reports whether.
func (s *rigSearch) atWithin(place []int, most int) bool {
	choices := s.choicesAt(place)
	if s.known[s.key(choices)] == nil && s.spent(most) {
		return false
	}
	s.check(choices)
	return true
}

// check checks the run in a pose, once.
func (s *rigSearch) check(choices []rigChoice) *rigPose {
	key := s.key(choices)
	if p := s.known[key]; p != nil {
		return p
	}
	p := s.checkNew(choices, false)
	s.known[key] = p
	return p
}

// key tells a pose from others.
func (s *rigSearch) key(choices []rigChoice) string {
	var key []byte
	for i := range choices {
		key = strconv.AppendInt(key, int64(math.Round(choices[i].change/(solve.ContactNoise*s.extent))), 36)
		key = append(key, ',')
	}
	return string(key)
}

// checkFiled checks the run as filed. Where the ends keep to their thread so, that
// is a place of the grid.
func (s *rigSearch) checkFiled() *rigPose {
	choices := make([]rigChoice, len(s.axes))
	for i := range s.axes {
		a := &s.axes[i]
		steps := make([]int, len(a.variables))
		choices[i] = rigChoice{ways: []rigWay{s.way(a, steps)}}
		if k := s.nearest(make([]float64, len(s.axes)))[i]; a.choices[k].change == 0 && a.within(steps) {
			choices[i] = a.choices[k]
		}
	}
	if len(s.away) == 0 {
		return s.check(choices)
	}
	return s.checkNew(choices, true)
}

// checkNew checks the run in a pose; filed says that it is as filed, where that
// doesn't keep to the thread.
func (s *rigSearch) checkNew(choices []rigChoice, filed bool) *rigPose {
	p := &rigPose{choices: choices}
	s.count()
	out := s.ahead.take(s.key(choices), func() rigChecked { return checkedWith(s.m, s.settingOf(choices).Edits()) })
	s.work += out.took
	if s.judge(p, out.result, func(i int) float64 { return choices[i].change }, filed); p.closes {
		p.moved = s.m.MovedFrom(s.was, out.m.NeutralPoses())
	}
	s.poses = append(s.poses, p)
	if s.best == nil || p.better(s.best) {
		s.best = p
	}
	return p
}

// settingOf is a pose by the best way to each of its choices.
func (s *rigSearch) settingOf(choices []rigChoice) *Setting {
	steps := make([][]int, len(choices))
	for i := range choices {
		steps[i] = choices[i].ways[0].steps
	}
	return s.setting(steps)
}

// setting is what is turned and moved, by the steps of each axis's variables.
func (g *rigGrid) setting(steps [][]int) *Setting {
	set := &Setting{}
	for i := range g.axes {
		for j := range g.axes[i].variables {
			v, k := &g.axes[i].variables[j], steps[i][j]
			switch {
			case k == 0:
			case v.end != nil:
				set.Turns = append(set.Turns, Turn{v.end, v.figure(k)})
			default:
				set.Stops = append(set.Stops, Stop{v.stop, v.stop.At + v.figure(k)})
			}
		}
	}
	return set
}

// result checks the run with edits; nil where it can't be set so.
func (s *rigSearch) result(edits []linkage.Edit) (*solve.Mechanism, *solve.Result) {
	s.count()
	out := checkedWith(s.m, edits)
	s.work += out.took
	return out.m, out.result
}

// count counts a check, and tells so.
func (s *rigSearch) count() {
	s.checked++
	s.work++
	if s.progress != nil {
		s.progress(s.checked, s.budget)
	}
}

// rigChecked is the run in a pose, checked; nil where it can't be.
type rigChecked struct {
	m      *solve.Mechanism
	result *solve.Result
	took   float64 // the work of it
}

// checkedWith checks the run of a mechanism with edits.
func checkedWith(m *solve.Mechanism, edits []linkage.Edit) rigChecked {
	as, err := m.CheckWith(edits...)
	if err != nil {
		as.Result = nil
	}
	return rigChecked{as.Mechanism, as.Result, as.Compiling + as.Checking}
}

// judge tells how a pose fares; change is that of each axis, and filed says that
// it is as filed and doesn't keep to the thread.
func (s *rigSearch) judge(p *rigPose, result *solve.Result, change func(axis int) float64, filed bool) {
	if result == nil {
		return
	}
	p.closes = true
	first := true
	for i := range result.Requirements {
		j := &result.Requirements[i]
		missed := j.Verdict != solve.Holds
		p.missed = append(p.missed, missed)
		if !missed {
			if v := j.Reserve(); v != nil && (first || *v < p.reserve) {
				p.reserve, first = *v, false
			}
			continue
		}
		p.failed++
		if j.Reserve() == nil {
			p.bare++
		}
		share := j.MissedShare()
		p.most, p.sum = math.Max(p.most, share), p.sum+share
	}
	unkept := func(missed bool) {
		p.missed = append(p.missed, missed)
		if missed {
			p.unkept++
			p.bare++
		}
	}
	for i := range s.axes {
		if a := &s.axes[i]; a.pinned != nil {
			unkept(s.misses(a.pinned, change(i)))
		}
	}
	for range s.pins {
		unkept(true)
	}
	for range s.outside {
		unkept(true)
	}
	for range s.away {
		unkept(filed)
	}
	for range s.nuts {
		unkept(true)
	}
	if least := result.Reserve(); least != nil {
		p.least = *least
	}
}

// musts are what poses are judged by, in the order of rigPose.missed.
func (s *rigSearch) musts() (list []Must) {
	for _, r := range s.m.Run().Requirements {
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
	for _, e := range slices.Concat(s.outside, s.away) {
		list = append(list, Must{End: e})
	}
	for _, e := range s.nuts {
		list = append(list, Must{Nut: e})
	}
	return list
}
