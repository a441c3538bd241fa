// Layer: events.

package solve

import (
	"math"
	"slices"

	"fullfree/solve/internal/num"
)

// A step of several unknowns may end in a fold, where the control can go no
// further while the parts could, and close to one Newton's method at a given
// control position finds nothing, or another assembly. There the control's
// position is made one more unknown and the run is followed along its own curve
// (pseudo-arclength continuation, H. B. Keller 1977, from memory). With J the
// step's matrix bordered by the drive, and t the unit tangent, J t = 0:
//
//   - where the control's share of t changes its sign the curve folds: a toggle;
//   - where the determinant of J bordered by t changes its sign two curves cross,
//     which it does for no fold: a change point.
//
// These are the conditions on the second-order terms that tell a fold from a
// crossing: at a fold the left null vector meets the drive, and the second
// derivative along the null vector doesn't vanish; where it doesn't meet the
// drive a second branch passes through.

const (
	// arcFirst is the length of the first step along the curve, radians or shares
	// of the run's size: what a quarter degree of a control moves a part that
	// moves as fast.
	arcFirst = 0.004
	// arcLongest is the longest: half of what a part may move between two samples.
	arcLongest = 0.5 * longestMove
	// arcShortest is where halving ends and the curve is given up: at a turn as
	// sharp as that no digits of a place would be left.
	arcShortest = 1e-9
	// arcSteps bounds how many steps are tried between two samples: a part may go
	// through ten full turns in them.
	arcSteps = 2000
	// arcTurn is the cosine of the most that the tangent may turn in one step,
	// about 15 degrees: another branch that crosses this one at a greater angle
	// is not taken for it.
	arcTurn = 0.966
	// arcAgrees is by how much of a step's length the place reached may miss the
	// mean of the tangents at both ends, which misses by about a hundredth for
	// the greatest turn allowed: a branch beside this one lies farther off.
	arcAgrees = 0.02
)

// arc follows one step's unknowns and the control together. Unknowns come
// first, the control last, each in units by which radians and lengths compare.
type arc struct {
	w       *walk
	step    int
	scale   []float64 // run unit, radian or control unit for one of ours
	y, t    []float64 // the place and the tangent there
	side    float64   // the sign of the bordered determinant there
	length  float64   // of the next step
	gone    float64   // of the last one
	from    *sample   // where what isn't the step's own is predicted from
	lu      num.LU
	b       []float64
	residue []float64
	y0, t0  []float64
}

// arcEvent is what a step along the curve meets.
type arcEvent int

const (
	arcGoesOn  arcEvent = iota
	arcFolds            // the control turns back: the arc stands where it does
	arcCrosses          // another branch crosses: the arc stands where it does
	arcGivenUp          // no step however short follows the curve
)

// newArc starts along the curve of a step at a sample that has rates, outward;
// nil where there is no curve, since what a pair of slack cables holds floats.
func (w *walk) newArc(from *sample, step int) *arc {
	m := w.p.m
	s := &m.steps[step]
	if s.kind == closePull && from.slack[m.constraints[s.constraints[0]].pull] || !from.valid {
		return nil
	}
	n := len(s.unknowns) + 1
	room := make([]float64, 7*n)
	cut := func() (v []float64) { v, room = room[:n:n], room[n:]; return v }
	c := &arc{w: w, step: step, from: from, length: arcFirst, scale: cut(), y: cut(), t: cut(), b: cut(), residue: cut(), y0: cut(), t0: cut()}
	for j, f := range s.unknowns {
		c.scale[j] = w.p.sizeOf(f)
		c.y[j] = from.q[f] / c.scale[j]
		c.t[j] = float64(from.d[f] / c.scale[j] * w.dir)
	}
	c.scale[n-1] = w.p.sizeOf(w.p.input) / w.p.unit
	c.y[n-1] = from.x / c.scale[n-1]
	c.t[n-1] = w.dir / c.scale[n-1]
	normalize(c.t)
	if _, ok := c.assemble(c.t); !ok {
		return nil
	}
	c.side = c.lu.Sign()
	return c
}

func normalize(t []float64) {
	sum := 0.0
	for _, v := range t {
		sum += float64(v * v)
	}
	for i := range t {
		t[i] /= math.Sqrt(sum)
	}
}

// x is the control's position where the arc stands.
func (c *arc) x() float64 { n := len(c.y); return float64(c.y[n-1] * c.scale[n-1]) }

// onward is the control's share of the tangent, above 0 while it moves outward.
func (c *arc) onward() float64 { return float64(c.t[len(c.t)-1] * c.w.dir) }

