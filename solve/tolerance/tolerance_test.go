package tolerance_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fullfree/solve/tolerance"
)

func TestTmp(t *testing.T) {
	m := compiled(t, demo(t, "pedals")+halfWidths)
	at := time.Now()
	a, err := tolerance.Run(m, tolerance.Options{Builds: 20000, Seed: 1})
	require.NoError(t, err)
	t.Log(time.Since(at), a.Builds, a.Open, a.Everywhere, a.Missed, a.Redone)
	for _, o := range a.Outcomes {
		lin := -1.0
		if o.Linear != nil {
			lin = *o.Linear
		}
		t.Log(o.Requirement.Kind, o.Requirement.Name, o.Share, o.Low, o.High, o.Percentiles, lin, o.Untold)
		if o.Worst != nil {
			t.Log("  ", o.Worst.Value, o.Worst.Number)
		}
		if len(o.Blame) > 5 {
			o.Blame = o.Blame[:5]
		}
		t.Log("  ", o.Blame)
	}
	for _, k := range a.Alone {
		mi, pl := -1.0, -1.0
		if k.Minus != nil {
			mi = *k.Minus
		}
		if k.Plus != nil {
			pl = *k.Plus
		}
		t.Log(k.Dimension, k.By, mi, pl, k.MinusFails, k.PlusFails)
	}
}
