package linkage

import "bytes"

// oneLineEnd returns text with every carriage return that stands alone, as the
// end of a line in files of some systems, made a line feed, which is what the
// parser takes for one. Nothing moves by that: a place in what is returned is the
// same place in text. Text without one is returned itself.
func oneLineEnd(text []byte) []byte {
	out := text
	for i := 0; i < len(text); i++ {
		next := bytes.IndexByte(text[i:], '\r')
		if next < 0 {
			break
		}
		if i += next; i+1 < len(text) && text[i+1] == '\n' {
			continue
		}
		if &out[0] == &text[0] {
			out = bytes.Clone(text)
		}
		out[i] = '\n'
	}
	return out
}

// lineEndOf returns how the first line of a text ends.
func lineEndOf(text []byte) string {
	first := bytes.IndexAny(text, "\r\n")
	if first < 0 {
		return "\n"
	}
	if bytes.HasPrefix(text[first:], []byte("\r\n")) {
		first++
	}
	return lineEndBefore(text, first+1)
}

// lineEndBefore returns how the line ends that ends right before a byte of text:
// "\r\n", "\r" or "\n".
func lineEndBefore(text []byte, at int) string {
	for _, end := range []string{"\r\n", "\r"} {
		if bytes.HasSuffix(text[:at], []byte(end)) {
			return end
		}
	}
	return "\n"
}
