package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"
)

// courseOf is a sweep with its course.
type courseOf struct {
	name   string
	run    *linkage.Run
	sweep  *solve.Sweep
	course *solve.Course
}

// courses are those of every sweep of every demo, and of one that ends on center: made
// once, and no test changes them.
var courses []courseOf

// eachCourse calls do for every one of courses.
func eachCourse(t *testing.T, do func(t *testing.T, run *linkage.Run, w *solve.Sweep, course *solve.Course)) {
	if courses == nil {
		courses = allCourses(t)
	}
	for _, c := range courses {
		t.Run(c.name, func(t *testing.T) { do(t, c.run, c.sweep, c.course) })
	}
}

func allCourses(t *testing.T) (list []courseOf) {
	const onCenter = "on center"
	for _, kind := range append(demo.Kinds(), demo.WrongHole, demo.Unequal, demo.Dual, onCenter) {
		text := onCenterThrottle(t)
		if kind != onCenter {
			file, ok := demo.File(kind)
			require.True(t, ok)
			text = string(file)
		}
		result := check(t, text)
		for _, w := range result.Sweeps {
			list = append(list, courseOf{fmt.Sprintf("%s/%s/%d", kind, w.Control.Name, w.Index), result.Run, w, w.Course()})
		}
	}
	return list
}

// onCenterThrottle is the demo without the stop that keeps it off center.
func onCenterThrottle(t testing.TB) string {
	t.Helper()
	file, ok := demo.File("throttle")
	require.True(t, ok)
	text := string(file)
	from := strings.Index(text, `stop "tail-stop"`)
	require.Positive(t, from)
	to := from + strings.Index(text[from:], "\n}") + 2
	return text[:from] + text[to:]
}

// bodyOf is the index of what a point belongs to, -1 where that doesn't move.
func bodyOf(bodies []solve.Body, ref linkage.PointRef) int {
	for i, b := range bodies {
		if ref.Part != nil && b.Part == ref.Part || ref.Rod != nil && b.Rod == ref.Rod {
			return i
		}
	}
	return -1
}

// placeOf is where a point is in a position.
func placeOf(bodies []solve.Body, at *solve.PoseSample, ref linkage.PointRef) linkage.Vec {
	if i := bodyOf(bodies, ref); i >= 0 {
		return at.Frames[i].Place(ref.Get().At)
	}
	return ref.Get().At
}

// pointsOf lists every point of a run.
func pointsOf(run *linkage.Run) (list []linkage.PointRef) {
	for _, p := range run.Parts {
		for i := range p.Points {
			list = append(list, linkage.PointRef{Part: p, Point: i})
		}
	}
	for _, r := range run.Rods {
		for i := range r.Points {
			list = append(list, linkage.PointRef{Rod: r, Point: i})
		}
	}
	return list
}

// What lies between two positions may be taken to go straight: in the middle,
// and anywhere.
func TestCourseGoesStraightBetween(t *testing.T) {
	const (
		within = 2e-5 // of the run's size, of what is drawn: promised
		share  = 2e-3 // of a series' range: promised
		// off is by how much more it may be off elsewhere than in the middle,
		// where a course looks: a corner, such as that of an acute angle at its
		// greatest, close to one end is half as high there.
		off  = 2.0
		seed = 20261125
	)
	random := rand.New(rand.NewPCG(seed, 1))
	eachCourse(t, func(t *testing.T, run *linkage.Run, w *solve.Sweep, course *solve.Course) {
		size := run.Size()
		ranges := make([]float64, len(course.Series))
		for i := range ranges {
			low, high := math.Inf(1), math.Inf(-1)
			for _, p := range course.Samples {
				if v := p.Values[i]; v != nil {
					low, high = math.Min(low, *v), math.Max(high, *v)
				}
			}
			ranges[i] = math.Max(0, high-low)
		}
		points := pointsOf(run)
		finest := (w.High - w.Low) / 8192
		for k := 1; k < len(course.Samples); k++ {
			a, b := &course.Samples[k-1], &course.Samples[k]
			for n, part := range []float64{0.5, random.Float64()} {
				x := a.At + part*(b.At-a.At)
				at, ok := w.Sample(x)
				require.True(t, ok)
				allowed := 1.0
				if n > 0 {
					allowed = off
				}
				if b.At-a.At <= 1.001*finest {
					continue // beside a toggle nothing goes straight
				}
				pose := solveAt(t, w, x)
				for _, ref := range points {
					straight := placeOf(course.Bodies, a, ref).Scale(1 - part).Add(placeOf(course.Bodies, b, ref).Scale(part))
					gone := placeOf(course.Bodies, &at, ref)
					if off := gone.Sub(straight).Norm(); !(off <= allowed*within*size+1e-9) {
						require.Fail(t, "not straight", "%s is off by %v at %v (seed %d)", ref, off, x, seed)
					}
					if off := gone.Sub(pose.Point(ref)).Norm(); !(off <= 1e-9*size) {
						require.Fail(t, "not where it stands", "%s is off by %v at %v", ref, off, x)
					}
				}
				for i, s := range course.Series {
					va, v, vb := a.Values[i], at.Values[i], b.Values[i]
					if va == nil || v == nil || vb == nil {
						continue
					}
					noise := 1e-7
					if s.Kind == solve.SeriesRodAngle && *v > 89.9 {
						noise = 1e-5 // square to its arm an angle is known to the root of rounding
					}
					if !(math.Abs(*va+part*(*vb-*va)-*v) <= allowed*share*ranges[i]+noise) {
						require.Fail(t, "not straight", "%s %s is %v at %v (seed %d)", s.Kind, s.Name, *v, x, seed)
					}
				}
			}
		}
	})
}

