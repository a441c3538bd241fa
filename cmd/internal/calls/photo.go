package calls

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/linkage/outline"
	"fullfree/render"
	"fullfree/solve/photo"
)

// photographed is what a page asks of places picked on a photograph: the photo itself never
// leaves the page.
type photographed struct {
	Units    linkage.Unit `json:"units"`
	Width    float64      `json:"width"` // in the pixels that picks are in
	Height   float64      `json:"height"`
	Datum    string       `json:"datum"` // a picked place; empty, or another: the first pick
	Picks    []pickJSON   `json:"picks"`
	Tapes    []sightJSON  `json:"tapes"`
	Levels   []sightJSON  `json:"levels"`
	Distance string       `json:"distance"` // from the lens to the plane; empty: not told
}

// pickJSON is a place picked on it, y down.
type pickJSON struct {
	Place string  `json:"place"`
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
	Depth string  `json:"depth"` // nearer to the camera is plus; empty: not told
}

// sightJSON is a distance or a direction between two picked places.
type sightJSON struct {
	From   string `json:"from"`
	To     string `json:"to"`
	Is     string `json:"is"`
	Within string `json:"within"`
}

// photoJSON is where the picked places are, as a page gets it.
type photoJSON struct {
	Faults []outline.Fault  `json:"faults"`
	Places []photoPlaceJSON `json:"places"`
	// Sketch is one standard deviation of every coordinate by itself, so that it covers what
	// all are out by together; Uncertain is two, the largest of any place.
	Sketch    string   `json:"sketch"`
	Uncertain string   `json:"uncertain"`
	Mark      string   `json:"mark"`
	Says      []string `json:"says"`
}

// photoPlaceJSON is a picked place, from the datum, x right and y up.
type photoPlaceJSON struct {
	Place  string `json:"place"`
	X      string `json:"x"`
	Y      string `json:"y"`
	Within string `json:"within"` // two standard deviations
}

// onPhoto is a photo being put together of what is asked.
type onPhoto struct {
	ask    photographed
	told   photoJSON
	photo  photo.Photo
	number map[string]int // of a place's pick
	tapes  []int          // which of the distances that are asked each of the photo's is
	levels []int
	// untold is how many picks are of a depth that isn't told.
	untold int
}

// pictured tells where picked places are.
func pictured(body []byte) Answer {
	p := &onPhoto{told: photoJSON{Faults: []outline.Fault{}, Places: []photoPlaceJSON{}, Says: []string{}, Mark: "open"}, number: map[string]int{}}
	if err := readObject(body, &p.ask); err != nil {
		return Refused(Wrong, "this is not what the page asks: %s", linkage.Printable(err.Error()))
	}
	if p.ask.Units != linkage.Millimeters && p.ask.Units != linkage.Inches {
		p.fault("units", "choose mm or in")
	} else {
		p.read()
	}
	if len(p.told.Faults) == 0 {
		p.adjust()
	}
	return answerJSON(p.told)
}

func (p *onPhoto) fault(at, says string) {
	p.told.Faults = append(p.told.Faults, outline.Fault{At: at, Says: says})
}

// read puts the photo together.
func (p *onPhoto) read() {
	unit := 1.0
	if p.ask.Units == linkage.Inches {
		const inch = 25.4 // mm
		unit = inch
	}
	p.photo = photo.Photo{Width: p.ask.Width, Height: p.ask.Height, Unit: unit}
	for i, pick := range p.ask.Picks {
		one := photo.Pick{X: pick.X, Y: pick.Y}
		if pick.Depth != "" {
			one.Depth, one.DepthKnown = p.figure(fmt.Sprintf("picks.%d.depth", i), pick.Depth, p.ask.Units), true
		} else {
			p.untold++
		}
		if _, twice := p.number[pick.Place]; twice {
			p.fault(fmt.Sprintf("picks.%d.place", i), "this is picked twice")
			continue
		}
		p.number[pick.Place] = len(p.photo.Picks)
		p.photo.Picks = append(p.photo.Picks, one)
	}
	p.photo.Datum = p.number[p.ask.Datum] // the first where it isn't picked
	for i, s := range p.ask.Tapes {
		if one, ok := p.sight("tapes", i, s, linkage.Taped); ok {
			p.photo.Tapes, p.tapes = append(p.photo.Tapes, one), append(p.tapes, i)
		}
	}
	for i, s := range p.ask.Levels {
		if one, ok := p.sight("levels", i, s, linkage.Gauged); ok {
			p.photo.Levels, p.levels = append(p.photo.Levels, photo.Level(one)), append(p.levels, i)
		}
	}
	if p.ask.Distance != "" {
		p.photo.Away = p.figure("distance", p.ask.Distance, p.ask.Units)
	}
}

