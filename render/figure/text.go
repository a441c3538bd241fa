package figure

import (
	"fmt"
	"strings"

	"fullfree/linkage"
)

// List joins names as people do: "a, b and c".
func List(items []string) string {
	if len(items) < 2 {
		return strings.Join(items, "")
	}
	last := len(items) - 1
	return strings.Join(items[:last], ", ") + " and " + items[last]
}

// FirstOf tells n things one by one, of more than so many the first, and how many
// more there are.
func FirstOf(n, most int, tell func(i int) string) []string {
	var said []string
	for i := range min(n, most) {
		said = append(said, tell(i))
	}
	if n > most {
		said = append(said, fmt.Sprintf("%d more", n-most))
	}
	return said
}

// Joined joins words, leaving out what is empty.
func Joined(separator string, words ...string) string {
	var some []string
	for _, w := range words {
		if w != "" {
			some = append(some, w)
		}
	}
	return strings.Join(some, separator)
}

// Count tells how many of something there are.
func Count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Letter counts in letters: A to Z, then AA and so on. A variant as filed is A.
func Letter(i int) string {
	const letters = 'Z' - 'A' + 1
	if i < letters {
		return string(rune('A' + i))
	}
	return Letter(i/letters-1) + Letter(i%letters)
}

// Quoted is a name of the file in quotation marks.
func Quoted(name string) string { return `"` + Clean(name) + `"` }

// Bracketed is words of the file in brackets, after a space; empty where there are none.
func Bracketed(word string) string {
	if word == "" {
		return ""
	}
	return " (" + Clean(word) + ")"
}

// Clean returns a text of the file, or its name, fit to print.
func Clean(s string) string { return linkage.Printable(s) }

// HashBegins is the start of a file's hash, enough to tell builds apart.
func HashBegins(hash string) string {
	const shown = 12
	hex := Hexadecimal(hash)
	return hex[:min(shown, len(hex))]
}

// Hexadecimal is a hash, and nothing that isn't hexadecimal.
func Hexadecimal(hash string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune("0123456789abcdef", r) {
			return r
		}
		return -1
	}, strings.ToLower(hash))
}
