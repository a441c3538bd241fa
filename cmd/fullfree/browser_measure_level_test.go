//go:build browser

package main

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/deviceorientation"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// levelScript begins the level, eight times as fast as it is, and counts who listens to the
// sensor.
const levelScript = `
"use strict";
let listening = 0;
let permissions = 0;
const add = window.addEventListener.bind(window);
window.addEventListener = (kind, ...of) => { if (kind === "deviceorientation") listening++; return add(kind, ...of); };
const every = window.setInterval.bind(window);
window.setInterval = (does, pace) => every(does, pace / 8); // two seconds are long in a test
let answer = null;
let reads = 0;
const level = levelPart({ announce(words) { document.getElementById("told").textContent = words; } });
const what = { from: "A shaft", to: "C horn", view: "left" };
document.getElementById("go").addEventListener("click", async () => {
	answer = null;
	answer = await level.read(what);
	reads++;
});`

func openLevel(t *testing.T, width int64) (b *tab, address string) {
	t.Helper()
	address = partPage(t, []string{"measure_touch.css"}, []string{"measure_level_angle.js", "measure_level.js"}, []string{"measure_level.html"},
		`<main><button type="button" id="go">Read it</button></main>{{template "measure-level"}}`, levelScript)
	b = newTab(t, width)
	b.open(address)
	b.quiet(address)
	t.Cleanup(func() { call(b, deviceorientation.ClearDeviceOrientationOverride, cdp.Empty{}) })
	return b, address
}

type matrix [3][3]float64

