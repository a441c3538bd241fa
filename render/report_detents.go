package render

import (
	"fmt"

	"fullfree/render/figure"
	"fullfree/solve"
)

// reportDetents tells what every output reads with the control in each of its notches.
func reportDetents(p *page, s *solve.Sweep) {
	d := s.Detents()
	if d == nil {
		return
	}
	outputs := d.Columns[len(d.Columns)-len(s.Outputs):]
	t := table{head: []string{s.Control.Name + " in its detent at"}}
	units := []string{string(s.Unit)}
	for _, c := range outputs {
		t.head, units = append(t.head, figure.Clean(c.Name)), append(units, string(c.Unit))
	}
	t.add(units...)
	for i, row := range d.Rows {
		cells := []string{figure.Number(d.At[i], s.Unit)}
		for k, c := range outputs {
			cells = append(cells, figure.Number(row[len(row)-len(outputs)+k], c.Unit))
		}
		t.add(cells...)
	}
	if len(d.Rows) > 0 {
		p.blank()
		t.rangeRight()
		t.write(p, "  ")
	}
	p.text("  ", "    ", DetentsBeyond(s, d))
}

// DetentsBeyond tells of detents that the travel doesn't come to; empty where there is
// none.
func DetentsBeyond(s *solve.Sweep, d *solve.Detents) string {
	said := ""
	for _, at := range d.Beyond {
		end, side := s.High, "high"
		if at < s.Low {
			end, side = s.Low, "low"
		}
		said = figure.Joined(" ", said, fmt.Sprintf("The detent at %s is never reached: the travel's %s end is at %s.",
			figure.Given(at, s.Unit), side, figure.Quantity(end, s.Unit)))
	}
	return said
}
