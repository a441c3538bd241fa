package picture

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
)

// What a page is told of a sweep, so that it can move the picture (motion.js)
// and show figures: all of it solved here, since a page only interpolates.

// Course is the travel of a control position by position.
type Course struct {
	Control string         `json:"control"`
	Unit    linkage.Unit   `json:"unit"`
	Low     float64        `json:"low"`
	High    float64        `json:"high"`
	Plus    string         `json:"plus"`
	Minus   string         `json:"minus"`
	Series  []Series       `json:"series"`
	Samples []MotionSample `json:"positions"`
}

// Series is a quantity that every position has.
type Series struct {
	ID    string       `json:"id"` // ours: s0, s1, ...
	Kind  string       `json:"kind"`
	Name  string       `json:"name"`
	Label string       `json:"label"` // in words
	Unit  linkage.Unit `json:"unit"`
	// Decimals is how finely it is told. Where Parts is given too, it may be
	// told in fractions of that many parts instead.
	Decimals int `json:"decimals"`
	Parts    int `json:"parts,omitempty"`
}

// Position is one position: a value for each series, null where there is
// none, and 12 numbers for each body, its turn by rows and then its shift.
type MotionSample struct {
	At     float64    `json:"at"`
	Values []*float64 `json:"values"`
	Frames []float64  `json:"frames"`
}

const (
	// inchDecimals tell 1/64 in from the next.
	inchDecimals = 3
	// spareDecimals are told beyond those that are shown, so that what lies
	// between two positions is rounded only once.
	spareDecimals = 3
	// frameWithin is how far, in sizes of the run, rounding a frame may move a
	// place along each direction: a twentieth of what a course leaves out.
	frameWithin = 1e-6
)

// CourseOf returns a course for a page. Its figures are rounded to what
// can be seen there; where the control is, is not.
func CourseOf(result *solve.Result, sweep *solve.Sweep, course *solve.Course) Course {
	c := Course{
		Control: figure.Clean(sweep.Control.Name), Unit: sweep.Unit, Low: sweep.Low, High: sweep.High,
		Plus: figure.Clean(sweep.Control.Plus), Minus: figure.Clean(sweep.Control.Minus),
		Series: SeriesOf(result, sweep), Samples: []MotionSample{},
	}
	turn, shift := frameDecimals(result.Run)
	for _, p := range course.Samples {
		at := SampleOf(p)
		for i, v := range at.Values {
			if v != nil {
				rounded := roundTo(*v, c.Series[i].Decimals+spareDecimals)
				at.Values[i] = &rounded
			}
		}
		for i, v := range at.Frames {
			decimals := turn
			if i%frameNumbers >= turnNumbers {
				decimals = shift
			}
			at.Frames[i] = roundTo(v, decimals)
		}
		c.Samples = append(c.Samples, at)
	}
	return c
}

// A frame is written as so many numbers, those of its turn first.
const (
	frameNumbers = 12
	turnNumbers  = 9
)

// PositionOf returns one position for a page, in full.
func SampleOf(p solve.PoseSample) MotionSample {
	at := MotionSample{At: p.At, Values: append([]*float64{}, p.Values...), Frames: []float64{}}
	for i := range p.Frames {
		f := &p.Frames[i]
		at.Frames = append(append(at.Frames, f.Turn[:]...), f.Shift.X, f.Shift.Y, f.Shift.Z)
	}
	return at
}

// frameDecimals returns how many decimals the turn and the shift of a frame
// take so that no place of the run moves farther than frameWithin.
func frameDecimals(run *linkage.Run) (turn, shift int) {
	const half = 0.5 // of its last decimal is how far a number is rounded at most
	size := run.Size()
	within := frameWithin * size / 2
	reach := 0.0
	for _, part := range run.Parts {
		for _, s := range drawnPlaces(part) {
			reach = max(reach, math.Abs(s.at.X)+math.Abs(s.at.Y)+math.Abs(s.at.Z)+2*s.radius)
		}
	}
	return decimalsFor(within / max(half*reach, size)), decimalsFor(within / half)
}

// decimalsFor returns how many decimals it takes to tell steps apart.
func decimalsFor(step float64) int {
	const most = 15 // of a number about 1: there are no more
	return min(most, max(0, -elementary.Decade(step)))
}

// roundTo rounds to decimals, without a negative zero.
func roundTo(v float64, decimals int) float64 {
	unit := math.Pow10(decimals)
	r := math.Round(v*unit) / unit
	switch {
	case math.IsInf(v*unit, 0):
		return v
	case r == 0:
		return 0
	}
	return r
}

// SeriesOf returns the series of a sweep for a page.
func SeriesOf(result *solve.Result, sweep *solve.Sweep) []Series {
	list := []Series{}
	for i, s := range sweep.Series() {
		one := Series{
			ID: "s" + figure.Decimal(float64(i), 0), Kind: string(s.Kind), Name: figure.Clean(s.Name),
			Label: figure.Clean(seriesLabel(result, sweep, s)), Unit: s.Unit, Decimals: seriesDecimals(sweep, s),
		}
		if s.Unit == linkage.Inches {
			one.Parts = figure.InchParts
		}
		list = append(list, one)
	}
	return list
}

// seriesLabel puts in words what a series is.
func seriesLabel(result *solve.Result, sweep *solve.Sweep, s solve.Series) string {
	switch s.Kind {
	case solve.SeriesOutput:
		return s.Name + " (output)"
	case solve.SeriesRatio:
		return s.Name + " to " + sweep.Control.Name + " (ratio)"
	case solve.SeriesRodAngle:
		return s.Name + " to " + drivenBy(sweep, s.Rod) + " (rod angle)"
	case solve.SeriesTilt:
		end := s.Rod.From
		if s.End == "to" {
			end = s.Rod.To
		}
		return s.Name + " at " + end.String() + " (tilt)"
	case solve.SeriesNeeded:
		return "length that " + s.Name + " would need"
	case solve.SeriesTension:
		return "tension of " + s.Name
	case solve.SeriesFree:
		return freeWords(sweep, s.Pair)
	case solve.SeriesStop:
		return "gap to " + s.Name
	case solve.SeriesRequirement:
		return render.RequirementTitle(result, s.Requirement)
	}
	return s.Name
}

// drivenBy names the part that a rod drives.
func drivenBy(sweep *solve.Sweep, rod *linkage.Rod) string {
	for _, r := range sweep.Rods {
		if r.Rod == rod {
			return r.Angle.Part
		}
	}
	return rod.To.Owner()
}

// seriesDecimals returns how many decimals of a series are of use.
func seriesDecimals(sweep *solve.Sweep, s solve.Series) int {
	switch {
	case s.Unit == linkage.Inches:
		return inchDecimals
	case s.Kind != solve.SeriesRatio:
		return figure.UsualDecimals(s.Unit)
	}
	decimals := figure.UsualDecimals(s.Unit)
	for _, t := range sweep.Outputs {
		if t.Output == s.Output && t.Ratio.Most != nil {
			decimals = figure.RatioDecimals(*t.Ratio.Most)
		}
	}
	return decimals
}
