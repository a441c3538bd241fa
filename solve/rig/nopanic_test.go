package rig_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
	"fullfree/solve/rig"
)

// What is no mechanism is told, and what nobody filled in has nothing to tell.
func TestNothingPanics(t *testing.T) {
	for _, m := range []*solve.Mechanism{nil, {}} {
		_, err := rig.Search(m, nil)
		require.EqualError(t, err, "there is no mechanism here: solve.Compile makes one of a run")
	}
	var set rig.Setting
	assert.True(t, set.AsFiled())
	assert.Empty(t, set.Edits())
	assert.NotPanics(t, func() { _, _ = rig.Searched{}.String(), rig.Searched{}.All() })
}
