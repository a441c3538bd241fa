package solve_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// Runs on which a verdict was once false.

func answered(t *testing.T, name string) *solve.Result {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "answers", name))
	require.NoError(t, err)
	return check(t, string(text))
}

// TestNoJumpAtAToggle: three rods come in line nearly at once; beside the branch
// that leads there lies another, on which p1x stands at -18.6. Where it stands
// was found by the tracer of the random tests.
func TestNoJumpAtAToggle(t *testing.T) {
	s := answered(t, "jump-at-toggle.hcl").Sweeps[0]
	require.Equal(t, solve.ByToggle, s.Ends[0].Cause)
	near(t, 13.909102, partOf(t, s, "p1x").AtLow, 1e-5, "p1x at the low end")
	near(t, 16.720590, partOf(t, s, "p1y").AtLow, 1e-5, "p1y at the low end")
}

// TestFoldIsNoChangePoint: at both ends the unknowns go as the root of what is left.
func TestFoldIsNoChangePoint(t *testing.T) {
	for _, s := range answered(t, "toggle-not-change-point.hcl").Sweeps[:2] {
		require.Equal(t, solve.ByToggle, s.Ends[0].Cause)
		require.Equal(t, solve.ByToggle, s.Ends[1].Cause)
		for _, r := range s.Rods[:3] {
			require.Zero(t, r.Angle.Least, r.Rod.Name)
		}
	}
}

// TestStraightLineWhereItFolds: the cell's exact line (references of
// outside_paths_test.go) is kept in the place where the rhombus has no width and
// the rods tell no more where its tip is: only the way there does.
func TestStraightLineWhereItFolds(t *testing.T) {
	result := answered(t, "straight-line-folded.hcl")
	require.Equal(t, solve.Holds, result.Verdict)
	off := result.Sweeps[0].Outputs[0]
	near(t, 0, off.AtLow, 1e-7, "at the folded end")
	near(t, 0, off.Least, 1e-7, "least")
	near(t, 0, off.Most, 1e-7, "most")
}

// TestCarriedLeverHalts: with the arm held, the mixing lever turns about a pin that
// stands still and is driven as any rocker: it halts where the cyclic's arm and the
// link are in line. By the triangle of the cyclic's pivot, its arm of 40 and the
// link in line, and the mix lever's arm of 100.
func TestCarriedLeverHalts(t *testing.T) {
	result := answered(t, "carried-lever-halts.hcl")
	require.Equal(t, solve.FallsShort, result.Verdict)
	s := result.Sweeps[1]
	require.Len(t, s.Critical, 1)
	c := s.Critical[0]
	require.Equal(t, solve.DeadCenter, c.Kind)
	require.Equal(t, "mix", c.Part.Name)
	require.Equal(t, "link", c.Rod.Name)
	near(t, crankInLine(at(0, 200), at(0, 160), at(110, 0), at(110, 100)), c.At, 1e-8, "where it halts")
}

// crankInLine is the turn, degrees, that brings a crank's arm in line with the rod
// that it drives, stretched: from the pivots of the crank and of the rocker, and
// where the rod's ends on them are drawn (the law of cosines).
func crankInLine(crank, pin, rocker, horn vec) float64 {
	e, c, d := distance(crank, pin)+distance(pin, horn), distance(rocker, horn), distance(crank, rocker)
	half := deg(math.Acos((d*d + e*e - c*c) / (2 * d * e)))
	// The horn stays on the side of the line between the pivots on which it is drawn.
	if rocker.Sub(crank).Cross(horn.Sub(crank)).Z < 0 {
		half = -half
	}
	return turnTo(heading(crank, rocker)+half-heading(crank, pin), 0)
}
