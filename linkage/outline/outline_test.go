package outline

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
)

// flaps is a lever between the seats, a rod and a flap.
func flaps() (*Outline, []Entry) {
	o := &Outline{
		Title: "Flap lever", Units: linkage.Millimeters, View: FromRight, Datum: "shaft",
		Airframe: []Place{{Name: "shaft", X: "0", Y: "0"}, {Name: "hinge", X: "-600", Y: "40"}},
		Parts: []Part{
			{Name: "lever", Kind: Turns, On: "airframe.shaft", Holes: []Place{{"hand", "90", "260", ""}, {"horn", "-20", "-45", ""}}},
			{Name: "flap", Kind: Turns, On: "airframe.hinge", Holes: []Place{{"horn", "-615", "-20", "12"}, {"tip", "-880", "20", ""}}},
		},
		Rods:    []Rod{{"push-rod", "lever.horn", "flap.horn"}},
		Control: Control{Of: "lever", Plus: "pulled back", Low: "0", High: "46"},
		Output:  Output{Of: "flap", Plus: "down", Low: "0", High: "38"},
		Sense:   Sense{"lever.hand", linkage.Aft, "flap.tip", linkage.Down},
	}
	return o, []Entry{
		{linkage.Gauged, "lever.horn", "lever.hand", "70", ""},
		{linkage.Taped, "airframe.shaft", "lever.horn", "49 1/2", "0.5"},
		{linkage.Taped, "airframe.shaft", "airframe.hinge", "", ""},
	}
}

func TestWhatIsWrittenReads(t *testing.T) {
	o, entries := flaps()
	w := Write(o, entries, "require \"misalignment\" { most = 10 }\n")
	require.Empty(t, w.Faults)
	assert.Empty(t, w.Left)
	run, err := linkage.Read(&linkage.Source{Name: "flaps.hcl", Text: []byte(w.Text)})
	require.NoError(t, err, w.Text)
	assert.Equal(t, "Flap lever", run.Name)
	assert.InDelta(t, 30, run.Sketch, 0)
	assert.Len(t, run.Measurements, 3)
	assert.True(t, run.Measurements[2].Blank)
	assert.InDelta(t, 49.5, run.Measurements[1].Is, 0)
	assert.Equal(t, "datum.shaft", run.Measurements[1].From.String())
	assert.Equal(t, []string{"sense", "travel", "over-center", "rod-angle", "stops", "misalignment"}, kinds(run))
	assert.InDelta(t, -46, run.Controls[0].From, 0)
	assert.InDelta(t, 92, run.Controls[0].To, 0)
}

func kinds(run *linkage.Run) (list []string) {
	for _, q := range run.Requirements {
		list = append(list, string(q.Kind))
	}
	return list
}

func TestWhatIsWrittenIsTakenUpAgain(t *testing.T) {
	o, entries := flaps()
	tail := "\n# mine\nrequire \"misalignment\" { most = 10 }\n"
	w := Write(o, entries, tail)
	again, taped, below, err := Read([]byte(w.Text))
	require.NoError(t, err)
	assert.Equal(t, tail, below)
	assert.Equal(t, w.Text, Write(again, taped, below).Text)
	entries[1].Is = "49 + 1/2" // as a file writes it
	assert.Equal(t, entries, taped)
	assert.Equal(t, o, again)
}

