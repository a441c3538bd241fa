package machine

import (
	"io"

	"fullfree/render"
	"fullfree/solve/survey"
)

// surveySchema is the name and version of what is written about a survey.
const surveySchema = "fullfree.survey/1"

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
func SurveyJSON(w io.Writer, s *survey.Survey) error {
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
		next := render.TapeSays(s.Next)
		out.Next = &next
	}
	return writeJSON(w, out)
}
