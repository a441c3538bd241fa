// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/solve/internal/parallel"
)

// Rotor is what the controls of a rotor do to the pitch of its blades: read around the whole
// turn with the collective at both ends of its travel and half way, and at each of these with
// the stick at neutral and each way all the way.
type Rotor struct {
	Rotor   *linkage.Rotor
	Azimuth *linkage.Control // what turns the hub
	// Collective is the control that moves the mean most, nil where none moves it more than
	// the harmonic. At is where it stands for least pitch, the middle of its travel, and where
	// it stands for most.
	Collective *linkage.Control
	At         [3]float64
	Sticks     []Stick
	Blades     []BladePitch
}

// Stick is a control that moves the harmonic more than the mean.
type Stick struct {
	Control *linkage.Control
	// At are the ends of its travel, and Toward which way the hand goes to them; empty where
	// the file doesn't say.
	At     [2]float64
	Toward [2]linkage.Direction
}

// BladePitch is the pitch of one blade, plus with the leading edge up where Blade.Pitch is
// not 0, else as its gauge reads.
type BladePitch struct {
	Output *linkage.Output
	Blade
	// Cells are by where the collective stands (low, middle, high; of none the one), then
	// neutral, then both ends of each stick: forward before aft, left before right.
	Cells []PitchCell
}

// PitchCell is the pitch around one turn.
type PitchCell struct {
	Collective int // 0, 1, 2: at Rotor.At
	Stick, End int // Stick is -1 at neutral
	// Told says that the run can be set so, and goes round.
	Told bool
	// At is the pitch with the blade over the tail, the right, the nose and the left.
	At [4]float64
	// Mean is the collective pitch, Amplitude the cyclic, MostAt the azimuth at which that
	// is most; nil where it is too little to tell.
	Mean, Amplitude float64
	MostAt          *float64
	// cosine and sine are of the harmonic by azimuth.
	cosine, sine float64
}

// Quarters are the azimuths at which pitch is told, and where the blade is then: of a rotor
// that turns clockwise the right comes last.
func (r *Rotor) Quarters() [4]float64 {
	if r != nil && r.Rotor != nil && r.Rotor.Clockwise {
		return [4]float64{0, 270, 180, 90}
	}
	return [4]float64{0, 90, 180, 270}
}

// AddRotor fills in what the controls do to the pitch of the blades, where the run has a
// rotor, a control that turns its hub all the way round, and an output of a blade. As with
// AddBands the result is not to be read elsewhere until this is done. The error is of a
// result that isn't this mechanism's, or ErrStopped; nothing is filled in then.
func (m *Mechanism) AddRotor(result *Result) error {
	if err := m.made(result); err != nil {
		return err
	}
	t := m.newRotorTeller()
	if t == nil {
		return nil
	}
	t.roles(result.reading())
	if m.Stopped() {
		return ErrStopped
	}
	t.fill()
	if m.Stopped() {
		return ErrStopped
	}
	result.Rotor = &t.Rotor
	for _, c := range t.cyclic {
		for i := range t.Blades {
			result.leaveCyclic(c, t.Blades[i].Output)
		}
	}
	return nil
}

// rotorTeller finds what is told of a rotor.
type rotorTeller struct {
	Rotor
	m *Mechanism // steps as long as a glance's, and nothing judged
	// cyclic are the controls that move the harmonic more than the mean.
	cyclic []*linkage.Control
}

func (m *Mechanism) newRotorTeller() *rotorTeller {
	t := &rotorTeller{}
	i := slices.IndexFunc(m.run.Controls, func(c *linkage.Control) bool { return mayGoRound(c) && m.turnsHub(c) })
	if i < 0 {
		return nil
	}
	t.Azimuth = m.run.Controls[i]
	t.Rotor.Rotor = m.rotorOf(t.Azimuth)
	for _, o := range m.run.Outputs {
		if b, ok := BladeOf(m.run, o); ok && o.Part != nil && o.Angular() && o.In == t.Azimuth.In {
			t.Blades = append(t.Blades, BladePitch{Output: o, Blade: b})
		}
	}
	if len(t.Blades) == 0 {
		return nil
	}
	own := *m
	own.stride, own.lean, own.leanLabels, own.room, own.tally, own.Progress = glanceStride, true, true, nil, nil, nil
	t.m = &own
	return t
}

