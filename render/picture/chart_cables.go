package picture

import (
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
)

// tensions charts how tight the cables of each pair are, against what is asked
// of them.
func (m *charter) tensions() {
	groups := map[*linkage.Pair][]wanted{}
	least := map[*linkage.Pair]float64{}
	limits := map[*linkage.Pair][]chartLimit{}
	unit := m.result.Run.Units.ForceUnit()
	for _, r := range m.result.Run.Requirements {
		if r.Kind == linkage.Taut && (r.Control == nil || r.Control == m.sweep.Control) {
			limits[r.Pair] = append(limits[r.Pair], chartLimit{says: "at least " + figure.Given(r.Least, unit), at: r.Least, side: -1})
			least[r.Pair] = math.Max(least[r.Pair], r.Least)
		}
	}
	m.each(solve.SeriesTension, func(i int, s *solve.Series) {
		pair := s.Cable.Pair
		groups[pair] = append(groups[pair], wanted{
			chartLine: chartLine{name: figure.Clean(s.Name), series: i},
			worse:     func(v float64) float64 { return -v },
			judge: judgedHere(m.result, m.sweep, func(r *linkage.Requirement, j *solve.Judgement) bool {
				return r.Kind == linkage.Taut && j.Cable == s.Cable
			}),
			say: func(v float64) string {
				if v <= 0 {
					return "slack"
				}
				return figure.Against(v, least[pair], unit)
			},
		})
	})
	for k, pair := range m.result.Run.Pairs {
		if k >= chartLinesMost*chartsMost {
			return // a sweep tells them all
		}
		c := m.blank("Tension of the pair "+pair.Name, "pulls, "+string(unit), unit)
		c.limits = limits[pair]
		c.note = m.slackNote(pair)
		m.spread(c, groups[pair])
	}
}

// slackNote tells in which stretches of the travel the cables of a pair hang
// slack; empty where they never do.
func (m *charter) slackNote(pair *linkage.Pair) string {
	slack := render.SlackOf(m.sweep, pair)
	if len(slack) == 0 {
		return ""
	}
	return fmt.Sprintf("Both hang slack with %s %s.", m.sweep.Control.Name, render.Stretches(m.sweep, slack))
}

// frees charts how far what a pair of cables holds floats where they hang slack.
func (m *charter) frees() {
	count := 0
	m.each(solve.SeriesFree, func(i int, s *solve.Series) {
		if count++; count > chartLinesMost*chartsMost {
			return // a sweep tells them all
		}
		words := freeWords(m.sweep, s.Pair)
		c := m.blank(strings.ToUpper(words[:1])+words[1:], "floats from one end to the other, "+unitAxis(s.Unit), s.Unit)
		c.note = m.slackNote(s.Pair)
		m.spread(c, []wanted{{
			chartLine: chartLine{name: figure.Clean(s.Name), series: i},
			worse:     func(v float64) float64 { return v },
			say:       func(v float64) string { return figure.Quantity(v, s.Unit) },
		}})
	})
}

// freeWords names how far what a pair holds floats between its slack cables.
func freeWords(sweep *solve.Sweep, pair *linkage.Pair) string {
	for _, c := range sweep.Cables {
		if c.Cable.Pair != pair || c.Part == nil {
			continue
		}
		way := "free turn"
		if !c.Part.Angular() {
			way = "free travel"
		}
		return fmt.Sprintf("%s of %s, %s slack", way, c.Part.Name, pair.Name)
	}
	return "free travel, " + pair.Name + " slack"
}
