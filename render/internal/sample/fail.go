package sample

import (
	"fullfree/linkage"
	"fullfree/solve"
)

// FailCase is a failure, the words that stand in what is told of it, and it in
// short.
type FailCase struct {
	Failure solve.Failure
	Says    []string
	Short   string
}

// FailRun is what the cases below are about: two controls, an output of each.
func FailRun() *linkage.Run {
	run := &linkage.Run{Name: "Run", Units: linkage.Millimeters}
	for i, name := range []string{"stick", "far-stick", "lever", "crank"} {
		run.Parts = append(run.Parts, &linkage.Part{Name: name, Index: i, Motion: linkage.Turns})
	}
	run.Controls = []*linkage.Control{{Name: "roll", Of: run.Parts[0], Plus: "left"}, {Name: "lift", Of: run.Parts[2], Index: 1}}
	run.Outputs = []*linkage.Output{{Name: "tilt", Part: run.Parts[3]}}
	run.Rods = []*linkage.Rod{{Name: "link", From: linkage.PointRef{Part: run.Parts[0]}, To: linkage.PointRef{Part: run.Parts[3]}}}
	return run
}

// FailuresWith is what is left of a run in one case.
func FailuresWith(run *linkage.Run, c solve.Failure) *solve.Failures {
	return &solve.Failures{
		Run: run, Cases: []solve.Failure{c},
		Hands: [][]*linkage.Part{{run.Parts[0], run.Parts[1]}, {run.Parts[2]}},
	}
}

// FailCases are made-up failures of FailRun, one of each kind that is told in its
// own way.
func FailCases(run *linkage.Run) map[string]FailCase {
	yes, no := true, false
	left := func(locked *bool, would float64) []solve.ControlLeft {
		return []solve.ControlLeft{
			{Control: run.Controls[0], Unit: "deg", Locked: locked, Would: would, WouldUnit: "deg"},
			{Control: run.Controls[1], Unit: "deg", Locked: &no},
		}
	}
	tilt := solve.Reach{Control: run.Controls[0], Name: "tilt", Unit: "deg", Output: run.Outputs[0], Own: true, Filed: [2]float64{-20, 20}, Left: [2]float64{-20, 19.9}, Follows: true, Share: 0.9975}
	backwards := tilt
	backwards.Reversed = true
	return map[string]FailCase{
		"nothing to tell": {
			solve.Failure{Element: solve.Element{Stop: &linkage.Stop{Name: "low"}}, How: solve.Parted, Trouble: &solve.Trouble{}},
			[]string{"Can't be told: as it is left, it doesn't close."}, "can't be told",
		},
		"only beyond what is explored": {
			solve.Failure{
				Element: solve.Element{Stop: &linkage.Stop{Name: "low"}}, How: solve.Parted, Severity: solve.Dangerous, Controls: left(&no, 0), OverCenter: &yes,
				OnCenter: []solve.OnCenter{{Control: run.Controls[0], Critical: solve.Critical{Kind: solve.Toggle, At: 90, Part: run.Parts[3]}, Beyond: true}},
			},
			[]string{"roll can now run on center at 90.0° (left): crank locks up there (toggle). That is beyond what the file explores; nothing in the file is in the way to it."},
			"roll can go over center beyond what is explored, nothing in the way",
		},
		"over center where it is explored": {
			solve.Failure{
				Element: solve.Element{Stop: &linkage.Stop{Name: "low"}}, How: solve.Parted, Severity: solve.Dangerous, Controls: left(&no, 0), OverCenter: &yes,
				OnCenter: []solve.OnCenter{{Control: run.Controls[0], Critical: solve.Critical{Kind: solve.DeadCenter, At: 30, Part: run.Parts[3]}}},
			},
			[]string{"roll can now run on center at 30.0° (left): crank halts and reverses there (dead center)."},
			"roll can go over center",
		},
		"a jam": {
			solve.Failure{Element: solve.Element{Part: run.Parts[3]}, How: solve.Seized, Severity: solve.Dangerous, Controls: left(&yes, 12), Takes: run.Parts[:2], TakesAll: &no, OverCenter: &no},
			[]string{"Locks roll: it would have to turn by up to 12.0°. One jam takes both: stick and far-stick."}, "jams roll",
		},
		"a jam of one seat": {
			solve.Failure{Element: solve.Element{Part: run.Parts[3]}, How: solve.Seized, Severity: solve.Dangerous, Controls: left(&yes, 12), Takes: run.Parts[:1], TakesAll: &no, OverCenter: &no},
			[]string{"One jam takes stick, and not the others."}, "jams roll",
		},
		"hardly a jam": {
			solve.Failure{Element: solve.Element{Rod: run.Rods[0], End: "to"}, How: solve.Seized, Severity: solve.Dangerous, Controls: left(&yes, 0.03), OverCenter: &no},
			[]string{"the rod would have to turn by up to 0.030° against crank", "play and flex"}, "jams roll",
		},
		"no telling whether it jams": {
			solve.Failure{Element: solve.Element{Part: run.Parts[3]}, How: solve.Seized, Controls: left(nil, 1e-8), OverCenter: &no},
			[]string{"Whether roll is locked can't be told"}, "can't be told",
		},
		"backwards": {
			solve.Failure{Element: solve.Element{Rod: run.Rods[0]}, How: solve.Parted, Severity: solve.Dangerous, Controls: left(&no, 0), Reaches: []solve.Reach{backwards}, OverCenter: &no},
			[]string{"Reversed: tilt.", "tilt from -20.0° to 19.9° (as filed -20.0° to 20.0°: 99.8% of it)"}, "reverses tilt",
		},
		"a little less": {
			solve.Failure{Element: solve.Element{Rod: run.Rods[0]}, How: solve.Parted, Severity: solve.Reduced, Controls: left(&no, 0), Reaches: []solve.Reach{tilt}, OverCenter: &no},
			[]string{"99.8% of it"}, "tilt reaches 99.8%",
		},
	}
}
