package linkage_test

import (
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"strconv"
	"testing"

	"fullfree/linkage"
	"fullfree/linkage/hunt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func demoRun(t *testing.T, name string) *linkage.Run {
	t.Helper()
	text, err := os.ReadFile("../demo/" + name + ".hcl")
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Name: name + ".hcl", Text: text})
	require.NoError(t, err)
	return run
}

// demos are runs with everything that a run can have between them.
var demos = []string{"pedals", "pedals-dual", "pedals-unequal", "pedals-cable", "pedals-taped", "sticks", "mixer", "chain", "throttle-cable", "lift-cables", "../testdata/space/head"}

func with(t *testing.T, run *linkage.Run, edits ...linkage.Edit) *linkage.Run {
	t.Helper()
	changed, err := run.With(edits...)
	require.NoError(t, err)
	return changed
}

// Without an edit it is the run again, of elements of its own that point at each other.
func TestWithNothing(t *testing.T) {
	for _, name := range demos {
		run := demoRun(t, name)
		same := with(t, run)
		require.True(t, reflect.DeepEqual(run, same), name)
		for i, p := range same.Parts {
			assert.NotSame(t, run.Parts[i], p)
		}
		assert.Empty(t, pointersInto(same, run), "%s: of the copy alone", name)
	}
}

// pointersInto lists what of a run points at an element of another.
func pointersInto(of, other *linkage.Run) (list []string) {
	theirs := map[any]bool{}
	note := func(element any) { theirs[element] = true }
	for _, p := range other.Parts {
		note(p)
	}
	for _, r := range other.Rods {
		note(r)
		for _, e := range r.Ends {
			note(e)
		}
	}
	for _, j := range other.Joints {
		note(j)
	}
	if other.Rotor != nil {
		note(other.Rotor)
	}
	for _, c := range other.Cables {
		note(c)
		for _, e := range c.Ends {
			note(e)
		}
	}
	for _, p := range other.Pairs {
		note(p)
	}
	for _, c := range other.Controls {
		note(c)
	}
	for _, o := range other.Outputs {
		note(o)
	}
	for _, s := range other.Stops {
		note(s)
	}
	for _, r := range other.Requirements {
		note(r)
	}
	seen := map[any]bool{}
	var walk func(v reflect.Value, path string)
	walk = func(v reflect.Value, path string) {
		switch v.Kind() {
		case reflect.Pointer:
			if v.IsNil() || !v.CanInterface() {
				return
			}
			if theirs[v.Interface()] {
				list = append(list, path)
				return
			}
			if !seen[v.Interface()] {
				seen[v.Interface()] = true
				walk(v.Elem(), path)
			}
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i), path+"."+v.Type().Field(i).Name)
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(v.Index(i), path)
			}
		}
	}
	walk(reflect.ValueOf(of), "run")
	return list
}

// randomEdits are a handful of edits of a run that a file could have.
func randomEdits(run *linkage.Run, random *rand.Rand) (edits []linkage.Edit) {
	dimensions := run.Dimensions()
	for range 1 + random.IntN(6) {
		switch random.IntN(8) {
		case 0:
			d := dimensions[random.IntN(len(dimensions))]
			edits = append(edits, linkage.Set(d, math.Abs(d.Value())+1+random.Float64()))
		case 1:
			edits = append(edits, linkage.Shift(dimensions[random.IntN(len(dimensions))], random.Float64()))
		case 2:
			for _, s := range run.Stops {
				if s.Of != nil {
					edits = append(edits, linkage.SetStop(s, s.At+random.Float64()), linkage.LimitTo(s, "high"))
				}
			}
		case 3:
			for _, r := range run.Rods {
				for _, e := range r.Ends {
					edits = append(edits, linkage.Turn(e, random.Float64()))
				}
			}
		case 4:
			for _, c := range run.Cables {
				edits = append(edits, linkage.TakeUp(c, random.Float64()))
				for _, e := range c.Ends {
					edits = append(edits, linkage.TurnCable(e, random.Float64()))
				}
			}
		case 5:
			p := run.Parts[random.IntN(len(run.Parts))]
			if len(p.Points) > 0 {
				edits = append(edits, linkage.Move([]linkage.PlaceRef{{Part: p, Point: random.IntN(len(p.Points))}}, []linkage.Vec{{X: random.Float64(), Y: 7}}))
			}
		case 6:
			edits = append(edits, linkage.Explore(run.Controls[0], -3, 4))
			for _, r := range run.Rods {
				if random.IntN(2) == 0 {
					edits = append(edits, linkage.Drive(r))
				}
			}
		case 7:
			edits = append(edits, linkage.Temper(-20, make([]float64, len(run.Cables))))
		}
	}
	return edits
}

