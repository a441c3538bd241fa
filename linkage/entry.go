package linkage

import (
	"regexp"
	"strings"
)

// vulgarFractions are the fractions that a phone offers as one letter.
var vulgarFractions = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"−", "-", "–", "-", "⁄", "/", "\u00a0", " ", "\u202f", " ", "\u2009", " ",
)

var (
	// entrySpoken is a whole number and a fraction as they are spoken, 7 1/4 or 7-1/4.
	entrySpoken = regexp.MustCompile(`^(\d+)(?: |-)(\d+) ?/ ?(\d+)$`)
	// entryDashed is a whole number and a fraction with a dash that could be a minus as well.
	entryDashed = regexp.MustCompile(`(?:^|[^\d./ ]) ?(\d+) ?- ?(\d+ ?/ ?\d+)`)
	// entryJoined is a digit right behind a fraction of one letter, or one right behind
	// another: what was meant can't be told.
	entryJoined = regexp.MustCompile(`[½¼¾⅛⅜⅝⅞]\s*[\d½¼¾⅛⅜⅝⅞]`)
	// entryDashedLetter is a whole number and a fraction of one letter, 7-½.
	entryDashedLetter = regexp.MustCompile(`(\d)[-−–]([½¼¾⅛⅜⅝⅞])`)
	// entryComma is a number with a comma, entryThousands one of which it could be that of
	// thousands.
	entryComma     = regexp.MustCompile(`^(\d+),(\d+)$`)
	entryThousands = regexp.MustCompile(`^[1-9]\d{0,2},\d{3}$`)
	// entryArithmetic is what may stand in a number.
	entryArithmetic = regexp.MustCompile(`^[-+*/() .\deE]+$`)
	// entryTwice is what may not: signs in a row, two of which begin a comment, and a fraction
	// of a fraction.
	entryTwice = regexp.MustCompile(`[-+*/] ?[-+*/]|/[^-+*]*/`)
	// entryUnit is a unit behind a number.
	entryUnit = regexp.MustCompile(`^(.*[\d.)])\s*(mm|in|inch|inches|"|″|”|deg|degrees|°)\.?$`)
)

// entryUnits are what the units typed behind a number mean.
var entryUnits = map[string]Unit{
	"mm": Millimeters, "in": Inches, "inch": Inches, "inches": Inches, `"`: Inches, "″": Inches, "”": Inches,
	"deg": Degrees, "degrees": Degrees, "°": Degrees,
}

// mostTyped is the longest that is taken for a number, bytes.
const mostTyped = 100

// entryWanted tells of what is no number.
const entryWanted = "a number is wanted, as in 187.5 or 7 1/4"

// Entry reads a number as a person types it: "7 1/4", "7-1/4", "7¼", "187,5" or "187.5 mm"
// besides what a file may hold. It returns it as a file writes it and its value in the unit,
// or what is wrong with it, in words; that is "" where nothing is.
func Entry(typed string, unit Unit) (written string, value float64, says string) {
	if len(typed) > mostTyped || entryJoined.MatchString(typed) {
		return "", 0, entryWanted
	}
	text := strings.Join(strings.Fields(vulgarFractions.Replace(entryDashedLetter.ReplaceAllString(typed, "$1$2"))), " ")
	if m := entryUnit.FindStringSubmatch(text); m != nil {
		if of := entryUnits[m[2]]; of != unit {
			return "", 0, "this is in " + string(of) + ", and " + string(unit) + " is wanted"
		}
		text = strings.TrimSpace(m[1])
	}
	sign := ""
	if rest, minus := strings.CutPrefix(text, "-"); minus {
		sign, text = "-", strings.TrimSpace(rest)
	}
	if m := entryComma.FindStringSubmatch(text); m != nil {
		if entryThousands.MatchString(text) {
			return "", 0, "is the comma in " + text + " a decimal point? write " + m[1] + "." + m[2] + " or " + m[1] + m[2]
		}
		text = m[1] + "." + m[2]
	}
	if m := entrySpoken.FindStringSubmatch(text); m != nil {
		if !lessThanOne(m[2], m[3]) {
			return "", 0, "the fraction behind a whole number is less than 1: look at " + m[2] + "/" + m[3]
		}
		text = m[1] + " + " + m[2] + "/" + m[3]
		if sign != "" {
			text = "(" + text + ")"
		}
	} else if m := entryDashed.FindStringSubmatch(text); m != nil {
		return "", 0, "is " + m[1] + " and " + m[2] + " meant, or " + m[1] + " less " + m[2] + "? write " + m[1] + " " + m[2] + ", or what the difference is"
	}
	text = sign + text
	if text != "" && (!entryArithmetic.MatchString(text) || entryTwice.MatchString(text)) {
		return "", 0, entryWanted
	}
	if value, says = settingValue(text, unit); says != "" {
		return "", 0, says
	}
	return text, value, ""
}

// lessThanOne says whether a fraction is; one of zero is told elsewhere.
func lessThanOne(over, under string) bool {
	over, under = strings.TrimLeft(over, "0"), strings.TrimLeft(under, "0")
	return under == "" || len(over) < len(under) || len(over) == len(under) && over < under
}
