package demo_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The elevator and its tab close as two four-bars and a taut core do: circles are
// intersected, one joint after another.
func TestElevatorClosesAsTheFormulaSays(t *testing.T) {
	r := check(t, text(t, "elevator"))
	d := drawing{t, r.Run}
	pitch := r.Sweeps[0]
	elevator := travel(t, pitch, "elevator")
	for _, at := range []struct{ x, elevator float64 }{{0, elevator.Neutral}, {pitch.Low, elevator.AtLow}, {pitch.High, elevator.AtHigh}} {
		idler := d.closes("idler.hole", d.turned("stick", d.point("stick.horn"), at.x), d.rod("forward-rod").Length, 0)
		hole := d.turned("idler", d.point("idler.hole"), idler)
		assert.InDelta(t, d.closes("elevator.horn", hole, d.rod("aft-rod").Length, -at.x), at.elevator, tight, "stick at %g", at.x)
	}
	assert.InDelta(t, 0, elevator.Neutral, tight)

	// What the core gives at the lever it takes at the tab, with the elevator at neutral.
	outside := func(from, to string) float64 { return d.point(from).Sub(d.point(to)).Norm() }
	for _, s := range r.Sweeps {
		if s.Control.Name != "trim" || s.Held[0].At != 0 {
			continue
		}
		tab := travel(t, s, "tab")
		for _, at := range []struct{ x, tab float64 }{{s.Low, tab.AtLow}, {s.High, tab.AtHigh}} {
			horn := d.turned("trim-lever", d.point("trim-lever.horn"), at.x)
			taken := outside("trim-lever.horn", "fuselage.conduit") - horn.Sub(d.point("fuselage.conduit")).Norm()
			assert.InDelta(t, d.closes("tab.horn", d.point("elevator.conduit"), outside("tab.horn", "elevator.conduit")+taken, at.x), at.tab, tight, "trim at %g", at.x)
		}
		return
	}
	assert.Fail(t, "no sweep of trim with the stick at neutral")
}

// Both flaps close as a four-bar does, in every notch's end.
func TestFlapsCloseAsTheFormulaSays(t *testing.T) {
	r := check(t, text(t, "flaps"))
	d := drawing{t, r.Run}
	s := r.Sweeps[0]
	for _, side := range []string{"right", "left"} {
		flap := travel(t, s, side+"-flap")
		horn := d.turned("tube", d.point("tube."+side+"-horn"), s.Low)
		assert.InDelta(t, d.closes(side+"-flap.horn", horn, d.rod(side+"-rod").Length, s.Low), flap.AtLow, tight, side)
		assert.Less(t, flap.AtLow, -30.0, "down")
	}
}
