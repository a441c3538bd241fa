// Layer: gradient.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// How far a control can be rocked while what it moves is held, and an output while the
// hand is held. The centers of the joints may lie anywhere within half their play, so a
// figure moves by half of each joint's play times how it goes with that joint, at most by
// the sum of these, either way: by the derivatives, since plays are small beside arms.
// The force that such a derivative is (see adjoint.go) is what the joint carries: at a
// rod's end it is along the rod, at a pivot the sum of what pulls on the part, which may
// have any direction. It is bare play: nothing bends, and nothing is pressed to one side.

// FreePlay is how far a control or an output can be rocked, from one end of the rock to
// the other.
type FreePlay struct {
	// Of is a control, the outputs held; or an output, the control held.
	Of   linkage.Subject
	Unit linkage.Unit
	// AtNeutral is that at neutral in the worst case, all joints lying off against each
	// other; nil where it can't be told, as with the run on center.
	AtNeutral *float64
	// Most is the most anywhere in the travel, with the control at At, which is nil where
	// it is the same everywhere. Most is nil where it can't be told somewhere.
	Most, At *float64
	// Least is how much it is there at the least, where two drawings of an aircraft show one
	// joint and don't say how they lie to each other; nil where Most is known.
	Least *float64
	// RSS is as many joints mostly come to, the root of the sum of their squares, there.
	RSS *float64
	// HeldBy is for a control the output that holds it there: of several the one that lets
	// it go least.
	HeldBy *linkage.Output
	// Point is where a hand or a gauge is, as far as that is known, and AtPoint what Most
	// is there, run units; nil where the figure is a length already.
	Point   *linkage.PointRef
	AtPoint *float64
	Joints  []JointShare // of Most, the largest first
}

// JointShare is how much of a rock one joint makes, from one end to the other.
type JointShare struct {
	PlayJoint
	By float64
}

const (
	// playPlaces is in how many stretches a travel is looked at for where play is most.
	playPlaces = 48
	// coarsePlaces is that of a build, where it is most in a place much like that of the run
	// as drawn.
	coarsePlaces = 4
	// playCloser bounds how often is looked closer beside the most, and playNear is how near
	// to its place it is enough, as a share of the stretch: there a most that is smooth has
	// all its digits.
	playCloser = 40
	playNear   = 1e-7
	// playSame is the share by which play differs along a travel and is still the same:
	// what is left of the pose's own rounding.
	playSame = 1e-9
)

// rock is how far something can be rocked at a place.
type rock struct {
	whole, rss float64
	least      float64 // of whole, where two drawings of one joint don't tell
	held       *linkage.Output
	joints     []float64 // by joint of the slots: whole
}

// rocker finds rocks along a sweep.
type rocker struct {
	g     *gradients
	room  *sums
	seeds []seed // by output
	moved []bool // by output: the control moves it at all
}

// freePlay finds the free play of the control and of every output in a sweep; none where
// no joint gives.
func (s *sweeper) freePlay() []FreePlay {
	m := s.m
	if !m.run.HasPlay() {
		return nil
	}
	r := &rocker{g: s.gradients(m.jointSlots())}
	r.room = m.newSums(r.g.slots)
	for i, o := range m.run.Outputs {
		k := m.outputMeasure(o)
		r.seeds = append(r.seeds, k.seed(o.Point))
		t := s.trackers[s.ratios[i]]
		r.moved = append(r.moved, math.Max(math.Abs(t.least), math.Abs(t.most)) > s.p.probes[s.ratios[i]].noise)
	}
	var list []FreePlay
	if c := s.sweep.Control; slices.Contains(r.moved, true) && s.judgesPlay(linkage.Subject{Control: c}) {
		f := FreePlay{Of: linkage.Subject{Control: c}, Unit: s.sweep.Unit, Point: c.Grip}
		r.along(&f, r.ofControl)
		if f.Point != nil && f.Most != nil && c.Of.Angular() {
			f.AtPoint = r.atPoint(*f.Point, c.Of, *f.Most)
		}
		list = append(list, f)
	}
	for i, o := range m.run.Outputs {
		if !s.judgesPlay(linkage.Subject{Output: o}) {
			continue
		}
		f := FreePlay{Of: linkage.Subject{Output: o}, Unit: s.sweep.Outputs[i].Unit, Point: o.SeenAt}
		r.along(&f, func(x float64) *rock { return r.ofOutput(i, x) })
		if o.Angular() && f.Point != nil && f.Most != nil {
			f.AtPoint = r.atPoint(*f.Point, o.Part, *f.Most)
		}
		list = append(list, f)
	}
	return list
}

