package render

import (
	"fmt"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// HandPassages tells of one control of an aircraft how it ends, in which run, where it is on
// center, and how far each output goes for it.
func HandPassages(r *solve.Result, c *linkage.Control) []Passage {
	return kept(func(p *page) {
		if sweeps := SweepsOf(r, c); len(sweeps) > 0 {
			handTable(p, r, sweeps, MostSettings)
		}
	})
}

// UnsureInShort tells in how many requirements an aircraft holds only as drawn; empty where
// in none.
func UnsureInShort(r *solve.Result) string {
	n := len(drawnOnly(r))
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("Not surely in %d of them: each tells it where it is required.", n)
}

// NotCheckedSays tells what no file of an aircraft requires, and where its controls were not
// looked at.
func NotCheckedSays(r *solve.Result) (said []string) {
	if unchecked := notChecked(r); unchecked != "" {
		said = append(said, "Not checked, because no file requires it: "+unchecked+".")
	}
	for _, words := range notSwept(r) {
		said = append(said, "Not checked: "+words+".")
	}
	return said
}

// WorkingOrder lists the runs of an aircraft from the hand to the blade: each after all that
// drive it, else in the file's order.
func WorkingOrder(run *linkage.Run) []*linkage.Member {
	if run == nil || run.Aircraft == nil {
		return nil
	}
	var list []*linkage.Member
	for again := true; again; {
		again = false
		for _, m := range run.Aircraft.Members {
			waits := slices.ContainsFunc(run.SameParts, func(s *linkage.SamePart) bool {
				return s.Follows.In == m && !slices.Contains(list, s.Leads.In)
			})
			if !waits && !slices.Contains(list, m) {
				list, again = append(list, m), true
			}
		}
	}
	return list // all of them: a circle was refused as the file was read
}

// DrivenSays tells by which hands and which other runs a run of an aircraft is driven, and
// through which part.
func DrivenSays(run *linkage.Run, m *linkage.Member) (said []string) {
	var hands []string
	for _, c := range run.Controls {
		if c.In == m {
			hands = append(hands, c.Name)
		}
	}
	if len(hands) > 0 {
		said = append(said, "By hand: "+figure.List(hands)+".")
	}
	for _, s := range run.SameParts {
		if s.Follows.In != m {
			continue
		}
		way := "which goes the same way on its drawing"
		if s.Times < 0 {
			way = "which goes the opposite way on its drawing"
		}
		if !s.Aligned {
			way += "; not checked that both sheets show it in one position"
		}
		said = append(said, fmt.Sprintf("By the run %s: %s is %s, %s.", s.Leads.In.Name, s.Leads.Name, s.Follows.Of.Name, way))
	}
	return said
}
