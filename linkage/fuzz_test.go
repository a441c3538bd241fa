package linkage

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzRead checks what holds of every input: Read returns either a run or
// faults, never both; every fault has words and a place in the file, or none;
// a run that reads refers only to what is in it and holds only finite numbers;
// reading again gives the same, and so does what is written out.
func FuzzRead(f *testing.F) {
	for _, text := range append(texts(f, "../demo/*.hcl"), texts(f, "../testdata/broken/*.hcl")...) {
		f.Add(text, "link.length", "7 + 1/4")
	}
	f.Add([]byte(head(f)), "swashplate.fore.x", "-80")
	f.Add([]byte(bench), "lever.pivot.x", "1")
	f.Add([]byte(bench), "crank.tip.z", "(((((")
	f.Add([]byte(bench), "idle.core", "31")
	f.Add([]byte(sized), "bench.arm", "2.5")
	f.Add([]byte(twoSided), "right-crank.out.x", "960")
	f.Add([]byte(twoSided), "", "")
	f.Add([]byte(cabled), "lift.pretension", "-1")
	f.Add([]byte(cabled), "tail-right.stiffness", "1/0")
	f.Add([]byte(strings.Replace(cabled, "[fore, tail]", "[tail, tail]", 1)), "tail-left.stiffness", "3")
	f.Add([]byte(strings.Replace(cabled, "[frame.aft, frame.up]", "[crosshead.up, lever.up]", 1)), "lever.up.x", "1e6")
	f.Add([]byte(strings.Replace(cabled, "7x19 1/8", "7x19 "+strings.Repeat("1/8 ", 9), 1)), "", "")
	for _, part := range []string{"(", "[", "{ a = ", `"${`, "-", "a ? ", "a::", "$${", "[for x in ", "]", "}", "<<A\n", "1e9", "1e-9*", "\x00", "\xff", "\ufeff", "\r", "/*"} {
		f.Add([]byte("a = "+strings.Repeat(part, 300)), "", "")
		f.Add([]byte(strings.Replace(bench, "7 + 1/4", strings.Repeat(part, 3), 1)), "link.length", strings.Repeat(part, 3))
	}
	f.Fuzz(func(t *testing.T, text []byte, dimension, value string) {
		var set []Setting
		if dimension != "" {
			set = []Setting{{dimension, value}}
		}
		run, err := Read(&Source{Name: "fuzz.hcl", Text: text}, set...)
		again, errAgain := Read(&Source{Name: "fuzz.hcl", Text: text}, set...)
		if err != nil {
			require.Nil(t, run)
			require.EqualError(t, errAgain, err.Error())
			checkFaults(t, err, len(text), strings.Contains(string(text)+dimension+value, "%!"))
			return
		}
		require.NotNil(t, run)
		require.NoError(t, errAgain)
		require.Equal(t, run.Size(), again.Size())
		checkRun(t, run)
		if dimension == "" {
			out, err := WrittenOut(&Source{Name: "fuzz.hcl", Text: text})
			require.NoError(t, err)
			again, err := Read(&Source{Name: "fuzz.hcl", Text: out})
			require.NoError(t, err)
			require.Equal(t, run.figures(), again.figures())
		}
	})
}

// texts returns the files of a pattern.
func texts(t testing.TB, pattern string) [][]byte {
	files, err := filepath.Glob(pattern)
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var all [][]byte
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		all = append(all, text)
	}
	return all
}

// checkFaults checks that faults can be told. odd says that the input itself
// holds what would otherwise be a slip of ours.
func checkFaults(t *testing.T, err error, size int, odd bool) {
	var all *Faults
	require.ErrorAs(t, err, &all)
	require.NotEmpty(t, all.List)
	for _, fault := range all.List {
		require.NotEmpty(t, fault.Says)
		require.True(t, odd || !strings.Contains(fault.Says, "%!"), "a format gone wrong: %s", fault.Says)
		require.LessOrEqual(t, 0, fault.Span.Start)
		require.LessOrEqual(t, fault.Span.Start, fault.Span.End)
		require.LessOrEqual(t, fault.Span.End, size)
		require.GreaterOrEqual(t, fault.Span.Line, 0)
	}
	for _, c := range err.Error() {
		require.True(t, c == '\n' || Printable(string(c)) == string(c) || c > 0x300, "unprintable %q", c)
	}
}