// A slide's angle may be of brackets, and a part may turn on a hole of one that stands below it.
func TestWhateverOrderAndFigures(t *testing.T) {
	o, _ := flaps()
	o.Parts = append([]Part{
		{"tube", Slides, "idler.end", "(10 + 5) * 2", []Place{{"a", "5", "6", ""}}},
		{"idler", Turns, "lever.horn", "", []Place{{"end", "25", "16", ""}}},
	}, o.Parts...)
	w := Write(o, nil, "")
	require.Empty(t, w.Faults)
	assert.Empty(t, w.Left)
	again, _, _, err := Read([]byte(w.Text))
	require.NoError(t, err)
	assert.Equal(t, o, again)

	o.Parts[2].Holes[1].X = "" // on which the idler turns, whose end carries the tube
	w = Write(o, nil, "")
	require.Empty(t, w.Faults)
	run, err := linkage.Read(&linkage.Source{Name: "flaps.hcl", Text: []byte(w.Text)})
	require.NoError(t, err, w.Text)
	assert.Len(t, run.Parts, 4) // what is fixed, twice, the lever and the flap
	assert.Contains(t, w.Left, "tube waits for idler.end, which is not placed yet")

	o, _ = flaps()
	o.Parts[0].On, o.Parts[1].On = "flap.horn", "lever.horn"
	assert.NotEmpty(t, Write(o, nil, "").Faults, "each turns on the other")
	o.Parts[0].On = "lever.horn"
	assert.NotEmpty(t, Write(o, nil, "").Faults, "it turns on itself")
}

// What is half told is told of: it is not dropped.
func TestWhatIsToldByHalf(t *testing.T) {
	o, _ := flaps()
	o.Output.Low = ""
	w := Write(o, nil, "")
	assert.NotContains(t, w.Text, "\"travel\"")
	assert.Contains(t, w.Left, "how far flap is to go is told to one side only, so it can't be judged")
	o.Output.Low, o.Control.Low, o.Control.High = "0", "", "-46"
	assert.Equal(t, []Fault{{"control.high", "the stops stand on both sides of neutral: the low one at 0 or below, the high one at 0 or above"}}, Write(o, nil, "").Faults)

	for _, c := range []struct {
		at     string
		change func(o *Outline)
	}{
		{"output.high", func(o *Outline) { o.Output.Low = "40" }},
		{"sense.place", func(o *Outline) { o.Sense.Place = "airframe.hinge" }},
		{"sense.then", func(o *Outline) { o.Sense.Then = "airframe.shaft" }},
		{"control.name", func(o *Outline) { o.Rods[0].Name = "lever-control-low" }},
	} {
		o, _ := flaps()
		c.change(o)
		faults := Write(o, nil, "").Faults
		require.Len(t, faults, 1, c.at)
		assert.Equal(t, c.at, faults[0].At)
	}
}

func TestATextChangedByHandIsNotTakenUp(t *testing.T) {
	o, entries := flaps()
	text := Write(o, entries, "").Text
	for name, changed := range map[string]string{
		"a comment":   strings.Replace(text, "part \"lever\" {", "part \"lever\" { # mine", 1),
		"a part more": strings.Replace(text, "\nrod \"push-rod\"", "\ncable \"c\" {\n}\nrod \"push-rod\"", 1),
		"no run":      strings.Replace(text, "units", "unit", 1),
		"another end": strings.Replace(text, Foot, "# gone", 1),
		"another":     "run \"x\" {}\n",
		"empty":       "",
	} {
		_, _, _, err := Read([]byte(changed))
		assert.Error(t, err, name)
	}
	filled := strings.Replace(text, "is     = blank", "is     = 601.5", 1)
	_, entries, _, err := Read([]byte(filled))
	require.NoError(t, err, "a blank filled in by hand is what it is for")
	assert.Equal(t, "601.5", entries[2].Is)
	tail := text + "require \"misalignment\" { most = 5 }\n"
	_, _, below, err := Read([]byte(tail))
	require.NoError(t, err)
	assert.Equal(t, "require \"misalignment\" { most = 5 }\n", below)
}

func TestFaultsStandAtTheirFields(t *testing.T) {
	o, entries := flaps()
	o.Title = " "
	o.View = "below"
	o.Parts[0].Name = "my lever"
	o.Parts[1].Holes[1].Name = "horn"
	o.Parts[1].Holes[0].X = "6oo"
	o.Rods[0].To = "flap.nose"
	o.Control.High = "up"
	entries[1].Is = "1,250"
	w := Write(o, entries, "")
	assert.Empty(t, w.Text)
	var at []string
	for _, f := range w.Faults {
		at = append(at, f.At)
	}
	assert.Subset(t, at, []string{"title", "view", "parts.0.name", "parts.1.holes.1.name", "parts.1.holes.0.x", "rods.0.to", "control.of"})
}

