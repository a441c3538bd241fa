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

// oneExact is a lever of three holes hung on a pin that is exact, and the five
// distances that make it stiff.
const oneExact = `
	fixed "airframe" {
	  exact  = true
	  points = { datum = [0, 0] }
	}
	part "lever" {
	  pivot  = [100, 0]
	  points = { tip = [200, 0], low = [100, -100] }
	}`

func oneExactTaped() string {
	return tape("airframe.datum", "lever.pivot", 100) + tape("lever.pivot", "lever.tip", 100) + tape("airframe.datum", "lever.low", 100*math.Sqrt2) +
		tape("lever.pivot", "lever.low", 100) + tape("lever.tip", "lever.low", 100*math.Sqrt2)
}

// TestSurveyTellsWhatIsFar reads a level from plumb, and the other way round: all
// of it turns over, and no other measurement objects.
func TestSurveyTellsWhatIsFar(t *testing.T) {
	for _, c := range []struct {
		from, to   string
		read       float64
		drawn, off float64
		moved      bool
	}{
		{"lever.pivot", "lever.tip", 1, 0, 0, false},
		{"lever.pivot", "lever.tip", 59, 0, 0, true},
		{"lever.pivot", "lever.tip", 90, 0, 90, true},
		{"lever.pivot", "lever.tip", 180.5, 360, -179.5, true},
		{"lever.tip", "lever.pivot", -179, 0, 0, false}, // drawn at 180
		{"lever.pivot", "lever.low", 0, -90, 90, true},
	} {
		s := surveyOf(t, read(t, bench(sketched, oneExact+oneExactTaped()+gauge(c.from, c.to, c.read))))
		about := fmt.Sprintf("%s to %s, %v", c.from, c.to, c.read)
		for _, m := range s.Measurements {
			assert.False(t, m.Doubtful, about)
		}
		if c.off == 0 {
			assert.Empty(t, s.FarGauges, about)
		} else {
			require.Len(t, s.FarGauges, 1, about)
			far := s.FarGauges[0]
			assert.Equal(t, "line "+c.from+" to "+c.to, far.Measurement.Name)
			near(t, c.drawn, far.Drawn, 1e-9, about)
			near(t, c.off, far.Off, 1e-9, about)
		}
		moved := 0
		for _, p := range s.Points {
			if !p.Exact && p.At.Sub(p.Drawn).Norm() > 90 {
				far := s.FarPlaces[moved]
				moved++
				assert.Equal(t, p.Name, far.Name, about)
				near(t, p.At.Sub(p.Drawn).Norm(), far.Moved, 1e-12, about)
				near(t, far.Moved/30, far.Sigmas, 1e-12, about)
			}
		}
		assert.Len(t, s.FarPlaces, moved, about)
		assert.Equal(t, c.moved, moved > 0, about)
	}
}

// TestSurveyNeedsDirection: about one exact place all can turn, whatever is
// taped; one gauged line ends that, and so does a second exact place.
func TestSurveyNeedsDirection(t *testing.T) {
	untied := func(s *survey.Survey) (names []string) {
		for _, p := range s.Points {
			if p.Untied != [3]bool{} {
				names = append(names, p.Name)
			}
		}
		return names
	}
	s := surveyOf(t, read(t, bench(sketched, oneExact+oneExactTaped())))
	assert.True(t, s.NeedsDirection)
	assert.Equal(t, []string{"lever.pivot.y", "lever.tip.y", "lever.low.x", "lever.low.y"}, s.Undetermined, "as the rank has it")
	assert.Empty(t, untied(s), "but no tape is wanting")
	require.True(t, s.Next.OK)
	assert.Equal(t, linkage.Gauged, s.Next.Kind)
	assert.Equal(t, "lever.low to lever.tip", s.Next.From.String()+" to "+s.Next.To.String(), "the longest line on the lever, left to right")
	assert.Equal(t, 4, s.Next.Settles)
	assert.Greater(t, s.Next.Removes, 0.9)

	s = surveyOf(t, read(t, bench(sketched, oneExact+oneExactTaped()+gauge(s.Next.From.String(), s.Next.To.String(), 45))))
	assert.False(t, s.NeedsDirection)
	assert.Empty(t, s.Undetermined)
	assert.Equal(t, linkage.Taped, s.Next.Kind)

	// A hole that hangs on one distance is told by itself.
	short := strings.Replace(oneExactTaped(), tape("lever.pivot", "lever.tip", 100), "", 1)
	s = surveyOf(t, read(t, bench(sketched, oneExact+short)))
	assert.True(t, s.NeedsDirection)
	assert.Equal(t, []string{"lever.tip"}, untied(s))
	to := s.TapeTo(surveyedPoint(t, s, "lever.tip").Place)
	assert.Equal(t, linkage.Taped, to.Kind)
	assert.Equal(t, 2, to.Settles)

	// Where nothing else is tied, a gauge is the first thing still.
	s = surveyOf(t, read(t, bench(sketched, oneExact+tape("lever.pivot", "lever.tip", 100)+tape("lever.tip", "lever.low", 100*math.Sqrt2))))
	assert.True(t, s.NeedsDirection)
	assert.True(t, s.Next.OK)
	assert.Equal(t, linkage.Gauged, s.Next.Kind)

	for _, c := range []struct {
		change [2]string
		needs  bool
	}{
		{[2]string{"datum = [0, 0]", "datum = [0, 0], mark = [0, 200]"}, false},
		{[2]string{"datum = [0, 0]", "datum = [0, 0], behind = [0, 0, 50]"}, true}, // on one line of sight
		{[2]string{"exact  = true", ""}, false},                                    // the datum holds it
	} {
		s := surveyOf(t, read(t, bench(sketched, strings.Replace(oneExact, c.change[0], c.change[1], 1)+oneExactTaped())))
		assert.Equal(t, c.needs, s.NeedsDirection, c.change[1])
		if s.NeedsDirection {
			assert.Empty(t, untied(s), c.change[1])
		}
	}
}