// figure is what is typed at a field.
func (p *onPhoto) figure(at, typed string, unit linkage.Unit) float64 {
	_, value, says := linkage.Entry(typed, unit)
	if says != "" {
		p.fault(at, says)
	}
	return value
}

// sight is what was measured between two picks; false where it isn't read yet, or one of
// them isn't picked.
func (p *onPhoto) sight(list string, i int, s sightJSON, kind linkage.MeasurementKind) (photo.Distance, bool) {
	from, knowsFrom := p.number[s.From]
	to, knowsTo := p.number[s.To]
	if !knowsFrom || !knowsTo || strings.TrimSpace(s.Is) == "" {
		return photo.Distance{}, false
	}
	at, unit := fmt.Sprintf("%s.%d.", list, i), kind.Unit(p.ask.Units)
	is := p.figure(at+"is", s.Is, unit)
	if s.Within == "" {
		s.Within = outline.UsualWithin(kind, p.ask.Units)
	}
	return photo.Distance{From: from, To: to, Is: is, Within: p.figure(at+"within", s.Within, unit)}, true
}

// adjust finds the places.
func (p *onPhoto) adjust() {
	if len(p.photo.Picks) == 0 {
		p.told.Says = append(p.told.Says, "Pick the holes and pivots on the photo first.")
		return
	}
	found, err := photo.Adjust(p.photo)
	var trouble *photo.Error
	if errors.As(err, &trouble) {
		if trouble.Reason == photo.NothingScales {
			p.told.Says = append(p.told.Says, "Nothing scales the photo yet: tape from one picked hole to another, as far apart as you can, and write it in.")
			return
		}
		p.fault(p.at(trouble), render.PhotoTroubleSays(trouble))
		return
	}
	unit := p.ask.Units
	for i, place := range found.Places {
		p.told.Places = append(p.told.Places, photoPlaceJSON{
			Place: p.ask.Picks[i].Place, X: render.RoughFigure(place.X, unit), Y: render.RoughFigure(place.Y, unit),
			Within: render.UpFigure(2*math.Max(place.SigmaX, place.SigmaY), unit),
		})
	}
	p.told.Sketch, p.told.Uncertain = render.UpFigure(found.Together, unit), render.UpFigure(2*found.Largest, unit)
	lines := make([]string, 0, len(p.tapes))
	for _, i := range p.tapes {
		lines = append(lines, p.ask.Tapes[i].From+" to "+p.ask.Tapes[i].To)
	}
	p.told.Mark, p.told.Says = render.PhotoSays(found, unit, lines, p.untold, p.ask.Distance != "")
}

// at is the field that a trouble is about.
func (p *onPhoto) at(trouble *photo.Error) string {
	switch {
	case trouble.Of == photo.OfPick:
		return fmt.Sprintf("picks.%d.depth", trouble.At)
	case trouble.Of == photo.OfTape && trouble.At < len(p.tapes):
		return fmt.Sprintf("tapes.%d.is", p.tapes[trouble.At])
	case trouble.Of == photo.OfLevel && trouble.At < len(p.levels):
		return fmt.Sprintf("levels.%d.is", p.levels[trouble.At])
	case trouble.Of == photo.OfAway:
		return "distance"
	}
	return ""
}
