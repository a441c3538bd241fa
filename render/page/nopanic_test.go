package page

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/solve"
)

// A page of nothing is an error that says so.
func TestPagesOfNothing(t *testing.T) {
	for _, r := range []*solve.Result{nil, {}} {
		var out bytes.Buffer
		assert.Error(t, Book(&out, []BookRun{{File: "f", Result: r}}, func(int, int) {}))
		assert.Error(t, PictureJSON(&out, "", r, nil, ""))
		assert.Nil(t, SheetLines(r, nil))
		assert.Empty(t, out.String())
	}
}
