package render

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestKeptIsWhatAReportTells(t *testing.T) {
	said := kept(func(p *page) {
		p.line("HEAD")
		p.blank()
		p.text("  ", "    ", "some words")
		p.text("    lug ", "    ", "at 5")
		p.text("  ", "  ", "")
		one := table{head: []string{"a", "b", "c"}}
		one.add("x", "-1", "1 word")
		one.add("y", "+2.5", "word")
		one.write(p, "  ")
	})
	require.Equal(t, []Passage{
		{Words: "HEAD"}, {Deep: 1, Words: "some words"}, {Deep: 2, Words: "lug at 5"},
		{Head: []string{"a", "b", "c"}, Rows: [][]string{{"x", "-1", "1 word"}, {"y", "+2.5", "word"}}},
	}, said)
	assert.Equal(t, []bool{false, true, false}, []bool{said[3].Numbers(0), said[3].Numbers(1), said[3].Numbers(2)})
}
