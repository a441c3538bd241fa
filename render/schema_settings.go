package render

import (
	"io"

	"fullfree/linkage"
	"fullfree/solve"
)

// The names and versions of what is written for machines about the settings of
// rod ends, as in schema.go.
const (
	compareSchema = "fullfree.compare/1"
	effectSchema  = "fullfree.effect/1"
	rigSchema     = "fullfree.rig/1"
	rodsSchema    = "fullfree.rods/1"
)

type compareJSON struct {
	Schema   string        `json:"schema"`
	Variants []variantJSON `json:"variants"`
}

type variantJSON struct {
	Name   string             `json:"name"`
	Turns  map[string]float64 `json:"turns"`
	Rods   []setRodJSON       `json:"rods"`
	Cables []setCableJSON     `json:"cables"`
	Check  checkJSON          `json:"check"`
}

type setRodJSON struct {
	Name    string       `json:"name"`
	Length  float64      `json:"length"`
	RodEnds []setEndJSON `json:"rod_ends"`
}

type setEndJSON struct {
	Side    string  `json:"side"`
	Engaged float64 `json:"engaged"`
	Spare   float64 `json:"spare"`
}

// CompareJSON writes settings side by side for machines, at full precision. File
// is the name of the file as the user gave it. The error is the writer's.
func CompareJSON(w io.Writer, file string, variants []Variant) error {
	if err := wholeVariants(variants); err != nil {
		return err
	}
	out := compareJSON{Schema: compareSchema, Variants: []variantJSON{}}
	for _, v := range variants {
		told := variantJSON{Name: v.Name, Turns: map[string]float64{}, Rods: []setRodJSON{}, Cables: setCablesOf(v.Result.Run), Check: checkOf(file, v.Result)}
		for _, t := range v.Turned {
			told.Turns[t.Name()] = t.Turns
		}
		for _, rod := range v.Result.Run.Rods {
			set := setRodJSON{Name: rod.Name, Length: rod.Length, RodEnds: []setEndJSON{}}
			for _, e := range rod.Ends {
				set.RodEnds = append(set.RodEnds, setEndJSON{e.Side, e.Engaged, e.Spare()})
			}
			told.Rods = append(told.Rods, set)
		}
		out.Variants = append(out.Variants, told)
	}
	return writeJSON(w, out)
}

type effectJSON struct {
	Schema    string            `json:"schema"`
	RodEnds   []endEffectJSON   `json:"rod_ends"`
	CableEnds []cableEffectJSON `json:"cable_ends"`
	Pairs     []centeringJSON   `json:"pairs"`
	Assumed   []string          `json:"assumed"` // as in the check's
}

type endEffectJSON struct {
	Rod     string        `json:"rod"`
	Sweep   int           `json:"sweep"`
	Side    string        `json:"side"`
	PerTurn []perTurnJSON `json:"per_turn"`
}

type perTurnJSON struct {
	Name    string   `json:"name"`
	Unit    string   `json:"unit"`
	Neutral *float64 `json:"neutral"` // null where a part stands on center
	AtLow   *float64 `json:"at_low"`
	AtHigh  *float64 `json:"at_high"`
}

// EffectJSON writes what a turn of every rod end and nut does for machines, at full
// precision. The error is the writer's.
func EffectJSON(w io.Writer, r *solve.Result, effects Effects) error {
	if err := r.Whole(); err != nil {
		return err
	}
	out := effectJSON{Schema: effectSchema, RodEnds: []endEffectJSON{}, CableEnds: cableEffectsOf(r, effects.Cables), Pairs: centeringsOf(r.Run, effects.Centerings), Assumed: checkAssumes(r)}
	for _, e := range effects.Rods {
		out.RodEnds = append(out.RodEnds, endEffectJSON{Rod: e.End.Rod.Name, Sweep: e.Sweep, Side: e.End.Side, PerTurn: perTurnsOf(e.PerTurn)})
	}
	return writeJSON(w, out)
}

func perTurnsOf(list []solve.PerTurn) []perTurnJSON {
	told := []perTurnJSON{}
	for _, t := range list {
		told = append(told, perTurnJSON(t))
	}
	return told
}

type rodsJSON struct {
	Schema  string         `json:"schema"`
	Rods    []listRodJSON  `json:"rods"`
	Cables  []setCableJSON `json:"cables"`
	Assumed []string       `json:"assumed"` // as in the check's
}

