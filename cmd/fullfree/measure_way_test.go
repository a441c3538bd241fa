package main

import (
	"bytes"
	"encoding/json"
	"image"
	_ "image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/linkage/outline"
	"fullfree/solve/photo/sample"
)

// known is a run that stands before a camera: where its places are, and their depth.
var known = map[string][3]float64{
	"airframe.shaft": {0, 0, 0}, "airframe.hinge": {-600, 40, 20}, "lever.hand": {90, 260, 0}, "lever.horn": {-17.1, -46.98, 10},
	"flap.horn": {-615.53, -17.96, 10}, "flap.tip": {-880, 20, -40},
}

// knownNames are its places in order.
var knownNames = []string{"airframe.shaft", "airframe.hinge", "lever.hand", "lever.horn", "flap.horn", "flap.tip"}

// knownOutline is the run as a form holds it, nothing of it placed.
func knownOutline() *outline.Outline {
	return &outline.Outline{
		Title: "Flap lever", Units: linkage.Millimeters, View: outline.FromRight, Datum: "shaft",
		Airframe: []outline.Place{{Name: "shaft"}, {Name: "hinge"}},
		Parts: []outline.Part{
			{Name: "lever", Kind: outline.Turns, On: "airframe.shaft", Holes: []outline.Place{{Name: "hand"}, {Name: "horn"}}},
			{Name: "flap", Kind: outline.Turns, On: "airframe.hinge", Holes: []outline.Place{{Name: "horn"}, {Name: "tip"}}},
		},
		Rods:    []outline.Rod{{Name: "push-rod", From: "lever.horn", To: "flap.horn"}},
		Control: outline.Control{Of: "lever", Plus: "pulled back", Low: "0", High: "46"},
		Output:  outline.Output{Of: "flap", Plus: "down", Low: "0", High: "38"},
		Sense:   outline.Sense{Place: "lever.hand", Goes: linkage.Aft, Then: "flap.tip", Is: linkage.Down},
	}
}

// hand is somebody with a phone, a tape and a level, who errs as people do.
type hand struct {
	*rand.Rand
	t    *testing.T
	desk *calls.Desk
}

// ask asks what a page asks.
func (h hand) ask(call string, body, into any) {
	h.t.Helper()
	text, err := json.Marshal(body)
	require.NoError(h.t, err)
	a := h.desk.Answer(call, text)
	require.Equal(h.t, calls.Done, a.Status, string(a.Body))
	require.NoError(h.t, json.Unmarshal(a.Body, into))
}

// reads is what the tape or the level reads; within is two standard deviations of it.
func (h hand) reads(kind, from, to string, within float64) string {
	a, b := known[from], known[to]
	is := math.Sqrt(math.Pow(b[0]-a[0], 2) + math.Pow(b[1]-a[1], 2) + math.Pow(b[2]-a[2], 2))
	if kind == "gauged" {
		is = math.Atan2(b[1]-a[1], b[0]-a[0]) * 180 / math.Pi
	}
	return strconv.FormatFloat(is+h.NormFloat64()*within/2, 'f', 1, 64)
}

// center is where a marked hole is in a picture, near about where it is seen.
func center(t *testing.T, of image.Image, x, y, reach float64) (float64, float64) {
	t.Helper()
	const dark = 90 << 8
	sumX, sumY, n := 0.0, 0.0, 0.0
	for py := int(y - reach); py <= int(y+reach); py++ {
		for px := int(x - reach); px <= int(x+reach); px++ {
			if gray, _, _, _ := of.At(px, py).RGBA(); gray < dark {
				sumX, sumY, n = sumX+float64(px)+0.5, sumY+float64(py)+0.5, n+1
			}
		}
	}
	require.Positive(t, n, "no hole is seen there")
	return sumX / n, sumY / n
}

// camera is a phone as it is held by hand.
func (h hand) camera() sample.Camera {
	return sample.Camera{
		Width: 4032, Height: 3024, Lens: 24 + 6*h.Float64(), Away: 1600 + 900*h.Float64(),
		Yaw: 4 * h.NormFloat64(), Pitch: 4 * h.NormFloat64(), Roll: 1.5 * h.NormFloat64(), Barrel: 0.003 * h.NormFloat64(),
		LooksX: -395 + 40*h.NormFloat64(), LooksY: 100 + 40*h.NormFloat64(),
	}
}

// scene is the run as it stands before it.
func scene() sample.Scene {
	s := sample.Scene{RodWide: 12, Rods: [][2]int{{3, 4}, {0, 2}, {0, 3}, {1, 4}, {1, 5}}}
	for _, name := range knownNames {
		at := known[name]
		s.Holes = append(s.Holes, sample.Hole{X: at[0], Y: at[1], Depth: at[2], Radius: 9})
	}
	return s
}

