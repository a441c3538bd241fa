package solve_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// seen is how the same run is looked at: as it is, mirrored (all turns change
// sign, so that the two sides of a turning control change places), or in
// another unit of length.
type seen struct {
	mirrored bool
	length   float64 // lengths are multiplied by this
}

var asItIs = seen{length: 1}

// sized returns v in the other unit; it is no turn with a sense.
func (l seen) sized(v float64, unit linkage.Unit) float64 {
	top, bottom, _ := strings.Cut(string(unit), "/")
	if top == "mm" || top == "in" {
		v *= l.length
	}
	if bottom == "mm" || bottom == "in" {
		v /= l.length
	}
	return v
}

// turned returns v in the other unit, and the other way round if it is a turn,
// or a ratio of which one side is.
func (l seen) turned(v float64, unit linkage.Unit) float64 {
	if l.mirrored && strings.Count("/"+string(unit), "/deg") == 1 {
		v = -v
	}
	return l.sized(v, unit)
}

// figures returns every number of a result by what it is about; what is words
// there is in the names. The order of the file's blocks is not in it.
func figures(r *solve.Result, l seen) map[string]float64 {
	out := map[string]float64{}
	add := func(v float64, name string, args ...any) { out[fmt.Sprintf(name, args...)] = v }
	for _, j := range r.Requirements {
		name := fmt.Sprintf("require %s %q %d", j.Requirement.Kind, j.Requirement.Name, j.Verdict)
		if j.Worst != nil {
			add(l.sized(*j.Worst, j.Unit), "%s worst", name)
		}
		if j.At != nil {
			add(l.turned(*j.At, r.Sweeps[j.Sweep].Unit), "%s at", name)
		}
	}
	for _, s := range r.Sweeps {
		sweep := "sweep " + s.Control.Name
		for _, h := range s.Held {
			sweep += fmt.Sprintf(" %s=%v", h.Control.Name, h.At)
		}
		// side tells the sides of the control, mirrored where its turns are.
		side := func(i int) string {
			if l.mirrored && s.Unit == "deg" {
				i = 1 - i
			}
			return []string{"low", "high"}[i]
		}
		for i, end := range s.Ends {
			by := string(end.Cause)
			if end.Stop != nil {
				by += " " + end.Stop.Name
			}
			if end.Part != nil {
				by += " " + end.Part.Name
			}
			add(l.turned(end.At, s.Unit), "%s %s end %s", sweep, side(i), by)
			add(l.turned(s.Explored[i], s.Unit), "%s %s explored", sweep, side(i))
			if end.Wear != nil {
				add(l.sized(*end.Wear, s.Unit+"/"+r.Run.Units), "%s %s wear", sweep, side(i))
			}
		}
		bites := map[string][]float64{}
		for _, b := range s.Stops {
			name := fmt.Sprintf("%s stop %s %v", sweep, b.Stop.Name, b.Bites)
			bites[name] = append(bites[name], 0)
			if b.At != nil {
				bites[name][len(bites[name])-1] = l.turned(*b.At, s.Unit)
			}
		}
		for name, ats := range bites {
			slices.Sort(ats)
			for i, at := range ats {
				add(at, "%s %d", name, i)
			}
		}
		extent := func(name string, unit linkage.Unit, e solve.Extent) {
			ends, most := []float64{e.AtLow, e.AtHigh}, []float64{e.Least, e.Most}
			for i := range 2 {
				add(l.turned(ends[i], unit), "%s at %s", name, side(i))
				j := i
				if l.mirrored && unit == "deg" {
					j = 1 - i
				}
				add(l.turned(most[i], unit), "%s %s", name, []string{"least", "most"}[j])
			}
			add(l.turned(e.Neutral, unit), "%s neutral", name)
		}
		for _, p := range s.Parts {
			extent(sweep+" part "+p.Name, p.Unit, p.Extent)
		}
		for _, o := range s.Outputs {
			name := sweep + " output " + o.Output.Name
			extent(name, o.Unit, o.Extent)
			for key, v := range map[string]*float64{"neutral": o.Ratio.Neutral, "least": o.Ratio.Least, "most": o.Ratio.Most} {
				if v != nil {
					add(l.turned(*v, o.Ratio.Unit), "%s ratio %s", name, key)
				}
			}
		}
		for _, rod := range s.Rods {
			name := sweep + " rod " + rod.Rod.Name
			add(rod.TiltFrom, "%s tilt from", name)
			add(rod.TiltTo, "%s tilt to", name)
			add(rod.Angle.Least, "%s angle of %s", name, rod.Angle.Part)
			if rod.Angle.At != nil {
				add(l.turned(*rod.Angle.At, s.Unit), "%s angle at", name)
			}
		}
		critical := slices.Clone(s.Critical)
		if l.mirrored && s.Unit == "deg" {
			slices.Reverse(critical)
		}
		for i, c := range critical {
			name := fmt.Sprintf("%s critical %d %s %s", sweep, i, c.Kind, c.Name())
			if c.Rod != nil {
				name += " " + c.Rod.Name
			}
			add(l.turned(c.At, s.Unit), "%s at", name)
			add(l.sized(c.Margin, s.Unit), "%s margin", name)
		}
	}
	return out
}

// requireSame compares all figures of two results, the second as it is seen.
// tolerance is relative to the figure where that is above 1. Places of least
// and greatest values are known only to the root of it: there the figure is flat.
func requireSame(t *testing.T, want, got *solve.Result, l seen, tolerance float64, about string) {
	t.Helper()
	a, b := figures(want, asItIs), figures(got, l)
	keys := slices.Sorted(maps.Keys(a))
	require.Equal(t, keys, slices.Sorted(maps.Keys(b)), about)
	for _, key := range keys {
		allowed := tolerance
		if strings.HasPrefix(key, "require") && strings.HasSuffix(key, " at") || strings.HasSuffix(key, "angle at") {
			allowed = math.Max(1e-5, tolerance)
		}
		require.InDelta(t, a[key], b[key], allowed*math.Max(1, math.Abs(a[key])), "%s: %s", about, key)
	}
}

// TestFiguresAreNumbers: none is NaN or infinite, and the same file gives the
// same figures to the last bit.
func TestFiguresAreNumbers(t *testing.T) {
	drawings := specimens()
	drawings["mixer"] = mixerDrawing()
	for name, d := range drawings {
		text := d.with(demand("over-center", "least = 10"), demand("rod-angle", "least = 30"), demand("misalignment", "most = 10"), demand("stops", "")).text()
		first, again := check(t, text), check(t, text)
		for key, v := range figures(first, asItIs) {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%s: %s is %v", name, key, v)
		}
		require.Equal(t, figures(first, asItIs), figures(again, asItIs), name)
		for i, s := range first.Sweeps {
			_, rows := tableOf(t, s, 17)
			_, same := tableOf(t, again.Sweeps[i], 17)
			require.Equal(t, rows, same, name)
			for _, row := range rows {
				for _, v := range row {
					require.False(t, math.IsNaN(v) || math.IsInf(v, 0), name)
				}
			}
		}
	}
}
