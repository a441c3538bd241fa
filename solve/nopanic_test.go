package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
	"fullfree/solve/photo"
	"fullfree/solve/recheck"
	"fullfree/solve/rig"
	"fullfree/solve/survey"
	"fullfree/solve/tolerance"
)

// tryCall calls a function, with the zero value of each argument where none are
// given, and fails the test where that panics.
func tryCall(t *testing.T, what string, f reflect.Value, args ...reflect.Value) {
	t.Helper()
	defer func() {
		if r := recover(); r != nil {
			t.Errorf("%s: %v\n%s", what, r, debug.Stack())
		}
	}()
	for i := len(args); i < f.Type().NumIn(); i++ {
		args = append(args, reflect.Zero(f.Type().In(i)))
	}
	if f.Type().IsVariadic() {
		f.CallSlice(args)
	} else {
		f.Call(args)
	}
}

// tryMethods calls every exported method of a value.
func tryMethods(t *testing.T, what string, v reflect.Value, args ...reflect.Value) {
	t.Helper()
	for i := range v.NumMethod() {
		switch v.Type().Method(i).Name {
		case "Apply", "RigWork": // the one changes a run in place, the other is a test's own
			continue
		}
		tryCall(t, what+"."+v.Type().Method(i).Name, v.Method(i), args...)
	}
}

// Nothing exported panics on what was never filled in, nor what has to do with whole
// runs on nil.
func TestNothingPanicsOnZeroValues(t *testing.T) {
	for _, v := range []any{
		solve.Critical{}, solve.Diagnosis{}, solve.End{}, solve.Frame{}, solve.Gradient{}, solve.Judgement{}, solve.Mechanism{}, solve.PinnedRod{},
		solve.Result{}, rig.Searched{}, solve.Pose{}, survey.Survey{}, solve.Sweep{},
		solve.Build{}, solve.Builder{}, solve.Builds{}, solve.PlayJoint{}, solve.JointShare{}, tolerance.Answer{}, tolerance.Outcome{},
	} {
		typ := reflect.TypeOf(v)
		made := reflect.New(typ)
		made.Elem().Set(reflect.ValueOf(v))
		if typ == reflect.TypeFor[solve.Diagnosis]() {
			tryCall(t, "Explains", made.MethodByName("Explains"), reflect.ValueOf(&solve.Candidate{}))
			tryCall(t, "Likeliest", made.MethodByName("Likeliest"))
			continue
		}
		tryMethods(t, "zero "+typ.Name(), made)
	}
	for _, null := range []any{(*solve.Mechanism)(nil), (*solve.Pose)(nil), (*solve.Sweep)(nil), (*solve.Build)(nil), (*solve.Builder)(nil), (*solve.Builds)(nil), (*tolerance.Answer)(nil)} {
		v := reflect.ValueOf(null)
		tryMethods(t, "nil "+v.Type().Elem().Name(), v)
	}
	for name, f := range map[string]any{
		"Compile": solve.Compile, "survey.New": survey.New, "survey.Plan": survey.Plan,
		"photo.Adjust": photo.Adjust, "survey.Places": survey.Places, "Temper": solve.Temper, "EngagementOf": solve.EngagementOf, "TurnRange": solve.TurnRange,
	} {
		tryCall(t, name, reflect.ValueOf(f))
		if reflect.TypeOf(f).In(0) == reflect.TypeFor[*linkage.Run]() {
			tryCall(t, name, reflect.ValueOf(f), reflect.ValueOf(&linkage.Run{}))
		}
	}
}

// demoRun reads a demo, anew each time.
func demoRun(t testing.TB, name string) *linkage.Run {
	t.Helper()
	text, err := os.ReadFile("../demo/" + name + ".hcl")
	require.NoError(t, err)
	return read(t, string(text))
}

