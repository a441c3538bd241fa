//go:build browser

package main

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	cdpinput "github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// touchScript begins the sheet with places of a lever: on a photo that the test paints,
// of which every pixel's color tells where it is, or on a grid.
const touchScript = `
"use strict";
const places = [
	{ name: "airframe.shaft", letter: "A", pivot: true, x: null, y: null },
	{ name: "lever.horn", letter: "B", pivot: false, x: null, y: null },
	{ name: "lever.hand", pivot: false, x: null, y: null },
];
let picture = null;
let units = "mm";
const said = [];
const sheet = touchSheet({
	box: document.getElementById("box"),
	picture: () => picture,
	units: () => units,
	places: () => places,
	lines: () => [{ from: "lever.horn", to: "airframe.shaft", rod: false }, { from: "lever.hand", to: "lever.horn", rod: true }],
	put(name, x, y) { Object.assign(places.find((p) => p.name === name), { x, y }); },
	told(words) { said.push(words); document.getElementById("told").textContent = words; },
});
async function paint(width, height) {
	const canvas = new OffscreenCanvas(width, height);
	const draw = canvas.getContext("2d");
	const image = draw.createImageData(width, height);
	for (let y = 0, i = 0; y < height; y++) {
		for (let x = 0; x < width; x++, i += 4) {
			image.data[i] = 255 * x / width; image.data[i + 1] = 255 * y / height; image.data[i + 2] = (x >> 6) + (y >> 6) & 1 ? 60 : 200; image.data[i + 3] = 255;
		}
	}
	draw.putImageData(image, 0, 0);
	picture = await createImageBitmap(canvas);
	sheet.show();
	return true;
}`

// openTouch opens a page with the sheet in it.
func openTouch(t *testing.T, width int64) (b *tab, address string) {
	t.Helper()
	address = partPage(t, []string{"measure_touch.css"}, []string{"measure_touch_draw.js", "measure_touch_fingers.js", "measure_touch.js"}, []string{"measure_touch.html"},
		`<main id="box">{{template "measure-touch"}}</main>`+strings.Repeat("<p>What comes below.</p>", 30), touchScript)
	b = newTab(t, width)
	b.open(address)
	b.quiet(address)
	return b, address
}

// fingers puts fingers on the page, or moves them.
func (b *tab) fingers(kind cdpinput.DispatchTouchEventType, at ...[2]float64) {
	b.t.Helper()
	points := []*cdpinput.TouchPoint{}
	for _, p := range at {
		points = append(points, &cdpinput.TouchPoint{X: p[0], Y: p[1]})
	}
	call(b, cdpinput.DispatchTouchEvent, cdpinput.DispatchTouchEventParams{Type: kind, TouchPoints: points})
}

type spot struct{ X, Y float64 }

// seenAt is where in the window a place of the sheet is.
func (b *tab) seenAt(x, y float64) [2]float64 {
	b.t.Helper()
	p := found[struct{ X, Y float64 }](b, fmt.Sprintf(`(p => ({ X: p.x, Y: p.y }))(sheet.seen(%v, %v))`, x, y))
	return [2]float64{p.X, p.Y}
}

func (b *tab) placed(name string) spot {
	b.t.Helper()
	return found[spot](b, fmt.Sprintf(`(p => ({ X: p.x, Y: p.y }))(places.find((p) => p.name === %q))`, name))
}

// frame waits until the page has drawn.
func (b *tab) frame() {
	b.t.Helper()
	b.settle()
	b.awaits(`new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))`)
}

// shiftKey is the Shift key as the protocol counts modifiers.
const shiftKey = 8

func near(t *testing.T, want, got spot, within float64) {
	t.Helper()
	assert.LessOrEqual(t, math.Hypot(want.X-got.X, want.Y-got.Y), within, "%v, wanted %v", got, want)
}

const (
	photoWidth, photoHeight = 2560, 1920
	sheetBox                = `[data-touch="sheet"]`
)

