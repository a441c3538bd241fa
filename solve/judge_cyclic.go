// Layer: verdict.

package solve

import (
	"encoding/binary"
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// Where around the turn a hand takes pitch off a blade is judged by what the hand does: the
// first harmonic with its control at a setting away from neutral, less that with the control
// at neutral and all others as they are. So it is judged with the collective and the other
// stick anywhere, which move the whole harmonic too. Which way the hand has gone is taken from the
// place that the file names, not from signs or words.

// handPitch is what a hand does to the pitch of a blade at one setting.
type handPitch struct {
	at, from *sweeper // with the control away, and at neutral
	back     bool     // the hand has gone the other way than the file says
	amiss    Why      // Plain where it can be judged
	// amplitude is how far the hand moves the cyclic pitch, degrees; cosine and sine are of
	// that by the control's position, plus with the leading edge up.
	amplitude, cosine, sine float64
	least                   float64 // the azimuth of least pitch
	off                     float64 // how far that is past where it is to be, from -180 to 180
}

// bladeCycle is the cycle of a blade in a sweep, with the sign by which plus is leading edge
// up; amiss is what is in the way of it.
type bladeCycle struct {
	*Cycle
	sign  float64
	amiss Why
}

// handPitches lists that of every setting away from neutral; why says what is in the way
// of all.
func (m *Mechanism) handPitches(i int, r *linkage.Requirement, about []*sweeper) (list []handPitch, why Why) {
	blade, ok := BladeOf(m.run, r.Of[0].Output)
	if !ok {
		return nil, NoBlade
	}
	if len(about) == 0 {
		return nil, NoFullTurn
	}
	known := map[*sweeper]*bladeCycle{}
	for _, s := range about {
		if !s.sweep.GoesRound() {
			return nil, NoFullTurn
		}
		k := &bladeCycle{}
		k.Cycle, k.sign, k.amiss = s.pitchIn(i, r)
		known[s] = k
	}
	pairs := newTwins(about, r.Control)
	for _, s := range about {
		if from := pairs.neutral(s); from != nil {
			h := handPitch{at: s, from: from}
			m.tellHandPitch(&h, r, blade, known)
			list = append(list, h)
		}
	}
	return list, HeldAtOnePlace
}

// twins finds, of sweeps of one control, which have another control at neutral.
type twins struct {
	c     *linkage.Control // nil: none has
	least float64          // where it is held nearest to neutral
	at    map[string]*sweeper
}

func newTwins(about []*sweeper, c *linkage.Control) *twins {
	t := &twins{c: c, least: math.Inf(1), at: map[string]*sweeper{}}
	if c == nil {
		return t
	}
	for _, at := range c.Held {
		if math.Abs(at) < math.Abs(t.least) {
			t.least = at
		}
	}
	for _, s := range about {
		if key, away := t.key(s); !away {
			t.at[key] = s
		}
	}
	return t
}

// key is where all controls but that one are held in a sweep; away says that it is held
// anywhere but nearest to neutral.
func (t *twins) key(s *sweeper) (key string, away bool) {
	by := []byte(s.sweep.Control.Name)
	for _, h := range s.sweep.Held {
		if h.Control == t.c {
			away = h.At != t.least
			continue
		}
		by = binary.BigEndian.AppendUint64(by, math.Float64bits(h.At))
	}
	return string(by), away
}

// neutral is the sweep that has the control nearest to neutral and all others where one has
// them; nil where the one has it there itself.
func (t *twins) neutral(s *sweeper) *sweeper {
	key, away := t.key(s)
	if !away {
		return nil
	}
	return t.at[key]
}

// tellHandPitch finds that of one setting.
func (m *Mechanism) tellHandPitch(h *handPitch, r *linkage.Requirement, blade Blade, known map[*sweeper]*bladeCycle) {
	there, before := known[h.at], known[h.from]
	if h.amiss = there.amiss; h.amiss == Plain {
		h.amiss = before.amiss
	}
	if h.amiss != Plain {
		return
	}
	along, ok := handAlong(h.at, h.from, &r.Places[0])
	if !ok {
		h.amiss = NeverAlong
		return
	}
	sign := there.sign
	h.back = along < 0
	h.cosine, h.sine = float64(sign*(there.Cosine-before.Cosine)), float64(sign*(there.Sine-before.Sine))
	if h.amplitude = elementary.Hypot(h.cosine, h.sine); h.amplitude < LeastAmplitude {
		h.amiss = TooLittleCyclic
		return
	}
	h.least = blade.At(elementary.Atan2(-h.sine, -h.cosine) / degree)
	to := r.Over.At(m.rotorOf(h.at.sweep.Control))
	if h.back != r.Over.Most { // least where it is to be most otherwise
		to += wholeTurn / 2
	}
	h.off = math.Remainder(h.least-to, wholeTurn)
}

// handAlong is how far a place has gone along its direction from one sweep's neutral to
// another's; false where that is hardly a part of its way.
func handAlong(at, from *sweeper, k *linkage.PlaceMotion) (along float64, ok bool) {
	var stands [2]vec
	for i, s := range []*sweeper{from, at} {
		if !s.solveAt(0) {
			return 0, false
		}
		stands[i] = s.p.st.place(s.m.endAt(k.Place))
	}
	way := stands[1].Sub(stands[0])
	along = way.Dot(k.Along)
	return along, math.Abs(along) > float64(leastAlong*way.Norm()) && way.Norm() > at.m.lengthNoise(ContactNoise)
}

// judgeCyclicSense judges where around the turn a hand takes the pitch off.
func (m *Mechanism) judgeCyclicSense(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Unit = degrees
	list, why := m.handPitches(i, r, about)
	amiss, by := Plain, math.Inf(1)
	if len(list) == 0 {
		amiss = why
	}
	for _, h := range list {
		if h.amiss != Plain {
			amiss = h.amiss
			if h.amiss == TooLittleCyclic {
				by = math.Min(by, h.amplitude)
			}
			continue
		}
		if j.worse(math.Abs(h.off), nil, h.at.sweep.Index, 1) {
			j.Reaches, j.By, j.End = h.least, h.amplitude, "there"
			if h.back {
				j.End = "back"
			}
		}
	}
	j.decide(r.Within, 1)
	if amiss != Plain && j.Verdict != FallsShort {
		j.Verdict, j.Why, j.Worst = CannotTell, amiss, nil
		if amiss == TooLittleCyclic {
			j.By = by
		}
	}
	return j
}