// TestSurveyNeedsDirectionInSpace: about one exact place three turns are open,
// about two the one about their line, about three in a triangle none.
func TestSurveyNeedsDirectionInSpace(t *testing.T) {
	at := map[string]vec{
		"airframe.datum": {}, "airframe.mark": {X: 300}, "airframe.rib": {X: 50, Y: 200, Z: 10},
		"lever.pivot": {X: 100, Y: 80, Z: 150}, "lever.tip": {X: 120, Y: 260, Z: 200},
	}
	names := []string{"airframe.datum", "airframe.mark", "airframe.rib", "lever.pivot", "lever.tip"}
	text := ""
	for i, to := range names {
		for _, from := range names[:i] {
			text += tape(from, to, at[to].Sub(at[from]).Norm())
		}
	}
	text += "\npart \"lever\" {\n pivot = [100, 80, 150]\n axis = [1, 0, 0]\n points = { tip = [120, 260, 200] }\n}\n"
	for _, c := range []struct {
		exact, rest string
		needs       bool
	}{
		{"datum = [0, 0, 0]", "mark = [300, 0, 0], rib = [50, 200, 10]", true},
		{"datum = [0, 0, 0], mark = [300, 0, 0]", "rib = [50, 200, 10]", true},
		{"datum = [0, 0, 0], mark = [300, 0, 0], rib = [50, 200, 10]", "", false},
	} {
		parts := strings.NewReplacer("airframe.mark", "loose.mark", "airframe.rib", "loose.rib").Replace(text)
		for _, name := range []string{"mark", "rib"} {
			if strings.Contains(c.exact, name) {
				parts = strings.ReplaceAll(parts, "loose."+name, "airframe."+name)
			}
		}
		parts += "fixed \"airframe\" {\n exact = true\n points = { " + c.exact + " }\n}\nfixed \"loose\" { points = { " + c.rest + " } }\n"
		s := surveyOf(t, read(t, bench(sketched, parts)))
		assert.Equal(t, c.needs, s.NeedsDirection, c.exact)
		assert.Equal(t, c.needs, len(s.Undetermined) > 0, c.exact)
		for _, p := range s.Points {
			assert.Equal(t, [3]bool{}, p.Untied, "%s, with %s exact", p.Name, c.exact)
		}
		assert.Equal(t, c.needs, s.Next.Kind == linkage.Gauged, c.exact)
	}
}

// TestSurveyNamesTheGrossError: of distances that can't be brought together the
// one that the sketch can't have is named, not a right one of the same two
// holes, which it pulls much farther off.
func TestSurveyNamesTheGrossError(t *testing.T) {
	for _, is := range []float64{1e4, 1e5, 1e6} {
		gross := strings.NewReplacer("airframe.datum to lever.tip", "slip", "within = 1", "within = 0.1").Replace(tape("airframe.datum", "lever.tip", is))
		right := strings.Replace(tape("airframe.datum", "lever.tip", 200), "within = 1", "within = 0.1", 1)
		for _, text := range []string{gross + right, right + gross} {
			_, err := survey.New(read(t, bench(sketched, oneExact+oneExactTaped()+gauge("lever.pivot", "lever.tip", 0)+text)))
			require.ErrorContains(t, err, `"slip" is farthest off`)
		}
	}
}