// A finger puts a place where it is lifted, within a pixel of the photo once that is seen as
// large; while it is down, the magnifier shows what is under it, in the window and not
// under the finger; the page stays where it is.
func TestTouchPutsUnderAMagnifier(t *testing.T) {
	for _, width := range []int64{320, 360, 1200} {
		b, address := openTouch(t, width)
		b.awaits(fmt.Sprintf(`paint(%d, %d)`, photoWidth, photoHeight))
		b.fits(int(width))
		b.box(sheetBox)
		b.frame()
		scrolled := found[float64](b, "scrollY")
		window := found[spot](b, `({ X: innerWidth, Y: innerHeight })`)
		pixel := found[float64](b, fmt.Sprintf(`%d / document.querySelector('[data-touch="sheet"]').clientWidth`, photoWidth))
		for _, part := range []spot{{0.5, 0.5}, {0.02, 0.03}, {0.98, 0.02}, {0.03, 0.97}, {0.97, 0.98}, {0.5, 0.02}, {0.3, 0.4}} {
			want := spot{photoWidth * part.X, photoHeight * part.Y}
			at := b.seenAt(want.X, want.Y)
			start := [2]float64{at[0] + (window.X/2-at[0])*0.3, at[1] + (window.Y/2-at[1])*0.3}
			b.fingers(cdpinput.DispatchTouchEventTypeTouchStart, start)
			b.fingers(cdpinput.DispatchTouchEventTypeTouchMove, at)
			b.frame()
			lens := found[*struct{ X, Y, Size float64 }](b, `(l => l && ({ X: l.x, Y: l.y, Size: l.size }))(sheet.lens())`)
			require.NotNil(t, lens, "%v", part)
			assert.GreaterOrEqual(t, lens.Size, 100.0, "%d %v", width, part)
			assert.True(t, lens.X >= 0 && lens.Y >= 0 && lens.X+lens.Size <= window.X && lens.Y+lens.Size <= window.Y, "%d %v: off the window: %v", width, part, lens)
			apart := math.Max(math.Max(lens.X-at[0], at[0]-lens.X-lens.Size), math.Max(lens.Y-at[1], at[1]-lens.Y-lens.Size))
			assert.GreaterOrEqual(t, apart, 35.0, "%d %v: under the finger: %v %v", width, part, lens, at)
			// What is in its middle is what is under the finger, by its color there.
			color := found[[]float64](b, `(() => {
				const canvas = document.querySelector('[data-touch="sheet"]');
				const around = canvas.getBoundingClientRect();
				const lens = sheet.lens();
				const dots = canvas.width / canvas.clientWidth;
				const copy = new OffscreenCanvas(1, 1).getContext("2d");
				copy.drawImage(canvas, -Math.round((lens.x + lens.size / 2 - 5 - around.left - canvas.clientLeft) * dots), -Math.round((lens.y + lens.size / 2 + 5 - around.top - canvas.clientTop) * dots));
				return [...copy.getImageData(0, 0, 1, 1).data];
			})()`)
			if part.X > 0.1 && part.X < 0.9 && part.Y > 0.1 {
				assert.InDelta(t, 255*part.X, color[0], 4, "%d %v", width, part)
				assert.InDelta(t, 255*part.Y, color[1], 4, "%d %v", width, part)
			}
			b.fingers(cdpinput.DispatchTouchEventTypeTouchEnd)
			b.frame()
			near(t, want, b.placed("airframe.shaft"), 1.01*pixel) // events come in whole CSS pixels
			assert.True(t, found[bool](b, "sheet.lens() === null"))
		}
		assert.Equal(t, scrolled, found[float64](b, "scrollY"), "the page scrolls while a place is put")
		assert.LessOrEqual(t, found[float64](b, `(c => c.width * c.height)(document.querySelector('[data-touch="sheet"]'))`), 4e6)

		// Seen as large as it is, it is put to a pixel.
		for range 12 {
			b.click(`[data-zoom="1"]`)
		}
		b.box(sheetBox)
		b.frame()
		mid := b.box(sheetBox).middle()
		b.frame()
		zero, one := b.seenAt(0, 0), b.seenAt(1, 1)
		require.Greater(t, one[0]-zero[0], 1.0)
		want := spot{math.Round((mid[0]+20-zero[0])/(one[0]-zero[0])) + 0.5, math.Round((mid[1]+10-zero[1])/(one[1]-zero[1])) + 0.5}
		b.tapAt(b.seenAt(want.X, want.Y))
		b.frame()
		near(t, want, b.placed("airframe.shaft"), 1)
		b.quiet(address)
	}
}