// jointSlots are those of the run: of builds the same from one to the next.
func (m *Mechanism) jointSlots() *slots {
	switch {
	case m.room == nil:
		return newJointSlots(m.run)
	case m.room.joints == nil:
		m.room.joints = newJointSlots(m.run)
	}
	return m.room.joints
}

// judgesPlay reports whether the free play of something is told: of a build only what is
// required.
func (s *sweeper) judgesPlay(of linkage.Subject) bool {
	return !s.m.lean || slices.ContainsFunc(s.m.run.Requirements, func(r *linkage.Requirement) bool {
		return r.Kind == linkage.FreePlay && r.Of[0] == of
	})
}

// atPoint is what a turn of a part comes to at a point of it; nil where the point is on
// another.
func (r *rocker) atPoint(point linkage.PointRef, part *linkage.Part, turn float64) *float64 {
	if point.Part != part {
		return nil
	}
	away := point.Get().At.Sub(part.Pivot)
	if part.Motion == linkage.Floats {
		return nil
	}
	v := float64(perpendicular(away, part.Axis).Norm() * turn * degree)
	return &v
}

// along looks for where a rock is most.
func (r *rocker) along(f *FreePlay, of func(x float64) *rock) {
	w := r.g.s.sweep
	neutral := of(0)
	if neutral != nil {
		f.AtNeutral = &neutral.whole
	}
	places := []float64{w.Low, 0, w.High}
	stretches := playPlaces
	if r.g.m.coarse {
		stretches = coarsePlaces
	}
	for i := 1; i < stretches; i++ {
		places = append(places, w.Low+float64((w.High-w.Low)*float64(i)/float64(stretches)))
	}
	slices.Sort(places)
	places = slices.Compact(places)
	best, least, at := (*rock)(nil), math.Inf(1), 0
	for i, x := range places {
		k := neutral
		if x != 0 {
			k = of(x)
		}
		if k == nil {
			return // with the run on center somewhere there is no most
		}
		least = math.Min(least, k.whole)
		if best == nil || k.whole > best.whole {
			best, at = k, i
		}
	}
	x := places[at]
	if inside, k := r.closer(places[max(at-1, 0)], x, places[min(at+1, len(places)-1)], best, of); k != nil && k.whole > best.whole {
		best, x = k, inside
	}
	f.Most, f.RSS, f.HeldBy = &best.whole, &best.rss, best.held
	if best.whole-best.least > playSame*best.whole {
		f.Least = &best.least
	}
	if best.whole-least > playSame*best.whole {
		f.At = &x
	}
	for i, j := range r.g.slots.joints.list {
		if best.joints[i] > 0 {
			f.Joints = append(f.Joints, JointShare{j.PlayJoint, best.joints[i]})
		}
	}
	sortJoints(f.Joints)
}

