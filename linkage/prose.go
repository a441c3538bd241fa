package linkage

import (
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// tellProse tells of lines of prose between attributes and blocks, which lack their #. It
// returns those lines: what else is found on them follows from that.
func (r *reader) tellProse(tokens hclsyntax.Tokens, in brackets) map[int]bool {
	lines := map[int]bool{}
	last := 0 // the line of prose last found
	for i := 0; i < len(tokens); {
		end := i
		for end < len(tokens) && !endsLine(tokens[end]) && tokens[end].Type != hclsyntax.TokenEOF {
			end++
		}
		if at := tokens[i].Range.Start.Line; in.inBlock[i] && isProse(tokens[i:end]) {
			if lines[at] = true; last == 0 || at != last+1 { // once for lines that follow one another
				r.faults.Add(spanOf(tokens[i].Range), "a comment begins with #, on each of its lines; else here belongs an attribute, name = value, or a block")
			}
			last = at
		}
		i = end + 1
	}
	return lines
}

// proseWords is from how many words on, side by side at the beginning of a line, that is
// prose: a block's kind and a name without quotes are two.
const proseWords = 3

// isProse reports whether the tokens of a line between attributes and blocks are prose.
func isProse(line hclsyntax.Tokens) bool {
	if len(line) == 0 {
		return false
	}
	words, beside, sets := 0, 0, false
	for i, tok := range line {
		switch tok.Type {
		case hclsyntax.TokenIdent:
			words++
			if beside == i {
				beside++
			}
		case hclsyntax.TokenEqual, hclsyntax.TokenOBrace, hclsyntax.TokenCBrace, hclsyntax.TokenOQuote:
			sets = true
		}
	}
	if beside >= proseWords {
		return tokenAt(line, beside).Type != hclsyntax.TokenOBrace
	}
	if sets {
		return false
	}
	switch line[0].Type {
	case hclsyntax.TokenIdent:
		second := tokenAt(line, 1).Type
		kind := string(line[0].Bytes)
		if beside == 2 && len(line) == 2 {
			return blockKinds[kind].label == "" && !isAttribute(kind)
		}
		if second == hclsyntax.TokenColon && isAttribute(kind) {
			return false
		}
		return beside == 2 && words >= proseWords || words >= proseWords &&
			slices.Contains([]hclsyntax.TokenType{hclsyntax.TokenComma, hclsyntax.TokenColon, hclsyntax.TokenApostrophe, hclsyntax.TokenOParen, hclsyntax.TokenMinus, hclsyntax.TokenDot}, second)
	case hclsyntax.TokenMinus, hclsyntax.TokenStar, hclsyntax.TokenPercent, hclsyntax.TokenSemicolon, hclsyntax.TokenApostrophe,
		hclsyntax.TokenBang, hclsyntax.TokenGreaterThan, hclsyntax.TokenNumberLit:
		return words > 0
	}
	return false
}

// isAttribute reports whether a word is the name of an attribute of some block.
func isAttribute(word string) bool {
	for _, kind := range blockKinds {
		if slices.Contains(kind.attributes, word) {
			return true
		}
	}
	return requires(word)
}