// The page's own scrolling goes on beside the sheet.
func TestTouchLeavesThePageToScroll(t *testing.T) {
	b, _ := openTouch(t, 360)
	b.box(sheetBox)
	b.frame()
	type ways struct{ On, Beside string }
	got := found[ways](b, `({ On: getComputedStyle(document.querySelector('[data-touch="sheet"]')).touchAction, Beside: getComputedStyle(document.querySelector(".touch-under")).touchAction })`)
	assert.Equal(t, ways{"none", "auto"}, got)
	assert.Less(t, found[float64](b, `document.querySelector('[data-touch="sheet"]').clientHeight / innerHeight`), 0.7, "room to scroll by is left")
	swipe := func(selector string) (scrolled float64) {
		at := b.box(selector).middle()
		before := found[float64](b, "scrollY")
		b.fingers(cdpinput.DispatchTouchEventTypeTouchStart, at)
		for i := 1; i <= 10; i++ {
			b.fingers(cdpinput.DispatchTouchEventTypeTouchMove, [2]float64{at[0], at[1] - 15*float64(i)})
			time.Sleep(16 * time.Millisecond)
		}
		b.fingers(cdpinput.DispatchTouchEventTypeTouchEnd)
		b.frame()
		return found[float64](b, "scrollY") - before
	}
	assert.Zero(t, swipe(sheetBox))
	assert.Greater(t, swipe(".touch-under"), 50.0)
}

// Lifted outside the sheet, or given up by key, nothing is put.
func TestTouchGivesUp(t *testing.T) {
	b, address := openTouch(t, 360)
	box := b.box(sheetBox)
	b.frame()
	mid, below := box.middle(), [2]float64{box.X + 40, box.Y + box.Height + 30}
	b.fingers(cdpinput.DispatchTouchEventTypeTouchStart, mid)
	b.fingers(cdpinput.DispatchTouchEventTypeTouchMove, below)
	b.fingers(cdpinput.DispatchTouchEventTypeTouchEnd)
	b.fingers(cdpinput.DispatchTouchEventTypeTouchStart, mid)
	b.press(kb.Escape)
	b.fingers(cdpinput.DispatchTouchEventTypeTouchEnd)
	b.fingers(cdpinput.DispatchTouchEventTypeTouchStart, mid)
	b.fingers(cdpinput.DispatchTouchEventTypeTouchCancel)
	b.frame()
	assert.True(t, found[bool](b, `places.every((p) => p.x === null) && said.length === 0 && sheet.lens() === null`))
	b.tapAt(mid)
	b.frame()
	assert.True(t, found[bool](b, `places[0].x !== null`), "and it works again")
	b.quiet(address)
}

// On a screen of many dots the sheet takes no more memory than it may, a finger hits as well,
// and marks are black and white on a dark photo and on a light one.
func TestTouchOnFineScreens(t *testing.T) {
	for _, width := range []int64{360, 1200} {
		b, address := openTouch(t, width)
		b.do(chromedp.EmulateViewport(width, 800, chromedp.EmulateScale(3)))
		for _, shade := range []string{"#000", "#fff"} {
			b.awaits(fmt.Sprintf(`(async () => {
				const canvas = new OffscreenCanvas(%d, %d);
				const draw = canvas.getContext("2d");
				draw.fillStyle = %q;
				draw.fillRect(0, 0, canvas.width, canvas.height);
				picture = await createImageBitmap(canvas);
				sheet.show();
			})()`, photoWidth, photoHeight, shade))
			b.box(sheetBox)
			b.frame()
			b.tapAt(b.seenAt(1000, 900))
			b.frame()
			dots := found[float64](b, `(c => c.width * c.height)(document.querySelector('[data-touch="sheet"]'))`)
			assert.LessOrEqual(t, dots, 4e6)
			assert.Greater(t, dots, 1e6)
			near(t, spot{1000, 900}, b.placed("airframe.shaft"), 1.01*photoWidth/b.box(sheetBox).Width)
			ends := found[[2]int](b, `(() => {
				const canvas = document.querySelector('[data-touch="sheet"]');
				const around = canvas.getBoundingClientRect();
				const p = sheet.seen(places[0].x, places[0].y);
				const dots = canvas.width / canvas.clientWidth;
				const copy = new OffscreenCanvas(Math.round(30 * dots), 1).getContext("2d");
				copy.drawImage(canvas, -(p.x - around.left - canvas.clientLeft - 15) * dots, -(p.y - around.top - canvas.clientTop + 3) * dots);
				const line = copy.getImageData(0, 0, copy.canvas.width, 1).data.filter((v, i) => i % 4 === 0);
				return [Math.min(...line), Math.max(...line)];
			})()`)
			assert.Less(t, ends[0], 40)
			assert.Greater(t, ends[1], 215)
		}
		b.quiet(address)
	}
}

