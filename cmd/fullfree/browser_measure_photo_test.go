//go:build browser

package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// photoScript begins the photo's part, with an answer that stands in for the program's: it
// tells what it was asked, as late as it is told to.
const photoScript = `
"use strict";
const outline = [
	{ name: "airframe.shaft", letter: "A", pivot: true },
	{ name: "lever.horn", letter: "B", pivot: false },
	{ name: "lever.hand", letter: "C", pivot: false },
	{ name: "flap.horn", letter: "D", pivot: false },
];
const asked = [];
let late = 0;
let taken = null;
let changes = 0;
let state = {};
const bitmaps = [];
const make = window.createImageBitmap.bind(window);
window.createImageBitmap = async (...of) => { const made = await make(...of); bitmaps.push(made); return made; };
async function ask(call, body) {
	asked.push(JSON.parse(JSON.stringify(body)));
	const number = asked.length;
	await new Promise((done) => setTimeout(done, late));
	const faults = body.tapes.flatMap((tape, i) => /[a-z]/.test(tape.is) ? [{ at: "tapes." + i + ".is", says: "\"" + tape.is + "\" is no length." }] : []);
	const scaled = body.tapes.length > 0 && faults.length === 0;
	return { ok: true, said: {
		faults, sketch: scaled ? "3.2" : "", uncertain: scaled ? "6.4" : "", mark: scaled ? "holds" : "open",
		places: scaled ? body.picks.map((pick, i) => ({ place: pick.place, x: (10 * i).toFixed(1), y: (-5 * i).toFixed(1), within: "6.1" })) : [],
		says: [scaled ? "Answer " + number + " to " + body.tapes.length + " distances." : "Nothing scales it yet."],
	} };
}
const part = photoPart({
	ask, state, places: () => outline, lines: () => [{ from: "airframe.shaft", to: "lever.horn", rod: false }, { from: "lever.hand", to: "flap.horn", rod: true }], units: () => "mm",
	datum: () => "airframe.shaft", view: () => "left",
	take(places, sketch, uncertain) { taken = { places, sketch, uncertain }; },
	changed() { changes++; localStorage.setItem("photo test", JSON.stringify(state)); },
	announce(words) { document.getElementById("told").textContent = words; },
});
async function again() {
	state = JSON.parse(localStorage.getItem("photo test"));
	await part.restore(state);
}
const live = () => bitmaps.filter((one) => one.width > 0);`

// openPhoto opens a page with the photo's part in it.
func openPhoto(t *testing.T, width int64) (b *tab, address string) {
	t.Helper()
	address = partPage(t, []string{"measure_touch.css"},
		[]string{"measure_touch_draw.js", "measure_touch_fingers.js", "measure_touch.js", "measure_photo_file.js", "measure_photo_rows.js", "measure_photo.js"},
		[]string{"measure_touch.html", "measure_photo.html"}, `<main>{{template "measure-photo"}}</main>`, photoScript)
	b = newTab(t, width)
	b.open(address)
	b.quiet(address)
	return b, address
}

// choose gives the page a file as its picker does.
func (b *tab) choose(path string) {
	b.t.Helper()
	input := call(b, runtime.Evaluate, runtime.EvaluateParams{Expression: `document.getElementById("photo-file")`}).Result.ObjectID
	call(b, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: []string{path}, ObjectID: input})
}

// until the page has told something of the photo.
func (b *tab) notes(words string) {
	b.t.Helper()
	b.until(fmt.Sprintf(`document.getElementById("photo-note").textContent.includes(%q)`, words))
}

// shot is a photo in a file: its upper left quarter is dark, the rest is light.
func shot(t *testing.T, name string, width, height int) string {
	t.Helper()
	return shotTurned(t, name, width, height, 0)
}

