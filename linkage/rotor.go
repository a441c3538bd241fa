package linkage

// Rotor is what turns blades, and which way.
type Rotor struct {
	Span Span
	// Hub is the part that carries the blades; a control turns it, whole turns if it may.
	Hub *Part
	// Clockwise says that it turns so, seen from above.
	Clockwise bool
}
