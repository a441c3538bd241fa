package machine

import (
	"io"

	"fullfree/linkage"
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

// surveysJSON is the surveys of the runs of an aircraft.
type surveysJSON struct {
	Schema   string          `json:"schema"`
	Aircraft string          `json:"aircraft"`
	Runs     []runSurveyJSON `json:"runs"`
}

type runSurveyJSON struct {
	Run string `json:"run"`
	surveyJSON
}

// SurveyJSON writes a survey for machines, at full precision. The error is the
// writer's.
func SurveyJSON(w io.Writer, s *survey.Survey) error { return writeJSON(w, surveyOf(s)) }

// SurveysJSON writes the surveys of those runs of an aircraft that have one, by the name of
// the run. The error is the writer's.
func SurveysJSON(w io.Writer, run *linkage.Run, surveys map[string]*survey.Survey) error {
	out := surveysJSON{Schema: surveySchema, Aircraft: run.Name, Runs: []runSurveyJSON{}}
	if run.Aircraft != nil {
		for _, m := range run.Aircraft.Members {
			if s := surveys[m.Name]; s != nil {
				out.Runs = append(out.Runs, runSurveyJSON{m.Name, surveyOf(s)})
			}
		}
	}
	return writeJSON(w, out)
}

func surveyOf(s *survey.Survey) surveyJSON {
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
	return out
}
