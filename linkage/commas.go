package linkage

import (
	"bytes"
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// severalNumbers are the attributes whose value is in brackets.
var severalNumbers = []string{"pivot", "axis", "slide", "along", "forward", "up", "held", "detents", "z", "through", "readings"}

// tellCommas tells of commas that were, or may have been, meant as decimal
// signs. In a list that is not told from the commas alone but from their
// spacing: [22,5, -5] looks like two numbers, [22,5,-5] and [22, 5, -5] like
// three.
func (r *reader) tellCommas(tokens hclsyntax.Tokens, in brackets) {
	spaced := map[int]bool{} // lists with a comma that has a space after it
	for i, tok := range tokens {
		if tok.Type == hclsyntax.TokenComma && inList(tokens, in, i) && spaceAfter(tokens, i) {
			spaced[in.open[i]] = true
		}
	}
	attribute := "" // whose value is being read
	for i, tok := range tokens {
		if tok.Type == hclsyntax.TokenEqual && i > 0 && in.inBlock[i] {
			attribute = string(tokens[i-1].Bytes)
		}
		if tok.Type != hclsyntax.TokenComma || !betweenDigits(tokens, i) {
			continue
		}
		whole, rest := tokens[i-1], tokens[i+1]
		at := spanOf(whole.Range)
		at.End = rest.Range.End.Byte
		switch {
		case !inList(tokens, in, i):
			if in.inBlock[i] && tokenAt(tokens, i-2).Type != hclsyntax.TokenComma && tokenAt(tokens, i+2).Type != hclsyntax.TokenComma {
				r.tellComma(at, attribute, string(whole.Bytes), string(rest.Bytes))
			}
		case spaced[in.open[i]] && aloneInList(tokens, i):
			spaced[in.open[i]] = false // told
			r.faults.Add(at, "%s,%s looks like %s.%s: the decimal sign is a point; if two numbers are meant, put a space after every comma", whole.Bytes, rest.Bytes, whole.Bytes, rest.Bytes)
		}
	}
}

// tellComma tells of a comma in the value of an attribute, which is one number
// unless it stands in brackets.
func (r *reader) tellComma(at Span, attribute, whole, rest string) {
	switch {
	case slices.Contains(severalNumbers, attribute):
		r.faults.Add(at, "several numbers stand in brackets, as in [%s, %s]", whole, rest)
	case attribute == "at": // of a stop, or of a round
		r.faults.Add(at, "write %s.%s: the decimal sign is a point; a place stands in brackets, [%s, %s]", whole, rest, whole, rest)
	case len(rest) == 3 && whole[0] != '0':
		r.faults.Add(at, "write %s.%s or %s%s: the decimal sign is a point, and nothing parts thousands", whole, rest, whole, rest)
	default:
		r.faults.Add(at, "write %s.%s: the decimal sign is a point", whole, rest)
	}
}

// inList reports whether token i stands in square or round brackets.
func inList(tokens hclsyntax.Tokens, in brackets, i int) bool {
	return in.open[i] != noBracket && tokens[in.open[i]].Type != hclsyntax.TokenOBrace
}

// spaceAfter reports whether another entry follows the comma, token i, on its
// line and not right after it.
func spaceAfter(tokens hclsyntax.Tokens, i int) bool {
	next := tokenAt(tokens, i+1)
	switch next.Type {
	case hclsyntax.TokenNewline, hclsyntax.TokenComment, hclsyntax.TokenCBrack, hclsyntax.TokenCParen, hclsyntax.TokenNil:
		return false
	}
	return next.Range.Start.Byte > tokens[i].Range.End.Byte
}

// betweenDigits reports whether token i stands right between digits, with no
// space and no decimal sign.
func betweenDigits(tokens hclsyntax.Tokens, i int) bool {
	last, next := tokenAt(tokens, i-1), tokenAt(tokens, i+1)
	return isDigits(last) && isDigits(next) &&
		last.Range.End.Byte == tokens[i].Range.Start.Byte && tokens[i].Range.End.Byte == next.Range.Start.Byte
}

// isDigits reports whether a token is a number of digits alone.
func isDigits(tok hclsyntax.Token) bool {
	return tok.Type == hclsyntax.TokenNumberLit && !bytes.ContainsFunc(tok.Bytes, func(c rune) bool { return c < '0' || c > '9' })
}

// aloneInList reports whether the numbers on both sides of the comma, token i,
// have no arithmetic around them but a sign.
func aloneInList(tokens hclsyntax.Tokens, i int) bool {
	first := i - 2
	if tokenAt(tokens, first).Type == hclsyntax.TokenMinus {
		first--
	}
	before, after := tokenAt(tokens, first).Type, tokenAt(tokens, i+2).Type
	switch before {
	case hclsyntax.TokenOBrack, hclsyntax.TokenOParen, hclsyntax.TokenComma, hclsyntax.TokenNewline:
	default:
		return false
	}
	return after == hclsyntax.TokenComma || after == hclsyntax.TokenCBrack || after == hclsyntax.TokenCParen
}