// closer looks for the most about x, between two places where it is no more: by parabolas
// through three places, and where these don't help by golden section (Brent's method: R. P.
// Brent, Algorithms for Minimization without Derivatives, 1973, ch. 5). nil: it is most at x.
func (r *rocker) closer(a, x, b float64, at *rock, of func(x float64) *rock) (float64, *rock) {
	const golden = 0.3819660112501051
	near := float64(playNear * (b - a))
	if x == a || x == b { // an end of the travel: most there, unless it rises inward
		inward := x + float64(1e-3*(a+b-2*x))
		if k := of(inward); k == nil || k.whole <= at.whole {
			return 0, nil
		}
		x = a + float64(golden*(b-a))
		if at = of(x); at == nil {
			return 0, nil
		}
	}
	best, v, w := x, x, x
	most, fv, fw := at, at.whole, at.whole
	d, e := 0.0, 0.0
	for range playCloser {
		middle := a + 0.5*(b-a)
		if math.Abs(best-middle) <= 2*near-0.5*(b-a) {
			break
		}
		step := 0.0
		if math.Abs(e) > near {
			p1, q1 := float64((best-w)*(most.whole-fv)), float64((best-v)*(most.whole-fw))
			p := float64((best-v)*q1) - float64((best-w)*p1)
			q := 2 * (q1 - p1)
			if q > 0 {
				p = -p
			} else {
				q = -q
			}
			if math.Abs(p) < math.Abs(0.5*q*e) && p > q*(a-best) && p < q*(b-best) {
				step, e = p/q, d
			}
		}
		if step == 0 {
			if e = a - best; best < middle {
				e = b - best
			}
			step = float64(golden * e)
		}
		if math.Abs(step) < near {
			step = math.Copysign(near, step)
		}
		d = step
		u := best + step
		k := of(u)
		if k == nil {
			return 0, nil
		}
		if k.whole >= most.whole {
			if u < best {
				b = best
			} else {
				a = best
			}
			v, fv, w, fw, best, most = w, fw, best, most.whole, u, k
			continue
		}
		if u < best {
			a = u
		} else {
			b = u
		}
		switch {
		case k.whole >= fw || w == best:
			v, fv, w, fw = w, fw, u, k.whole
		case k.whole >= fv || v == best || v == w:
			v, fv = u, k.whole
		}
	}
	return best, most
}

// ofOutput is the rock of an output with the control held at x; nil where it can't be
// told.
func (r *rocker) ofOutput(i int, x float64) *rock {
	l := r.g.beside(x)
	if l == nil {
		return nil
	}
	k, _ := r.output(i, l)
	return k
}

// output is that with the run linearized, and the output's rate by the control.
func (r *rocker) output(i int, l *linear) (*rock, float64) {
	if !l.gradient(r.room, func(l *linear) { r.seeds[i](l, 1) }) {
		return nil, 0
	}
	k := &rock{joints: make([]float64, 0, len(r.g.slots.joints.list))}
	squares := 0.0
	for n := range r.g.slots.joints.list {
		most, least := r.g.slots.joints.gives(n, r.room.drawn)
		by := 2 * most
		k.joints = append(k.joints, by)
		k.whole += by
		k.least += 2 * least
		squares += float64(by * by)
	}
	k.rss = math.Sqrt(squares)
	if math.IsNaN(k.whole) || k.whole > math.MaxFloat64 {
		return nil, 0
	}
	return k, float64(r.room.free[r.g.now.input] * r.g.now.unit)
}

// ofControl is the rock of the control at x with every output that it moves held: it goes
// as far as the output that lets it go least. nil where none holds it there.
func (r *rocker) ofControl(x float64) (best *rock) {
	l := r.g.beside(x)
	if l == nil {
		return nil
	}
	least := math.Inf(1) // the one that lets it go least may be another
	for i, o := range r.g.m.run.Outputs {
		if !r.moved[i] {
			continue
		}
		k, rate := r.output(i, l)
		rate = math.Abs(rate)
		if k == nil || !(rate > r.g.s.p.probes[r.g.s.ratios[i]].noise) {
			continue // it halts there, or can't be told, and holds nothing
		}
		least = math.Min(least, k.least/rate)
		if best != nil && k.whole/rate >= best.whole {
			continue
		}
		k.held = o
		k.whole, k.rss = k.whole/rate, k.rss/rate
		for n := range k.joints {
			k.joints[n] /= rate
		}
		best = k
	}
	if best != nil {
		best.least = least
	}
	return best
}
