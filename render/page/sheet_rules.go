package page

import "fullfree/linkage"

// The rules that are cited for a kind of aircraft, as its sheet cites them in small
// type. What they are cited for was read there, but that 27.675 says what 29.675 does
// is from memory. For a run that doesn't say its craft none is cited.
const (
	rotorStops  = "Stops limit the pilot's control positively, where wear and take-up matter little: 14 CFR 27.675, 29.675."
	rotorForces = "No excessive breakout force, friction or preload: 14 CFR 27.151."
	rotorFull   = "Operated from the cockpit under load it is free from jamming, excessive friction and excessive deflection: 14 CFR 27.683."
	rotorSense  = "Right pedal turns the nose right; stick forward tilts the thrust forward: MIL-F-18372(Aer), 3.3.1. Marked or made so that wrong assembly is unlikely: 14 CFR 27.671(b)."
	rotorNut    = "No self-locking nut on a bolt that turns unless a locking that doesn't rely on friction is added: 14 CFR 27.607."

	planeStops = "Of large airplanes stops limit the surface, not the pilot's control: 14 CFR 25.675."
	planeSense = "Stick or wheel right, right wing down; stick or wheel back, nose up; right pedal forward, nose right; flap control back or down, flaps down; trim turned or moved as the airplane is to go: 14 CFR 23.779 as it stood before 2017, 25.779."
)

// ruled lists what a sheet cites: a rule of the craft where there is one for it, and
// what any craft's work is done by.
func ruled(craft linkage.Craft, rotor, plane string, always ...string) []string {
	rule := map[linkage.Craft]string{linkage.Rotorcraft: rotor, linkage.Airplane: plane}[craft]
	if rule == "" {
		return always
	}
	return append([]string{rule}, always...)
}
