package linkage

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// braillePatternBlank looks like a space and is none; Unicode counts it among
// the visible signs.
const braillePatternBlank = '\u2800'

// Visible reports whether a character is seen for what it is wherever text is
// shown: letters, marks, figures, signs and the common space are. Controls, line
// ends, other spaces, characters that turn the direction of text, and those that
// have no look of their own or need none (Unicode, Default_Ignorable_Code_Point)
// are not, nor is what stands for broken UTF-8.
func Visible(r rune) bool {
	switch {
	case r == utf8.RuneError, r == braillePatternBlank:
		return false
	case unicode.In(r, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector):
		return false
	}
	return unicode.IsPrint(r)
}

// Printable returns s with everything that is not Visible as "?". What a file or
// a file's name holds can then do nothing to a terminal.
func Printable(s string) string {
	return strings.Map(func(r rune) rune {
		if !Visible(r) {
			return '?'
		}
		return r
	}, s)
}
