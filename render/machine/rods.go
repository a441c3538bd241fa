package machine

import (
	"io"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

// rodsSchema is the name and version of what is written about how rods are set.
const rodsSchema = "fullfree.rods/1"

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
	out := rodsJSON{Schema: rodsSchema, Rods: []listRodJSON{}, Cables: setCablesOf(run), Assumed: append([]string{}, render.SettingsAssumed(run)...)}
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
