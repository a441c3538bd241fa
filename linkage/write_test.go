package linkage

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rewrite rewrites a file that must be sound, with changes that can be made.
func rewrite(t testing.TB, text string, changes ...Change) string {
	t.Helper()
	out, err := Rewrite(&Source{Name: "test.hcl", Text: []byte(text)}, changes)
	require.NoError(t, err)
	return string(out)
}

// What is wanted is changed where it stands, and nothing else, however it is
// written.
func TestRewrite(t *testing.T) {
	for name, c := range map[string]struct {
		changes  []Change
		old, new string // what is replaced in bench
	}{
		"a point":                   {[]Change{{"beam.left.x", 12.25}}, "[12, 6]", "[12.25, 6]"},
		"both coordinates":          {[]Change{{"beam.left.y", -6.5}, {"beam.left.x", 12.25}}, "[12, 6]", "[12.25, -6.5]"},
		"a fraction":                {[]Change{{"lever.foot.x", 0.6}}, "[1/2, 8]", "[0.6, 8]"},
		"a sum in brackets":         {[]Change{{"lever.horn.y", -2.3}}, "-(2 + 5/16)", "-2.3"},
		"a height":                  {[]Change{{"lever.horn.z", 1.5}}, "-(2 + 5/16), 1]", "-(2 + 5/16), 1.5]"},
		"a height that is new":      {[]Change{{"beam.left.z", 0.125}}, "[12, 6]", "[12, 6, 0.125]"},
		"all of a place":            {[]Change{{"beam.left.x", 1}, {"beam.left.y", 2}, {"beam.left.z", 3}}, "[12, 6]", "[1, 2, 3]"},
		"a height that is none":     {[]Change{{"beam.left.z", 0.0000004}}, "", ""},
		"a pivot":                   {[]Change{{"crank.pivot.y", -1.0625}}, "[7, -1]", "[7, -1.0625]"},
		"a fixed point":             {[]Change{{"frame.hook.x", 20.5}}, "[20, 12]", "[20.5, 12]"},
		"a rod's point":             {[]Change{{"link.bracket.x", 3.5}}, "[3, -2]", "[3.5, -2]"},
		"a length":                  {[]Change{{"link.length", 7.125}}, "7 + 1/4", "7.125"},
		"a stop":                    {[]Change{{"forward.at", 25.5}}, "at = 24", "at = 25.5"},
		"an arm":                    {[]Change{{"crank.upper.x", 6.75}}, "[-0.5, 0.25]", "[-0.25, 0.25]"},
		"an arm in polar":           {[]Change{{"lever.tab.y", -2.5}}, "polar(2, -90)", "polar(2.5, -90)"},
		"an arm in polar, turned":   {[]Change{{"lever.tab.x", 2}, {"lever.tab.y", 0}}, "polar(2, -90)", "polar(2, 0)"},
		"an arm in polar, both":     {[]Change{{"lever.tab.x", 1}, {"lever.tab.y", -1}}, "polar(2, -90)", "polar(1.414214, -45)"},
		"an arm out of the drawing": {[]Change{{"lever.tab.z", 0.5}}, "polar(2, -90)", "[0, -2, 0.5]"},
		"an arm that is carried":    {[]Change{{"grip.end.x", 8.5}}, "[0, 1]", "[0.5, 1]"},
		"six decimals":              {[]Change{{"beam.left.x", 1.0 / 3}}, "[12, 6]", "[0.333333, 6]"},
		"six decimals, rounded":     {[]Change{{"beam.left.x", -2.0 / 3}}, "[12, 6]", "[-0.666667, 6]"},
		"no exponent":               {[]Change{{"beam.left.x", 1e-6}, {"beam.left.y", 999999.5}}, "[12, 6]", "[0.000001, 999999.5]"},
		"no minus before nothing":   {[]Change{{"beam.left.x", -1e-9}}, "[12, 6]", "[0, 6]"},
		"what it is already":        {[]Change{{"beam.left.x", 12}, {"lever.foot.x", 0.5}, {"link.length", 7.25}, {"push.length", math.Hypot(7, 7)}, {"lever.tab.y", -2}}, "", ""},
		"hardly anything":           {[]Change{{"beam.left.x", 12.0000004}, {"forward.at", 23.9999996}}, "", ""},
		"nothing":                   {nil, "", ""},
		"a length that was left out": {[]Change{{"push.length", 9.875}},
			"to   = plunger.eye\n", "to   = plunger.eye\n  length = 9.875\n"},
	} {
		t.Run(name, func(t *testing.T) {
			want := bench
			if c.old != "" {
				require.Equal(t, 1, strings.Count(bench, c.old))
				want = strings.Replace(bench, c.old, c.new, 1)
			}
			assert.Equal(t, want, rewrite(t, bench, c.changes...))
		})
	}
}

