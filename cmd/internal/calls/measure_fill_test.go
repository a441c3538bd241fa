package calls_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/linkage/outline"
)

// foreignText is a file that the form didn't write, with so many measurements of its own.
func foreignText(measurements string) string {
	return "run \"x\" {\n  units = \"mm\"\n  sketch = 3\n  symmetry = \"y\"\n}\ndims \"d\" {\n  arm = 7\n}\nfixed \"f\" {\n  exact = true\n  points = { a = [0, 0] }\n}\n" +
		"part \"p\" {\n  pivot = f.a\n  points = { h = [5, 5], k = [-3, 2] }\n}\ncontrol \"c\" {\n  of = p\n}\n" + measurements
}

// takenUp is what a page holds of a text: what "outline" answers.
func takenUp(t *testing.T, text string) []outline.Entry {
	t.Helper()
	answer := calls.NewDesk().Answer("outline", []byte(`{"text":`+quote(t, text)+`}`))
	var told struct{ Taped []outline.Entry }
	require.NoError(t, json.Unmarshal(answer.Body, &told))
	return told.Taped
}

// What stands in a file that the form didn't write stays as it stands there, however it is
// written, unless it is typed over.
func TestMeasureLeavesWhatStandsInAFile(t *testing.T) {
	text := foreignText(`
taped "one" {
  from = f.a
  to = p.h
  is = d.arm + 0.1
  within = 0.1
}
taped "again" {
  from = p.h
  to = f.a
  is = 7.3 # read twice
  within = 0.1
}
taped "two" {
  from = p.k
  to = f.a
  is = 4-1/4
  within = 0.1
}
taped "three" {
  from = p.k
  to = p.h
  is = blank
  within = 0.1
}
`)
	entries := takenUp(t, text)
	require.Len(t, entries, 4)
	a := ask(t, "measure", asking{Text: text, Taped: entries})
	assert.Empty(t, a.Faults)
	assert.Equal(t, text, a.Text)

	entries[1].Is, entries[3].Is = "7.2", "8 1/2"
	a = ask(t, "measure", asking{Text: text, Taped: entries})
	assert.Empty(t, a.Faults)
	assert.Equal(t, strings.Replace(strings.Replace(text, "7.3", "7.2", 1), "blank", "8 + 1/2", 1), a.Text)

	entries[2].Is = "4 - 1/4"
	a = ask(t, "measure", asking{Text: text, Taped: entries})
	require.Len(t, a.Faults, 1)
	assert.Equal(t, "taped.2.is", a.Faults[0].At)
}

// TestHuntFillingIn fills in files written in all ways that a file may be: nothing is changed
// but what was typed, where it was typed.
func TestHuntFillingIn(t *testing.T) {
	written := []string{"blank", "7", "d.arm", "7.2", "d.arm + 1/8", "(6 + 1/2)", "7-1/4", "7 - 1/4", "1e1", "06.5"}
	places := []string{"f.a", "p.h", "p.k", "m.h", "m.k"}
	hunt.Each(t, 60, func(t *testing.T, random *rand.Rand) {
		var b strings.Builder
		b.WriteString("part \"m\" { mirror = p }\n")
		if random.IntN(2) == 0 {
			b.Reset()
			b.WriteString("part \"m\" {\n  pivot = [9, 0]\n  points = { h = [15, 5], k = [6, 2] }\n}\n")
		}
		var is []string
		for i := range 1 + random.IntN(6) {
			from, to := random.IntN(len(places)), random.IntN(len(places)-1)
			if to >= from {
				to++
			}
			is = append(is, written[random.IntN(len(written))])
			tab := []string{"  ", "\t"}[random.IntN(2)]
			fmt.Fprintf(&b, "taped \"n%d\" {\n%sfrom = %s\n%sto = %s\n%sis = %s # é blank\n%swithin = 0.1\n}\n", i, tab, places[from], tab, places[to], tab, is[i], tab)
		}
		text := foreignText(b.String())
		if random.IntN(2) == 0 {
			text = strings.ReplaceAll(text, "\n", "\r\n")
		}
		if random.IntN(3) == 0 {
			text = "\ufeff" + text
		}
		if _, err := linkage.Read(&linkage.Source{Text: []byte(text)}); err != nil {
			fmt.Println(err)
			return // what it may hold is tried elsewhere
		}
		entries := takenUp(t, text)
		require.Len(t, entries, len(is), text)
		for i := range is {
			if is[i] != "blank" {
				require.Equal(t, is[i], entries[i].Is, text)
			}
		}
		changed := random.IntN(len(is))
		entries[changed].Is = "12.34"
		a := ask(t, "measure", asking{Text: text, Taped: entries})
		require.NotEmpty(t, a.Text, "%v\n%s", a.Faults, text)
		want, at := "", 0
		for i, one := range is { // the changed one's figure stands behind its own block's name
			start := strings.Index(text[at:], fmt.Sprintf("\"n%d\"", i)) + at
			start += strings.Index(text[start:], "is =") + len("is =") + 1
			want += text[at:start]
			if at = start; i == changed {
				want, at = want+"12.34", start+len(one)
			}
		}
		want += text[at:]
		require.Equal(t, want, a.Text)
	})
}

