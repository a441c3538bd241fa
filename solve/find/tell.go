package find

import (
	"math"
	"slices"

	"fullfree/solve"
)

// answer ranks what was judged, checks what it tells, and tells what stands against each
// other where nothing meets all.
func (s *search) answer() (*Answer, error) {
	if !slices.ContainsFunc(s.trials[1:], func(t *trial) bool { return t.closes }) && !(s.filed.closes && s.filed.at != nil) {
		return nil, s.tellNothingCloses()
	}
	a := &Answer{Filed: s.filed.result}
	for _, t := range s.best(-1, mostSettings) {
		set, err := s.setting(t)
		if err != nil {
			return nil, err
		}
		a.Settings = append(a.Settings, *set)
	}
	a.Found = len(a.Settings) > 0 && a.Settings[0].Verdict == solve.Holds
	if !a.Found && len(a.Settings) > 0 {
		if err := s.tellAgainst(a); err != nil {
			return nil, err
		}
	}
	s.searched.Settings, s.searched.Checked = len(s.trials), s.checked
	s.searched.Complete = s.searched.Whole && s.searched.Any == 0
	a.Searched = s.searched
	return a, nil
}

// best are the best settings with a requirement left out, or -1: each of those is checked,
// and those alone that meet everything where one does.
func (s *search) best(dropped, most int) (list []*trial) {
	taken := map[*trial]bool{}
	for tries := 0; len(list) < most && tries < mostTries; tries++ {
		t := s.next(dropped, taken)
		if t == nil {
			break
		}
		like := func(k *trial) bool {
			// Where nothing meets all, what else falls short is told, not the same by more.
			return s.alike(k, t) || t.failed > 0 && t.missesAll(k)
		}
		if slices.ContainsFunc(list, like) {
			taken[t] = true
			continue
		}
		if !s.settled(t, dropped) {
			continue // it came out otherwise when it was checked
		}
		if len(list) > 0 && list[0].fareWithout(dropped).failed == 0 && t.fareWithout(dropped).failed > 0 {
			break // what falls short is of no use beside what doesn't
		}
		taken[t] = true
		list = append(list, t)
	}
	return list
}

// missesAll reports whether a setting misses all that another does.
func (t *trial) missesAll(than *trial) bool {
	for i, holds := range than.holds {
		if !holds && t.holds[i] {
			return false
		}
	}
	return t.others >= than.others
}

// mostTries is how many settings are looked at to tell those that really differ.
const mostTries = 200

// settled checks a setting that was only glanced at, and reports whether it is what it was
// taken for.
func (s *search) settled(t *trial, dropped int) bool {
	if t.exact {
		return true
	}
	was := t.fareWithout(dropped)
	if s.judge([][]float64{t.at}, true); !t.closes {
		return false
	}
	now := t.fareWithout(dropped)
	return now.failed == was.failed && math.Abs(now.reserve-was.reserve) <= sameReserve && math.Abs(now.most-was.most) <= sameReserve
}

// next is the best trial that is not taken, one thing asked after another of those that
// are as good so far.
func (s *search) next(dropped int, taken map[*trial]bool) *trial {
	type ranked struct {
		*trial
		f fare
	}
	var left []ranked
	// Of what lies in ranges the ends of the ways there count, and the best besides.
	ends := dropped < 0 && s.searched.Any > 0 && len(taken) > 0
	for _, t := range s.trials {
		if t.closes && !taken[t] && (!ends || t.end || t == s.filed) {
			left = append(left, ranked{t, t.fareWithout(dropped)})
		}
	}
	least := func(within float64, of func(r ranked) float64) {
		low := math.Inf(1)
		for _, r := range left {
			low = math.Min(low, of(r))
		}
		left = slices.DeleteFunc(left, func(r ranked) bool { return of(r) > low+within })
	}
	least(0, func(r ranked) float64 { return float64(r.f.failed) })
	least(sameReserve, func(r ranked) float64 { return r.f.most })
	least(sameReserve, func(r ranked) float64 { return r.f.sum })
	least(sameReserve, func(r ranked) float64 { return -r.f.reserve })
	least(0, func(r ranked) float64 { return float64(r.changed) })
	// Of what may take any value all that is as good to a builder is one setting: the best.
	if s.searched.Any > 0 {
		least(gained, func(r ranked) float64 { return -r.f.reserve })
	}
	least(0, func(r ranked) float64 { return r.away })
	if len(left) == 0 {
		return nil
	}
	return left[0].trial
}

// alikeShare is the share of a range by which one value at least differs in settings that
// are told both.
const alikeShare = 0.05

// alike reports whether two settings are one to a builder.
func (s *search) alike(a, b *trial) bool {
	if a.at == nil || b.at == nil {
		return a == b
	}
	for i := range s.axes {
		x := &s.axes[i]
		if d := math.Abs(a.at[i] - b.at[i]); d > 0 && (!x.any() || d > alikeShare*(x.high-x.low)) {
			return false
		}
	}
	return true
}

// setting is a trial as it is told.
func (s *search) setting(t *trial) (*Setting, error) {
	set := &Setting{Changed: t.changed}
	for i := range s.axes {
		a := &s.axes[i]
		v := Value{Vary: a.vary, End: a.end, Is: a.filed, Filed: a.filed}
		if t.at != nil {
			v.Is = a.values(t.at[i])
		}
		set.Values = append(set.Values, v)
	}
	run := s.m.Run()
	if t != s.filed {
		var err error
		if run, err = s.runOf(t, s.base(t)); err != nil {
			return nil, err
		}
	}
	out, err := s.m.CheckRun(run)
	if err != nil {
		return nil, err
	}
	set.Check, set.Verdict, set.Reserve = out.Result, out.Result.Verdict, out.Result.Reserve()
	set.Limits = limits(out.Result)
	if set.Pinned = s.pinned(out.Mechanism); len(set.Pinned) > 0 {
		set.Verdict = solve.FallsShort
	}
	out.Result.Survey = s.survey
	return set, out.Mechanism.AddBands(out.Result, s.survey)
}

// limits is the requirement that has the least reserve, or that misses most.
func limits(r *solve.Result) (worst *solve.Judgement) {
	least := math.Inf(1)
	for i := range r.Requirements {
		j := &r.Requirements[i]
		share := math.Inf(1)
		if v := j.Reserve(); v != nil {
			share = *v
		}
		if j.Verdict != solve.Holds {
			share = -math.Max(j.MissedShare(), tiniest) // before all that holds
		}
		if share < least {
			worst, least = j, share
		}
	}
	return worst
}

// tiniest is less than any share by which something is missed.
const tiniest = 1e-300