// Arms are measured from their pivot: they move with it, or stay where they are
// wanted.
func TestRewriteArms(t *testing.T) {
	moved := rewrite(t, bench, Change{"crank.pivot.x", 7.5})
	assert.Equal(t, strings.Replace(bench, "[7, -1]", "[7.5, -1]", 1), moved)
	assert.Equal(t, Vec{7, -0.75, 0}, at(t, find(t, read(t, moved), "crank"), "upper"))

	// The tip stays, and with it the grip that it carries.
	stays := rewrite(t, bench, Change{"crank.pivot.x", 7.5}, Change{"crank.tip.x", 8}, Change{"crank.upper.x", 6.5}, Change{"crank.upper.y", -0.5})
	assert.Equal(t, strings.NewReplacer("[7, -1]", "[7.5, -1]", "[-0.5, 0.25], tip = [1, 0]", "[-1, 0.5], tip = [0.5, 0]").Replace(bench), stays)
	assert.Equal(t, Vec{8, -1, 0}, find(t, read(t, stays), "grip").Pivot)

	// An arm of a carried part stays where the carrier goes on.
	carried := rewrite(t, bench, Change{"grip.end.x", 8}, Change{"grip.end.y", 0}, Change{"crank.tip.y", -1.25})
	assert.Equal(t, strings.NewReplacer("tip = [1, 0]", "tip = [1, -0.25]", "end = [0, 1]", "end = [0, 1.25]").Replace(bench), carried)
	assert.Equal(t, Vec{8, 0, 0}, at(t, find(t, read(t, carried), "grip"), "end"))

	// What is left from a pivot is left from the pivot as it is written.
	third := rewrite(t, bench, Change{"crank.pivot.x", 7 + 1.0/3}, Change{"crank.tip.x", 8 + 1.0/3})
	assert.Equal(t, strings.Replace(bench, "[7, -1]", "[7.333333, -1]", 1), third)
}

// Angles keep their turns and their plane.
func TestRewritePolar(t *testing.T) {
	for _, c := range []struct {
		old  string
		x, y float64
		new  string
	}{
		{"polar(2, 270)", 0, -3, "polar(3, 270)"},
		{"polar(2, 270)", -2, -2, "polar(2.828427, 225)"},
		{"polar(2, -450)", 0, -3, "polar(3, -450)"},
		{`polar(2, -90, "yx")`, 0, -3, `polar(3, -180, "yx")`},
		{`polar(2, 540, "yz")`, 0, -3, `polar(3, 540, "yz")`},
		{`polar(2, 0, "yz")`, 1, 2, "[1, 2, 0]"},
		{"polar(2, 360/8)", 0, 0, "polar(0, 360/8)"}, // an angle of nothing stays
		{"polar( 2 /* long */, # and\n -90 )", 0, -2.5, "polar( 2.5 /* long */, # and\n -90 )"},
		{"(polar((2), (-90)))", 1, 0, "(polar(1, 0))"},
	} {
		text := strings.Replace(bench, "polar(2, -90)", c.old, 1)
		assert.Equal(t, strings.Replace(bench, "polar(2, -90)", c.new, 1), rewrite(t, text, Change{"lever.tab.x", c.x}, Change{"lever.tab.y", c.y}), c.old)
	}
	// Out of the drawing it can only be a list; its comments are kept.
	text := strings.Replace(bench, "polar(2, -90)", "polar(2 /* long */, # and\n -90)", 1)
	assert.Equal(t, strings.Replace(bench, "polar(2, -90)", "([0, -2, 1] /* long */ # and\n)", 1), rewrite(t, text, Change{"lever.tab.z", 1}))
	// A long arm is where it was wanted but for the angle's last decimal.
	long := rewrite(t, strings.Replace(bench, "polar(2, -90)", "polar(20000, 30)", 1), Change{"lever.tab.x", 12345.678}, Change{"lever.tab.y", -9876.54321})
	tab := at(t, find(t, read(t, long), "lever"), "tab")
	assert.InDelta(t, 12345.678, tab.X, 16000*0.5e-6*math.Pi/180+0.5e-6)
	assert.InDelta(t, -9876.54321, tab.Y, 16000*0.5e-6*math.Pi/180+0.5e-6)
}

