package main

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agext/levenshtein"
)

// mostSlips is how many letters a word may be off and still be taken for
// another; of short words half the letters.
const mostSlips = 2

// mostListed is how many names are listed where none comes near.
const mostListed = 8

// didYouMean returns what to say after a word that isn't known: the known
// word that comes nearest, the first of equals, or else all if they are few.
func didYouMean(word string, known []string) string {
	best, slips := "", mostSlips+1
	if len(word) <= 4*mostListed { // nobody mistypes longer ones
		for _, k := range known {
			d := levenshtein.Distance(word, k, nil)
			if d < slips && 2*d <= len(k) {
				best, slips = k, d
			}
		}
	}
	if best != "" {
		return fmt.Sprintf("; did you mean %q?", best)
	}
	if len(known) == 0 || len(known) > mostListed {
		return ""
	}
	return "; there is " + strings.Join(known, ", ")
}

// printable returns a text of the user's or the system's fit for a terminal:
// what can't be printed is shown as "?".
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || !unicode.IsPrint(r) {
			return '?'
		}
		return r
	}, s)
}
