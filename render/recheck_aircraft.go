package render

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve/recheck"
)

// runHead heads what is told of the lines of one run of an aircraft, or of the aircraft as
// a whole; empty for a run by itself.
func runHead(c *recheck.Comparison, run string) string {
	a := c.New.Result.Run.Aircraft
	switch {
	case a == nil:
		return ""
	case hasRun(a, run):
		return "RUN " + strings.ToUpper(run)
	}
	return "THE AIRCRAFT AS A WHOLE"
}

// byRun puts what is told of lines together by their run: of an aircraft in the order of
// its file, then what is of the aircraft as a whole.
func byRun[T any](c *recheck.Comparison, list []T, run func(T) string) [][]T {
	groups := alike(list, run)
	if a := c.New.Result.Run.Aircraft; a != nil {
		place := func(group []T) int {
			i := slices.IndexFunc(a.Members, func(m *linkage.Member) bool { return m.Name == run(group[0]) })
			if i < 0 {
				return len(a.Members)
			}
			return i
		}
		slices.SortStableFunc(groups, func(x, y []T) int { return place(x) - place(y) })
	}
	return groups
}

// recheckFiles tells of an aircraft the files of its runs, with their units and hashes then
// and now; what differs bears an asterisk. What no change reaches is named below.
func recheckFiles(p *page, c *recheck.Comparison, opts RecheckOptions) {
	old, now := c.Old.Result.Run.Aircraft, c.New.Result.Run.Aircraft
	if now == nil {
		return
	}
	p.text("", "  ", "Its runs, and how the SHA-256 of their files begins (what differs bears an asterisk):")
	t := &table{head: []string{"run", "file", "unit", "then", "now"}}
	moved := movedFiles(opts)
	var renamed []string
	for _, f := range allFiles(opts) {
		was, is := runFile(opts.OldRuns, f.Run), runFile(opts.NewRuns, f.Run)
		hash := hashOrNone(is)
		if slices.Contains(moved, f.Run) {
			hash = "*" + hash
		}
		name := figure.Clean(f.Name)
		if was != nil && was.Name != f.Name {
			renamed = append(renamed, f.Run+" was in "+figure.Clean(was.Name))
			name = "*" + name
		}
		t.add(f.Run, name, unitThenNow(old, now, f.Run), hashOrNone(was), hash)
	}
	if len(t.rows) > 0 {
		t.write(p, "  ")
	}
	if len(renamed) > 0 {
		p.text("  ", "    ", "Then "+figure.List(renamed)+".")
	}
	if stand := notReached(c); len(c.Reached) > 0 && len(stand) > 0 {
		p.text("  ", "    ", "Nothing reaches "+figure.List(stand)+": what was signed there stands.")
	}
	p.blank()
}

// notReached lists the runs of an aircraft that nothing reaches, by their names there.
func notReached(c *recheck.Comparison) (stand []string) {
	for _, m := range c.New.Result.Run.Aircraft.Members {
		if !slices.Contains(c.Reached, m.Name) {
			stand = append(stand, m.Name)
		}
	}
	return stand
}

// runFile finds the file of a run; nil where there is none.
func runFile(files []FileOf, run string) *FileOf {
	for i := range files {
		if files[i].Run == run {
			return &files[i]
		}
	}
	return nil
}

// allFiles are those of the runs of either version, the new one's first.
func allFiles(opts RecheckOptions) []FileOf {
	all := slices.Clone(opts.NewRuns)
	for _, f := range opts.OldRuns {
		if runFile(opts.NewRuns, f.Run) == nil {
			all = append(all, f)
		}
	}
	return all
}

// movedFiles names the runs whose file isn't what it was.
func movedFiles(opts RecheckOptions) (moved []string) {
	for _, f := range allFiles(opts) {
		was, is := runFile(opts.OldRuns, f.Run), runFile(opts.NewRuns, f.Run)
		if was == nil || is == nil || was.Hash != is.Hash {
			moved = append(moved, f.Run)
		}
	}
	return moved
}

func hashOrNone(f *FileOf) string {
	if f == nil {
		return "not there"
	}
	return figure.HashBegins(f.Hash)
}

// unitThenNow tells in which unit a run was and is.
func unitThenNow(old, now *linkage.Aircraft, run string) string {
	unit := func(a *linkage.Aircraft) string {
		for _, m := range a.Members {
			if m.Name == run {
				return string(m.Run.Units)
			}
		}
		return ""
	}
	switch was, is := unit(old), unit(now); {
	case was == "" || was == is:
		return is
	case is == "":
		return was
	default:
		return was + ", now " + is
	}
}

// changedSays tells what changed, at most so many of it, and how many dimensions are left. A
// run of an aircraft that came or went is told as one.
func changedSays(c *recheck.Comparison, most int) (said []string, left int) {
	whole := map[string]string{} // the runs that came or went
	if old, now := c.Old.Result.Run.Aircraft, c.New.Result.Run.Aircraft; old != nil && now != nil {
		for _, m := range now.Members {
			if !hasRun(old, m.Name) {
				whole[m.Name] = "came"
			}
		}
		for _, m := range old.Members {
			if !hasRun(now, m.Name) {
				whole[m.Name] = "went"
			}
		}
	}
	count := map[string]int{}
	for _, change := range c.Changes {
		count[change.Run]++
	}
	told := map[string]bool{}
	for _, change := range c.Changes {
		happened := whole[change.Run]
		switch {
		case happened != "" && told[change.Run]:
		case len(said) == most && happened != "":
			left += count[change.Run]
			told[change.Run] = true
		case len(said) == most:
			left++
		case happened != "":
			said = append(said, fmt.Sprintf("the run %s %s, with %s", change.Run, happened, figure.Count(count[change.Run], "dimension")))
			told[change.Run] = true
		default:
			said = append(said, changeSays(change))
		}
	}
	return said, left
}

func hasRun(a *linkage.Aircraft, name string) bool {
	return slices.ContainsFunc(a.Members, func(m *linkage.Member) bool { return m.Name == name })
}
