package linkage

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// excerptWidth is how many characters of a line are shown with a fault: with
// its number it still fits a phone held upright.
const excerptWidth = 56

// excerptLead is how much of a long line is kept before the place.
const excerptLead = 20

// excerptReach is how many bytes of a line are looked at on each side of the
// place: more than can be shown, at four bytes a character.
const excerptReach = 4 * excerptWidth

// tabWidth is how many spaces stand for a tab in an excerpt.
const tabWidth = 4

// cells returns text as it is shown in an excerpt, a rune a cell.
func cells(text []byte) []rune {
	var shown []rune
	for _, r := range string(text) {
		switch {
		case r == '\t':
			shown = append(shown, []rune(strings.Repeat(" ", tabWidth))...)
		case !Visible(r):
			shown = append(shown, '?')
		default:
			shown = append(shown, r)
		}
	}
	return shown
}

// excerpt returns the line that at begins on and a mark under the place, two
// lines of text; nothing where there is no place or nothing to show. A long
// line is shortened around the place.
func excerpt(src *Source, at Span) string {
	if src == nil || at.Line < 1 || at.Start < 0 || at.Start > len(src.Text) {
		return ""
	}
	text := oneLineEnd(src.Text)
	first := bytes.LastIndexByte(text[:at.Start], '\n') + 1
	last := len(text)
	if n := bytes.IndexByte(text[at.Start:], '\n'); n >= 0 {
		last = at.Start + n
	}
	line := bytes.TrimRight(text[first:last], "\r")
	start := at.Start - first
	if first == 0 {
		trimmed := bytes.TrimPrefix(line, []byte(byteOrderMark))
		start = max(0, start-(len(line)-len(trimmed)))
		line = trimmed
	}
	start = min(start, len(line))
	end := max(start, min(len(line), start+at.End-at.Start))

	// Of a very long line only what can be seen is looked at.
	first, last = max(0, start-excerptReach), min(len(line), start+excerptReach)
	for first > 0 && !utf8.RuneStart(line[first]) {
		first--
	}
	cutBefore, cutAfter := first > 0, last < len(line)
	line, start, end = line[first:last], start-first, min(end, last)-first

	shown := cells(line)
	from := len(cells(line[:start]))
	to := max(from+1, len(cells(line[:end])))
	if !cutBefore {
		indent := 0
		for indent < min(from, len(shown)) && shown[indent] == ' ' {
			indent++
		}
		shown, from, to = shown[indent:], from-indent, to-indent
	}
	if strings.TrimSpace(string(shown)) == "" {
		return ""
	}

	if cut := min(from-excerptLead, len(shown)-excerptWidth); cut > 0 {
		cutBefore, shown, from, to = true, shown[cut:], from-cut, to-cut
	}
	if len(shown) > excerptWidth {
		cutAfter, shown = true, shown[:excerptWidth]
	}
	to = max(from+1, min(to, len(shown)))
	var before, after string
	if cutBefore {
		before = "..."
	}
	if cutAfter {
		after = "..."
	}

	marks := 0
	for i := from; i < to; i++ {
		if i >= len(shown) || !unicode.Is(unicode.M, shown[i]) {
			marks++
		}
	}
	skip := len(before)
	for i := 0; i < from && i < len(shown); i++ {
		if !unicode.Is(unicode.M, shown[i]) {
			skip++
		}
	}
	number := fmt.Sprint(at.Line)
	return fmt.Sprintf("  %s | %s%s%s\n  %s | %s%s\n",
		number, before, string(shown), after,
		strings.Repeat(" ", len(number)), strings.Repeat(" ", skip), strings.Repeat("^", max(marks, 1)))
}
