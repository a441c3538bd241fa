package solve

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What was right and is no more is displaced; what was off and is moved is told beside it;
// what hardly moves is neither.
func TestMovedAtNeutral(t *testing.T) {
	was := []NeutralPose{{Name: "right", Unit: degrees}, {Name: "off", Unit: degrees, At: 2}, {Name: "stays", Unit: degrees, At: 3}, {Name: "set", Unit: degrees, At: -1}}
	now := []NeutralPose{{Name: "right", Unit: degrees, At: 1}, {Name: "off", Unit: degrees, At: 4}, {Name: "stays", Unit: degrees, At: 3.01}, {Name: "set", Unit: degrees}}
	names := func(list []Displaced) (names []string) {
		for _, d := range list {
			names = append(names, d.Name)
		}
		return names
	}
	assert.Equal(t, []string{"right"}, names(DisplacedOf(was, now)))
	assert.Equal(t, []string{"off", "set"}, names(NeutralMovedOf(was, now)))
}
