package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// leftSays tells what a turn of a rod end leaves of the length that is wanted.
func leftSays(n *solve.TurnToLength, unit linkage.Unit) string {
	if figure.CalipersNumber(n.Left, unit) == figure.CalipersNumber(0, unit) {
		return ""
	}
	way := "long"
	if n.Left < 0 {
		way = "short"
	}
	return fmt.Sprintf("then %s %s", figure.Calipers(math.Abs(n.Left), unit), way)
}

// stepsOf names the steps of an end in the plural.
func stepsOf(e *linkage.RodEnd) string {
	switch e.Step {
	case 0.5:
		return "half turns"
	case 1:
		return "whole turns"
	}
	return "steps of " + TurnsWords(e.Step)
}