// advance goes one step along the curve, to what it meets first.
func (c *arc) advance() arcEvent {
	copy(c.y0, c.y)
	copy(c.t0, c.t)
	for ; c.length >= arcShortest; c.length /= 2 {
		side, ok := c.correct(c.length)
		if !ok {
			continue
		}
		c.gone = c.length
		folds, crosses := c.onward() <= 0, side != c.side
		switch {
		case folds && crosses:
			continue // which comes first shows in a shorter step
		case folds:
			if c.settleFold() {
				return arcFolds
			}
			continue
		case crosses:
			c.settleCrossing()
			return arcCrosses
		}
		if c.mayFoldTwice() {
			continue
		}
		c.length = math.Min(2*c.length, arcLongest)
		return arcGoesOn
	}
	copy(c.y, c.y0)
	copy(c.t, c.t0)
	return arcGivenUp
}

const (
	// dips is the share of its lesser end to which the control's share of the
	// tangent may come down in the middle of a step: lower, two folds may lie in it.
	dips = 0.5
	// foldsApart is how short, radians or shares of the run's size, a step is
	// not looked into for two folds: the control would go back by less than its
	// rounding between them.
	foldsApart = 1e-5
)

// mayFoldTwice reports whether the curve may turn back and on again within the
// step just gone, which its ends don't show.
func (c *arc) mayFoldTwice() bool {
	if c.length < foldsApart {
		return false
	}
	end := math.Min(c.onward(), c.t0[len(c.t0)-1]*c.w.dir)
	_, ok := c.correct(0.5 * c.length)
	dipped := !ok || c.onward() < dips*end
	if _, ok = c.correct(c.length); !ok {
		return true
	}
	return dipped
}

// settleFold finds where the control's share of the tangent is 0 within the step
// just gone, and stands there.
func (c *arc) settleFold() bool {
	failed := false
	onward := func(length float64) float64 {
		_, ok := c.correct(length)
		failed = failed || !ok
		return c.onward()
	}
	last := c.onward()
	at := num.Root(onward, 0, float64(c.t0[len(c.t0)-1]*c.w.dir), c.length, last)
	onward(at)
	c.gone = at
	return !failed
}

// crossingBeside is how far to each side of a crossing the curve is still known
// to nearly all digits, radians or shares of the run's size: the cubic through
// both places is as exact as they are.
const crossingBeside = 1e-4

// settleCrossing finds where two branches cross within the step just gone, and
// stands there. At the place itself the equations tell nothing; to either side
// they do, and the curve is smooth: the determinant there tells where it is 0.
func (c *arc) settleCrossing() {
	lo, hi := 0.0, c.length
	for hi-lo > crossingBeside {
		mid := 0.5 * (lo + hi)
		side, ok := c.correct(mid)
		if !ok {
			break
		}
		if side == c.side {
			lo = mid
		} else {
			hi = mid
		}
	}
	beside := math.Max(crossingBeside, 0.5*(hi-lo))
	middle := 0.5 * (lo + hi)
	var determinants, lengths []float64
	var y, t [2][]float64
	for i, away := range []float64{-1, 1, -2, 2} {
		at := middle + float64(away*beside)
		if _, ok := c.correct(at); !ok {
			continue
		}
		determinants, lengths = append(determinants, c.lu.Determinant()), append(lengths, at)
		if i < len(y) {
			y[i], t[i] = slices.Clone(c.y), slices.Clone(c.t)
		}
	}
	if y[0] == nil || y[1] == nil {
		return // where the arc last stood is as near as it gets
	}
	at := num.Limit(determinants, lengths)
	u := math.Max(0, math.Min(1, 0.5*(at-middle)/beside+0.5))
	v := 1 - u
	h := 0.0
	for i := range c.y {
		h += float64((y[1][i] - y[0][i]) * (y[1][i] - y[0][i]))
	}
	h = math.Sqrt(h)
	for i := range c.y {
		c.y[i] = float64(v*v*(1+2*u)*y[0][i]) + float64(u*u*(3-2*u)*y[1][i]) + float64(u*v*h*(float64(v*t[0][i])-float64(u*t[1][i])))
		c.t[i] = float64(v*t[0][i]) + float64(u*t[1][i])
	}
	normalize(c.t)
	c.gone = at
}

