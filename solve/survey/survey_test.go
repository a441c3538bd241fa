package survey_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

// bench is a file of places and measurements: the run's attributes, then blocks.
// Its control is the part lever.
func bench(run, blocks string) string {
	return fmt.Sprintf("run \"Bench\" {\n%s\n}\n%s\ncontrol \"hand\" { of = lever }\n", run, blocks)
}

const sketched = "units = \"mm\"\nsketch = 30"

// tape is a block of a distance that reads to within 1.
func tape(from, to string, is float64) string {
	return fmt.Sprintf("\ntaped \"%s to %s\" {\n  from = %s\n  to = %s\n  is = %s\n  within = 1\n}", from, to, from, to, num(is))
}

// gauge is a block of a direction that reads to within half a degree.
func gauge(from, to string, is float64) string {
	return strings.NewReplacer("taped \"", "gauged \"line ", "within = 1", "within = 0.5").Replace(tape(from, to, is))
}

// TestSurveyReturnsAnExactDrawing measures exactly what is drawn.
func TestSurveyReturnsAnExactDrawing(t *testing.T) {
	parts := `
		fixed "airframe" { points = { datum = [0, 0], mark = [300, 20] } }
		part "lever" {
		  pivot  = [80, 140]
		  points = { foot = [60, 320, 40] }
		  arms   = { horn = [5, -60, -12] }
		}
		part "rocker" {
		  pivot = [260, 130]
		  arms  = { upper = [0, 60], lower = polar(55, -80) }
		}
		part "carried" {
		  pivot  = lever.foot
		  points = { tip = [180, 220] }
		}
		rod "link" {
		  from = lever.horn
		  to   = rocker.lower
		}`
	plain := read(t, bench("units = \"mm\"", parts))
	at := func(name string) vec {
		for _, p := range plain.Parts {
			if name == p.Name+".pivot" {
				return p.Pivot
			}
			for _, q := range p.Points {
				if name == p.Name+"."+q.Name {
					return q.At
				}
			}
		}
		require.Fail(t, "no such place", name)
		return vec{}
	}
	names := []string{"airframe.datum", "airframe.mark", "lever.pivot", "lever.foot", "lever.horn", "rocker.pivot", "rocker.upper", "rocker.lower", "carried.tip"}
	text := parts
	for i, to := range names {
		for _, from := range names[:i] {
			text += tape(from, to, at(to).Sub(at(from)).Norm())
		}
	}
	d := at("rocker.upper").Sub(at("lever.pivot"))
	text += gauge("lever.pivot", "rocker.upper", deg(math.Atan2(d.Y, d.X)))
	run := read(t, bench(sketched, text))

	s := surveyOf(t, run)
	require.Len(t, s.Points, len(names))
	for i, p := range s.Points {
		assert.Equal(t, names[i], p.Name, "in the file's order, a pivot before its points")
		assert.InDelta(t, 0, p.At.Sub(at(p.Name)).Norm(), 1e-9)
		assert.Positive(t, p.Sigma.X)
	}
	for _, m := range s.Measurements {
		assert.InDelta(t, 0, m.Residual, 1e-9)
		assert.InDelta(t, m.Measurement.Is, m.Adjusted, 1e-9)
		assert.False(t, m.Doubtful)
	}
	assert.Empty(t, s.Undetermined)
	assert.False(t, s.Next.OK, "every distance is taped")
	// 18 unknowns, of which the measurements leave the two of a shift.
	assert.Equal(t, 37-16, s.DegreesOfFreedom)

	rod := run.Rods[0].Length
	adjusted, err := s.Apply(run)
	require.NoError(t, err)
	assert.InDelta(t, rod, adjusted.Rods[0].Length, 1e-9)
}

