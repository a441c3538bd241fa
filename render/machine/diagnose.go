package machine

import (
	"io"

	"fullfree/render"
	"fullfree/solve"
)

// diagnoseSchema is the name and version of what is written about a diagnosis.
const diagnoseSchema = "fullfree.diagnose/1"

type diagnoseJSON struct {
	Schema     string          `json:"schema"`
	Candidates []candidateJSON `json:"candidates"`
	TellsApart *extraJSON      `json:"tells_apart"`
	Trend      []trendJSON     `json:"trend"`
}

type candidateJSON struct {
	Dimension string             `json:"dimension"`
	Nominal   float64            `json:"nominal"`
	Estimate  float64            `json:"estimate"`
	SE        float64            `json:"se"`
	RMS       float64            `json:"rms"`
	Group     int                `json:"group"`
	Turns     map[string]float64 `json:"turns"` // by rod end, out positive; of rods with threads alone
}

type extraJSON struct {
	Control string  `json:"control"`
	Of      string  `json:"of"`
	At      float64 `json:"at"`
}

// turnsToRight are the turns that would put a rod right, by the first of its ends.
func turnsToRight(c solve.Candidate) map[string]float64 {
	turns := map[string]float64{}
	if end, by, ok := render.PutsRight(c); ok {
		turns[end.String()] = by
	}
	return turns
}

type trendJSON struct {
	Dimension string  `json:"dimension"`
	Date      string  `json:"date"`
	Estimate  float64 `json:"estimate"`
	SE        float64 `json:"se"`
}

// DiagnoseJSON writes a diagnosis for machines, at full precision. The error
// is the writer's.
func DiagnoseJSON(w io.Writer, d *solve.Diagnosis) error {
	out := diagnoseJSON{Schema: diagnoseSchema, Candidates: []candidateJSON{}, Trend: []trendJSON{}}
	for _, c := range d.Candidates {
		out.Candidates = append(out.Candidates, candidateJSON{c.Dimension, c.Nominal, c.Estimate, c.SE, c.RMS, c.Group, turnsToRight(c)})
	}
	if x := d.TellsApart; x != nil {
		out.TellsApart = &extraJSON{x.Control.Name, x.Of.Name(), x.At}
	}
	for _, p := range d.Trend {
		out.Trend = append(out.Trend, trendJSON(p))
	}
	return writeJSON(w, out)
}