type listRodJSON struct {
	Name    string        `json:"name"`
	Length  float64       `json:"length"`
	RodEnds []listEndJSON `json:"rod_ends"`
	Pinned  []pinnedJSON  `json:"pinned"` // an entry for every pin of the file
}

type listEndJSON struct {
	Side    string   `json:"side"`
	Engaged float64  `json:"engaged"`
	Spare   float64  `json:"spare"`
	Exposed *float64 `json:"exposed"` // null where the shank isn't given
}

type pinnedJSON struct {
	Pin    string   `json:"pin"`
	Length *float64 `json:"length"` // with every pin in; null where a part of the rod is held by none
}

// RodsJSON writes the rod list for machines, at full precision: how every rod of
// a run is set, and what it measures with every pin in. The error is the
// writer's.
func RodsJSON(w io.Writer, run *linkage.Run, pinned []solve.PinnedRod) error {
	out := rodsJSON{Schema: rodsSchema, Rods: []listRodJSON{}, Cables: setCablesOf(run), Assumed: append([]string{}, settingsAssumed(run)...)}
	for i, rod := range run.Rods {
		told := listRodJSON{Name: rod.Name, Length: rod.Length, RodEnds: []listEndJSON{}, Pinned: []pinnedJSON{}}
		for _, e := range rod.Ends {
			told.RodEnds = append(told.RodEnds, listEndJSON{e.Side, e.Engaged, e.Spare(), e.Exposed()})
		}
		for _, pin := range run.Pins {
			told.Pinned = append(told.Pinned, pinnedJSON{pin.Name, pinned[i].Length})
		}
		out.Rods = append(out.Rods, told)
	}
	return writeJSON(w, out)
}

type rigJSON struct {
	Schema   string       `json:"schema"`
	Found    bool         `json:"found"`
	Settings []rigSetJSON `json:"settings"`
	// What else meets everything; null where that is the best too, or nothing does.
	MostReserve *rigOtherJSON `json:"most_reserve"`
	FewestEnds  *rigOtherJSON `json:"fewest_ends"`
	Searched    string        `json:"searched"`
	Cut         bool          `json:"cut"` // not all that was found is told
}

type rigSetJSON struct {
	rigOtherJSON
	Holds *bool     `json:"holds"`
	Check checkJSON `json:"check"`
}

type rigOtherJSON struct {
	Turns   map[string]float64 `json:"turns"` // of what is turned at all
	Stops   map[string]float64 `json:"stops"` // of what is moved at all
	Reserve *float64           `json:"reserve"`
	Neutral []displacedJSON    `json:"neutral"` // what stands right at neutral as filed, and not when set so
}

type displacedJSON struct {
	Name  string  `json:"name"` // of a part, a freedom of one that floats, or an output
	Unit  string  `json:"unit"`
	At    float64 `json:"at"`    // from the drawn position
	Filed float64 `json:"filed"` // as filed
}

// RigJSON writes the settings that were found for machines, best first, at full
// precision. File is the name of the file as the user gave it. The run is
// changed meanwhile, and left as it was. The error is the writer's.
func RigJSON(w io.Writer, file string, run *linkage.Run, rig *solve.Rig) error {
	out := rigJSON{Schema: rigSchema, Found: rig.Found, Settings: []rigSetJSON{}, Searched: rig.Searched.String(), Cut: rig.Cut}
	for i := range rig.Settings {
		s := &rig.Settings[i]
		told := rigSetJSON{rigOtherJSON: *rigOtherOf(s), Holds: threeValued(s.Verdict)}
		undo := s.Apply(run)
		told.Check = checkOf(file, s.Check)
		undo()
		out.Settings = append(out.Settings, told)
	}
	out.MostReserve, out.FewestEnds = rigOtherOf(rig.Most), rigOtherOf(rig.Fewest)
	return writeJSON(w, out)
}

func rigOtherOf(s *solve.RigSetting) *rigOtherJSON {
	if s == nil {
		return nil
	}
	told := &rigOtherJSON{Turns: map[string]float64{}, Stops: map[string]float64{}, Reserve: s.Reserve, Neutral: []displacedJSON{}}
	for _, t := range s.Turns {
		told.Turns[t.End.String()] = t.Turns
	}
	for _, t := range s.Stops {
		told.Stops[t.Stop.Name] = t.At
	}
	for _, d := range s.Displaced {
		told.Neutral = append(told.Neutral, displacedJSON{d.Name, d.Unit, d.At, d.Was})
	}
	return told
}
