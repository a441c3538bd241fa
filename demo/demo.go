// Package demo holds runs to start from: the files that `fullfree new` writes.
//
// They are runs of a two-seat light helicopter, the Brackwren, of an ultralight
// airplane, the Sedgewing, and of a light airplane, the Tamrell, none of which exists, with
// dimensions of their own. Each is commented like a drawing note: what
// the run is, where it is measured from, and what to look at in its verdict.
package demo

import (
	"embed"
	"slices"
	"strings"
)

//go:embed *.hcl
var files embed.FS

//go:embed aircraft/*.hcl
var aircraft embed.FS

// Aircraft is the name of the demo of several runs joined, which is several files.
const Aircraft = "aircraft"

// AircraftFile is a file of it.
type AircraftFile struct {
	Name string
	Text []byte
}

// changed begins the names of the files that are the same aircraft with a change made.
const changed = "changed"

// AircraftFiles returns the files of the aircraft: its own and one for each run.
func AircraftFiles() ([]AircraftFile, error) {
	entries, err := aircraft.ReadDir("aircraft")
	if err != nil {
		return nil, err
	}
	var list []AircraftFile
	for _, e := range entries {
		text, err := aircraft.ReadFile("aircraft/" + e.Name())
		if err != nil {
			return nil, err
		}
		if !strings.HasPrefix(e.Name(), changed) {
			list = append(list, AircraftFile{e.Name(), text})
		}
	}
	return list, nil
}

// WrongHole is a run that falls short in a way that happens: File gives it, but
// it is no kind to start from.
const WrongHole = "throttle-wrong-hole"

// Taped is a run drawn from what was measured on it, with the readings of two
// riggings: File gives it, but it is no kind to start from.
const Taped = "pedals-taped"

// Unequal is a run as it was found, with a rod made up too long; Dual is one with
// two paths to one part; Toleranced one whose parts may be out, and whose joints give.
// File gives them, but they are no kinds to start from.
const (
	Unequal    = "pedals-unequal"
	Dual       = "pedals-dual"
	Toleranced = "pedals-tolerance"
)

// kinds are the runs to start from, from the simplest to the richest in each
// of the jobs: in a plane, in space, with two controls, by cables, around a turn.
var kinds = []string{"pedals", "pedals-swivel", "throttle", "sticks", "chain", "mixer", "ailerons", "elevator", "flaps", "throttle-cable", "lift-cables", "pedals-cable", "aileron-cranks", "rotor"}

// about tells each of the kinds in a line.
var about = map[string]string{
	"pedals":         "tail pedals and a reversing rocker, in a plane",
	"pedals-swivel":  "the same with a rocker that lies flat: rods in space",
	"throttle":       "a twist grip that pulls a butterfly by one rod",
	"sticks":         "twin sticks that move as one, two ways each",
	"chain":          "a collective by rods and cranks to a plunger that slides",
	"mixer":          "collective and cyclic in one: a carried lever, a floating ring",
	"ailerons":       "differential, by cranks in the wing, the left side mirrored",
	"elevator":       "stick to elevator, with a trim tab on it",
	"flaps":          "a lever with notches, both flaps together",
	"throttle-cable": "a throttle by a single cable and its spring",
	"lift-cables":    "a collective by two cables in conduits",
	"pedals-cable":   "pedals to the tail by open cables, cold and warm",
	"aileron-cranks": "ailerons in inches, and a tab read against its carrier",
	"rotor":          "a rotor head: a swashplate on a ball, and its blades",
}

// About tells a kind in a line.
func About(kind string) string { return about[kind] }

// Kinds returns the names of the runs to start from, in the order they are told in.
func Kinds() []string { return slices.Clone(kinds) }

// more are the runs that are told by name alone.
var more = []string{WrongHole, Taped, Unequal, Dual, Toleranced}

// More returns the names of those that File gives besides the Kinds.
func More() []string { return slices.Clone(more) }

// File returns the text of a run by its kind, or WrongHole, Taped, Unequal,
// Dual or Toleranced; false where there is none of that name.
func File(kind string) ([]byte, bool) {
	if !slices.Contains(more, kind) && !slices.Contains(kinds, kind) {
		return nil, false
	}
	text, err := files.ReadFile(kind + ".hcl")
	return text, err == nil
}