func TestWhatIsNotPlacedIsLeftOut(t *testing.T) {
	o, entries := flaps()
	o.Airframe[1].X = ""
	w := Write(o, entries, "")
	require.Empty(t, w.Faults)
	assert.Contains(t, w.Left, "airframe.hinge is not placed yet")
	assert.Contains(t, w.Left, "the rod push-rod waits for a hole that is not placed yet")
	run, err := linkage.Read(&linkage.Source{Name: "flaps.hcl", Text: []byte(w.Text)})
	require.NoError(t, err, w.Text)
	assert.Len(t, run.Parts, 2) // the datum and the lever
	assert.Empty(t, run.Rods)
	assert.Len(t, run.Measurements, 2)
}

func TestPlacesAreToldFromTheDatum(t *testing.T) {
	o, entries := flaps()
	o.Airframe[0].X, o.Airframe[0].Y = "100", "-50.5"
	w := Write(o, entries, "")
	require.Empty(t, w.Faults)
	assert.Contains(t, w.Text, "hand = [-10, 310.5]")
	assert.Contains(t, w.Text, "points = { shaft = [0, 0] }")
}

// TestHuntOutlines writes outlines of anything: what has no fault reads as a run, and is
// taken up as it was.
func TestHuntOutlines(t *testing.T) {
	words := []string{"", "lever", "flap", "horn", "shaft", "airframe.shaft", "lever.horn", "flap.horn", "datum", "airframe", "a b", "x", "\"", "${x}", "%{if}", "{", "}\n", "é", "7 1/4", "7,5", "1,250", "-12", "1/0", "0", "1e300", "blank", "aft", "up", "turns", "slides", "held", "left", "mm", "in", Foot, "#"}
	hunt.Each(t, 800, func(t *testing.T, random *rand.Rand) {
		pick := func(usual string) string {
			if random.IntN(12) > 0 {
				return usual
			}
			return words[random.IntN(len(words))]
		}
		o, entries := flaps()
		text, err := json.Marshal(o)
		require.NoError(t, err)
		var any map[string]any
		require.NoError(t, json.Unmarshal(text, &any))
		changed, err := json.Marshal(shaken(any, pick))
		require.NoError(t, err)
		*o = Outline{}
		require.NoError(t, json.Unmarshal(changed, o))
		for i := range entries {
			entries[i].From, entries[i].To, entries[i].Is, entries[i].Within = pick(entries[i].From), pick(entries[i].To), pick(entries[i].Is), pick(entries[i].Within)
		}
		w := Write(o, entries, "")
		if w.Text == "" {
			assert.NotEmpty(t, w.Faults, string(changed))
			return
		}
		_, err = linkage.Read(&linkage.Source{Name: "x.hcl", Text: []byte(w.Text)})
		if err != nil {
			return // what the reader tells is told as it is
		}
		again, taped, _, err := Read([]byte(w.Text))
		if assert.NoError(t, err, w.Text) {
			assert.Equal(t, w.Text, Write(again, taped, "").Text)
		}
	})
}

// shaken changes texts somewhere in a value.
func shaken(v any, pick func(string) string) any {
	switch v := v.(type) {
	case string:
		return pick(v)
	case []any:
		for i := range v {
			v[i] = shaken(v[i], pick)
		}
	case map[string]any:
		for _, k := range sortedKeys(v) {
			v[k] = shaken(v[k], pick)
		}
	}
	return v
}

func sortedKeys(m map[string]any) (keys []string) {
	for _, k := range []string{"title", "units", "view", "sketch", "uncertain", "datum", "airframe", "parts", "rods", "control", "output", "sense", "name", "x", "y", "z", "kind", "on", "angle", "holes", "from", "to", "of", "plus", "minus", "low", "high", "within", "place", "goes", "then", "is"} {
		if _, has := m[k]; has {
			keys = append(keys, k)
		}
	}
	if len(keys) != len(m) {
		panic(fmt.Sprint("a field of an outline that this test doesn't know: ", m))
	}
	return keys
}