// TestSurveySharesAMisclosure tapes a line in two lengths and as a whole. By
// symmetry each takes a third of the misclosure (elementary): redundancy 1/3,
// misclosure the whole. The sketch takes part by (sigma/sketch)^2.
func TestSurveySharesAMisclosure(t *testing.T) {
	const little = 1e-3 // (0.5/30)^2 is 3e-4
	for _, misclosure := range []float64{0.9, -0.9, 6} {
		for _, along := range []vec{{X: 1}, {X: 0.6, Y: 0.8}} {
			t.Run(fmt.Sprint(misclosure, along), func(t *testing.T) {
				b, c := along.Scale(40), along.Scale(100)
				run := read(t, bench(sketched, fmt.Sprintf(`
					fixed "airframe" {
					  exact  = true
					  points = { datum = [0, 0] }
					}
					part "lever" {
					  pivot  = [%v, %v]
					  points = { end = [%v, %v] }
					}`, b.X, b.Y, c.X, c.Y)+
					tape("airframe.datum", "lever.pivot", 40)+tape("lever.pivot", "lever.end", 60)+
					tape("airframe.datum", "lever.end", 100+misclosure)))
				s := surveyOf(t, run)
				for i, sign := range []float64{-1, -1, 1} {
					m := s.Measurements[i]
					assert.InEpsilon(t, sign*misclosure/3, m.Residual, little)
					assert.InDelta(t, 1./3, m.Redundancy, little)
					assert.InEpsilon(t, sign*misclosure, *m.Misclosure, little)
					assert.InEpsilon(t, sign*misclosure/(0.5*math.Sqrt(3)), *m.Standardized, little)
				}
				// All three disagree alike: the first stands for them, where it is more
				// than chance.
				told := 0
				for _, m := range s.Measurements {
					if m.Doubtful {
						told++
					}
				}
				assert.Equal(t, map[bool]int{true: 1, false: 0}[math.Abs(misclosure) > 3*0.5*math.Sqrt(3)], told)
				// They stay in line, and how far aside they are nothing tells.
				for _, name := range []string{"lever.pivot", "lever.end"} {
					p := surveyedPoint(t, s, name)
					assert.InDelta(t, 0, p.At.Cross(along).Z, 1e-9)
					aside := math.Hypot(p.Sigma.X*along.Y, p.Sigma.Y*along.X)
					assert.Greater(t, aside, 10.)
				}
				assert.Equal(t, 1, s.DegreesOfFreedom)
				if along.Y == 0 {
					assert.Equal(t, []string{"lever.pivot.y", "lever.end.y"}, s.Undetermined)
					assert.InDelta(t, 30, surveyedPoint(t, s, "lever.end").Sigma.Y, 1e-6)
				} else {
					assert.Equal(t, []string{"lever.pivot.x", "lever.pivot.y", "lever.end.x", "lever.end.y"}, s.Undetermined)
				}
			})
		}
	}
}

