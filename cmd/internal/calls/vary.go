package calls

import (
	"fmt"
	"math"
	"strconv"

	"fullfree/linkage"
)

// varied is what a page asks one thing that varies to be: a value of its range, or the
// number of one of its choices.
type varied struct {
	vary   *linkage.Vary
	values []float64
}

// variedAs finds what a page asks of what varies; those as filed are left out.
func (a *Asked) variedAs(run *linkage.Run) (list []varied, err error) {
	known := map[string]bool{}
	for _, v := range run.Varies {
		known[v.Of] = true
		at, ok := a.Varies[v.Of]
		if !ok {
			continue
		}
		values := []float64{at}
		switch {
		case v.Among != nil:
			if at != math.Trunc(at) || at < 0 || at >= float64(len(v.Among)) {
				return nil, fmt.Errorf("%s has %d places to choose from, and number %g is asked for", linkage.Printable(v.Of), len(v.Among), at)
			}
			values = v.Among[int(at)]
		case !(at >= v.Low && at <= v.High):
			return nil, fmt.Errorf("%s may vary from %g to %g, and %g is asked for", linkage.Printable(v.Of), v.Low, v.High, at)
		}
		for i, filed := range v.Filed() {
			if values[i] != filed {
				list = append(list, varied{v, values})
				break
			}
		}
	}
	for name := range a.Varies {
		if !known[name] {
			return nil, fmt.Errorf("nothing that may vary is called %q", linkage.Printable(name))
		}
	}
	return list, nil
}

// runVaried is the run with all that set, but for what edits are to set in it.
func runVaried(run *linkage.Run, list []varied) (now *linkage.Run, edits []linkage.Edit, err error) {
	var set []linkage.Setting
	for _, v := range list {
		for i, n := range v.vary.Numbers {
			if n.Rereads() {
				set = append(set, linkage.Setting{Dimension: n.String(), Value: strconv.FormatFloat(v.values[i], 'f', -1, 64)})
			} else {
				edits = append(edits, linkage.SetNumber(n, v.values[i]))
			}
		}
	}
	if len(set) > 0 {
		if run, err = run.Reread(set...); err != nil {
			return nil, nil, WithoutPlaces(err, "set so, ")
		}
	}
	return run, edits, nil
}

// variedNumbers lists the numbers of a file that change with all that.
func variedNumbers(list []varied) (changes []linkage.Change) {
	for _, v := range list {
		for i, n := range v.vary.Numbers {
			if v.values[i] != n.Value() {
				changes = append(changes, linkage.Change{Dimension: n.String(), Value: v.values[i]})
			}
		}
	}
	return changes
}
