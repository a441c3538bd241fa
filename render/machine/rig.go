package machine

import (
	"io"

	"fullfree/linkage"
	"fullfree/solve/rig"
)

// rigSchema is the name and version of what is written about settings that were found.
const rigSchema = "fullfree.rig/1"

type rigJSON struct {
	Schema   string       `json:"schema"`
	Found    bool         `json:"found"`
	Settings []rigSetJSON `json:"settings"`
	// What else meets everything; null where that is the best too, or nothing does.
	MostReserve *rigOtherJSON `json:"most_reserve"`
	FewestEnds  *rigOtherJSON `json:"fewest_ends"`
	Advised     *rigOtherJSON `json:"advised"` // what a check advises, where that meets everything too
	// Dimensions each of which would by itself do; looked for where nothing is found.
	Others   []rigDimensionJSON `json:"others"`
	Searched string             `json:"searched"`
	Cut      bool               `json:"cut"` // not all that was found is told
}

type rigDimensionJSON struct {
	Dimension string   `json:"dimension"`
	Value     float64  `json:"value"`
	Filed     float64  `json:"filed"`
	Reserve   *float64 `json:"reserve"`
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
	Neutral []displacedJSON    `json:"neutral"`       // what stands right at neutral as filed, and not when set so
	Moved   []displacedJSON    `json:"neutral_moved"` // what stood elsewhere there as filed, and is moved
}

type displacedJSON struct {
	Name  string       `json:"name"` // of a part, a freedom of one that floats, or an output
	Unit  linkage.Unit `json:"unit"`
	At    float64      `json:"at"`    // from the drawn position
	Filed float64      `json:"filed"` // as filed
}

// RigJSON writes the settings that were found for machines, best first, at full
// precision. File is the name of the file as the user gave it. The error is the
// writer's.
func RigJSON(w io.Writer, file string, found *rig.Answer) error {
	out := rigJSON{Schema: rigSchema, Found: found.Found, Settings: []rigSetJSON{}, Searched: found.Searched.String(), Cut: found.Cut}
	for i := range found.Settings {
		s := &found.Settings[i]
		told := rigSetJSON{rigOtherJSON: *rigOtherOf(s), Holds: threeValued(s.Verdict), Check: checkOf(file, s.Check)}
		out.Settings = append(out.Settings, told)
	}
	out.MostReserve, out.FewestEnds = rigOtherOf(found.Most), rigOtherOf(found.Fewest)
	out.Advised, out.Others = rigOtherOf(found.Advised), []rigDimensionJSON{}
	for _, o := range found.Others {
		out.Others = append(out.Others, rigDimensionJSON{o.Number.String(), o.Value, o.Number.Value(), o.Reserve})
	}
	return writeJSON(w, out)
}

func rigOtherOf(s *rig.Setting) *rigOtherJSON {
	if s == nil {
		return nil
	}
	told := &rigOtherJSON{Turns: map[string]float64{}, Stops: map[string]float64{}, Reserve: s.Reserve, Neutral: []displacedJSON{}, Moved: []displacedJSON{}}
	for _, t := range s.Turns {
		told.Turns[t.End.String()] = t.Turns
	}
	for _, t := range s.Stops {
		told.Stops[t.Stop.Name] = t.At
	}
	for _, d := range s.Displaced {
		told.Neutral = append(told.Neutral, displacedJSON{d.Name, d.Unit, d.At, d.Was})
	}
	for _, d := range s.Moved {
		told.Moved = append(told.Moved, displacedJSON{d.Name, d.Unit, d.At, d.Was})
	}
	return told
}
