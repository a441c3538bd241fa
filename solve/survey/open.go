package survey

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

const (
	// OpenLeast is by how much, in its own unit (run units or degrees), a figure must go
	// with what the sketch leaves of an open place to hang on it: far above rounding, and
	// far below what any gauge tells.
	OpenLeast = 1e-6
	// openShare is the same as a share of what all places do to the figure: above what
	// rounding leaves.
	openShare = 1e-3
)

// AnyOpen reports whether a place is undetermined on which anything hangs.
func (s *Survey) AnyOpen() bool {
	for i := range s.Points {
		if p := &s.Points[i]; !p.Idle && p.Undetermined != [3]bool{} {
			return true
		}
	}
	return false
}

// OpenDimensions lists the coordinates of a run that the measurements leave open, the
// whole kept from turning, and on which anything in it hangs; run is Survey.Run, or made
// from or into it.
func (s *Survey) OpenDimensions(run *linkage.Run) (open []linkage.Dimension) {
	if run == nil {
		return nil
	}
	used := usedPoints(run)
	for u, d := range s.Dimensions() {
		d, ok := run.Dimension(d)
		if ok && s.untied.has(u) && (d.Point < 0 || used[&d.Part.Points[d.Point]]) {
			open = append(open, d)
		}
	}
	return open
}

// Moves reports whether a figure with these derivatives by the survey's coordinates, in
// the order of Dimensions, changes along what no measurement notices, by what the sketch
// may be out there. A list of another length moves nothing.
func (s *Survey) Moves(g []float64) bool {
	if !s.Adjusted() || len(s.net.x) == 0 || len(g) != len(s.net.x) {
		return false
	}
	part := math.Sqrt(math.Max(0, num.Quadratic(s.loose, g)))
	return float64(2*s.net.sketch*part) > math.Max(OpenLeast, openShare*2*s.net.sketch*num.Norm(g))
}