// What is of another run, or out of range, is told.
func TestWhatIsForeignIsTold(t *testing.T) {
	compile := func(name string) (*linkage.Run, *solve.Mechanism, *solve.Result) {
		run := demoRun(t, name)
		m, err := solve.Compile(run)
		require.NoError(t, err)
		result, err := m.Check()
		require.NoError(t, err)
		return run, m, result
	}
	run, m, result := compile("mixer")
	_, _, another := compile("mixer")
	pedals, _, third := compile("pedals-cable")

	for _, r := range []*solve.Result{nil, {}, another, third, {Run: run, Sweeps: []*solve.Sweep{nil}}, {Run: run, Sweeps: result.Sweeps, Requirements: make([]solve.Judgement, 1)}} {
		if r != nil && r.Sweeps == nil {
			continue // nothing is asked of it
		}
		const says = "there is no result of this mechanism here: its Check makes one"
		assert.EqualError(t, m.AddBands(r, nil), says)
		_, err := m.Effects(r)
		assert.EqualError(t, err, says)
		_, err = m.CableEffects(r)
		assert.EqualError(t, err, says)
	}
	assert.EqualError(t, m.AddBands(result, &survey.Survey{}), "there is no survey of this run here: survey.New makes one")
	_, err := (&solve.Mechanism{}).Check()
	assert.EqualError(t, err, "there is no mechanism here: Compile makes one of a run")

	control := run.Controls[0]
	_, err = m.Sweep(nil, nil)
	assert.EqualError(t, err, "test.hcl: there is no control to sweep")
	_, err = m.Sweep(pedals.Controls[0], nil)
	assert.EqualError(t, err, fmt.Sprintf("test.hcl: the control %q to sweep is none of this run", pedals.Controls[0].Name))
	_, err = m.Sweep(control, []solve.Held{{Control: pedals.Controls[0], At: 2}})
	assert.EqualError(t, err, fmt.Sprintf("test.hcl: the control %q to hold at 2 is none of this run", pedals.Controls[0].Name))
	_, err = m.Sweep(control, []solve.Held{{At: math.NaN()}})
	assert.EqualError(t, err, "test.hcl: no control can be held at NaN\ntest.hcl: there is no control to hold at NaN")

	w := result.Sweeps[0]
	for _, steps := range []int{-1, 0, solve.MostSteps + 1, math.MaxInt} {
		_, _, err := w.Table(steps)
		assert.EqualError(t, err, fmt.Sprintf("a table of %d steps: it has 1 to 100000", steps))
	}
	_, _, err = (&solve.Sweep{}).Table(3)
	assert.EqualError(t, err, "there is no sweep here: Check and Sweep of a Mechanism make one")
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), w.Explored[1] + 1} {
		_, ok := w.At(x)
		assert.False(t, ok)
		_, ok = w.Sample(x)
		assert.False(t, ok)
	}
	assert.NotNil(t, w.Course(math.NaN(), math.Inf(1)))

	// What the run has under no such name stands as drawn, and has not moved.
	pose, ok := w.At(w.High)
	require.True(t, ok)
	moved := pedals.Controls[0].Of
	at := linkage.Vec{X: 3, Y: 4}
	assert.Equal(t, at, pose.Place(moved, at))
	assert.Equal(t, at, pose.Place(nil, at))
	assert.Zero(t, pose.Travel(moved))
	assert.Equal(t, pedals.Rods[0].From.Get().At, pose.Point(pedals.Rods[0].From))
	assert.Zero(t, pose.Point(linkage.PointRef{Part: moved, Point: 99}))
	assert.Equal(t, pedals.Outputs[0].Reads, pose.Reading(pedals.Outputs[0]))
	_, _, _, ok = pose.Gap(linkage.FeatureRef{Part: moved}, linkage.FeatureRef{Rod: pedals.Rods[0]})
	assert.False(t, ok)
}

