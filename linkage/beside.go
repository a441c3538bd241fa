package linkage

import (
	"fmt"

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
