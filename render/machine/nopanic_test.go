package machine

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/render"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// Nothing told to a machine is an error that says so, and nothing is written.
func TestMachineToldNothing(t *testing.T) {
	for _, r := range []*solve.Result{nil, {}} {
		var out bytes.Buffer
		assert.EqualError(t, CheckJSON(&out, "f", r), "there is no result here: Check of a Mechanism makes one")
		assert.Error(t, EffectJSON(&out, r, render.Effects{}))
		assert.Error(t, CompareJSON(&out, "f", []render.Variant{{Result: r}}))
		assert.EqualError(t, CompareJSON(&out, "f", nil), "there is nothing to compare")
		assert.Error(t, RecheckJSON(&out, nil, render.RecheckOptions{}))
		assert.Error(t, RecheckJSON(&out, &recheck.Comparison{New: recheck.Version{Result: r}}, render.RecheckOptions{}))
		assert.Empty(t, out.String())
	}
}