// correct finds the place of the curve at the given length along the tangent
// from where the step began, and the tangent and the sign of the bordered
// determinant there; false where there is none that surely lies on the same
// branch.
func (c *arc) correct(length float64) (side float64, ok bool) {
	n := len(c.y)
	for i := range c.y {
		c.y[i] = c.y0[i] + float64(length*c.t0[i])
	}
	last := math.Inf(1)
	for range newtonSteps {
		worst, ok := c.assemble(c.t0)
		if !ok {
			return 0, false
		}
		off := -length
		for i := range c.y {
			off += float64((c.y[i] - c.y0[i]) * c.t0[i])
		}
		c.b[n-1] = off
		if size := c.w.p.m.size; worst <= newtonClose*size || worst >= last && worst <= newtonAccept*size {
			clear(c.b)
			c.b[n-1] = 1
			c.lu.Solve(c.t, c.b)
			normalize(c.t)
			return c.lu.Sign(), c.sameBranch(length)
		}
		last = worst
		c.lu.Solve(c.residue, c.b)
		for i := range c.y {
			c.y[i] -= c.residue[i]
		}
	}
	return 0, false
}

// sameBranch reports whether the place and tangent found lead on from those
// where the step began.
func (c *arc) sameBranch(length float64) bool {
	turned, missed := 0.0, 0.0
	for i := range c.y {
		turned += float64(c.t[i] * c.t0[i])
		miss := c.y[i] - c.y0[i] - float64(length/2*(c.t0[i]+c.t[i]))
		missed += float64(miss * miss)
	}
	return turned >= arcTurn && math.Sqrt(missed) <= float64(arcAgrees*length)+agreeFloor*arcAgrees
}

// assemble closes what comes before the step at the arc's place, fills in by
// how much each of its constraints is off and the factored matrix, bordered by the
// tangent t0, and returns the worst error.
func (c *arc) assemble(t0 []float64) (worst float64, ok bool) {
	p := c.w.p
	m, st, r := p.m, &p.st, p.rates
	s := &m.steps[c.step]
	n := len(c.y)
	c.set()
	clear(r.d)
	clear(r.dd)
	clear(r.moving)
	r.made++
	r.d[p.input] = 1
	r.valid = true
	for i := range c.step {
		if !m.closeStep(st, i) {
			return 0, false
		}
	}
	// Rates need every body in place.
	m.placeAll(st, m.placing)
	for i := range c.step {
		m.differentiateStep(st, r, i)
	}
	for j, f := range s.unknowns {
		m.setFreedom(st, f, float64(c.y[j]*c.scale[j]))
		r.d[f], r.dd[f] = 0, 0
	}
	m.placeAll(st, s.before)
	m.unwindFor(st, s)
	m.placeAll(st, s.within)
	m.moveAll(st, r, s.before)
	m.moveAll(st, r, s.within)
	worst = m.residuals(st, s, c.b)
	c.lu.Reset(n)
	for i, k := range s.constraints {
		l := &m.constraints[k]
		for j, f := range s.unknowns {
			c.lu.Set(i, j, float64(m.slope(st, l, f)*c.scale[j]))
		}
		c.lu.Set(i, n-1, float64(m.drive(st, r, k)*p.unit*c.scale[n-1]))
	}
	for j := range n {
		c.lu.Set(n-1, j, t0[j])
	}
	c.b[n-1] = 0
	return worst, !math.IsNaN(worst) && c.lu.Factor()
}

// set puts the control and the step's unknowns where the arc stands, and all
// else where it is expected from the last sample.
func (c *arc) set() {
	p := c.w.p
	x := c.x()
	for f, q := range p.predict(c.from, x, c.w.guess) {
		p.m.setFreedom(&p.st, f, q)
	}
	for j, f := range p.m.steps[c.step].unknowns {
		p.m.setFreedom(&p.st, f, float64(c.y[j]*c.scale[j]))
	}
	p.m.setFreedom(&p.st, p.input, float64(x*p.unit))
	p.x = x
}

// sampleUpTo closes the whole run where the arc stands, or at x where the step
// just gone went past that. failed is the step that can't be closed there.
func (c *arc) sampleUpTo(x float64) (s *sample, failed closed) {
	p := c.w.p
	at := c.x()
	if (at-x)*c.w.dir > 0 {
		from := float64(c.y0[len(c.y0)-1] * c.scale[len(c.y0)-1])
		length := num.Root(func(length float64) float64 {
			if _, ok := c.correct(length); !ok {
				return 0
			}
			return c.x() - x
		}, 0, from-x, c.gone, at-x)
		c.correct(length)
		at = x
	}
	c.set()
	p.m.setFreedom(&p.st, p.input, float64(at*p.unit))
	p.x = at
	if failed = p.m.solve(&p.st); failed != allClosed {
		return nil, failed
	}
	return p.take(at), allClosed
}

// critical is the singular place where the arc stands after what it met.
func (c *arc) critical(met arcEvent) *critical {
	n := len(c.y)
	k := &critical{kind: Toggle, x: c.x(), step: c.step}
	if met == arcCrosses {
		k.kind = ChangePoint
	}
	for j := range n - 1 {
		k.own = append(k.own, float64(c.y[j]*c.scale[j]))
	}
	return k
}
