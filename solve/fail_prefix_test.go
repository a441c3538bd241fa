package solve

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// What is taken as filed is what sweeping what is left again tells.
func TestAsFiledWithoutIsSweptAgain(t *testing.T) {
	texts := map[string]string{"levers": leversText(8)}
	for _, name := range []string{"pedals", "pedals-dual", "mixer", "sticks"} {
		text, err := os.ReadFile("../demo/" + name + ".hcl")
		require.NoError(t, err)
		texts[name] = string(text)
	}
	taken := 0
	for name, text := range texts {
		m := compiled(t, text)
		f := &failing{m: m}
		require.NoError(t, f.asFiled())
		for _, e := range f.elements() {
			var gone linkage.Element
			switch {
			case e.How == Seized:
				continue
			case e.Rod != nil:
				gone = e.Rod
			case e.Cable != nil:
				gone = e.Cable
			case e.Pivot != nil:
				gone = e.Pivot
			default:
				gone = e.Stop
			}
			r, err := f.without(gone)
			if err != nil || r.m == nil {
				continue
			}
			for _, k := range r.held.Controls {
				was := f.asFiledWithout(r, k)
				if was == nil {
					continue
				}
				taken++
				is := f.travelsOf(&Failure{}, r, k)
				require.NotNil(t, is, name)
				require.Equal(t, is.places, was.places)
				for i, w := range is.sweeps {
					old := was.sweeps[i]
					assert.Empty(t, w.Critical, name)
					for side := range 2 {
						assert.InDelta(t, w.Ends[side].At, old.Ends[side].At, 1e-9)
						assert.Equal(t, w.Ends[side].Cause, old.Ends[side].Cause)
						assert.Equal(t, w.Ends[side].Stop.Name, old.Ends[side].Stop.Name)
					}
					require.Len(t, old.Parts, len(w.Parts))
					require.Len(t, old.Outputs, len(w.Outputs))
					for j, p := range w.Parts {
						assert.Equal(t, p.Name, old.Parts[j].Name)
						assert.InDelta(t, p.Least, old.Parts[j].Least, 1e-9)
						assert.InDelta(t, p.Most, old.Parts[j].Most, 1e-9)
					}
					for j, o := range w.Outputs {
						assert.InDelta(t, o.Least, old.Outputs[j].Least, 1e-9)
						assert.InDelta(t, o.Most, old.Outputs[j].Most, 1e-9)
					}
				}
			}
		}
	}
	assert.Greater(t, taken, 10)
}
