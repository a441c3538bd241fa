//go:build browser

package main

import (
	"encoding/json"
	"fmt"
	"slices"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What must be so of every page, whatever it shows.

// fits asserts that the page doesn't scroll sideways.
func (b *tab) fits(width int) {
	b.t.Helper()
	type overflow struct {
		Width int
		By    []string
	}
	got := found[overflow](b, `(() => {
		const boxed = (e) => e !== document.body && (getComputedStyle(e).overflowX !== "visible" || boxed(e.parentElement));
		const width = document.scrollingElement.scrollWidth;
		return { Width: width, By: width <= innerWidth ? [] : [...document.body.querySelectorAll("*")]
			.filter((e) => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest("svg *") && !boxed(e.parentElement))
			.map((e) => e.outerHTML.slice(0, 200)).slice(0, 8) };
	})()`)
	assert.LessOrEqual(b.t, got.Width, width, "the page is wider than the window, perhaps for %q", got.By)
}

// leastContrast is what text must have against what it stands on (W3C, Web
// Content Accessibility Guidelines 2.2, success criterion 1.4.3, level AA).
const leastContrast = 4.5

// contrasts returns what text of the page has less contrast than it must, by
// the guidelines' own formula (relative luminance, contrast ratio).
const contrasts = `(() => {
	const parse = (words) => {
		const n = (words.match(/[\d.]+/g) || []).map(Number);
		return { rgb: n.slice(0, 3), alpha: n.length > 3 ? n[3] : 1 };
	};
	const luminance = (rgb) => {
		const [r, g, b] = rgb.map((v) => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
		return 0.2126 * r + 0.7152 * g + 0.0722 * b;
	};
	const over = (rgb, alpha, ground) => rgb.map((v, i) => v * alpha + ground[i] * (1 - alpha));
	const known = (reckon) => {
		const all = new Map();
		return (e) => all.has(e) ? all.get(e) : (all.set(e, reckon(e)), all.get(e));
	};
	const ground = known((e) => {
		if (!e) {
			return [255, 255, 255];
		}
		const c = parse(getComputedStyle(e).backgroundColor);
		return c.alpha === 1 ? c.rgb : over(c.rgb, c.alpha, ground(e.parentElement));
	});
	const shade = known((e) => e ? Number(getComputedStyle(e).opacity) * shade(e.parentElement) : 1);
	const faint = new Map();
	let count = 0;
	const judge = (e, style, words) => {
		const ink = parse(e instanceof SVGElement ? style.fill : style.color);
		const below = ground(e);
		const [a, b] = [luminance(over(ink.rgb, ink.alpha * shade(e), below)), luminance(below)];
		const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
		count++;
		if (ratio < LEAST) {
			faint.set(words.trim().slice(0, 40) + " " + ratio.toFixed(2), true);
		}
	};
	for (const e of document.querySelectorAll("body *")) {
		if (e.getClientRects().length === 0 || e.closest("title, desc, script, style, defs")) {
			continue;
		}
		const style = getComputedStyle(e);
		const words = [...e.childNodes].filter((n) => n.nodeType === Node.TEXT_NODE).map((n) => n.data).join("");
		if (words.trim() && style.visibility !== "hidden") {
			judge(e, style, words);
		}
		if (e instanceof SVGElement) {
			continue;
		}
		const before = getComputedStyle(e, "::before");
		if (before.content !== "none" && before.content !== "normal") {
			judge(e, before, before.content);
		}
	}
	return { Count: count, Faint: [...faint.keys()] };
})()`

// legible asserts that all text has the contrast that it must have.
func (b *tab) legible() {
	b.t.Helper()
	type result struct {
		Count int
		Faint []string
	}
	got := found[result](b, "(() => { const LEAST = "+fmt.Sprint(leastContrast)+"; return "+contrasts+"; })()")
	assert.Greater(b.t, got.Count, 20, "there was text to judge")
	assert.Empty(b.t, got.Faint, "text with too little contrast")
}

// named asserts that everything that can be operated, and every picture, has a
// name that a screen reader tells. It returns those names.
func (b *tab) named() []string {
	b.t.Helper()
	call(b, accessibility.Enable, cdp.Empty{})
	var names []string
	for _, node := range call(b, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{}).Nodes {
		role := said(node.Role)
		switch role {
		case "button", "slider", "combobox", "link", "spinbutton", "textbox", "checkbox", "image", "region":
		default:
			continue
		}
		if node.Ignored {
			continue
		}
		name := said(node.Name)
		if assert.NotEmpty(b.t, name, "a %s without a name", role) {
			names = append(names, role+" "+name)
		}
	}
	return names
}

func said(v *accessibility.Value) string {
	var text string
	if v != nil {
		_ = json.Unmarshal(v.Value, &text) // not a text: no name
	}
	return text
}

// focused is what has the focus.
type focused struct {
	// Number is that among everything that can be operated; -1: none of that (a
	// box that scrolls), -2: the page itself.
	Number  int
	What    string
	Outline bool // its focus is seen
	Hidden  bool // it is out of the window, or behind something
}

const whatIsFocused = `(() => {
	const all = [...document.querySelectorAll("a[href], button, select, input, textarea, [tabindex='0'], summary")];
	const e = document.activeElement;
	if (e === document.body || e === document.documentElement) {
		return { Number: -2 };
	}
	const style = getComputedStyle(e);
	const box = e.getBoundingClientRect();
	const [left, right] = [Math.max(0, box.left), Math.min(innerWidth, box.right)];
	const [top, bottom] = [Math.max(0, box.top), Math.min(innerHeight, box.bottom)];
	let behind = right <= left || bottom <= top;
	if (!behind) {
		const seen = (y) => {
			const at = document.elementFromPoint((left + right) / 2, y);
			return at !== null && (e.contains(at) || at.contains(e));
		};
		behind = ![0.25, 0.5, 0.75].some((part) => seen(top + part * (bottom - top)));
	}
	return { Number: all.indexOf(e), What: e.outerHTML.slice(0, 120), Outline: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2, Hidden: behind };
})()`

// tabThrough goes through the page by the Tab key from its top and asserts that
// the focus gets to everything that can be operated, is always seen, and gets
// out again.
func (b *tab) tabThrough() {
	b.t.Helper()
	b.top()
	all := found[[]string](b, `[...document.querySelectorAll("a[href], button, select, input, textarea, [tabindex='0'], summary")]
		.map((e) => e.getClientRects().length > 0 && e.checkVisibility() && !e.disabled ? e.outerHTML.slice(0, 120) : "")`)
	reached := map[int]bool{}
	var order []int
	for range len(all) + 5 {
		b.press(kb.Tab)
		f := found[focused](b, whatIsFocused)
		if f.Number == -2 || reached[f.Number] {
			break // round
		}
		if f.Number >= 0 {
			reached[f.Number] = true
			order = append(order, f.Number)
		}
		assert.True(b.t, f.Outline, "its focus isn't seen: %s", f.What)
		assert.False(b.t, f.Hidden, "it has the focus out of sight: %s", f.What)
	}
	for i, what := range all {
		if what != "" {
			assert.True(b.t, reached[i], "the keyboard doesn't get to %s", what)
		}
	}
	assert.True(b.t, slices.IsSorted(order), "the focus goes down the page: %v", order)
}

// top puts the focus at the top of the page.
func (b *tab) top() {
	b.t.Helper()
	found[bool](b, `(() => {
		document.body.tabIndex = -1;
		document.body.focus();
		document.body.removeAttribute("tabindex");
		scrollTo(0, 0);
		return document.activeElement === document.body;
	})()`)
}

// tabTo presses Tab until what has the focus is what a selector finds.
func (b *tab) tabTo(selector string) {
	b.t.Helper()
	const most = 200
	for range most {
		b.press(kb.Tab)
		if found[bool](b, fmt.Sprintf("document.activeElement.matches(%q)", selector)) {
			return
		}
	}
	require.Fail(b.t, "the keyboard doesn't get to "+selector)
}
