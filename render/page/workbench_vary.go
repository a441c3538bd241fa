package page

import (
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// workbenchVaryJSON is something that may vary: within a range, or among choices, which
// are told by their numbers from 0 on.
type workbenchVaryJSON struct {
	Name    string       `json:"name"` // of what: "crank.in.y", "lever.horn"
	Label   string       `json:"label"`
	Unit    linkage.Unit `json:"unit"`
	Low     float64      `json:"low"`
	High    float64      `json:"high"`
	Step    float64      `json:"step"` // that a button goes
	Filed   float64      `json:"filed"`
	Words   string       `json:"words"`   // what is filed
	Choices []string     `json:"choices"` // none: a range
}

// rangeParts is into how many steps of a button a range is parted that may take any value.
const rangeParts = 40

func workbenchVariesOf(run *linkage.Run) []workbenchVaryJSON {
	list := []workbenchVaryJSON{}
	for _, v := range run.Varies {
		filed := v.Filed()
		told := workbenchVaryJSON{Name: v.Of, Label: figure.Clean(v.Of), Unit: v.Numbers[0].Unit(), Low: v.Low, High: v.High, Step: v.Step, Filed: filed[0], Words: variedWords(filed), Choices: []string{}}
		if v.Name != "" {
			told.Label += ", " + figure.Clean(v.Name)
		}
		if v.Step == 0 {
			told.Step = (v.High - v.Low) / rangeParts
		}
		for _, values := range v.Among {
			told.Choices = append(told.Choices, variedWords(values))
		}
		list = append(list, told)
	}
	return list
}

// variedWords are values as a file has them.
func variedWords(values []float64) string {
	texts := make([]string, len(values))
	for i, value := range values {
		texts[i] = figure.Exactly(value)
	}
	if len(texts) == 1 {
		return texts[0]
	}
	return "[" + strings.Join(texts, ", ") + "]"
}
