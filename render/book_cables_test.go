package render

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var markup = regexp.MustCompile(`<[^>]*>`)

// A book tells cables as the report does: their tensions, cores and nuts, what is
// on center by them, and what they rest on.
func TestBookOfCables(t *testing.T) {
	text := strings.NewReplacer("from  = -70", "from  = -140").Replace(sample.DemoText(t, "throttle-cable"))
	run := bookOf(t, "throttle-cable.hcl", text)
	require.NotEmpty(t, run.Result.Sweeps[0].Critical)
	page := bookPage(t, run)
	inert(t, page)
	said := markup.ReplaceAllString(page, " ")
	assert.Contains(t, said, "by the rod or cable")
	for _, c := range run.Result.Sweeps[0].Critical {
		assert.Nil(t, c.Rod)
	}
	assert.Contains(t, page, "<h3>Cables</h3>")
	assert.Contains(t, said, "throttle-cable.conduit-to")
	assert.Contains(t, said, "Taken: a spring returns carburetor to its plus side and keeps throttle-cable taut; the spring is not reckoned with.")

	pedals := bookPage(t, bookOf(t, "pedals-cable.hcl", sample.DemoText(t, "pedals-cable")))
	assert.Contains(t, pedals, "<h3>Rods and cables</h3>")
	assert.Contains(t, markup.ReplaceAllString(pedals, " "), "cable, tension")
}

// meets is judged at neutral, and taut where a cable is loosest: their buttons go
// there.
func TestBookGoesToWhereCablesAreWorst(t *testing.T) {
	text := strings.Replace(sample.SlackRun, "least = 10\n}", "least = 10\n}\nrequire \"meets\" {\n  of     = [horn.up, frame.up]\n  within = 400\n}", 1)
	run := bookOf(t, "slack.hcl", text)
	required := map[linkage.Kind]bookRequired{}
	for i := range run.Result.Requirements {
		j := &run.Result.Requirements[i]
		required[j.Requirement.Kind] = bookRequiredOf("r1", run.Result, j, run.Result.Sweeps)
	}
	taut, meets := required[linkage.Taut], required[linkage.Meets]
	assert.Equal(t, "0", meets.At)
	assert.Equal(t, "r1s1", meets.Travel)
	assert.Equal(t, "r1s1", taut.Travel)
	assert.Equal(t, figure.Exactly(*run.Result.Requirements[0].At), taut.At)
	assert.Equal(t, "missed by 10 N", taut.InHand)

	j := &solve.Judgement{Requirement: &linkage.Requirement{Kind: linkage.Meets}, Worst: new(float64), Limit: 0.5, Unit: "mm"}
	*j.Worst = 0.2
	assert.Equal(t, "0.3 mm", inHandWords(j))
}

// The thread in nuts is told with that in rods.
func TestEngagementTellsNuts(t *testing.T) {
	text := sample.SlackRun + "require \"engagement\" {}\n"
	r := sample.Checked(t, "slack.hcl", text)
	j := &r.Requirements[1]
	said := Says(r, j)
	assert.Equal(t, "Every end has thread enough. Least to spare has c-up.conduit-from: in the nuts 10.00 mm, wanted 9.00 mm, to spare 1.00 mm. "+
		"The maker's figure is missing for c-up.conduit-from: 1.5 diameters of thread stand in for it (common practice, no source); the maker's figure rules.", said)
	r = sample.Checked(t, "slack.hcl", strings.Replace(text, "engaged = 10", "engaged = 8", 1))
	assert.Contains(t, Says(r, &r.Requirements[1]), "c-up.conduit-from falls short of thread: in the nuts 8.00 mm, wanted 9.00 mm, missed by 1.00 mm.")
	assert.Equal(t, "the nuts of conduits", threadsOf(r.Run))
}

// A print has the holes of cores and conduits where they are, names every cable,
// and draws no conduit.
func TestFullSizeOfCables(t *testing.T) {
	_, pages := fullSizeOf(t, sample.Checked(t, "lift-cables.hcl", sample.DemoText(t, "lift-cables")), "", PaperNone)
	holes := centers(t, pages[0], 1)
	for _, at := range []paper.Place{paper.At(-34, -120), paper.At(-34, -24), paper.At(-470, 186), paper.At(-468, 280)} {
		assert.True(t, holes[at], "%v, y down", at)
	}
	for _, name := range []string{"lift-up, core at the from end", "lift-up, core at the to end", "lift-down, core at the from end"} {
		assert.Contains(t, pages[0], name)
	}
	said := strings.Join(strings.Fields(markup.ReplaceAllString(pages[0], " ")), " ")
	assert.Contains(t, said, "No conduit is printed")

	result := sample.Checked(t, "pedals-cable.hcl", sample.DemoText(t, "pedals-cable"))
	f, pages := fullSizeOf(t, result, "", PaperNone)
	assert.Contains(t, pages[0], "tail-left, open cable")
	assert.NotContains(t, pages[0], "No conduit")
	// Rims are true to size: 60 mm about the pedals, 55 mm about the tail.
	radii := map[float64]bool{}
	for _, s := range f.ink.Shapes[paper.LayerNeutral] {
		for i, part := range result.Run.Cables[0].Quadrants {
			pivot := f.v.on(part.Pivot)
			if len(s.Through) > 10 {
				radius := result.Run.Cables[0].Radius[i] * f.v.scale
				all := true
				for _, p := range s.Through {
					all = all && abs(p.Distance(pivot)-radius) < 1e-6
				}
				radii[result.Run.Cables[0].Radius[i]] = radii[result.Run.Cables[0].Radius[i]] || all
			}
		}
	}
	assert.Equal(t, map[float64]bool{60: true, 55: true}, radii)
}

func abs(v float64) float64 { return max(v, -v) }

// A page for taping shows what cables join.
func TestBlankPageShowsCables(t *testing.T) {
	run, err := linkage.Read(&linkage.Source{Name: "lift-cables.hcl", Text: []byte(sample.DemoText(t, "lift-cables"))})
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, BlankPage(&page, run, solve.PlanMeasurements(run), BlankOptions{}))
	assert.Contains(t, page.String(), `stroke-width="1.4"`, "cores")
	assert.Contains(t, strings.Join(strings.Fields(markup.ReplaceAllString(page.String(), " ")), " "), "Conduit, double line: path not drawn true.")
}

// Where a core explains what was read, that is what to measure, and the nuts tell
// how far it is to be turned back.
func TestDiagnosisOfACore(t *testing.T) {
	cable := &linkage.Cable{Name: "pull"}
	cable.Ends = []*linkage.CableEnd{{Cable: cable, Side: "conduit-to", Thread: linkage.Thread{Pitch: 0.5}}}
	c := solve.Candidate{Dim: &linkage.Dimension{Cable: cable, Point: -1}, Nominal: 150, Estimate: 150.75}
	assert.Equal(t, "Measure the core outside the conduit at both ends, with no load on it; if it is so, set it to what it should be: pull.conduit-to 1.5 turns out.", remedySays(c))
	cable.Ends = nil
	assert.Equal(t, "Measure the core outside the conduit at both ends, with no load on it; if it is so, set it to what it should be.", remedySays(c))
	cable.Spring = "plus"
	assert.Equal(t, "; cables set as the file says, without friction or load, a spring keeping pull taut", cablesDrawnUp(&linkage.Run{Cables: []*linkage.Cable{cable}}))
	assert.Empty(t, cablesDrawnUp(&linkage.Run{}))
}
