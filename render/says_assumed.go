package render

import (
	"fmt"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// NoSource stands beside every figure that is taken for granted where the file
// gives none, wherever such a figure is told.
const NoSource = "common practice, no source"

// endStepsAssumed tells by what turns the rod ends go for which the file doesn't
// say; empty where it says so of all.
func endStepsAssumed(run *linkage.Run) string {
	var names []string
	step := 0.0
	for _, e := range RodEnds(run) {
		if !e.StepGiven {
			names, step = append(names, e.String()), e.Step
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("The file gives no step for %s: %s stands in, after which the bolt goes in again (%s).", figure.List(names), TurnsWords(step), NoSource)
}

// stopStepsAssumed tells by what the stops go that may be set and for which the
// file doesn't say; empty where there are none.
func stopStepsAssumed(run *linkage.Run) string {
	var names []string
	step := 0.0
	for _, s := range run.Stops {
		if s.Adjust != nil && !s.StepGiven {
			names, step = append(names, figure.Quoted(s.Name)), s.Step
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("The file gives no step for the stop %s: %s, in the unit of its part, stands in (%s).", figure.List(names), figure.Given(step, ""), NoSource)
}

// PinsAssumed tells how far a rod may be off with pins in for which the file
// doesn't say; empty where there are none.
func PinsAssumed(run *linkage.Run) string {
	var names []string
	within := 0.0
	for _, pin := range run.Pins {
		if !pin.WithinGiven {
			names, within = append(names, figure.Quoted(pin.Name)), pin.Within
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("The file gives no within for the pin %s: a bolt is taken to slide in where its rod is off by no more than %s (%s).", figure.List(names), figure.Given(within, run.Units), NoSource)
}

// uncertainAssumed tells, behind how far holes may be out, where that is from;
// empty where the file gives it.
func uncertainAssumed(run *linkage.Run) string {
	if run.UncertainGiven {
		return ""
	}
	return "; " + NoSource + `, the run's "uncertain" rules`
}

// SettingsAssumed tells every figure that stands in for one that the file doesn't
// give of its threads, pins and stops.
func SettingsAssumed(run *linkage.Run) []string {
	said := []string{makersSay(run), endStepsAssumed(run), stopStepsAssumed(run), PinsAssumed(run)}
	return slices.DeleteFunc(said, func(words string) bool { return words == "" })
}

// CheckAssumes is all that an answer takes for granted where the file doesn't say,
// for machines.
func CheckAssumes(r *solve.Result) []string {
	if r.Run.Aircraft != nil {
		said := append([]string{}, JointsSay(r.Run)...)
		if words := skippedSays(r); words != "" {
			said = append(said, words)
		}
		for i, only := range r.Runs() {
			for _, words := range CheckAssumes(only) {
				said = append(said, r.Run.Aircraft.Members[i].Name+": "+words)
			}
		}
		return said
	}
	said := append([]string{}, cablesAssume(r)...)
	if bands := BandsAssume(r); bands != "" {
		said = append(said, bands)
	}
	return append(said, SettingsAssumed(r.Run)...)
}
