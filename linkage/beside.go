package linkage

import (
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// tokenAt returns a token of a list, none beyond its ends.
func tokenAt(tokens hclsyntax.Tokens, i int) hclsyntax.Token {
	if i < 0 || i >= len(tokens) {
		return hclsyntax.Token{Type: hclsyntax.TokenNil}
	}
	return tokens[i]
}

// tellSideBySide tells of values that stand beside one another on a line, the
// commonest slips in a drawing's numbers: the parser's own words for them
// help nobody.
func (r *reader) tellSideBySide(tokens hclsyntax.Tokens) {
	number, ident := hclsyntax.TokenNumberLit, hclsyntax.TokenIdent
	at := func(i int) hclsyntax.Token { return tokenAt(tokens, i) }
	inList := 0
	after := 0 // the last token of a name with spaces that is told already
	for i, tok := range tokens {
		switch tok.Type {
		case hclsyntax.TokenOBrack:
			inList++
		case hclsyntax.TokenCBrack:
			inList--
		}
		last, next := at(i-1), at(i+1)
		switch {
		case tok.Type == number && next.Type == number:
			if at(i+2).Type == hclsyntax.TokenSlash && at(i+3).Type == number {
				r.faults.Add(spanOf(next.Range), "a fraction is added: write %s", fractionAdded(tokens, i))
			} else if inList > 0 {
				r.faults.Add(spanOf(next.Range), "a comma belongs between %s and %s", tok.Bytes, next.Bytes)
			} else {
				r.faults.Add(spanOf(next.Range), "one number is wanted, and here are %s and %s", tok.Bytes, next.Bytes)
			}
		case tok.Type == ident && next.Type == number && string(tok.Bytes) == polarName:
			r.faults.Add(spanOf(next.Range), "polar takes its numbers in round brackets: %s", polarMeant(tokens, i+1))
		case tok.Type == ident && next.Type == number:
			r.faults.Add(spanOf(next.Range), "an = belongs between %s and %s", shortName(string(tok.Bytes)), next.Bytes)
		case tok.Type == ident && next.Type == hclsyntax.TokenOBrack:
			if at(i+2).Type == hclsyntax.TokenOQuote {
				r.faults.Add(spanOf(next.Range), "a point is written part.point, with a dot")
			} else {
				r.faults.Add(spanOf(next.Range), "an = belongs between %s and [", shortName(string(tok.Bytes)))
			}
		case isTable(tok) && next.Type == hclsyntax.TokenOBrace && last.Type != ident:
			r.faults.Add(spanOf(next.Range), "an = belongs between %s and {", tok.Bytes)
		case tok.Type == number && next.Type == ident && slices.Contains(degreeWords, strings.ToLower(string(next.Bytes))):
			r.faults.Add(spanOf(next.Range), noDegreeSign, signedNumber(tokens, i))
		case tok.Type == ident && next.Type == ident && i+1 > after && beginsValue(last) && at(i+2).Type != hclsyntax.TokenEqual && string(tok.Bytes) != "for":
			after = i + r.tellSpacedName(tokens, i, inList > 0)
		case tok.Type == number && next.Type == ident && at(i+2).Type != hclsyntax.TokenEqual:
			r.faults.Add(spanOf(next.Range), "a number stands alone, as in 7.25: no unit and no letters after it")
		case tok.Type == number && next.Type == hclsyntax.TokenOQuote:
			r.faults.Add(spanOf(next.Range), inchMark)
		case tok.Type == hclsyntax.TokenDot && next.Type == number && !endsValue(last):
			r.faults.Add(spanOf(tok.Range), "write 0.%s, with a digit before the point", next.Bytes)
		case tok.Type == hclsyntax.TokenPlus && next.Type == number && !endsValue(last):
			r.faults.Add(spanOf(tok.Range), "write %s: no plus sign before a number", next.Bytes)
		}
	}
}

// degreeWords are units of an angle.
var degreeWords = []string{"º", "deg", "degs", "degree", "degrees"}

// beginsValue reports whether a value may begin after the token.
func beginsValue(tok hclsyntax.Token) bool {
	switch tok.Type {
	case hclsyntax.TokenEqual, hclsyntax.TokenOBrack, hclsyntax.TokenComma:
		return true
	}
	return false
}

// tellSpacedName tells of a name that is written as several words, the first of which is
// token i, and returns how many tokens it has. listed says that it stands in a list.
func (r *reader) tellSpacedName(tokens hclsyntax.Tokens, i int, listed bool) (n int) {
	var words []string
	for tokenAt(tokens, i+n).Type == hclsyntax.TokenIdent {
		words = append(words, string(tokens[i+n].Bytes))
		n++
	}
	at := spanOf(tokens[i].Range)
	at.End = tokens[i+n-1].Range.End.Byte
	said := strings.Join(words, "-")
	switch {
	case tokenAt(tokens, i+n).Type == hclsyntax.TokenDot:
		if point := tokenAt(tokens, i+n+1); point.Type == hclsyntax.TokenIdent {
			said += "." + string(point.Bytes)
		}
		r.faults.Add(at, "a name has no spaces: write %s", shortened(said))
	case listed:
		r.faults.Add(at, "a comma belongs between %s; or if it is one name it has no space: %s for a point of a part, %s for a part", strings.Join(words, " and "), shortened(strings.Join(words, ".")), shortened(said))
	case len(words) == 2:
		r.faults.Add(at, "a point is written part.point, with a dot: %s; a name has no spaces: %s", shortened(strings.Join(words, ".")), shortened(said))
	default:
		part, point := strings.Join(words[:n-1], "-"), words[n-1]
		r.faults.Add(at, "a point is written part.point, with a dot, and a name has no spaces: %s", shortened(part+"."+point))
	}
	return n
}

// tellColons tells of colons in the place of an = and of the dot of a point.
func (r *reader) tellColons(tokens hclsyntax.Tokens, in brackets) {
	for i, tok := range tokens {
		last, next := tokenAt(tokens, i-1), tokenAt(tokens, i+1)
		if tok.Type != hclsyntax.TokenColon || last.Type != hclsyntax.TokenIdent || !in.inBlock[i] {
			continue
		}
		switch before := tokenAt(tokens, i-2); {
		case before.Type == hclsyntax.TokenEqual && next.Type == hclsyntax.TokenIdent:
			r.faults.Add(spanOf(tok.Range), "a point is written part.point, with a dot: %s.%s", shortened(string(last.Bytes)), shortened(string(next.Bytes)))
		case before.Type == hclsyntax.TokenNil, before.Type == hclsyntax.TokenOBrace, endsLine(before):
			r.faults.Add(spanOf(tok.Range), "only = sets a value, not a colon: %s = ...", shortened(string(last.Bytes)))
		}
	}
}

// signedNumber is a number, token i, with its sign.
func signedNumber(tokens hclsyntax.Tokens, i int) string {
	if tokenAt(tokens, i-1).Type == hclsyntax.TokenMinus && !endsValue(tokenAt(tokens, i-2)) {
		return "-" + string(tokens[i].Bytes)
	}
	return string(tokens[i].Bytes)
}

// tellRoundBrackets tells of places and lists in round or curly brackets.
func (r *reader) tellRoundBrackets(tokens hclsyntax.Tokens) {
	for i, tok := range tokens {
		first := tokenAt(tokens, i+1).Type
		curly := tok.Type == hclsyntax.TokenOBrace && (first == hclsyntax.TokenNumberLit || first == hclsyntax.TokenMinus)
		if tok.Type != hclsyntax.TokenOParen && !curly || !beginsValue(tokenAt(tokens, i-1)) {
			continue
		}
		depth, commas, said := 0, 0, ""
		for k := i; k < len(tokens); k++ {
			now := tokens[k]
			switch now.Type {
			case hclsyntax.TokenOParen, hclsyntax.TokenOBrack, hclsyntax.TokenOBrace:
				depth++
			case hclsyntax.TokenCParen, hclsyntax.TokenCBrack, hclsyntax.TokenCBrace:
				depth--
			case hclsyntax.TokenComma:
				if depth == 1 {
					commas++
				}
			}
			if depth == 0 {
				said = string(r.lines[min(tok.Range.End.Byte, len(r.lines)):min(now.Range.Start.Byte, len(r.lines))])
				break
			}
			if endsLine(now) {
				break
			}
		}
		if commas == 0 {
			continue
		}
		what := "a place"
		if commas > 2 {
			what = "a list"
		}
		if said = strings.TrimSpace(said); said == "" || len(said) > longestShown {
			r.faults.Add(spanOf(tok.Range), "%s stands in square brackets, as in [24, 3]", what)
			continue
		}
		r.faults.Add(spanOf(tok.Range), "%s stands in square brackets: [%s]", what, said)
	}
}

// longestShown is how long a list is that is shown as it should be written.
const longestShown = 40

// polarMeant returns how a length and an angle that stand without brackets, from
// token i, are written.
func polarMeant(tokens hclsyntax.Tokens, i int) string {
	length, sign, degrees := tokens[i], "", tokenAt(tokens, i+2)
	if degrees.Type == hclsyntax.TokenMinus {
		sign, degrees = "-", tokenAt(tokens, i+3)
	}
	if tokenAt(tokens, i+1).Type != hclsyntax.TokenComma || degrees.Type != hclsyntax.TokenNumberLit {
		return "polar(length, degrees)"
	}
	return fmt.Sprintf("polar(%s, %s%s)", length.Bytes, sign, degrees.Bytes)
}

// fractionAdded returns how a whole number, token i, and a fraction after it
// are written as one value that what stands around takes as a whole.
func fractionAdded(tokens hclsyntax.Tokens, i int) string {
	sum := fmt.Sprintf("%s + %s/%s", tokens[i].Bytes, tokens[i+1].Bytes, tokens[i+3].Bytes)
	binds := func(tok hclsyntax.Token) bool {
		return tok.Type == hclsyntax.TokenStar || tok.Type == hclsyntax.TokenSlash
	}
	last := tokenAt(tokens, i-1)
	switch {
	case last.Type == hclsyntax.TokenMinus && !endsValue(tokenAt(tokens, i-2)):
		return "-(" + sum + ")"
	case last.Type == hclsyntax.TokenMinus, binds(last), binds(tokenAt(tokens, i+4)):
		return "(" + sum + ")"
	}
	return sum
}

// isTable reports whether a token is an attribute whose value is a table.
func isTable(tok hclsyntax.Token) bool {
	switch string(tok.Bytes) {
	case "points", "arms", "bolts":
		return tok.Type == hclsyntax.TokenIdent
	}
	return false
}

// endsValue reports whether a value can end with the token, so that what
// follows may carry on from it.
func endsValue(tok hclsyntax.Token) bool {
	switch tok.Type {
	case hclsyntax.TokenNumberLit, hclsyntax.TokenIdent, hclsyntax.TokenCParen, hclsyntax.TokenCBrack, hclsyntax.TokenCBrace, hclsyntax.TokenCQuote:
		return true
	}
	return false
}
