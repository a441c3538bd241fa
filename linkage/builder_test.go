package linkage

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rebuilt makes a Builder that builds what was read from a file. It is what a
// program would write by hand, so it uses no more of the run than is exported,
// except how an arm was given: from its pivot.
func rebuilt(run *Run) *Builder {
	b := NewBuilder(run.Name, RunSpec{
		Units: run.Units, View: run.View, Forward: run.Forward, Up: run.Up, Right: run.Right, Sketch: run.Sketch,
		Uncertain: given(run.Uncertain, run.UncertainGiven), RiggedAt: run.RiggedAt, Airframe: run.Airframe, Craft: run.Craft,
	})
	for _, p := range run.Parts {
		rebuildPart(b, p)
	}
	for _, rod := range run.Rods {
		rebuildRod(b, rod)
	}
	for _, j := range run.Joints {
		b.Joint(j.Name, JointSpec{[2]string{j.Of[0].String(), j.Of[1].String()}, j.JointPlay})
	}
	if rotor := run.Rotor; rotor != nil {
		turns := anticlockwiseFromAbove
		if rotor.Clockwise {
			turns = clockwiseFromAbove
		}
		b.Rotor(RotorSpec{rotor.Hub.Name, turns})
	}
	for _, c := range run.Cables {
		rebuildCable(b, c)
	}
	for _, p := range run.Pairs {
		b.Pair(p.Name, PairSpec{[2]string{p.Cables[0].Name, p.Cables[1].Name}, p.Pretension})
	}
	for _, c := range run.Controls {
		spec := ControlSpec{Of: c.Of.Name, From: &c.From, To: &c.To, Held: c.Held, Plus: c.Plus, Minus: c.Minus, Grip: pointName(c.Grip), Detents: c.Detents}
		if c.Twist != nil {
			if spec.SeenFrom, spec.Turns = c.Twist.SeenFrom, "counterclockwise"; c.Twist.Clockwise {
				spec.Turns = "clockwise"
			}
		}
		b.Control(c.Name, spec)
	}
	for _, o := range run.Outputs {
		spec := OutputSpec{Plus: o.Plus, Minus: o.Minus, Reads: o.Reads, SeenAt: pointName(o.SeenAt), TiltsAlong: o.Tilts, LeadingEdge: pointName(o.LeadingEdge)}
		if o.Part != nil {
			spec.Of = o.Part.Name
		} else {
			spec.Of, spec.Along = o.Point.String(), &o.Along
		}
		if o.AgainstCarrier {
			spec.Against = "carrier"
		}
		b.Output(o.Name, spec)
	}
	for _, s := range run.Stops {
		if s.Of == nil {
			b.Stop(s.Name, StopSpec{Touch: [2]string{s.Touch[0].String(), s.Touch[1].String()}})
		} else {
			b.Stop(s.Name, StopSpec{Of: s.Of.Name, At: s.At, Side: s.Side, Adjust: s.Adjust, Step: orZero(given(s.Step, s.StepGiven)), Tolerance: s.Tolerance})
		}
	}
	for _, p := range run.Pins {
		b.Pin(p.Name, PinSpec{p.Of.Name, p.At, orZero(given(p.Within, p.WithinGiven))})
	}
	if t := run.Tolerance; t != nil {
		b.Tolerance(ToleranceSpec{t.Points, t.Pivots, t.Rods, t.Stops, t.JointPlay})
	}
	for _, q := range run.Requirements {
		rebuildRequirement(b, q)
	}
	for _, m := range run.Measurements {
		b.Measured(m.Kind, m.Name, MeasurementSpec{m.From.String(), m.To.String(), m.Is, m.Blank, m.Within})
	}
	for _, g := range run.Riggings {
		b.Rigged(g.Name, RiggingSpec{g.Of.Name(), g.Control.Name, g.Readings, g.Within, g.Date})
	}
	for _, v := range run.Varies {
		b.Vary(v.Name, VarySpec{v.Of, v.Among, v.Low, v.High, v.Step})
	}
	return b
}

// given returns a number that a file gives, nil for one that it doesn't.
func given(value float64, given bool) *float64 {
	if !given {
		return nil
	}
	return &value
}

