package tolerance

import (
	"fullfree/linkage"
	"fullfree/solve"
)

// Options are what is asked.
type Options struct {
	Builds int    // how many are drawn; 0: DefaultBuilds
	Seed   uint64 // of the random numbers
	// Bell draws from the normal distribution, the half-width two standard deviations;
	// otherwise all within the half-width is as likely.
	Bell bool
	// AsDrilled leaves every rod and stop as it is made: nobody rigs.
	AsDrilled bool
	// Plain builds every build as a run of its own and looks at every step of it: what the
	// rest is held against. It takes as long as a check for each, and tells nothing Alone.
	Plain bool
	// Progress, which may be nil, is told how many builds are made, from one goroutine at a
	// time. Stop, which may be nil, is asked between builds whether to stop; what is done so
	// far is told then.
	Progress func(done, of int)
	Stop     func() bool
}

const (
	// DefaultBuilds are as many as tell a share to 0.3 percent, 95 times of 100, at worst.
	DefaultBuilds = 100_000
	// MostBuilds are as many as fit the memory of a small machine.
	MostBuilds = 1_000_000
)

// Answer is what became of the builds.
type Answer struct {
	// Nominal is the run without anything out, rigged as the builds are, and its check.
	Nominal *solve.Result
	Asked   int // builds
	Builds  int // that were made: fewer where it was stopped
	Seed    uint64
	Bell    bool
	// Rigged says that rods or stops are set in every build: RiggedRods by the pins, and
	// RiggedStops by the travel that is required.
	Rigged      bool
	RiggedRods  []*linkage.Rod
	RiggedStops []*linkage.Stop
	Dimensions  []Dimension
	Outcomes    []Outcome
	// Open is how many builds can't be assembled at neutral, or have a stop past contact
	// there: they fail in everything.
	Open int
	// Everywhere is how many builds were looked at in every step too, and Missed in how
	// many of these something came out otherwise. Where there was one, all builds were
	// looked at in every step in the end (Redone).
	Everywhere, Missed int
	Redone             bool
	Alone              []Alone
}

// Dimension is one number that may be out.
type Dimension struct {
	Name string
	// By is the half-width, in Unit; of a rod or stop that is rigged half a step, since that
	// is what rigging leaves.
	By     float64
	Unit   linkage.Unit
	Value  float64 // without anything out
	Rigged bool
}

// Outcome is how one requirement or label came out over all builds.
type Outcome struct {
	// Requirement is one of the run's; or of the kind linkage.AsSet or linkage.LabelKind.
	Requirement *linkage.Requirement
	Unit        linkage.Unit
	Limit       float64
	Nominal     *float64 // the worst figure without anything out
	Builds      int
	Holds       int // builds in which it holds
	Untold      int // builds in which it can't be judged, which don't count as holding
	// Share is that of the builds in which it holds; from Low to High it lies with a
	// confidence of 95 percent, however few the builds (Clopper and Pearson, The use of
	// confidence or fiducial limits, Biometrika 26, 1934; from memory).
	Share, Low, High float64
	// Percentiles are the 5th, 50th and 95th of its worst figure over the builds that have
	// one; nil where none has.
	Percentiles *[3]float64
	Worst       *WorstBuild
	// Blame is how much of the variance of its worst figure each dimension makes, by the
	// derivatives, the most first; none where nothing does.
	Blame []Blame
	// Linear is the share of that variance, as it is over the builds, which the derivatives
	// explain; nil where it doesn't vary.
	Linear *float64
	// Hazard says that it is of a kind of which no wider limit is to be advised, and no
	// share told as one that holds: a control that goes the wrong way, over center or past
	// where a stop should be kills.
	Hazard bool
}

// Fails is in how many builds it doesn't hold.
func (o *Outcome) Fails() int { return o.Builds - o.Holds }

// WorstBuild is the build in which a figure is worst.
type WorstBuild struct {
	Value  float64
	Number int     // of the build, from 0
	Build  []Value // every dimension in it, as a Setting would make it
}

// Value is a dimension with its number.
type Value struct {
	Name  string
	Value float64
}

// Blame is the share of a variance that a dimension makes.
type Blame struct {
	Dimension string
	Share     float64
}

// Alone is how far one dimension may be out by itself, everything else as drawn and rigged,
// before something fails that holds otherwise.
type Alone struct {
	Dimension string
	Unit      linkage.Unit
	By        float64 // its half-width
	// Minus and Plus are how far, both counted from 0; nil where nothing fails within
	// Looked.
	Minus, Plus *float64
	Looked      float64
	// MinusFails and PlusFails are what fails there, the first in the file; nil where
	// nothing does. Of what isn't a requirement (the run can't be assembled) they are nil
	// too, and MinusOpen and PlusOpen say so.
	MinusFails, PlusFails *linkage.Requirement
	MinusOpen, PlusOpen   bool
}

// IsHazard reports whether a kind is one of which no wider limit is advised.
func IsHazard(k linkage.Kind) bool {
	switch k {
	case linkage.Sense, linkage.CyclicSense, linkage.LabelKind, linkage.OverCenter, linkage.Stops, linkage.AsSet, linkage.Engagement:
		return true
	}
	return false
}

// worseBy is +1 for a kind whose figure is worse the larger it is, -1 where it is worse the
// smaller.
func worseBy(k linkage.Kind) float64 { return solve.WorseBy(k) }

// Whole says that there is nothing to tell of an answer: it is nil, or was never filled in.
func (a *Answer) Whole() error {
	if a == nil {
		return errNothing
	}
	return a.Nominal.Whole()
}
