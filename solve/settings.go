// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
)

// What a run can't be set to falls short whatever is required: thread in an end
// below its least or beyond its most or its shank, and turns that its step can't
// make. The rules of threads stand in thread.go alone.

// turnsUnit is the unit of what is told in turns.
const turnsUnit = "turns"

// UnfitSettings judges how a run is set, and lists what it can't be set to: for each end what
// is wrong with it, in the file's order, ends of rods before those of conduits. All
// fall short. Worst is the thread that is in and Limit what it passes, in run units,
// or the turns and the step, with "turns" as their unit; Why tells which. It lists
// what an "engagement" that is required tells too.
func UnfitSettings(run *linkage.Run) (list []Judgement) {
	for _, e := range threadedEnds(run) {
		tell := func(why Why, worst, limit float64, unit linkage.Unit) {
			list = append(list, Judgement{
				Requirement: &linkage.Requirement{Kind: linkage.AsSet, Name: e.name, Span: e.span},
				Verdict:     FallsShort, Worst: &worst, Limit: limit, Unit: unit, Why: why,
				Rod: e.rod, Cable: e.cable, End: e.side,
			})
		}
		unit := run.UnitsOf(e.in)
		switch {
		case e.engaged <= 0:
			tell(ComesOut, e.engaged, e.least, unit)
		case e.short():
			tell(ThreadShort, e.engaged, e.least, unit)
		}
		if e.beyond(e.most) {
			tell(BottomsOut, e.engaged, *e.most, unit)
		}
		if e.beyond(e.shank) {
			tell(PastShank, e.engaged, *e.shank, unit)
		}
		if e.offStep() {
			tell(OffStep, e.turned, e.step, turnsUnit)
		}
	}
	return list
}

// judgeEngagement finds the smallest spare thread of any rod end or conduit end,
// and an end that has more than it can take.
func (m *Mechanism) judgeEngagement(r *linkage.Requirement) (j Judgement) {
	j.Unit = m.lengthUnit(r.In)
	var deep *threaded
	least := math.Inf(1) // millimeters, in which ends of several runs compare
	for _, e := range threadedEnds(m.run) {
		if !isAbout(r, e.in) {
			continue
		}
		unit := m.lengthUnit(e.in)
		spare := e.engaged - e.least
		if own := unit.Millimeters(spare); own < least {
			least, j.Worst, j.Unit = own, &spare, unit
			j.Rod, j.Cable, j.End = e.rod, e.cable, e.side
		}
		if e.beyond(e.most) && deep == nil {
			deep = &e
		}
	}
	j.decide(0, -1)
	if deep != nil {
		j.Verdict = FallsShort
		if *j.Worst >= -threadNoise { // the thread in is enough; that it bottoms out isn't
			j.Why, j.Rod, j.Cable, j.End = BottomsOut, deep.rod, deep.cable, deep.side
		}
	}
	return j
}
