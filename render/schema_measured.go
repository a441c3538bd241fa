package render

import (
	"io"

	"fullfree/solve"
)

// The names and versions of what is written for machines about measurements,
// as in schema.go.
const (
	surveySchema   = "fullfree.survey/1"
	diagnoseSchema = "fullfree.diagnose/1"
)

type surveyJSON struct {
	Schema           string            `json:"schema"`
	Points           []pointJSON       `json:"points"`
	Measurements     []measurementJSON `json:"measurements"`
	Undetermined     []string          `json:"undetermined"`
	Next             *string           `json:"next"`
	DegreesOfFreedom int               `json:"degrees_of_freedom"`
}

type pointJSON struct {
	Name string   `json:"name"`
	X    float64  `json:"x"`
	Y    float64  `json:"y"`
	Z    float64  `json:"z"`
	SX   float64  `json:"sx"`
	SY   float64  `json:"sy"`
	SZ   *float64 `json:"sz"`
}

type measurementJSON struct {
	Name         string   `json:"name"`
	Is           float64  `json:"is"`
	Adjusted     float64  `json:"adjusted"`
	Residual     float64  `json:"residual"`
	Misclosure   *float64 `json:"misclosure"`
	Standardized *float64 `json:"standardized"`
	Doubtful     bool     `json:"doubtful"`
}

// SurveyJSON writes a survey for machines, at full precision. The error is the
// writer's.
func SurveyJSON(w io.Writer, s *solve.Survey) error {
	out := surveyJSON{
		Schema:           surveySchema,
		Points:           []pointJSON{},
		Measurements:     []measurementJSON{},
		Undetermined:     append([]string{}, s.Undetermined...),
		DegreesOfFreedom: s.DegreesOfFreedom,
	}
	for i := range s.Points {
		p := &s.Points[i]
		point := pointJSON{Name: p.Name, X: p.At.X, Y: p.At.Y, Z: p.At.Z, SX: p.Sigma.X, SY: p.Sigma.Y}
		if !p.PlaneOnly {
			point.SZ = &p.Sigma.Z
		}
		out.Points = append(out.Points, point)
	}
	for _, m := range s.Measurements {
		out.Measurements = append(out.Measurements, measurementJSON{
			m.Measurement.Name, m.Measurement.Is, m.Adjusted, m.Residual, m.Misclosure, m.Standardized, m.Doubtful,
		})
	}
	if s.Next.OK {
		next := tapeSays(s.Next)
		out.Next = &next
	}
	return writeJSON(w, out)
}

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
	if end, by, ok := putsRight(c); ok {
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
