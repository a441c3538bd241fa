package linkage

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// newtonsPound is a pound of force in newtons, exactly.
const newtonsPound = 4.4482216152605

// Expansion per degree Fahrenheit (appendix of a text on the mechanics of
// materials; read, its title was not noted).
const (
	steelExpansion    = 6.5e-6
	aluminumExpansion = 13.1e-6 // 6061-T6
)

// What stretches between open cables, as Run.Airframe has it.
const (
	Steel    = "steel"
	Aluminum = "6061-T6"
)

// constructions are those whose elastic stretch is known: strands by wires to a
// strand.
var constructions = []string{"7x19", "7x7"}

// wireSizes are the diameters that a wire may have, as they are written, in.
var wireSizes = []struct {
	name     string
	diameter float64
	// breaking and corrosion are what a 7x19 cable of that size breaks at, of
	// carbon and of corrosion-resistant steel, lbf (FAA AC 43.13-1B, table 7-3;
	// read).
	breaking, corrosion float64
}{
	{"3/32", 3.0 / 32, 1000, 920},
	{"1/8", 1.0 / 8, 2000, 1760},
	{"5/32", 5.0 / 32, 2800, 2400},
	{"3/16", 3.0 / 16, 4200, 3700},
}

// finishes are what a wire may be made of.
var finishes = []string{"galvanized", "stainless"}

// stretch is G of elastic stretch, percent = W G / D^2, with W in lbf and D in
// in (a rope maker's technical table; read; one source).
func (w *Wire) stretch() float64 {
	switch {
	case w.Construction == "7x19" && w.Stainless:
		return 1.62e-5
	case w.Construction == "7x19":
		return 1.40e-5
	case w.Stainless:
		return 1.20e-5
	}
	return 1.07e-5
}

// String returns its name as a file has it: "7x19 1/8 galvanized".
func (w *Wire) String() string {
	finish := "galvanized"
	if w.Stainless {
		finish = "stainless"
	}
	for _, size := range wireSizes {
		if size.diameter == w.Diameter {
			return w.Construction + " " + size.name + " " + finish
		}
	}
	return w.Construction + " " + finish
}

// EA is the force that would stretch the wire to twice its length if it went on
// as it begins, lbf: that which stretches it by one percent, a hundred times.
func (w *Wire) EA() float64 {
	return 100 * w.Diameter * w.Diameter / w.stretch()
}

// Stiffness is what so much free length of the wire pulls for each unit that it
// is stretched: N per mm of a length in mm, lbf per in of one in inches.
func (w *Wire) Stiffness(length float64, units Unit) float64 {
	if units == Millimeters {
		return w.EA() * newtonsPound / length
	}
	return w.EA() / length
}

// Breaking is the force that it breaks at, lbf; known is false where no figure
// was read, which is so of 7x7.
func (w *Wire) Breaking() (force float64, known bool) {
	for _, size := range wireSizes {
		if size.diameter != w.Diameter || w.Construction != "7x19" {
			continue
		}
		if w.Stainless {
			return size.corrosion, true
		}
		return size.breaking, true
	}
	return 0, false
}

// BreaksAt is the same in N in a run in millimeters, in lbf in one in inches.
func (w *Wire) BreaksAt(units Unit) (force float64, known bool) {
	force, known = w.Breaking()
	if units == Millimeters {
		force = float64(force * newtonsPound)
	}
	return force, known
}

// Expansion is by what share of its length it grows for each degree Fahrenheit;
// known is false of a stainless one, whose figure depends on the steel.
func (w *Wire) Expansion() (share float64, known bool) {
	if w.Stainless {
		return 0, false
	}
	return steelExpansion, true
}

// AirframeExpansion is by what share of its length the airframe grows for each
// degree Fahrenheit; known is false where the file doesn't say what it is of.
func (run *Run) AirframeExpansion() (share float64, known bool) {
	if run == nil {
		return 0, false
	}
	switch run.Airframe {
	case Steel:
		return steelExpansion, true
	case Aluminum:
		return aluminumExpansion, true
	}
	return 0, false
}

// ParseWire returns the wire of a name, "7x19 1/8 galvanized": construction, size
// in inches as a fraction, and what it is made of, in this order. The error says
// what is wrong with the name, and what was probably meant.
func ParseWire(name string) (*Wire, error) {
	words := strings.Fields(name)
	says := ""
	w := &Wire{}
	switch {
	case len(words) != 3:
		says = fmt.Sprintf("%s is no wire: one is written %q, construction, size in inches and finish", shortName(name), "7x19 1/8 galvanized")
	case !slices.Contains(constructions, words[0]):
		says = fmt.Sprintf("no figures are known of a wire of construction %s: there are %s, and it stands first", shortName(words[0]), joined(constructions, "or"))
	case !slices.Contains(sizeNames(), words[1]):
		says = fmt.Sprintf("%s is no size of wire that figures are known of: in inches there are %s, and it stands after the construction", shortName(words[1]), joined(sizeNames(), "or"))
	case !slices.Contains(finishes, words[2]):
		says = fmt.Sprintf("%s is nothing that a wire is made of: it is %s, and that stands last", shortName(words[2]), joined(finishes, "or"))
	default:
		w.Construction, w.Stainless = words[0], words[2] == "stainless"
		w.Diameter = wireSizes[slices.Index(sizeNames(), words[1])].diameter
		return w, nil
	}
	return nil, errors.New(says + meantWire(name))
}

// sizeNames are the sizes of wires as they are written.
func sizeNames() []string {
	names := make([]string, len(wireSizes))
	for i, size := range wireSizes {
		names[i] = size.name
	}
	return names
}

var (
	looseConstruction = regexp.MustCompile(`\b7 ?x ?(19|7)\b`)
	looseSize         = regexp.MustCompile(`\d/\d\d?|\d?\.\d+`)
	// decimalSizes are the sizes as they are written in decimals.
	decimalSizes = map[string]string{".094": "3/32", ".09375": "3/32", ".125": "1/8", ".156": "5/32", ".15625": "5/32", ".188": "3/16", ".1875": "3/16"}
)

// meantWire says which wire was probably meant by a name that is none: what of
// one stands in it, in whatever order.
func meantWire(name string) string {
	plain := strings.NewReplacer("×", "x", "*", "x").Replace(strings.ToLower(shortened(name)))
	construction := looseConstruction.FindStringSubmatch(plain)
	size := looseSize.FindString(plain)
	if fraction, ok := decimalSizes[strings.TrimPrefix(size, "0")]; ok {
		size = fraction
	}
	finish := ""
	switch {
	case strings.Contains(plain, "galv"):
		finish = "galvanized"
	case strings.Contains(plain, "stain"), strings.Contains(plain, "inox"), strings.Contains(plain, "corrosion"):
		finish = "stainless"
	}
	if construction == nil || finish == "" || !slices.Contains(sizeNames(), size) {
		return ""
	}
	return fmt.Sprintf("; did you mean %q?", "7x"+construction[1]+" "+size+" "+finish)
}
