package machine

import (
	"io"

	"fullfree/render"
)

// compareSchema is the name and version of what is written about settings side by side.
const compareSchema = "fullfree.compare/1"

type compareJSON struct {
	Schema   string        `json:"schema"`
	Variants []variantJSON `json:"variants"`
}

type variantJSON struct {
	Name   string             `json:"name"`
	Turns  map[string]float64 `json:"turns"`
	Set    map[string]float64 `json:"set"` // dimensions that are set otherwise
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
func CompareJSON(w io.Writer, file string, variants []render.Variant) error {
	if err := render.WholeVariants(variants); err != nil {
		return err
	}
	out := compareJSON{Schema: compareSchema, Variants: []variantJSON{}}
	for _, v := range variants {
		told := variantJSON{Name: v.Name, Turns: map[string]float64{}, Set: map[string]float64{}, Rods: []setRodJSON{}, Cables: setCablesOf(v.Result.Run), Check: checkOf(file, v.Result)}
		for _, t := range v.Turned {
			told.Turns[t.Name()] = t.Turns
		}
		for _, n := range v.Set {
			told.Set[n.String()] = n.Value()
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
