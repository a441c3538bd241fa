package main

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/solve"

	"github.com/spf13/pflag"
)

// choice is what sweep and draw are told of the controls.
type choice struct {
	control *string
	held    *[]string
}

func choiceFlags(flags *pflag.FlagSet) choice {
	return choice{
		flags.String("control", "", "the control `NAME` to move (left out: the first in the file)"),
		flags.StringArray("held", nil, "hold another control, `NAME=AT`, in its own unit from neutral\n(repeatable; left out: the first of its held settings)"),
	}
}

// sweep moves the control that was chosen; where that was done already, result has it.
func (ch choice) sweep(in *input, result *solve.Result) (*solve.Sweep, error) {
	control := in.Run.Controls[0]
	if *ch.control != "" {
		var err error
		if control, err = calls.ControlNamed(in.Run, *ch.control); err != nil {
			return nil, err
		}
	}
	held, err := ch.holding(in.Run)
	if err != nil {
		return nil, err
	}
	if amongHeld(held, control) {
		return nil, fmt.Errorf("%s is the control that moves; --held is for the others", control.Name)
	}
	if result != nil && len(held) == 0 {
		// The first of a control has the others at the first of their held settings.
		i := slices.IndexFunc(result.Sweeps, func(s *solve.Sweep) bool { return s.Control == control })
		if i >= 0 {
			return result.Sweeps[i], nil
		}
	}
	return sweepHeld(in, control, held)
}

// sweepHeld moves a control with others held as they were told to be.
func sweepHeld(in *input, control *linkage.Control, held []solve.Held) (*solve.Sweep, error) {
	swept, err := in.Mechanism.Sweep(control, held)
	if len(held) > 0 {
		err = calls.WithoutPlaces(err, "--held: ")
	}
	return swept, err
}

// holding is where controls are told to be held.
func (ch choice) holding(run *linkage.Run) (held []solve.Held, err error) {
	for _, text := range *ch.held {
		h, err := parseHeld(run, text)
		if err != nil {
			return nil, err
		}
		if amongHeld(held, h.Control) {
			return nil, fmt.Errorf("--held tells %s twice", h.Control.Name)
		}
		held = append(held, h)
	}
	return held, nil
}

// amongHeld reports whether a control is among those that are held.
func amongHeld(held []solve.Held, c *linkage.Control) bool {
	return slices.ContainsFunc(held, func(h solve.Held) bool { return h.Control == c })
}

func parseHeld(run *linkage.Run, text string) (solve.Held, error) {
	name, value, ok := strings.Cut(text, "=")
	if !ok {
		return solve.Held{}, fmt.Errorf("--held %s is no NAME=AT, such as --held collective=-8", linkage.Printable(text))
	}
	control, err := calls.ControlNamed(run, name)
	if err != nil {
		return solve.Held{}, err
	}
	at, ok := parseNumber(value)
	if !ok {
		return solve.Held{}, fmt.Errorf("--held %s: %q is no number", control.Name, linkage.Printable(value))
	}
	return solve.Held{Control: control, At: at}, nil
}
