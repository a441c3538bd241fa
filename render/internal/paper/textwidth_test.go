package paper

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Widths of whole words in DejaVu Sans at 100 units, summed from the widths
// of their characters as that font gives them (no kerning): guesses must not
// be narrower.
func TestTextWidthIsOnTheWideSide(t *testing.T) {
	for word, inFont := range map[string]float64{
		"Pedals": 60.3 + 61.5 + 63.5 + 61.3 + 27.8 + 52.1,
		"0123":   4 * 63.6,
		"WM":     98.9 + 86.3,
		"°":      50,
	} {
		got := TextWidth(word, 100, false)
		assert.GreaterOrEqual(t, got, inFont-1e-9, word)
		assert.LessOrEqual(t, got, inFont*1.12, "%s: but not much wider either", word)
	}
	assert.Greater(t, TextWidth("word", 13, true), TextWidth("word", 13, false))
	assert.Equal(t, TextWidth("e", 13, false), TextWidth("e\u0301", 13, false)-0, "a combining accent takes no room")
	assert.Greater(t, TextWidth("漢", 13, false), 13.0)
}

func TestShorten(t *testing.T) {
	assert.Equal(t, "aft", Shorten("aft", 100, 13, false))
	long := strings.Repeat("bellcrank ", 20)
	cut := Shorten(long, 100, 13, false)
	assert.True(t, strings.HasSuffix(cut, "…"), cut)
	assert.True(t, strings.HasPrefix(long, strings.TrimSuffix(cut, "…")))
	assert.LessOrEqual(t, TextWidth(cut, 13, false), 100.0)
	assert.Greater(t, TextWidth(cut, 13, false), 70.0, "no more is cut than must be")
	assert.Empty(t, Shorten(long, 1, 13, false), "no room for anything")
	assert.Equal(t, "a?b", Shorten("a\nb", 100, 13, false))
}

func TestWrap(t *testing.T) {
	words := "the last check is made on the aircraft, at the blade or surface, pins out"
	lines := Wrap(words, 120, 12, false)
	assert.Greater(t, len(lines), 3)
	assert.Equal(t, words, strings.Join(lines, " "), "nothing is lost")
	for i, line := range lines {
		assert.LessOrEqual(t, TextWidth(line, 12, false), 120.0)
		if i > 0 {
			first, _, _ := strings.Cut(line, " ")
			assert.Greater(t, TextWidth(lines[i-1]+" "+first, 12, false), 120.0, "lines are full")
		}
	}
	assert.Empty(t, Wrap("", 100, 12, false))
	assert.Len(t, Wrap(strings.Repeat("x", 500), 100, 12, false), 1, "a word without end is cut")
}
