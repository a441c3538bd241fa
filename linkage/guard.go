package linkage

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Limits on what is handed to the parser, which protects itself against none
// of this: it uses stack for every level of nesting and every sign, and time
// for every digit. Variables, so that tests can lower them.
var (
	maxBytes      = 1 << 20 // of a file
	maxDepth      = 64      // of brackets in brackets
	maxSigns      = 8       // in a row: - - - 1
	maxDigits     = 40      // characters of a number; 17 digits tell all a float64 can
	maxTerms      = 1000    // of one sum or product
	maxText       = 1000    // bytes of text in one pair of quotes
	maxParts      = 10_000
	maxHeldSweeps = 1000 // combinations of controls' held settings to sweep
)

// maxExponent is the largest power of ten that a number may be written with.
// It keeps numbers quick to read; what they may come to is MaxSize.
const maxExponent = 99

const byteOrderMark = "\xef\xbb\xbf"

// foreign says what to do instead of what the parser's language has and these
// files don't.
var foreign = map[hclsyntax.TokenType]string{
	hclsyntax.TokenPercent:         "only + - * and / are used in numbers, not %",
	hclsyntax.TokenStarStar:        "only + - * and / are used in numbers, not **",
	hclsyntax.TokenEqualOp:         "one = sets a value, and there are no comparisons",
	hclsyntax.TokenNotEqual:        "there are no comparisons in these files",
	hclsyntax.TokenLessThan:        "there are no comparisons in these files",
	hclsyntax.TokenLessThanEq:      "there are no comparisons in these files",
	hclsyntax.TokenGreaterThan:     "there are no comparisons in these files",
	hclsyntax.TokenGreaterThanEq:   "there are no comparisons in these files",
	hclsyntax.TokenAnd:             "only + - * and / are used in numbers",
	hclsyntax.TokenOr:              "only + - * and / are used in numbers",
	hclsyntax.TokenBang:            "only + - * and / are used in numbers",
	hclsyntax.TokenBitwiseAnd:      "only + - * and / are used in numbers",
	hclsyntax.TokenBitwiseOr:       "only + - * and / are used in numbers",
	hclsyntax.TokenBitwiseNot:      "only + - * and / are used in numbers",
	hclsyntax.TokenBitwiseXor:      "only + - * and / are used in numbers, not ^",
	hclsyntax.TokenQuestion:        "there are no conditions in these files",
	hclsyntax.TokenDoubleColon:     "a point is written part.point, with one dot",
	hclsyntax.TokenEllipsis:        "three dots mean nothing here: write every value",
	hclsyntax.TokenFatArrow:        "only = sets a value, not =>",
	hclsyntax.TokenTemplateInterp:  "nothing is filled into text: write it out, without ${ }",
	hclsyntax.TokenTemplateControl: "nothing is filled into text: write it out, without %{ }",
	hclsyntax.TokenOHeredoc:        "text stands in quotes on one line, not after <<",
	hclsyntax.TokenApostrophe:      straightQuotes,
	hclsyntax.TokenBacktick:        straightQuotes,
	hclsyntax.TokenSemicolon:       "no semicolons: attributes stand on lines of their own, list entries between commas",
}

// guard looks at text before the parser sees it. It returns the text's tokens,
// or false where the text must not be parsed; r.faults then tell why.
func (r *reader) guard(text []byte, lex func([]byte, string, hcl.Pos) (hclsyntax.Tokens, hcl.Diagnostics)) (hclsyntax.Tokens, bool) {
	if len(text) > maxBytes {
		r.faults.Add(Span{}, "the file is larger than %d bytes, which no control run needs", maxBytes)
		return nil, false
	}
	if at, ok := firstBadByte(text); !ok {
		r.faults.Add(placeOf(text, at), "the byte 0x%02X here is not UTF-8 text: save the file as UTF-8", text[at])
		return nil, false
	}
	// The parser takes one in quotes, but no page can hold it.
	if at := bytes.IndexByte(text, 0); at >= 0 {
		r.faults.Add(placeOf(text, at), "the character U+0000 here stands in no text: save the file as UTF-8")
		return nil, false
	}
	whole := text
	bad, why, final := firstRubbish(text)
	switch {
	case bad >= 0 && final:
		r.faults.Add(placeOf(whole, bad), "%s", why)
		return nil, false
	case bad >= 0:
		text = upTo(text, bad)
	}
	tokens, _ := lex(text, r.file, hcl.InitialPos)
	found := r.faults.found()
	in := bracketsOf(tokens)
	if prose := r.tellProse(tokens, in); len(prose) > 0 {
		// Its words and marks mean nothing else, and hide nothing: the rest is looked at by itself.
		tokens = slices.DeleteFunc(slices.Clone(tokens), func(tok hclsyntax.Token) bool { return prose[tok.Range.Start.Line] })
		in = bracketsOf(tokens)
	}
	r.refuseForeign(tokens)
	r.refuseDeep(tokens)
	r.refuseLongNumbers(tokens)
	r.refuseLongText(tokens)
	if r.faults.found() > found {
		return nil, false
	}
	r.tellSideBySide(tokens)
	r.tellRoundBrackets(tokens)
	r.tellColons(tokens, in)
	r.tellAttributesOnOneLine(tokens, in)
	r.tellCommas(tokens, in)
	if bad >= 0 {
		if r.faults.found() == found {
			r.faults.Add(placeOf(whole, bad), "%s", why)
		}
		return nil, false
	}
	return tokens, true
}

