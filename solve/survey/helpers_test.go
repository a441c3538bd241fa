package survey_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

type vec = linkage.Vec

// network is a run made of places alone, with the truth about them: an airframe
// of three points, and two parts with a pivot and points.
type network struct {
	run    *linkage.Run
	places []linkage.PlaceRef
	truth  []vec
}

// newNetwork lays out eight places about 100 mm apart, nowhere in one line but
// by chance.
func newNetwork(rng *rand.Rand, plane bool, sketch float64) *network {
	airframe := &linkage.Part{Name: "airframe", Motion: linkage.Fixed, Points: make([]linkage.Point, 3)}
	lever := &linkage.Part{Name: "lever", Index: 1, Motion: linkage.Turns, Axis: linkage.Vec{Z: 1}, Points: make([]linkage.Point, 2)}
	rocker := &linkage.Part{Name: "rocker", Index: 2, Motion: linkage.Turns, Axis: linkage.Vec{Z: 1}, Points: make([]linkage.Point, 1)}
	run := &linkage.Run{
		Source: &linkage.Source{Name: "test.hcl"}, Name: "made", Units: linkage.Millimeters,
		Parts: []*linkage.Part{airframe, lever, rocker}, Sketch: sketch, Plane: plane,
	}
	n := &network{run: run}
	for _, p := range run.Parts {
		if p.Motion == linkage.Turns {
			n.places = append(n.places, linkage.PlaceRef{Part: p, Point: -1})
		}
		for i := range p.Points {
			p.Points[i].Name = string(rune('a' + i))
			n.places = append(n.places, linkage.PlaceRef{Part: p, Point: i})
		}
	}
	aside := func() float64 { return 60*rng.Float64() - 30 }
	for _, cell := range rng.Perm(9)[:len(n.places)] {
		at := vec{X: float64(cell%3)*100 + aside(), Y: float64(cell/3)*100 + aside(), Z: 3 * aside()}
		n.truth = append(n.truth, at)
	}
	return n
}

// draw sketches the places anew, each coordinate with an error of its own.
func (n *network) draw(t testing.TB, rng *rand.Rand) {
	at := make([]vec, len(n.truth))
	for i, v := range n.truth {
		v.X += rng.NormFloat64() * n.run.Sketch
		v.Y += rng.NormFloat64() * n.run.Sketch
		if !n.run.Plane {
			v.Z += rng.NormFloat64() * n.run.Sketch
		}
		at[i] = v
	}
	n.move(t, at)
}

// move puts every place elsewhere.
func (n *network) move(t testing.TB, at []vec) {
	t.Helper()
	n.run = edited(t, n.run, linkage.Move(n.places, at))
	for i := range n.places {
		n.places[i].Part = n.run.Part(n.places[i].Part)
	}
}

// plan measures nothing yet: some tapes that read to within 1 mm, and some
// gauges that read to within half a degree.
func (n *network) plan(rng *rand.Rand, taped, gauged int) {
	var pairs [][2]int
	for i := range n.places {
		for j := range i {
			pairs = append(pairs, [2]int{j, i})
		}
	}
	rng.Shuffle(len(pairs), func(i, j int) { pairs[i], pairs[j] = pairs[j], pairs[i] })
	n.run.Measurements = nil
	for i, p := range pairs[:taped+gauged] {
		m := &linkage.Measurement{
			Kind: linkage.Taped, Name: fmt.Sprint("m", i),
			From: n.places[p[0]], To: n.places[p[1]], Within: 1,
		}
		if i >= taped {
			m.Kind, m.Within = linkage.Gauged, 0.5
		}
		n.run.Measurements = append(n.run.Measurements, m)
	}
}

// measure reads every measurement off the truth, with the errors it may have.
func (n *network) measure(rng *rand.Rand) {
	for _, m := range n.run.Measurements {
		m.Is = reading(m, n.of(m.From), n.of(m.To)) + rng.NormFloat64()*m.Within/2
	}
}

// of is where a place truly is.
func (n *network) of(ref linkage.PlaceRef) vec {
	for i, p := range n.places {
		if p == ref {
			return n.truth[i]
		}
	}
	panic("no such place: " + ref.String())
}

// reading is what a tape or gauge shows: the definitions of the file.
func reading(m *linkage.Measurement, from, to vec) float64 {
	if m.Kind == linkage.Taped {
		return math.Sqrt((to.X-from.X)*(to.X-from.X) + (to.Y-from.Y)*(to.Y-from.Y) + (to.Z-from.Z)*(to.Z-from.Z))
	}
	return deg(math.Atan2(to.Y-from.Y, to.X-from.X))
}

func surveyOf(t testing.TB, run *linkage.Run) *survey.Survey {
	t.Helper()
	s, err := survey.New(run)
	require.NoError(t, err)
	return s
}

// surveyedPoint returns a point of a survey by name.
func surveyedPoint(t testing.TB, s *survey.Survey, name string) survey.Point {
	t.Helper()
	for _, p := range s.Points {
		if p.Name == name {
			return p
		}
	}
	require.Fail(t, "no such point", name)
	return survey.Point{}
}

// coordinates are the first axes of a place.
func coordinates(v vec, plane bool) []float64 {
	if plane {
		return []float64{v.X, v.Y}
	}
	return []float64{v.X, v.Y, v.Z}
}

// read reads a run of the text of a file.
func read(t testing.TB, text string) *linkage.Run {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)})
	require.NoError(t, err, "%s", text)
	return run
}

// edited is a run with edits made.
func edited(t testing.TB, run *linkage.Run, edits ...linkage.Edit) *linkage.Run {
	t.Helper()
	changed, err := run.With(edits...)
	require.NoError(t, err)
	return changed
}

// num writes a number so that it reads back the same.
func num(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

func deg(radians float64) float64 { return radians * (180 / math.Pi) }

// turnTo returns a + a multiple of 360, nearest to b.
func turnTo(a, b float64) float64 { return a + 360*math.Round((b-a)/360) }

// near asserts an absolute closeness and says what it is about.
func near(t testing.TB, want, got, tolerance float64, about string) {
	t.Helper()
	require.False(t, math.IsNaN(got) || math.IsInf(got, 0), "%s: %v", about, got)
	require.InDelta(t, want, got, tolerance, about)
}
