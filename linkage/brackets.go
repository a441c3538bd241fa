package linkage

import (
	"bytes"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// noBracket is the opening bracket of what stands in none.
const noBracket = -1

// brackets are where the tokens of a text stand, token by token.
type brackets struct {
	// open is the token that opens the innermost bracket around; a bracket
	// itself stands in the one around it.
	open []int
	// inBlock says that only the braces of blocks are open.
	inBlock []bool
}

// bracketsOf finds where tokens stand.
func bracketsOf(tokens hclsyntax.Tokens) brackets {
	b := brackets{make([]int, len(tokens)), make([]bool, len(tokens))}
	type bracket struct {
		at    int
		block bool
	}
	path := []bracket{{noBracket, true}}
	for i, tok := range tokens {
		switch tok.Type {
		case hclsyntax.TokenCBrace, hclsyntax.TokenCBrack, hclsyntax.TokenCParen:
			path = path[:max(1, len(path)-1)]
		}
		top := path[len(path)-1]
		b.open[i], b.inBlock[i] = top.at, top.block
		switch tok.Type {
		case hclsyntax.TokenOBrace:
			last := tokenAt(tokens, i-1)
			path = append(path, bracket{i, top.block && last.Type != hclsyntax.TokenEqual && !isTable(last)})
		case hclsyntax.TokenOBrack, hclsyntax.TokenOParen:
			path = append(path, bracket{i, false})
		}
	}
	return b
}

// endsLine reports whether a token ends its line: a comment to the end of the line
// takes the line's end with it.
func endsLine(tok hclsyntax.Token) bool {
	return tok.Type == hclsyntax.TokenNewline || tok.Type == hclsyntax.TokenComment && bytes.HasSuffix(tok.Bytes, []byte("\n"))
}

// tellAttributesOnOneLine tells of attributes that stand beside one another,
// once a line.
func (r *reader) tellAttributesOnOneLine(tokens hclsyntax.Tokens, in brackets) {
	set, told := false, 0 // whether this line sets an attribute; the last line told of
	for i, tok := range tokens {
		if !in.inBlock[i] {
			continue
		}
		switch {
		case endsLine(tok):
			set = false
		case tok.Type == hclsyntax.TokenEqual:
			set = true
		case tok.Type == hclsyntax.TokenIdent:
			line := tok.Range.Start.Line
			if set && line != told && endsValue(tokenAt(tokens, i-1)) && tokenAt(tokens, i+1).Type == hclsyntax.TokenEqual {
				told = line
				r.faults.Add(spanOf(tok.Range), "each attribute stands on a line of its own, and a block on one line holds one")
			}
		}
	}
}
