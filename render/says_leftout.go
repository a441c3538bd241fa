package render

import (
	"fmt"
	"strings"

	"fullfree/render/figure"
	"fullfree/solve"
)

// LeftOutSays tells what was left out because there is more to compute than is for one
// answer; empty where nothing was.
func LeftOutSays(r *solve.Result) string {
	var said []string
	if r.SweepsLeftOut > 0 {
		all := len(r.Sweeps) + r.SweepsLeftOut
		said = append(said, fmt.Sprintf("only %d of %s were looked at (a sweep is one control moved with the others held)", len(r.Sweeps), figure.Count(all, "sweep")))
	}
	for _, s := range r.Sweeps {
		if s.CutShort {
			said = append(said, cutShortSays(s))
		}
	}
	if len(said) > 0 {
		said = append(said, "nothing is told to hold for the rest")
	}
	if r.BandsLeftOut {
		said = append(said, "how sure the answers are was not worked out")
	}
	if len(said) == 0 {
		return ""
	}
	return "LEFT OUT, since this run is more than one answer has room for: " + strings.Join(said, "; ") + "."
}

// cutShortSays tells how far a control was looked at.
func cutShortSays(s *solve.Sweep) string {
	return fmt.Sprintf("%s was looked at only from %s to %s", figure.Clean(s.Control.Name), figure.Quantity(s.Explored[0], s.Unit), figure.Quantity(s.Explored[1], s.Unit))
}

// SweepLeftOut tells what was left out of one sweep; empty where nothing was.
func SweepLeftOut(s *solve.Sweep) string {
	if !s.CutShort {
		return ""
	}
	return "this run is more than one answer has room for: " + cutShortSays(s)
}

// leftOut tells of a requirement that wasn't judged over all that it is about.
func (t telling) leftOut() string {
	return "What was looked at doesn't fall short, but not all was looked at (see LEFT OUT above), so it can't be judged."
}
