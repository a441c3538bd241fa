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
	entrySpoken = regexp.MustCompile(`^(\d+)(?:\s+|\s*-\s*)(\d+\s*/\s*\d+)$`)
	// entryComma is a number with a comma.
	entryComma = regexp.MustCompile(`^(\d+),(\d+)$`)
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

// thousands is how many digits behind a comma make it doubtful what the comma is.
const thousands = 3

// Entry reads a number as a person types it: "7 1/4", "7-1/4", "7¼", "187,5" or "187.5 mm"
// besides what a file may hold. It returns it as a file writes it and its value in the unit,
// or what is wrong with it, in words; that is "" where nothing is.
func Entry(typed string, unit Unit) (written string, value float64, says string) {
	text := strings.Join(strings.Fields(vulgarFractions.Replace(typed)), " ")
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
		if len(m[2]) == thousands {
			return "", 0, "is the comma in " + text + " a decimal point? write " + m[1] + "." + m[2] + " or " + m[1] + m[2]
		}
		text = m[1] + "." + m[2]
	}
	if m := entrySpoken.FindStringSubmatch(text); m != nil {
		text = m[1] + " + " + strings.ReplaceAll(m[2], " ", "")
		if sign != "" {
			text = "(" + text + ")"
		}
	}
	text = sign + text
	if text != "" && (!entryArithmetic.MatchString(text) || entryTwice.MatchString(text)) {
		return "", 0, "a number is wanted, as in 187.5 or 7 1/4"
	}
	if value, says = settingValue(text, unit); says != "" {
		return "", 0, says
	}
	return text, value, ""
}
