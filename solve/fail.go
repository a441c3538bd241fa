// Layer: questions.

package solve

import (
	"cmp"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/parallel"
)

const (
	// wholeReach is the share of what an output reaches as filed that it must
	// still reach, not to count as reduced (the design's figure).
	wholeReach = 0.99
	// ownShare is the share of the farthest that any control moves an output from
	// which it counts as this control's too: what one control does to what is
	// another's is less in any run that a pilot would fly.
	ownShare = 0.1
	// stands is the movement below which it surely stands still.
	stands = 1e-9
)

// Failures takes every rod, cable, pivot bolt and stop away in turn, and locks
// every part, rod end and cable core in turn, several at once, and tells what is left.
// Progress is told how many are done, and of how many, by one goroutine at a time; it
// may be nil. The error is *linkage.Faults.
func (m *Mechanism) Failures(progress func(done, of int)) (*Failures, error) {
	if !m.compiled() {
		return nil, errNoMechanism
	}
	f := &failing{m: m, atNeutral: m.run.Aircraft != nil}
	result, err := f.all(progress)
	if err != nil || f.atNeutral || result.LeftOut == 0 {
		return result, err
	}
	// With the others at neutral alone there is room for many more.
	f = &failing{m: m, atNeutral: true}
	if fewer, err := f.all(progress); err == nil && fewer.LeftOut < result.LeftOut {
		return fewer, nil
	}
	return result, nil
}

// all looks at every case, as far as there is room.
func (f *failing) all(progress func(done, of int)) (*Failures, error) {
	if err := f.asFiled(); err != nil {
		return nil, err
	}
	list := f.elements()
	result := &Failures{Run: f.m.run, Hands: f.hands, OnCenter: f.onCenter, AtNeutral: f.atNeutral}
	if f.spent > f.m.mostWork() {
		result.LeftOut = len(list)
		return result, nil
	}
	tell := func(done int) {
		if progress != nil && done < len(list) {
			progress(done, len(list))
		}
	}
	tell(0)
	cases, spent := make([]Failure, len(list)), make([]float64, len(list))
	unspent := *f // each case counts its own work, from nothing
	unspent.spent = 0
	n := parallel.EachInOrder(len(list), func(i int) {
		own := unspent
		cases[i] = own.fail(list[i].Element, list[i].How)
		spent[i] = own.spent
	}, func(i int) bool {
		f.spent += spent[i]
		tell(i + 1)
		return f.spent <= f.m.mostWork()
	})
	result.Cases, result.LeftOut = cases[:n:n], len(list)-n
	f.share(result)
	slices.SortStableFunc(result.Cases, func(a, b Failure) int { return cmp.Compare(a.Severity, b.Severity) })
	return result, nil
}

// failing works out failures of a run.
type failing struct {
	m        *Mechanism
	moving   *linkage.Run // what of it moves alone, each stop by number on the side on which it limits as filed
	filed    []*travels   // by control
	hands    [][]*linkage.Part
	own      map[string][]bool // by output, of which controls it is
	onCenter []OnCenter
	turns    [][]seizing // by control
	spent    float64     // the work done so far
	// atNeutral says that travels are swept with the others at neutral alone.
	atNeutral bool
}

const (
	// filedShare is the share of mostWork that sweeping the run as filed may take, before
	// any case is looked at: all cases together may take mostWork.
	filedShare = 0.3
)

// compile compiles what is left of the run; what is then done with it is counted.
func (f *failing) compile(run *linkage.Run) (*Mechanism, error) {
	m, err := Compile(run)
	if err != nil {
		f.spent += float64(compilePoses * f.m.workOfPose())
		return nil, err
	}
	m.tally, m.atNeutral = &f.spent, f.atNeutral
	f.spent += float64(compilePoses * m.workOfPose())
	return m, nil
}

type going struct {
	Element
	How
}

// elements lists what may go, in the order in which cases of one severity are
// told.
func (f *failing) elements() (list []going) {
	run := f.m.run
	for _, r := range run.Rods {
		list = append(list, going{Element{Rod: r}, Parted})
	}
	for _, k := range run.Cables {
		list = append(list, going{Element{Cable: k}, Parted})
	}
	for _, j := range run.Joints {
		list = append(list, going{Element{Joint: j}, Parted})
	}
	for _, p := range run.Parts {
		if p.HasPivot() && !f.drawnBefore(p) {
			list = append(list, going{Element{Pivot: p}, Parted})
		}
	}
	for _, s := range run.Stops {
		list = append(list, going{Element{Stop: s}, Parted})
	}
	for _, p := range run.Parts {
		if p.Motion != linkage.Fixed && !f.drawnBefore(p) {
			list = append(list, going{Element{Part: p}, Seized})
		}
	}
	for _, r := range run.Rods {
		list = append(list, going{Element{Rod: r, End: "from"}, Seized}, going{Element{Rod: r, End: "to"}, Seized})
	}
	for _, k := range run.Cables {
		if !k.Open() { // only in a conduit is there something to seize in
			list = append(list, going{Element{Cable: k}, Seized})
		}
	}
	return list
}

// drawnBefore reports whether a part is one of another run's of an aircraft, which is told
// by what drives it: that is one piece of metal, on one bolt.
func (f *failing) drawnBefore(p *linkage.Part) bool {
	return slices.ContainsFunc(f.m.run.SameParts, func(s *linkage.SamePart) bool { return s.Follows.Of == p })
}

func (f *failing) fail(e Element, how How) Failure {
	c := Failure{Element: e, How: how}
	if how == Seized {
		f.seize(&c)
	} else {
		f.part(&c)
	}
	c.Severity = f.severity(&c)
	return c
}

// severity is how bad a case is, by the stated rule.
func (f *failing) severity(c *Failure) Severity {
	jammed := slices.ContainsFunc(c.Controls, func(k ControlLeft) bool { return k.Locked != nil && *k.Locked })
	doubtful := slices.ContainsFunc(c.Controls, func(k ControlLeft) bool { return k.Locked == nil })
	backwards := slices.ContainsFunc(c.Reaches, func(r Reach) bool { return r.Own && r.Reversed })
	reduced := slices.ContainsFunc(c.Reaches, func(r Reach) bool { return r.Own && r.Share < wholeReach })
	switch {
	case jammed || backwards || c.OverCenter != nil && *c.OverCenter:
		return Dangerous
	case doubtful || c.Trouble != nil || c.OverCenter == nil:
		return NotKnown
	case len(c.Lost) > 0:
		return Lost
	case reduced:
		return Reduced
	}
	return NoEffect
}
