package solve_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// allFinite fails where a number of a result is NaN or infinite.
func allFinite(t *testing.T, v reflect.Value, where string) {
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			require.Fail(t, "no number", "%s is %v", where, v.Float())
		}
	case reflect.Pointer:
		if !v.IsNil() && v.Elem().Kind() == reflect.Float64 {
			allFinite(t, v.Elem(), where)
		} else if !v.IsNil() && v.Elem().Type() == reflect.TypeFor[solve.Sweep]() {
			allFinite(t, v.Elem(), where)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			allFinite(t, v.Index(i), fmt.Sprintf("%s[%d]", where, i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				allFinite(t, v.Field(i), where+"."+f.Name)
			}
		}
	}
}

// judgeText runs everything on a text, whatever it is, and checks what must
// hold of any answer.
func judgeText(t *testing.T, text []byte) {
	run, err := linkage.Read(&linkage.Source{Name: "fuzz.hcl", Text: text})
	if err != nil {
		require.NotEmpty(t, err.Error())
		return
	}
	for _, c := range run.Controls { // keep a round short
		c.From, c.To = math.Max(c.From, -200), math.Min(c.To, 200)
	}
	m, err := solve.Compile(run)
	if err != nil {
		require.Contains(t, err.Error(), "fuzz.hcl:")
		return
	}
	result, err := m.Check()
	if err != nil {
		require.Contains(t, err.Error(), "fuzz.hcl:")
		return
	}
	allFinite(t, reflect.ValueOf(*result), "result")
	for _, s := range result.Sweeps {
		require.True(t, s.Explored[0] <= s.Low && s.Low <= 0 && 0 <= s.High && s.High <= s.Explored[1], "%v in %v", []float64{s.Low, s.High}, s.Explored)
		for _, p := range s.Parts {
			require.True(t, p.Least <= p.Neutral && p.Neutral <= p.Most, "%s %+v", p.Name, p.Extent)
		}
		columns, rows := tableOf(t, s, 7)
		require.Len(t, rows, 8)
		for _, row := range rows {
			require.Len(t, row, len(columns))
			allFinite(t, reflect.ValueOf(row), "row")
		}
	}
}

// FuzzCheck judges arbitrary text.
func FuzzCheck(f *testing.F) {
	for _, name := range demoNames(f) {
		f.Add([]byte(demoText(f, name)))
	}
	f.Fuzz(func(t *testing.T, text []byte) { judgeText(t, text) })
}

// FuzzTopology judges runs put together from arbitrary choices, so that most
// of them are read.
func FuzzTopology(f *testing.F) {
	f.Add([]byte("\x02\x00\x10\x20\x30\x40\x50\x60\x70\x80\x90\xa0\xb0\xc0\xd0\xe0\xf0"))
	f.Add([]byte("four parts in a ring, two of them carried, one sliding"))
	f.Add([]byte("two cables drawn up against each other, one that pushes and one with a spring"))
	f.Add([]byte("\xff\xfe\xfd\x01\x02\x03 floats and rods with points of their own \x00\x00\x00"))
	f.Fuzz(func(t *testing.T, choices []byte) { judgeText(t, []byte(topology(choices))) })
}

// cables writes a cable or a pair in a rod's place.
func cables(i, parts int, pick func(n int) int) string {
	held := func() string {
		if pick(3) == 0 {
			return "frame." + string("ab"[pick(2)])
		}
		return fmt.Sprintf("p%d.%c", pick(parts), "abc"[pick(3)])
	}
	core := func(from, to int) string {
		return fmt.Sprintf(" from = p%d.%c\n to = p%d.%c\n conduit = [%s, %s]\n", from, "abc"[pick(3)], to, "abc"[pick(3)], held(), held())
	}
	wound := func(from, to int, one, other string) string {
		return fmt.Sprintf(" from = p%d\n to = p%d\n radius = [%d, %d]\n winds = [%q, %q]\n", from, to, 20+pick(40), 20+pick(40), one, other)
	}
	from, to := pick(parts), pick(parts)
	switch pick(4) {
	case 0:
		return fmt.Sprintf("cable \"r%d\" {\n%s pushes = true\n}\n", i, core(from, to))
	case 1:
		return fmt.Sprintf("cable \"r%d\" {\n%s spring = %q\n}\n", i, wound(from, to, "up", []string{"up", "down"}[pick(2)]), []string{"plus", "minus"}[pick(2)])
	}
	a, b := core(from, to), core(from, to)
	if pick(3) == 0 {
		other := []string{"up", "down"}
		k := pick(2)
		a, b = wound(from, to, "up", other[k]), wound(from, to, "down", other[1-k])
	}
	return fmt.Sprintf("cable \"a%[1]d\" {\n%[2]s stiffness = %[4]d\n}\ncable \"b%[1]d\" {\n%[3]s stiffness = %[5]d\n}\npair \"r%[1]d\" {\n cables = [a%[1]d, b%[1]d]\n pretension = %[6]d\n}\n",
		i, a, b, 5+pick(50), 5+pick(50), 10+pick(200))
}