// A run put together or spoiled by hand, whatever it holds, is refused or solved.
func TestHuntNothingPanicsOnASpoiledRun(t *testing.T) {
	names := []string{"mixer", "pedals-cable", "lift-cables", "chain", "pedals-taped", "pedals-swivel", "sticks"}
	hunt.Each(t, 30, func(t *testing.T, random *rand.Rand) {
		name := names[random.IntN(len(names))]
		run := demoRun(t, name)
		what := "whole"
		for range 1 + random.IntN(2) {
			what = spoil(run, demoRun(t, names[random.IntN(len(names))]), random)
		}
		defer func() {
			if r := recover(); r != nil {
				t.Errorf("%s with %s: %v\n%s", name, what, r, debug.Stack())
			}
		}()
		survey.Places(run)
		survey.Plan(run)
		_, _ = solve.Temper(run, 20)
		_, _ = survey.New(run)
		m, err := solve.Compile(run)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		m.Pinned()
		m.Centerings()
		_, _ = m.Diagnose()
		result, err := m.Check()
		if err != nil {
			return
		}
		_, _ = m.Effects(result)
		_, _ = m.CableEffects(result)
		spoilt := recheck.Version{Result: result}
		_, _ = recheck.Compare(spoilt, spoilt, recheck.Joints(run, "run"))
		recheck.PitchSetters(result)
		for _, w := range result.Sweeps {
			for _, series := range w.Series() {
				require.NotEmpty(t, series.Unit, what)
			}
			_, rows, err := w.Table(3)
			require.NoError(t, err)
			for _, row := range rows {
				for _, v := range row {
					require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%s with %s: a table has %g", name, what, v)
				}
			}
		}
	})
}

// spoil changes one thing somewhere in a run, and says which: to nothing, to what is
// out of range, or to the same of another run.
func spoil(run, other *linkage.Run, random *rand.Rand) string {
	var places []reflect.Value
	var paths []string
	var walk func(v reflect.Value, path string, seen map[uintptr]bool)
	walk = func(v reflect.Value, path string, seen map[uintptr]bool) {
		switch v.Kind() {
		case reflect.Pointer:
			if v.CanSet() {
				places, paths = append(places, v), append(paths, path)
			}
			if !v.IsNil() && !seen[v.Pointer()] {
				seen[v.Pointer()] = true
				walk(v.Elem(), path, seen)
			}
		case reflect.Struct:
			for i := range v.NumField() {
				if f := v.Type().Field(i); f.IsExported() && f.Type != reflect.TypeFor[linkage.Span]() && f.Type != reflect.TypeFor[*linkage.Source]() {
					walk(v.Field(i), path+"."+f.Name, seen)
				}
			}
		case reflect.Slice, reflect.Array:
			if v.Kind() == reflect.Slice {
				places, paths = append(places, v), append(paths, path)
			}
			for i := range v.Len() {
				walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i), seen)
			}
		default:
			if v.CanSet() {
				places, paths = append(places, v), append(paths, path)
			}
		}
	}
	walk(reflect.ValueOf(run), "Run", map[uintptr]bool{})
	mine, minePaths := places, paths
	places, paths = nil, nil
	walk(reflect.ValueOf(other), "Run", map[uintptr]bool{})
	k := random.IntN(len(mine))
	v := mine[k]
	if random.IntN(3) == 0 { // the same kind of thing of another run
		from := random.IntN(len(places))
		for i := range places {
			if p := places[(from+i)%len(places)]; p.Type() == v.Type() {
				v.Set(p)
				return minePaths[k] + " of another run"
			}
		}
	}
	switch v.Kind() {
	case reflect.Float64:
		list := []float64{0, -1, 1, math.NaN(), math.Inf(1), math.Inf(-1), 1e-300, 1e300, -v.Float(), 1e6, 90, 1e-9}
		v.SetFloat(list[random.IntN(len(list))])
	case reflect.Int:
		v.SetInt(int64(random.IntN(7)) - 2)
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Slice:
		if n := v.Len(); n > 0 {
			v.Set(v.Slice(0, random.IntN(n)))
		}
	default:
		v.SetZero()
	}
	return fmt.Sprintf("%s as %v", minePaths[k], v)
}
