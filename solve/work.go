// Layer: path.

package solve

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve/internal/parallel"
)

// This file bounds how much is computed for one answer, so that no file, however it
// is made, keeps a command for long or fills the memory. What is counted is work, not
// time, so that the same file always gets the same answer: poses solved, each by the
// size of what it solves. What a bound leaves out is told in the result, and nothing
// holds for what was not looked at.

// mostWork is how much work the sweeps of one answer may take together, in units of about
// ten nanoseconds: two to four seconds of one processor. The bands of an answer may take
// as much again. A variable, so that tests can lower it.
var mostWork = 200_000_000.0

const (
	// lastStart is the share of the work after which no further sweep is begun, so
	// that the last one begun has room to end.
	lastStart = 0.6
	// setupPoses is what it takes to set up a sweep and what is kept of it, in poses:
	// what keeps sweeps of a few steps each, by the hundreds, from filling the memory.
	setupPoses = 100
	// mostNumbers is how many numbers the samples kept of all sweeps of one answer may
	// have together: about 32 MiB.
	mostNumbers = 1 << 22
	// workOfMotion is the work of solving, differentiating and placing one body or constraint.
	workOfMotion = 16
	// workOfProbe is the work of reading one probe.
	workOfProbe = 4
	// workOfBars is the work of holding one stretch of metal against another, and
	// workOfPoint that of placing one of its points.
	workOfBars, workOfPoint = 10, 10
	// workOfHanging is how much more there is to a rod on which others hang than to a part.
	workOfHanging = 4
	// workOfElimination is the work of one multiplication of an elimination, with as
	// many rounds of Newton's method as it mostly takes.
	workOfElimination = 2.5
)

// mostWork is how much work one answer may take: of an aircraft as much as of its runs one
// after another.
func (m *Mechanism) mostWork() float64 {
	if a := m.run.Aircraft; a != nil {
		return float64(mostWork * float64(len(a.Members)))
	}
	return mostWork
}

// work counts what one answer takes.
type work struct {
	spent, most float64
	// begun and keptBefore are what others took and kept before this was begun, of the
	// same answer, where this counts one of several things.
	begun      float64
	keptBefore int
	part       bool    // of another account, which takes it over in the end
	every      float64 // of samples to keep, one in so many steps
	kept       int     // numbers of the samples kept
	// brought are the freedoms with one control at a held setting and all others at
	// neutral; only read once anything is swept.
	brought map[Held][]float64
}

// newWork returns the account of an answer that takes so many poses, where they are
// known beforehand.
func (m *Mechanism) newWork(poses float64) *work {
	w := &work{most: m.mostWork(), brought: make(map[Held][]float64)}
	poses = math.Min(poses, m.mostWork()/m.workOfPose())
	w.every = math.Ceil(poses * float64(m.numbersKept()) / mostNumbers)
	return w
}

// stepsOf is in how many steps a control is explored, about.
func (m *Mechanism) stepsOf(c *linkage.Control) float64 {
	return (c.To - c.From) / m.longestStep(c)
}

// numbersKept is how many numbers are kept of a sample.
func (m *Mechanism) numbersKept() int { return 3*len(m.freedoms) + 16 }

// workOfPose is the work of solving one pose and differentiating it.
func (m *Mechanism) workOfPose() float64 {
	sum := float64(workOfMotion * (len(m.bodies) + len(m.constraints)))
	for i := range m.steps {
		if n := float64(m.steps[i].withoutKeeps(m)); m.steps[i].kind >= closePull {
			sum += float64(workOfElimination * n * n * n)
			for _, b := range m.steps[i].within {
				each := float64(4 * workOfMotion)
				if m.bodies[b].kind == followsRod {
					each *= workOfHanging
				}
				sum += float64(each * n)
			}
		}
	}
	return sum
}

// withoutKeeps is how many unknowns of a step rods, cables and joints hold: what a part keeps
// by itself takes next to no work.
func (s *step) withoutKeeps(m *Mechanism) (n int) {
	for _, k := range s.constraints {
		if m.constraints[k].keep == nil {
			n++
		}
	}
	return n
}

// work is that of finding how near the two features are, without what it takes to
// hold stretches against each other.
func (c *contact) work() float64 {
	a, b := float64(len(c.a.points)), float64(len(c.b.points))
	return float64(workOfPoint*(a+b)) + a*b/(grouped*grouped)
}

// uncounted is the work of a path since it was last asked for, without that of reading
// samples.
func (p *path) uncounted() float64 {
	work := float64(float64(p.solved-p.counted)*p.m.workOfPose()) + float64(workOfBars*p.tried)
	p.counted, p.tried = p.solved, 0
	return work
}

// add adds to the account, and to that of what the run is part of.
func (w *work) add(m *Mechanism, spent float64) {
	w.spent += spent
	if m.tally != nil && !w.part {
		*m.tally += spent
	}
}

// overBy counts what a path has done since it was last counted, with one sample taken,
// and reports whether there was more than is for one answer.
func (w *work) overBy(p *path) bool {
	w.add(p.m, p.uncounted()+p.reading)
	return w.over()
}

// over reports whether there was more than is for one answer.
func (w *work) over() bool { return w.begun+w.spent > w.most }

// numbers is how many numbers of samples are kept.
func (w *work) numbers() int { return w.keptBefore + w.kept }

// share is an account of one of several things, by what is known now to come before.
func (w *work) share() *work {
	return &work{begun: w.spent, keptBefore: w.kept, most: w.most, every: w.every, brought: w.brought, part: true}
}

// inTurn does n things, several at once, each with an account of its own, as if they
// were done one after another as long as no more than limit is spent: what comes out is
// the same. Whatever was begun before it was known that it reaches a bound is done
// again. It returns how many were done; taken is called for each in order.
func (w *work) inTurn(m *Mechanism, n int, limit float64, do func(i int, own *work), taken func(i int)) int {
	if w.spent > limit {
		return 0
	}
	// Accounts are begun with nothing, so that nothing depends on how far others are.
	idle := &work{most: w.most, every: w.every, brought: w.brought, part: true}
	parts := make([]*work, n)
	return parallel.EachInOrder(n, func(i int) {
		own := *idle
		parts[i] = &own
		do(i, parts[i])
	}, func(i int) bool {
		if own := parts[i]; w.spent+own.spent > w.most || w.kept+own.kept > mostNumbers {
			parts[i] = w.share()
			do(i, parts[i])
		}
		w.add(m, parts[i].spent)
		w.kept += parts[i].kept
		taken(i)
		return w.spent <= limit
	})
}

// workOfSetup is the work of setting up the sweep.
func (s *sweeper) workOfSetup() float64 {
	return float64(setupPoses * (s.m.workOfPose() + s.p.reading))
}

// spend adds to an account of work, and reports whether there was more than is for one
// answer. Once solving is to be given up there is no end to what was spent, and it is
// not asked again.
func (m *Mechanism) spend(spent *float64, work float64) (over bool) {
	if *spent += work; *spent <= m.mostWork() && m.Stopped() {
		*spent = math.Inf(1)
	}
	return *spent > m.mostWork()
}
