package machine

import (
	"io"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/find"
)

// findSchema is the name and version of what is written about dimensions that were found.
const findSchema = "fullfree.find/1"

type findJSON struct {
	Schema   string           `json:"schema"`
	Found    bool             `json:"found"`
	Settings []findSetJSON    `json:"settings"`
	Against  []againstJSON    `json:"against"` // without each of these all others can be met; none where found
	InTheWay []inTheWayJSON   `json:"in_the_way"`
	Searched findSearchedJSON `json:"searched"`
}

type findSetJSON struct {
	Values  map[string]any `json:"values"`  // of all that varies: a number, a place [x, y], turns out of a rod end
	Changed []string       `json:"changed"` // which of them are not as filed
	Holds   *bool          `json:"holds"`
	Reserve *float64       `json:"reserve"`
	// The kind and the name of the requirement with the least reserve, or that misses most;
	// null where none has one.
	Limits       *string               `json:"limits"`
	LimitsName   *string               `json:"limits_name"`
	Requirements []findRequirementJSON `json:"requirements"`
	Ratios       []findRatioJSON       `json:"ratios"`
}

type findRequirementJSON struct {
	Kind    string       `json:"kind"`
	Name    string       `json:"name"`
	Holds   *bool        `json:"holds"`
	Worst   *float64     `json:"worst"`
	Limit   float64      `json:"limit"`
	Unit    linkage.Unit `json:"unit"`
	Reserve *float64     `json:"reserve"`
	Band    *float64     `json:"band"`
	Sure    *bool        `json:"sure"`
}

type findRatioJSON struct {
	Output string       `json:"output"`
	Sweep  int          `json:"sweep"`
	Unit   linkage.Unit `json:"unit"`
	Now    leverageJSON `json:"now"`
	Filed  leverageJSON `json:"filed"`
}

type leverageJSON struct {
	Neutral *float64 `json:"neutral"`
	Least   *float64 `json:"least"`
}

type namedRequirementJSON struct {
	Kind string `json:"kind"`
	Name string `json:"name"`
}

type againstJSON struct {
	Drop    namedRequirementJSON `json:"drop"`
	Values  map[string]any       `json:"values"` // what is then possible
	Reserve *float64             `json:"reserve"`
}

// inTheWayJSON is a requirement that the closest setting misses, the best that meets it,
// null where none that was searched does, and what falls short there.
type inTheWayJSON struct {
	namedRequirementJSON
	Values map[string]any         `json:"values"`
	Fails  []namedRequirementJSON `json:"fails"`
}

type findSearchedJSON struct {
	Settings     int      `json:"settings"`
	Checked      int      `json:"checked"` // of these by the steps of a check
	Complete     bool     `json:"complete"`
	Combinations *float64 `json:"combinations"`
	LeftOut      *float64 `json:"left_out"` // of the combinations
	Says         string   `json:"says"`
}

// FindJSON writes the dimensions that were found for machines, best first, at full
// precision. The error is the writer's.
func FindJSON(w io.Writer, found *find.Answer) error {
	out := findJSON{Schema: findSchema, Found: found.Found, Settings: []findSetJSON{}, Against: []againstJSON{}, InTheWay: []inTheWayJSON{}}
	for i := range found.Settings {
		out.Settings = append(out.Settings, findSetOf(&found.Settings[i], found.Filed))
	}
	for _, a := range found.Against {
		out.Against = append(out.Against, againstJSON{namedOf(a.Requirement), valuesOf(a.Then), a.Then.ReserveWithout(a.Requirement)})
	}
	for _, way := range found.InTheWay {
		told := inTheWayJSON{namedRequirementJSON: namedOf(way.Requirement), Fails: []namedRequirementJSON{}}
		if way.Best != nil {
			told.Values = valuesOf(way.Best)
		}
		for _, q := range way.Fails {
			told.Fails = append(told.Fails, namedOf(q))
		}
		out.InTheWay = append(out.InTheWay, told)
	}
	s := found.Searched
	left := 0.0
	if !s.Whole {
		left = max(0, s.Combinations-float64(s.Settings))
	}
	out.Searched = findSearchedJSON{s.Settings, s.Checked, s.Complete, &s.Combinations, &left, s.String()}
	return writeJSON(w, out)
}

func findSetOf(s *find.Setting, filed *solve.Result) findSetJSON {
	told := findSetJSON{Values: valuesOf(s), Changed: []string{}, Holds: threeValued(s.Verdict), Reserve: s.Reserve, Requirements: []findRequirementJSON{}, Ratios: []findRatioJSON{}}
	for i := range s.Values {
		if s.Values[i].Changes() {
			told.Changed = append(told.Changed, s.Values[i].Name())
		}
	}
	if j := s.Limits; j != nil {
		kind, name := string(j.Requirement.Kind), j.Requirement.Name
		told.Limits, told.LimitsName = &kind, &name
	}
	for i := range s.Check.Requirements {
		j := &s.Check.Requirements[i]
		told.Requirements = append(told.Requirements, findRequirementJSON{string(j.Requirement.Kind), j.Requirement.Name, threeValued(j.Verdict), j.Worst, j.Limit, j.Unit, j.Reserve(), j.Band, j.Sure})
	}
	for _, r := range s.Leverage(filed) {
		told.Ratios = append(told.Ratios, findRatioJSON{r.Output.Name, r.Sweep, r.Unit, leverageJSON{r.Neutral, r.Least}, leverageJSON{r.NeutralFiled, r.LeastFiled}})
	}
	return told
}

func namedOf(r *linkage.Requirement) namedRequirementJSON {
	return namedRequirementJSON{string(r.Kind), r.Name}
}

// valuesOf are the values of a setting by the names of what varies.
func valuesOf(s *find.Setting) map[string]any {
	values := map[string]any{}
	for i := range s.Values {
		v := &s.Values[i]
		if len(v.Is) == 1 {
			values[v.Name()] = v.Is[0]
		} else {
			values[v.Name()] = v.Is
		}
	}
	return values
}
