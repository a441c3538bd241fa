package find

import (
	"errors"
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// Answer is what the search found.
//
// The reserve of a setting is the least of its requirements' (solve.Judgement.Reserve): of
// what is allowed, the share that is left. The best setting
//
//  1. fails in the fewest requirements,
//  2. misses least: by the largest share, then by all shares together,
//  3. has the most reserve,
//  4. changes the fewest things,
//  5. changes them least, each by the share of the range that it has.
//
// Reserves and shares within sameReserve count as equal. The run as filed is always among
// what is ranked, so that what is told never fails in more than that.
type Answer struct {
	Found    bool      // the best of Settings meets everything
	Settings []Setting // best first, mostSettings at most, those alone that meet everything where Found
	Filed    *solve.Result
	// Against are the requirements that stand against the others: without each of them
	// all others can be met. None where Found.
	Against []Against
	// InTheWay has an entry for every requirement that the closest setting doesn't meet;
	// none where Found.
	InTheWay []InTheWay
	Searched Searched
}

// Setting is one setting of all that varies, and how the run fares so.
type Setting struct {
	Values []Value
	// Changed is how many of the values are not as filed.
	Changed int
	// Reserve is nil where no requirement has one: each can only hold or not.
	Reserve *float64
	// Verdict is that of Check; but FallsShort where a rod is Pinned.
	Verdict solve.Verdict
	// Pinned are the rods that miss the length at which their bolts slide in with the rig
	// pins in; told where rod ends are turned.
	Pinned []solve.PinnedRod
	// Limits is the requirement with the least reserve, or where it falls short what
	// misses most; nil where none has one.
	Limits *solve.Judgement
	// Check is the run judged as set so, with bands; its Run is that which is set so.
	Check *solve.Result
}

// Value is what one thing that varies is set to: exactly one of Vary and End is set.
type Value struct {
	Vary *linkage.Vary
	End  *linkage.RodEnd // then turns out from as filed
	// Is has an entry for each of Vary's numbers, and Filed what the run has.
	Is, Filed []float64
}

// Name is what it is of: a dimension, a point, or a rod end.
func (v *Value) Name() string {
	if v.End != nil {
		return v.End.String()
	}
	return v.Vary.Of
}

// Changes reports whether it is not as filed.
func (v *Value) Changes() bool {
	for i := range v.Is {
		if v.Is[i] != v.Filed[i] {
			return true
		}
	}
	return false
}

// Against is a requirement without which all others can be met.
type Against struct {
	Requirement *linkage.Requirement
	// Then is the best setting without it.
	Then *Setting
}

// InTheWay is a requirement that the closest setting doesn't meet.
type InTheWay struct {
	Requirement *linkage.Requirement
	// Best is the best of the settings that meet it, and Fails what falls short there; nil
	// where no setting that was searched meets it.
	Best  *Setting
	Fails []*linkage.Requirement
}

// Searched is what was searched, in numbers.
type Searched struct {
	// Settings is how many different settings were judged, and Checked how many of these
	// by the steps of a check; the others were glanced at by longer ones.
	Settings, Checked int
	// Complete says that these were all that there are.
	Complete bool
	// Combinations is how many there are of what is chosen from a list or goes by steps,
	// and Whole says that all were judged. It may be beyond counting.
	Combinations float64
	Whole        bool
	// Any is how many of what varies may take any value in a range, and Starts from how many
	// places these were sought.
	Any, Starts int
	// Cut says that the work allowed for one answer was done before the search was.
	Cut bool
}

// Options is what else is asked for.
type Options struct {
	// Varies is what varies; nil: what the run says (Run.Varies).
	Varies []*linkage.Vary
	// Rods says that rod ends are turned too, as far as their thread goes, and every rod is
	// to keep to what the rig pins allow.
	Rods bool
	// Survey is what the drawing was adjusted by; nil where it is as the file has it.
	Survey *survey.Survey
	// Progress, which may be nil, is told now and then how many settings have been judged,
	// of how many at most.
	Progress func(judged, most int)
}

const (
	// sameReserve is the difference up to which reserves count as equal, shares of a limit:
	// less than a builder can set.
	sameReserve = 1e-3
	// mostSettings is how many settings are told.
	mostSettings = 5
	// mostCombinations is how many combinations are searched in full at most, and
	// mostJudged how many settings are judged in all.
	mostCombinations = 20_000
	mostJudged       = 40_000
	// findWork is how many times the work of one answer a search may take.
	findWork = 4
)

var errNoMechanism = errors.New("there is no mechanism here: solve.Compile makes one of a run")

// Search searches what varies in a run, which solve.Compile made the mechanism of. The
// error is *linkage.Faults where nothing varies, nothing is required, or no setting
// closes, or of a mechanism that is none.
func Search(m *solve.Mechanism, o Options) (*Answer, error) {
	if m.Run() == nil {
		return nil, errNoMechanism
	}
	run := m.Run()
	faults := &linkage.Faults{Source: run.Source}
	if len(run.Requirements) == 0 {
		faults.Add(run.Span, "nothing is required, so no setting is better than another: say what must hold, as in require \"opposite\" { ... }")
		return nil, faults.Err()
	}
	varies := o.Varies
	if varies == nil {
		varies = run.Varies
	}
	s := newSearch(m, varies, o)
	if len(s.axes) == 0 {
		faults.Add(run.Span, "nothing varies: say what may, as in vary \"arm\" { of = crank.in.y, low = 40, high = 70 }, each on a line of its own, or --vary crank.in.y=40..70")
		return nil, faults.Err()
	}
	s.judgeFiled()
	s.search()
	return s.answer()
}

// tellNothingCloses is what is told where no setting could be assembled.
func (s *search) tellNothingCloses() error {
	faults := &linkage.Faults{Source: s.m.Run().Source}
	for i := range s.axes {
		a := &s.axes[i]
		if a.vary == nil {
			continue
		}
		before := ""
		if a.vary.Span == (linkage.Span{}) {
			before = "--vary " + a.vary.Of + ": "
		}
		faults.Add(a.vary.Span, "%sno position closes %s: of %d settings that were tried the rods reach in none, or a stop is past contact", before, a.rangeText(), len(s.trials)-1)
	}
	return faults.Err()
}

// rangeText says between what something varies.
func (a *axis) rangeText() string {
	if a.among != nil {
		return "with any of its values"
	}
	return fmt.Sprintf("from %g to %g", a.vary.Low, a.vary.High)
}

// finite reports whether a figure is one.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