// Comments, line ends, tabs and everything else that is no changed number stay.
func TestRewriteKeepsTheRest(t *testing.T) {
	changes := []Change{{"lever.foot.x", 0.625}, {"lever.foot.z", 2}, {"link.length", 7.5}, {"push.length", 9.875}}
	for name, c := range map[string]struct{ old, new string }{
		"as it is":              {},
		"comments in a list":    {"[1/2, 8]", "[ # first\n 1/2 /* x */ , // then\n 8 # last\n ]"},
		"comments in a number":  {"7 + 1/4", "7 + /* and */ 1/4"},
		"a comment to the end":  {"7 + 1/4", "(7 + # and\n 1/4) # more"},
		"a comma too many":      {"[1/2, 8]", "[1/2, 8, ]"},
		"no spaces":             {"[1/2, 8]", "[1/2,8]"},
		"comments at a rod":     {"to   = plunger.eye\n", "to   = plunger.eye # hole\n"},
		"a comment over lines":  {"to   = plunger.eye\n", "to   = plunger.eye /* hole\n to\n hole */ # yes\n"},
		"to before from":        {"from = link.bracket\n  to   = plunger.eye\n", "to = plunger.eye\n  /* a */ from = link.bracket\n"},
		"a byte order mark":     {"run \"Bench\"", byteOrderMark + "run \"Bench\""},
		"letters of many bytes": {"run \"Bench\"", "# é 螺 🛩\nrun \"Bänk\""},
		"numbers in text":       {"right way round", "7 + 1/4 [1/2, 8]"},
	} {
		for ends, ending := range map[string][2]string{"": {"\n", "  "}, " CRLF": {"\r\n", "  "}, " CR": {"\r", "  "}, " tabs": {"\n", "\t"}} {
			t.Run(name+ends, func(t *testing.T) {
				text := bench
				if c.old != "" {
					require.Equal(t, 1, strings.Count(bench, c.old))
					text = strings.Replace(bench, c.old, c.new, 1)
				}
				text = strings.NewReplacer("\n", ending[0], "  ", ending[1]).Replace(text)
				out := rewrite(t, text, changes...)
				run := read(t, out)
				assert.Equal(t, Vec{0.625, 8, 2}, at(t, find(t, run, "lever"), "foot"))
				assert.Equal(t, []float64{7.5, 9.875}, []float64{run.Rods[0].Length, run.Rods[1].Length})
				// Taking the new numbers out again gives the text as it was.
				added := ending[1] + "length = 9.875" + ending[0]
				require.Equal(t, 1, strings.Count(out, added))
				out = strings.Replace(out, added, "", 1)
				for _, back := range [][2]string{{"0.625", "1/2"}, {"8, 2", "8"}, {"(7.5 # and" + ending[0] + ")", "(7 + # and" + ending[0] + " 1/4)"}, {"7.5 /* and */", "7 + /* and */ 1/4"}, {"= 7.5", "= 7 + 1/4"}} {
					out = strings.Replace(out, back[0], back[1], 1)
				}
				assert.Equal(t, text, out)
			})
		}
	}
}

// A length that was left out stands in line with the ends.
func TestRewriteAddsInLine(t *testing.T) {
	without := strings.Replace(bench, "  length       = 7 + 1/4\n", "", 1)
	require.NotEqual(t, bench, without)
	assert.Equal(t, strings.Replace(bench, "7 + 1/4", "7.125", 1), rewrite(t, without, Change{"link.length", 7.125}))
	// What it follows from its ends as they are changed needs no writing.
	follows := rewrite(t, without, Change{"link.length", 9}, Change{"lever.horn.x", 6.5}, Change{"lever.horn.y", 8.25}, Change{"lever.horn.z", 0})
	assert.NotContains(t, follows, "length =")
	assert.Equal(t, 9.0, read(t, follows).Rods[0].Length)
}