func rebuildPart(b *Builder, p *Part) {
	spec := PartSpec{Points: pointSpecs(p.Points), Exact: p.Exact, Axis: &p.Axis, Tolerance: p.Tolerance, JointPlay: p.JointPlay}
	switch {
	case p.NamedPivot != nil:
		spec.On = p.NamedPivot.String()
	case p.HasPivot():
		spec.Pivot = &p.Pivot
	}
	spec.Ball, spec.Slides = p.Motion == Tilts, p.Motion == TurnsAndSlides
	if p.Motion == Roams {
		spec.Floats = "space"
	}
	if p.Spatial() {
		spec.Axis, spec.SquareTo = nil, &p.SquareTo
	}
	if p.Motion == Slides {
		spec.Slide = &p.Slide
	}
	for _, f := range p.Features {
		m := MetalSpec{Name: f.Name, Shape: f.Shape, Through: f.Through, Z: f.Z}
		switch {
		case f.Shape == Round:
			m.Radius = f.Radius
		case f.Bar:
			m.Diameter = given(2*f.Radius, true)
		default:
			m.Thick = 2 * f.Radius
		}
		spec.Metal = append(spec.Metal, m)
	}
	if p.Motion == Fixed {
		b.Fixed(p.Name, spec)
	} else {
		b.Part(p.Name, spec)
	}
}

func pointSpecs(points []Point) []PointSpec {
	var specs []PointSpec
	for _, p := range points {
		at := p.At
		if p.Arm {
			at = p.offset
		}
		specs = append(specs, PointSpec{p.Name, at, p.Arm, p.Bolt})
	}
	return specs
}

func rebuildRod(b *Builder, rod *Rod) {
	spec := RodSpec{
		From: rod.From.String(), To: rod.To.String(), Length: orZero(given(rod.Length, rod.LengthGiven)), Diameter: rod.Diameter,
		Misalignment: rod.Misalignment, Points: pointSpecs(rod.Points), SecondPath: rod.SecondPath, Play: rod.Play,
		Tolerance: rod.Tolerance, JointPlay: rod.JointPlay,
	}
	for _, e := range rod.Ends {
		spec.Ends = append(spec.Ends, EndSpec{
			Side: e.Side, Thread: e.Thread.Name, Left: e.Left, Engaged: e.Engaged, Least: orZero(given(e.Least, e.LeastGiven)),
			Most: orZero(e.Most), Shank: orZero(e.Shank), Step: given(e.Step, e.StepGiven), JointPlay: e.JointPlay,
		})
	}
	b.Rod(rod.Name, spec)
}

func rebuildCable(b *Builder, c *Cable) {
	spec := CableSpec{Core: orZero(given(c.Core, c.CoreGiven)), Pushes: c.Pushes, Spring: c.Spring, Run: c.Length, Radius: c.Radius}
	if c.Open() {
		spec.From, spec.To = c.Quadrants[0].Name, c.Quadrants[1].Name
		spec.Winds = [2]string{windsWord(c.Winds[0]), windsWord(c.Winds[1])}
	} else {
		spec.From, spec.To = c.From.String(), c.To.String()
		spec.Conduit = [2]string{c.Conduit[0].String(), c.Conduit[1].String()}
	}
	if c.Wire != nil {
		spec.Wire = c.Wire.String()
	} else {
		spec.Stiffness = c.Stiffness
	}
	for _, e := range c.Ends {
		spec.Ends = append(spec.Ends, EndSpec{
			Side: e.Side, Thread: e.Thread.Name, Left: e.Left, Engaged: e.Engaged, Least: orZero(given(e.Least, e.LeastGiven)),
			Most: orZero(e.Most), Step: &e.Step,
		})
	}
	b.Cable(c.Name, spec)
}

func rebuildRequirement(b *Builder, q *Requirement) {
	spec := RequireSpec{Within: q.Within, Low: q.Low, High: q.High, Least: q.Least, Most: q.Most, At: q.At, Wants: q.Wants, Opposed: q.Opposed}
	for _, s := range q.Of {
		spec.Of = append(spec.Of, s.Name())
	}
	if q.Control != nil {
		spec.Control = q.Control.Name
	}
	switch q.Kind {
	case Clearance:
		spec.Between = [2]string{q.Between[0].String(), q.Between[1].String()}
	case Taut:
		spec.Of = []string{q.Pair.Name}
	case Meets:
		spec.Of = []string{q.Points[0].String(), q.Points[1].String()}
	case Order:
		spec.First, spec.Then = q.First.Name, q.Then.Name
	case CyclicSense:
		spec.When = [2]string{q.Places[0].Place.String(), string(q.Places[0].Direction)}
		if q.Over.Most {
			spec.MostOver = q.Over.String()
		} else {
			spec.LeastOver = q.Over.String()
		}
	case Sense:
		if q.Places != nil {
			spec.When = [2]string{q.Places[0].Place.String(), string(q.Places[0].Direction)}
			spec.SoThen = [2]string{q.Places[1].Place.String(), string(q.Places[1].Direction)}
			break
		}
		if spec.Turns = "opposite"; q.Same {
			spec.Turns = "same"
		}
	}
	b.Require(q.Kind, q.Name, spec)
}

