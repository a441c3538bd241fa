package main

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

// An output of what tilts says with plus where it tilts to: read the other way it
// contradicts the drawing, and the run doesn't hold.
func TestWordsOfWhatTiltsAreHeldAgainstTheDrawing(t *testing.T) {
	text := demoText(t, "rotor")
	assert.Equal(t, exitOK, fullfree(text, "check", "-").status)
	for forward, aft := range map[string]string{"forward": "aft", "right": "left"} {
		reversed := regexp.MustCompile(`tilts( *)= "`+forward+`"`).ReplaceAllString(text, `tilts$1= "`+aft+`"`)
		assert.NotEqual(t, text, reversed)
		got := fullfree(reversed, "check", "-")
		assert.Equal(t, exitShort, got.status)
		assert.Contains(t, got.out, "as drawn plus takes swashplate "+aft)
	}
}
