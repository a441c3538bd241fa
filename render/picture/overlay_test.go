package picture

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// turnedVariant judges a demo with one rod end turned.
func turnedVariant(t *testing.T, kind, end string, turns float64) render.Variant {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: kind + ".hcl", Text: []byte(sample.DemoText(t, kind))})
	require.NoError(t, err)
	v := render.Variant{Name: render.AsFiled}
	for _, e := range render.RodEnds(run) {
		if e.String() == end {
			run, err = run.With(linkage.Turn(e, turns))
			require.NoError(t, err)
			v.Name, v.Turned = end, []render.Turned{{End: run.RodEnd(e), Turns: turns}}
		}
	}
	m, err := solve.Compile(run)
	require.NoError(t, err)
	v.Result, err = m.Check()
	require.NoError(t, err)
	return v
}

func unequalVariants(t *testing.T) []render.Variant {
	t.Helper()
	list := []render.Variant{turnedVariant(t, demo.Unequal, "", 0), turnedVariant(t, demo.Unequal, "right-link.from", -1.5), turnedVariant(t, demo.Unequal, "left-link.from", 1.5)}
	list[1].Name, list[2].Name = "right-link.from=-1.5", "left-link.from=+1.5"
	return list
}

// Every letter of a setting stands in a picture in which it stands elsewhere than
// the others, and what is read off the picture is what the results tell.
func TestOverlayLettersWhatDiffers(t *testing.T) {
	variants := unequalVariants(t)
	o, err := newOverlay(variants, DiagramOptions{})
	require.NoError(t, err)
	seen := texts(&o.scene)
	for i, v := range variants {
		assert.GreaterOrEqual(t, seen[figure.Letter(i)], 1+3+3, "in the key, over each table and in each picture")
		assert.Contains(t, o.story(), "Setting "+figure.Letter(i)+", "+v.Name)
	}
	assertClear(t, &o.scene)
	sample.WellFormed(t, overlaid(t, variants))
}

func overlaid(t *testing.T, variants []render.Variant) string {
	t.Helper()
	hash := sha256.Sum256(variants[0].Result.Run.Source.Text)
	var b strings.Builder
	require.NoError(t, Overlay(&b, variants, DiagramOptions{Hash: hex.EncodeToString(hash[:])}))
	return b.String()
}

// Where nothing is turned, all lie on each other and need no letters.
func TestOverlayOfTheSame(t *testing.T) {
	same := turnedVariant(t, demo.Unequal, "", 0)
	o, err := newOverlay([]render.Variant{same, same}, DiagramOptions{})
	require.NoError(t, err)
	assert.Equal(t, 1+3, texts(&o.scene)["A"], "in the key and over each table")
}

func TestOverlayOfTooMany(t *testing.T) {
	same := turnedVariant(t, demo.Unequal, "", 0)
	_, err := newOverlay([]render.Variant{same, same, same, same, same, same}, DiagramOptions{})
	assert.EqualError(t, err, "5 settings over one another can't be read: draw at most 4 at once")
}

func TestGoldenOverlay(t *testing.T) {
	got := overlaid(t, unequalVariants(t))
	assert.Equal(t, got, overlaid(t, unequalVariants(t)), "the same bytes each time")
	path := filepath.Join(sample.Testdata(t), "golden", demo.Unequal+"-compare.svg")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "go test ./render/picture -update writes it")
	if string(want) != got {
		assert.Fail(t, "the picture changed", "first difference: %s", firstDifference(string(want), got))
	}
}

func TestLettersOfManyVariants(t *testing.T) {
	assert.Equal(t, []string{"A", "Z", "AA", "AB", "BA"}, []string{figure.Letter(0), figure.Letter(25), figure.Letter(26), figure.Letter(27), figure.Letter(52)})
}
