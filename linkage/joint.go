package linkage

// Joint makes two points of two parts one: a ball joint where the run moves in space, a
// pin where it is plane.
type Joint struct {
	Name  string
	Span  Span
	Index int     // in Run.Joints
	In    *Member // as of a Part
	Of    [2]PointRef
	// Gap is how far apart the two points are drawn, run units.
	Gap float64
	// OfSpan is where Of is written.
	OfSpan Span
	// JointPlay is its diametral play, run units; nil: the run's.
	JointPlay *float64
}
