package render

import (
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/tolerance"
)

// BesidePassages is what is to be known beside the verdict.
func BesidePassages(r *solve.Result, opts ReportOptions) []Passage {
	return kept(func(p *page) { reportUnderHeadline(p, r, opts) })
}

// RodPassages tells the rods and cables: as set, rods with the pins in, in their
// threads, and how rods stand over the travel.
func RodPassages(r *solve.Result, pinned []solve.PinnedRod) []Passage {
	return kept(func(p *page) { rodSection(p, r, pinned) })
}

// StopPassages tells how the stops are set.
func StopPassages(run *linkage.Run) []Passage {
	return kept(func(p *page) { stopSection(p, run) })
}

// PlayPassages tells how far the controls and outputs can be rocked.
func PlayPassages(r *solve.Result) []Passage {
	return kept(func(p *page) { playSection(p, r) })
}

// BuildsPassages tells what becomes of builds: what tolerance was asked, how often each
// requirement holds, and what is to blame; nothing of nil.
func BuildsPassages(a *tolerance.Answer) []Passage {
	if a.Whole() != nil {
		return nil
	}
	return kept(func(p *page) { buildsSection(p, a) })
}

// RotorPassages tells what the controls do to the pitch of a rotor's blades; nothing where
// there is none.
func RotorPassages(r *solve.Result) []Passage {
	return kept(func(p *page) { reportRotor(p, r, true) })
}

// PartPassages tells every part as it was read.
func PartPassages(r *solve.Result) []Passage {
	return kept(func(p *page) { reportParts(p, r) })
}

// TogetherPassages tells how far everything moves over all sweeps.
func TogetherPassages(r *solve.Result) []Passage {
	return kept(func(p *page) {
		reportMovedInAll(p, r)
		reportAllTensions(p, r)
	})
}

// EndPassages tells what ends a travel, and what would next.
func EndPassages(r *solve.Result, s *solve.Sweep) []Passage {
	return kept(func(p *page) { reportTravelEnds(p, r, s) })
}

// CenterPassages tells the on-center points of a sweep, and what each means.
func CenterPassages(s *solve.Sweep) []Passage {
	return kept(func(p *page) { centerSection(p, s) })
}

// BitePassages tells where each stop bites in a sweep.
func BitePassages(s *solve.Sweep) []Passage {
	return kept(func(p *page) { biteSection(p, s) })
}

// MovePassages tells which way things go in a sweep, how far, and how tight the
// cables are.
func MovePassages(r *solve.Result, s *solve.Sweep) []Passage {
	return kept(func(p *page) {
		st := posesOf(r.Run, s)
		others := ""
		if len(s.Settings()) > 0 {
			others = " with " + HeldAt(r.Run, s)
		}
		reportControlWays(p, r.Run, s, others)
		reportMoved(p, r.Run, s, st)
		reportTensions(p, r, []*solve.Sweep{s})
	})
}

// rodSection tells the rods and cables: as set, rods with the pins in, in their
// threads, and how rods stand over the travel.
func rodSection(p *page, r *solve.Result, pinned []solve.PinnedRod) {
	if len(r.Run.Pins) > 0 { // else it has nothing that the next table hasn't
		reportRodLengths(p, r.Run, pinned)
	}
	if len(r.Run.Rods) > 0 {
		reportRods(p, r)
		reportExposed(p, r.Run)
	}
	reportCables(p, r.Run)
}

// stopSection tells how the stops are set.
func stopSection(p *page, run *linkage.Run) {
	t := table{head: []string{"stop", "made by", "set at", "may be set"}}
	for _, stop := range run.Stops {
		if stop.Of == nil {
			t.add(figure.Clean(stop.Name), stop.Touch[0].String()+" meets "+stop.Touch[1].String(), "as drawn", "-")
			continue
		}
		unit, may := figure.PartUnit(run, stop.Of), "-"
		if stop.Adjust != nil {
			may = figure.ExactGiven(stop.Adjust[0], unit) + " to " + figure.ExactGiven(stop.Adjust[1], unit)
			if stop.Step > 0 {
				may += ", by " + figure.Given(stop.Step, unit)
			}
		}
		t.add(figure.Clean(stop.Name), "the travel of "+stop.Of.Name, figure.ExactGiven(stop.At, unit), may)
	}
	if len(t.rows) > 0 {
		t.write(p, "  ")
		p.text("  ", "    ", stopStepsAssumed(run))
	}
}

// centerSection tells the on-center points of a sweep, and what each means.
func centerSection(p *page, s *solve.Sweep) {
	if len(s.Critical) == 0 {
		reportCenters(p, s)
		return
	}
	t := table{head: []string{"on center", "kind", "by the rod", "at", "in hand"}}
	if slices.ContainsFunc(s.Critical, func(c solve.Critical) bool { return c.Cable != nil }) {
		t.head[2] = "by the rod or cable"
	}
	for _, c := range s.Critical {
		t.add(c.Name(), CenterTerm(c.Kind), driverName(c), figure.Quantity(c.At, s.Unit), CenterSpare(s, c))
	}
	t.write(p, "  ")
	for _, c := range s.Critical {
		p.text("  ", "  ", "At "+figure.Quantity(c.At, s.Unit)+": "+CenterInShort(s, c)+". "+meaning(s, c))
	}
}

// biteSection tells where each stop bites in a sweep.
func biteSection(p *page, s *solve.Sweep) {
	t := table{head: []string{"stop", "bites at", "ends the travel"}}
	for i := range s.Stops {
		bite := &s.Stops[i]
		at, ends, missed := "nowhere as far as was looked", "no", missInShort(s, bite)
		switch {
		case bite.At != nil:
			if at = figure.Quantity(*bite.At, s.Unit); missed != "" && bite.Miss.Late {
				missed = ", " + missed
			} else if missed != "" {
				missed = "; at the " + bite.Miss.Side + " end " + missed
			}
			at += missed
		case missed != "":
			at = "nowhere: " + missed
		}
		if bite.Bites {
			ends = "yes"
		}
		t.add(figure.Clean(bite.Stop.Name), at, ends)
	}
	if len(t.rows) > 0 {
		t.write(p, "  ")
	}
}