// A line that is measured twice is told of, and neither figure is lost.
func TestMeasureALineTwice(t *testing.T) {
	ours := asking{Outline: flapLever(), Taped: []outline.Entry{
		{Kind: linkage.Taped, From: "airframe.shaft", To: "lever.horn", Is: "50"},
		{Kind: linkage.Taped, From: "lever.horn", To: "airframe.shaft", Is: "51"},
	}}
	a := ask(t, "measure", ours)
	require.Len(t, a.Faults, 1)
	assert.Equal(t, "taped.1.is", a.Faults[0].At)

	ours.Taped = ours.Taped[:1]
	text := strings.Replace(ask(t, "measure", ours).Text, "\n"+outline.Foot, "\ntaped \"lever.horn to airframe.shaft\" {\n  from   = lever.horn\n  to     = datum.shaft\n  is     = 51\n  within = 1\n}\n\n"+outline.Foot, 1)
	entries := takenUp(t, text)
	a = ask(t, "measure", asking{Text: text, Taped: entries})
	assert.Empty(t, a.Faults)
	assert.Equal(t, text, a.Text)
	var is []string
	for _, e := range a.Entries {
		if e.Is != "" {
			is = append(is, e.Is)
		}
	}
	assert.Equal(t, []string{"50", "51"}, is)
}

// A figure that can't be is told at its field, and takes nothing else away.
func TestMeasureTellsAFigureAtItsField(t *testing.T) {
	for _, e := range []outline.Entry{
		{Kind: linkage.Gauged, From: "lever.horn", To: "lever.hand", Is: "361"},
		{Kind: linkage.Taped, From: "lever.horn", To: "lever.horn", Is: "5"},
		{Kind: linkage.Taped, From: "lever.horn", To: "lever.hand", Is: "0"},
	} {
		a := ask(t, "measure", asking{Outline: flapLever(), Taped: []outline.Entry{e}})
		require.Len(t, a.Faults, 1)
		assert.Equal(t, "taped.0.is", a.Faults[0].At)
		assert.NotEmpty(t, a.Entries)
	}
}

// Whatever a page asks is answered before anybody thinks that it hangs.
func TestMeasureOfTooMuchIsToldAtOnce(t *testing.T) {
	const many, long = 20000, 5 * time.Second
	parts, rods := flapLever(), flapLever()
	var entries []outline.Entry
	for i := many; i > 0; i-- { // each is carried by the next one
		parts.Parts = append(parts.Parts, outline.Part{Name: fmt.Sprintf("q%d", i), Kind: outline.Turns, On: fmt.Sprintf("q%d.a", i-1), Holes: []outline.Place{{Name: "a", X: fmt.Sprint(i), Y: "5"}}})
		rods.Rods = append(rods.Rods, outline.Rod{Name: fmt.Sprintf("r%d", i), From: "lever.horn", To: "flap.horn"})
		entries = append(entries, outline.Entry{Kind: linkage.Taped, From: "lever.horn", To: fmt.Sprintf("q%d.a", i), Is: "5"})
	}
	text := ask(t, "measure", asking{Outline: flapLever()}).Text
	for _, body := range []asking{{Outline: parts}, {Outline: rods}, {Outline: flapLever(), Taped: entries}, {Outline: flapLever(), Skip: entries}, {Text: text, Taped: entries}} {
		begun := time.Now()
		a := ask(t, "measure", body)
		assert.Less(t, time.Since(begun), long)
		require.Len(t, a.Faults, 1)
		assert.Contains(t, a.Faults[0].Says, "more than can be measured at once")
	}
}
