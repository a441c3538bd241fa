package picture

import (
	"fullfree/render"
	"fullfree/render/internal/paper"
)

// requiredTable lists the requirements: the worst figure, what was asked for
// and how it came out.
func (d *diagram) requiredTable(y float64) float64 {
	y = d.section(y, "Required, over all sweeps")
	judged := d.result.Judged()
	if len(judged) == 0 {
		return d.paragraph(y, 0, tableSize, false, "Nothing.")
	}
	const worst, limit, verdict, gap = 88.0, 124.0, 60.0, 6.0
	names := d.inner() - worst - limit - verdict
	g := grid{diagram: d, size: tableSize, columns: []column{
		{at: sheetMargin, width: names - gap},
		{at: sheetMargin + names + worst, right: true, width: worst - gap},
		{at: sheetMargin + names + worst + limit, right: true, width: limit - gap},
		{at: sheetMargin + d.inner(), right: true, width: verdict - gap},
	}}
	y = d.rule(g.row(y, true, "", "worst", "asked for", ""), paper.PenRule)
	for _, j := range judged {
		cells := []string{"", render.WorstWords(j), render.LimitWords(j), render.VerdictMark(j.Verdict)}
		for _, line := range paper.Wrap(render.RequirementTitle(d.result, j.Requirement), names-gap, tableSize, false) {
			cells[0] = line
			y = g.row(y, false, cells...)
			cells = []string{""}
		}
	}
	return y
}
