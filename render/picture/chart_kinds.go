package picture

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// charter makes the charts of one sweep.
type charter struct {
	result *solve.Result
	sweep  *solve.Sweep
	course *solve.Course
	flags  []onCenter
	list   []chart
}

// chartsOf returns the charts of a sweep: what each output reads, what ought to
// be equal, opposite, as one or left alone, rod angles, gaps, ratios, what second
// paths need, and how tight pairs of cables are. The course is that of the sweep, through coursePlaces.
func chartsOf(result *solve.Result, sweep *solve.Sweep, course *solve.Course) []chart {
	m := &charter{result: result, sweep: sweep, course: course}
	low, high := plotRange(sweep)
	for _, f := range flagsOf(sweep) {
		if f.At >= low && f.At <= high {
			m.flags = append(m.flags, f)
		}
	}
	m.readings()
	m.errors()
	m.rodAngles()
	m.stops()
	m.clearances()
	m.ratios()
	m.secondPaths()
	m.tensions()
	m.frees()
	return m.list
}

// add finishes a chart and takes it in.
func (m *charter) add(c chart) {
	c.id = fmt.Sprintf("chart-%d-%d-%d", m.sweep.Control.Index, m.sweep.Index, len(m.list)+1)
	c.says = c.story()
	m.list = append(m.list, c)
}

// blank is a chart with nothing in it yet.
func (m *charter) blank(title, axis string, unit linkage.Unit) chart {
	return chart{title: figure.Clean(title), axis: figure.Clean(axis), unit: unit, sweep: m.sweep, course: m.course, flags: m.flags}
}

// each calls do for every series of a kind.
func (m *charter) each(kind solve.SeriesKind, do func(i int, s *solve.Series)) {
	for i := range m.course.Series {
		if s := &m.course.Series[i]; s.Kind == kind {
			do(i, s)
		}
	}
}

// wanted is one line that is to go on some chart.
type wanted struct {
	chartLine
	worse func(v float64) float64 // the larger, the worse
	judge *solve.Judgement        // of the line, with its worst here; or nil
	say   func(v float64) string  // the value as it is written beside its worst place
}

// spread puts lines on as many charts as they need, the worst of them if there
// are too many, and marks each where it is worst.
func (m *charter) spread(c chart, list []wanted) {
	more := 0
	for i := range list {
		w := &list[i]
		if k := c.worst(&w.chartLine, w.judge, w.worse); k >= 0 {
			w.marks = []chartMark{{k, w.say(*c.value(&w.chartLine, k))}}
		}
	}
	if most := chartLinesMost * chartsMost; len(list) > most {
		more = len(list) - most
		list = m.mostTelling(&c, list, most)
	}
	if len(list) == 1 && c.single != nil {
		c.title = figure.Clean(c.single(list[0].name))
	}
	charts := (len(list) + chartLinesMost - 1) / chartLinesMost
	title := c.title
	for n := range charts {
		// As even as can be: seven are four and three.
		from, to := n*len(list)/charts, (n+1)*len(list)/charts
		c.lines = nil
		for _, w := range list[from:to] {
			c.lines = append(c.lines, w.chartLine)
		}
		if charts > 1 {
			c.title = fmt.Sprintf("%s (%d of %d)", title, n+1, charts)
		}
		if n == charts-1 && more > 0 {
			c.note = fmt.Sprintf("And %d more, none of them worse.", more)
		}
		m.add(c)
	}
}

// mostTelling keeps the worst lines, in the order they came in.
func (m *charter) mostTelling(c *chart, list []wanted, most int) []wanted {
	how := func(w *wanted) float64 {
		if len(w.marks) == 0 {
			return math.Inf(-1)
		}
		return w.worse(*c.value(&w.chartLine, w.marks[0].position))
	}
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch x, y := how(&list[a]), how(&list[b]); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	order = order[:most]
	slices.Sort(order)
	var kept []wanted
	for _, i := range order {
		kept = append(kept, list[i])
	}
	return kept
}

