package calls

import (
	"slices"

	"fullfree/linkage"
	"fullfree/linkage/outline"
	"fullfree/solve/survey"
)

// entryOf is a measurement as an entry, its places as formed names them.
func entryOf(m *linkage.Measurement, formed func(string) string) outline.Entry {
	return outline.Entry{Kind: m.Kind, From: formed(m.From.String()), To: formed(m.To.String())}
}

// asFiled names a place as the file does.
func asFiled(place string) string { return place }

// filledEntries are the measurements of a text as entries, with what was read as it is written.
func filledEntries(run *linkage.Run, text string) (list []outline.Entry) {
	for _, m := range run.Measurements {
		e := entryOf(m, asFiled)
		if !m.Blank {
			e.Is = text[m.IsSpan.Start:m.IsSpan.End]
		}
		list = append(list, e)
	}
	return list
}

// pairedWith tells of each of a list which of others is of the same line, each of them once:
// the first of the first, the second of the second; -1 where there is none.
func pairedWith(list, others []outline.Entry) []int {
	paired, used := make([]int, len(list)), map[int]bool{}
	for i, e := range list {
		paired[i] = slices.IndexFunc(others, e.Same)
		for k := paired[i]; k >= 0 && k < len(others); k++ {
			if paired[i] = -1; !used[k] && e.Same(others[k]) {
				paired[i], used[k] = k, true
				break
			}
		}
	}
	return paired
}

// planned are the entries that are filled in, and the plan for what is still to be.
func planned(run *linkage.Run, entries, skip []outline.Entry) (list []outline.Entry) {
	var out []survey.Planned
	for _, e := range skip {
		if p, ok := plannedOf(run, e); ok {
			out = append(out, p)
		}
	}
	for _, e := range entries {
		if e.Is != "" && !slices.ContainsFunc(list, e.Same) {
			list = append(list, e)
		}
	}
	for _, p := range survey.Plan(run, out...) {
		e := outline.Entry{Kind: p.Kind, From: outline.Formed(p.From.String()), To: outline.Formed(p.To.String())}
		if slices.ContainsFunc(list, e.Same) {
			continue
		}
		if i := slices.IndexFunc(entries, e.Same); i >= 0 {
			e.Within = entries[i].Within
		}
		list = append(list, e)
	}
	return list
}

// plannedOf is an entry as something that could be measured of a run.
func plannedOf(run *linkage.Run, e outline.Entry) (p survey.Planned, ok bool) {
	p.Kind = e.Kind
	for _, place := range survey.Places(run) {
		switch outline.Formed(place.String()) {
		case e.From:
			p.From = place
		case e.To:
			p.To = place
		}
	}
	return p, p.From.Part != nil && p.To.Part != nil
}

// lineOf is an entry with the number of the run's measurement that it is, and what taking
// that would help; nil where it is taken, or nothing tells.
type lineOf struct {
	outline.Entry
	number int
	helps  *survey.Helps
}

// inOrder puts the blanks first, in the order in which they help most. Those of the entries
// that are left out of the run are left out.
func inOrder(s *survey.Survey, run *linkage.Run, entries []outline.Entry, formed func(string) string) []lineOf {
	order := s.Order(run.Blanks())
	place := map[*linkage.Measurement]int{}
	for i, h := range order {
		place[h.Measurement] = i
	}
	stand := make([]outline.Entry, 0, len(run.Measurements))
	for _, m := range run.Measurements {
		stand = append(stand, entryOf(m, formed))
	}
	blanks := make([]*lineOf, len(order)) // by place
	var untold, filled []lineOf
	for i, k := range pairedWith(stand, entries) {
		if k < 0 {
			continue
		}
		m, l := run.Measurements[i], lineOf{Entry: entries[k], number: i}
		switch at, told := place[m]; {
		case !m.Blank:
			filled = append(filled, l)
		case told:
			l.helps = &order[at]
			blanks[at] = &l
		default:
			untold = append(untold, l)
		}
	}
	var lines []lineOf
	for _, l := range blanks {
		if l != nil {
			lines = append(lines, *l)
		}
	}
	return append(append(lines, untold...), filled...)
}

// entriesOf are lines without their measurements.
func entriesOf(lines []lineOf) (list []outline.Entry) {
	for _, l := range lines {
		list = append(list, l.Entry)
	}
	return list
}