// A block on one line stays on one line.
func TestRewriteOneLine(t *testing.T) {
	text := strings.Replace(bench, "fixed \"frame\"", "fixed \"wall\" { points = { eye = [1, 2], lug = [3, 4] } }\n\nfixed \"frame\"", 1)
	assert.Equal(t, strings.Replace(text, "[3, 4] }", "[3.5, 4, -1] }", 1), rewrite(t, text, Change{"wall.lug.x", 3.5}, Change{"wall.lug.z", -1}))
	text = strings.Replace(text, "[3, 4] }", "[(3 + # three\n 0), 4] }", 1)
	assert.Equal(t, strings.Replace(text, "(3 + # three\n 0)", "(3.5 # three\n)", 1), rewrite(t, text, Change{"wall.lug.x", 3.5}))
}

// Names are told apart whole, whatever letters they have.
func TestRewriteNames(t *testing.T) {
	text := strings.NewReplacer("foot", "é-1", "lever", "l_é-2", "end = [0, 1]", "e\u0301 = [0, 1], é-1 = [2, 2]").Replace(bench)
	out := rewrite(t, text, Change{"l_é-2.é-1.x", 0.75}, Change{"grip.e\u0301.x", 8.5}, Change{"grip.é-1.y", 3})
	assert.Equal(t, strings.NewReplacer("[1/2, 8]", "[0.75, 8]", "[0, 1], é-1 = [2, 2]", "[0.5, 1], é-1 = [2, 4]").Replace(text), out)
}

// What reads as a Setting would read it is what is written, to the decimals
// written.
func TestRewriteIsASetting(t *testing.T) {
	for _, dimension := range []string{"lever.pivot.x", "crank.pivot.y", "crank.tip.x", "crank.upper.z", "grip.end.y", "lever.tab.x", "frame.datum.y", "link.bracket.x", "push.length", "forward.at"} {
		set := read(t, bench, Setting{dimension, "3.14159265"}).figures()
		written := read(t, rewrite(t, bench, Change{dimension, 3.14159265})).figures()
		require.Len(t, written, len(set))
		for name, value := range set {
			assert.InDelta(t, value, written[name], 1.1e-6, "%s after %s", name, dimension)
		}
		assert.InDelta(t, 3.14159265, written[dimension], 0.6e-6)
	}
}

func TestRewriteRefuses(t *testing.T) {
	for _, c := range []struct {
		changes []Change
		says    string
	}{
		{[]Change{{"lever.foto.x", 1}}, `test.hcl: the file has no number for "lever.foto.x"; did you mean "lever.foot.x"?`},
		{[]Change{{"grip.pivot.x", 1}}, `no number for "grip.pivot.x"`},
		{[]Change{{"beam.pivot.x", 1}}, `no number for "beam.pivot.x"`},
		{[]Change{{"heel-stop.at", 1}}, `no number for "heel-stop.at"`},
		{[]Change{{"", 1}}, `no number for ""`},
		{[]Change{{"lever.foot.x", 1}, {"lever.foot.x", 1}}, `"lever.foot.x" is changed twice`},
		{[]Change{{"lever.foot.x", math.NaN()}}, "no number"},
		{[]Change{{"lever.foot.x", math.Inf(-1)}}, "sizes go to"},
		{[]Change{{"lever.foot.x", 1.1e6}}, "can't be changed to 1.1e+06: sizes go to 1 000 000"},
		{[]Change{{"link.length", -1}}, "would not read:\ntest.hcl:62,18: a rod's length is more than 0"},
		{[]Change{{"push.length", 0.0000001}}, "a rod's length is more than 0"},
		{[]Change{{"crank.upper.x", 7}, {"crank.upper.y", -1}}, "lies on the axis"},
		{[]Change{{"frame.datum.x", 8}, {"frame.datum.y", -1}}, "drawn at the same place"},
	} {
		out, err := Rewrite(&Source{Name: "test.hcl", Text: []byte(bench)}, c.changes)
		assert.Nil(t, out)
		assert.ErrorContains(t, err, c.says, "%v", c.changes)
	}
	_, err := Rewrite(&Source{Name: "test.hcl", Text: []byte("run")}, nil)
	var all *Faults
	assert.ErrorAs(t, err, &all)
}

// rewriteTexts are sound files, written in several ways.
func rewriteTexts(t testing.TB) [][]byte {
	demos := texts(t, "../demo/*.hcl")
	for i, text := range demos { // what is written beside mirror has tests of its own
		demos[i] = []byte(writtenOut(t, string(text)))
	}
	return append(demos, []byte(bench),
		[]byte(strings.ReplaceAll(bench, "\n", "\r\n")),
		[]byte(strings.ReplaceAll(bench, "\n", "\r")),
		[]byte(strings.NewReplacer(",", " /* , */ , # ,\n", " + ", " /* 1 */ + /* 2 */ ").Replace(bench)))
}

