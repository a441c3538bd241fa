package page

import (
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
)

// bookSettings is a control in every setting of the others, a row each.
type bookSettings struct {
	Control string
	Table   render.Passage
}

// settingsOutputsMost is how many outputs have a column: more don't fit a page.
const settingsOutputsMost = 4

// settingsOf tells the controls that are moved more than once, each with others held
// elsewhere: the ends of the travel, what the outputs read there, and what is in hand
// before the nearest on-center point.
func settingsOf(r *solve.Result) []bookSettings {
	var list []bookSettings
	for _, c := range r.Run.Controls {
		if sweeps := render.SweepsOf(r, c); len(sweeps) > 1 {
			list = append(list, bookSettings{figure.Clean(c.Name), settingsTable(r, c, sweeps)})
		}
	}
	return list
}

func settingsTable(r *solve.Result, c *linkage.Control, sweeps []*solve.Sweep) render.Passage {
	t := render.Passage{Head: []string{"held", c.Name + " from", "to"}}
	shown := sweeps[0].Outputs
	shown = shown[:min(len(shown), settingsOutputsMost)]
	for _, o := range shown {
		t.Head = append(t.Head, o.Output.Name+" reads")
	}
	t.Head = append(t.Head, "on center, in hand")
	for _, s := range sweeps {
		row := []string{render.HeldAt(r.Run, s), figure.Quantity(s.Low, s.Unit), figure.Quantity(s.High, s.Unit)}
		for i := range shown {
			o := s.Outputs[i]
			row = append(row, figure.Quantity(o.AtLow, o.Unit)+" to "+figure.Quantity(o.AtHigh, o.Unit))
		}
		t.Rows = append(t.Rows, append(row, nearestCenter(s)))
	}
	return t
}

// nearestCenter is what is in hand before the nearest on-center point of a sweep.
func nearestCenter(s *solve.Sweep) string {
	if len(s.Critical) == 0 {
		return nothing
	}
	nearest := s.Critical[0]
	for _, c := range s.Critical[1:] {
		if c.Margin < nearest.Margin {
			nearest = c
		}
	}
	return render.CenterSpare(s, nearest)
}
