package machine

import (
	"bytes"
	"encoding/json"
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What can't be seen in a name stands escaped in results for machines, which read
// the name as it is.
func TestJSONHidesNothing(t *testing.T) {
	for _, name := range []string{"a\u202eb", "\u0085\u009b\x7f", "\U000e0041 é 螺", "a<b>&\u2028", "plain"} {
		var out bytes.Buffer
		require.NoError(t, writeJSON(&out, name))
		for _, r := range out.String() {
			assert.True(t, linkage.Visible(r) || r == '\n', "%U", r)
		}
		var back string
		require.NoError(t, json.Unmarshal(out.Bytes(), &back))
		assert.Equal(t, name, back)
	}
	assert.Contains(t, string(escapeUnseen([]byte(`"é螺<"`))), "é螺<")
}