// Whatever dimensions are changed at once, by whatever amount, what is written
// reads as it was meant.
func TestRewriteAtRandom(t *testing.T) {
	for i, text := range rewriteTexts(t) {
		random := rand.New(rand.NewPCG(3, uint64(i)))
		made := 0
		for range 5 {
			by := math.Pow(10, float64(random.IntN(9)-7)) * (2*random.Float64() - 1)
			if checkRewrite(t, text, random.Uint64()&random.Uint64(), by) {
				made++
			}
		}
		assert.Positive(t, made, "text %d: no changes can be made", i)
	}
}

// FuzzRewrite checks that what is rewritten reads as it was meant.
func FuzzRewrite(f *testing.F) {
	for _, text := range rewriteTexts(f) {
		f.Add(text, uint64(1), 12.345)
		f.Add(text, uint64(77), -0.25)
		f.Add(text, uint64(0xffff_ffff_ffff), 1e-7)
	}
	f.Fuzz(func(t *testing.T, text []byte, seed uint64, by float64) { checkRewrite(t, text, seed, by) })
}

// checkRewrite changes the dimensions that the bits of seed pick, each by the
// same, and reports whether they can be. What is written must read as
// Settings would read it, with comments and texts as they were; and changing
// the dimensions back gives what they were.
func checkRewrite(t *testing.T, text []byte, seed uint64, by float64) bool {
	src := &Source{Name: "fuzz.hcl", Text: text}
	run, err := Read(src)
	if err != nil {
		_, err := Rewrite(src, nil)
		require.Error(t, err)
		return false
	}
	same, err := Rewrite(src, nil)
	require.NoError(t, err)
	require.Equal(t, string(text), string(same))

	var changes, back []Change
	var settings []Setting
	for i, d := range run.Dimensions() {
		if seed>>(i%61)&1 == 1 {
			value := d.Value() + by
			changes = append(changes, Change{d.String(), value})
			back = append(back, Change{d.String(), d.Value()})
			settings = append(settings, Setting{d.String(), strconv.FormatFloat(value, 'f', -1, 64)})
		}
	}
	for i, rod := range run.Rods {
		for _, e := range rod.Ends {
			if seed>>(i%59)&2 == 2 {
				name := e.String() + ".engaged"
				changes = append(changes, Change{name, e.Engaged + by})
				back = append(back, Change{name, e.Engaged})
			}
		}
	}
	out, err := Rewrite(src, changes)
	if err != nil {
		require.Nil(t, out)
		return false
	}
	require.Equal(t, kept(text), kept(out))
	written, err := Read(&Source{Name: "fuzz.hcl", Text: out})
	require.NoError(t, err)
	checkRun(t, written)
	now := written.figures()
	largest := 0.0
	for _, value := range now {
		largest = max(largest, math.Abs(value))
	}
	// A coordinate is rounded once, or an angle; a length is of two points.
	rounding := 1.1e-6 + 2*polarShare*largest
	for _, c := range changes {
		require.InDelta(t, c.Value, now[c.Dimension], rounding, c.Dimension)
	}
	if set, err := Read(src, settings...); err == nil {
		figures := set.figures()
		require.Len(t, now, len(figures))
		for name, value := range figures {
			if strings.HasSuffix(name, ".engaged") {
				continue // no Setting
			}
			require.InDelta(t, value, now[name], 4*rounding, name)
		}
	}
	again, err := Rewrite(&Source{Name: "fuzz.hcl", Text: out}, back)
	if err != nil {
		return true // a length that was added stays, and may be too short now
	}
	restored := read(t, string(again)).figures()
	for _, c := range back {
		require.InDelta(t, c.Value, restored[c.Dimension], rounding, c.Dimension)
	}
	return true
}

// kept returns the comments and texts of a file.
func kept(text []byte) []string {
	var all []string
	tokens, _ := hclsyntax.LexConfig(text, "", hcl.InitialPos)
	for _, tok := range tokens {
		if tok.Type == hclsyntax.TokenComment || tok.Type == hclsyntax.TokenQuotedLit {
			all = append(all, string(tok.Bytes))
		}
	}
	return all
}
