package tolerance

import (
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/solve"
)

// threads is how the rod ends come out where the rods are turned so.
type threads struct {
	engagement solve.Figure
	unfit      bool
}

// threadsOf are those of a build: the same turns come again and again.
func (s *search) threadsOf(r *room, known map[string]threads) threads {
	var key strings.Builder
	var edits []linkage.Edit
	for i, t := range r.turns {
		if t.turns != 0 {
			fmt.Fprintf(&key, "%d %s %g,", i, t.end.Side, t.turns)
			edits = append(edits, linkage.Turn(t.end, t.turns))
		}
	}
	if k, ok := known[key.String()]; ok {
		return k
	}
	run, err := s.run.With(edits...)
	k := threads{unfit: true}
	if err == nil {
		j := solve.EngagementOf(run)
		k = threads{solve.FigureOf(&j), len(solve.UnfitSettings(run)) > 0}
	}
	known[key.String()] = k
	return k
}
