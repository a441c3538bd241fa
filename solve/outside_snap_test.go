package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/solve"
)

// snapBeam is a beam on three rods, of which one hangs from a point of the
// airframe at x = hung. With that left of some 45.7 the beam snaps: the lever
// comes to a toggle, and a little before that there are two more positions of
// the beam for the same lever, one of which goes on. With it farther to the
// right the beam only runs fast there.
func snapBeam(hung float64) drawing {
	return drawing{
		bodies: []body{
			hinge("lever", at(-6.5, 5.8), spot{"pin", at(-9.9, 69.8)}),
			{name: "beam", points: []spot{{"a", at(52.4, 61.1)}, {"b", at(109, 66.6)}, {"c", at(98.4, 86.9)}}},
			{name: "airframe", fixed: true, points: []spot{{"p", at(119.8, -4.1)}, {"q", at(hung, 138.4)}}},
		},
		bars: []bar{{name: "drag", from: "lever.pin", to: "beam.a"}, {name: "prop", from: "beam.b", to: "airframe.p"}, {name: "hanger", from: "airframe.q", to: "beam.c"}},
	}
}

// leverOf returns the lever's turns for the beam's turns from 0 down, in
// steps: the other way round the run is two dyads, crossings of circles.
func leverOf(d drawing, turns []float64) (levers []float64) {
	lever, beam, frame := d.bodies[0], d.bodies[1], d.bodies[2]
	a, b, c := beam.points[0].at, beam.points[1].at, beam.points[2].at
	p, q := frame.points[0].at, frame.points[1].at
	pin, pivot, z := lever.points[0].at, *lever.pivot, at3(0, 0, 1)
	lastB, lastPin := b, pin
	for _, turn := range turns {
		// b lies on a circle about p and, with c - b turned, on one about q - (c - b).
		lastB = meet(p, distance(p, b), q.Sub(rotate(c.Sub(b), z, turn)), distance(q, c), lastB)
		nowA := lastB.Add(rotate(a.Sub(b), z, turn))
		lastPin = meet(pivot, distance(pivot, pin), nowA, distance(pin, a), lastPin)
		levers = append(levers, turnTo(heading(pivot, lastPin)-heading(pivot, pin), 0))
	}
	return levers
}

// TestSnapThrough: the toggle must be told however close to it another
// position of the beam begins.
func TestSnapThrough(t *testing.T) {
	for _, hung := range []float64{30, 40, 44, 45, 45.2, 45.4, 45.5, 45.6, 46, 47, 50} {
		d := snapBeam(hung)
		var turns []float64
		for turn := 0.0; turn > -34; turn -= 0.002 {
			turns = append(turns, turn)
		}
		levers := leverOf(d, turns)
		snap := math.NaN()
		for i := 1; i+1 < len(levers); i++ {
			if levers[i] > levers[i-1] && levers[i] > levers[i+1] {
				snap = levers[i]
				break
			}
		}
		about := fmt.Sprintf("hung at %v, snaps at %v", hung, snap)
		_, s := sweepOf(t, d.with(control("lever", -1, 6)).text())
		if math.IsNaN(snap) {
			assert.Equal(t, solve.ByLimit, s.Ends[1].Cause, about)
			assert.Empty(t, s.Critical, about)
			continue
		}
		assert.Equal(t, solve.ByToggle, s.Ends[1].Cause, about)
		assert.InDelta(t, snap, s.High, 1e-7, about) // flat there: within the square of the step
	}
}

// TestChangePointInALoop: a parallelogram driven at a point of its rod is one
// block of two arms. It lies flat with the lug at (100, 30); where the lever
// is then, and as drawn, are crossings of circles.
func TestChangePointInALoop(t *testing.T) {
	pivot, flatPin := at(160, -40), at(110, -90)
	rod := distance(flatPin, at(100, 30))
	pin := meet(pivot, distance(pivot, flatPin), at(50, 80), rod, at(95, -30))
	_, s := sweepOf(t, drawing{
		bodies: []body{
			hinge("lever", pivot, spot{"pin", pin}),
			hinge("near", at(0, 0), spot{"pin", at(0, 50)}),
			hinge("far", at(100, 0), spot{"pin", at(100, 50)}),
		},
		bars: []bar{
			{name: "coupler", from: "near.pin", to: "far.pin", points: []spot{{"lug", at(50, 80)}}},
			{name: "drag", from: "lever.pin", to: "coupler.lug"},
		},
		rest: []string{control("lever", 0, 150)},
	}.text())
	want := turnTo(heading(pivot, flatPin)-heading(pivot, pin), 0)
	assert.InDelta(t, want, s.High, flatAt, "flat")
	assert.Equal(t, solve.ByChangePoint, s.Ends[1].Cause)
	near(t, -90, partOf(t, s, "near").AtHigh, 1e-2, "a quarter turn")
	near(t, -90, partOf(t, s, "far").AtHigh, 1e-2, "a quarter turn")
	_, rows := tableOf(t, s, 40)
	for _, row := range rows {
		near(t, row[1], row[2], 1e-4, "the arms stay parallel on the way")
	}
}