// TestSurveyNamesWhatIsUndetermined is the datum's rules, and rank defects that
// can be seen by eye.
func TestSurveyNamesWhatIsUndetermined(t *testing.T) {
	const (
		airframe = "fixed \"airframe\" { points = { datum = [0, 0], mark = [300, 0] } }\n"
		exact    = "fixed \"airframe\" {\n exact = true\n points = { datum = [0, 0], mark = [300, 0] }\n}\n"
		one      = "fixed \"airframe\" {\n exact = true\n points = { datum = [0, 0] }\n}\n"
		lever    = "part \"lever\" {\n pivot = [100, 100]\n points = { tip = [200, 100] }\n}\n"
	)
	side, long := 100*math.Sqrt2, 100*math.Sqrt(5)
	ties := tape("airframe.datum", "lever.pivot", side) + tape("airframe.mark", "lever.pivot", long)
	tip := tape("lever.pivot", "lever.tip", 100) + tape("airframe.datum", "lever.tip", long)
	for _, c := range []struct {
		name, text string
		want       string
		free       int // degrees of freedom
	}{
		{"exact places are the datum", exact + lever + ties + tip, "", 0},
		{"a check more", exact + lever + ties + tip + tape("airframe.mark", "lever.tip", side), "", 1},
		{"one distance short", exact + lever + ties + tape("lever.pivot", "lever.tip", 100), "lever.tip.y", 0},
		{"not measured at all", exact + lever + ties, "lever.tip.x lever.tip.y", 0},
		{"nothing measured", airframe + lever, "airframe.mark.x lever.pivot.x lever.pivot.y lever.tip.x lever.tip.y", 0},
		{"between exact places", exact + lever + ties + tip + tape("airframe.datum", "airframe.mark", 300), "", 1},
		{"one exact place gives no direction",
			one + lever + tape("airframe.datum", "lever.pivot", side) + tip,
			"lever.pivot.x lever.pivot.y lever.tip.x lever.tip.y", 0},
		{"and a gauge does",
			one + lever + tape("airframe.datum", "lever.pivot", side) + tip + gauge("lever.pivot", "lever.tip", 0), "", 0},
		{"the first fixed point, and the next for direction",
			airframe + lever + ties + tip + tape("airframe.datum", "airframe.mark", 300), "", 0},
		{"the next fixed point is held square to the line only",
			airframe + lever + ties + tape("lever.pivot", "lever.tip", 100),
			"airframe.mark.x lever.pivot.x lever.pivot.y lever.tip.x lever.tip.y", 0},
		{"a gauge gives the direction, not the next fixed point",
			airframe + lever + tape("airframe.datum", "lever.pivot", side) + tip + gauge("airframe.datum", "lever.pivot", 45),
			"airframe.mark.x airframe.mark.y", 0},
		{"a gauge anywhere would notice the drawing turn",
			airframe + "part \"lever\" {\n pivot = [100, 100]\n points = { tip = [200, 100], low = [0, -50], end = [30, -90] }\n}\n" +
				ties + tip + tape("airframe.datum", "airframe.mark", 300) + gauge("lever.low", "lever.end", -53),
			"airframe.mark.y lever.pivot.x lever.pivot.y lever.tip.x lever.tip.y lever.low.x lever.low.y lever.end.x lever.end.y", 0},
		{"without a fixed point the first pivot",
			"fixed \"airframe\" {}\npart \"bracket\" { points = { eye = [0, 0] } }\n" +
				"part \"lever\" {\n pivot = [100, 0]\n points = { tip = [100, 100] }\n}\npart \"rocker\" { pivot = [0, 100] }\n" +
				"rod \"a\" {\n from = bracket.eye\n to = lever.tip\n}\n" +
				tape("lever.pivot", "rocker.pivot", side) + tape("lever.pivot", "lever.tip", 100) + tape("rocker.pivot", "lever.tip", 100),
			"bracket.eye.x bracket.eye.y", 0},
		{"a pivot on the shaft of the first gives no direction, the next does",
			"part \"lever\" {\n pivot = [0, 0]\n points = { tip = [0, 100] }\n}\npart \"right\" {\n pivot = [0, 0]\n points = { tip = [10, 100] }\n}\n" +
				"part \"rocker\" { pivot = [200, 0] }\n" +
				tape("lever.pivot", "rocker.pivot", 200) + tape("lever.pivot", "lever.tip", 100) + tape("rocker.pivot", "lever.tip", long),
			"right.pivot.x right.pivot.y right.tip.x right.tip.y", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := surveyOf(t, read(t, bench(sketched, c.text)))
			assert.Equal(t, c.want, strings.Join(s.Undetermined, " "))
			assert.Equal(t, c.free, s.DegreesOfFreedom)
			var flags []string
			for _, p := range s.Points {
				for axis, is := range p.Undetermined {
					if is {
						flags = append(flags, p.Name+[...]string{".x", ".y", ".z"}[axis])
					}
				}
			}
			assert.Equal(t, s.Undetermined, flags)
		})
	}
}