// removable lists what a run can be without.
func removable(run *linkage.Run) (list []linkage.Element) {
	for _, p := range run.Parts {
		list = append(list, p)
	}
	for _, r := range run.Rods {
		list = append(list, r)
	}
	for _, c := range run.Cables {
		list = append(list, c)
	}
	for _, c := range run.Controls {
		list = append(list, c)
	}
	for _, o := range run.Outputs {
		list = append(list, o)
	}
	for _, s := range run.Stops {
		list = append(list, s)
	}
	for _, m := range run.Measurements {
		list = append(list, m)
	}
	return list
}

// The run itself stays as it is whatever is edited, and a changed run points at
// nothing of it; what is one thing in both is found in either.
func TestHuntWithLeavesTheRunAsItIs(t *testing.T) {
	hunt.Each(t, 200, func(t *testing.T, random *rand.Rand) {
		name := demos[random.IntN(len(demos))]
		run, same := demoRun(t, name), demoRun(t, name)
		edits := randomEdits(run, random)
		changed := with(t, run, edits...)
		require.True(t, reflect.DeepEqual(run, same), "%s is as it was", name)
		require.Empty(t, pointersInto(changed, run), name)

		// And so from a changed run on, by what names elements of the first.
		before := with(t, changed)
		list := removable(run)
		left := with(t, changed, linkage.Remove(list[random.IntN(len(list))], list[random.IntN(len(list))]))
		require.True(t, reflect.DeepEqual(changed, before), name)
		require.Empty(t, pointersInto(left, changed), name)
		found := 0
		for i, p := range left.Parts {
			require.Equal(t, i, p.Index)
			require.Equal(t, p.Name, run.Part(p).Name)
			require.Same(t, p, left.Part(run.Part(p)))
		}
		for _, p := range run.Parts {
			if q := left.Part(p); q != nil {
				require.Equal(t, p.Name, q.Name)
				found++
			}
		}
		require.Len(t, left.Parts, found)
		for i, r := range left.Rods {
			require.Equal(t, i, r.Index)
			require.Same(t, r, left.Rod(run.Rod(r)))
			for _, e := range r.Ends {
				require.Same(t, e, left.RodEnd(run.RodEnd(e)))
			}
		}
		for i, c := range left.Cables {
			require.Equal(t, i, c.Index)
			require.Same(t, c, left.Cable(run.Cable(c)))
		}
		for i, r := range left.Requirements {
			require.Equal(t, i, r.Index)
			require.Same(t, r, left.Requirement(run.Requirement(r)))
		}
		for _, d := range left.Dimensions() {
			there, ok := run.Dimension(d)
			require.True(t, ok)
			require.Equal(t, d.String(), there.String())
		}
	})
}

