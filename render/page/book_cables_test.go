package page

import (
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A book tells cables as the report does: their tensions, cores and nuts, what is
// on center by them, and what they rest on.
func TestBookOfCables(t *testing.T) {
	text := strings.NewReplacer("from  = -70", "from  = -140").Replace(sample.DemoText(t, "throttle-cable"))
	run := bookOf(t, "throttle-cable.hcl", text)
	require.NotEmpty(t, run.Result.Sweeps[0].Critical)
	page := bookPage(t, run)
	inert(t, page)
	said := sample.Markup.ReplaceAllString(page, " ")
	assert.Contains(t, said, "by the rod or cable")
	for _, c := range run.Result.Sweeps[0].Critical {
		assert.Nil(t, c.Rod)
	}
	assert.Contains(t, page, "<h3>Cables</h3>")
	assert.Contains(t, said, "throttle-cable.conduit-to")
	assert.Contains(t, said, "Taken: a spring returns carburetor to its plus side and keeps throttle-cable taut; the spring is not reckoned with.")

	pedals := bookPage(t, bookOf(t, "pedals-cable.hcl", sample.DemoText(t, "pedals-cable")))
	assert.Contains(t, pedals, "<h3>Rods and cables</h3>")
	assert.Contains(t, sample.Markup.ReplaceAllString(pedals, " "), "cable, tension")
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