// TestSurveyInSpace ties a run in space, whose first fixed point holds it, with
// as many further directions as it could still turn in.
func TestSurveyInSpace(t *testing.T) {
	at := map[string]vec{
		"airframe.datum": {}, "airframe.mark": {X: 300}, "airframe.rib": {X: 50, Y: 200, Z: 10},
		"lever.pivot": {X: 100, Y: 80, Z: 150}, "lever.tip": {X: 120, Y: 260, Z: 200},
	}
	names := []string{"airframe.datum", "airframe.mark", "airframe.rib", "lever.pivot", "lever.tip"}
	parts := `
		fixed "airframe" { points = { datum = [0, 0, 0], mark = [290, 0, 0], rib = [53, 190, 4] } }
		part "lever" {
		  pivot  = [110, 80, 140]
		  axis   = [1, 0, 0]
		  points = { tip = [120, 250, 210] }
		}`
	text := ""
	for i, to := range names {
		for _, from := range names[:i] {
			text += tape(from, to, at[to].Sub(at[from]).Norm())
		}
	}
	run := read(t, bench(sketched, parts+text))
	require.False(t, run.Plane)
	s := surveyOf(t, run)
	assert.Empty(t, s.Undetermined)
	assert.Equal(t, 10-(15-6), s.DegreesOfFreedom)
	for i, p := range s.Points {
		assert.False(t, p.PlaneOnly)
		for _, q := range s.Points[:i] { // the shape is the true one
			// The sketch bends it by sigma^2/sketch of what it is out.
			assert.InDelta(t, at[p.Name].Sub(at[q.Name]).Norm(), p.At.Sub(q.At).Norm(), 0.01)
		}
	}
	assert.Positive(t, surveyedPoint(t, s, "lever.tip").Sigma.Z)

	// Without one of the distances two of them turn about the line of three others.
	short := strings.Replace(text, tape("airframe.datum", "lever.tip", at["lever.tip"].Norm()), "", 1)
	short = strings.Replace(short, tape("lever.pivot", "lever.tip", at["lever.tip"].Sub(at["lever.pivot"]).Norm()), "", 1)
	s = surveyOf(t, read(t, bench(sketched, parts+short)))
	assert.Equal(t, []string{"lever.tip.x", "lever.tip.y", "lever.tip.z"}, s.Undetermined)
	assert.Zero(t, s.DegreesOfFreedom)

	// Gauges in the drawing take over turns from the fixed points, one each: the
	// redundancy grows only when there are none left to take.
	for gauges, free := range []int{1, 1, 1, 1, 2} {
		more := ""
		for i, ends := range [][2]string{{"airframe.datum", "lever.pivot"}, {"airframe.mark", "lever.tip"}, {"airframe.rib", "lever.tip"}, {"airframe.datum", "lever.tip"}} {
			if i < gauges {
				d := at[ends[1]].Sub(at[ends[0]])
				more += gauge(ends[0], ends[1], deg(math.Atan2(d.Y, d.X)))
			}
		}
		s := surveyOf(t, read(t, bench(sketched, parts+text+more)))
		assert.Empty(t, s.Undetermined, "%d gauges", gauges)
		assert.Equal(t, free, s.DegreesOfFreedom, "%d gauges", gauges)
	}
}

// TestSurveyOfAnExactRun has no sketch: nothing is adjusted, and every
// measurement is checked by the drawing alone.
func TestSurveyOfAnExactRun(t *testing.T) {
	text := "fixed \"airframe\" { points = { datum = [0, 0] } }\npart \"lever\" {\n pivot = [30, 40]\n points = { tip = [-10, 40] }\n}\n" +
		tape("airframe.datum", "lever.pivot", 50.5) + gauge("lever.pivot", "lever.tip", -178) + gauge("lever.tip", "lever.pivot", 359)
	run := read(t, bench(`units = "mm"`, text))
	s := surveyOf(t, run)
	for i, want := range []struct{ adjusted, residual, sigma float64 }{{50, 0.5, 0.5}, {-180, 2, 0.25}, {360, -1, 0.25}} {
		m := s.Measurements[i]
		assert.InDelta(t, want.adjusted, m.Adjusted, 1e-12)
		assert.InDelta(t, want.residual, m.Residual, 1e-12)
		assert.Equal(t, 1., m.Redundancy)
		assert.InDelta(t, want.residual, *m.Misclosure, 1e-12)
		assert.InDelta(t, want.residual/want.sigma, *m.Standardized, 1e-12)
		assert.Equal(t, i == 1, m.Doubtful)
		assert.False(t, m.AsDoubtful, "8 standard deviations off is the one; 4 is not like it")
	}
	assert.Equal(t, 1, s.StillDisagree, "the other gauged line is 4 standard deviations off the drawing by itself")
	assert.Same(t, &s.Measurements[1], s.Doubtful())
	assert.Equal(t, survey.Disagrees, s.Doubt().Kind)
	assert.Equal(t, 3, s.DegreesOfFreedom)
	assert.Empty(t, s.Undetermined)
	assert.False(t, s.Next.OK)
	assert.Empty(t, s.Dimensions())
	assert.Zero(t, s.Cov().SymmetricDim())
	for _, p := range s.Points {
		assert.True(t, p.Exact)
		assert.Equal(t, p.Drawn, p.At)
		assert.Zero(t, p.Sigma)
	}
}

