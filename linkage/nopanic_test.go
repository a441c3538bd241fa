package linkage_test

import (
	"reflect"
	"slices"
	"testing"

	"fullfree/linkage"
)

// tryMethods calls every exported method of a value with the zero value of each
// argument.
func tryMethods(t *testing.T, what string, v reflect.Value) {
	t.Helper()
	for i := range v.NumMethod() {
		name := v.Type().Method(i).Name
		if slices.Contains(changesRun, name) {
			continue
		}
		tryCall(t, what+"."+name, v.Method(i))
	}
}

// tryCall calls a function with the zero value of each argument.
func tryCall(t *testing.T, what string, f reflect.Value) {
	t.Helper()
	defer func() {
		if r := recover(); r != nil {
			t.Errorf("%s: %v", what, r)
		}
	}()
	var args []reflect.Value
	for i := range f.Type().NumIn() {
		args = append(args, reflect.Zero(f.Type().In(i)))
	}
	if f.Type().IsVariadic() {
		f.CallSlice(args)
	} else {
		f.Call(args)
	}
}

// changesRun are methods that change a run in place.
var changesRun = []string{"Set", "Turn", "TurnCable", "Move", "Without"}

// Nothing exported panics on what was never filled in, nor what has to do with whole
// runs on nil.
func TestNothingPanicsOnZeroValues(t *testing.T) {
	for _, v := range []any{
		linkage.Builder{}, linkage.Cable{}, linkage.CableEnd{}, linkage.Control{}, linkage.Dimension{}, linkage.Faults{}, linkage.FeatureRef{},
		linkage.Feature{}, linkage.Joint{}, linkage.Rotor{}, linkage.Measurement{}, linkage.Output{}, linkage.Pair{}, linkage.Part{}, linkage.Pin{}, linkage.PlaceRef{},
		linkage.Point{}, linkage.PointRef{}, linkage.Requirement{}, linkage.Rigging{}, linkage.Rod{}, linkage.RodEnd{}, linkage.Run{}, linkage.Setting{},
		linkage.Source{}, linkage.Span{}, linkage.Stop{}, linkage.Subject{}, linkage.Thread{}, linkage.Unit(""), linkage.Vec{}, linkage.Wire{},
	} {
		typ := reflect.TypeOf(v)
		tryMethods(t, "zero "+typ.Name(), reflect.New(typ))
	}
	for _, null := range []any{(*linkage.Run)(nil), (*linkage.Builder)(nil), (*linkage.Faults)(nil)} {
		v := reflect.ValueOf(null)
		tryMethods(t, "nil "+v.Type().Elem().Name(), v)
	}
	for name, f := range map[string]any{
		"NewBuilder": linkage.NewBuilder, "Nearest": linkage.Nearest, "ParseThread": linkage.ParseThread, "ParseWire": linkage.ParseWire,
		"Printable": linkage.Printable, "Read": linkage.Read, "Rewrite": linkage.Rewrite, "Visible": linkage.Visible,
	} {
		tryCall(t, name, reflect.ValueOf(f))
	}
}
