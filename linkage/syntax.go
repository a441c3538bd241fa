package linkage

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// plainly says in a builder's words what the parser's summaries mean.
var plainly = map[string]string{
	"Argument or block definition required":      `here belongs an attribute, name = value, or a block, kind "name" {`,
	"Argument definition required":               "a block on one line holds one attribute: begin a new line after {",
	"Invalid argument name":                      "the name of an attribute stands without quotes",
	"Invalid single-argument block definition":   "a block on one line holds one attribute: begin a new line after {",
	"Invalid block definition":                   `here belongs a name in quotes, or the { of the block`,
	"Unclosed configuration block":               "this block is not closed: a } is missing",
	"Unclosed configuration body":                "the file ends too early: a } is missing",
	"Missing newline after block definition":     "nothing may follow the } of a block on its line",
	"Missing newline after argument":             "one value is wanted, and after it on the line nothing but a comment, which begins with #",
	"Unexpected comma after argument":            "no comma here: attributes stand on lines of their own",
	"Unbalanced parentheses":                     "this ( is not closed",
	"Missing item separator":                     "a comma belongs between the entries of a list",
	"Unterminated tuple constructor expression":  "this list is not closed: a ] is missing",
	"Unterminated object constructor expression": "this table is not closed: a } is missing",
	"Missing attribute separator":                "a comma or a new line belongs between the entries of a table",
	"Missing key/value separator":                "an entry of a table is written name = [x, y]",
	"Missing attribute value":                    "an entry of a table is written name = [x, y]",
	"Missing expression":                         "a value is missing",
	"Invalid expression":                         "a value is missing",
	"Unterminated function call":                 "a ) is missing",
	"Missing argument separator":                 "a comma belongs between length and degrees: polar(length, degrees)",
	"Missing closing parenthesis":                "a ) is missing",
	"Invalid escape sequence":                    `after \ in text only n, r, t, ", \ or u and four digits may follow`,
	"Unterminated template string":               "the quotes opened on this line are not closed on it",
	"Unterminated string literal":                "the quotes opened on this line are not closed on it",
	"Invalid attribute name":                     "a name belongs after the dot: part.point",
	"Invalid legacy index syntax":                "a name belongs after the dot: part.point",
	"Missing close bracket on index":             "a ] is missing",
	"Invalid 'for' expression":                   "there is no for in these files: write every value",
}

// harmless are the summaries of faults that leave the rest of what was parsed
// as it was meant, so that it can be read on.
var harmless = []string{"Attribute redefined", "Missing newline after argument", "Unexpected comma after argument"}

var placeInDetail = regexp.MustCompile(` at :(\d+),`)

// parse returns the file's blocks and top-level attributes, or false where no
// sense can be made of it.
func (r *reader) parse() (*hclsyntax.Body, bool) {
	if r.tellOtherFile() {
		return nil, false
	}
	tokens, ok := r.guard(r.lines, hclsyntax.LexConfig)
	if !ok {
		return nil, false
	}
	// The parser tells one fault and keeps silent about later ones, so each
	// top-level block is parsed for itself.
	whole := &hclsyntax.Body{Attributes: hclsyntax.Attributes{}}
	var all hcl.Diagnostics
	for _, stretch := range stretches(tokens, len(r.lines)) {
		file, diags := hclsyntax.ParseConfig(r.lines[stretch.Start.Byte:stretch.End.Byte], r.file, stretch.Start)
		if all = append(all, diags...); len(all) > maxFaults {
			break
		}
		body := file.Body.(*hclsyntax.Body)
		whole.Blocks = append(whole.Blocks, body.Blocks...)
		for name, attribute := range body.Attributes {
			if whole.Attributes[name] == nil {
				whole.Attributes[name] = attribute
			}
		}
	}
	ok = r.tellSyntax(all)
	r.spelling = len(r.faults.List)
	return whole, ok
}

// stretches divides a file into its top-level blocks: at ends of lines where no
// brace is open, and where a line begins with the header of such a block, since
// then a brace is missing before it.
func stretches(tokens hclsyntax.Tokens, size int) []hcl.Range {
	var list []hcl.Range
	depth, start := 0, hcl.InitialPos
	for i, tok := range tokens {
		switch tok.Type {
		case hclsyntax.TokenIdent:
			if depth > 0 && tok.Range.Start.Column == 1 && (slices.Contains(topKinds, string(tok.Bytes)) || slices.Contains(aircraftKinds, string(tok.Bytes))) && tokens[i+1].Type == hclsyntax.TokenOQuote {
				list = append(list, hcl.Range{Start: start, End: tok.Range.Start})
				start, depth = tok.Range.Start, 0
			}
		case hclsyntax.TokenOBrace:
			depth++
		case hclsyntax.TokenCBrace:
			depth = max(0, depth-1)
		case hclsyntax.TokenNewline:
			if depth == 0 && i > 0 && tokens[i-1].Type == hclsyntax.TokenCBrace {
				list = append(list, hcl.Range{Start: start, End: tok.Range.End})
				start = tok.Range.End
			}
		}
	}
	return append(list, hcl.Range{Start: start, End: hcl.Pos{Byte: size}})
}

