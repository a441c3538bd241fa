package render

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/solve"
	"fullfree/solve/recheck"
)

// A report of nothing is an error that says so.
func TestReportsOfNothing(t *testing.T) {
	for _, r := range []*solve.Result{nil, {}} {
		var out bytes.Buffer
		assert.Error(t, Report(&out, "f", r, ReportOptions{}))
		assert.Error(t, EffectReport(&out, "f", r, Effects{}, true))
		assert.Error(t, CompareReport(&out, "f", []Variant{{Result: r}}))
		assert.Error(t, CompareReport(&out, "f", nil))
		assert.Error(t, RecheckReport(&out, nil, RecheckOptions{}))
		assert.Error(t, RecheckReport(&out, &recheck.Comparison{New: recheck.Version{Result: r}}, RecheckOptions{}))
		assert.Empty(t, out.String())
	}
	for _, w := range []*solve.Sweep{nil, {}} {
		assert.EqualError(t, SweepTable(&bytes.Buffer{}, nil, nil, w, nil, nil), "there is no sweep here: Check and Sweep of a Mechanism make one")
	}
}
