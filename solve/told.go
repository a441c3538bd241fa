// Layer: pose.

package solve

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// telling is one number by which it is told where a part stands, with its name: "rocker",
// "beam.x", "ring.tilt-x".
type telling struct {
	name string
	k    measure
}

// tellings are the numbers by which it is told where a part stands: those that something
// holds.
func (m *Mechanism) tellings(p *linkage.Part) (list []telling) {
	add := func(ending string, k measure) { list = append(list, telling{p.Name + ending, k}) }
	first := m.bodies[m.baseOf(p)].first
	switch p.Motion {
	case linkage.Floats:
		for i, axis := range []string{".x", ".y", ".turn"} {
			add(axis, m.freedomMeasure(first+i))
		}
	case linkage.TurnsAndSlides:
		add(".turn", m.partMeasure(p))
		add(".slide", m.freedomMeasure(first))
	case linkage.Tilts, linkage.Roams:
		// How a part stands that turns idly about a line isn't held, but for the line.
		line := m.bodies[m.partBody[p.Index]].line
		if line == (vec{}) || inLine(line, p.SquareTo) {
			for _, axis := range tiltAxes(p.SquareTo) {
				add(".tilt-"+axis.letter, m.tiltMeasure(p, axis.along))
			}
		}
		if line == (vec{}) {
			add(".turn", m.partMeasure(p))
		}
		if p.Motion == linkage.Roams {
			for i, axis := range []string{".x", ".y", ".z"} {
				add(axis, m.freedomMeasure(first+i))
			}
		}
	default:
		add("", m.partMeasure(p))
	}
	return list
}

// named is the number of a part that is told by a name; ok is false where none is.
func (m *Mechanism) named(p *linkage.Part, name string) (k measure, ok bool) {
	for _, t := range m.tellings(p) {
		if t.name == name {
			return t.k, true
		}
	}
	return measure{}, false
}

// tiltAxis is a direction, square to a part's square-to as drawn, towards which its tilt
// is told, and the letter of the axis of the drawing that it lies nearest to.
type tiltAxis struct {
	letter string
	along  vec
}

// tiltAxes are two such, square to each other: those of the letters that square-to lies
// farthest from.
func tiltAxes(squareTo vec) [2]tiltAxis {
	axes := [3]tiltAxis{{"x", vec{X: 1}}, {"y", vec{Y: 1}}, {"z", vec{Z: 1}}}
	near := 0
	for i, a := range axes {
		if math.Abs(a.along.Dot(squareTo)) > math.Abs(axes[near].along.Dot(squareTo)) {
			near = i
		}
	}
	first, second := axes[[3]int{1, 0, 0}[near]], axes[[3]int{2, 2, 1}[near]]
	first.along = perpendicular(first.along, squareTo).Unit()
	across := squareTo.Cross(first.along)
	second.along = across.Scale(math.Copysign(1, across.Dot(second.along)))
	return [2]tiltAxis{first, second}
}

// tilt is how far a direction of a body leans towards another one, which stands still.
type tilt struct {
	body    int
	of      vec // as drawn
	towards vec
	times   float64 // it is told so many times over
}

// tiltMeasure tells how far a part's square-to leans along a direction, from as drawn.
func (m *Mechanism) tiltMeasure(p *linkage.Part, towards vec) measure {
	k := measure{unit: degrees, tilt: &tilt{m.partBody[p.Index], p.SquareTo, towards, 1}}
	k.reads = -asinDegrees(p.SquareTo.Dot(towards))
	return k
}

// value is the lean, degrees.
func (t *tilt) value(st *state) float64 {
	return float64(t.times * asinDegrees(st.frames[t.body].turn.apply(t.of).Dot(t.towards)))
}

// uprightCosine is the least cosine of a lean by which its rates are told: nearer to leaning
// all the way over a lean has none.
const uprightCosine = 1e-6

// cosineOf is that of the lean.
func cosineOf(sine float64) float64 {
	return math.Max(uprightCosine, math.Sqrt(math.Max(0, (1-sine)*(1+sine))))
}

// rates are its first and second rates, degrees for each radian or run unit of the control.
func (t *tilt) rates(st *state, r *rates) (d, dd float64) {
	u := st.frames[t.body].turn.apply(t.of)
	du, ddu := r.turned(t.body, u)
	sine, ds, dds := u.Dot(t.towards), du.Dot(t.towards), ddu.Dot(t.towards)
	cosine := cosineOf(sine)
	d = ds / cosine
	dd = dds/cosine + float64(sine*d*d)/cosine
	return float64(t.times * d / degree), float64(t.times * dd / degree)
}

// twist is how far a body has turned about a direction of its own, against what carries it:
// of its turn from as drawn what is left when it is tilted back the shortest way.
type twist struct {
	first int // the first of its quaternion's freedoms
	about vec // as drawn
	times float64
}

// value is the turn, degrees; it goes on past a full one.
func (t *twist) value(st *state) float64 {
	q := orientation(st.q[t.first:])
	return float64(t.times * 2 * elementary.Atan2(q.v.Dot(t.about), q.w) / degree)
}

// leanedOver is the least length of what of a quaternion tells the turn: tilted nearly by half
// a turn a part has no turn of its own, and no rate is told.
const leanedOver = 1e-6

// slopes are its derivatives by w and by the part of v along the direction, degrees.
func (t *twist) slopes(q quaternion) (byW, byV float64) {
	p := q.v.Dot(t.about)
	n := float64(q.w*q.w) + float64(p*p)
	if n <= leanedOver*leanedOver {
		return 0, 0
	}
	per := float64(t.times*2/degree) / n
	return float64(-p * per), float64(q.w * per)
}

// rates are its first and second rates.
func (t *twist) rates(st *state, r *rates) (d, dd float64) {
	q, dq, ddq := orientation(st.q[t.first:]), quaternionRate(r.d[t.first:]), quaternionRate(r.dd[t.first:])
	byW, byV := t.slopes(q)
	p, dp, ddp := q.v.Dot(t.about), dq.v.Dot(t.about), ddq.v.Dot(t.about)
	n := float64(q.w*q.w) + float64(p*p)
	if n <= leanedOver*leanedOver {
		return 0, 0
	}
	d = float64(byW*dq.w) + float64(byV*dp)
	dd = float64(byW*ddq.w) + float64(byV*ddp) - float64(d*2*(float64(q.w*dq.w)+float64(p*dp)))/n
	return d, dd
}

// asinDegrees turns the sine of an angle into degrees.
func asinDegrees(sine float64) float64 {
	return elementary.Asin(math.Min(1, math.Max(-1, sine))) / degree
}
