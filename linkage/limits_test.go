package linkage

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lower lowers a limit for the length of a test.
func lower(t *testing.T, limit *int, to int) {
	before := *limit
	*limit = to
	t.Cleanup(func() { *limit = before })
}

func TestLimits(t *testing.T) {
	t.Run("bytes", func(t *testing.T) {
		lower(t, &maxBytes, len(bench)-1)
		list := faults(t, bench)
		assert.Contains(t, list[0].Says, "larger than")
		assert.Equal(t, Span{}, list[0].Span)
		maxBytes++
		read(t, bench)
	})
	t.Run("depth", func(t *testing.T) {
		lower(t, &maxDepth, 3) // the edge's points lie four deep
		assert.Contains(t, faults(t, bench)[0].Says, "nested more than 3 deep")
		maxDepth = 4
		read(t, bench)
	})
	t.Run("signs", func(t *testing.T) {
		lower(t, &maxSigns, 1)
		assert.Contains(t, faults(t, strings.Replace(bench, "at = 24", "at = - -24", 1))[0].Says, "minus signs")
		assert.Contains(t, faults(t, strings.Replace(bench, "at = 24", "at = (- /* x */\n -24)", 1))[0].Says, "minus signs")
		read(t, bench)
	})
	t.Run("digits", func(t *testing.T) {
		lower(t, &maxDigits, 4)
		assert.Contains(t, faults(t, strings.Replace(bench, "at = 24", "at = 24.00", 1))[0].Says, "a number of 5 characters")
		read(t, bench)
	})
	t.Run("text", func(t *testing.T) {
		lower(t, &maxText, len("7x7 3/32 stainless"))
		assert.Contains(t, faults(t, strings.Replace(bench, "right way round", "the right way round", 1))[0].Says, "a text of 19 bytes")
		read(t, bench)
	})
	t.Run("parts", func(t *testing.T) {
		lower(t, &maxParts, 6)
		list := faults(t, bench)
		assert.Equal(t, "more than 6 parts", list[0].Says)
		assert.Equal(t, "part \"beam\"", bench[list[0].Span.Start:list[0].Span.End])
		maxParts = 7
		read(t, bench)
	})
	t.Run("held", func(t *testing.T) {
		lower(t, &maxHeldSweeps, 3) // hand at three settings of slide, slide at one of hand
		assert.Contains(t, faults(t, bench)[0].Says, "more than 3 combinations")
		maxHeldSweeps = 4
		read(t, bench)
	})
}

// Hostile files are refused before they cost more time or stack than reading
// them once. Each of these kills or hangs a parser without guards, at this
// size or at a megabyte.
func TestHostileFiles(t *testing.T) {
	const n = 100_000
	for name, c := range map[string]struct{ text, says string }{
		"parentheses":    {"a = " + strings.Repeat("(", n), "nested"},
		"lists":          {"a = " + strings.Repeat("[", n), "nested"},
		"tables":         {"a = " + strings.Repeat("{ a = ", n), "nested"},
		"calls":          {"a = " + strings.Repeat("f(", n), "nested"},
		"blocks":         {strings.Repeat("a {\n", n), "nested"},
		"signs":          {"a = " + strings.Repeat("-", n), "minus signs"},
		"nots":           {"a = " + strings.Repeat("!", n), "only + - * and /"},
		"templates":      {"a = " + strings.Repeat(`"${`, n), "filled into text"},
		"conditions":     {"a = " + strings.Repeat("a ? ", n), "no conditions"},
		"splats":         {"a = a" + strings.Repeat("[*]", n), "one by one"},
		"loops":          {"a = " + strings.Repeat("[for x in y : ", 20), "no for"},
		"namespaces":     {"a = " + strings.Repeat("a::", n), "one dot"},
		"digits":         {"a = " + strings.Repeat("1", n), "a number of 100000 characters"},
		"exponent":       {"a = 1e1000000", "out of range"},
		"exponent below": {"a = 1e-1000000", "out of range"},
		"long exponent":  {"a = 1e" + strings.Repeat("0", 30), ""},
		"dollars":        {`a = "` + strings.Repeat("$${", n), "not closed"},
		"closed dollars": {`a = "` + strings.Repeat("$${", n) + `"`, "a text of 300000 bytes"},
		"documents":      {strings.Repeat("a = <<A\n", 1000), "not after <<"},
		"closers":        {strings.Repeat("]})", n), "here belongs"},
		"nothing":        {strings.Repeat("\n", n), "nothing in the file"},
		"zeros":          {strings.Repeat("\x00", n), "U+0000"},
		"names":          {"part \"" + strings.Repeat("a", 900) + "\" {\n}\n", ""},
		"long names":     {"a = " + strings.Repeat("b", n) + "\n", ""},
		"dots":           {"a = " + strings.Repeat("b.", n) + "b\n", ""},
		"sum":            {"a = " + strings.Repeat("1+", n) + "1\n", ""},
		"comment":        {"/*" + strings.Repeat("x", n), "comment is not closed"},
		"commas":         {"a = " + strings.Repeat("1,2 ", n), "one number is wanted"},
		"listed commas":  {"a = [" + strings.Repeat("1,2, ", n) + "]\n", "looks like"},
		"on one line":    {strings.Repeat("a = b ", n), "a line of its own"},
		"readings":       {"measured \"x\" {\n  readings = [" + strings.Repeat("[0, 0], ", n/5) + "]\n}\n", "has no of"},
		"blanks":         {strings.Repeat("taped \"x\" {\n  from = y.pivot\n  to = y.z\n  is = blank\n}\n", n/50), "given already"},
		"same attribute": {strings.Repeat("a = 1\n", n/10), "already set"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Read(&Source{Name: "hostile.hcl", Text: []byte(c.text)})
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
			assert.Less(t, len(err.Error()), 20_000, "a message to read")
		})
	}
}

// Circles among very many parts and rods are found in one pass.
func TestLargeCircles(t *testing.T) {
	var text strings.Builder
	text.WriteString("run \"x\" {\n  units = \"mm\"\n}\n")
	const n = 3000
	for i := range n {
		fmt.Fprintf(&text, "part \"p%d\" {\n  pivot = p%d.a\n  points = { a = [%d, 0] }\n}\n", i, (i+1)%n, i)
		fmt.Fprintf(&text, "rod \"r%d\" {\n  from = r%d.a\n  to = r%d.a\n  points = { a = [%d, 0] }\n}\n", i, (i+1)%n, (7*i+3)%n, i)
	}
	list := faults(t, text.String())
	var circles []string
	for _, f := range list {
		if strings.Contains(f.Says, "circle") {
			circles = append(circles, f.Says)
		}
	}
	require.GreaterOrEqual(t, len(circles), 2)
	assert.Contains(t, circles[0], `"p0", "p1", "p2"`)
	assert.Contains(t, circles[0], fmt.Sprintf("and %d more carry each other", n-listedNames))
}
