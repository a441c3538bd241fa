package page

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/internal/sample"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// A wire that passes through a witness hole means that the thread doesn't reach
// it: too little is in. The hole is in the piece with the internal thread, and not
// every rod has one (US Army TM 1-1500-204-23-1: threads are seen in the witness
// hole, and a wire of 0.020 in must not pass). Wherever thread is told, so is that.
func TestWitnessHole(t *testing.T) {
	text := sample.DemoText(t, "pedals-unequal")
	run, err := linkage.Read(&linkage.Source{Name: "pedals-unequal.hcl", Text: []byte(text)})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)

	var check, rods, effect, compare, rigged bytes.Buffer
	require.NoError(t, render.Report(&check, "f", r, render.ReportOptions{}))
	require.NoError(t, render.RodsReport(&rods, "f", run, nil, m.Pinned()))
	require.NoError(t, render.EffectReport(&effect, "f", r, render.Effects{Rods: effectsOf(t, m, r)}, true))
	require.NoError(t, render.CompareReport(&compare, "f", []render.Variant{{Name: render.AsFiled, Result: r}}))
	require.NoError(t, render.RigReport(&rigged, "f", run, found, render.RigOptions{Full: true}))
	said := map[string]string{
		"check": check.String(), "rods": rods.String(), "effect": effect.String(), "compare": compare.String(), "rig": rigged.String(),
		"page": strings.Join(workbenchScope(Workbench{File: "f", Filed: render.Variant{Result: r}}), " "),
	}
	for where, text := range said {
		text = strings.Join(strings.Fields(text), " ")
		for _, words := range []string{
			"Where the internally threaded piece has a witness hole, push a wire of 0.020 in (0.5 mm) into that: the thread screwed in must block it.",
			"If the wire passes, the thread doesn't reach the hole, and too little is in.",
			"Where there is no such hole, measure the thread that shows",
			"Tighten the check nut against the rod last",
		} {
			assert.Contains(t, text, words, where)
		}
	}
	s := sheetFor(t, "pedals-unequal.hcl", text)
	assert.Contains(t, s.step(t, "Every joint").Says[0], "where the internally threaded piece has a witness hole, a wire of 0.020 in (0.5 mm) must be blocked; where it has none, the thread that shows is measured")
}