// allRunFiles are what runFiles read: once, and no test changes a run of them.
var allRunFiles map[string]*Run

// runFiles are the run files of the project's other folders that read.
func runFiles(t *testing.T) map[string]*Run {
	if len(allRunFiles) > 0 {
		return maps.Clone(allRunFiles)
	}
	runs := map[string]*Run{}
	for _, folder := range []string{"demo", "testdata", "solve/testdata", "render/testdata", "cmd/fullfree/testdata"} {
		err := filepath.Walk(filepath.Join("..", folder), func(path string, _ os.FileInfo, err error) error {
			if err != nil || filepath.Ext(path) != ".hcl" {
				return nil
			}
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			if run, err := Read(&Source{Name: path, Text: text}); err == nil {
				runs[path] = run
			}
			return nil
		})
		require.NoError(t, err)
	}
	allRunFiles = runs
	return maps.Clone(runs)
}

// A run that is built is the one that is read, but for the places in the text.
func TestBuilderMakesTheRunThatIsRead(t *testing.T) {
	runs := runFiles(t)
	require.Greater(t, len(runs), 15, "the demos at least")
	runs["everything.hcl"] = readText(t, everything)
	for path, run := range runs {
		t.Run(path, func(t *testing.T) {
			b := rebuilt(run)
			built, err := b.Run()
			require.NoError(t, err)
			requireSameRun(t, run, built)
			again, err := b.Run()
			require.NoError(t, err)
			requireSameRun(t, built, again)
		})
	}
}

// requireSameRun compares two runs in everything but where it is written.
func requireSameRun(t *testing.T, want, got *Run) {
	t.Helper()
	if at := differ(reflect.ValueOf(want), reflect.ValueOf(got), map[[2]uintptr]bool{}); at != "" {
		t.Fatalf("the runs differ at Run%s", at)
	}
}

// differ returns where two values first differ, "" where they are deeply equal
// but for spans, sources and how figures were written.
func differ(a, b reflect.Value, seen map[[2]uintptr]bool) string {
	switch a.Type() {
	case reflect.TypeFor[Span](), reflect.TypeFor[[]Span](), reflect.TypeFor[*Source]():
		return ""
	}
	switch a.Kind() {
	case reflect.Pointer:
		pair := [2]uintptr{a.Pointer(), b.Pointer()}
		switch {
		case a.IsNil() != b.IsNil():
			return ": one is nil"
		case a.IsNil() || seen[pair]:
			return ""
		}
		seen[pair] = true
		return differ(a.Elem(), b.Elem(), seen)
	case reflect.Struct:
		for i := range a.NumField() {
			if slices.Contains([]string{"Named", "offset", "polar", "written"}, a.Type().Field(i).Name) {
				continue // how a figure was written, not what it is
			}
			if at := differ(a.Field(i), b.Field(i), seen); at != "" {
				return "." + a.Type().Field(i).Name + at
			}
		}
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			return fmt.Sprintf(": %d and %d of them", a.Len(), b.Len())
		}
		for i := range a.Len() {
			if at := differ(a.Index(i), b.Index(i), seen); at != "" {
				return fmt.Sprintf("[%d]%s", i, at)
			}
		}
	default:
		if !a.Equal(b) {
			return fmt.Sprintf(": %v and %v", a, b)
		}
	}
	return ""
}

// built returns the faults of a small sound run that something is added to.
func built(add func(b *Builder)) string {
	b := NewBuilder("Throttle", RunSpec{Units: Millimeters})
	b.Part("lever", PartSpec{Pivot: &Vec{}, Points: []PointSpec{{Name: "eye", At: Vec{Y: 60}}}})
	b.Part("arm", PartSpec{Pivot: &Vec{X: 200}, Points: []PointSpec{{Name: "eye", At: Vec{Y: 50}, Arm: true}}})
	b.Rod("link", RodSpec{From: "lever.eye", To: "arm.eye"})
	b.Control("hand", ControlSpec{Of: "lever"})
	add(b)
	if _, err := b.Run(); err != nil {
		return err.Error()
	}
	return ""
}

