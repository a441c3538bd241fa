// Layer: verdict.

package solve

import "fullfree/linkage"

// inOtherUnit reports whether a limit of a member, which counts its own control, is held
// against a hand that counts otherwise: degrees against a length.
func (m *Mechanism) inOtherUnit(r *linkage.Requirement, about []*sweeper) bool {
	if r.In == nil || r.Kind != linkage.OverCenter && r.Kind != linkage.Order {
		return false
	}
	for _, s := range about {
		for _, joint := range m.run.SameParts {
			f := m.freedomOf(joint.Follows)
			if joint.Follows.In == r.In && m.drives.of[joint.Index] == s.sweep.Control.Index && m.freedoms[f].kind != m.freedoms[s.p.input].kind {
				return true
			}
		}
	}
	return false
}
