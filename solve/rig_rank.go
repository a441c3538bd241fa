package solve

import (
	"cmp"
	"math"
	"slices"
)

// rigRank is a setting in the order of the best.
type rigRank struct {
	pose  *rigPose
	turns int64
	spare int64
	moved int64 // how far stops are moved, millionths of their units together
	steps []int // of all variables
}

// ranker takes the settings out of the poses, best first.
type ranker struct {
	*rigSearch
	variables []rigVariable
	poses     []*rigPose  // of the best class, then the next, by reserve
	ways      [][]rigRank // of each pose, best first, once they have been asked for
	taken     []int       // how many of them were taken
}

// newRanker ranks the settings of the poses that close and that of accepts.
func (s *rigSearch) newRanker(of func(p *rigPose) bool) *ranker {
	r := &ranker{rigSearch: s}
	for _, p := range s.poses {
		if p.closes && of(p) {
			r.poses = append(r.poses, p)
		}
	}
	for i := range s.axes {
		r.variables = append(r.variables, s.axes[i].variables...)
	}
	slices.SortStableFunc(r.poses, func(a, b *rigPose) int {
		return cmp.Or(a.compareClass(b), cmp.Compare(b.reserve, a.reserve))
	})
	r.ways = make([][]rigRank, len(r.poses))
	r.taken = make([]int, len(r.poses))
	return r
}

// next takes the best setting that is left; ok is false where none is.
func (r *ranker) next() (best rigRank, ok bool) {
	first, from := (*rigPose)(nil), -1
	for i, p := range r.poses {
		if r.ways[i] != nil && r.taken[i] == len(r.ways[i]) {
			continue
		}
		if first == nil {
			first = p
		}
		if p.compareClass(first) != 0 || p.reserve < first.reserve-sameReserve {
			break // worse than the best left
		}
		if ok && turnsOf(p.choices) > best.turns {
			continue
		}
		if r.ways[i] == nil {
			r.ways[i] = r.waysOf(p)
		}
		if w := r.ways[i][r.taken[i]]; !ok || r.compare(w, best) < 0 {
			best, from, ok = w, i, true
		}
	}
	if ok {
		r.taken[from]++
	}
	return best, ok
}

// compare puts the better of two settings with the same reserve first.
func (r *ranker) compare(a, b rigRank) int {
	return cmp.Or(cmp.Compare(a.turns, b.turns), cmp.Compare(b.spare, a.spare), cmp.Compare(a.moved, b.moved),
		compareSteps(r.variables, a.steps, b.steps), slices.Compare(a.steps, b.steps))
}

// sameTurn is the part of a turn by which settings of an end that can be turned
// to any must differ to be told both: less than can be set by hand.
const sameTurn = 0.01

// alike reports whether two settings are one to a builder.
func (r *ranker) alike(a, b rigRank) bool {
	for i := range r.variables {
		v := &r.variables[i]
		off := math.Abs(v.figure(a.steps[i] - b.steps[i]))
		if off > 0 && (v.end == nil || v.end.Step > 0 || off >= sameTurn) {
			return false
		}
	}
	return true
}

// waysOf lists the best settings that make a pose.
func (r *ranker) waysOf(p *rigPose) (list []rigRank) {
	ways := []rigWay{{spare: math.MaxInt64}}
	var variables []rigVariable
	moved := 0.0
	for i, c := range p.choices {
		variables = append(variables, r.axes[i].variables...)
		if r.axes[i].variables[0].end == nil {
			moved += math.Abs(c.change)
		}
		var longer []rigWay
		for _, w := range ways {
			for _, more := range c.ways {
				longer = append(longer, rigWay{slices.Concat(w.steps, more.steps), w.turns + more.turns, min(w.spare, more.spare)})
			}
		}
		ways = r.prune(variables, longer)
	}
	for _, w := range ways {
		list = append(list, rigRank{p, w.turns, w.spare, int64(math.Round(moved / turnGrain)), w.steps})
	}
	return list
}

// settingOf is a ranked setting, checked.
func (r *ranker) settingOf(k rigRank) (*RigSetting, error) {
	var steps [][]int
	rest := k.steps
	for i := range r.axes {
		n := len(r.axes[i].variables)
		steps = append(steps, rest[:n])
		rest = rest[n:]
	}
	set := r.setting(steps)
	defer set.Apply(r.m.run)()
	n, err := Compile(r.m.run)
	if err != nil {
		return nil, err
	}
	if set.Check, err = n.Check(); err != nil {
		return nil, err
	}
	set.Verdict, set.Reserve = set.Check.Verdict, set.Check.Reserve()
	for _, p := range r.pins {
		set.Pinned = append(set.Pinned, *p)
	}
	for i := range r.axes {
		if p := r.axes[i].pinned; p != nil && r.misses(p, 0) { // it is set already
			set.Pinned = append(set.Pinned, *p)
		}
	}
	if len(set.Pinned) > 0 || len(r.outside) > 0 {
		set.Verdict = FallsShort
	}
	return set, nil
}

// tell fills in what was found.
func (s *rigSearch) tell(rig *Rig) error {
	rig.Searched = s.searched
	r := s.newRanker(func(*rigPose) bool { return true })
	var best *rigPose
	var told []rigRank
	for len(rig.Settings) < mostSettings {
		k, ok := r.next()
		if !ok {
			break
		}
		if slices.ContainsFunc(told, func(t rigRank) bool { return r.alike(k, t) }) {
			continue
		}
		told = append(told, k)
		if best == nil {
			best = k.pose
		}
		set, err := r.settingOf(k)
		if err != nil {
			return err
		}
		rig.Settings = append(rig.Settings, *set)
	}
	rig.Found = len(rig.Settings) > 0 && rig.Settings[0].Verdict == Holds
	if rig.Found || best == nil {
		return nil
	}
	return s.tellInTheWay(rig, best)
}

// tellInTheWay finds, for everything that the best pose misses, the best that
// meets it, and what falls short there.
func (s *rigSearch) tellInTheWay(rig *Rig, best *rigPose) error {
	musts := s.musts()
	for i, missed := range best.missed {
		if !missed {
			continue
		}
		way := InTheWay{What: musts[i], Never: s.searched.Whole && len(s.searched.Any) == 0 || s.beyond(musts[i])}
		meets := s.newRanker(func(p *rigPose) bool { return !p.missed[i] })
		if k, ok := meets.next(); ok {
			set, err := meets.settingOf(k)
			if err != nil {
				return err
			}
			way.Never, way.Best = false, set
			for other, missed := range k.pose.missed {
				if missed {
					way.Fails = append(way.Fails, musts[other])
				}
			}
		}
		rig.InTheWay = append(rig.InTheWay, way)
	}
	return nil
}

// beyond reports whether something can't be met whatever else is set: an end out
// of reach, or a rod that misses the pins at each of its lengths.
func (s *rigSearch) beyond(what Must) bool {
	if what.Pinned == nil {
		return what.End != nil
	}
	for i := range s.axes {
		if a := &s.axes[i]; a.pinned == what.Pinned {
			return len(s.atPins(a)) == 0 && !slices.ContainsFunc(a.variables, func(v rigVariable) bool { return v.stride > 1 })
		}
	}
	return true // it has nothing to set
}