// What a builder gets wrong is told by the reader's rules, and each fault says of
// which block and attribute.
func TestBuilderFaults(t *testing.T) {
	assert.Empty(t, built(func(*Builder) {}), "the run that the others are made from")
	cases := []struct {
		add  func(b *Builder)
		want string
	}{
		{func(b *Builder) { b.Rod("stay", RodSpec{From: "lever.eye", To: "arm.eye", Length: -3}) },
			`rod "stay", length: a rod's length is more than 0, hole to hole`},
		{func(b *Builder) { b.Rod("stay", RodSpec{From: "lever.ey", To: "arm.eye"}) },
			`rod "stay", from: "lever" has no point "ey"; did you mean "lever.eye"?`},
		{func(b *Builder) { b.Rod("stay", RodSpec{From: "lever.eye"}) },
			`rod "stay" has no to: write to = part.point`},
		{func(b *Builder) { b.Rod("link", RodSpec{From: "lever.eye", To: "arm.eye"}) },
			`rod "link": the name "link" is given already to the rod at rod "link": every part, rod, joint, cable, pair, control, output, stop, pin and dims needs its own`},
		{func(b *Builder) { b.Rod("stay", RodSpec{From: "lever.eye.x", To: ".."}) },
			"rod \"stay\", from: a point, as in part.point, is wanted here: one name, or two with a dot between\n" +
				`rod "stay", to: a point, as in part.point, is wanted here: one name, or two with a dot between`},
		{func(b *Builder) {
			b.Rod("stay", RodSpec{From: "lever.eye", To: "arm.eye", Points: []PointSpec{{Name: "own", Arm: true}}})
		},
			`rod "stay", arms: rod has no attribute "arms"; it has "from", "to", "length", "diameter", "misalignment", "points", "second-path", "play", "tolerance", "joint-play" and "mirror"`},
		{func(b *Builder) { b.Part("two", PartSpec{Pivot: &Vec{}, On: "lever.eye"}) },
			`part "two", pivot: a part has either a Pivot of its own or a point that it is On`},
		{func(b *Builder) {
			b.Part("tab", PartSpec{Pivot: &Vec{}, Points: []PointSpec{{Name: "eye", At: Vec{X: 1}}, {Name: "eye", At: Vec{Y: 1}}}})
		},
			`part "tab", point "eye": part "tab" has a point "eye" already, at part "tab", point "eye": points, arms and metal of a part need names of their own`},
		{func(b *Builder) {
			b.Fixed("frame", PartSpec{Metal: []MetalSpec{{Name: "tube", Through: []Vec{{X: 9}, {Y: 9}}}}})
		},
			`round "tube" has no at: write at = [x, y]`},
		{func(b *Builder) { b.Stop("end", StopSpec{Of: "lever", At: 0}) },
			`stop "end", at: this is where the control is drawn, so the side must be told: side = "low" or side = "high"`},
		{func(b *Builder) { b.Require("tight", "", RequireSpec{}) },
			`require "tight": nothing called "tight" can be required`},
		{func(b *Builder) { b.Require(Opposite, "even", RequireSpec{Of: []string{"lever"}}) },
			`require "opposite" "even", of: 2 entries are wanted here, as in [left-pedal, right-pedal], and there is 1`},
		{func(b *Builder) { b.Require(Stops, "", RequireSpec{Least: 3}) },
			`require "stops", least: require stops has no attribute "least"`},
		{func(b *Builder) { b.Measured("weighed", "x", MeasurementSpec{}) },
			`weighed "x": there is no kind of block "weighed"`},
		{func(b *Builder) { b.Part("not a name", PartSpec{Pivot: &Vec{}}) },
			`part "not a name": a name is of letters, digits, dashes and underscores and begins with a letter: "not-a-name" would do`},
		{func(b *Builder) { b.Part("\xff", PartSpec{Pivot: &Vec{}}) },
			`what stands here is no text: it is not UTF-8, or has a U+0000 in it`},
		{func(b *Builder) { b.Output("long", OutputSpec{Of: "arm", Plus: strings.Repeat("a", maxText+1)}) },
			`output "long", plus: a text here is too long`},
		{func(b *Builder) {
			b.Measured(Taped, "none", MeasurementSpec{From: "lever.eye", To: "lever.eye", Is: 1, Within: 1})
		},
			`taped "none", to: from and to are the same place: two different ones are measured`},
	}
	for _, c := range cases {
		got := built(c.add)
		assert.True(t, strings.Contains("\n"+got+"\n", "\n"+strings.TrimSuffix(c.want, "\n")) || strings.Contains(got, ": "+c.want), "wanted\n%s\nbut got\n%s", c.want, got)
	}
}

// pointName is a point's name, empty for none.
func pointName(p *PointRef) string {
	if p == nil {
		return ""
	}
	return p.String()
}
