package page

import (
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

// Better is what leaves more of the limit: of 0.4 of at most 0.5 a fifth is left, of
// 0.2 three fifths; and of engagement more thread, of sense a larger ratio.
func TestWhichWayAFigureChanged(t *testing.T) {
	judged := func(kind linkage.Kind, worst, limit float64) *solve.Judgement {
		return &solve.Judgement{Requirement: &linkage.Requirement{Kind: kind}, Worst: &worst, Limit: limit}
	}
	for _, c := range []struct {
		now, filed *solve.Judgement
		want       string
	}{
		{judged(linkage.Opposite, 0.2, 0.5), judged(linkage.Opposite, 0.4, 0.5), "better"},
		{judged(linkage.Opposite, 0.4, 0.5), judged(linkage.Opposite, 0.2, 0.5), "worse"},
		{judged(linkage.Opposite, 0.7, 0.5), judged(linkage.Opposite, 0.6, 0.5), "worse"},
		{judged(linkage.RodAngle, 40, 30), judged(linkage.RodAngle, 35, 30), "better"},
		{judged(linkage.RodAngle, 35, 30), judged(linkage.RodAngle, 40, 30), "worse"},
		{judged(linkage.Engagement, 3, 0), judged(linkage.Engagement, 2, 0), "better"},
		{judged(linkage.Engagement, -2, 0), judged(linkage.Engagement, -1, 0), "worse"},
		{judged(linkage.Sense, 0.9, 0), judged(linkage.Sense, 0.8, 0), "better"},
		{judged(linkage.Opposite, 0.2, 0.5), judged(linkage.Opposite, 0.2, 0.5), "changed"},
		{judged(linkage.Opposite, 0.2, 0), judged(linkage.Opposite, 0.4, 0), "changed"}, // no share of nothing
	} {
		assert.Equal(t, c.want, changedWay(betterIs(c.now), betterIs(c.filed)), "%s: %g after %g", c.now.Requirement.Kind, *c.now.Worst, *c.filed.Worst)
	}
}
