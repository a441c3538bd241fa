package solve_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// Gradients of what moves in space are held against the same runs read again.
func TestSpaceGradients(t *testing.T) {
	for name, text := range map[string]string{"swash": swashText, "head": headText(t), "bar": barText(barInSpace), "plane": barText(barInPlane)} {
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(7, 2))
			require.Positive(t, compareGradients(t, random, drawnRun{text: text}, 2, 2))
		})
	}
}