// A dimension that is set is what a file with that number would have.
func TestHuntWithIsTheFileReadSo(t *testing.T) {
	hunt.Each(t, 100, func(t *testing.T, random *rand.Rand) {
		name := demos[random.IntN(len(demos))]
		run := demoRun(t, name)
		dimensions := run.Dimensions()
		d := dimensions[random.IntN(len(dimensions))]
		value := d.Value() + random.Float64()
		read, err := linkage.Read(run.Source, linkage.Setting{Dimension: d.String(), Value: strconv.FormatFloat(value, 'f', -1, 64)})
		if err != nil {
			return // a drawing that is refused, such as with a rod to another height
		}
		changed := with(t, run, linkage.Set(d, value))
		size := run.Size()
		for i, p := range changed.Parts {
			require.InDelta(t, 0, p.Pivot.Sub(read.Parts[i].Pivot).Norm(), 1e-14*size)
			for j := range p.Points {
				require.InDelta(t, 0, p.Points[j].At.Sub(read.Parts[i].Points[j].At).Norm(), 1e-14*size, "%s, %s", d, p.Points[j].Name)
			}
		}
		for i, r := range changed.Rods {
			require.InDelta(t, read.Rods[i].Length, r.Length, 1e-13*size, "%s, %s", d, r.Name)
			require.InDelta(t, read.Rods[i].Drawn, r.Drawn, 1e-13*size)
			require.Equal(t, read.Rods[i].LengthGiven, r.LengthGiven)
		}
		for i, c := range changed.Cables {
			require.InDelta(t, read.Cables[i].Core, c.Core, 1e-13*size, "%s, %s", d, c.Name)
		}
	})
}

// What no edit changes is shared.
func TestWithShares(t *testing.T) {
	run := demoRun(t, "pedals")
	longer := with(t, run, linkage.Shift(linkage.Dimension{Rod: run.Rods[0], Point: -1}, 1))
	assert.Same(t, run.Source, longer.Source)
	for i, p := range run.Parts {
		if len(p.Points) > 0 {
			assert.Same(t, &p.Points[0], &longer.Parts[i].Points[0])
		}
		if len(p.Features) > 0 {
			assert.Same(t, &p.Features[0], &longer.Parts[i].Features[0])
		}
	}
}

// Each edit goes on from what those before it leave.
func TestWithOneAfterAnother(t *testing.T) {
	run := demoRun(t, "pedals")
	var d linkage.Dimension
	for _, other := range run.Dimensions() {
		if other.String() == "left-pedal.horn.x" {
			d = other
		}
	}
	twice, _ := with(t, run, linkage.Set(d, 5), linkage.Shift(d, 2), linkage.Shift(d, 0.5)).Dimension(d)
	assert.Equal(t, 7.5, twice.Value())
}

// What no file could have is refused, and what isn't there.
func TestWithRefuses(t *testing.T) {
	run, other := demoRun(t, "pedals"), demoRun(t, "lift-cables")
	rod := linkage.Dimension{Rod: run.Rods[0], Point: -1}
	foreign := &linkage.Part{Name: "nowhere"}
	for says, edit := range map[string]linkage.Edit{
		"would be -1, and a length is more than 0":       linkage.Set(rod, -1),
		"numbers go to 1 000 000":                        linkage.Set(rod, 2e6),
		"can't be NaN":                                   linkage.Set(rod, math.NaN()),
		"hasn't got a dimension that is to be set":       linkage.Set(linkage.Dimension{Part: foreign}, 1),
		"a dimension that is to be set":                  linkage.Shift(linkage.Dimension{}, 1),
		"dimension that is to be set":                    linkage.Set(linkage.Dimension{Rod: run.Rods[0], Point: 7}, 1),
		"hasn't got a stop":                              linkage.SetStop(other.Stops[0], 1),
		"a stop that is to limit":                        linkage.LimitTo(nil, "low"),
		"hasn't got a rod end":                           linkage.Turn(nil, 1),
		"hasn't got an adjuster":                         linkage.TurnCable(other.Cables[0].Ends[0], 1),
		"hasn't got a cable":                             linkage.TakeUp(other.Cables[0], 1),
		"isn't told of every one":                        linkage.Temper(1, []float64{1}),
		"where places are to be put isn't told":          linkage.Move([]linkage.PlaceRef{{}}, nil),
		"hasn't got a place":                             linkage.Move([]linkage.PlaceRef{{Part: foreign}}, []linkage.Vec{{}}),
		"can't be put so far out":                        linkage.Move([]linkage.PlaceRef{{Part: run.Parts[1]}}, []linkage.Vec{{X: math.Inf(1)}}),
		"hasn't got a control":                           linkage.Explore(other.Controls[0], -1, 1),
		"can't be explored from 1 to 2":                  linkage.Explore(run.Controls[0], 1, 2),
		"hasn't got a part that is to be gripped":        linkage.Grip(foreign, -1, 1),
		"hasn't got a rod that is to drive":              linkage.Drive(nil),
		"there is nothing in the run that is what is to": linkage.Remove(foreign),
		"what is to be removed":                          linkage.Remove(nil),
	} {
		changed, err := run.With(edit)
		assert.Nil(t, changed)
		var faults *linkage.Faults
		require.ErrorAs(t, err, &faults, says)
		assert.ErrorContains(t, err, says)
	}
	unequal := demoRun(t, "pedals-unequal")
	_, err := unequal.With(linkage.Turn(unequal.Rods[0].Ends[0], -1e4))
	assert.ErrorContains(t, err, "mm long")
}

