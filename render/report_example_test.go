package render

import (
	"fullfree/linkage"
	"fullfree/solve"
)

// is returns a pointer to v.
func is(v float64) *float64 { return &v }

// levers is a made-up result of a plane run: a lever that drives a crank by a
// rod, with a stop on each side. Each call gives a fresh one to change.
func levers() *solve.Result {
	square := linkage.Vec{Z: 1}
	lever := &linkage.Part{Name: "lever", Motion: linkage.Turns, Axis: square,
		Points: []linkage.Point{{Name: "horn", At: linkage.Vec{Y: -60}}}}
	crank := &linkage.Part{Name: "crank", Motion: linkage.Turns, Axis: square, Index: 1, Pivot: linkage.Vec{X: 183.7},
		Points: []linkage.Point{{Name: "horn", At: linkage.Vec{X: 183.7, Y: -60}}}}
	link := &linkage.Rod{Name: "link", Length: 184, Drawn: 183.7, LengthGiven: true, Misalignment: is(12), From: linkage.PointRef{Part: lever}, To: linkage.PointRef{Part: crank}}
	hand := &linkage.Control{Name: "hand", Of: lever, From: -35, To: 35, Held: []float64{0}, Plus: "lever forward", Minus: "lever aft"}
	out := &linkage.Output{Name: "tail", Part: crank, Plus: "nose left"}
	aft := &linkage.Stop{Name: "aft", Of: lever, At: -24}
	bolt := &linkage.Stop{Name: "bolt", Index: 1}
	far := &linkage.Stop{Name: "far", Of: crank, At: 26, Index: 2}
	run := &linkage.Run{
		Name: "Levers", Units: linkage.Millimeters, Plane: true,
		Parts: []*linkage.Part{lever, crank}, Rods: []*linkage.Rod{link},
		Controls: []*linkage.Control{hand}, Outputs: []*linkage.Output{out}, Stops: []*linkage.Stop{aft, bolt, far},
	}
	sweep := &solve.Sweep{
		Control: hand, Unit: "deg", Low: -24, High: 24.04, Explored: [2]float64{-35, 31.2},
		Ends: [2]solve.End{
			{At: -24, Cause: solve.ByStop, Stop: aft},
			{At: 24.04, Cause: solve.ByStop, Stop: bolt, Wear: is(0.9)},
		},
		Stops: []solve.StopBite{{Stop: aft, At: is(-24), Bites: true}, {Stop: bolt, At: is(24.04), Bites: true}, {Stop: far, At: is(26.5)}},
		Parts: []solve.PartTravel{
			{Part: lever, Name: "lever", Unit: "deg", Extent: solve.Extent{AtLow: -24, AtHigh: 24.04, Least: -24, Most: 24.04}},
			{Part: crank, Name: "crank", Unit: "deg", Extent: solve.Extent{Neutral: 0.1, AtLow: -23.6, AtHigh: 24.3, Least: -23.6, Most: 24.3}},
		},
		Outputs: []solve.OutputTravel{{
			Output: out, Unit: "deg", Extent: solve.Extent{Neutral: 0.1, AtLow: -23.6, AtHigh: 24.3, Least: -23.6, Most: 24.3},
			Ratio: solve.Ratio{Unit: "deg/deg", Neutral: is(1), Least: is(0.9), Most: is(1.1)},
		}},
		Rods:     []solve.RodTravel{{Rod: link, Length: link.Length, TiltFrom: 1, TiltTo: 2, Angle: solve.RodAngle{Least: 62.1, At: is(-24), Part: "crank"}}},
		Critical: []solve.Critical{{Kind: solve.Toggle, At: 31.2, Part: crank, Rod: link, Margin: 31.2 - 24.04}},
	}
	return &solve.Result{Run: run, Verdict: solve.CannotTell, Sweeps: []*solve.Sweep{sweep},
		NotChecked: []linkage.Kind{linkage.Sense, linkage.Clearance}}
}
