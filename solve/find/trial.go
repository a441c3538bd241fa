package find

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/internal/parallel"
	"fullfree/solve/survey"
)

// trial is one setting, judged.
type trial struct {
	at     []float64 // coordinates by axis; nil: as filed
	exact  bool      // checked, not only glanced at
	closes bool
	// shares are the reserves by requirement, negative where it is missed; +Inf where it
	// holds and has none.
	shares []float64
	holds  []bool // by requirement
	others int    // what falls short besides requirements: words against the drawing, thread
	fare
	changed int
	away    float64
	end     bool          // a search of ranges ended there
	result  *solve.Result // kept of what is filed
}

// fare is how far a trial is from what is required.
type fare struct {
	failed  int
	most    float64 // the largest share by which one that fails misses its limit
	sum     float64 // the shares of all that fail
	reserve float64 // the least of those that hold; capReserve where none has one
}

// capReserve stands for the reserve of what has none.
const capReserve = math.MaxFloat64

// fareWithout is the fare without one of the requirements, -1: with all.
func (t *trial) fareWithout(dropped int) (f fare) {
	f.failed, f.reserve = t.others, capReserve
	if t.others > 0 {
		f.most, f.sum = 1, float64(t.others)
	}
	for i, share := range t.shares {
		switch {
		case i == dropped:
		case t.holds[i]:
			f.reserve = math.Min(f.reserve, share)
		default:
			f.failed++
			f.most, f.sum = math.Max(f.most, -share), f.sum-share
		}
	}
	return f
}

// merit is what is sought to be large: the least share of all, negative where something
// is missed; -Inf where it doesn't close.
func (t *trial) merit(dropped int) float64 {
	if !t.closes {
		return math.Inf(-1)
	}
	least := 1.0
	if t.others > 0 {
		least = -1
	}
	for i, share := range t.shares {
		if i != dropped {
			least = math.Min(least, share)
		}
	}
	return least
}

// meets reports whether everything is met.
func (t *trial) meets() bool { return t.closes && t.failed == 0 }

// compareFares puts the better first, to the last digit: without what counts as equal.
func compareFares(a, b fare) int {
	return cmp.Or(a.failed-b.failed, cmp.Compare(a.most, b.most), cmp.Compare(a.sum, b.sum), cmp.Compare(b.reserve, a.reserve))
}

// search judges settings and keeps what came out.
type search struct {
	m        *solve.Mechanism
	axes     []axis
	progress func(judged, most int)
	survey   *survey.Survey
	rods     bool // rod ends are turned too
	filed    *trial
	trials   []*trial // as filed first, then in the order in which they were judged
	ways     []*trial // between choices, on the way to what is one
	known    map[string]*trial
	reread   map[string]*linkage.Run // runs that were read with other numbers, by these
	work     float64
	checked  int
	each     float64 // the work of a glance, about
	exactly  bool    // everything is checked, and nothing glanced at
	searched Searched
}

func newSearch(m *solve.Mechanism, varies []*linkage.Vary, o Options) *search {
	s := &search{m: m, progress: o.Progress, survey: o.Survey, rods: o.Rods, known: map[string]*trial{}, reread: map[string]*linkage.Run{}}
	for _, v := range varies {
		if whole(v) {
			s.axes = append(s.axes, newAxis(v))
		}
	}
	if o.Rods {
		s.addTurns(varies)
	}
	return s
}

// whole reports whether something that varies has values for all its numbers, which one put
// together by hand may not.
func whole(v *linkage.Vary) bool {
	if v == nil || len(v.Numbers) == 0 {
		return false
	}
	if v.Among == nil {
		return len(v.Numbers) == 1 && v.Low < v.High && finite(v.High-v.Low) && v.Step >= 0
	}
	return len(v.Among) > 0 && !slices.ContainsFunc(v.Among, func(values []float64) bool { return len(values) != len(v.Numbers) })
}

// addTurns lets each rod be set by that of its ends which can be turned farthest.
func (s *search) addTurns(varies []*linkage.Vary) {
	for _, rod := range s.m.Run().Rods {
		var best *axis
		for _, e := range rod.Ends {
			if a, ok := newTurns(e); ok && (best == nil || a.high-a.low > best.high-best.low) {
				best = &a
			}
		}
		set := slices.ContainsFunc(varies, func(v *linkage.Vary) bool { return v.Of == rod.Name+".length" })
		if best != nil && !set {
			s.axes = append(s.axes, *best)
		}
	}
}

// judgeFiled judges the run as filed, which may be what can't be judged.
func (s *search) judgeFiled() {
	s.filed = &trial{exact: true}
	out, err := s.m.CheckRun(s.m.Run())
	s.work += out.Compiling + out.Checking
	s.checked++
	if err == nil {
		s.take(s.filed, out)
		s.filed.result = out.Result
	}
	s.each = math.Max(1, out.Compiling+out.Checking)
	s.trials = append(s.trials, s.filed)
	at := make([]float64, len(s.axes))
	for i := range s.axes {
		at[i] = s.axes[i].filedAt
	}
	if !slices.ContainsFunc(at, math.IsNaN) {
		s.filed.at = at
		s.known[s.key(at)] = s.filed
	}
}

// key tells settings apart.
func (s *search) key(at []float64) string {
	var key []byte
	for i, x := range at {
		if s.axes[i].any() || s.axes[i].between(x) {
			key = append(key, '~')
			key = strconv.AppendUint(key, math.Float64bits(x), 36)
		} else {
			key = strconv.AppendInt(key, int64(x), 36)
		}
		key = append(key, ',')
	}
	return string(key)
}