// firstBadByte returns where text stops being UTF-8, or true.
func firstBadByte(text []byte) (int, bool) {
	for i := 0; i < len(text); {
		c, size := utf8.DecodeRune(text[i:])
		if c == utf8.RuneError && size == 1 {
			return i, false
		}
		i += size
	}
	return 0, true
}

// placeOf returns the place of one byte of text.
func placeOf(text []byte, at int) Span {
	before := string(text[:at])
	first := strings.LastIndexByte(before, '\n') + 1
	return Span{
		Line:   1 + strings.Count(before, "\n"),
		Column: 1 + utf8.RuneCountInString(strings.TrimPrefix(before[first:], byteOrderMark)),
		Start:  at, End: at + 1,
	}
}

// spanOf returns a range of the parser as a Span.
func spanOf(rng hcl.Range) Span {
	return Span{rng.Start.Line, rng.Start.Column, rng.Start.Byte, rng.End.Byte, rng.Filename}
}

// refuseForeign tells of tokens that these files don't use.
func (r *reader) refuseForeign(tokens hclsyntax.Tokens) {
	const none = -1
	told, open := 0, none // the last line told of, the quote that is open
	for i, tok := range tokens {
		switch tok.Type {
		case hclsyntax.TokenOQuote:
			open = i
		case hclsyntax.TokenCQuote:
			open = none
		case hclsyntax.TokenQuotedNewline, hclsyntax.TokenEOF:
			if open != none {
				// What comes after an open quote is read inside out.
				r.tellOpenQuote(tokens, open)
				return
			}
		}
		says := foreign[tok.Type]
		switch tok.Type {
		case hclsyntax.TokenStar:
			if i > 0 && (tokens[i-1].Type == hclsyntax.TokenDot || tokens[i-1].Type == hclsyntax.TokenOBrack && tokens[i+1].Type == hclsyntax.TokenCBrack) {
				says = "a * stands between two numbers: points are named one by one"
			}
		case hclsyntax.TokenIdent:
			if i > 0 && string(tok.Bytes) == "for" && (tokens[i-1].Type == hclsyntax.TokenOBrace || tokens[i-1].Type == hclsyntax.TokenOBrack) {
				says = "there is no for in these files: write every value"
			}
		case hclsyntax.TokenInvalid, hclsyntax.TokenBadUTF8, hclsyntax.TokenTabs:
			number := ""
			if tokenAt(tokens, i-1).Type == hclsyntax.TokenNumberLit {
				number = signedNumber(tokens, i-1)
			}
			says = oddCharacter(tok.Bytes, number)
		}
		if says != "" && tok.Range.Start.Line != told {
			told = tok.Range.Start.Line
			r.faults.Add(spanOf(tok.Range), "%s", says)
		}
	}
}

// tellOpenQuote tells of text that is not closed before the end of its line; its
// quote is token i.
func (r *reader) tellOpenQuote(tokens hclsyntax.Tokens, i int) {
	if i > 0 && tokens[i-1].Type == hclsyntax.TokenNumberLit {
		r.faults.Add(spanOf(tokens[i].Range), inchMark)
		return
	}
	r.faults.Add(spanOf(tokens[i].Range), "these quotes are not closed before the end of the line")
}

// refuseDeep tells of brackets nested too deep and of signs in a row.
func (r *reader) refuseDeep(tokens hclsyntax.Tokens) {
	depth, signs := 0, 0
	for _, tok := range tokens {
		switch tok.Type {
		case hclsyntax.TokenOBrace, hclsyntax.TokenOBrack, hclsyntax.TokenOParen, hclsyntax.TokenOQuote:
			depth++
			if depth == maxDepth+1 {
				r.faults.Add(spanOf(tok.Range), "brackets are nested more than %d deep", maxDepth)
			}
		case hclsyntax.TokenCBrace, hclsyntax.TokenCBrack, hclsyntax.TokenCParen, hclsyntax.TokenCQuote:
			depth = max(0, depth-1)
		}
		switch tok.Type {
		case hclsyntax.TokenMinus:
			signs++
			if signs == maxSigns+1 {
				r.faults.Add(spanOf(tok.Range), "more than %d minus signs in a row", maxSigns)
			}
		case hclsyntax.TokenComment, hclsyntax.TokenNewline:
		default:
			signs = 0
		}
	}
}

// refuseLongNumbers tells of numbers that take long to read.
func (r *reader) refuseLongNumbers(tokens hclsyntax.Tokens) {
	for _, tok := range tokens {
		if tok.Type != hclsyntax.TokenNumberLit {
			continue
		}
		if len(tok.Bytes) > maxDigits {
			r.faults.Add(spanOf(tok.Range), "a number of %d characters: write at most %d", len(tok.Bytes), maxDigits)
			continue
		}
		_, exponent, _ := strings.Cut(strings.ToLower(string(tok.Bytes)), "e")
		if exponent == "" {
			continue
		}
		if e, err := strconv.Atoi(exponent); err != nil || e < -maxExponent || e > maxExponent {
			r.faults.Add(spanOf(tok.Range), "%s is out of range: sizes go to %s", tok.Bytes, sizeLimit)
		}
	}
}

// refuseLongText tells of texts that take long to read: the parser's time grows
// with the square of their length.
func (r *reader) refuseLongText(tokens hclsyntax.Tokens) {
	var open hclsyntax.Token
	for _, tok := range tokens {
		switch tok.Type {
		case hclsyntax.TokenOQuote:
			open = tok
		case hclsyntax.TokenCQuote:
			if size := tok.Range.Start.Byte - open.Range.End.Byte; size > maxText {
				r.faults.Add(spanOf(open.Range), "a text of %d bytes: write at most %d", size, maxText)
			}
		}
	}
}
