// Package machine writes results for machines, at full precision: a file a schema,
// whose keys are a contract. A key that changes its meaning takes a new number. The
// sentences in it ("says") are package render's; it words, rounds and judges nothing
// of its own.
package machine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"unicode/utf16"
	"unicode/utf8"

	"fullfree/linkage"
	"fullfree/solve"
)

// writeJSON writes v indented, whole or not at all, with names as they are
// written in the file rather than escaped for a web page; but what can't be seen in
// them stands as \u and its code, lest it does something to a terminal.
func writeJSON(w io.Writer, v any) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(escapeUnseen(b.Bytes()))
	return err
}

// escapeUnseen writes characters of JSON that can't be seen as escapes. Beyond ASCII
// they stand in strings alone.
func escapeUnseen(text []byte) []byte {
	unseen := func(r rune) bool { return r >= 0x7f && !linkage.Visible(r) }
	if bytes.IndexFunc(text, unseen) < 0 {
		return text
	}
	var out []byte
	for _, r := range string(text) {
		if !unseen(r) {
			out = utf8.AppendRune(out, r)
			continue
		}
		for _, unit := range utf16.AppendRune(nil, r) {
			out = fmt.Appendf(out, "\\u%04x", unit)
		}
	}
	return out
}

func threeValued(v solve.Verdict) *bool {
	if v == solve.CannotTell {
		return nil
	}
	holds := v == solve.Holds
	return &holds
}
