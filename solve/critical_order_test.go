package solve

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/linkage"
)

// At one position of the control parts are told before outputs, whatever their numbers.
func TestPartsComeBeforeOutputsAtOnePlace(t *testing.T) {
	part := func(i int) *Critical { return &Critical{Part: &linkage.Part{Index: i}} }
	output := func(i int) *Critical { return &Critical{Output: &linkage.Output{Index: i}} }
	assert.Less(t, part(0).order(), part(3).order())
	assert.Less(t, part(3).order(), output(0).order())
	assert.Less(t, output(0).order(), output(2).order())
}