// travelOf is what is asked of the travel of an output or part in this sweep.
func (m *charter) travelOf(s *solve.Series) []*linkage.Requirement {
	var list []*linkage.Requirement
	for _, r := range m.result.Run.Requirements {
		if r.Kind != linkage.Travel || r.Control != nil && r.Control != m.sweep.Control {
			continue
		}
		of := r.Of[0]
		// Of a part that floats its turn is meant.
		turn := s.Part != nil && (s.Name == s.Part.Name || s.Part.Motion == linkage.Floats && s.Name == s.Part.Name+".turn")
		if s.Output != nil && of.Output == s.Output || turn && of.Part == s.Part {
			list = append(list, r)
		}
	}
	return list
}

// readings charts every output, and every part of which a travel is required.
func (m *charter) readings() {
	count, left := 0, 0
	reading := func(i int, s *solve.Series, title, axis string) {
		if count == chartLinesMost*chartsMost {
			left++
			return
		}
		count++
		c := m.blank(title, axis, s.Unit)
		line := chartLine{name: figure.Clean(s.Name), series: i}
		low := c.worst(&line, nil, func(v float64) float64 { return -v })
		high := c.worst(&line, nil, func(v float64) float64 { return v })
		for _, k := range []int{low, high} {
			if k >= 0 {
				line.marks = append(line.marks, chartMark{k, figure.Quantity(*c.value(&line, k), s.Unit)})
			}
		}
		if low == high {
			line.marks = line.marks[:min(1, len(line.marks))] // it doesn't change
		}
		c.lines = []chartLine{line}
		for _, r := range m.travelOf(s) {
			for _, at := range []float64{r.Low, r.High} {
				says := "to reach " + figure.Given(at, s.Unit)
				if r.Within > 0 {
					says += " ± " + figure.Given(r.Within, s.Unit)
				}
				c.limits = append(c.limits, chartLimit{says: says, at: at, within: r.Within})
			}
		}
		m.add(c)
	}
	m.each(solve.SeriesOutput, func(i int, s *solve.Series) {
		axis := "reads, " + unitAxis(s.Unit)
		if s.Output.Plus != "" {
			axis += "; more is " + s.Output.Plus
		}
		reading(i, s, "Output "+s.Name, axis)
	})
	m.each(solve.SeriesPart, func(i int, s *solve.Series) {
		if len(m.travelOf(s)) > 0 {
			reading(i, s, "Travel of "+s.Name, "from the drawn position, "+unitAxis(s.Unit))
		}
	})
	if left > 0 {
		m.list[len(m.list)-1].note = fmt.Sprintf("And %d more are not charted.", left)
	}
}

// errors charts what ought to be equal and opposite, as one, or left alone:
// what is judged alike on one chart.
func (m *charter) errors() {
	type alike struct {
		kind   linkage.Kind
		unit   linkage.Unit
		within float64
	}
	var kinds []alike
	groups := map[alike][]wanted{}
	m.each(solve.SeriesRequirement, func(i int, s *solve.Series) {
		r := s.Requirement
		if r.Kind == linkage.Clearance {
			return
		}
		k := alike{r.Kind, s.Unit, r.Within}
		if groups[k] == nil {
			kinds = append(kinds, k)
		}
		groups[k] = append(groups[k], wanted{
			chartLine: chartLine{name: errorOf(r), series: i},
			worse:     math.Abs,
			judge:     m.judged(r),
			say:       func(v float64) string { return figure.Readable(v, math.Copysign(r.Within, v), s.Unit) },
		})
	})
	for _, k := range kinds {
		title := errorTitle(k.kind)
		c := m.blank(title, errorAxis(k.kind)+", "+unitAxis(k.unit), k.unit)
		c.single = func(name string) string { return title + ": " + name }
		c.limits = []chartLimit{
			{says: "within ± " + figure.Given(k.within, k.unit), at: k.within, side: 1},
			{at: -k.within, side: -1},
		}
		m.spread(c, groups[k])
	}
}

func (m *charter) judged(r *linkage.Requirement) *solve.Judgement {
	return judgedHere(m.result, m.sweep, func(other *linkage.Requirement, _ *solve.Judgement) bool { return other == r })
}

