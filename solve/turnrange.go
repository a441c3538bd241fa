// Layer: values.

package solve

import (
	"math"

	"fullfree/linkage"
)

// TurnRange is between which turns out of its rod an end may be set by the thread that
// there is, as filed 0; of a barrel, whose other end turns with it, by the thread of
// both. Where no most is told an end goes in by furthest turns, and never beyond its
// shank. low is more than high where there is no room.
func TurnRange(e *linkage.RodEnd, furthest float64) (low, high float64) {
	if e == nil || e.Rod == nil {
		return 0, 0
	}
	low, high = math.Inf(-1), math.Inf(1)
	for _, k := range e.Rod.Ends {
		if k != e && !e.Rod.Barrel() {
			continue
		}
		out := (k.Engaged - k.Least) / k.Thread.Pitch
		in := math.Inf(1)
		if k.Most == nil {
			in = furthest
		}
		for _, end := range []*float64{k.Most, k.Shank} {
			if end != nil {
				in = math.Min(in, (*end-k.Engaged)/k.Thread.Pitch)
			}
		}
		if k != e && k.Left == e.Left { // it goes in as the other comes out
			out, in = in, out
		}
		low, high = math.Max(low, -in), math.Min(high, out)
	}
	return low, high
}
