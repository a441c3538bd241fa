package calls_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage/outline"
	"fullfree/solve/photo/sample"
)

// photoAsked is what a page asks of a photograph.
type photoAsked struct {
	Units    string              `json:"units"`
	Width    float64             `json:"width"`
	Height   float64             `json:"height"`
	Datum    string              `json:"datum"`
	Picks    []map[string]any    `json:"picks"`
	Tapes    []map[string]string `json:"tapes"`
	Levels   []map[string]string `json:"levels"`
	Distance string              `json:"distance"`
}

type photoTold struct {
	Faults                  []outline.Fault
	Places                  []struct{ Place, X, Y, Within string }
	Sketch, Uncertain, Mark string
	Says                    []string
}

func askPhoto(t *testing.T, of photoAsked) (told photoTold) {
	t.Helper()
	body, err := json.Marshal(of)
	require.NoError(t, err)
	a := calls.NewDesk().Answer("photo", body)
	require.Equal(t, calls.Done, a.Status, string(a.Body))
	require.NoError(t, json.Unmarshal(a.Body, &told))
	return told
}

// seen is the flap lever on a photograph of a camera.
func seen(t *testing.T, c sample.Camera, datum string) photoAsked {
	t.Helper()
	of := photoAsked{Units: "mm", Width: c.Width, Height: c.Height, Datum: datum}
	for _, name := range []string{"airframe.shaft", "airframe.hinge", "lever.hand", "lever.horn", "flap.horn", "flap.tip"} {
		x, y := c.See(flapTruth[name][0], flapTruth[name][1], 0)
		of.Picks = append(of.Picks, map[string]any{"place": name, "x": x, "y": y, "depth": "0"})
	}
	return of
}

func TestPhotoTellsWherePicksAre(t *testing.T) {
	camera := sample.Camera{Width: 4032, Height: 3024, Lens: 26, Away: 2000, Yaw: 3, Pitch: -4, LooksX: -400, LooksY: 100}
	of := seen(t, camera, "airframe.shaft")
	told := askPhoto(t, of)
	assert.Empty(t, told.Places)
	assert.Equal(t, "open", told.Mark)
	assert.Contains(t, told.Says[0], "Nothing scales the photo yet")

	for _, pair := range [][2]string{{"airframe.shaft", "airframe.hinge"}, {"lever.hand", "lever.horn"}, {"lever.hand", "flap.tip"}, {"flap.tip", "lever.horn"}} {
		of.Tapes = append(of.Tapes, map[string]string{"from": pair[0], "to": pair[1], "is": fmt.Sprintf("%.1f", truly("taped", pair[0], pair[1])), "within": ""})
		told = askPhoto(t, of)
		require.Empty(t, told.Faults)
		require.Len(t, told.Places, len(of.Picks))
		assert.Equal(t, "holds", told.Mark, told.Says)
		for _, p := range told.Places {
			var x, y, within float64
			fmt.Sscan(p.X, &x)
			fmt.Sscan(p.Y, &y)
			fmt.Sscan(p.Within, &within)
			want := flapTruth[p.Place]
			assert.LessOrEqual(t, math.Max(math.Abs(x-want[0]), math.Abs(y-want[1])), within+0.1, p.Place)
		}
	}
	assert.Contains(t, told.Says[0], "none of them surely")

	of.Tapes[1]["is"] = "425.1" // 100 too long
	told = askPhoto(t, of)
	assert.Equal(t, "short", told.Mark)
	assert.Contains(t, told.Says[0], "disagrees with the rest")
}

func TestPhotoTellsWhatIsWrongAtItsField(t *testing.T) {
	of := seen(t, sample.Camera{Width: 4032, Height: 3024, Lens: 26, Away: 2000, LooksX: -400, LooksY: 100}, "")
	of.Picks[1]["depth"] = "near"
	of.Tapes = []map[string]string{{"from": "flap.tip", "to": "nowhere", "is": "5"}, {"from": "flap.tip", "to": "flap.horn", "is": "1,250"}}
	of.Distance = "2 m"
	told := askPhoto(t, of)
	var at []string
	for _, f := range told.Faults {
		at = append(at, f.At)
	}
	assert.ElementsMatch(t, []string{"picks.1.depth", "tapes.1.is", "distance"}, at)
	for _, body := range []string{``, `{}`, `null`, `{"picks":[{}],"tapes":[{}]}`, `{"units":"in","width":1e300,"picks":[{"place":"a","x":1}],"tapes":[{"from":"a","to":"a","is":"1"}]}`} {
		assert.NotEqual(t, calls.Failed, calls.NewDesk().Answer("photo", []byte(body)).Status, body)
	}
}

// How far the camera may have leaned nothing but a gauged direction tells, so what is taken for
// granted of it is said; one that leaned farther than that doesn't go with what is gauged.
func TestPhotoTellsWhatIsTakenOfTheLean(t *testing.T) {
	const taken = "The camera is taken as held level, to 5° either way."
	for _, roll := range []float64{0, 40} {
		of := seen(t, sample.Camera{Width: 4032, Height: 3024, Lens: 26, Away: 2500, LooksX: -400, LooksY: 100, Roll: roll}, "airframe.shaft")
		of.Tapes = []map[string]string{{"from": "lever.hand", "to": "flap.tip", "is": fmt.Sprintf("%.1f", truly("taped", "lever.hand", "flap.tip"))}}
		assert.Contains(t, askPhoto(t, of).Says, taken, roll)
		of.Levels = []map[string]string{{"from": "lever.horn", "to": "lever.hand", "is": fmt.Sprintf("%.1f", truly("gauged", "lever.horn", "lever.hand"))}}
		told := askPhoto(t, of)
		assert.NotContains(t, told.Says, taken, roll)
		assert.Equal(t, roll == 0, told.Mark == "holds" && len(told.Faults) == 0, roll)
	}
}
