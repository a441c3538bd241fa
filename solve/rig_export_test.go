package solve

// RigWithin is Rig with a budget of checks of its own.
func (m *Mechanism) RigWithin(budget int) (*Rig, error) { return m.rig(budget, nil) }
