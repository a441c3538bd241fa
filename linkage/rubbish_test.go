package linkage

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
)

// mostForRubbish is how many bytes reading rubbish may take from the heap in all, freed
// or not: what it holds at once is less, and what a command needs besides is some 15 MB.
const mostForRubbish = 80 << 20

// readRubbish reads a text that is no run and returns what is told of it.
func readRubbish(t *testing.T, text string) string {
	t.Helper()
	var before, after runtime.MemStats
	source := &Source{Name: "rubbish.hcl", Text: []byte(text)}
	runtime.ReadMemStats(&before)
	_, err := Read(source)
	runtime.ReadMemStats(&after)
	require.Error(t, err)
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(mostForRubbish), "of %.40q", text)
	assert.Less(t, len(err.Error()), 20_000)
	return err.Error()
}

// A mebibyte of anything that is no run is refused before it costs memory.
func TestRubbish(t *testing.T) {
	for says, piece := range map[string]string{
		"nested":                    "[",
		"here belongs":              "])}",
		"nothing in the file":       "\t",
		"more than 150000 lines":    "\n",
		"more than 150000 comments": "/**/",
		"a text of":                 "x$${",
		"one = sets a value":        "a = = ",
		"filled into text":          `"${`,
		"not after <<":              "<<A\nA\n",
		"minus signs":               "-",
		"only + - * and /":          "!",
		"no semicolons":             ";",
		"more than 10000 blocks":    "part \"p\" {\n}\n",
		"more than 5000 blocks":     "stop \"p\" {\n}\n",
		"more than 50000 entries":   "1,",
		"more than 1000 terms":      "1+",
		"here belongs a block":      `""`,
		"a number of":               "1",
	} {
		t.Run(says, func(t *testing.T) {
			text := strings.Repeat(piece, maxBytes/len(piece))
			switch piece {
			case "x$${":
				text = `run "` + text[:maxBytes-10] + `" {`
			case "1,":
				text = "edge \"x\" {\n through = [" + text[:maxBytes-100] + "]\n}\n"
				text = "part \"x\" {\n points = [" + text[30:]
			case "1+", "a = = ", "1":
				text = "run \"x\" {\n sketch = " + text[:maxBytes-100] + "1\n}\n"
			}
			told := readRubbish(t, text)
			assert.Contains(t, told, says)
		})
	}
}

// Random mixtures of what rubbish is made of are refused as cheaply.
func TestHuntRubbish(t *testing.T) {
	pieces := []string{"[", "]", "(", ")", "{", "}", "\"", "\"\"", ",", "=", "a", "a.", "a b", "1", "1 ", ".5", "-", "+", "!", "*", "/", "//", "#", "/*", "*/", "#x\n",
		"\n", "\r\n", "\r", " ", "\t", "${", "%{", "$${", "<<A\n", "é", "😀", "\u202e", "\x7f", "\\", "'", "`", ";", ":", "::", "...", "=>", "a=1\n", "a = [1, 2]\n", "a {\n", "a \"b\" {\n", "}\n",
		"part \"p\" {\n", "run \"x\" {\n", "rod \"r\" {\n from = a.b\n to = c.d\n}\n", "points = { a = [1, 2] }\n", "\"a\" ", "1,", "[1,1],", "1+"}
	hunt.Each(t, 12, func(t *testing.T, random *rand.Rand) {
		size := maxBytes - random.IntN(maxBytes/4)
		var text strings.Builder
		some := make([]string, 1+random.IntN(4))
		for i := range some {
			some[i] = pieces[random.IntN(len(pieces))]
		}
		begin := []string{"", "a = ", "part \"p\" {\n points = { a = [", "run \"x\" {\n view = \""}
		text.WriteString(begin[random.IntN(len(begin))])
		for text.Len() < size {
			text.WriteString(some[random.IntN(len(some))])
		}
		readRubbish(t, text.String())
	})
}

// An ordinary run of ten thousand parts is read all the same.
func TestLargeRunIsRead(t *testing.T) {
	var text strings.Builder
	text.WriteString("run \"x\" {\n  units = \"mm\"\n}\n")
	for i := range maxParts {
		fmt.Fprintf(&text, "part \"p%d\" {\n  pivot = [%d, 0] # here\n  points = { a = [%d, 60], b = polar(9, 2 * 3) }\n}\n", i, i, i)
	}
	text.WriteString("control \"c\" { of = p0 }\n")
	require.Less(t, text.Len(), maxBytes)
	run := read(t, text.String())
	assert.Len(t, run.Parts, maxParts)
	_, why, _ := firstRubbish([]byte(text.String()))
	assert.Empty(t, why)
}
