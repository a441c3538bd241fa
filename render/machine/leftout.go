package machine

import (
	"fullfree/render"
	"fullfree/solve"
)

// leftOutJSON is what was left out of an answer, for machines.
type leftOutJSON struct {
	Sweeps   int   `json:"sweeps"`    // how many were not made at all
	CutShort []int `json:"cut_short"` // those, by their place in sweeps, that were looked at only as far as explored
	Bands    bool  `json:"bands"`     // band and sure were not worked out
}

func leftOutOf(r *solve.Result) *leftOutJSON {
	if render.LeftOutSays(r) == "" {
		return nil
	}
	out := &leftOutJSON{Sweeps: r.SweepsLeftOut, CutShort: []int{}, Bands: r.BandsLeftOut}
	for _, s := range r.Sweeps {
		if s.CutShort {
			out.CutShort = append(out.CutShort, s.Index)
		}
	}
	return out
}
