package solve_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// odd has a slide that a pushing cable locks up, where its conduit rides on what a
// pair holds.
const odd = `run "Odd" {
 units = "in"
}
fixed "frame" {
 points = { ck11 = [20.58425196850394, 13.126771653543308, 0.0] }
}
part "lev0" {
 pivot = [0.0, 0.0, 0.0]
 axis = [0, 0, 1]
 points = { sk1 = [0.48622047244094485, -2.296062992125984, 0.0] }
}
part "p0" {
 pivot = [9.84251968503937, 11.972834645669291, 0.0]
 axis = [0, 0, 1]
 points = { ck10 = [5.710629921259843, -2.632677165354331, 0.0] }
}
part "p1" {
 slide = [0.91, 0.38, 0.0]
 points = { dk1 = [18.31811023622047, 12.662992125984252, 0.0] }
}
cable "k0a" {
 from = lev0
 to = p0
 radius = [1.5460629921259843, 1.9488188976377951]
 winds = ["down", "down"]
 stiffness = 237.65632457997273
}
cable "k0b" {
 from = lev0
 to = p0
 radius = [2.74251968503937, 1.199212598425197]
 winds = ["up", "up"]
 stiffness = 103.75337380149219
}
cable "k1" {
 from = lev0.sk1
 to = p1.dk1
 conduit = [p0.ck10, frame.ck11]
 core = 7.510953423193692
 pushes = true
}
pair "q0" {
 cables = [k0a, k0b]
 pretension = 0.5620223577492762
}
control "hand0" {
 of = lev0
 from = -20
 to = 20
}
output "op0" {
 of = p0
}
output "op1" {
 of = p1
}
`

// TestNothingIsMetBeyondAToggle has a toggle so near to which the other assembly
// was taken, once, so that a dead center seemed to lie a rounding beyond.
func TestNothingIsMetBeyondAToggle(t *testing.T) {
	for i := range 20 {
		text := odd
		if i > 0 {
			text = replaceOnce(t, odd, "core = 7.510953423193692", fmt.Sprintf("core = %v", 7.510953423193692+float64(i)*1e-5))
		}
		_, s := sweepOf(t, text)
		require.Equal(t, solve.ByToggle, s.Ends[0].Cause)
		require.Len(t, s.Critical, 2)
		require.Equal(t, solve.Toggle, s.Critical[0].Kind)
		require.Equal(t, solve.DeadCenter, s.Critical[1].Kind)
		require.Equal(t, s.Low, s.Critical[0].At)
		require.Zero(t, s.Critical[0].Margin)
	}
	_, s := sweepOf(t, odd)
	require.Nil(t, outputOf(t, s, "op1").Ratio.Most, "it is infinite there")
	require.NotNil(t, outputOf(t, s, "op0").Ratio.Most)
}
