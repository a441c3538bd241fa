package rig

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/find"
)

// settingOf is a ranked setting, checked.
func (r *ranker) settingOf(k rigRank) (*Setting, error) {
	var steps [][]int
	rest := k.steps
	for i := range r.axes {
		n := len(r.axes[i].variables)
		steps = append(steps, rest[:n])
		rest = rest[n:]
	}
	set := r.setting(steps)
	as, err := r.m.CheckWith(set.Edits()...)
	r.work += as.Checking
	if err != nil {
		return nil, err
	}
	set.Check = as.Result
	run := as.Mechanism.Run()
	stands := as.Mechanism.NeutralPoses()
	set.Verdict, set.Reserve = set.Check.Verdict, set.Check.Reserve()
	set.Displaced, set.Moved = solve.DisplacedOf(r.was, stands), solve.NeutralMovedOf(r.was, stands)
	set.Ends, set.Unfit = set.ends(run), solve.UnfitSettings(run)
	for _, p := range r.pins {
		set.pinned(p, run)
	}
	for i := range r.axes {
		if p := r.axes[i].pinned; p != nil && r.missesAt(p, run.Rod(p.Rod).Length) {
			set.pinned(p, run)
		}
	}
	if k.pose.unkept > 0 {
		set.Verdict = solve.FallsShort
	}
	return set, nil
}

// pinned notes a rod that misses the pins, by how much it does in the run that is set so.
func (s *Setting) pinned(p *solve.PinnedRod, run *linkage.Run) {
	s.Pinned = append(s.Pinned, p.As(run))
}

// ends are the ends that are turned, as they are in the run that is set so.
func (s *Setting) ends(run *linkage.Run) (list []SetEnd) {
	for _, t := range s.Turns {
		for _, e := range t.End.Rod.Ends {
			if e == t.End || e.Rod.Barrel() {
				own := run.RodEnd(e)
				list = append(list, SetEnd{e, own.Rod.Length, own.Engaged, own.Spare()})
			}
		}
	}
	return list
}

// settingOnce is settingOf, once for each setting. It is nil, and tells so, where the
// work is done that there is for it; sure says that it is to be checked even so.
func (r *ranker) settingOnce(rig *Answer, k rigRank, sure bool) (*Setting, error) {
	key := fmt.Sprint(k.steps)
	if set := r.settings[key]; set != nil {
		return set, nil
	}
	if !sure && r.work > rigWork*solve.MostWork() {
		rig.Cut = true
		return nil, nil
	}
	set, err := r.settingOf(k)
	if err != nil {
		return nil, err
	}
	r.settings[key] = set
	return set, nil
}

// tell fills in what was found.
func (s *rigSearch) tell(rig *Answer) error {
	rig.Searched = s.searched
	r := s.newRanker(nil)
	var told []rigRank
	for len(rig.Settings) < mostSettings {
		k, ok := r.next()
		if !ok || len(told) > 0 && told[0].pose.holds() && !k.pose.holds() {
			break // what falls short is of no use beside what doesn't
		}
		if slices.ContainsFunc(told, func(t rigRank) bool { return r.alike(k, t) }) {
			continue
		}
		set, err := r.settingOnce(rig, k, len(told) == 0)
		if err != nil {
			return err
		}
		if set == nil {
			break
		}
		told = append(told, k)
		rig.Settings = append(rig.Settings, *set)
	}
	rig.Found = len(rig.Settings) > 0 && rig.Settings[0].Verdict == solve.Holds
	switch {
	case len(told) == 0:
		return nil
	case rig.Found:
		if err := s.tellAdvised(rig, told[0]); err != nil {
			return err
		}
		return s.tellOthers(rig, told[0])
	}
	if err := s.tellInTheWay(rig, told[0].pose); err != nil {
		return err
	}
	var err error
	rig.Others, err = find.Alone(s.m, nil)
	return err
}

// MissesAll reports whether a setting falls short, and in all that another does too: then
// there is no use in it beside that one.
func (s *Setting) MissesAll(than *Setting) bool {
	if s.Verdict == solve.Holds || len(s.Pinned) < len(than.Pinned) || len(s.Unfit) < len(than.Unfit) {
		return false
	}
	for i := range than.Check.Requirements {
		if than.Check.Requirements[i].Verdict != solve.Holds && s.Check.Requirements[i].Verdict == solve.Holds {
			return false
		}
	}
	return true
}

// tellOthers finds what else meets everything: with the most in reserve, and with
// the fewest ends turned.
func (s *rigSearch) tellOthers(rig *Answer, best rigRank) error {
	tell := func(into **Setting, of func(p *rigPose) bool) error {
		r := s.newRanker(func(p *rigPose) bool { return p.holds() && of(p) })
		k, ok := r.next()
		if !ok {
			return nil
		}
		set, err := r.settingOnce(rig, k, false)
		*into = set
		return err
	}
	most, fewest := best.pose.reserve, best.ends
	for _, p := range s.poses {
		if p.holds() {
			most, fewest = math.Max(most, p.reserve), min(fewest, p.ends())
		}
	}
	if most > best.pose.reserve+sameReserve {
		if err := tell(&rig.Most, func(p *rigPose) bool { return p.reserve >= most-sameReserve }); err != nil {
			return err
		}
	}
	if fewest < best.ends {
		return tell(&rig.Fewest, func(p *rigPose) bool { return p.ends() == fewest })
	}
	return nil
}

// tellInTheWay finds, for everything that the best pose misses, the best that
// meets it, and what falls short there.
func (s *rigSearch) tellInTheWay(rig *Answer, best *rigPose) error {
	musts := s.musts()
	for i, missed := range best.missed {
		if !missed {
			continue
		}
		way := InTheWay{What: musts[i], Never: s.searched.Whole && len(s.searched.Any) == 0 || s.beyond(musts[i])}
		meets := s.newRanker(func(p *rigPose) bool { return !p.missed[i] })
		if k, ok := meets.next(); ok {
			set, err := meets.settingOnce(rig, k, false)
			if err != nil {
				return err
			}
			if set == nil {
				continue
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
	if what.Nut != nil {
		return true // they aren't set here
	}
	if what.Pinned == nil {
		return what.End != nil && slices.Contains(s.outside, what.End)
	}
	for i := range s.axes {
		if a := &s.axes[i]; a.pinned == what.Pinned {
			return len(s.atPins(a)) == 0 && !slices.ContainsFunc(a.variables, func(v rigVariable) bool { return v.stride > 1 })
		}
	}
	return true // it has nothing to set
}