// pickAndTape takes the outline's places from a photograph of a camera, by what is picked on
// it, four taped distances and a gauged direction, and returns them, how far each place may be
// out, two standard deviations, and what was read.
func (h hand) pickAndTape(o *outline.Outline, c sample.Camera, picture image.Image, depths bool) (places map[string][2]float64, within map[string]float64, read []outline.Entry) {
	h.t.Helper()
	type pick struct {
		Place string  `json:"place"`
		X     float64 `json:"x"`
		Y     float64 `json:"y"`
		Depth string  `json:"depth"`
	}
	asked := struct {
		Units    string              `json:"units"`
		Width    float64             `json:"width"`
		Height   float64             `json:"height"`
		Datum    string              `json:"datum"`
		Picks    []pick              `json:"picks"`
		Tapes    []map[string]string `json:"tapes"`
		Levels   []map[string]string `json:"levels"`
		Distance string              `json:"distance"`
	}{Units: "mm", Width: c.Width, Height: c.Height, Datum: "airframe.shaft"}
	for _, name := range knownNames {
		at := known[name]
		x, y := c.See(at[0], at[1], at[2])
		if picture != nil {
			x, y = center(h.t, picture, x, y, 14*c.Scale())
		}
		one := pick{Place: name, X: x + h.NormFloat64(), Y: y + h.NormFloat64()}
		if depths {
			one.Depth = strconv.FormatFloat(at[2]+2*h.NormFloat64(), 'f', 0, 64)
		}
		asked.Picks = append(asked.Picks, one)
	}
	for _, pair := range [][2]string{{"airframe.shaft", "airframe.hinge"}, {"lever.hand", "lever.horn"}, {"lever.hand", "flap.tip"}, {"flap.tip", "lever.horn"}} {
		asked.Tapes = append(asked.Tapes, map[string]string{"from": pair[0], "to": pair[1], "is": h.reads("taped", pair[0], pair[1], 1)})
	}
	asked.Levels = append(asked.Levels, map[string]string{"from": "lever.horn", "to": "lever.hand", "is": h.reads("gauged", "lever.horn", "lever.hand", 0.5)})
	asked.Distance = strconv.FormatFloat(c.Away*(1+0.03*h.NormFloat64()), 'f', 0, 64)
	var told struct {
		Faults            []outline.Fault
		Places            []struct{ Place, X, Y, Within string }
		Sketch, Uncertain string
		Says              []string
	}
	h.ask("photo", asked, &told)
	require.Empty(h.t, told.Faults)
	require.Len(h.t, told.Places, len(knownNames))
	o.Sketch, o.Uncertain = told.Sketch, told.Uncertain
	places, within = map[string][2]float64{}, map[string]float64{}
	for _, p := range told.Places {
		places[p.Place], within[p.Place] = [2]float64{number(h.t, p.X), number(h.t, p.Y)}, number(h.t, p.Within)
		put(o, p.Place, p.X, p.Y)
	}
	for i, row := range append(asked.Tapes, asked.Levels...) {
		kind := linkage.Taped
		if i >= len(asked.Tapes) {
			kind = linkage.Gauged
		}
		read = append(read, outline.Entry{Kind: kind, From: row["from"], To: row["to"], Is: row["is"]})
	}
	return places, within, read
}

// put places a place of an outline. How high it lies out of the drawing is told there by
// itself, whether or not it was told to the photograph: distances go through the air.
func put(o *outline.Outline, place, x, y string) {
	at := func(owner string, p *outline.Place) {
		if owner+"."+p.Name == place {
			p.X, p.Y, p.Z = x, y, strconv.FormatFloat(known[place][2], 'f', -1, 64)
		}
	}
	for i := range o.Airframe {
		at("airframe", &o.Airframe[i])
	}
	for i := range o.Parts {
		for k := range o.Parts[i].Holes {
			at(o.Parts[i].Name, &o.Parts[i].Holes[k])
		}
	}
}

// measured is what a page is told of a run that is being measured.
type measured struct {
	Faults  []outline.Fault
	Text    string
	Entries []struct{ Kind, From, To, Is string }
	Places  []struct {
		Name, X, Y, Within string
		Open               bool
	}
	Headline, Mark string
	Left           []string
}

