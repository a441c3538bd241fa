//go:build browser

package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	cdpinput "github.com/chromedp/cdproto/input"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve/photo/sample"
)

// flapPlaces are the places of the flap lever in the order in which they are picked.
var flapPlaces = []string{"airframe.lever-pivot", "lever.hand", "lever.horn", "airframe.flap-pivot", "flap.horn", "flap.tip"}

// flapPhoto takes a photograph of the flap lever with a phone that isn't held quite square,
// and returns where each place is in it, as a share of its width and height.
func flapPhoto(t *testing.T, path string) map[string][2]float64 {
	t.Helper()
	camera := sample.Phone(1600)
	camera.Yaw, camera.Pitch, camera.Roll, camera.Barrel = 3, -4, 1.2, 0.003
	camera.Lens, camera.LooksX, camera.LooksY = 52, 270, 80 // zoomed in
	s := sample.Scene{RodWide: 10, Rods: [][2]int{{1, 2}, {2, 4}, {3, 4}, {3, 5}}}
	seen := map[string][2]float64{}
	for _, name := range flapPlaces {
		at := flapLever[name]
		s.Holes = append(s.Holes, sample.Hole{X: at[0], Y: at[1], Radius: 8})
		x, y := camera.See(at[0], at[1], 0)
		seen[name] = [2]float64{x / camera.Width, y / camera.Height}
	}
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, camera.JPEG(f, s))
	require.NoError(t, f.Close())
	return seen
}

// pickOnPhoto puts a place of the form by a finger on the photo, of which it is a share of
// width and height.
func (h hands) pickOnPhoto(place string, at [2]float64) {
	h.t.Helper()
	h.tapAt(h.onPhoto(place, at))
	h.settle()
}

// hold is pickOnPhoto with the finger still down.
func (h hands) hold(place string, at [2]float64) {
	h.t.Helper()
	h.fingers(cdpinput.DispatchTouchEventTypeTouchStart, h.onPhoto(place, at))
	h.settle()
}

// onPhoto chooses a place and returns where on the screen it is in the photo.
func (h hands) onPhoto(place string, at [2]float64) [2]float64 {
	h.t.Helper()
	const sheet = `#photo-sheet [data-touch="sheet"]`
	found[bool](h.tab, fmt.Sprintf(`((list) => { list.value = %q; list.dispatchEvent(new Event("change")); return true; })(document.querySelector('#photo-sheet [data-touch="place"]'))`, place))
	box := h.box(sheet)
	const wide, high = 4.0, 3.0
	scale := math.Min(box.Width/wide, box.Height/high)
	mid := box.middle()
	return [2]float64{mid[0] + scale*wide*(at[0]-0.5), mid[1] + scale*high*(at[1]-0.5)}
}

// showPhoto goes to the photo's part of the form with a photograph of the flap lever.
func (h hands) showPhoto() map[string][2]float64 {
	h.t.Helper()
	path := filepath.Join(h.t.TempDir(), "flaps.jpg")
	seen := flapPhoto(h.t, path)
	h.step(4)
	h.push(`[data-way="photo"]`)
	h.tab.choose(path)
	h.notes("flaps.jpg lies under the sketch.")
	for _, name := range flapPlaces {
		h.pickOnPhoto(name, seen[name])
	}
	return seen
}

// From a photograph to the book, by touch on a phone: picked, scaled by four distances, taped,
// surveyed, judged, and made a book of.
func TestMeasureFromAPhotographToTheBook(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 360)
	b.openPage(address)
	h := hands{b, true}
	b.tap(`.tabs > [data-part="measure"]`)
	h.nameParts()
	h.showPhoto()
	for i, pair := range [][2]string{{"airframe.lever-pivot", "airframe.flap-pivot"}, {"lever.hand", "lever.horn"}, {"lever.hand", "flap.tip"}, {"flap.tip", "lever.horn"}} {
		b.fill("photo-tapes", i, "from", pair[0])
		b.fill("photo-tapes", i, "to", pair[1])
		b.fill("photo-tapes", i, "is", reads(t, "taped "+pair[0]+" to "+pair[1]))
	}
	for i := range flapPlaces {
		b.fill("photo-picks", i, "depth", "0") // all in one plane
	}
	b.until(`!document.getElementById("photo-use").disabled`)
	assert.Contains(t, found[string](b, `document.getElementById("photo-says").textContent`), "none of them surely")
	b.fits(360)
	h.push("#photo-use")
	h.tellMotion()

	// As picked, every place lies within what is stated.
	h.step(4)
	h.push(`[data-way="typed"]`)
	for at, name := range map[string]string{"parts.0.holes.0": "lever.horn", "parts.0.holes.1": "lever.hand", "airframe.1": "airframe.flap-pivot", "parts.1.holes.0": "flap.horn", "parts.1.holes.1": "flap.tip"} {
		for axis, of := range []string{"x", "y"} {
			value, err := strconv.ParseFloat(found[string](b, fmt.Sprintf("document.querySelector(%q).value", field(at+"."+of))), 64)
			require.NoError(t, err)
			const stated = 45 // millimeters at the end of a lever, as long as nothing tells how the camera leaned
			assert.InDelta(t, flapLever[name][axis], value, stated, name)
		}
	}

	h.step(6)
	h.answered()
	assert.Equal(t, 4, found[int](b, `document.querySelectorAll("#measure-done > li").length`), "what scaled the photo is measured already")
	assert.GreaterOrEqual(t, h.tape(30), 5)
	assert.Contains(t, found[string](b, measureHeadline), "AGREE")
	for _, row := range found[[]struct{ Name, X, Y, Within string }](b, `[...document.querySelectorAll("#measure-places > tr")].map((row) => { const cells = [...row.children].map((c) => c.textContent.trim()); return { Name: cells[0], X: cells[1], Y: cells[2], Within: cells[3] }; })`) {
		within, err := strconv.ParseFloat(row.Within, 64)
		if err != nil {
			assert.Equal(t, "exact", row.Within, row.Name)
			continue
		}
		assert.Less(t, within, 8.0, row.Name)
		for name, at := range flapLever {
			if len(row.Name) >= len(name) && row.Name[len(row.Name)-len(name):] == name {
				x, _ := strconv.ParseFloat(row.X, 64)
				y, _ := strconv.ParseFloat(row.Y, 64)
				assert.InDelta(t, at[0], x, within+0.5, name)
				assert.InDelta(t, at[1], y, within+0.5, name)
			}
		}
	}
	h.push("#measure-take")
	b.until(`document.getElementById("run").textContent === "Flap lever" && ` + headline + `.startsWith("HOLDS")`)
	text := found[string](b, `document.getElementById("text").value`)
	assert.Contains(t, text, "uncertain =")
	b.tap(`.tabs > [data-part="paper"]`)
	folder := b.downloads()
	b.tap(`[data-make="book"]`)
	assert.Contains(t, string(b.saved(folder, "flap-lever.html")), "Flap lever")
	b.asksNobody(address)
}