// roles finds the ends of every other control's travel, and what it does to the pitch.
func (t *rotorTeller) roles(result *Result) {
	type role struct {
		control        *linkage.Control
		at             [2]float64
		mean, harmonic float64
		falls          bool // the mean goes down from the low end to the high end
		toward         [2]linkage.Direction
	}
	var list []role
	for _, c := range t.m.run.Controls {
		w := neutralSweep(result, c)
		if c == t.Azimuth || w == nil || !t.m.related(c, t.Azimuth) {
			continue
		}
		k := role{control: c, at: w.holdableEnds(), toward: w.of.towards()}
		var ends [2][]PitchCell
		parallel.Each(2, func(i int) { ends[i] = t.around(map[*linkage.Control]float64{c: k.at[i]}) })
		for b := range t.Blades {
			if low, high := &ends[0][b], &ends[1][b]; low.Told && high.Told {
				if by := math.Abs(high.Mean - low.Mean); by > k.mean {
					k.mean, k.falls = by, high.Mean < low.Mean
				}
				k.harmonic = math.Max(k.harmonic, elementary.Hypot(high.cosine-low.cosine, high.sine-low.sine))
			}
		}
		list = append(list, k)
	}
	most := 0.0
	for _, k := range list {
		if k.mean >= LeastAmplitude && k.mean > k.harmonic && k.mean > most {
			most = k.mean
			low, high := k.at[0], k.at[1]
			if k.falls { // low is where there is less pitch
				low, high = high, low
			}
			t.Collective, t.At = k.control, [3]float64{low, low + 0.5*(high-low), high}
		}
	}
	for _, k := range list {
		if k.harmonic >= LeastAmplitude && k.control != t.Collective {
			t.Sticks = append(t.Sticks, Stick{k.control, k.at, k.toward})
			if k.harmonic > k.mean {
				t.cyclic = append(t.cyclic, k.control)
			}
		}
	}
}

// ends are both ends of its travel in the order in which they are told: forward before aft,
// left before right.
func (s *Stick) ends() [2]int {
	if s.Toward[1] == linkage.Forward || s.Toward[1] == linkage.Left {
		return [2]int{1, 0}
	}
	return [2]int{0, 1}
}

// neutralSweep is the sweep of a control with the others nearest to neutral; nil where it has
// none.
func neutralSweep(r *Result, c *linkage.Control) *Sweep {
	var list []*sweeper
	for _, w := range r.Sweeps {
		list = append(list, w.of)
	}
	if s := nearestNeutral(list, c); s != nil {
		return s.sweep
	}
	return nil
}

// holdableEnds are the ends of a travel, on center a little short of it: there nothing is
// told of what others do.
func (w *Sweep) holdableEnds() [2]float64 {
	at := [2]float64{w.Low, w.High}
	for i := range at {
		if e := w.Ends[i].Cause; e == ByToggle || e == ByChangePoint {
			at[i] = float64(at[i] * (1 - shortOfCenter))
		}
	}
	return at
}

// towards tells which way a hand goes to either end of a control's travel: by the file's
// words, else by where it is held.
func (s *sweeper) towards() (to [2]linkage.Direction) {
	c := s.sweep.Control
	for i, words := range []string{c.Minus, c.Plus} {
		if label, ok := linkage.ReadLabel(words, false); ok && level(label.Direction) {
			to[i], to[1-i] = label.Direction, label.Direction.Opposite()
		}
	}
	if to[0] != "" || c.Grip == nil {
		return to
	}
	own := s.apart()
	g, ok := own.wayOf(*c.Grip)
	if !ok {
		return to
	}
	for i := range to {
		for _, d := range linkage.Directions {
			if along, known := s.m.run.Home(c.In).Direction(d); known && level(d) && cosine(g.toEnd[i], along, 0) > math.Sqrt(0.5) {
				to[i] = d
			}
		}
	}
	return to
}

// level reports whether a direction is one that a stick goes to: neither up nor down.
func level(d linkage.Direction) bool { return d != linkage.Up && d != linkage.Down }

// fill tells every cell.
func (t *rotorTeller) fill() {
	type cell struct {
		PitchCell
		at map[*linkage.Control]float64
	}
	var cells []cell
	for level := range t.At {
		if t.Collective == nil && level > 0 {
			break
		}
		base := map[*linkage.Control]float64{}
		if t.Collective != nil {
			base[t.Collective] = t.At[level]
		}
		cells = append(cells, cell{PitchCell{Collective: level, Stick: -1}, base})
		for i, s := range t.Sticks {
			for _, end := range s.ends() {
				at := s.At[end]
				to := map[*linkage.Control]float64{s.Control: at}
				if t.Collective != nil {
					to[t.Collective] = t.At[level]
				}
				cells = append(cells, cell{PitchCell{Collective: level, Stick: i, End: end}, to})
			}
		}
	}
	told := make([][]PitchCell, len(cells))
	parallel.Each(len(cells), func(i int) { told[i] = t.around(cells[i].at) })
	for b := range t.Blades {
		for i, k := range cells {
			own := told[i][b]
			own.Collective, own.Stick, own.End = k.Collective, k.Stick, k.End
			t.Blades[b].Cells = append(t.Blades[b].Cells, own)
		}
	}
}