func namesLeft(run *linkage.Run) (names []string) {
	for _, p := range run.Parts {
		names = append(names, p.Name)
	}
	for _, r := range run.Rods {
		names = append(names, r.Name)
	}
	for _, c := range run.Controls {
		names = append(names, c.Name)
	}
	for _, o := range run.Outputs {
		names = append(names, o.Name)
	}
	for _, s := range run.Stops {
		names = append(names, s.Name)
	}
	return names
}

// What can't be there without what is gone goes with it.
func TestWithoutWhatRestsOnIt(t *testing.T) {
	for _, c := range []struct {
		demo, gone string
		left       []string
	}{
		// A shaft takes what it carries with it, the controls of both, and stops.
		{"sticks", "cross-shaft", []string{"airframe", "roll-crank", "pitch-crank", "fore-and-aft", "side-to-side"}},
		{"sticks", "roll-crank", []string{"airframe", "cross-shaft", "left-stick", "right-stick", "pitch-crank", "tie-tube", "pitch-rod", "pitch", "roll", "fore-and-aft", "forward", "aft", "left", "right"}},
		// A rod takes the output that reads a point of it.
		{"chain", "floor-rod", []string{"airframe", "lever", "floor-crank", "mast-crank", "plunger", "mast-rod", "link", "collective", "plunger-rule", "lever-down", "lever-up", "guide-top"}},
		// A pedal takes the stop that its lug touches.
		{"pedals", "right-pedal", []string{"airframe", "left-pedal", "rocker", "left-link", "pedals", "tail-run", "left-stop"}},
	} {
		run := demoRun(t, c.demo)
		var gone []linkage.Element
		for _, p := range run.Parts {
			if p.Name == c.gone {
				gone = append(gone, p)
			}
		}
		for _, r := range run.Rods {
			if r.Name == c.gone {
				gone = append(gone, r)
			}
		}
		require.Len(t, gone, 1)
		left := with(t, run, linkage.Bare(), linkage.Remove(gone...))
		assert.Equal(t, c.left, namesLeft(left), "%s without %s", c.demo, c.gone)
		for i, p := range left.Parts {
			assert.Equal(t, i, p.Index)
		}
		for i, r := range left.Rods {
			assert.Equal(t, i, r.Index)
		}
	}
}

// Of a pair one cable is left by itself, as long as it is unloaded.
func TestWithoutOneOfAPair(t *testing.T) {
	run := demoRun(t, "lift-cables")
	require.Len(t, run.Pairs, 1)
	gone, stays := run.Pairs[0].Cables[0], run.Pairs[0].Cables[1]
	left := with(t, run, linkage.Remove(gone))
	require.Len(t, left.Cables, 1)
	assert.Empty(t, left.Pairs)
	assert.Nil(t, left.Cables[0].Pair)
	for _, r := range left.Requirements {
		assert.NotEqual(t, linkage.Taut, r.Kind, "there is no pair to be taut")
	}
	assert.Equal(t, stays.Grown-run.Pairs[0].Pretension/stays.Stiffness, left.Cables[0].Grown)
	assert.Zero(t, stays.Grown, "of the run itself it stays")
	assert.Same(t, run.Pairs[0], stays.Pair)
	assert.Empty(t, with(t, run, linkage.Remove(gone, stays)).Cables)
}