func (a matrix) times(b matrix) (out matrix) {
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				out[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return out
}

// about turns about an axis of the earth, or of the phone, by degrees.
func about(axis int, degrees float64) matrix {
	s, c := math.Sincos(degrees * math.Pi / 180)
	i, j := (axis+1)%3, (axis+2)%3
	out := matrix{}
	out[axis][axis], out[i][i], out[j][j], out[i][j], out[j][i] = 1, c, c, -s, s
	return out
}

// anglesOf are the angles by which a phone that stands so is told: Z(alpha) X(beta) Y(gamma),
// gamma from -90 to 90 (W3C, Device Orientation and Motion, section 3.1). That these make the
// same rotation again is asserted, with matrices multiplied out.
func anglesOf(t *testing.T, r matrix) deviceorientation.SetDeviceOrientationOverrideParams {
	t.Helper()
	const degree = 180 / math.Pi
	beta := math.Asin(math.Max(-1, math.Min(1, r[2][1])))
	var alpha, gamma float64
	if r[2][2] >= 0 {
		alpha, gamma = math.Atan2(-r[0][1], r[1][1]), math.Atan2(-r[2][0], r[2][2])
	} else {
		alpha, gamma = math.Atan2(r[0][1], -r[1][1]), math.Atan2(r[2][0], -r[2][2])
		beta = math.Copysign(math.Pi, beta) - beta
	}
	again := about(2, alpha*degree).times(about(0, beta*degree)).times(about(1, gamma*degree))
	for i := range 3 {
		for j := range 3 {
			require.InDelta(t, r[i][j], again[i][j], 1e-9)
		}
	}
	const little = 1e-6 // the ends of the ranges, 360, 180 and 90, don't belong to them
	below := func(v, end float64) float64 { return math.Min(v, end-little) }
	return deviceorientation.SetDeviceOrientationOverrideParams{Alpha: below(math.Mod(alpha*degree+360, 360), 360), Beta: below(beta*degree, 180), Gamma: below(gamma*degree, 90)}
}

// laid is how a phone stands that lies along a line in an upright drawing, seen from the
// south: the drawing's right is east, x of the earth, its up is z. turned is end for end
// (top toward the line's beginning, screen away); offset is what the sensor is out against
// the edge, about the screen's normal; lean is how far the screen is out of the drawing.
func laid(line float64, turned bool, offset, lean float64) matrix {
	// Upright, top up and screen toward the south: x east, y up, z south.
	r := about(0, 90)
	if turned { // top down, screen toward the north
		r = about(0, -90)
	}
	r = about(1, 90-line).times(r) // about the north, from upright to the line: clockwise seen from the south
	return r.times(about(1, lean)).times(about(2, offset))
}

// holds has the phone stand so.
func (b *tab) holds(r matrix) {
	b.t.Helper()
	call(b, deviceorientation.SetDeviceOrientationOverride, anglesOf(b.t, r))
}

// shakes has it stand so for a while, with its angles out by the given degrees to and fro.
func (b *tab) shakes(line float64, turned bool, offset, by float64, until string) {
	b.t.Helper()
	for i := range 400 {
		b.holds(laid(line+by*float64(1-2*(i%2)), turned, offset, 0))
		time.Sleep(40 * time.Millisecond)
		if found[bool](b, "!!("+until+")") {
			return
		}
	}
	require.Fail(b.t, until)
}

const levelNow = `document.getElementById("level-now").textContent`

// turning is what the page asks for between the two readings, and read that both are made.
const (
	turnIt = `document.getElementById("level-how").textContent.includes("turn the phone end for end")`
	isRead = `!document.getElementById("level-again").hidden`
)

// A line is found to a tenth of a degree, whatever the sensor is out against the edge, and
// that is told.
func TestLevelFindsALine(t *testing.T) {
	b, address := openLevel(t, 360)
	for _, c := range []struct{ line, offset float64 }{{0, 0}, {0.8, 0.6}, {31.5, -1.2}, {90.5, 0.4}, {179.6, 1}, {-90, -0.3}, {-123.4, 0.9}} {
		b.holds(laid(c.line, false, c.offset, 0))
		b.tap("#go")
		b.until(`document.getElementById("level").open`)
		assert.Zero(t, found[int](b, "listening"), "nothing is read before it is asked for")
		assert.Contains(t, found[string](b, `document.getElementById("level-first").textContent`), "motion sensor")
		b.tap("#level-go")
		b.until(turnIt)
		// As it lies, nothing more is read.
		time.Sleep(500 * time.Millisecond)
		assert.Equal(t, "Turn it end for end.", found[string](b, levelNow), "%v", c)
		b.holds(laid(c.line, true, c.offset, 0))
		b.until(isRead)
		b.tap("#level-go")
		b.until("answer !== null")
		got := found[struct{ Is, Within, Says string }](b, "({ Is: answer.is, Within: answer.within, Says: answer.says })")
		assert.Equal(t, fmt.Sprintf("%.1f 0.5", c.line), got.Is+" "+got.Within)
		assert.Contains(t, got.Says, fmt.Sprintf("%.1f° out against its edge", math.Abs(c.offset)))
		found[bool](b, "listening = 0, true")
	}
	b.quiet(address)
}

// What it scatters is told and counted; a level that was checked is believed.
func TestLevelTellsItsScatter(t *testing.T) {
	b, address := openLevel(t, 360)
	read := func(checked string, by float64) (within, says string) {
		b.holds(laid(12, false, 0, 0))
		b.tap("#go")
		found[bool](b, fmt.Sprintf(`document.getElementById("level-checked").value = %q, true`, checked))
		b.tap("#level-go")
		b.shakes(12, false, 0, by, turnIt)
		b.shakes(12, true, 0, by, isRead)
		b.tap("#level-go")
		b.until("answer !== null")
		return found[string](b, "answer.within"), found[string](b, "answer.says")
	}
	within, says := read("", 0.2)
	assert.Equal(t, "0.5", within)
	assert.Regexp(t, `it scatters by 0\.(1[5-9]|2[0-2])°`, says)
	within, _ = read("0,1", 0.2)
	assert.Regexp(t, `^0\.[23]$`, within, "the scatter is more than it was checked to")
	within, _ = read("0.2", 0)
	assert.Equal(t, "0.2", within)
	within, _ = read("1", 0)
	assert.Equal(t, "1.0", within)
	b.tap("#go")
	found[bool](b, `document.getElementById("level-checked").value = "well", true`)
	b.tap("#level-go")
	assert.Equal(t, `"well" is no number of degrees.`, found[string](b, levelNow))
	b.quiet(address)
}

// A phone whose face isn't in the drawing, or that isn't still, isn't read; readings that are
// too far apart aren't taken.
func TestLevelRefuses(t *testing.T) {
	b, address := openLevel(t, 1200)
	b.holds(laid(20, false, 0, 25))
	b.click("#go")
	b.click("#level-go")
	b.until(levelNow + `.includes("isn't in the plane of the drawing")`)
	time.Sleep(500 * time.Millisecond)
	assert.False(t, found[bool](b, turnIt))
	for i := range 60 { // it is moved all the time
		b.holds(laid(20+0.5*float64(i%7), false, 0, 0))
		time.Sleep(50 * time.Millisecond)
	}
	assert.False(t, found[bool](b, turnIt))
	b.holds(laid(20, false, 0, 0))
	b.until(turnIt)
	b.holds(laid(26, true, 0, 0))
	b.until(isRead)
	assert.Contains(t, found[string](b, levelNow), "more than 3° apart: it was probably not turned end for end")
	assert.True(t, found[bool](b, `document.getElementById("level-go").hidden`))
	b.holds(laid(20, false, 0, 0))
	b.click("#level-again")
	b.until(turnIt)
	b.holds(laid(20, true, 0, 0))
	b.until(`!document.getElementById("level-go").hidden`)
	b.press(kb.Enter) // the button has the focus
	b.until("answer !== null")
	assert.Equal(t, "20.0", found[string](b, "answer.is"))

	// Left, by key too, nothing is read any more.
	b.click("#go")
	b.press(kb.Escape)
	b.until(`reads === 2 && answer === null && !document.getElementById("level").open`)
	found[bool](b, `what.view = "above", true`)
	b.click("#go")
	b.until(levelNow + `.includes("Seen from above")`)
	assert.True(t, found[bool](b, `document.getElementById("level-go").hidden`))
	b.click("#level-leave")
	b.quiet(address)
}

// Where the browser wants to be asked, it is, by the press of the button; where it refuses,
// or has no sensor, that is told.
func TestLevelAsksFirst(t *testing.T) {
	b, address := openLevel(t, 360)
	found[bool](b, `(DeviceOrientationEvent.requestPermission = async () => { permissions++; window.active = navigator.userActivation.isActive; return window.may; }, window.may = "denied", true)`)
	b.tap("#go")
	b.named()
	b.fits(360)
	assert.Zero(t, found[int](b, "permissions + listening"))
	b.tap("#level-go")
	b.until(levelNow + `.includes("not allowed")`)
	assert.Equal(t, "1 0 true", found[string](b, `[permissions, listening, window.active].join(" ")`))
	found[bool](b, `window.may = "granted", true`)
	b.tap("#level-go")
	b.until("listening === 1")
	b.until(levelNow + `.startsWith("This browser gives the page no level.")`) // no sensor here
	b.tap("#level-leave")
	b.until("reads === 1")
	assert.True(t, found[bool](b, "answer === null && level.available()"))
	said := found[string](b, `document.getElementById("level").textContent`)
	assert.False(t, strings.Contains(strings.ToLower(said), "safe"))
	b.quiet(address)
}

// That the phone was turned end for end is known by where its screen looks, however it was
// handled meanwhile; where it has no gyroscope, by its having been handled.
func TestLevelKnowsATurn(t *testing.T) {
	b, address := openLevel(t, 360)
	b.holds(laid(1.5, false, 0, 0))
	b.tap("#go")
	b.tap("#level-go")
	b.until(turnIt)
	for _, other := range []matrix{laid(40, false, 0, 30), about(2, 60).times(laid(1.5, false, 0, 0)), about(2, -20).times(laid(1.5, false, 0, 3)), laid(1.5, false, 0, 0)} {
		b.holds(other)
		time.Sleep(600 * time.Millisecond)
		assert.False(t, found[bool](b, isRead), "it lies as before")
	}
	b.holds(about(2, 12).times(laid(1.5, true, 0, 0))) // a compass that drifts doesn't matter
	b.until(isRead)
	assert.Contains(t, found[string](b, levelNow), ": 1.5° within 0.5°.")
	b.tap("#level-leave")
	call(b, deviceorientation.ClearDeviceOrientationOverride, cdp.Empty{})

	without := func(r matrix) {
		is := anglesOf(t, r)
		found[bool](b, fmt.Sprintf(`dispatchEvent(new DeviceOrientationEvent("deviceorientation", { beta: %v, gamma: %v }))`, is.Beta, is.Gamma))
		time.Sleep(600 * time.Millisecond)
	}
	b.tap("#go")
	b.tap("#level-go")
	b.until(levelNow + `.startsWith("Waiting")`)
	without(laid(60, false, 0, 0))
	b.until(turnIt)
	without(laid(60, false, 0, 0))
	assert.Equal(t, "Turn it end for end.", found[string](b, levelNow))
	without(laid(60, true, 0, 50))
	without(laid(60, true, 0, 0))
	b.until(isRead)
	assert.Contains(t, found[string](b, levelNow), ": 60.0° within 0.5°.")
	b.quiet(address)
}