// shotTurned has Exif say how it lies, if orientation isn't 0.
func shotTurned(t *testing.T, name string, width, height int, orientation byte) string {
	t.Helper()
	made := image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio420)
	for i := range made.Cb {
		made.Cb[i], made.Cr[i] = 128, 128
	}
	light, _, _ := color.RGBToYCbCr(220, 220, 220)
	for y := range height {
		row := made.Y[y*made.YStride : y*made.YStride+width]
		for x := range row {
			row[x] = light
			if x < width/2 && y < height/2 {
				row[x] = 20
			}
		}
	}
	var text bytes.Buffer
	require.NoError(t, jpeg.Encode(&text, made, nil))
	file := text.Bytes()
	if orientation > 0 {
		// A segment APP1 with a TIFF header, big-endian, and one entry, the orientation
		// (Exif 2.3, sections 4.5.2 and 4.6.4; tag 0x0112, SHORT, one value).
		exif := append([]byte("Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00"), orientation, 0, 0, 0, 0, 0, 0)
		segment := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(exif)+2))
		file = append(append(append([]byte{}, file[:2]...), append(segment, exif...)...), file[2:]...)
	}
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, file, 0o644))
	return path
}

// pickOn puts the chosen place by a finger on a pixel of the photo.
func (b *tab) pickOn(place string, x, y float64) {
	b.t.Helper()
	b.until(`document.querySelector('[data-touch="place"]').options.length > 0 && !document.getElementById("photo-sheet").hidden`)
	found[bool](b, fmt.Sprintf(`(e => { e.value = %q; e.dispatchEvent(new Event("change")); return true; })(document.querySelector('[data-touch="place"]'))`, place))
	box := b.box(sheetBox)
	b.frame()
	scale := min(box.Width/found[float64](b, "state.photo.width"), box.Height/found[float64](b, "state.photo.height"))
	mid := box.middle()
	b.tapAt([2]float64{mid[0] + scale*(x-found[float64](b, "state.photo.width")/2), mid[1] + scale*(y-found[float64](b, "state.photo.height")/2)})
	b.frame()
}

// fill types into a field of a row, counted from 0.
func (b *tab) fill(list string, row int, field, value string) {
	b.t.Helper()
	found[bool](b, fmt.Sprintf(`(e => { e.value = %q; e.dispatchEvent(new Event("input", { bubbles: true })); return true; })(document.querySelectorAll("#%s > li")[%d].querySelector('[data-of="%s"]'))`, value, list, row, field))
}

// A photograph of 20 megapixels is worked on as one bitmap of at most 2560 pixels; another
// takes its place, and the first is let go of.
func TestPhotoOfTwentyMegapixels(t *testing.T) {
	big := shot(t, "big.jpg", 5184, 3888)
	b, address := openPhoto(t, 360)
	start := time.Now()
	b.choose(big)
	b.notes("big.jpg lies under the sketch.")
	t.Logf("taken in %v", time.Since(start))
	assert.Equal(t, [3]float64{1, 2560, 1920}, found[[3]float64](b, `[live().length, live()[0].width, live()[0].height]`))
	assert.Equal(t, 1, found[int](b, "bitmaps.length"), "it is decoded once")
	b.choose(shot(t, "other.jpg", 3888, 5184))
	b.notes("other.jpg lies under the sketch.")
	assert.Equal(t, [3]float64{1, 1920, 2560}, found[[3]float64](b, `[live().length, live()[0].width, live()[0].height]`))
	b.choose(shot(t, "small.jpg", 640, 400))
	b.notes("small.jpg lies under the sketch.")
	assert.Equal(t, [3]float64{1, 640, 400}, found[[3]float64](b, `[live().length, live()[0].width, live()[0].height]`), "a small one stays as it is")
	found[bool](b, "part.close(), true")
	assert.Zero(t, found[int](b, "live().length"))
	b.quiet(address)
}

