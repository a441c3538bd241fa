package page

import (
	"fmt"
	"html/template"
	"strings"
	"unicode/utf8"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// listing is the text of a file for a <pre>, in which everybody sees what the
// program reads. What isn't seen for what it is, such as what turns the direction of
// text, stands as its code in a frame, and unseen tells so. Letters that aren't ASCII
// are kept from turning the order of what stands beside them, as those of scripts
// from right to left do.
//
// All else comes out of it byte for byte: a browser drops a line end right behind
// the tag, so one stands there for it, and reads a bare carriage return as a line
// feed, so those are written as references, and shown as line ends where they stand
// alone. (A file that holds a zero byte is refused before it gets here.)
func listing(text []byte) (listed template.HTML, unseen string) {
	var b strings.Builder
	b.WriteByte('\n')
	codes := 0
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		switch {
		case r == '\r' && i+1 < len(text) && text[i+1] == '\n':
			b.WriteString("&#13;")
		case r == '\r':
			b.WriteString("&#13;<br>")
		case r == '\n' || r == '\t':
			b.WriteByte(text[i])
		case !linkage.Visible(r):
			codes++
			fmt.Fprintf(&b, `<span class="code">%U</span>`, r)
		case r < utf8.RuneSelf:
			template.HTMLEscape(&b, text[i:i+size])
		default:
			size = foreignRun(text[i:])
			b.WriteString("<bdi>")
			template.HTMLEscape(&b, text[i:i+size])
			b.WriteString("</bdi>")
		}
		i += size
	}
	if codes > 0 {
		unseen = "Characters that can't be seen, or that turn the order of others, stand as their codes, in a frame: there " +
			isAre(codes) + " " + figure.Count(codes, "such character") + " in the file."
	}
	return template.HTML(b.String()), unseen
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// foreignRun is how many bytes at the beginning of a text are visible characters
// beyond ASCII, with single spaces between them.
func foreignRun(text []byte) int {
	end := 0
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		foreign := r >= utf8.RuneSelf && linkage.Visible(r)
		if !foreign && (r != ' ' || i != end) {
			break
		}
		if i += size; foreign {
			end = i
		}
	}
	return end
}