// TestSurveyInInches is the same in inches: every length 25.4 times smaller.
func TestSurveyInInches(t *testing.T) {
	text := func(unit linkage.Unit, k float64) string {
		n := func(x float64) string { return num(x / k) }
		return bench(fmt.Sprintf("units = %q\nsketch = %s", unit, n(12)), fmt.Sprintf(`
			fixed "airframe" { points = { datum = [0, 0], mark = [%s, 0] } }
			part "lever" {
			  pivot  = [%s, %s]
			  points = { tip = [%s, %s] }
			}`, n(300), n(95), n(110), n(210), n(90))+strings.ReplaceAll(
			tape("airframe.datum", "airframe.mark", 301/k)+tape("airframe.datum", "lever.pivot", 141/k)+tape("airframe.mark", "lever.pivot", 224/k)+
				tape("airframe.mark", "lever.tip", 140/k)+tape("lever.pivot", "lever.tip", 104/k)+tape("airframe.datum", "lever.tip", 224/k),
			"within = 1\n", "within = "+n(1)+"\n")+gauge("lever.pivot", "lever.tip", 0))
	}
	mm, in := surveyOf(t, read(t, text("mm", 1))), surveyOf(t, read(t, text("in", 25.4)))
	for i, p := range mm.Points {
		q := in.Points[i]
		assert.InDelta(t, 0, p.At.Sub(q.At.Scale(25.4)).Norm(), 1e-9)
		assert.InDelta(t, 0, p.Sigma.Sub(q.Sigma.Scale(25.4)).Norm(), 1e-9)
	}
	for i, m := range mm.Measurements {
		require.Equal(t, i < 6, m.Standardized != nil, "six distances of four places check each other, one gauge is alone")
		require.Equal(t, i < 6, in.Measurements[i].Standardized != nil)
		if i < 6 {
			assert.InEpsilon(t, *m.Standardized, *in.Measurements[i].Standardized, 1e-7)
		}
		assert.Equal(t, m.Doubtful, in.Measurements[i].Doubtful)
	}
	assert.Equal(t, mm.DegreesOfFreedom, in.DegreesOfFreedom)
}

// TestSurveyOfArms moves every place on its own: arms don't follow the pivot that
// the survey shifts.
func TestSurveyOfArms(t *testing.T) {
	run := read(t, bench(sketched, `
		fixed "airframe" {
		  exact  = true
		  points = { datum = [0, 0], mark = [300, 0] }
		}
		part "lever" {
		  pivot = [100, 100]
		  arms  = { tip = [100, 0] }
		}`+tape("airframe.datum", "lever.pivot", 150)+tape("airframe.mark", "lever.pivot", 224)))
	s := surveyOf(t, run)
	pivot := surveyedPoint(t, s, "lever.pivot")
	assert.Greater(t, pivot.At.Sub(pivot.Drawn).Norm(), 5.)
	assert.Equal(t, vec{X: 200, Y: 100}, surveyedPoint(t, s, "lever.tip").At)
	adjusted, err := s.Apply(run)
	require.NoError(t, err)
	assert.Equal(t, pivot.At, adjusted.Parts[1].Pivot)
	assert.Equal(t, vec{X: 200, Y: 100}, adjusted.Parts[1].Points[0].At)
	var names []string
	for _, d := range s.Dimensions() {
		names = append(names, d.String())
	}
	assert.Equal(t, []string{"lever.pivot.x", "lever.pivot.y", "lever.tip.x", "lever.tip.y"}, names)
	assert.InDelta(t, 900, s.Cov().At(2, 2), 1e-9)
	assert.InDelta(t, 0, s.Cov().At(0, 2), 1e-9)
}

