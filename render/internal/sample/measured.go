package sample

import (
	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// Surveyed is a made-up survey of levers: two places, three measurements. Each
// call gives a fresh one to change.
func Surveyed() *survey.Survey {
	run := Levers().Run
	run.Sketch = 30
	lever, crank := run.Parts[0], run.Parts[1]
	lever.Points = []linkage.Point{{Name: "horn", At: linkage.Vec{Y: -60, Z: 12}}}
	crank.Points = []linkage.Point{{Name: "horn", At: linkage.Vec{X: 184, Y: -60}}}
	horn, far := linkage.PlaceRef{Part: lever}, linkage.PlaceRef{Part: crank}
	pivot := linkage.PlaceRef{Part: crank, Point: -1}
	link := &linkage.Measurement{Kind: linkage.Taped, Name: "link", From: horn, To: far, Is: 184, Within: 1}
	level := &linkage.Measurement{Kind: linkage.Gauged, Name: "level", From: horn, To: far, Is: 0.5, Within: 0.5}
	diagonal := &linkage.Measurement{Kind: linkage.Taped, Name: "diagonal", From: horn, To: pivot, Is: 193.5, Within: 1}
	return &survey.Survey{
		Run: run,
		Points: []survey.Point{
			{Place: horn, Name: "lever.horn", Drawn: linkage.Vec{Y: -60, Z: 12}, At: linkage.Vec{Y: -60, Z: 12}, PlaneOnly: true, Exact: true},
			{Place: far, Name: "crank.horn", Drawn: linkage.Vec{X: 184, Y: -60}, At: linkage.Vec{X: 187, Y: -56}, Sigma: linkage.Vec{X: 0.25, Y: 0.6}, PlaneOnly: true},
		},
		Measurements: []survey.Measurement{
			{Measurement: link, Adjusted: 183.8, Residual: 0.2, Redundancy: 0.5, Misclosure: Is(0.4), Standardized: Is(0.566)},
			{Measurement: level, Adjusted: 0.5},
			{Measurement: diagonal, Adjusted: 193.9, Residual: -0.4, Redundancy: 0.25, Misclosure: Is(-1.6), Standardized: Is(-1.6)},
		},
		DegreesOfFreedom: 1,
		Next:             survey.Suggestion{OK: true, From: horn, To: pivot, Removes: 0.254},
	}
}

// Diagnosed is a made-up diagnosis of levers: a rod and the gauge's zero that
// explain the readings, and a coordinate that doesn't. Each call gives a fresh
// one to change.
func Diagnosed() (*linkage.Run, *solve.Diagnosis) {
	run := Levers().Run
	rigging := &linkage.Rigging{
		Name: "first rigging", Of: linkage.Subject{Output: run.Outputs[0]}, Control: run.Controls[0],
		Readings: [][2]float64{{-20, -19}, {0, 1.1}}, Within: 0.4, Date: "2026-05-01",
	}
	length := &linkage.Dimension{Rod: run.Rods[0], Point: -1}
	return run, &solve.Diagnosis{
		Riggings:   []*linkage.Rigging{rigging},
		Residuals0: [][]float64{{1, 1.1}}, SumOfSquares0: 55, RMS0: 1.05,
		Candidates: []solve.Candidate{
			{Dimension: "link.length", Dim: length, Unit: "mm", Nominal: 184, Estimate: 185.1, SE: 0.06, RMS: 0.05, Group: 1, Residuals: [][]float64{{-0.05, 0.05}}},
			{Dimension: "first rigging.zero", Zero: rigging, Unit: "deg", Estimate: 1.05, SE: 0.14, RMS: 0.06, Group: 1, Residuals: [][]float64{{-0.05, 0.05}}},
			{Dimension: "crank.horn.y", Dim: &linkage.Dimension{Part: run.Parts[1]}, Unit: "mm", Nominal: -60, Estimate: -61, SE: 0.5, RMS: 0.9, Group: 2, Residuals: [][]float64{{0.9, 0.9}}},
		},
		TellsApart: &solve.Extra{Control: run.Controls[0], Of: linkage.Subject{Part: run.Parts[1]}, Unit: "deg", At: 24, Differs: 1.4, Within: 0.4},
	}
}