// A file that is no picture is told in words, and what was there stays.
func TestPhotoThatIsNone(t *testing.T) {
	b, address := openPhoto(t, 360)
	none := filepath.Join(t.TempDir(), "IMG_0042.HEIC")
	require.NoError(t, os.WriteFile(none, []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic and no more"), 0o644))
	b.choose(none)
	b.notes("IMG_0042.HEIC is no picture that this browser can show.")
	assert.True(t, found[bool](b, `document.getElementById("photo-sheet").hidden && changes === 0`))
	b.choose(shot(t, "lever.jpg", 1200, 900))
	b.notes("lever.jpg lies")
	b.pickOn("lever.horn", 300, 200)
	before := found[string](b, "JSON.stringify(state)")
	cut := shot(t, "cut.jpg", 1200, 900)
	require.NoError(t, os.Truncate(cut, 300))
	empty := filepath.Join(t.TempDir(), "empty.png")
	require.NoError(t, os.WriteFile(empty, nil, 0o644))
	for _, path := range []string{none, cut, empty} {
		b.choose(path)
		b.notes(filepath.Base(path) + " is no picture that this browser can show.")
		b.notes("What was there stays.")
		assert.Equal(t, before, found[string](b, "JSON.stringify(state)"))
		assert.Equal(t, 1200, found[int](b, "live()[0].width"))
	}
	b.quiet(address)
}

// A kind of picture whose size isn't read from its file is brought to the same size; one of
// too many megapixels is refused before it is decoded.
func TestPhotoOfAnotherKind(t *testing.T) {
	b, address := openPhoto(t, 360)
	for _, size := range [][4]int{{3000, 2000, 2560, 1707}, {2000, 3000, 1707, 2560}} {
		b.awaits(fmt.Sprintf(`(async () => {
			const canvas = new OffscreenCanvas(%d, %d);
			canvas.getContext("2d").fillRect(0, 0, 9, 9);
			const blob = await canvas.convertToBlob({ type: "image/webp" });
			window.size = await photoSize(blob);
			const made = await readPhoto(new File([blob], "lever.webp"));
			window.made = [made.width, made.height];
		})()`, size[0], size[1]))
		assert.Equal(t, [2]int{size[2], size[3]}, found[[2]int](b, "window.made"))
		assert.True(t, found[bool](b, "window.size === null"))
	}
	// The beginning of a PNG (RFC 2083, 3.1 and 4.1.1).
	header := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR"), 0, 0, 0x40, 0, 0, 0, 0x30, 0, 8, 2, 0, 0, 0)
	path := filepath.Join(t.TempDir(), "huge.png")
	require.NoError(t, os.WriteFile(path, header, 0o644))
	b.choose(path)
	b.notes("huge.png has 201 megapixels, more than a phone has room for: set the camera to 64 or fewer.")
	b.quiet(address)
}

// A photo that lies on its side in its file, as Exif tells, is shown upright.
func TestPhotoComesUpright(t *testing.T) {
	for _, size := range [][2]int{{1200, 900}, {4000, 3000}} {
		b, address := openPhoto(t, 360)
		b.choose(shotTurned(t, "turned.jpg", size[0], size[1], 6)) // to be turned a quarter clockwise
		b.notes("turned.jpg lies")
		width, height := found[int](b, "live()[0].width"), found[int](b, "live()[0].height")
		by := min(1, 2560/float64(size[0]))
		assert.Equal(t, [2]int{int(by * float64(size[1])), int(by * float64(size[0]))}, [2]int{width, height})
		dark := found[[]bool](b, `(() => {
			const copy = new OffscreenCanvas(live()[0].width, live()[0].height).getContext("2d", { willReadFrequently: true });
			copy.drawImage(live()[0], 0, 0);
			const at = (x, y) => copy.getImageData(x * copy.canvas.width, y * copy.canvas.height, 1, 1).data[0] < 100;
			return [at(0.25, 0.25), at(0.75, 0.25), at(0.25, 0.75), at(0.75, 0.75), at(0.48, 0.25), at(0.52, 0.25)];
		})()`)
		assert.Equal(t, []bool{false, true, false, false, false, true}, dark)
		b.quiet(address)
	}
}

// Picks, depths, distances, directions and the camera's distance are asked of the program
// once nothing else is changed for a while; of answers the newest counts; what it says is
// shown, faults at their fields; "Use these places" gives them away.
func TestPhotoAsksAndUses(t *testing.T) {
	b, address := openPhoto(t, 360)
	b.choose(shot(t, "lever.jpg", 2560, 1920))
	b.notes("lever.jpg lies")
	b.pickOn("airframe.shaft", 800, 1400)
	b.until(`document.getElementById("photo-says").textContent === "Nothing scales it yet."`)
	b.pickOn("lever.horn", 900, 500)
	b.pickOn("flap.horn", 2000, 700)
	assert.Contains(t, found[string](b, `document.getElementById("photo-hint").textContent`), "The longest")
	b.fill("photo-tapes", 0, "from", "airframe.shaft")
	b.fill("photo-tapes", 0, "to", "lever.horn")
	b.fill("photo-tapes", 0, "is", "7 1/4")
	assert.Equal(t, 2, found[int](b, `document.querySelectorAll("#photo-tapes > li").length`), "the rows grow")
	assert.Contains(t, found[string](b, `document.getElementById("photo-hint").textContent`), "another direction")
	b.fill("photo-picks", 2, "depth", "-12")
	b.fill("photo-levels", 0, "from", "airframe.shaft")
	b.fill("photo-levels", 0, "to", "flap.horn")
	b.fill("photo-levels", 0, "is", "31.5")
	found[bool](b, `(e => { e.value = "2000"; e.dispatchEvent(new Event("input")); return true; })(document.getElementById("photo-distance"))`)
	b.until(`!document.getElementById("photo-use").disabled`)
	body := found[struct {
		Units, Datum, Distance string
		Width, Height          int
		Picks                  []struct {
			Place, Depth string
			X, Y         float64
		}
		Tapes, Levels []map[string]string
	}](b, "asked.at(-1)")
	assert.Equal(t, "mm airframe.shaft 2000 2560 1920", fmt.Sprint(body.Units, " ", body.Datum, " ", body.Distance, " ", body.Width, " ", body.Height))
	require.Len(t, body.Picks, 3)
	assert.Equal(t, []map[string]string{{"from": "airframe.shaft", "to": "lever.horn", "is": "7 1/4", "within": ""}}, body.Tapes)
	assert.Equal(t, []map[string]string{{"from": "airframe.shaft", "to": "flap.horn", "is": "31.5"}}, body.Levels)
	assert.Equal(t, "flap.horn -12", body.Picks[2].Place+" "+body.Picks[2].Depth)
	pixel := 2560 / b.box(sheetBox).Width
	near(t, spot{800, 1400}, spot{body.Picks[0].X, body.Picks[0].Y}, 1.01*pixel)
	assert.Contains(t, found[string](b, `document.getElementById("photo-picks").textContent`), "20.0, -10.0, within 6.1 mm")
	assert.Equal(t, "verdict holds", found[string](b, `document.getElementById("photo-verdict").className`))

	// Typing fast asks once; an answer that is late is dropped.
	count := found[int](b, "asked.length")
	found[bool](b, "late = 800, true")
	b.fill("photo-tapes", 0, "is", "1")
	b.fill("photo-tapes", 0, "is", "18")
	b.fill("photo-tapes", 0, "is", "187")
	b.until(fmt.Sprintf("asked.length === %d", count+1))
	assert.True(t, found[bool](b, `document.getElementById("photo-use").disabled`), "what is old can't be used")
	found[bool](b, "late = 0, true")
	b.fill("photo-tapes", 0, "is", "187.5")
	b.until(fmt.Sprintf(`document.getElementById("photo-says").textContent === "Answer %d to 1 distances."`, count+2))
	time.Sleep(time.Second)
	assert.Equal(t, fmt.Sprintf("Answer %d to 1 distances.", count+2), found[string](b, `document.getElementById("photo-says").textContent`))

	b.fill("photo-tapes", 0, "is", "seven")
	b.until(`!document.querySelector("#photo-tapes [data-row=fault]").hidden`)
	assert.Equal(t, `"seven" is no length.`, found[string](b, `document.querySelector("#photo-tapes [data-row=fault]").textContent`))
	assert.True(t, found[bool](b, `document.querySelector("#photo-tapes [data-of=is]").getAttribute("aria-invalid") === "true" && document.getElementById("photo-use").disabled`))
	b.fill("photo-tapes", 0, "is", "187.5")
	b.until(`!document.getElementById("photo-use").disabled`)
	b.tap("#photo-use")
	b.until("taken !== null")
	assert.False(t, found[bool](b, `document.getElementById("photo-used").hidden`), "it is told beside the button, where the finger is")
	assert.Equal(t, "3 3.2 6.4", found[string](b, `[taken.places.length, taken.sketch, taken.uncertain].join(" ")`))
	const millimeter = 96 / 25.4 // of CSS
	for _, size := range found[[]box](b, `[...document.querySelectorAll(".touch button, .touch select, #photo-choose, #photo-use")].map((e) => { const r = e.getBoundingClientRect(); return { Width: r.width, Height: r.height }; })`) {
		assert.GreaterOrEqual(t, min(size.Width, size.Height), 12*millimeter-0.1, "for a glove")
	}
	b.fits(360)
	b.legible()
	b.named()
	b.tabThrough()
	b.tap("#photo-drop")
	assert.Zero(t, found[int](b, "state.picks.length"))
	b.tap("#photo-drop")
	assert.Equal(t, 3, found[int](b, "state.picks.length"))

	// A place that gets another name keeps its pick, and what was taped to it.
	found[bool](b, `outline[1].name = "lever.tab", part.renamed("lever.horn", "lever.tab"), true`)
	b.until(`asked.at(-1).tapes.length === 1 && asked.at(-1).tapes[0].to === "lever.tab" && asked.at(-1).picks[1].place === "lever.tab"`)
	b.quiet(address)
}

// By key alone a place is picked and a distance is typed.
func TestPhotoByKeyAlone(t *testing.T) {
	b, address := openPhoto(t, 1200)
	b.choose(shot(t, "lever.jpg", 1200, 900))
	b.notes("lever.jpg lies")
	for range 2 {
		b.top()
		b.tabTo(sheetBox)
		b.press(kb.Enter, kb.ArrowDown)
		b.top()
		b.tabTo(`[data-touch="next"]`)
		b.press(kb.Enter)
	}
	b.tabTo("#photo-tapes [data-of=from]")
	b.press(kb.ArrowDown)
	b.tabTo("#photo-tapes [data-of=to]")
	b.press(kb.ArrowDown, kb.ArrowDown)
	b.tabTo("#photo-tapes [data-of=is]")
	b.press("7", " ", "1", "/", "4")
	b.until(`!document.getElementById("photo-use").disabled`)
	assert.Equal(t, `[{"from":"airframe.shaft","to":"lever.horn","is":"7 1/4","within":""}]`, found[string](b, "JSON.stringify(asked.at(-1).tapes)"))
	b.tabTo("#photo-use")
	b.press(kb.Enter)
	b.until("taken !== null")
	b.quiet(address)
}

// The photo isn't kept unless its box is ticked; the picks are, and then the same photo is
// asked for, and no other size of one is taken.
func TestPhotoKept(t *testing.T) {
	lever, other, like := shot(t, "lever.jpg", 1200, 900), shot(t, "wide.jpg", 1600, 900), shot(t, "like.jpg", 1200, 900)
	b, address := openPhoto(t, 360)
	b.awaits(`photoStore().erase()`)
	b.choose(lever)
	b.notes("lever.jpg lies")
	b.pickOn("lever.horn", 300, 200)
	picks := found[string](b, "JSON.stringify(state.picks)")
	b.awaits(`photoStore().load().then((file) => { window.stored = file; })`)
	assert.True(t, found[bool](b, `window.stored === null && !document.getElementById("photo-keep").checked`), "off at first")

	b.open(address)
	b.awaits("again()")
	b.notes("1 pick kept; the photo is not. Choose lever.jpg again")
	assert.True(t, found[bool](b, `document.getElementById("photo-sheet").hidden && !document.getElementById("photo-rest").hidden`))
	assert.Equal(t, "Choose lever.jpg again", found[string](b, `document.getElementById("photo-choose").textContent`))
	b.choose(other)
	b.notes("wide.jpg is 1600 by 900 pixels here")
	assert.Zero(t, found[int](b, "live().length"))
	b.choose(like)
	b.notes("The picks were made on lever.jpg: look whether each is still right, or drop them.")
	b.choose(lever)
	b.notes("lever.jpg lies under the sketch.")
	assert.Equal(t, picks, found[string](b, "JSON.stringify(state.picks)"))

	b.tap("#photo-keep")
	b.until("state.keep")
	b.awaits(`photoStore().load().then((file) => { window.stored = file; })`)
	b.open(address)
	b.awaits("again()")
	assert.Equal(t, [2]int{1, 1200}, found[[2]int](b, `[live().length, live()[0].width]`))
	assert.True(t, found[bool](b, `!document.getElementById("photo-sheet").hidden && document.getElementById("photo-keep").checked`))
	assert.Equal(t, picks, found[string](b, "JSON.stringify(state.picks)"))
	b.tap("#photo-keep")
	b.notes("not kept any more")
	b.awaits(`photoStore().load().then((file) => { window.stored = file; })`)
	assert.True(t, found[bool](b, `window.stored === null`))
	b.awaits(`photoStore().erase()`)
	b.quiet(address)
}