// checkRun checks that a run is one that a solver may rely on.
func checkRun(t *testing.T, run *Run) {
	checkPoint := func(ref PointRef) {
		require.True(t, (ref.Part == nil) != (ref.Rod == nil))
		require.NotEmpty(t, ref.Get().Name)
	}
	checkFeature := func(ref FeatureRef) {
		require.True(t, (ref.Part == nil) != (ref.Rod == nil))
		require.NotEmpty(t, ref.String())
		if ref.Rod != nil {
			require.NotNil(t, ref.Rod.Diameter)
		}
	}
	checkVec := func(v Vec) {
		require.True(t, v.Finite())
		require.False(t, beyond(v))
	}
	checkUnit := func(v Vec) { require.InDelta(t, 1, v.Norm(), 1e-15) }

	checkPlace := func(ref PlaceRef) {
		require.NotNil(t, ref.Part)
		require.True(t, ref.Point >= 0 || ref.Part.Motion == Turns && ref.Part.NamedPivot == nil)
		checkVec(ref.At())
	}

	require.Contains(t, []Unit{Millimeters, Inches}, run.Units)
	require.GreaterOrEqual(t, run.Sketch, 0.0)
	require.GreaterOrEqual(t, run.Uncertain, 0.0)
	require.Positive(t, run.Size())
	require.NotEmpty(t, run.Controls)
	for i, p := range run.Parts {
		require.Equal(t, i, p.Index)
		require.NotEmpty(t, p.Name)
		checkVec(p.Pivot)
		checkUnit(p.Axis)
		if p.Motion == Slides {
			checkUnit(p.Slide)
		}
		if p.Carrier != nil {
			checkPoint(*p.Carrier)
			require.NotNil(t, p.Carrier.Part)
			require.NotEqual(t, Fixed, p.Carrier.Part.Motion)
		}
		// Carriers end on the airframe.
		steps := 0
		for q := p; q.Carrier != nil; q = q.Carrier.Part {
			steps++
			require.LessOrEqual(t, steps, len(run.Parts))
		}
		for _, point := range p.Points {
			checkVec(point.At)
			if point.Bolt != nil {
				checkUnit(*point.Bolt)
			}
		}
		for _, f := range p.Features {
			require.GreaterOrEqual(t, f.Radius, 0.0)
			require.Equal(t, f.Shape == Round, len(f.Through) == 1)
			for _, v := range f.Through {
				checkVec(v)
			}
		}
	}
	for _, rod := range run.Rods {
		checkPoint(rod.From)
		checkPoint(rod.To)
		require.Positive(t, rod.Length)
		require.Positive(t, rod.Drawn)
		require.GreaterOrEqual(t, rod.Play, 0.0)
		require.True(t, rod.SecondPath || rod.Play == 0)
		require.False(t, rod.SecondPath && len(rod.Points) > 0)
		checkEnds(t, rod)
	}
	for i, c := range run.Cables {
		require.Equal(t, i, c.Index)
		require.NotEmpty(t, c.Name)
		checkCable(t, c, checkPoint)
	}
	for i, p := range run.Pairs {
		require.Equal(t, i, p.Index)
		require.NotEmpty(t, p.Name)
		checkPairOf(t, p)
	}
	if run.RiggedAt != nil {
		require.LessOrEqual(t, math.Abs(*run.RiggedAt), float64(Hottest))
	}
	require.Contains(t, append(airframes, ""), run.Airframe)
	require.Contains(t, []Craft{Airplane, Rotorcraft, ""}, run.Craft)
	for _, c := range run.Controls {
		require.NotNil(t, c.Of)
		require.LessOrEqual(t, c.From, 0.0)
		require.GreaterOrEqual(t, c.To, 0.0)
		require.Less(t, c.From, c.To)
		require.NotEmpty(t, c.Held)
		for _, h := range c.Held {
			require.True(t, c.From <= h && h <= c.To)
		}
	}
	for _, o := range run.Outputs {
		require.True(t, (o.Part == nil) != (o.Point == nil))
		if o.Point != nil {
			checkPoint(*o.Point)
			checkUnit(o.Along)
		}
	}
	for _, s := range run.Stops {
		if s.Of == nil {
			checkFeature(s.Touch[0])
			checkFeature(s.Touch[1])
		}
		if a := s.Adjust; a != nil {
			require.NotNil(t, s.Of)
			require.True(t, a[0] < a[1] && a[0] <= s.At && s.At <= a[1])
			require.Positive(t, s.Step)
		}
	}
	pinned := map[*Part]bool{}
	for i, p := range run.Pins {
		require.Equal(t, i, p.Index)
		require.NotEmpty(t, p.Name)
		require.NotNil(t, p.Of)
		require.False(t, pinned[p.Of])
		pinned[p.Of] = true
		require.Contains(t, []Motion{Turns, Slides}, p.Of.Motion)
		require.Positive(t, p.Within)
	}
	for _, q := range run.Requirements {
		require.Contains(t, requireKinds, q.Kind)
		for _, s := range q.Of {
			require.NotEmpty(t, s.Name())
		}
		if q.Kind == Clearance {
			checkFeature(q.Between[0])
			checkFeature(q.Between[1])
		}
		if q.Kind == Taut {
			require.NotNil(t, q.Pair)
			require.GreaterOrEqual(t, q.Least, 0.0)
		}
		if q.Kind == Meets {
			checkPoint(q.Points[0])
			checkPoint(q.Points[1])
			require.NotEqual(t, q.Points[0].Owner(), q.Points[1].Owner())
		}
		if q.Kind == Order {
			require.NotNil(t, q.First)
			require.NotNil(t, q.Then)
		}
	}
	blanks := 0
	for _, m := range run.Measurements {
		require.Contains(t, []MeasurementKind{Taped, Gauged}, m.Kind)
		require.NotEmpty(t, m.Name)
		checkPlace(m.From)
		checkPlace(m.To)
		require.NotEqual(t, m.From.At(), m.To.At())
		require.Positive(t, m.Within)
		require.True(t, m.Blank || m.Kind == Gauged || m.Is > 0)
		if m.Blank {
			blanks++
		}
	}
	require.Len(t, run.Blanks(), blanks)
	require.Equal(t, blanks, run.BlankFaults().found())
	for _, g := range run.Riggings {
		require.NotEmpty(t, g.Name)
		require.NotEmpty(t, g.Of.Name())
		require.NotNil(t, g.Control)
		require.NotEmpty(t, g.Readings)
		for _, reading := range g.Readings {
			require.True(t, g.Control.From <= reading[0] && reading[0] <= g.Control.To)
		}
		require.Positive(t, g.Within)
	}
}