// TestSurveyOnTheWrongSide sketches a place on the wrong side of the line that its
// two distances come from: they are met on that side, until a third tells.
func TestSurveyOnTheWrongSide(t *testing.T) {
	text := `
		fixed "airframe" {
		  exact  = true
		  points = { datum = [0, 0], mark = [300, 0], roof = [120, 250] }
		}
		part "lever" { pivot = [110, -60] }` +
		tape("airframe.datum", "lever.pivot", 100*math.Sqrt2) + tape("airframe.mark", "lever.pivot", 100*math.Sqrt(5))
	s := surveyOf(t, read(t, bench(sketched, text)))
	at := surveyedPoint(t, s, "lever.pivot").At
	assert.InDelta(t, 0, at.Sub(vec{X: 100, Y: -100}).Norm(), 0.1, "the mirror image of [100, 100]")
	s = surveyOf(t, read(t, bench(sketched, text+tape("airframe.roof", "lever.pivot", math.Hypot(20, 150)))))
	at = surveyedPoint(t, s, "lever.pivot").At
	assert.InDelta(t, 0, at.Sub(vec{X: 100, Y: 100}).Norm(), 0.1)
}

// TestSurveyRefuses tells what can't be adjusted, all at once.
func TestSurveyRefuses(t *testing.T) {
	places := "fixed \"airframe\" { points = { datum = [0, 0], mark = [0, 0, 7], far = [90, 0] } }\npart \"lever\" { pivot = [0, 0] }\n"
	told := func(text string) string {
		_, err := survey.New(read(t, text))
		var faults *linkage.Faults
		require.ErrorAs(t, err, &faults)
		return err.Error()
	}
	says := told(bench(sketched, places+tape("airframe.datum", "airframe.mark", 5)+
		strings.Replace(tape("airframe.far", "lever.pivot", 50), "within = 1", "within = 1e-30", 1)+
		strings.Replace(gauge("airframe.far", "lever.pivot", 50), "within = 0.5", "within = 1e-30", 1)))
	assert.Contains(t, says, "test.hcl:8,1: airframe.datum and airframe.mark were taped 5 mm apart, and their heights out of the drawing alone are 7 apart")
	assert.Contains(t, says, `test.hcl:14,1: "airframe.far to lever.pivot" reads to within 1e-30`)
	assert.Contains(t, says, `test.hcl:20,1: "line airframe.far to lever.pivot" reads to within 1e-30`)
	assert.Equal(t, 3, strings.Count(says, "test.hcl:"))

	says = told(bench(sketched, places+tape("airframe.datum", "airframe.mark", 50)))
	assert.Contains(t, says, "test.hcl:8,1: airframe.datum and airframe.mark are drawn one behind the other, 7 mm apart, and 50 was measured")

	assert.Contains(t, told(bench("units = \"mm\"\nsketch = 1e-40", places)), "sketch = 1e-40 mm")

	var points strings.Builder
	for i := range 201 {
		fmt.Fprintf(&points, "p%d = [%d, 0]\n", i, i)
	}
	assert.Contains(t, told(bench(sketched, "part \"lever\" {\npivot = [0, 0]\npoints = {\n"+points.String()+"}\n}\n")), "404 sketched coordinates")

	// What lies one behind the other may well be taped.
	s := surveyOf(t, read(t, bench(sketched, places+tape("airframe.datum", "airframe.mark", 7.2))))
	assert.InDelta(t, 0.2, s.Measurements[0].Residual, 1e-9)
}

// Another that is as far off, to within what chance makes of it, could as well be the
// one that slipped: 8 and 7.6 standard deviations, and 8 and 7.4.
func TestSurveyTellsWhatIsAsDoubtful(t *testing.T) {
	for reads, alike := range map[float64]bool{358.1: true, 358.15: false} {
		text := "part \"lever\" {\n pivot = [30, 40]\n points = { tip = [-10, 40] }\n}\n" +
			gauge("lever.pivot", "lever.tip", -178) + gauge("lever.tip", "lever.pivot", reads)
		s := surveyOf(t, read(t, bench(`units = "mm"`, text)))
		assert.True(t, s.Measurements[0].Doubtful)
		assert.Equal(t, alike, s.Measurements[1].AsDoubtful)
		assert.Equal(t, 1, s.StillDisagree)
		assert.False(t, s.NothingExact(), "nothing is sketched")
	}
}
