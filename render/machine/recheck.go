package machine

import (
	"io"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// recheckSchema is the name and version of what is written about a change.
const recheckSchema = "fullfree.recheck/1"

type recheckJSON struct {
	Schema       string              `json:"schema"`
	Old          versionJSON         `json:"old"`
	New          versionJSON         `json:"new"`
	Dimensions   []changedJSON       `json:"dimensions"`
	Added        []string            `json:"added"`
	Removed      []string            `json:"removed"`
	Disturbed    []string            `json:"disturbed"`
	Requirements []requiredTwiceJSON `json:"requirements"`
	Ends         []endTwiceJSON      `json:"ends"`
	Redo         []redoJSON          `json:"redo"`
	Unmoved      []sheetLineJSON     `json:"unmoved"`
}

type versionJSON struct {
	File   string       `json:"file"`
	SHA256 string       `json:"sha256"`
	Runs   []memberJSON `json:"runs,omitempty"` // of an aircraft
}

func versionOf(file, hash string, run *linkage.Run) versionJSON {
	v := versionJSON{File: file, SHA256: hash}
	if run.Aircraft != nil {
		v.Runs = membersOf(run)
	}
	return v
}

// changedJSON is a dimension in both versions, each in the unit of its file: a number, or
// text where it is none.
type changedJSON struct {
	Dimension string `json:"dimension"`
	Old       any    `json:"old"`
	New       any    `json:"new"`
}

// requiredTwiceJSON is a requirement in both versions; null in one that hasn't got it.
type requiredTwiceJSON struct {
	Kind string        `json:"kind"`
	Name string        `json:"name"`
	Run  inRunJSON     `json:"run,omitempty"`
	Old  *judgedInJSON `json:"old"`
	New  *judgedInJSON `json:"new"`
}

type judgedInJSON struct {
	Holds *bool    `json:"holds"`
	Worst *float64 `json:"worst"`
}

// endTwiceJSON is an end of a control's travel in both versions; null in one that hasn't
// got the control.
type endTwiceJSON struct {
	Control string     `json:"control"`
	Side    string     `json:"side"` // "low" or "high"
	Old     *endInJSON `json:"old"`
	New     *endInJSON `json:"new"`
}

type endInJSON struct {
	At    float64 `json:"at"`
	Cause string  `json:"cause"`
	By    *string `json:"by"`
}

type sheetLineJSON struct {
	Run  *string `json:"run"` // null of the whole aircraft
	Line string  `json:"line"`
}

type redoJSON struct {
	sheetLineJSON
	Why string `json:"why"`
}

// RecheckJSON writes what a change makes void for machines, at full precision. The error
// is the writer's, or that of a comparison of nothing.
func RecheckJSON(w io.Writer, c *recheck.Comparison, opts render.RecheckOptions) error {
	if err := render.WholeComparison(c); err != nil {
		return err
	}
	out := recheckJSON{
		Schema: recheckSchema, Old: versionOf(opts.OldFile, opts.OldHash, c.Old.Result.Run), New: versionOf(opts.NewFile, opts.NewHash, c.New.Result.Run),
		Dimensions: []changedJSON{}, Added: []string{}, Removed: []string{}, Disturbed: []string{},
		Requirements: []requiredTwiceJSON{}, Ends: []endTwiceJSON{}, Redo: []redoJSON{}, Unmoved: []sheetLineJSON{},
	}
	for _, change := range c.Changes {
		switch {
		case change.Old == nil:
			out.Added = append(out.Added, change.Dimension)
		case change.New == nil:
			out.Removed = append(out.Removed, change.Dimension)
		default:
			out.Dimensions = append(out.Dimensions, changedJSON{change.Dimension, plainValue(change.Old), plainValue(change.New)})
		}
	}
	for _, joint := range c.Opened {
		out.Disturbed = append(out.Disturbed, joint.Name)
	}
	for _, r := range c.Requirements {
		told := requiredTwiceJSON{Old: judgedIn(r.Old), New: judgedIn(r.New)}
		for _, j := range []*solve.Judgement{r.Old, r.New} {
			if j != nil {
				told.Kind, told.Name, told.Run = string(j.Requirement.Kind), j.Requirement.Name, inRun(c.New.Result.Run, j.Member())
			}
		}
		out.Requirements = append(out.Requirements, told)
	}
	for _, e := range c.Ends {
		out.Ends = append(out.Ends, endTwiceJSON{e.Control, render.SideName(e.Side), endIn(e.Old), endIn(e.New)})
	}
	for i := range c.Redo {
		r := &c.Redo[i]
		out.Redo = append(out.Redo, redoJSON{lineOf(c, r.Line), render.WhyRedo(r)})
	}
	for _, l := range c.Unmoved {
		out.Unmoved = append(out.Unmoved, lineOf(c, l))
	}
	return writeJSON(w, out)
}

func lineOf(c *recheck.Comparison, l *recheck.Line) sheetLineJSON {
	told := sheetLineJSON{Run: &l.Run, Line: render.LineWords(l)}
	if l.Run == "" && c.New.Result.Run.Aircraft != nil {
		told.Run = nil
	}
	return told
}

func plainValue(v *recheck.Value) any {
	if v.IsNumber {
		return v.Number
	}
	return v.Words
}

func judgedIn(j *solve.Judgement) *judgedInJSON {
	if j == nil {
		return nil
	}
	return &judgedInJSON{threeValued(j.Verdict), j.Worst}
}

func endIn(e *solve.End) *endInJSON {
	if e == nil {
		return nil
	}
	told := &endInJSON{At: e.At, Cause: string(e.Cause)}
	if by := recheck.By(e); by != "" {
		told.By = &by
	}
	return told
}
