package main

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"

	"github.com/spf13/pflag"
)

// newFlags returns an empty set of flags for a command.
func newFlags(c *command) *pflag.FlagSet {
	flags := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	flags.SortFlags = false
	flags.Usage = func() {} // help is told by parse
	return flags
}

// setFlag adds the flag of every command that reads a run.
func setFlag(flags *pflag.FlagSet) *[]string {
	return flags.StringArray("set", nil, "read the file with this `DIMENSION=VALUE` changed: rod.length,\npart.point.x, part.pivot.y, fixed.point.x, part.edge.2.x,\npart.round.radius, stop.at, cable.core, cable.stiffness,\npair.pretension, or name.arm of a dims block (repeatable);\ncoordinates are those of the drawing, of arms too (not from the pivot)")
}

// parse reads the arguments of a command. It returns what is no flag, and
// whether to go on; where not, what had to be said has been said and status
// is the exit status.
func parse(c *command, std streams, flags *pflag.FlagSet, args []string) (rest []string, goOn bool, status int) {
	err := flags.Parse(args)
	switch {
	case err == nil:
		return flags.Args(), true, exitOK
	case errors.Is(err, pflag.ErrHelp):
		return nil, false, std.print(c, []byte(c.help(flags)), exitOK)
	}
	return nil, false, std.fail(c, "%s\n(fullfree help %s tells more)", flagFault(flags, err), c.name)
}

// flagFault puts an error of pflag in words.
func flagFault(flags *pflag.FlagSet, err error) string {
	var unknown *pflag.NotExistError
	var valueless *pflag.ValueRequiredError
	switch {
	case errors.As(err, &unknown):
		name := linkage.Printable(unknown.GetSpecifiedName())
		if shorts := unknown.GetSpecifiedShortnames(); shorts != "" {
			return fmt.Sprintf("there is no flag -%s; a file name that begins with \"-\" is written \"./-%s\"", name, linkage.Printable(shorts))
		}
		var names []string
		flags.VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
		return fmt.Sprintf("there is no flag --%s%s", name, calls.DidYouMean("--"+name, names))
	case errors.As(err, &valueless):
		flag := valueless.GetFlag()
		value, _ := pflag.UnquoteUsage(flag)
		return fmt.Sprintf("--%s needs a value: --%s %s", flag.Name, flag.Name, value)
	}
	return linkage.Printable(err.Error())
}

// settings reads the values of --set.
func settings(given []string) ([]linkage.Setting, error) {
	var out []linkage.Setting
	for _, text := range given {
		name, value, ok := strings.Cut(text, "=")
		if !ok || name == "" || value == "" {
			return nil, fmt.Errorf("--set %s is no DIMENSION=VALUE, such as --set left-link.length=184.5", linkage.Printable(text))
		}
		out = append(out, linkage.Setting{Dimension: name, Value: value})
	}
	return out, nil
}

// parseNumber reads a number written in decimals: no hexadecimal, no "NaN".
func parseNumber(text string) (float64, bool) {
	if strings.Trim(text, "+-.0123456789eE") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

// oneFile returns the one file that a command works on.
func oneFile(rest []string) (string, error) {
	switch len(rest) {
	case 0:
		return "", errors.New("a file is missing; \"fullfree new pedals > pedals.hcl\" gives one to begin with")
	case 1:
		return rest[0], nil
	}
	return "", fmt.Errorf("one file at a time, not %d (%s and %s)", len(rest), linkage.Printable(rest[0]), linkage.Printable(rest[1]))
}
