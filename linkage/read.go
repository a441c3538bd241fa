package linkage

// Setting changes one number of a file before it is read: "rod.length",
// "part.point.x", "part.pivot.y", "fixed.point.x" or "stop.at".
type Setting struct{ Dimension, Value string }

// Read reads a run. The error is *Faults.
func Read(src *Source, set ...Setting) (*Run, error) { return nil, nil }
