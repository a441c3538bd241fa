package linkage

import (
	"bytes"
	"fmt"
	"slices"
	"unicode"
	"unicode/utf8"
)

// The lexer keeps some hundreds of bytes for every token, the parser more: of a
// megabyte that is no run, hundreds of megabytes. So a text of many tokens is looked
// through byte by byte before the lexer sees it, by what every run is: blocks of kinds
// that there are, in them attributes on lines of their own, in these numbers, names and
// texts with commas, signs and brackets between. What isn't so is told by the lexer's
// tokens as ever, but of the text up to there.
var (
	maxUnseen  = 60_000 // tokens that the lexer may see whatever they are
	maxLines   = 150_000
	maxOfKind  = 5000   // blocks of one kind, but for parts and rods
	maxDots    = 8      // of one name or number
	maxEntries = 50_000 // commas of one attribute
)

// afterRubbish is how many bytes behind what is wrong are handed on, so that it can be
// told as what it is.
const afterRubbish = 4 << 10

// sifter looks through a text once.
type sifter struct {
	text     []byte
	at       int
	tokens   int
	lines    int
	comments int
	signs    int // minus signs in a row
	blocks   map[string]int
	open     []byte // the brackets open, '{' of a block as 'b'
	value    bool   // an attribute's value is being read
	entries  int    // commas of the value
	terms    int    // signs since the last comma or bracket
	operand  bool   // the last token of the value was a number, name or closed bracket
	comma    bool   // it was a comma
	header   bool   // a block's kind has been read on this line
	final    bool   // what is wrong is a limit: the lexer would have nothing to add
}

// firstRubbish returns where a text of many tokens stops being a run, and why; -1 where
// it doesn't, or where there are few. final says that the lexer has nothing to add.
func firstRubbish(text []byte) (at int, why string, final bool) {
	if len(text) <= maxUnseen {
		return -1, "", false
	}
	s := sifter{text: bytes.TrimPrefix(text, []byte(byteOrderMark)), blocks: map[string]int{}}
	skipped := len(text) - len(s.text)
	bad := -1
	for s.at < len(s.text) && (bad < 0 || s.tokens <= maxUnseen) {
		from := s.at
		s.final = false
		says := s.next()
		// A limit passed in what would be handed on goes first: that would be cut there.
		if says != "" && (bad < 0 || s.final && !final && from < bad+afterRubbish) {
			bad, why, final = from, says, s.final
		}
	}
	if bad < 0 || s.tokens <= maxUnseen {
		return -1, "", false
	}
	return bad + skipped, why, final
}

// upTo is the text to a little behind a place, to the end of a line where one is near.
func upTo(text []byte, at int) []byte {
	end := min(len(text), at+afterRubbish)
	if line := bytes.LastIndexByte(text[at:end], '\n'); line >= 0 {
		return text[:at+line+1]
	}
	for !utf8.Valid(text[at:end]) { // a character was cut
		end--
	}
	return text[:end]
}

func inWord(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-' || c >= 0x80
}

// next goes past one token, and tells what is wrong with it; "" where nothing is.
func (s *sifter) next() string {
	c := s.text[s.at]
	rest := s.text[s.at:]
	switch {
	case c == ' ' || c == '\t' || c == '\r' && len(rest) > 1 && rest[1] == '\n':
		s.at++
		return ""
	case c == '#' || bytes.HasPrefix(rest, []byte("//")):
		return s.comment(bytes.IndexByte(rest, '\n'))
	case bytes.HasPrefix(rest, []byte("/*")):
		end := bytes.Index(rest[2:], []byte("*/"))
		if end >= 0 {
			end += 4
		}
		return s.comment(end)
	case c == '"':
		return s.quoted()
	}
	s.tokens++
	switch {
	case c == '\n':
		s.at++
		return s.newline()
	case c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= 0x80:
		return s.word()
	}
	s.at++
	return s.sign(c)
}

func (s *sifter) comment(length int) string {
	if length < 0 {
		length = len(s.text) - s.at
	}
	s.tokens++
	s.at += max(1, length)
	if s.comments++; s.comments > maxLines {
		return s.limit("more than %d comments", maxLines)
	}
	return ""
}

// limit tells of a limit that is passed.
func (s *sifter) limit(format string, args ...any) string {
	s.final = true
	return fmt.Sprintf(format, args...)
}

// quoted goes past a text in quotes, to its end or that of its line.
func (s *sifter) quoted() string {
	s.tokens += 3
	from := s.at
	for s.at++; s.at < len(s.text); s.at++ {
		switch s.text[s.at] {
		case '\\':
			s.at++
			continue
		case '$', '%', '{', '}':
			s.tokens++
			continue
		case '\n':
			return s.openQuote(from)
		case '"':
			s.at++
			switch size := s.at - from - 2; {
			case size > maxText:
				return s.limit("a text of %d bytes: write at most %d", size, maxText)
			case s.value:
				return s.takeOperand()
			case !s.header:
				return "here belongs a block, such as part \"name\" {"
			}
			return ""
		}
	}
	return s.openQuote(from)
}