// tellSyntax turns what the parser found wrong into faults, one a line, and
// reports whether what was parsed can be read on nonetheless.
func (r *reader) tellSyntax(diags hcl.Diagnostics) bool {
	told := map[int]bool{} // lines
	for _, fault := range r.faults.List {
		told[fault.Span.Line] = true
	}
	for _, diag := range diags {
		if diag.Subject == nil {
			diag.Subject = &hcl.Range{Start: hcl.InitialPos, End: hcl.InitialPos}
		}
	}
	slices.SortStableFunc(diags, func(a, b *hcl.Diagnostic) int {
		return a.Subject.Start.Byte - b.Subject.Start.Byte
	})
	ok := true
	for _, diag := range diags {
		ok = ok && slices.Contains(harmless, diag.Summary)
		if told[diag.Subject.Start.Line] {
			continue
		}
		told[diag.Subject.Start.Line] = true
		says, at := r.inWords(diag)
		if diag.Summary == "Invalid block definition" {
			told[at.Line+1] = true // where a brace too late confuses the parser again
		}
		r.faults.Add(at, "%s", says)
	}
	return ok
}

// inWords returns what the parser found wrong, and where, for a builder.
func (r *reader) inWords(diag *hcl.Diagnostic) (string, Span) {
	at := spanOf(*diag.Subject)
	here := r.textAt(at)
	if bytes.HasPrefix(r.lines[min(at.Start, len(r.lines)):], []byte("/*")) {
		return "this comment is not closed: */ is missing", at
	}
	switch diag.Summary {
	case "Attribute redefined":
		first := "further up"
		if m := placeInDetail.FindStringSubmatch(diag.Detail); m != nil {
			first = "on line " + m[1]
		}
		return fmt.Sprintf("%s is already set %s: set it once", shortName(here), first), at
	case "Unbalanced parentheses":
		if diag.Context != nil {
			at = spanOf(hcl.Range{Start: diag.Context.Start, End: diag.Context.Start})
		}
	case "Invalid expression":
		if here = strings.TrimSpace(here); here != "" {
			return fmt.Sprintf("a value is wanted here, and it can't begin with %s", shortened(here)), at
		}
	case "Argument or block definition required":
		if here == "}" {
			return "this } closes nothing", at
		}
	case "Invalid block definition":
		switch strings.TrimSpace(here) {
		case "=":
			return "no = before the { of a block", at
		case "":
			return "the { of a block stands on the same line as its kind and name", at
		}
	}
	if says := plainly[diag.Summary]; says != "" {
		return says, at
	}
	return strings.ToLower(diag.Summary[:1]) + diag.Summary[1:], at
}

// textAt returns the text of a stretch of the file.
func (r *reader) textAt(at Span) string {
	if at.Start < 0 || at.End > len(r.lines) || at.Start > at.End {
		return ""
	}
	return string(r.lines[at.Start:at.End])
}

// kindOf says what an expression is, for faults that wanted something else.
func kindOf(e hclsyntax.Expression) string {
	switch e := e.(type) {
	case *hclsyntax.TupleConsExpr:
		return "a list"
	case *hclsyntax.ObjectConsExpr:
		return "a table"
	case *hclsyntax.TemplateExpr, *hclsyntax.TemplateWrapExpr:
		return "text in quotes"
	case *hclsyntax.ScopeTraversalExpr, *hclsyntax.RelativeTraversalExpr, *hclsyntax.IndexExpr:
		return "a name"
	case *hclsyntax.FunctionCallExpr:
		return shortened(e.Name) + "(...)"
	case *hclsyntax.LiteralValueExpr:
		if isNumber(e) {
			return "a number"
		}
		if e.Val.Type() == cty.Bool && e.Val.IsKnown() && !e.Val.IsNull() {
			return fmt.Sprint(e.Val.True())
		}
		return "nothing"
	case *hclsyntax.BinaryOpExpr, *hclsyntax.UnaryOpExpr:
		return "a number"
	case *hclsyntax.ParenthesesExpr:
		return kindOf(e.Expression)
	}
	return "something else"
}