// Two fingers pinch and move what is in sight about what is between them, and put nothing.
func TestTouchPinches(t *testing.T) {
	b, address := openTouch(t, 360)
	b.awaits(fmt.Sprintf(`paint(%d, %d)`, photoWidth, photoHeight))
	mid := b.box(sheetBox).middle()
	b.frame()
	away := func(by, x, y float64) [][2]float64 {
		return [][2]float64{{mid[0] - by + x, mid[1] + y}, {mid[0] + by + x, mid[1] + y}}
	}
	scale := func() float64 { return b.seenAt(100, 0)[0] - b.seenAt(0, 0)[0] }
	before := scale()
	b.fingers(cdpinput.DispatchTouchEventTypeTouchStart, away(30, 0, 0)[0])
	b.fingers(cdpinput.DispatchTouchEventTypeTouchStart, away(30, 0, 0)...)
	for i := 1; i <= 6; i++ {
		b.fingers(cdpinput.DispatchTouchEventTypeTouchMove, away(30+10*float64(i), 5*float64(i), -4*float64(i))...)
	}
	b.fingers(cdpinput.DispatchTouchEventTypeTouchEnd)
	b.frame()
	assert.InDelta(t, 3, scale()/before, 0.05)
	center := b.seenAt(photoWidth/2, photoHeight/2)
	assert.InDelta(t, mid[0]+30, center[0], 3)
	assert.InDelta(t, mid[1]-24, center[1], 3)
	assert.True(t, found[bool](b, `places.every((p) => p.x === null) && said.length === 0`), "a pinch puts nothing")
	assert.Equal(t, 1.0, found[float64](b, "visualViewport.scale"), "the page itself isn't zoomed")
	b.quiet(address)
}

// By mouse: pressed, moved and let go; the wheel zooms where the mouse is, another button
// moves the sheet.
func TestTouchByMouse(t *testing.T) {
	b, address := openTouch(t, 1200)
	b.awaits(fmt.Sprintf(`paint(%d, %d)`, photoWidth, photoHeight))
	b.box(sheetBox)
	b.frame()
	want := spot{1000, 700}
	wheel := func(at [2]float64, by float64) {
		call(b, cdpinput.DispatchMouseEvent, cdpinput.DispatchMouseEventParams{Type: cdpinput.DispatchMouseEventTypeMouseWheel, X: at[0], Y: at[1], DeltaY: by, DeltaX: 0.001})
		b.frame()
	}
	// The page was scrolled just now, and the wheel goes on with that.
	was := b.seenAt(100, 0)[0] - b.seenAt(0, 0)[0]
	assert.False(t, found[bool](b, `(() => {
		dispatchEvent(new Event("scroll"));
		const event = new WheelEvent("wheel", { deltaY: 60, cancelable: true });
		document.querySelector('[data-touch="sheet"]').dispatchEvent(event);
		return event.defaultPrevented;
	})()`))
	b.frame()
	assert.Equal(t, was, b.seenAt(100, 0)[0]-b.seenAt(0, 0)[0])
	mid := b.box(sheetBox).middle()
	time.Sleep(500 * time.Millisecond)
	for range 14 {
		wheel(b.seenAt(want.X, want.Y), -120)
	}
	at := b.seenAt(want.X, want.Y)
	b.drag(mid, at)
	b.frame()
	near(t, want, b.placed("airframe.shaft"), 1)
	shown := b.seenAt(0, 0)
	right := chromedp.ButtonType(cdpinput.MouseButtonRight)
	b.do(chromedp.MouseEvent(chromedp.MousePressed, mid[0], mid[1], right, chromedp.ClickCount(1)),
		chromedp.MouseEvent(chromedp.MouseMoved, mid[0]+40, mid[1]+25, right),
		chromedp.MouseEvent(chromedp.MouseReleased, mid[0]+40, mid[1]+25, right, chromedp.ClickCount(1)))
	b.frame()
	now := b.seenAt(0, 0)
	assert.InDelta(t, 40, now[0]-shown[0], 1.5)
	assert.InDelta(t, 25, now[1]-shown[1], 1.5)
	near(t, want, b.placed("airframe.shaft"), 1)
	b.quiet(address)
}

