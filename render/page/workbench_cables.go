package page

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
)

// workbenchNutOf is the nuts of a conduit end as a row of the workbench.
func workbenchNutOf(e *linkage.CableEnd) workbenchEndJSON {
	at := e.Cable.Conduit[0]
	if e.Side == "conduit-to" {
		at = e.Cable.Conduit[1]
	}
	out := workbenchEndJSON{
		Name: e.String(), Label: fmt.Sprintf("%s, the nuts at %s", e, at), Thread: render.NutThread(e),
	}
	out.Step, out.Goes = workbenchStep(e.Step)
	return out
}

// workbenchNutsSay tells what turns of nuts do, and what can't be saved; nothing
// where a run has none.
func workbenchNutsSay(run *linkage.Run) []string {
	ends := render.CableEnds(run)
	if len(ends) == 0 {
		return nil
	}
	said := []string{render.NutsCounted}
	for _, e := range ends {
		if e.Cable.Pair != nil {
			return append(said, "Nuts of a pair can be tried, not saved: the file tells how tight they are drawn as the pair's pretension.")
		}
	}
	return said
}

// exampleNut is what to write into a cable so that there are nuts to turn.
func exampleNut(units linkage.Unit) string {
	return exampleOf(units, "conduit-from", "14", "9/16", "the nuts")
}

// trialNutOf tells how nuts are set in a trial, and how tight that draws what
// they are of.
func trialNutOf(t Trial, e, filed *linkage.CableEnd) trialEndJSON {
	unit := t.Now.Result.Run.UnitsOf(e.Cable.In)
	out := trialEndJSON{
		Name: e.String(), In: "the nuts", Of: "core outside the conduit, unloaded",
		Length: figure.Calipers(*render.CoreOf(e.Cable), unit), Filed: figure.Calipers(*render.CoreOf(filed.Cable), unit), Pulls: []trialPullJSON{},
		Thread: []trialThreadJSON{{e.String(), figure.Calipers(e.Engaged, unit), figure.Calipers(filed.Engaged, unit), figure.Calipers(e.Least, unit), threadFault(t.Now.Result, e.String())}},
	}
	if e.Cable.Pair == nil {
		return out
	}
	for _, c := range e.Cable.Pair.Cables {
		out.Pulls = append(out.Pulls, trialPullJSON{figure.Clean(c.Name), pullOf(t.Now.Result, c.Index), pullOf(t.Filed.Result, c.Index)})
	}
	return out
}

// pullOf is how tight a cable of a pair is at neutral.
func pullOf(r *solve.Result, i int) string {
	if len(r.Sweeps) == 0 || r.Sweeps[0].Cables[i].Neutral == nil {
		return nothing
	}
	c := &r.Sweeps[0].Cables[i]
	return figure.Quantity(*c.Neutral, c.Unit)
}
