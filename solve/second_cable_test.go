package solve

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// nutted is a push-pull cable whose conduit has nuts at both ends.
func nutted(from, to, more string) string {
	return `run "Nuts" {
  units = "mm"
}
fixed "frame" {
  points = { in = [100, 60], out = [300, 60] }
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [0, 60] }
}
part "crank" {
  pivot  = [400, 0]
  points = { pin = [400, 60] }
}
cable "push" {
  from    = lever.pin
  to      = crank.pin
  conduit = [frame.in, frame.out]
  pushes  = true
  end "conduit-from" {
    thread  = "M6x1"
    engaged = ` + from + `
  }
  end "conduit-to" {
    thread  = "M6x1"
    engaged = ` + to + `
  }
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
` + more
}

// The thread in the nuts of a conduit is judged as that in a rod is: 9 mm are
// 1.5 diameters.
func TestEngagementOfNuts(t *testing.T) {
	judged := func(text string) Judgement {
		result, err := compiled(t, text).Check()
		require.NoError(t, err)
		require.NotContains(t, result.NotChecked, linkage.Engagement)
		return result.Requirements[0]
	}
	required := "require \"engagement\" {}\n"
	j := judged(nutted("12", "10.5", required))
	assert.Equal(t, Holds, j.Verdict)
	assert.Equal(t, 1.5, *j.Worst)
	assert.Equal(t, "push", j.Cable.Name)
	assert.Equal(t, "conduit-to", j.End)
	assert.Nil(t, j.Rod)

	j = judged(nutted("8", "10.5", required))
	assert.Equal(t, FallsShort, j.Verdict)
	assert.Equal(t, -1.0, *j.Worst)
	assert.Equal(t, "conduit-from", j.End)

	j = judged(nutted("12", "10.5\n    most = 10", required))
	assert.Equal(t, FallsShort, j.Verdict)
	assert.Equal(t, BottomsOut, j.Why)
	assert.Equal(t, "conduit-to", j.End)

	// With rods, the least of all counts.
	rod := `
part "far" {
  pivot  = [600, 0]
  points = { pin = [600, 60] }
}
rod "link" {
  from = crank.pin
  to   = far.pin
  end "from" {
    thread  = "M6x1"
    engaged = 9.5
  }
}
`
	j = judged(nutted("12", "10.5", rod+required))
	assert.Equal(t, 0.5, *j.Worst)
	assert.Equal(t, "link", j.Rod.Name)
	assert.Nil(t, j.Cable)
}

// A run whose conduits have nuts gives cause to ask for their thread.
func TestEngagementOfNutsIsNotChecked(t *testing.T) {
	result, err := compiled(t, nutted("12", "12", "require \"stops\" {}\n")).Check()
	require.NoError(t, err)
	assert.Contains(t, result.NotChecked, linkage.Engagement)
	bare := nutted("12", "12", "require \"stops\" {}\n")
	from := strings.Index(bare, "  end \"conduit-from\"")
	bare = bare[:from] + bare[strings.Index(bare, "}\ncontrol"):]
	result, err = compiled(t, bare).Check()
	require.NoError(t, err)
	assert.NotContains(t, result.NotChecked, linkage.Engagement)
}
