package solve

// RigWithin is Rig with a budget of checks of its own.
func (m *Mechanism) RigWithin(budget int) (*Rig, error) {
	rig, _, err := m.rig(budget, nil)
	return rig, err
}

// RigWork is Rig, and what it took.
func (m *Mechanism) RigWork() (*Rig, float64, error) { return m.rig(0, nil) }

// MostRigWork is what it may take.
const MostRigWork = mostWork
