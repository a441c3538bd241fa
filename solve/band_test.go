package solve_test

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// bandStep is by how much the tests change a dimension to each side, as a
// share of the run's size.
const bandStep = 2e-5

// settable lists the dimensions that count for a band: every coordinate of
// points and pivots that isn't exact, and set lengths.
func settable(run *linkage.Run) (list []linkage.Dimension) {
	for _, d := range run.Dimensions() {
		if (!d.IsLength() || d.Given()) && (d.Part == nil || !d.Part.Exact) {
			list = append(list, d)
		}
	}
	return list
}

// mostResolved is how many dimensions of a run are set to either side, each of which takes
// two checks, for each round of the random tests.
const mostResolved = 10

// TestHuntBandsAgainstReSolves checks the band of every requirement of every demo
// against checks of the file with each dimension set to either side: it is no less
// than how far the worst goes where it lies.
func TestHuntBandsAgainstReSolves(t *testing.T) {
	for _, name := range demoNames(t) {
		t.Run(name, func(t *testing.T) {
			text := []byte(demoText(t, name))
			run, result := bandsOf(t, name, text)
			h := bandStep * run.Size()
			sum := make([]float64, len(result.Requirements))
			// Where two places are equally bad, the worst has a slope to each side
			// of its own, and no derivative.
			kink := make([]float64, len(sum))
			dimensions := settable(run)
			every := 1 + len(dimensions)/(mostResolved*hunt.Rounds())
			for i := 0; i < len(dimensions); i += every { // without some it is no less than what the others make
				d := dimensions[i]
				up, down := setTo(t, name, text, d, h), setTo(t, name, text, d, -h)
				if up == nil || down == nil {
					continue // a rod to a floating part must stay level: the reader refuses
				}
				for i := range sum {
					a, b := up.Requirements[i].Worst, down.Requirements[i].Worst
					if a != nil && b != nil {
						sum[i] += math.Pow((*a-*b)/(2*h), 2)
						now := *result.Requirements[i].Worst
						kink[i] = math.Max(kink[i], math.Abs(*a+*b-2*now)/h)
					}
				}
			}
			compared := 0
			for i, j := range result.Requirements {
				if j.Band == nil {
					require.Nil(t, j.Sure)
					continue
				}
				if kink[i] > 1e-2*math.Sqrt(sum[i]) {
					continue
				}
				compared++
				want := run.Uncertain * math.Sqrt(sum[i])
				nothing := 1e-9
				if j.Requirement.Kind == linkage.Taut {
					nothing = 1e-6 // the same times what a cable's stiffness is
				}
				require.GreaterOrEqual(t, *j.Band+nothing, (want+nothing)*(1-2e-3), "%s %s", j.Requirement.Kind, j.Requirement.Name)
				if j.Requirement.Kind == linkage.Order && every == 1 {
					require.InEpsilon(t, want+nothing, *j.Band+nothing, 2e-3)
				}
			}
			require.Positive(t, compared)
			t.Logf("%d of %d compared", compared, len(sum))
		})
	}
}

// TestBandsOverTheTravel holds the worst with its band against value and band at many
// places of the travel, wherever the worst itself lies.
func TestBandsOverTheTravel(t *testing.T) {
	compared := 0
	for _, name := range demoNames(t) {
		run, result := bandsOf(t, name, []byte(demoText(t, name)))
		counts := make(map[string]bool)
		for _, d := range settable(run) {
			counts[d.String()] = true
		}
		for _, j := range result.Requirements {
			if j.Band == nil {
				continue
			}
			for _, w := range result.Sweeps {
				for _, k := range w.Series() {
					if k.Requirement != j.Requirement {
						continue
					}
					const places = 40
					for i := 1; i < places; i++ {
						x := w.Low + (w.High-w.Low)*float64(i)/places
						at, ok := w.Sample(x)
						require.True(t, ok)
						g, ok := w.Gradient(x, k)
						require.True(t, ok)
						sum := 0.0
						for i, d := range run.Dimensions() {
							if counts[d.String()] {
								sum += g.Dimensions[i] * g.Dimensions[i]
							}
						}
						band := run.Uncertain * math.Sqrt(sum)
						v := *at.Values[indexOf(w.Series(), k)]
						if k.Requirement.Kind == linkage.Clearance {
							require.LessOrEqual(t, *j.Worst-*j.Band, v-0.98*band, "%s %s at %v", name, j.Requirement.Kind, x)
						} else {
							require.GreaterOrEqual(t, *j.Worst+*j.Band, math.Abs(v)+0.98*band, "%s %s at %v", name, j.Requirement.Kind, x)
						}
						compared++
					}
				}
			}
		}
	}
	require.Greater(t, compared, 100)
}