func TestCourseHoldsWhatWasAskedFor(t *testing.T) {
	eachCourse(t, func(t *testing.T, _ *linkage.Run, w *solve.Sweep, _ *solve.Course) {
		third, odd := w.Low+(w.High-w.Low)/3, w.Low+(w.High-w.Low)*math.Sqrt2/2
		course := w.Course(odd, third, w.Low, w.High+1, w.Low-1, third, 0)
		at := map[float64]int{}
		for i, p := range course.Samples {
			at[p.At]++
			assert.Len(t, p.Values, len(course.Series))
			assert.Len(t, p.Frames, len(course.Bodies))
			if i > 0 {
				require.Greater(t, p.At, course.Samples[i-1].At, "ascending")
			}
		}
		for _, x := range []float64{w.Low, 0, w.High, third, odd} {
			assert.Equal(t, 1, at[x], "%v", x)
		}
		assert.Zero(t, at[w.Low-1]+at[w.High+1], "what lies beyond the travel is passed over")
		assert.GreaterOrEqual(t, len(course.Samples), 48)
		assert.LessOrEqual(t, len(course.Samples), 3000, "what fits in a page")
	})
}

// A position tells the same as the table of positions.
func TestPositionsAgreeWithTheTable(t *testing.T) {
	const same = 1e-12 // of a column's range, or of what its figures are in size
	eachCourse(t, func(t *testing.T, _ *linkage.Run, w *solve.Sweep, course *solve.Course) {
		const steps = 12
		columns, rows := tableOf(t, w, steps)
		compared := 0
		for i, row := range rows {
			x := w.Low + (w.High-w.Low)*float64(i)/steps
			if i == steps {
				x = w.High
			}
			at, ok := w.Sample(x)
			require.True(t, ok)
			for k, s := range course.Series {
				if s.Kind != solve.SeriesPart && s.Kind != solve.SeriesOutput {
					continue
				}
				for j, c := range columns {
					if c.Name != s.Name {
						continue
					}
					compared++
					assert.Equal(t, c.Unit, s.Unit)
					require.NotNil(t, at.Values[k])
					size := math.Abs(row[j])
					for _, other := range rows {
						size = math.Max(size, math.Abs(other[j]-rows[0][j]))
					}
					assert.InDelta(t, row[j], *at.Values[k], same*math.Max(size, 100), "%s at %v", c.Name, x)
				}
			}
		}
		assert.Equal(t, len(columns)*(steps+1), compared, "every column")
	})
}

