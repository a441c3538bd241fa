package paper

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"fullfree/render/figure"
)

// fontFamily is what text is drawn in: whatever plain sans-serif the reader's
// machine has.
const fontFamily = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif"

// Sizes of text are guessed on the wide side, since the reader's font isn't
// known: text may come out shorter than its box, not longer.
const (
	// boldWider is how much wider bold text may be. Of the letters and digits
	// of DejaVu Sans, which of the common sans-serifs runs widest, words come
	// out at most 1.15 times as wide in bold.
	boldWider = 1.15
	// otherWidth, in font sizes, is for characters outside ASCII; 19 of 20
	// Latin, Greek and Cyrillic letters of DejaVu Sans are no wider.
	otherWidth = 1.0
	// squareWidth, in font sizes, is for characters set in a square.
	squareWidth = 1.25
	// TextAscent and TextDescent, in font sizes, are how far text reaches
	// above and below its baseline (capitals with a margin; g, j, p).
	TextAscent, TextDescent = 0.78, 0.24
)

// asciiWidths are the widths, in thousandths of the font size, of the
// characters from space to tilde: of each the wider in DejaVu Sans and
// Liberation Sans, as the two fonts give them.
var asciiWidths = [...]int{
	318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361, 318, 337, // space to /
	637, 637, 637, 637, 637, 637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 557, // 0 to ?
	1016, 685, 687, 723, 771, 667, 611, 778, 752, 295, 500, 667, 558, 863, 749, 788, // @ to O
	667, 788, 723, 667, 611, 732, 685, 989, 686, 667, 686, 391, 337, 391, 838, 557, // P to _
	500, 613, 635, 550, 635, 616, 353, 635, 634, 278, 278, 580, 278, 975, 634, 612, // ` to o
	635, 635, 412, 521, 393, 634, 592, 818, 592, 592, 525, 637, 337, 637, 838, // p to ~
}

// firstCombining is the first of all characters that combine with the one before.
const firstCombining = 0x300

// TextWidth returns how wide a line of text may come out, in sheet units.
func TextWidth(s string, size float64, bold bool) float64 {
	const thousandths = 1000
	sum := 0.0
	for _, r := range s {
		switch {
		case r >= ' ' && int(r-' ') < len(asciiWidths):
			sum += float64(asciiWidths[r-' ']) / thousandths
		case r >= firstCombining && unicode.In(r, unicode.Mn, unicode.Me):
			// combines with the character before it
		case r == '°':
			sum += 0.5
		case r >= 0x1100: // the first of the scripts and signs set in squares
			sum += squareWidth
		default:
			sum += otherWidth
		}
	}
	if bold {
		sum = float64(sum * boldWider)
	}
	return float64(sum * size)
}

// Shorten returns s, cut with an ellipsis where it would be wider than width.
func Shorten(s string, width, size float64, bold bool) string {
	s = figure.Clean(s)
	if TextWidth(s, size, bold) <= width {
		return s
	}
	const ellipsis = "…"
	for s != "" {
		_, n := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-n]
		if cut := strings.TrimRight(s, " ") + ellipsis; TextWidth(cut, size, bold) <= width {
			return cut
		}
	}
	return ""
}

// Wrap breaks s at spaces into lines no wider than width; a word that is too
// long by itself is shortened.
func Wrap(s string, width, size float64, bold bool) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(figure.Clean(s)) {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if TextWidth(longer, size, bold) <= width {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = Shorten(word, width, size, bold)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