func indexOf(list []solve.Series, k solve.Series) int {
	for i := range list {
		if list[i].Kind == k.Kind && list[i].Requirement == k.Requirement {
			return i
		}
	}
	return -1
}

func bandsOf(t *testing.T, name string, text []byte, set ...linkage.Setting) (*linkage.Run, *solve.Result) {
	run, err := linkage.Read(&linkage.Source{Name: name, Text: text}, set...)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(result, nil))
	return run, result
}

// setTo checks the file with a dimension set off its value; nil where the
// reader or the solver refuses.
func setTo(t *testing.T, name string, text []byte, d linkage.Dimension, by float64) *solve.Result {
	t.Helper()
	value := strconv.FormatFloat(d.Value()+by, 'f', -1, 64)
	run, err := linkage.Read(&linkage.Source{Name: name, Text: text}, linkage.Setting{Dimension: d.String(), Value: value})
	if err != nil {
		require.True(t, strings.Contains(err.Error(), "height") || strings.Contains(err.Error(), "level"), "%s: %v", d, err)
		return nil
	}
	m, err := solve.Compile(run)
	require.NoError(t, err, "%s = %s", d, value)
	result, err := m.Check()
	require.NoError(t, err)
	return result
}

// TestBandsWithASurvey checks 2 sqrt(g' C g) against checks of the adjusted
// drawing with each of its coordinates moved on its own to either side.
func TestBandsWithASurvey(t *testing.T) {
	const name = "../demo/pedals-taped.hcl"
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Name: name, Text: text})
	require.NoError(t, err)
	survey, err := survey.New(run)
	require.NoError(t, err)
	run, err = survey.Apply(run)
	require.NoError(t, err)
	check := func(run *linkage.Run) (*solve.Mechanism, *solve.Result) {
		m, err := solve.Compile(run)
		require.NoError(t, err)
		result, err := m.Check()
		require.NoError(t, err)
		return m, result
	}
	m, result := check(run)
	require.NoError(t, m.AddBands(result, survey))
	h := bandStep * run.Size()
	slopes := make([][]float64, len(result.Requirements))
	for _, d := range survey.Dimensions() {
		place := linkage.PlaceRef{Part: d.Part, Point: d.Point}
		here, ok := run.Dimension(d)
		require.True(t, ok)
		was := linkage.PlaceRef{Part: here.Part, Point: here.Point}.At()
		var worst [2][]*float64
		for i, by := range []float64{h, -h} {
			to := was
			*[]*float64{&to.X, &to.Y, &to.Z}[d.Axis] += by
			_, moved := check(edited(t, run, linkage.Move([]linkage.PlaceRef{place}, []linkage.Vec{to})))
			for _, j := range moved.Requirements {
				worst[i] = append(worst[i], j.Worst)
			}
		}
		for i := range slopes {
			slopes[i] = append(slopes[i], (*worst[0][i]-*worst[1][i])/(2*h))
		}
	}
	compared := 0
	for i, j := range result.Requirements {
		if j.Band == nil {
			continue
		}
		g := mat.NewVecDense(len(slopes[i]), slopes[i])
		// Over the whole travel it is no less than where the worst lies.
		there := 2 * math.Sqrt(mat.Inner(g, survey.Cov(), g))
		require.GreaterOrEqual(t, *j.Band, 0.995*there, "%s", j.Requirement.Kind)
		require.Less(t, *j.Band, 1.5*there, "%s", j.Requirement.Kind)
		compared++
	}
	require.Greater(t, compared, 2)
}