// openQuote tells of quotes that are not closed, after which the lexer may take every
// character for a token.
func (s *sifter) openQuote(from int) string {
	s.tokens += s.at - from
	return "these quotes are not closed before the end of the line"
}

func (s *sifter) newline() string {
	if s.lines++; s.lines > maxLines {
		return s.limit("more than %d lines", maxLines)
	}
	if !s.inBrackets() {
		s.value, s.header = false, false
	}
	return ""
}

// inBrackets reports whether a bracket of a value is open.
func (s *sifter) inBrackets() bool {
	return len(s.open) > 0 && s.open[len(s.open)-1] != 'b'
}

// word goes past a word or number.
func (s *sifter) word() string {
	from, dots := s.at, 0
	for s.at < len(s.text) && (inWord(s.text[s.at]) || s.text[s.at] == '.' && s.at > from) {
		if s.text[s.at] == '.' {
			s.tokens += 2
			if dots++; dots > maxDots {
				return "a point is written part.point"
			}
		}
		if s.text[s.at] < utf8.RuneSelf {
			s.at++
			continue
		}
		s.tokens++ // each may be one
		r, size := utf8.DecodeRune(s.text[s.at:])
		s.at += size
		if !unicode.In(r, unicode.L, unicode.M, unicode.N, unicode.Pc) {
			return "this character has no meaning here"
		}
	}
	if s.value {
		return s.takeOperand()
	}
	s.header = true
	if len(s.open) == 0 {
		kind := string(s.text[from:s.at])
		if !slices.Contains(topKinds, kind) {
			return "here belongs a block, such as part \"name\" {"
		}
		if s.blocks[kind]++; s.blocks[kind] > maxOfKind && kind != "part" && kind != "rod" || s.blocks[kind] > maxParts {
			return s.limit("more than %d blocks of the kind %s", s.blocks[kind]-1, kind)
		}
	}
	return ""
}

// takeOperand is where a value has a number, name or text.
func (s *sifter) takeOperand() string {
	beside := s.operand
	s.operand, s.comma, s.signs = true, false, 0
	if beside {
		return "between two values belongs a comma or a sign"
	}
	return ""
}

// sign goes past a single character.
func (s *sifter) sign(c byte) string {
	switch c {
	case '{', '[', '(':
		kind := c
		if c == '{' && !s.value {
			kind = 'b'
		}
		if s.open = append(s.open, kind); len(s.open) > maxDepth {
			return fmt.Sprintf("brackets are nested more than %d deep", maxDepth)
		}
		if kind != 'b' && !s.value {
			return "here belongs an attribute, as name = value, or a block"
		}
		s.operand, s.comma, s.terms, s.signs = false, false, 0, 0
		return ""
	case '}', ']', ')':
		if len(s.open) == 0 {
			return fmt.Sprintf("here belongs no %c: no bracket is open", c)
		}
		last := s.open[len(s.open)-1]
		s.open = s.open[:len(s.open)-1]
		if last == 'b' {
			s.value = false
		}
		s.operand, s.comma, s.terms = true, false, 0
		if want := map[byte]byte{'{': '}', 'b': '}', '[': ']', '(': ')'}[last]; want != c {
			return fmt.Sprintf("here belongs a %c", want)
		}
		return ""
	case '=':
		if s.value && !s.inBrackets() {
			return "one = sets a value"
		}
		if len(s.open) == 0 {
			return "here belongs a block, such as part \"name\" {"
		}
		if !s.inBrackets() {
			s.entries = 0
		}
		s.value, s.operand, s.comma, s.terms, s.signs = true, false, false, 0, 0
		return ""
	}
	if !s.value {
		return "here belongs an attribute, as name = value, or a block"
	}
	switch c {
	case ',':
		if s.comma {
			return "two commas in a row"
		}
		s.operand, s.comma, s.terms = false, true, 0
		if s.entries++; s.entries > maxEntries {
			return fmt.Sprintf("more than %d entries", maxEntries)
		}
		return ""
	case '+', '-', '*', '/', ':', '.':
		if s.terms++; s.terms > maxTerms {
			return fmt.Sprintf("more than %d terms in one number", maxTerms)
		}
		s.operand = false
		if s.signs++; s.signs > maxSigns {
			return fmt.Sprintf("more than %d minus signs in a row", maxSigns)
		}
		return ""
	}
	return "this character has no meaning here"
}