// topology writes a run from choices, which are used over and over.
func topology(choices []byte) string {
	at := 0
	pick := func(n int) int {
		if len(choices) == 0 {
			return 0
		}
		c := int(choices[at%len(choices)]) + at/len(choices)
		at++
		return c % n
	}
	place := func() string {
		return fmt.Sprintf("[%d, %d, %d]", pick(40)*10-200, pick(30)*10-150, []int{0, 0, 0, 8, -30}[pick(5)])
	}
	var b strings.Builder
	b.WriteString("run \"fuzz\" {\n units = \"mm\"\n}\nfixed \"frame\" {\n points = { a = [0, 0], b = [170, -60] }\n round \"boss\" {\n at = [35, 45]\n radius = 6\n }\n}\n")
	parts := 2 + pick(4)
	rods := 0
	for i := range parts {
		fmt.Fprintf(&b, "part \"p%d\" {\n", i)
		axis := []string{"", "", "", " axis = [0, 1, 0]\n", " axis = [0, 0, -1]\n", " axis = [1, 2, 3]\n"}[pick(6)]
		switch k := pick(8); {
		case i > 0 && k == 0:
			fmt.Fprintf(&b, " pivot = p%d.a\n%s", pick(i), axis)
		case i > 0 && k == 1:
			fmt.Fprintf(&b, " slide = [%d, %d]\n", pick(5)+1, pick(5)-2)
		case i > 0 && k == 2: // floats
			rods += 2
		default:
			fmt.Fprintf(&b, " pivot = %s\n%s", place(), axis)
		}
		fmt.Fprintf(&b, " points = { a = %s, b = %s, c = %s }\n edge \"tail\" {\n through = [%s, %s]\n thick = 3\n }\n}\n", place(), place(), place(), place(), place())
		rods++
	}
	rods += pick(12)/11 - 1 // mostly as many as there must be
	end := func(i int) string {
		if pick(9) == 0 && i > 0 {
			return fmt.Sprintf("r%d.mid", pick(i))
		}
		if pick(7) == 0 {
			return "frame." + string("ab"[pick(2)])
		}
		return fmt.Sprintf("p%d.%c", pick(parts), "abc"[pick(3)])
	}
	for i := range rods {
		if pick(5) == 0 {
			b.WriteString(cables(i, parts, pick))
			continue
		}
		fmt.Fprintf(&b, "rod \"r%d\" {\n from = %s\n to = %s\n diameter = 4\n", i, end(i), end(i))
		if pick(3) == 0 {
			fmt.Fprintf(&b, " points = { mid = [%d, %d] }\n", pick(20)*10, pick(20)*10)
		}
		b.WriteString("}\n")
	}
	b.WriteString("control \"hand\" {\n of = p0\n from = -90\n to = 90\n}\n")
	fmt.Fprintf(&b, "output \"out\" {\n of = p%d.b\n along = [1, 0.5]\n}\n", parts-1)
	fmt.Fprintf(&b, "stop \"metal\" {\n touch = [p%d.tail, frame.boss]\n}\n", pick(parts))
	fmt.Fprintf(&b, "stop \"number\" {\n of = p%d\n at = %d\n}\n", pick(parts), pick(60)-30)
	b.WriteString("require \"over-center\" {\n least = 5\n}\nrequire \"rod-angle\" {\n least = 20\n}\nrequire \"stops\" {\n}\nrequire \"misalignment\" {\n most = 10\n}\n")
	fmt.Fprintf(&b, "require \"sense\" {\n of = [hand, out]\n turns = \"same\"\n}\nrequire \"clearance\" {\n between = [p0.tail, frame.boss]\n least = 1\n}\n")
	return b.String()
}
