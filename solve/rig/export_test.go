package rig

import "fullfree/solve"

// RigWithin is Rig with a budget of checks of its own.
func RigWithin(m *solve.Mechanism, budget int) (*Answer, error) {
	rig, _, err := searched(m, budget, nil)
	return rig, err
}

// RigWork is Rig, and what it took.
func RigWork(m *solve.Mechanism) (*Answer, float64, error) {
	rig, s, err := searched(m, 0, nil)
	return rig, s.work, err
}

// MostRigWork is what it may take.
func MostRigWork() float64 { return rigWork * solve.MostWork() }

// RigChecked is RigWithin, and by how much every pose that was checked changes each
// rod with ends and each stop that is moved; the one that misses least, or has the
// most in reserve, first.
func RigChecked(m *solve.Mechanism, budget int) (*Answer, [][]float64, error) {
	rig, s, err := searched(m, budget, nil)
	if err != nil {
		return nil, nil, err
	}
	var checked [][]float64
	for _, p := range append([]*rigPose{s.best}, s.poses...) {
		var changes []float64
		for i := range p.choices {
			changes = append(changes, p.choices[i].change)
		}
		checked = append(checked, changes)
	}
	return rig, checked, nil
}