// around tells the pitch of every blade around the turn with some controls held, all others
// at neutral.
func (t *rotorTeller) around(at map[*linkage.Control]float64) []PitchCell {
	list := make([]PitchCell, len(t.Blades))
	var held []Held
	for _, c := range t.m.run.Controls {
		if c != t.Azimuth {
			held = append(held, Held{c, at[c]})
		}
	}
	s, fault := t.m.sweepOne(t.Azimuth, held, t.m.newWork(t.m.stepsOf(t.Azimuth)))
	if fault != nil {
		return list
	}
	probes, units := make([]int, len(t.Blades)), make([]linkage.Unit, len(t.Blades))
	for i := range t.Blades {
		probes[i], units[i] = s.outputs[t.Blades[i].Output.Index], degrees
	}
	for i, k := range s.cycles(probes, units) {
		if k != nil {
			list[i] = t.cell(s, probes[i], &t.Blades[i].Blade, k)
		}
	}
	return list
}

// cell is what a cycle is by azimuth, plus with the leading edge up.
func (t *rotorTeller) cell(s *sweeper, probe int, b *Blade, k *Cycle) (c PitchCell) {
	sign := 1.0
	if b.Pitch < 0 {
		sign = -1
	}
	for i, azimuth := range t.Quarters() {
		if !s.solveAt(b.Control(azimuth)) {
			return c
		}
		v, _ := s.p.probes[probe].value(s.p)
		c.At[i] = float64(sign * v)
	}
	c.Told, c.Mean, c.Amplitude = true, float64(sign*k.Mean), k.Amplitude
	// Mean + Cosine cos x + Sine sin x, with x from the azimuth.
	sin, cos := elementary.Sincos(float64(b.Azimuth * degree))
	cosine, sine := float64(sign*k.Cosine), float64(sign*k.Sine*b.With)
	c.cosine = float64(cosine*cos) - float64(sine*sin)
	c.sine = float64(cosine*sin) + float64(sine*cos)
	c.MostAt = azimuthOf(c.cosine, c.sine)
	return c
}

// azimuthOf is where a harmonic is most; nil where it is too little to tell.
func azimuthOf(cosine, sine float64) *float64 {
	if elementary.Hypot(cosine, sine) < LeastAmplitude {
		return nil
	}
	at := elementary.Atan2(sine, cosine) / degree
	if at < 0 {
		at += wholeTurn
	}
	return &at
}

// Cell finds a cell of a blade; nil where it isn't told.
func (b *BladePitch) Cell(collective, stick, end int) *PitchCell {
	i := slices.IndexFunc(b.Cells, func(c PitchCell) bool {
		return c.Collective == collective && c.Stick == stick && (stick < 0 || c.End == end)
	})
	if i < 0 || !b.Cells[i].Told {
		return nil
	}
	return &b.Cells[i]
}

// Middle is where the collective stands for what is told of a stick.
func (r *Rotor) Middle() int {
	if r.Collective == nil {
		return 0
	}
	return 1
}

// LeastWith is the azimuth at which moving a stick to an end takes off most pitch, and how
// much, with the collective in the middle; nil where that is too little to tell.
func (r *Rotor) LeastWith(b *BladePitch, stick, end int) (at *float64, by float64) {
	from, to := b.Cell(r.Middle(), -1, 0), b.Cell(r.Middle(), stick, end)
	if from == nil || to == nil {
		return nil, 0
	}
	cosine, sine := from.cosine-to.cosine, from.sine-to.sine
	return azimuthOf(cosine, sine), elementary.Hypot(cosine, sine)
}

// CyclicByCollective is the most that the cyclic pitch differs between the low end, the middle
// and the high end of the collective, the stick at neutral; false where that isn't told.
func (r *Rotor) CyclicByCollective() (by float64, ok bool) {
	for i := range r.Blades {
		for level := range r.At {
			for other := range level {
				if a, b := r.Blades[i].Cell(other, -1, 0), r.Blades[i].Cell(level, -1, 0); a != nil && b != nil {
					by, ok = math.Max(by, elementary.Hypot(b.cosine-a.cosine, b.sine-a.sine)), true
				}
			}
		}
	}
	return by, ok
}

// CollectiveByCyclic is the most that a stick all the way to one side changes the collective
// pitch; false where that isn't told.
func (r *Rotor) CollectiveByCyclic() (by float64, ok bool) {
	for i := range r.Blades {
		b := &r.Blades[i]
		for j := range b.Cells {
			c := &b.Cells[j]
			from := b.Cell(c.Collective, -1, 0)
			if c.Stick >= 0 && c.Told && from != nil {
				by, ok = math.Max(by, math.Abs(c.Mean-from.Mean)), true
			}
		}
	}
	return by, ok
}

// Differ is the most that two blades differ at the same azimuth with all controls alike, over
// the quarters; false of fewer than two.
func (r *Rotor) Differ() (by float64, ok bool) {
	for i := range r.Blades {
		for j := range i {
			a, b := &r.Blades[i], &r.Blades[j]
			for k := range a.Cells {
				if !a.Cells[k].Told || !b.Cells[k].Told {
					continue
				}
				for q, v := range a.Cells[k].At {
					by, ok = math.Max(by, math.Abs(v-b.Cells[k].At[q])), true
				}
			}
		}
	}
	return by, ok
}