// A body is turned, not bent, and every rod is as long as it is set; a second
// path as long as it is told to need.
func TestFramesKeepLengths(t *testing.T) {
	eachCourse(t, func(t *testing.T, run *linkage.Run, w *solve.Sweep, course *solve.Course) {
		size := run.Size()
		for k := range course.Samples {
			at := &course.Samples[k]
			for i, f := range at.Frames {
				r := f.Turn
				row := func(n int) linkage.Vec { return linkage.Vec{X: r[3*n], Y: r[3*n+1], Z: r[3*n+2]} }
				for n := range 3 {
					near(t, 1, row(n).Dot(row(n)), 1e-12, "a row is of length 1")
					near(t, 0, row(n).Dot(row((n+1)%3)), 1e-12, "and square to the next")
				}
				near(t, 1, row(0).Cross(row(1)).Dot(row(2)), 1e-12, "and it isn't mirrored")
				if b := course.Bodies[i]; b.Part != nil && b.Part.Motion == linkage.Slides && b.Part.Carrier == nil {
					require.True(t, r == [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}, "%s only slides", b.Part.Name)
				}
			}
			for _, rod := range run.Rods {
				long := placeOf(course.Bodies, at, rod.From).Sub(placeOf(course.Bodies, at, rod.To)).Norm()
				want := rod.Length
				for i, s := range course.Series {
					if s.Kind == solve.SeriesNeeded && s.Rod == rod {
						require.NotNil(t, at.Values[i])
						want = *at.Values[i]
					}
				}
				nearf(t, want, long, 1e-11*size, "%s at %v", rod.Name, at.At)
			}
		}
	})
}

func TestCourseTellsNoNumberThatIsNone(t *testing.T) {
	eachCourse(t, func(t *testing.T, _ *linkage.Run, w *solve.Sweep, course *solve.Course) {
		real := func(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
		for _, p := range course.Samples {
			require.True(t, real(p.At))
			for i, v := range p.Values {
				if v != nil && !real(*v) {
					require.Fail(t, "no number", "%s %s at %v", course.Series[i].Kind, course.Series[i].Name, p.At)
				}
			}
			for _, f := range p.Frames {
				if slices.ContainsFunc(append(f.Turn[:], f.Shift.X, f.Shift.Y, f.Shift.Z), func(v float64) bool { return !real(v) }) {
					require.Fail(t, "no number", "a frame at %v: %v", p.At, f)
				}
			}
		}
		_, ok := w.Sample(math.NaN())
		assert.False(t, ok)
		_, ok = w.Sample(w.Explored[1] + 1)
		assert.False(t, ok)
	})
}

// On center there is no ratio; beside it nothing goes straight, and still the
// course comes to an end.
func TestCourseToAToggle(t *testing.T) {
	_, w := sweepOf(t, onCenterThrottle(t))
	require.Equal(t, solve.ByToggle, w.Ends[1].Cause)
	course := w.Course()
	assert.Less(t, len(course.Samples), 1500)
	last := course.Samples[len(course.Samples)-1]
	assert.InDelta(t, w.High, last.At, 0)
	for i, s := range course.Series {
		switch s.Kind {
		case solve.SeriesRatio:
			assert.Nil(t, last.Values[i], "it would be infinite")
			before := course.Samples[len(course.Samples)-2].Values[i]
			require.NotNil(t, before)
			assert.Greater(t, *before, 10.0, "and is large beside it")
		case solve.SeriesRodAngle:
			nearAt(t, 0, last.Values[i], 1e-5, "rod and arm in line")
		}
	}
}

// Readings of a four-bar in closed form: the crossing of two circles.
func TestPositionsOfAFourBar(t *testing.T) {
	// S. Macharia and others, Planar Mechanics: crank-rocker 40, 120, 80, 100.
	f := fourBar{ground: 100, crank: 40, coupler: 120, rocker: 80}
	const drawn = 90.0
	_, w := sweepOf(t, f.draw(drawn, 0.5).text()+control("crank", -60, 60)+demand("rod-angle", "least = 20"))
	_, atDrawn := f.angles(drawn)
	for _, p := range w.Course().Samples {
		_, rocker := f.angles(drawn + p.At)
		_, rate := f.rates(drawn + p.At)
		for i, s := range w.Series() {
			switch {
			case s.Kind == solve.SeriesOutput && s.Name == "rocker-turn":
				nearAt(t, rocker-atDrawn, p.Values[i], 1e-9, "rocker")
			case s.Kind == solve.SeriesRatio && s.Name == "rocker-turn":
				nearAt(t, rate, p.Values[i], 1e-9, "ratio")
			case s.Kind == solve.SeriesRodAngle:
				nearAt(t, f.mu(drawn+p.At), p.Values[i], 1e-6, "rod angle")
			}
		}
	}
}