// between reports whether something lies between its choices.
func (s *search) between(at []float64) bool {
	for i, x := range at {
		if s.axes[i].between(x) {
			return true
		}
	}
	return false
}

// spent reports whether the work is done that there is for the search.
func (s *search) spent() bool {
	return s.work > findWork*solve.MostWork() || len(s.trials)+len(s.ways) >= mostJudged
}

// judge judges settings side by side, each once, and returns them by their places in the
// list; nil where the work was done before. exact says that they are to be checked.
func (s *search) judge(list [][]float64, exact bool) []*trial {
	trials, fresh := make([]*trial, len(list)), []*trial(nil)
	exact = exact || s.exactly
	for i, at := range list {
		key := s.key(at)
		t := s.known[key]
		switch {
		case t == nil && s.spent():
			s.searched.Cut = true
			continue
		case t == nil:
			t = &trial{at: slices.Clone(at), exact: exact}
			s.known[key] = t
			if s.between(at) {
				s.ways = append(s.ways, t)
			} else {
				s.trials = append(s.trials, t)
			}
			fresh = append(fresh, t)
		case exact && !t.exact:
			t.exact = true
			fresh = append(fresh, t)
		}
		trials[i] = t
	}
	for len(fresh) > 0 { // so many at once, that progress is told
		part := fresh[:min(len(fresh), toldEach)]
		fresh = fresh[len(part):]
		s.judgeAll(part)
		if s.progress != nil {
			s.progress(len(s.trials), mostJudged)
		}
	}
	return trials
}

// toldEach is how many settings are judged before progress is told again.
const toldEach = 512

func (s *search) judgeAll(list []*trial) {
	out := make([]solve.Checked, len(list))
	ok := make([]bool, len(list))
	runs := make([]*linkage.Run, len(list))
	for i, t := range list {
		runs[i] = s.base(t)
	}
	parallel.Each(len(list), func(i int) {
		run, err := s.runOf(list[i], runs[i])
		if err != nil {
			return
		}
		if list[i].exact {
			out[i], err = s.m.CheckRun(run)
		} else {
			out[i], err = s.m.GlanceRun(run)
		}
		ok[i] = err == nil
	})
	for i, t := range list {
		s.work += out[i].Compiling + out[i].Checking + 1
		if t.exact {
			s.checked++
		}
		if ok[i] {
			s.take(t, out[i])
		} else {
			t.closes = false
		}
	}
}

// base is the run that the edits of a trial are made in: another than as filed where
// numbers vary that only its file knows what hangs on; nil where that can't be read.
func (s *search) base(t *trial) *linkage.Run {
	var names []string
	var set []linkage.Setting
	for i := range s.axes {
		_, more := s.axes[i].edits(t.at[i])
		for name, value := range more {
			text := strconv.FormatFloat(value, 'f', -1, 64)
			names = append(names, name+"="+text)
			set = append(set, linkage.Setting{Dimension: name, Value: text})
		}
	}
	if len(set) == 0 {
		return s.m.Run()
	}
	key := strings.Join(names, " ")
	if run, ok := s.reread[key]; ok {
		return run
	}
	run, err := s.m.Run().Reread(set...)
	if err != nil {
		run = nil
	}
	s.reread[key] = run
	return run
}

var errNotRead = errors.New("the file can't be read so")

// runOf is the run of a trial.
func (s *search) runOf(t *trial, base *linkage.Run) (*linkage.Run, error) {
	if base == nil {
		return nil, errNotRead
	}
	var edits []linkage.Edit
	for i := range s.axes {
		more, _ := s.axes[i].edits(t.at[i])
		edits = append(edits, more...)
	}
	return base.With(edits...)
}

// pinned are the rods that miss the length at which their bolts slide in with the rig pins
// in, where rod ends are turned.
func (s *search) pinned(m *solve.Mechanism) (list []solve.PinnedRod) {
	if !s.rods {
		return nil
	}
	for _, p := range m.Pinned() {
		if p.Length != nil && len(p.Pins) > 0 && math.Abs(p.Rod.Length-*p.Length) > p.Within()+float64(solve.ContactNoise*m.Run().Size()) {
			list = append(list, p)
		}
	}
	return list
}

// take notes how a trial came out.
func (s *search) take(t *trial, out solve.Checked) {
	result := out.Result
	t.closes, t.others = true, len(result.Contradicted())
	t.others += len(result.Settings()) + len(s.pinned(out.Mechanism))
	t.shares, t.holds = t.shares[:0], t.holds[:0]
	for i := range result.Requirements {
		j := &result.Requirements[i]
		holds := j.Verdict == solve.Holds
		share := math.Inf(1)
		if v := j.Reserve(); v != nil {
			share = *v
		}
		if !holds {
			share = -j.MissedShare()
		} else if share < 0 {
			share = 0 // on its limit, to what rounding leaves
		}
		t.shares, t.holds = append(t.shares, share), append(t.holds, holds)
	}
	t.fare = t.fareWithout(-1)
	t.changed, t.away = 0, 0
	if t == s.filed {
		return
	}
	for i := range s.axes {
		if x := t.at[i]; x != s.axes[i].filedAt {
			away := s.axes[i].away(x)
			t.changed++
			t.away += away
		}
	}
}
