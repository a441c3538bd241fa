package calls

import (
	"fullfree/linkage"
	"fullfree/render/page"
	"fullfree/solve"
)

// pictures are those of the runs of an aircraft where its controls stand: each under the
// control that moves, or where that leaves the run alone under the first that doesn't.
func (t *tried) pictures(s *pose) (list []page.RunPicture) {
	sweeps := append([]*solve.Sweep{s.sweep}, t.travels(s)...)
	sweeps = append(sweeps, t.result.Sweeps...) // where the others hinder all that move it
	for _, m := range t.in.Run.Aircraft.Members {
		for _, sweep := range sweeps {
			if one, moves := t.pictureOf(m, sweep); moves {
				for _, c := range t.result.Only(m).Run.Controls {
					one.Moves = append(one.Moves, c.Name)
				}
				list = append(list, one)
				break
			}
		}
	}
	return list
}

// pictureOf is the picture of a run as a sweep of the aircraft moves it; moves is false
// where that leaves it alone, or is none.
func (t *tried) pictureOf(m *linkage.Member, sweep *solve.Sweep) (one page.RunPicture, moves bool) {
	if sweep == nil {
		return one, false
	}
	bare := *t.result // what is judged is told beside the pictures
	bare.Requirements, bare.Labels, bare.Unfit, bare.SecondPaths, bare.Sweeps = nil, nil, nil, nil, []*solve.Sweep{sweep}
	only := bare.Only(m)
	if len(only.Sweeps) == 0 {
		return one, false
	}
	return page.RunPicture{Member: m, Result: only, Sweep: only.Sweeps[0], Whole: sweep}, true
}
