// Layer: verdict.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// A run may be symmetrical without its two sides ever moving alike: a differential
// aileron goes further up than down. What is held against each other then is the one at x
// of the control and the other at -x, over as much of the travel as both signs have.

// mirrorSearch looks for the largest difference between two quantities that mirror each
// other in one sweep.
type mirrorSearch struct {
	s      *sweeper
	j      *judgedProbe
	sign   float64
	noise  float64
	common float64 // how far the travel goes to either sign, of the control
	solved map[float64]mirrorPoint

	least, most float64 // of the difference, as far as was looked
	worst, at   float64
}

// judgeSymmetrical judges that a at x moves as b does at -x.
func (m *Mechanism) judgeSymmetrical(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	for _, s := range about {
		k := s.probeOf(i)
		j.Unit = k.unit
		w := &mirrorSearch{
			s: s, j: &k, sign: mirrorSign(r), noise: 2 * s.p.probes[k.probe].noise,
			common: s.commonTravel(), solved: make(map[float64]mirrorPoint),
			least: math.Inf(1), most: math.Inf(-1),
		}
		if w.common == 0 {
			continue // it goes to one side alone, where nothing mirrors it
		}
		w.look()
		at := &w.at
		if w.most-w.least <= 4*w.noise {
			at = nil
		}
		if j.worse(w.worst, at, s.sweep.Index, 1) {
			j.Reaches = w.common
		}
	}
	if j.Worst == nil {
		j.Why = OneSided
	}
	j.decide(r.Within, 1)
	return j
}

// commonTravel is how far the travel goes to either sign of the control.
func (s *sweeper) commonTravel() float64 {
	return math.Min(math.Abs(s.sides[0].end.x), math.Abs(s.sides[1].end.x))
}

// look goes outward over every place at which either side has a sample.
func (w *mirrorSearch) look() {
	low, high := w.j.stretches[0], w.j.stretches[1]
	places := []float64{0, w.common}
	for _, side := range w.j.stretches {
		for _, k := range side {
			if x := math.Abs(k[1].x); x < w.common {
				places = append(places, x)
			}
		}
	}
	slices.Sort(places)
	places = slices.Compact(places)
	w.consider(w.differ(w.pointAt(0), w.pointAt(0), 1))
	for i := 1; i < len(places); i++ {
		for len(low) > 1 && math.Abs(low[0][1].x) <= places[i-1] {
			low = low[1:]
		}
		for len(high) > 1 && high[0][1].x <= places[i-1] {
			high = high[1:]
		}
		from := [2]mirrorPoint{w.end(&low[0], -places[i-1]), w.end(&high[0], places[i-1])}
		to := [2]mirrorPoint{w.end(&low[0], -places[i]), w.end(&high[0], places[i])}
		for _, dir := range []float64{1, -1} {
			a, b := w.differ(from[0], from[1], dir), w.differ(to[0], to[1], dir)
			w.consider(b)
			w.between(a, b, dir)
		}
	}
}

// end is what there is at a place of a stretch.
func (w *mirrorSearch) end(k *mirrorStretch, x float64) mirrorPoint {
	switch x {
	case k[0].x:
		return k[0]
	case k[1].x:
		return k[1]
	}
	return w.pointAt(x)
}

// pointAt solves the pose at x; its values are no numbers where that doesn't close.
func (w *mirrorSearch) pointAt(x float64) mirrorPoint {
	if k, ok := w.solved[x]; ok {
		return k
	}
	k := mirrorPoint{x: x, v: [2]float64{math.NaN(), math.NaN()}}
	if p := w.s.p; w.s.solveAt(x) {
		p.m.differentiate(&p.st, p.rates, p.input)
		k.v[0], k.dv[0] = p.probes[w.j.probe].value(p)
		k.v[1], k.dv[1] = p.probes[w.j.second].value(p)
		k.valid = p.rates.valid
	}
	w.solved[x] = k
	return k
}

// differ is the difference at dir times how far out the points lie: of the first there
// and the second at the other sign.
func (w *mirrorSearch) differ(low, high mirrorPoint, dir float64) mirrorPoint {
	a, b := high, low
	if dir < 0 {
		a, b = low, high
	}
	k := mirrorPoint{x: a.x, valid: a.valid && b.valid}
	k.v[0] = a.v[0] + float64(w.sign*b.v[1])
	k.dv[0] = a.dv[0] - float64(w.sign*b.dv[1])
	return k
}

func (w *mirrorSearch) consider(k mirrorPoint) {
	v := k.v[0]
	if math.IsNaN(v) {
		return
	}
	w.least, w.most = math.Min(w.least, v), math.Max(w.most, v)
	if math.Abs(v) > w.worst+w.noise {
		w.worst, w.at = math.Abs(v), k.x
	}
}

// between takes in an extreme of the difference that lies between two places.
func (w *mirrorSearch) between(a, b mirrorPoint, dir float64) {
	if !a.valid || !b.valid || math.Signbit(a.dv[0]) == math.Signbit(b.dv[0]) || a.dv[0] == 0 || b.dv[0] == 0 {
		return
	}
	h := math.Abs(b.x - a.x)
	rise := float64(h * math.Max(math.Abs(a.dv[0]), math.Abs(b.dv[0])))
	if rise <= w.noise || math.Max(math.Abs(a.v[0]), math.Abs(b.v[0]))+rise <= w.worst+w.noise {
		return
	}
	at := func(x float64) mirrorPoint {
		out := math.Abs(x)
		return w.differ(w.pointAt(-out), w.pointAt(out), dir)
	}
	x := num.Root(func(x float64) float64 {
		if k := at(x); k.valid {
			return k.dv[0]
		}
		return 0
	}, a.x, a.dv[0], b.x, b.dv[0])
	w.consider(at(x))
}
