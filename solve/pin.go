// Layer: pose.

package solve

import "fullfree/linkage"

// pin is one equation of a joint: the two points lie at one place along a direction.
// A joint has three of them, in space; two where what it joins moves square to one axis, or
// about one place, so that the third is kept by that.
type pin struct {
	joint *linkage.Joint
	frame int // the body whose direction it is
	along vec // as drawn
}

// pinWay is the direction now.
func (st *state) pinWay(p *pin) vec { return st.frames[p.frame].turn.apply(p.along) }

// pinLength is how far apart the two points are along it.
func (st *state) pinLength(l *constraint) float64 {
	return st.pinWay(l.pin).Dot(st.place(l.from).Sub(st.place(l.to)))
}
