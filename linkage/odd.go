package linkage

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// plainFor are characters that word processors, pages and phones put in the
// place of plain ones, with what to write instead.
var plainFor = []struct{ odd, instead string }{
	{"\u2212\u2010\u2011\u2012\u2013\u2014\u2015\ufe63\uff0d", "use the plain -"},
	{"×✕·∙⋅∗", "use the plain *"},
	{"÷⁄∕", "use the plain /"},
	{"＋", "use the plain +"},
	{"＝", "use the plain ="},
	{"，、", "use the plain comma"},
	{"½⅓⅔¼¾⅛⅜⅝⅞", "write it out, as in 7 + 1/2 or -(7 + 1/2)"},
	{"\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\u3000", "use the plain space"},
}

// What typographic quotes and primes look like.
const (
	oddQuotes = "“”„‟«»″‘’‚‛‹›′"
	inchLike  = "“”″"
)

// inchMark is the fault of a number with an inch mark.
const inchMark = "a number stands alone, as in 7.25: no inch mark after it"

// degreeSigns are what a degree sign looks like, and noDegreeSign the fault of a number
// with one, which the number follows.
const (
	degreeSigns  = "°º˚"
	noDegreeSign = "write %s: angles are in degrees already"
)

// straightQuotes is the fault of text in other quotes.
const straightQuotes = `text stands in straight double quotes: "..."`

// oddCharacter says what is wrong with a character that the file format has no
// use for; number is the number right before it, "" where none is.
func oddCharacter(text []byte, number string) string {
	c, _ := utf8.DecodeRune(text)
	afterNumber := number != ""
	switch {
	case afterNumber && strings.ContainsRune(degreeSigns, c):
		return fmt.Sprintf(noDegreeSign, number)
	case strings.ContainsRune(degreeSigns, c):
		return "angles are in degrees already: leave the degree sign out"
	case afterNumber && strings.ContainsRune(inchLike, c):
		return inchMark
	case strings.ContainsRune(oddQuotes, c):
		return straightQuotes
	}
	says := "this character means nothing here: " + describe(c)
	for _, p := range plainFor {
		if strings.ContainsRune(p.odd, c) {
			return says + "; " + p.instead
		}
	}
	return says
}

// describe names a character for a person.
func describe(c rune) string {
	if p := Printable(string(c)); p != "?" || c == '?' {
		return fmt.Sprintf("%s (U+%04X)", p, c)
	}
	return fmt.Sprintf("U+%04X, which can't be seen", c)
}
