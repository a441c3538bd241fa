package main

import (
	"strings"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
)

// Ends that do the same, and settings that make the same lengths, are told together, and
// one by one with --full. Either end of a rod lengthens it alike: turns count, not ends.
func TestSettingsInShort(t *testing.T) {
	text := demoText(t, demo.Unequal)
	short, full := fullfree(text, "effect", "-"), fullfree(text, "effect", "-", "--full")
	assert.Equal(t, exitOK, short.status+full.status)
	assert.Equal(t, 4, strings.Count(short.out, "-link, either end "))
	assert.Zero(t, strings.Count(full.out, "either end"))
	assert.Equal(t, 8, strings.Count(full.out, "-link.from  ")+strings.Count(full.out, "-link.to  "))
	assert.NotContains(t, short.out, "Covered:")
	assert.Contains(t, full.out, "Covered:")

	short, full = fullfree(text, "rig", "-"), fullfree(text, "rig", "-", "--full")
	assert.Equal(t, exitOK, short.status+full.status)
	assert.Contains(t, short.out, "THE SAME LENGTHS, SET BY OTHER ENDS\n  right-link.to 1.5 turns in\n")
	assert.NotContains(t, short.out, "\n2. ")
	assert.Contains(t, full.out, "\n2. right-link.to 1.5 turns in\n")
	assert.Contains(t, short.out, "Searched: ")
	for _, told := range []string{short.out, full.out} {
		assert.Contains(t, told, "FOUND: right-link.from 1.5 turns in.")
		for line := range strings.Lines(told) {
			assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 80)
		}
	}
}