// By key alone: chosen, put, nudged by a pixel and by ten, told, taken back.
func TestTouchByKeyAlone(t *testing.T) {
	b, address := openTouch(t, 360)
	b.awaits(fmt.Sprintf(`paint(%d, %d)`, photoWidth, photoHeight))
	b.named()
	b.tabThrough()
	b.top()
	b.tabTo(sheetBox)
	b.press(kb.Enter)
	assert.Equal(t, spot{photoWidth / 2, photoHeight / 2}, b.placed("airframe.shaft"))
	b.press(kb.ArrowLeft, kb.ArrowUp)
	b.do(chromedp.KeyEvent(kb.ArrowDown, chromedp.KeyModifiers(shiftKey)))
	assert.Equal(t, spot{photoWidth/2 - 1, photoHeight/2 + 9}, b.placed("airframe.shaft"))
	b.until(`document.getElementById("told").textContent === "A airframe.shaft is at pixel 1279.0, 969.0."`)
	// Nudging alone is told once, not at every pixel.
	assert.Equal(t, 2, found[int](b, "said.length"))
	b.tabTo(`[data-nudge="1 0"]`)
	b.press(kb.Enter, " ")
	assert.Equal(t, spot{photoWidth/2 + 1, photoHeight/2 + 9}, b.placed("airframe.shaft"))
	b.top()
	b.tabTo(`[data-touch="next"]`)
	assert.Equal(t, "Next: B", found[string](b, "document.activeElement.textContent"))
	b.press(kb.Enter)
	b.top()
	b.tabTo(sheetBox)
	b.press(kb.ArrowRight)
	assert.Equal(t, spot{photoWidth / 2, photoHeight / 2}, b.placed("lever.horn"))
	b.top()
	b.tabTo(`[data-touch="back"]`)
	b.press(kb.Enter)
	assert.True(t, found[bool](b, `places[1].x === null && places[0].x !== null`))
	b.press(kb.Enter, kb.Enter)
	assert.True(t, found[bool](b, `places.every((p) => p.x === null)`))
	b.legible()
	b.quiet(address)
}

// Without a picture it is a grid in units of the run, which tells what a square is; y goes up.
func TestTouchOnAGrid(t *testing.T) {
	for _, units := range []string{"mm", "in"} {
		b, address := openTouch(t, 360)
		found[bool](b, fmt.Sprintf(`units = %q, sheet.fit(), sheet.show(), true`, units))
		mid := b.box(sheetBox).middle()
		b.frame()
		b.tapAt([2]float64{mid[0] + 50, mid[1] - 30})
		b.frame()
		got := b.placed("airframe.shaft")
		at := b.seenAt(got.X, got.Y)
		near(t, spot{mid[0] + 50, mid[1] - 30}, spot{at[0], at[1]}, 1.5)
		assert.Positive(t, got.X)
		assert.Positive(t, got.Y)
		b.press(kb.ArrowUp)
		assert.Greater(t, b.placed("airframe.shaft").Y, got.Y)
		assert.Contains(t, found[string](b, `document.querySelector('[data-touch="square"]').textContent`), units+".")
		b.quiet(address)
	}
}