// checkCable checks that a cable is one that a solver may rely on.
func checkCable(t *testing.T, c *Cable, checkPoint func(PointRef)) {
	require.True(t, c.Pair != nil || c.Pushes || c.Spring != "", "nothing keeps it taut")
	require.False(t, c.Pair != nil && (c.Pushes || c.Spring != "" || c.CoreGiven || c.Stiffness <= 0))
	require.GreaterOrEqual(t, c.Stiffness, 0.0)
	require.False(t, math.IsInf(c.Stiffness, 0))
	require.Contains(t, []string{"", "plus", "minus"}, c.Spring)
	require.Zero(t, c.Taken)
	if c.Open() {
		require.True(t, c.From == nil && c.To == nil && c.Conduit == nil && !c.Pushes && len(c.Ends) == 0)
		require.NotSame(t, c.Quadrants[0], c.Quadrants[1])
		for i, part := range c.Quadrants {
			require.Equal(t, Turns, part.Motion)
			require.Nil(t, part.Carrier)
			require.Positive(t, c.Radius[i])
			require.Equal(t, 1.0, math.Abs(c.Winds[i]))
		}
		require.True(t, c.Wire == nil || c.Length > 0 && c.Stiffness > 0)
		return
	}
	require.True(t, c.Wire == nil && c.Length == 0 && c.Radius == [2]float64{} && c.Winds == [2]float64{})
	require.Positive(t, c.Core)
	require.True(t, c.CoreGiven || c.Core == c.Drawn)
	for _, leg := range c.Legs() {
		checkPoint(leg[0])
		checkPoint(leg[1])
		require.True(t, leg[0].Rod == nil && leg[1].Rod == nil)
		require.NotEqual(t, leg[0].Get().At, leg[1].Get().At)
	}
	require.LessOrEqual(t, len(c.Ends), 2)
	for _, e := range c.Ends {
		require.Same(t, c, e.Cable)
		require.Contains(t, cableSides, e.Side)
		require.Same(t, e, c.End(e.Side))
		require.Positive(t, e.Thread.Pitch)
		require.True(t, e.Engaged > 0 && e.Least > 0 && e.Step >= 0)
		require.True(t, e.Most == nil || *e.Most > 0)
	}
}

// checkPairOf checks that two cables pull against each other.
func checkPairOf(t *testing.T, p *Pair) {
	require.Positive(t, p.Pretension)
	first, second := p.Cables[0], p.Cables[1]
	require.NotSame(t, first, second)
	require.True(t, first.Pair == p && second.Pair == p && first.Open() == second.Open())
	if first.Open() {
		for i, part := range first.Quadrants {
			k := slices.Index(second.Quadrants[:], part)
			require.NotEqual(t, -1, k)
			require.Equal(t, first.Winds[i], -second.Winds[k])
		}
	}
}

// checkEnds checks that a rod's threaded ends are ones that can be turned.
func checkEnds(t *testing.T, rod *Rod) {
	require.LessOrEqual(t, len(rod.Ends), 2)
	for _, e := range rod.Ends {
		require.Same(t, rod, e.Rod)
		require.Contains(t, rodSides, e.Side)
		require.Same(t, e, rod.End(e.Side))
		require.Positive(t, e.Thread.Pitch)
		require.LessOrEqual(t, e.Thread.Pitch, coarsest*e.Thread.Diameter*(1+1e-15))
		for _, length := range []*float64{&e.Engaged, &e.Least, e.Most, e.Shank} {
			require.True(t, length == nil || *length > 0 && *length <= MaxSize)
		}
		require.GreaterOrEqual(t, e.Step, 0.0)
		require.True(t, e.Shank == nil || *e.Exposed() >= 0)
	}
}
