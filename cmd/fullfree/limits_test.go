package main

import (
	"strconv"
	"testing"

	"fullfree/cmd/internal/calls"

	"github.com/stretchr/testify/assert"
)

// Steps go from 1 to the most, and a table of rows, one more than steps, times columns to
// five million figures: of a million columns four steps.
func TestLimitsOfATable(t *testing.T) {
	for text, ok := range map[string]bool{"0": false, "1": true, strconv.Itoa(mostSteps): true, strconv.Itoa(mostSteps + 1): false, "-1": false, "1.5": false} {
		_, err := parseSteps(text)
		assert.Equal(t, ok, err == nil, text)
	}
	assert.NoError(t, roomFor(4, 1_000_000))
	assert.ErrorContains(t, roomFor(5, 1_000_000), "at most --steps 4")
	assert.NoError(t, roomFor(0, 5_000_000))
	assert.Error(t, roomFor(0, 5_000_001))
}

// Where no name comes near, all are listed, as long as that are few.
func TestFewNamesAreListed(t *testing.T) {
	names := func(n int) (list []string) {
		for i := range n {
			list = append(list, "lever-number-"+strconv.Itoa(i))
		}
		return list
	}
	assert.Contains(t, calls.DidYouMean("xyz", names(calls.MostListed)), "there is lever-number-0, ")
	assert.Empty(t, calls.DidYouMean("xyz", names(calls.MostListed+1)))
	assert.Empty(t, calls.DidYouMean("xyz", nil))
}