func errorTitle(kind linkage.Kind) string {
	switch kind {
	case linkage.Opposite:
		return "Equal and opposite"
	case linkage.Together:
		return "As one"
	}
	return "To be left alone"
}

func errorAxis(kind linkage.Kind) string {
	switch kind {
	case linkage.Opposite:
		return "sum of the two"
	case linkage.Together:
		return "difference of the two"
	}
	return "moved from neutral"
}

// errorOf names what a requirement follows.
func errorOf(r *linkage.Requirement) string {
	switch r.Kind {
	case linkage.Opposite:
		return figure.Clean(r.Of[0].Name() + " + " + r.Of[1].Name())
	case linkage.Together:
		return figure.Clean(r.Of[0].Name() + " - " + r.Of[1].Name())
	}
	return figure.Clean(r.Of[0].Name())
}

// rodAngles charts the angle of every rod to the arm that it drives.
func (m *charter) rodAngles() {
	c := m.blank("Rod angles", "from rod to the arm it drives, degrees", "deg")
	c.single = func(name string) string { return "Rod angle of " + name }
	least := 0.0
	for _, r := range m.result.Run.Requirements {
		if r.Kind == linkage.RodAngle && (r.Control == nil || r.Control == m.sweep.Control) {
			c.limits = append(c.limits, chartLimit{says: "at least " + figure.Given(r.Least, "deg"), at: r.Least, side: -1})
			least = math.Max(least, r.Least)
		}
	}
	var list []wanted
	m.each(solve.SeriesRodAngle, func(i int, s *solve.Series) {
		list = append(list, wanted{
			chartLine: chartLine{name: figure.Clean(s.Name), series: i},
			worse:     func(v float64) float64 { return -v },
			judge: judgedHere(m.result, m.sweep, func(r *linkage.Requirement, j *solve.Judgement) bool {
				return r.Kind == linkage.RodAngle && j.Rod == s.Rod
			}),
			say: func(v float64) string { return figure.Against(v, least, "deg") },
		})
	})
	m.spread(c, list)
}

// ratios charts how much each output moves for the control: units apart.
func (m *charter) ratios() {
	var units []linkage.Unit
	groups := map[linkage.Unit][]wanted{}
	m.each(solve.SeriesRatio, func(i int, s *solve.Series) {
		if groups[s.Unit] == nil {
			units = append(units, s.Unit)
		}
		groups[s.Unit] = append(groups[s.Unit], wanted{
			chartLine: chartLine{name: figure.Clean(s.Name), series: i},
			worse:     func(v float64) float64 { return -math.Abs(v) },
			say:       figure.RatioNumber,
		})
	})
	for _, unit := range units {
		c := m.blank("Ratio to "+m.sweep.Control.Name, "output to control, "+unitAxis(unit), unit)
		c.single = func(name string) string { return "Ratio of " + name + " to " + m.sweep.Control.Name }
		c.runaway = true
		m.spread(c, groups[unit])
	}
}

// secondPaths charts the length that each second path would need, against the
// one it is set to and its play.
func (m *charter) secondPaths() {
	count := 0
	m.each(solve.SeriesNeeded, func(i int, s *solve.Series) {
		if count++; count > chartLinesMost*chartsMost {
			return // a sweep tells them all
		}
		rod := s.Rod
		c := m.blank("Second path "+s.Name, "needs hole to hole, "+unitAxis(s.Unit), s.Unit)
		says := "set to " + figure.ExactGiven(rod.Length, s.Unit)
		if rod.Play > 0 {
			says += ", play " + figure.Given(rod.Play, s.Unit) + " each way"
		}
		c.limits = []chartLimit{{says: says, at: rod.Length, within: rod.Play}}
		m.spread(c, []wanted{{
			chartLine: chartLine{name: figure.Clean(s.Name), series: i},
			worse:     func(v float64) float64 { return math.Abs(v - rod.Length) },
			judge: judgedHere(m.result, m.sweep, func(r *linkage.Requirement, j *solve.Judgement) bool {
				return r.Kind == linkage.SecondPath && j.Rod == rod
			}),
			say: func(v float64) string { return figure.Quantity(v, s.Unit) },
		}})
	})
}
