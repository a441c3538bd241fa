package linkage

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// maxShownName is how much of a name is shown in faults, and up to where names
// are compared for "did you mean": nobody mistypes a longer one, and comparing
// costs the square of its length.
const maxShownName = 48

// listedNames is how many names a fault lists.
const listedNames = 20

// shortName returns name in quotes, shortened.
func shortName(name string) string { return `"` + shortened(name) + `"` }

// shortened returns the beginning of a text too long to show.
func shortened(text string) string {
	if runes := []rune(text); len(runes) > maxShownName {
		return string(runes[:maxShownName]) + "..."
	}
	return text
}

// Nearest returns the candidate that given was probably meant to be, the
// first of equals; "" where none comes close. One slip is allowed in a short
// name, two or three in a longer one.
func Nearest(given string, candidates []string) string {
	if len(given) > maxShownName {
		return ""
	}
	least := 2 + utf8.RuneCountInString(given)/5
	best := ""
	for _, c := range candidates {
		if c == given || len(c) > maxShownName {
			continue
		}
		if d := slips(given, c); d < min(least, 4, utf8.RuneCountInString(c)) {
			best, least = c, d
		}
	}
	return best
}

// slips counts how many times a letter must be put in, left out, changed or
// exchanged with its neighbor to get b from a (optimal string alignment).
func slips(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range row {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			changed := last[j-1]
			if x[i-1] != y[j-1] {
				changed++
			}
			row[j] = min(changed, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

// didYouMean returns what to say after "there is no such name": the nearest
// candidate, with prefix before it; or all candidates where they are few,
// after lead ("it has", "there is").
func didYouMean(given, prefix, lead string, candidates []string) string {
	if best := Nearest(given, candidates); best != "" {
		return fmt.Sprintf("; did you mean %q?", prefix+best)
	}
	if len(candidates) == 0 || len(candidates) > listedNames {
		return ""
	}
	if lead == thereIs && len(candidates) > 1 {
		lead = "there are"
	}
	return "; " + lead + " " + allOf(candidates)
}

// What leads a list of candidates.
const (
	thereIs = "there is"
	itHas   = "it has"
)

// allOf lists names: "a", "b" and "c"; of many the first.
func allOf(names []string) string {
	quoted := make([]string, 0, listedNames+1)
	for _, n := range names[:min(len(names), listedNames)] {
		quoted = append(quoted, shortName(n))
	}
	if more := len(names) - listedNames; more > 0 {
		quoted = append(quoted, fmt.Sprintf("%d more", more))
	}
	return joined(quoted, "and")
}

// joined lists words, with a word before the last of them: "a, b and c".
func joined(words []string, word string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " " + word + " " + words[last]
}

// aOrAn returns a word with its article.
func aOrAn(word string) string {
	if word != "" && strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}