// tape fills in what is asked besides what was read, the most helpful first, as far as most
// goes, so many at a time before it looks again.
func (h hand) tape(o *outline.Outline, read []outline.Entry, most, atOnce int) (told measured) {
	h.t.Helper()
	asked := struct {
		Outline *outline.Outline `json:"outline"`
		Text    string           `json:"text"`
		Taped   []outline.Entry  `json:"taped"`
	}{Outline: o, Taped: slices.Clone(read)}
	for {
		told = measured{}
		h.ask("measure", asked, &told)
		require.Empty(h.t, told.Faults)
		require.Empty(h.t, told.Left)
		asked.Text = told.Text
		for i, next := range told.Entries {
			if next.Is != "" || len(asked.Taped) == most {
				if i == 0 {
					return told
				}
				break
			}
			if i == atOnce {
				break
			}
			within := 1.0
			if next.Kind == "gauged" {
				within = 0.5
			}
			asked.Taped = append(asked.Taped, outline.Entry{Kind: linkage.MeasurementKind(next.Kind), From: next.From, To: next.To, Is: h.reads(next.Kind, next.From, next.To, within)})
		}
	}
}

// The whole way: a photograph, picked, scaled by four distances, taped, surveyed, judged and
// made a book of.
func TestFromAPhotographToTheBook(t *testing.T) {
	t.Chdir(t.TempDir())
	h := hand{rand.New(rand.NewPCG(20261130, 1)), t, calls.NewDesk()}
	camera := h.camera()
	camera.Yaw, camera.Pitch, camera.Roll, camera.Barrel = 4, -3, 1.5, 0.004
	var file bytes.Buffer
	require.NoError(t, camera.JPEG(&file, scene()))
	picture, _, err := image.Decode(&file)
	require.NoError(t, err)

	o := knownOutline()
	places, within, read := h.pickAndTape(o, camera, picture, true)
	for name, at := range places {
		off := math.Max(math.Abs(at[0]-known[name][0]), math.Abs(at[1]-known[name][1]))
		assert.LessOrEqual(t, off, within[name]+0.1, name)
		assert.Less(t, within[name], 25.0, "of a run of a meter")
	}

	// Nothing that is only picked is told as sure.
	picked := h.tape(o, nil, 0, 1)
	require.NoError(t, os.WriteFile("picked.hcl", []byte(picked.Text), 0o644))
	got := fullfree("", "check", "picked.hcl")
	assert.Contains(t, got.err, "is still blank")
	bare, _, _, err := outline.Read([]byte(picked.Text))
	require.NoError(t, err)
	none := outline.Write(bare, nil, "").Text
	for _, q := range judged(t, none) {
		assert.False(t, q.Sure != nil && *q.Sure, q.Kind)
	}

	told := h.tape(o, read, math.MaxInt, 1)
	assert.Equal(t, "holds", told.Mark, told.Headline)
	require.NoError(t, os.WriteFile("flap-lever.hcl", []byte(told.Text), 0o644))
	assert.Equal(t, exitOK, fullfree("", "survey", "flap-lever.hcl").status)
	got = fullfree("", "check", "flap-lever.hcl")
	assert.Equal(t, exitOK, got.status, got.out+got.err)
	assert.Contains(t, got.out, "HOLDS")
	assert.Equal(t, exitOK, fullfree("", "report", "flap-lever.hcl", "-o", "book.html").status)
	assert.Equal(t, []string{"book.html", "flap-lever.hcl", "picked.hcl"}, names(t, "."))
}

// Of many photographs by many hands, places lie within what is stated 19 times of 20: as
// picked, with some distances taped, and with all.
func TestPlacesLieWithinWhatIsStated(t *testing.T) {
	const draws = 60
	for _, depths := range []bool{true, false} {
		in, all := map[string]int{}, map[string]int{}
		count := func(when, name string, x, y, within float64) {
			all[when] += 2
			for axis, v := range []float64{x, y} {
				if math.Abs(v-known[name][axis]) <= within+0.05 { // as it is rounded
					in[when]++
				}
			}
		}
		for draw := range draws {
			h := hand{rand.New(rand.NewPCG(uint64(draw), 7)), t, calls.NewDesk()}
			o := knownOutline()
			places, within, read := h.pickAndTape(o, h.camera(), nil, depths)
			for name, at := range places {
				if name != "airframe.shaft" {
					count("picked", name, at[0], at[1], within[name])
				}
			}
			for _, steps := range []int{9, math.MaxInt} {
				when := "some taped"
				if steps == math.MaxInt {
					when = "all taped"
				}
				for _, p := range h.tape(o, read, steps, math.MaxInt).Places {
					if within, err := strconv.ParseFloat(p.Within, 64); err == nil {
						count(when, p.Name, number(t, p.X), number(t, p.Y), within)
					}
				}
			}
		}
		for when, n := range all {
			share := float64(in[when]) / float64(n)
			t.Logf("depths told %v, %s: %.1f%% of %d", depths, when, 100*share, n)
			assert.GreaterOrEqual(t, share, 0.95, "depths told %v, %s", depths, when)
		}
	}
}
