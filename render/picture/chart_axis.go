package picture

import (
	"math"
	"slices"

	"fullfree/linkage/elementary"
	"fullfree/render/figure"
	"fullfree/solve"
)

// tick is a round value on an axis.
type tick struct {
	at   float64
	says string
}

// ticks returns the round values from low to high, at most so many: multiples of
// 1, 2 or 5 times a power of ten.
func ticks(low, high float64, most int) []tick {
	if !(low < high) || most < 2 {
		return nil
	}
	// What of a step a limit may be short of a tick by rounding.
	const slack = 1e-9
	ten := elementary.Decade((high - low) / float64(most))
	for ; ; ten++ {
		for _, k := range []float64{1, 2, 5} {
			step := float64(k * math.Pow10(ten))
			first, last := math.Ceil(low/step-slack), math.Floor(high/step+slack)
			if last-first+1 > float64(most) {
				continue
			}
			var list []tick
			for i := first; i <= last; i++ {
				// Divided, not multiplied by a tenth: 3 * 0.1 is no 0.3.
				at := float64(i * k)
				if ten < 0 {
					at /= math.Pow10(-ten)
				} else {
					at = float64(at * math.Pow10(ten))
				}
				list = append(list, tick{at, figure.Decimal(at, max(0, -ten))})
			}
			return list
		}
	}
}

// plotRange returns which positions of the control lie at the edges of a plot:
// a little beyond the travel, and as far as to on-center points that are near.
func plotRange(s *solve.Sweep) (low, high float64) {
	const (
		beyond = 0.04 // of the travel
		near   = 0.2  // of the travel: what lies farther is left to the diagram
	)
	travel := s.High - s.Low
	if travel == 0 {
		return s.Low - 1, s.High + 1
	}
	low, high = s.Low, s.High
	for _, f := range flagsOf(s) {
		if f.At < s.Low && f.At >= s.Low-float64(near*travel) {
			low = math.Min(low, f.At)
		}
		if f.At > s.High && f.At <= s.High+float64(near*travel) {
			high = math.Max(high, f.At)
		}
	}
	return low - float64(beyond*travel), high + float64(beyond*travel)
}

// valueRange returns the values at the lower and upper edge of the plot.
func (c *chart) valueRange() (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	top := c.ceiling()
	take := func(v float64) {
		if math.Abs(v) <= top {
			least, most = math.Min(least, v), math.Max(most, v)
		}
	}
	for i := range c.lines {
		for k := range c.course.Samples {
			if v := c.value(&c.lines[i], k); v != nil {
				take(*v)
			}
		}
	}
	top = math.Inf(1)
	for _, l := range c.limits {
		take(l.at - l.within)
		take(l.at + l.within)
	}
	if least > most {
		return -1, 1
	}
	if room := c.leastRoom(math.Max(math.Abs(least), math.Abs(most))); most-least < room {
		middle := least + (most-least)/2
		least, most = middle-room/2, middle+room/2
	}
	const pad = 0.15 // of the range: a value finds room between the last line and the frame
	return least - float64(pad*(most-least)), most + float64(pad*(most-least))
}

// leastRoom is the least range of values that is worth a whole plot, so that
// what hardly changes is seen hardly to change.
func (c *chart) leastRoom(size float64) float64 {
	const (
		share    = 0.01
		rounding = 1e-9 // share that is nothing at all
		hardly   = 1e-4 // of any unit, and of ratios, less than is ever told
	)
	switch {
	case size == 0 || c.unit == "deg" && len(c.limits) == 0:
		return 1
	case len(c.limits) > 0:
		return float64(rounding * size) // what is asked for gives the scale
	}
	return math.Max(hardly, float64(share*size))
}

// ceiling is the largest size of a value that the plot has room for: beside a
// toggle a ratio runs away, and would press the rest flat.
func (c *chart) ceiling() float64 {
	const (
		usual  = 0.9 // of the travel the values are no larger than usual
		larger = 2.5 // times the usual: the rest runs away
		places = 200
	)
	if !c.runaway {
		return math.Inf(1)
	}
	most, top := 0.0, 0.0
	for i := range c.lines {
		l := &c.lines[i]
		var sizes []float64
		for n := range places {
			x := c.sweep.Low + float64((c.sweep.High-c.sweep.Low)*(float64(n)+0.5)/places)
			if v, ok := c.between(l, x); ok {
				sizes = append(sizes, math.Abs(v))
			}
		}
		for k := range c.course.Samples {
			if v := c.value(l, k); v != nil {
				most = math.Max(most, math.Abs(*v))
			}
		}
		top = math.Max(top, larger*shareOf(sizes, usual))
	}
	if top == 0 || most <= top {
		return math.Inf(1)
	}
	return top
}

// shareOf returns what a share of some figures is no larger than.
func shareOf(figures []float64, share float64) float64 {
	if len(figures) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(figures))
	return sorted[int(share*float64(len(sorted)-1))]
}

// between returns a line's value at x, straight between the positions of the
// course; false where it is broken.
func (c *chart) between(l *chartLine, x float64) (float64, bool) {
	list := c.course.Samples
	for k := range list {
		v := c.value(l, k)
		if list[k].At == x && v != nil {
			return *v, true
		}
		if k+1 == len(list) || x < list[k].At || x > list[k+1].At {
			continue
		}
		if next := c.value(l, k+1); v != nil && next != nil {
			return *v + float64((*next-*v)*(x-list[k].At)/(list[k+1].At-list[k].At)), true
		}
	}
	return 0, false
}
