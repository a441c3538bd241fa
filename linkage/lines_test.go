package linkage

import (
	"bytes"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"fullfree/linkage/hunt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A carriage return alone ends a line, as in files of some systems: a comment too,
// and faults are told by the line that an editor shows.
func TestCarriageReturnEndsALine(t *testing.T) {
	text := strings.ReplaceAll(bench, "\n", "\r")
	broken := strings.Replace(text, "units   = \"in\"", "units   = \"yd\"", 1)
	if broken == text {
		broken = regexp.MustCompile(`units( *)= "in"`).ReplaceAllString(text, `units$1= "yd"`)
	}
	require.NotEqual(t, text, broken)
	_, err := Read(&Source{Name: "a.hcl", Text: []byte(broken)})
	_, want := Read(&Source{Name: "a.hcl", Text: []byte(strings.ReplaceAll(broken, "\r", "\n"))})
	require.Error(t, err)
	assert.EqualError(t, err, want.Error())
	assert.NotContains(t, err.Error(), "\r")

	// What follows a comment's carriage return is no part of the comment.
	hidden := strings.Replace(bench, "rod \"link\" {\n", "rod \"link\" { # as set:\r  length = 9 #\r", 1)
	require.NotEqual(t, bench, hidden)
	_, err = Read(&Source{Name: "a.hcl", Text: []byte(hidden)})
	assert.ErrorContains(t, err, "length")
	assert.ErrorContains(t, err, "already set")

	// Nor can text in quotes go on behind one.
	_, err = Read(&Source{Name: "a.hcl", Text: []byte(strings.Replace(bench, "run \"Bench\"", "run \"Be\rnch\"", 1))})
	assert.ErrorContains(t, err, "not closed before the end of the line")
}

// However the lines of a file end, each as it likes, it reads as the same run, and
// rewritten keeps every line end: taking those for one kind gives what rewriting
// that kind gives.
func TestHuntRewriteKeepsLineEnds(t *testing.T) {
	runs := append(texts(t, "../demo/*.hcl"), []byte(bench))
	hunt.Each(t, 60, func(t *testing.T, random *rand.Rand) {
		plain := bytes.ReplaceAll(runs[random.IntN(len(runs))], []byte("\r\n"), []byte("\n"))
		ends := [][]byte{[]byte("\n"), []byte("\r"), []byte("\r\n")}
		if only := random.IntN(2 * len(ends)); only < len(ends) {
			ends = ends[only : only+1]
		}
		var text []byte
		for _, line := range bytes.SplitAfter(plain, []byte("\n")) {
			end := ends[random.IntN(len(ends))]
			if bytes.HasSuffix(text, []byte("\r")) && len(line) == 1 && end[0] == '\n' {
				end = []byte("\r\n") // else the two would be one line end
			}
			text = append(text, bytes.TrimSuffix(line, []byte("\n"))...)
			if len(line) > 0 && line[len(line)-1] == '\n' {
				text = append(text, end...)
			}
		}
		run, err := Read(&Source{Name: "a.hcl", Text: text})
		require.NoError(t, err)
		var changes []Change
		for _, d := range run.Dimensions() {
			if (d.IsLength() || d.Rod == nil) && random.IntN(4) == 0 {
				changes = append(changes, Change{d.String(), d.Value() + 0.25*random.Float64()})
			}
		}
		of := func(text []byte) (out []byte, err error) {
			return Rewrite(&Source{Name: "a.hcl", Text: text}, changes)
		}
		want, wantErr := of(plain)
		got, err := of(text)
		if wantErr != nil {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		require.Equal(t, string(want), string(oneKind(got)))
		if len(ends) == 1 {
			require.Equal(t, string(bytes.ReplaceAll(want, []byte("\n"), ends[0])), string(got))
		}
		none, err := Rewrite(&Source{Name: "a.hcl", Text: text}, nil)
		require.NoError(t, err)
		require.Equal(t, string(text), string(none))
	})
}

// oneKind makes every line end a line feed.
func oneKind(text []byte) []byte {
	return bytes.ReplaceAll(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")), []byte("\r"), []byte("\n"))
}

// What isn't seen for what it is: by class, with the characters that text is known
// to be disguised with (Unicode Technical Report 36, Unicode Security
// Considerations, and the list of bidirectional controls in Unicode Standard Annex
// 9, both from memory).
func TestVisible(t *testing.T) {
	for _, r := range "aZ09 .,/#\"'[]{}=±°·é螺🛩אع\u0301\u0338" {
		assert.True(t, Visible(r), "%U", r)
	}
	for _, r := range []rune{
		0, '\t', '\n', '\r', 0x1b, 0x7f, 0x85, 0x9b, 0xa0, 0xad, 0x34f, 0x61c, 0x115f, 0x1160, 0x17b4, 0x180b, 0x180e,
		0x2000, 0x200b, 0x200c, 0x200d, 0x200e, 0x200f, 0x2028, 0x2029, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x202f,
		0x205f, 0x2060, 0x2061, 0x2064, 0x2066, 0x2067, 0x2068, 0x2069, 0x206a, 0x206f, 0x2800, 0x3000, 0x3164, 0xe000,
		0xfe0f, 0xfeff, 0xffa0, 0xfff9, 0xfffd, 0xe0001, 0xe0041, 0xe0100, 0x10ffff,
	} {
		assert.False(t, Visible(r), "%U", r)
		assert.Equal(t, "a?b", Printable("a"+string(r)+"b"), "%U", r)
		if r == '\n' || r == '\r' || r == '\t' {
			continue
		}
		line := "a" + string(r) + "b"
		assert.Equal(t, "  1 | a?b\n    | ^\n", excerpt(&Source{Text: []byte(line)}, Span{1, 1, 0, 1, ""}), "%U", r)
	}
}
