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

// inOrder puts the blanks first, in the order in which they help most.
func inOrder(s *survey.Survey, run *linkage.Run, entries []outline.Entry, formed func(string) string) []outline.Entry {
	place := map[*linkage.Measurement]int{}
	for i, h := range s.Order(run.Blanks()) {
		place[h.Measurement] = i
	}
	var blanks, filled []outline.Entry
	at := map[outline.Entry]int{}
	for _, m := range run.Measurements { // which are the entries, but for those left out
		k := slices.IndexFunc(entries, entryOf(m, formed).Same)
		if k < 0 {
			continue
		}
		if !m.Blank {
			filled = append(filled, entries[k])
			continue
		}
		if n, told := place[m]; told {
			at[entries[k]] = n
		} else {
			at[entries[k]] = len(entries)
		}
		blanks = append(blanks, entries[k])
	}
	slices.SortStableFunc(blanks, func(a, b outline.Entry) int { return at[a] - at[b] })
	return append(blanks, filled...)
}
